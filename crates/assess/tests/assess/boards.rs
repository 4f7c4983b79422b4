//! Boards in bending, and what the bearings carry.

use crate::bench::{added, bearing, bench, lot, place, put, with_ballast, with_bed, without};
use crate::given::{CLOSED, GRAVITY, Says, Want, found, near};
use assess::{Amount, Ask, Check, Reach, State, Where, assess};
use plan::{Form, Plan, Strength};
use quantity::{Force, Mass, Pressure};

const PLANK_KG: f64 = 4.0;
const DEPTH_M: f64 = 0.018;
const WIDTH_M: f64 = 0.19;

/// A plank of 1.2 m over rails at 0.025 m and 0.975 m, one bag of 0.5 m on its middle.
pub(crate) fn planked(bag_kg: f64) -> Plan {
    let apart = with_bed(&without(&bench(), &[0, 1, 2]), |bed| {
        bed.bearings =
            vec![bearing("front rail", [0.0, 0.05], [-0.25, 0.25]), bearing("rear rail", [0.95, 1.0], [-0.25, 0.25])];
    });
    let lots = with_ballast(&apart, |lots| {
        lots.push(lot("plank", Form::Board, [1.2, WIDTH_M, DEPTH_M], PLANK_KG));
        lots[1].grade = Some("C24".to_owned());
        lots[0].weighed.insert(1, Mass::kg(bag_kg));
    });
    added(&lots, vec![place("plank", 1, [0.5, 0.0]), place("sand bag", 1, [0.5, 0.0])])
}

/// Half the bag at 0.475 m less its own arm of 0.125 m, half the plank at 0.475 m less 0.3 m; the
/// rails carry evenly by symmetry. Source key `beam-theory` (`memory`).
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
        (25.0, State::Met, &["plank 1", "bending", "C24"]),
        (81.0, State::Caution, &["plank 1", "bending", "C24"]),
        (100.0, State::Fails, &["plank 1", "bending", "C24", "Put a second board under it"]),
    ];
    for (bag_kg, state, says) in rows {
        let (value, limit) = (Some(Amount::Stress(bending_pa(bag_kg))), Some(Amount::Stress(ALLOWED_PA)));
        let want = Want { check: Check::Boards, state, value, limit, place: Where::Pieces(vec![0]), says };
        want.meets(&found(&planked(bag_kg), Reach::Full, Check::Boards), 1e-4);
    }
}

#[test]
fn moment_and_shear_of_a_plank_are_those_of_the_beam() {
    let exact = assess(&planked(25.0), Ask::full()).exact.unwrap();
    let bent = exact.boards[0].bent.unwrap();
    near("moment", bent.moment_n_m.abs(), moment_n_m(25.0), 1e-3, "N m");
    // Beside a rail: half of all, less what of the plank overhangs and lies over the rail.
    let shear_n = 0.5 * GRAVITY * (25.0 + PLANK_KG) - GRAVITY * PLANK_KG / 1.2 * (0.6 - 0.45);
    near("shear", bent.shear_n.abs(), shear_n, 1e-3, "N");
}

#[test]
fn a_board_without_a_grade_or_of_an_unknown_one_is_undecided() {
    for (grade, state) in [(None, State::Undecided), (Some("driftwood".to_owned()), State::Undecided)] {
        let plan = with_ballast(&planked(25.0), |lots| lots[1].grade = grade);
        let finding = found(&plan, Reach::Full, Check::Boards);
        let (value, limit, place) = (Some(Amount::Stress(bending_pa(25.0))), None, Where::Pieces(vec![0]));
        let says = &["plank 1", "not known", "Ballast page"];
        Want { check: Check::Boards, state, value, limit, place, says }.meets(&finding, 1e-4);
    }
}

/// A third tube under the plank's middle, 5.5 mm low: 25 kg and the plank bend it by less than a millimetre.
#[test]
fn a_tube_that_the_plank_does_not_reach_is_credited_with_nothing() {
    for touch_hard_m in [0.001, 0.006] {
        let thick = with_ballast(&planked(25.0), |lots| lots[1].size[2] = quantity::Length::m(0.045));
        let plan = with_bed(&thick, |bed| {
            bed.touch_hard = quantity::Length::m(touch_hard_m);
            let low = bearing("middle tube", [0.475, 0.525], [-0.25, 0.25]);
            bed.bearings.push(plan::Bearing { top: quantity::Length::m(-0.0055), ..low });
        });
        let exact = assess(&plan, Ask::full()).exact.unwrap();
        let forces = [0, 1, 2].map(|bearing| exact.bearings[bearing].force_n.unwrap());
        for (force_n, want) in forces.into_iter().zip([0.5, 0.5, 0.0]) {
            near("bearing", force_n, want * (25.0 + PLANK_KG) * GRAVITY, 0.01, "N");
        }
    }
}

/// The same tube 4 mm low under a thin plank with 81 kg on its middle half metre: superposition (source key
/// `beam-theory`) of P L3 (8 - 4 c2 + c3) / (384 E I) with c the loaded part of the span, of the plank's own weight
/// with its two ends, and of what the tube pushes back: R = (w0 - gap) 48 E I / L3.
#[test]
fn a_tube_that_the_plank_does_reach_carries_what_is_left_of_the_bending() {
    let gap_m = 0.004;
    let plan = with_bed(&planked(81.0), |bed| {
        let low = bearing("middle tube", [0.495, 0.505], [-0.25, 0.25]);
        bed.bearings.push(plan::Bearing { top: quantity::Length::m(-gap_m), ..low });
    });
    let exact = assess(&plan, Ask::full()).exact.unwrap();
    let rigidity = exact.boards[0].allowed.as_ref().unwrap().modulus_pa * WIDTH_M * DEPTH_M.powi(3) / 12.0;
    let (span_m, part): (f64, f64) = (0.95, 0.5 / 0.95);
    let own_n_per_m = PLANK_KG * GRAVITY / 1.2;
    let of_bag = 81.0 * GRAVITY * span_m.powi(3) * (8.0 - 4.0 * part * part + part * part * part) / 384.0;
    let of_ends = 0.5 * own_n_per_m * 0.125_f64.powi(2) * span_m * span_m / 8.0;
    let sag_m = (of_bag + 5.0 * own_n_per_m * span_m.powi(4) / 384.0 - of_ends) / rigidity;
    assert!(sag_m > gap_m, "the plank sags {sag_m} m");
    let want_n = (sag_m - gap_m) * 48.0 * rigidity / span_m.powi(3);
    near("middle tube", exact.bearings[2].force_n.unwrap(), want_n, 0.02 * want_n, "N");
}

/// A strap over a gap of 10 mm between two plates on the plank: the plates take half of it each, and the plank bends
/// as under two loads; across its grain it bears what comes through them. A point in the gap would press the plank
/// itself on a strip of a millimetre.
#[test]
fn a_strap_over_a_gap_bears_on_the_plates_and_not_on_the_plank() {
    let lots = with_ballast(&planked(25.0), |lots| lots.push(lot("plate", Form::Solid, [0.3, 0.15, 0.02], 7.0)));
    let plates = without(&lots, &[1]);
    let plates = added(&plates, vec![place("plate", 1, [0.345, 0.0]), place("plate", 2, [0.655, 0.0])]);
    let bound = |pull_n: f64| {
        crate::bench::with_fixture(&plates, |fixture| {
            fixture.bindings = vec![plan::Binding {
                name: "over".to_owned(),
                anchors: plan::Anchors::Article,
                at: crate::bench::at([0.5, 0.0]),
                pull: Force::n(pull_n),
                width: plan::Binding::WIDTH,
                after: 3,
            }];
        })
    };
    let moment =
        |pull_n: f64| assess(&bound(pull_n), Ask::full()).exact.unwrap().boards[0].bent.unwrap().moment_n_m.abs();
    let added_n_m = moment(200.0) - moment(0.0);
    // 20 mm of the web lie on each plate, so that each half acts 15 mm beside the middle of the span of 0.95 m.
    near("added moment", added_n_m, 400.0 * 0.95 / 4.0 - 200.0 * 0.015, 0.01, "N m");
    let across_pa = |pull_n: f64| assess(&bound(pull_n), Ask::full()).exact.unwrap().boards[0].bent.unwrap().across_pa;
    let (with, without) = (across_pa(200.0).unwrap(), across_pa(0.0).unwrap());
    // 7 kg 150 mm from a plate's inner edge and 200 N 15 mm from it act 49.5 mm from it: a triangle three times as
    // long, at most 3630 N/m, where 229 N/m were.
    assert!(with <= 3630.0 / 229.0 * without, "across the grain: got {with} Pa, without the strap {without} Pa");
}

/// Own figures come before the grade's, and no factor is applied to them.
#[test]
fn a_board_is_held_against_its_builders_own_figures() {
    let is_pa = bending_pa(25.0);
    let rows = [(1.25, State::Met), (1.1, State::Caution), (0.9, State::Fails)];
    for (times, state) in rows {
        let pa = Pressure::pa;
        let own = Strength { bending: pa(times * is_pa), shear: pa(1e9), modulus: pa(9e9) };
        let plan = with_ballast(&planked(25.0), |lots| {
            (lots[1].strength, lots[1].grade) = (Some(own), Some("driftwood".to_owned()));
        });
        let finding = found(&plan, Reach::Full, Check::Boards);
        let (value, limit) = (Some(Amount::Stress(is_pa)), Some(Amount::Stress(times * is_pa)));
        let (place, says) = (Where::Pieces(vec![0]), &["plank 1", "own figures"]);
        Want { check: Check::Boards, state, value, limit, place, says }.meets(&finding, 1e-4);
    }
}

/// A plank in the air: nobody knows the forces on it.
#[test]
fn a_board_whose_forces_are_not_known_is_undecided() {
    let finding = found(&put(&planked(25.0), 0, [5.0, 0.0]), Reach::Full, Check::Boards);
    let (value, limit, place) = (None, None, Where::Pieces(vec![0]));
    let says = &["plank 1", "not decided", "treat it as overloaded"];
    Want { check: Check::Boards, state: State::Undecided, value, limit, place, says }.meets(&finding, CLOSED);
}

/// By symmetry each rail carries half of 75 kg.
#[test]
fn a_bearing_is_held_against_its_allowable_load() {
    let half_n = 75.0 * GRAVITY / 2.0;
    let allowing =
        |n: Option<f64>| with_bed(&bench(), |bed| bed.bearings.iter_mut().for_each(|b| b.allowable = n.map(Force::n)));
    let rows: [(Option<f64>, State, &[&str]); 4] = [
        (Some(1000.0), State::Met, &["rail carries", "the occupant would put"]),
        (None, State::NoLimit, &["rail carries", "No allowable load is given"]),
        (Some(400.0), State::Caution, &["rail carries", "of 400"]),
        (Some(350.0), State::Fails, &["rail carries", "of 350", "Bring boards and pieces over the other bearings"]),
    ];
    for (allowed, state, says) in rows {
        let findings = assess(&allowing(allowed), Ask::full()).findings;
        let of_check = crate::given::all_of(&findings, Check::Bearings);
        assert_eq!(of_check.len(), 2, "{of_check:?}");
        for (finding, name) in of_check.iter().zip(["front rail", "rear rail"]) {
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
    let findings = assess(&put(&bench(), 2, [2.0, 0.0]), Ask::full()).findings;
    for finding in crate::given::all_of(&findings, Check::Bearings) {
        assert_eq!((finding.state, finding.value), (State::Undecided, None), "{finding:?}");
        assert!(finding.text.contains("treat it as overloaded"), "{}", finding.text);
    }
}

/// The bearings together carry the stack, however it lies. Balance of upright forces.
#[test]
fn the_bearings_together_carry_the_stack() {
    for by in [[0.0, 0.0], [0.06, 0.0], [-0.04, 0.02]] {
        let plan = crate::bench::moved(&bench(), &[0, 1, 2], by);
        let exact = assess(&plan, Ask::full()).exact.unwrap();
        let sum_n: f64 = exact.bearings.iter().map(|b| b.force_n.unwrap()).sum();
        near(&format!("moved by {by:?} m"), sum_n, 75.0 * GRAVITY, 1e-5 * 75.0 * GRAVITY, "N");
    }
}

/// A plank lengthwise on a strip of 40 mm, a mass on either side beyond it: whole it balances. Split along its grain each
/// half tips off the strip by itself, its middle at 47.5 mm and the strip's edge at 20 mm (by hand).
#[test]
fn a_plank_that_holds_a_stack_up_across_its_grain_is_asked_what_happens_when_it_splits() {
    let mut plan = planked(25.0);
    plan.bed.bearings = vec![bearing("rail", [0.0, 1.0], [-0.02, 0.02])];
    plan.ballast.push(lot("weight", Form::Solid, [0.5, 0.06, 0.1], 40.0));
    plan.stack.truncate(1);
    plan.stack.extend([place("weight", 1, [0.5, -0.08]), place("weight", 2, [0.5, 0.08])]);
    assert_eq!(plan::faults(&plan), []);
    let exact = assess(&plan, Ask::full()).exact.unwrap();
    assert_eq!(exact.boards[0].split, Some(statics::equilibrium::SplitEnd::LetsDown { step: 1 }), "{:?}", exact.boards);
}
