//! Binding straps bear on the seat beside the pieces: what both come to, and where they act. Expected:
//! moments of parallel forces about the bed's origin, by hand (`own derivation`).

use crate::bench::{all, at, bench, with_fixture, without};
use crate::given::{CLOSED, GRAVITY, all_of, found, near};
use assess::{Ask, Check, Finding, Reach, State, assess};
use plan::{Anchors, Binding, Hold, Plan};
use quantity::Force;

const CHECK: Check = Check::SeatWithStraps;

/// Three bags of 25 kg at bed station 0.2 m, and a strap.
fn bound(anchors: Anchors, x_m: f64, pull_n: f64, after: u32) -> Plan {
    let strap = Binding {
        name: "over".to_owned(),
        anchors,
        at: at([x_m, 0.0]),
        pull: Force::n(pull_n),
        width: Binding::WIDTH,
        after,
    };
    with_fixture(&bench(), |fixture| fixture.bindings = vec![strap])
}

fn seat(plan: &Plan) -> Finding {
    found(plan, Reach::ClosedForm, CHECK)
}

/// 75 kg at 0.2 m and 2 x 300 N at 0.4 m: 75 + 61.18 kg at 0.2 + 0.2 * 61.18 / 136.18 m.
#[test]
fn the_pull_of_a_strap_is_in_what_the_seat_bears_and_in_where_it_acts() {
    for anchors in [Anchors::Article, Anchors::Floor] {
        let plan = bound(anchors, 0.4, 300.0, 3);
        let straps_kg = 600.0 / GRAVITY;
        let state = assess(&plan, Ask::closed());
        let on_seat = state.closed.last().unwrap().on_seat.expect("the strap presses");
        near("on the seat", on_seat.mass_kg, 75.0 + straps_kg, CLOSED, "kg");
        near("straps", on_seat.straps_kg, straps_kg, CLOSED, "kg");
        near("fore-aft", on_seat.offset_m[0], 0.2 * straps_kg / (75.0 + straps_kg), CLOSED, "m");
        near("lateral", on_seat.offset_m[1], 0.0, CLOSED, "m");
        near("applied load stays the pieces", state.closed.applied_kg(), 75.0, CLOSED, "kg");
        let finding = seat(&plan);
        assert_eq!(finding.state, State::Fails, "{finding:?}");
        let place = found(&plan, Reach::ClosedForm, Check::OffsetWithStraps);
        assert_eq!(place.state, State::Fails, "{place:?}");
        assert!(place.text.contains("90 mm aft of the occupant point where 15 mm"), "{}", place.text);
        for part in
            ["136.2 kg bear on the seat", "61.2 kg (600 N)", "182 % of 75.0 kg", "90 mm aft of the occupant point"]
        {
            assert!(finding.text.contains(part), "{part}: {}", finding.text);
        }
        assert_eq!(found(&plan, Reach::ClosedForm, Check::OffsetForeAndAft).state, State::Met);
    }
}

/// Over the point the pull only adds: 3 % of 75 kg are 11.0 N a leg, 10 % are 36.8 N.
#[test]
fn over_the_point_a_strap_is_judged_by_how_much_it_adds() {
    for (pull_n, due) in [(10.0, State::Met), (12.0, State::Caution), (36.5, State::Caution), (37.0, State::Fails)] {
        let finding = seat(&bound(Anchors::Article, 0.2, pull_n, 3));
        assert_eq!(finding.state, due, "{pull_n} N in each leg: {}", finding.text);
        let place = found(&bound(Anchors::Article, 0.2, pull_n, 3), Reach::ClosedForm, Check::OffsetWithStraps);
        assert_eq!(place.state, State::Met, "{place:?}");
    }
}

#[test]
fn without_a_strap_that_presses_there_is_nothing_to_say_of_the_seat() {
    let loose = bound(Anchors::Article, 0.2, 0.0, 3);
    let never = bound(Anchors::Article, 0.2, 300.0, 4);
    for plan in [bench(), loose, never] {
        assert_eq!(all_of(&assess(&plan, Ask::closed()).findings, CHECK), []);
    }
}

/// After two bags 50 kg and 61.18 kg bear on the seat: more than is due is a caution there, but where both act
/// together is held against the hold's tolerance. 0.2 * 61.18 / 111.18 m are 110 mm.
#[test]
fn at_a_hold_more_on_the_seat_is_a_caution_and_the_wrong_place_fails() {
    let mut plan = bound(Anchors::Article, 0.4, 300.0, 2);
    plan.holds = vec![Hold::at("limit", 0.666)];
    let findings = all_of(&assess(&plan, Ask::closed()).findings, CHECK);
    let [whole, held] = findings.as_slice() else { panic!("one of the whole and one of the hold: {findings:#?}") };
    assert_eq!((whole.state, held.state), (State::Fails, State::Caution));
    for part in ["At hold “limit”, after step 2, where 50.0 kg are due", "111.2 kg bear on the seat"] {
        assert!(held.text.contains(part), "{part}: {}", held.text);
    }
    let places = all_of(&assess(&plan, Ask::closed()).findings, Check::OffsetWithStraps);
    let held = places.iter().find(|finding| finding.text.starts_with("At hold")).expect("one of the hold");
    assert_eq!(held.state, State::Fails, "{held:?}");
    assert!(held.text.contains("110 mm aft of the occupant point where 15 mm are allowed"), "{}", held.text);
}

#[test]
fn a_strap_that_crosses_no_piece_when_it_goes_on_fails_and_says_what_helps() {
    let rows = [
        (bound(Anchors::Article, 0.2, 300.0, 3), State::Met, "bears on sand bag 3"),
        (bound(Anchors::Article, 0.9, 300.0, 3), State::Fails, "Move it over the stack, or remove it"),
        (bound(Anchors::Floor, 0.9, 300.0, 3), State::Fails, "crosses no piece"),
        (bound(Anchors::Floor, 0.2, 300.0, 4), State::Caution, "never put on"),
    ];
    for (plan, state, says) in rows {
        let finding = found(&plan, Reach::ClosedForm, Check::BindingStraps);
        assert_eq!(finding.state, state, "{}", finding.text);
        assert!(finding.text.contains(says), "{says}: {}", finding.text);
    }
    let empty = without(&bound(Anchors::Floor, 0.2, 300.0, 3), &all(&bench()));
    assert_eq!(all_of(&assess(&empty, Ask::closed()).findings, Check::BindingStraps), []);
}
