//! Boards in bending, and what the bearings carry.

use crate::bench::{added, bearing, bench, lot, place, put, with_ballast, with_bed, without};
use crate::given::{CLOSED, GRAVITY, Says, Want, found, near};
use assess::{Amount, Reach, State, Where, assess};
use plan::{Form, Plan, Strength};
use quantity::{Force, Mass, Pressure};

const PLANK_KG: f64 = 4.0;
const DEPTH_M: f64 = 0.018;
const WIDTH_M: f64 = 0.19;

/// A plank of 1.2 m over tubes at 0.025 m and 0.975 m, one bag of 0.5 m on its middle.
pub(crate) fn planked(bag_kg: f64) -> Plan {
    let apart = with_bed(&without(&bench(), &[0, 1, 2]), |bed| {
        bed.bearings =
            vec![bearing("front tube", [0.0, 0.05], [-0.25, 0.25]), bearing("rear tube", [0.95, 1.0], [-0.25, 0.25])];
    });
    let lots = with_ballast(&apart, |lots| {
        lots.push(lot("plank", Form::Board, [1.2, WIDTH_M, DEPTH_M], PLANK_KG));
        lots[1].grade = Some("C24".to_owned());
        lots[0].weighed.insert(1, Mass::kg(bag_kg));
    });
    added(&lots, vec![place("plank", 1, [0.5, 0.0]), place("sand bag", 1, [0.5, 0.0])])
}

/// Half the bag at 0.475 m less its own arm of 0.125 m, half the plank at 0.475 m less 0.3 m; the
/// tubes carry evenly by symmetry. Source key `beam-theory` (`memory`).
fn moment_n_m(bag_kg: f64) -> f64 {
    0.5 * GRAVITY * (bag_kg * (0.475 - 0.125) + PLANK_KG * (0.475 - 0.3))
}

fn bending_pa(bag_kg: f64) -> f64 {
    moment_n_m(bag_kg) / (WIDTH_M * DEPTH_M * DEPTH_M / 6.0)
}

/// 24 MPa x k_mod 0.9 / gamma_M 1.3 / gamma_G 1.35 x k_h 1.3 of a thin board (source key `en-338`,
/// source key `en-1995-1-1`, source key `en-1990`: seen second-hand).
const ALLOWED_PA: f64 = 24e6 * 0.9 / 1.3 / 1.35 * 1.3;

#[test]
fn a_plank_bends_as_a_beam_and_is_held_against_its_grade() {
    let rows: [(f64, State, Says); 3] = [
        (25.0, State::Holds, &["plank 1", "bending", "C24"]),
        (81.0, State::Near, &["plank 1", "bending", "C24"]),
        (100.0, State::Fails, &["plank 1", "bending", "C24", "Put a second board under it"]),
    ];
    for (bag_kg, state, says) in rows {
        let (value, limit) = (Some(Amount::Stress(bending_pa(bag_kg))), Some(Amount::Stress(ALLOWED_PA)));
        let want = Want { check: "Boards", state, value, limit, place: Where::Pieces(vec![0]), says };
        want.meets(&found(&planked(bag_kg), Reach::Full, "Boards"), 1e-4);
    }
}

#[test]
fn moment_and_shear_of_a_plank_are_those_of_the_beam() {
    let exact = assess(&planked(25.0), Reach::Full).exact.unwrap();
    let bent = exact.boards[0].bent.unwrap();
    near("moment", bent.moment_n_m.abs(), moment_n_m(25.0), 1e-3, "N m");
    // Beside a tube: half of all, less what of the plank overhangs and lies over the tube.
    let shear_n = 0.5 * GRAVITY * (25.0 + PLANK_KG) - GRAVITY * PLANK_KG / 1.2 * (0.6 - 0.45);
    near("shear", bent.shear_n.abs(), shear_n, 1e-3, "N");
}

#[test]
fn a_board_without_a_grade_is_near_and_one_of_an_unknown_grade_is_undecided() {
    for (grade, state) in [(None, State::Near), (Some("driftwood".to_owned()), State::Undecided)] {
        let plan = with_ballast(&planked(25.0), |lots| lots[1].grade = grade);
        let finding = found(&plan, Reach::Full, "Boards");
        let (value, limit, place) = (Some(Amount::Stress(bending_pa(25.0))), None, Where::Pieces(vec![0]));
        let says = &["plank 1", "not known", "Ballast page"];
        Want { check: "Boards", state, value, limit, place, says }.meets(&finding, 1e-4);
    }
}

/// Own figures come before the grade's, and no factor is applied to them.
#[test]
fn a_board_is_held_against_its_builders_own_figures() {
    let is_pa = bending_pa(25.0);
    let rows = [(1.25, State::Holds), (1.1, State::Near), (0.9, State::Fails)];
    for (times, state) in rows {
        let pa = Pressure::pa;
        let own = Strength { bending: pa(times * is_pa), shear: pa(1e9), modulus: pa(9e9) };
        let plan = with_ballast(&planked(25.0), |lots| {
            (lots[1].strength, lots[1].grade) = (Some(own), Some("driftwood".to_owned()));
        });
        let finding = found(&plan, Reach::Full, "Boards");
        let (value, limit) = (Some(Amount::Stress(is_pa)), Some(Amount::Stress(times * is_pa)));
        let (place, says) = (Where::Pieces(vec![0]), &["plank 1", "own figures"]);
        Want { check: "Boards", state, value, limit, place, says }.meets(&finding, 1e-4);
    }
}

/// A plank in the air: nobody knows the forces on it.
#[test]
fn a_board_whose_forces_are_not_known_is_undecided() {
    let finding = found(&put(&planked(25.0), 0, [5.0, 0.0]), Reach::Full, "Boards");
    let (value, limit, place) = (None, None, Where::Pieces(vec![0]));
    let says = &["plank 1", "not decided", "take it for overloaded"];
    Want { check: "Boards", state: State::Undecided, value, limit, place, says }.meets(&finding, CLOSED);
}

/// By symmetry each tube carries half of 75 kg.
#[test]
fn a_bearing_is_held_against_its_allowable_load() {
    let half_n = 75.0 * GRAVITY / 2.0;
    let allowing =
        |n: Option<f64>| with_bed(&bench(), |bed| bed.bearings.iter_mut().for_each(|b| b.allowable = n.map(Force::n)));
    let rows: [(Option<f64>, State, &[&str]); 4] = [
        (Some(1000.0), State::Holds, &["tube carries", "the occupant would put"]),
        (None, State::Holds, &["tube carries", "Not judged: no allowable load"]),
        (Some(400.0), State::Near, &["tube carries", "of 400"]),
        (Some(350.0), State::Fails, &["tube carries", "of 350", "Bring boards and pieces over the other bearings"]),
    ];
    for (allowed, state, says) in rows {
        let findings = assess(&allowing(allowed), Reach::Full).findings;
        let of_check = crate::given::all_of(&findings, "Bearings");
        assert_eq!(of_check.len(), 2, "{of_check:?}");
        for (finding, name) in of_check.iter().zip(["front tube", "rear tube"]) {
            assert!(finding.text.contains(name), "{}", finding.text);
            assert_eq!(finding.state, state, "{finding:?}");
            assert_eq!(finding.limit, allowed.map(Amount::Force), "{finding:?}");
            near(name, finding.value.unwrap().si(), half_n, 1e-5 * half_n, "N");
            assert!(says.iter().all(|said| finding.text.contains(said)), "{says:?} in {}", finding.text);
        }
    }
}

/// Bags whose forces nobody knows leave the bearings undecided.
#[test]
fn bearings_under_a_stack_that_falls_are_undecided() {
    let findings = assess(&put(&bench(), 2, [2.0, 0.0]), Reach::Full).findings;
    for finding in crate::given::all_of(&findings, "Bearings") {
        assert_eq!((finding.state, finding.value), (State::Undecided, None), "{finding:?}");
        assert!(finding.text.contains("take it for overloaded"), "{}", finding.text);
    }
}

/// The bearings together carry the stack, however it lies. Balance of upright forces.
#[test]
fn the_bearings_together_carry_the_stack() {
    for by in [[0.0, 0.0], [0.06, 0.0], [-0.04, 0.02]] {
        let plan = crate::bench::moved(&bench(), &[0, 1, 2], by);
        let exact = assess(&plan, Reach::Full).exact.unwrap();
        let sum_n: f64 = exact.bearings.iter().map(|b| b.force_n.unwrap()).sum();
        near(&format!("moved by {by:?} m"), sum_n, 75.0 * GRAVITY, 1e-5 * 75.0 * GRAVITY, "N");
    }
}
