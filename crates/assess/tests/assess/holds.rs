//! The line of action at the holds before the last piece.

use crate::bench::{bench, m, moved, rigid};
use crate::given::{CLOSED, Says, Want, all_of, found};
use assess::{Amount, Ask, Check, Reach, State, Where, assess};
use plan::{Hold, Plan, Target};

const CHECK: Check = Check::OffsetAtHolds;

/// Three bags of 25 kg on one another; the hold comes after the first one.
fn held() -> Plan {
    let mut plan = bench();
    plan.holds = [("a third", 0.333), ("ultimate", 1.0)].map(|(name, at)| Hold::at(name, at)).to_vec();
    plan
}

/// Expected: the first bag alone has its own offset (`own derivation`). Below limit load twice the target's 15
/// and 10 mm are allowed.
#[test]
fn a_hold_beside_the_point_by_more_than_its_tolerance_fails_and_says_the_side() {
    let rows: [([f64; 2], usize, State, Says); 6] = [
        (
            [0.004, 0.0],
            0,
            State::Met,
            &["At hold “a third”, after step 1", "4 mm aft of the occupant point where 30 mm"],
        ),
        (
            [0.0, -0.022],
            1,
            State::Fails,
            &["22 mm left of the occupant point where 20 mm are allowed", "fore or aft of it"],
        ),
        ([0.029, 0.0], 0, State::Met, &["29 mm aft of the occupant point where 30 mm are allowed"]),
        ([0.034, 0.0], 0, State::Fails, &["34 mm aft of the occupant point where 30 mm are allowed"]),
        ([-0.058, 0.0], 0, State::Fails, &["58 mm forward of the occupant point where 30 mm are allowed"]),
        // Rounding must not hide that it is too much.
        ([0.0, 0.0203], 1, State::Fails, &["20.3 mm right of the occupant point where 20 mm are allowed"]),
    ];
    for (by, axis, state, says) in rows {
        let plan = moved(&moved(&rigid(&held()), &[0], by), &[1], by.map(|m| -m));
        let side = [["aft", "forward"], ["right", "left"]][axis][usize::from(by[axis] < 0.0)];
        let (value, limit) = (Amount::Off(by[axis].abs(), [side; 2]), Amount::Distance([0.030, 0.020][axis]));
        let place = Where::Step { step: 0, layer: None };
        let want = Want { check: CHECK, state, value: Some(value), limit: Some(limit), place, says };
        let finding = found(&plan, Reach::ClosedForm, CHECK);
        want.meets(&finding, CLOSED);
        assert!(assess(&plan, Ask::full()).findings.contains(&finding), "the solvers change nothing of it");
    }
}

/// The second bag brings the load back: 50 of 75 kg, so that the hold fits at two thirds.
#[test]
fn where_later_pieces_bring_it_back_the_step_and_the_fraction_are_told() {
    let plan = moved(&moved(&held(), &[0], [0.0, 0.03]), &[1], [0.0, -0.03]);
    let text = found(&plan, Reach::ClosedForm, CHECK).text;
    assert!(text.contains("After step 2 it is within: set the hold at 0.666 of ultimate load"), "{text}");
    let mut mended = plan.clone();
    mended.holds[0].at = 0.666;
    assert_eq!(found(&mended, Reach::ClosedForm, CHECK).state, State::Met);
    // Where the next hold comes first there is no such way.
    let mut between = plan;
    between.holds.insert(1, Hold::at("two thirds", 0.66));
    let findings = all_of(&assess(&between, Ask::closed()).findings, CHECK);
    assert_eq!(findings.len(), 2, "{findings:#?}");
    let third = findings.iter().find(|finding| finding.text.contains("a third")).unwrap();
    assert!(third.text.contains("Before the hold, change the order"), "{}", third.text);
}

#[test]
fn the_hold_at_the_last_piece_is_left_to_the_offset_of_the_whole_stack() {
    let mut plan = moved(&held(), &[0, 1, 2], [0.0, 0.02]);
    plan.holds.remove(0);
    assert_eq!(all_of(&assess(&plan, Ask::closed()).findings, CHECK), []);
    assert_eq!(found(&plan, Reach::ClosedForm, Check::OffsetLateral).state, State::Fails);
}

#[test]
fn a_hold_that_is_never_reached_has_no_finding() {
    let mut plan = held();
    plan.stack.clear();
    assert_eq!(all_of(&assess(&plan, Ask::closed()).findings, CHECK), []);
}

#[test]
fn where_nothing_is_allowed_any_offset_fails() {
    let mut plan = moved(&held(), &[0], [0.0, 0.001]);
    let Target::Point { tolerance, .. } = &mut plan.target else { panic!("the bench has a typed point") };
    tolerance[1] = m(0.0);
    let finding = found(&plan, Reach::ClosedForm, CHECK);
    assert_eq!(finding.state, State::Fails, "{finding:?}");
}

/// At limit load the target's own tolerance holds: 34 mm where 15 are allowed, 40 where 10.
#[test]
fn at_limit_load_the_tolerance_of_the_target_is_the_limit() {
    for (by, state) in [
        ([0.014, 0.0], State::Met),
        ([0.016, 0.0], State::Fails),
        ([0.034, 0.0], State::Fails),
        ([0.0, 0.040], State::Fails),
    ] {
        let mut plan = moved(&held(), &[0, 1], by);
        (plan.holds[0].name, plan.holds[0].at) = ("limit".to_owned(), 0.666);
        let finding = found(&plan, Reach::ClosedForm, CHECK);
        assert_eq!((finding.state, &finding.place), (state, &Where::Step { step: 1, layer: None }), "{finding:?}");
        assert!(!assess(&plan, Ask::full()).in_order() || state == State::Met, "{finding:?}");
    }
}

#[test]
fn a_tolerance_of_its_own_comes_before_the_targets() {
    let mut plan = moved(&held(), &[0], [0.012, 0.0]);
    plan.holds[0].tolerance = Some([m(0.010), m(0.010)]);
    let finding = found(&plan, Reach::ClosedForm, CHECK);
    assert_eq!((finding.state, finding.limit), (State::Fails, Some(Amount::Distance(0.010))), "{finding:?}");
    assert_eq!(finding.rests_on(), "the plan's tolerance of that hold");
    plan.holds[0].tolerance = Some([m(0.013), m(0.010)]);
    assert_eq!(found(&plan, Reach::ClosedForm, CHECK).state, State::Met);
}
