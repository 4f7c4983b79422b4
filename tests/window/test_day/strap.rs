//! A binding strap of the plan is asked for: it goes on before the scales are read, and comes off before the pieces.

use super::day::{next, says};
use super::holds::{brought_by, demo};
use crate::forms::type_into;
use crate::stage::press;
use plan::{Anchors, Binding, Plan};
use quantity::{Force, Length};
use testday::Next;

const AFTER: u32 = 4;

/// The demo's stack with a strap over it, 100 N in each leg.
fn strapped() -> Plan {
    let mut plan = demo();
    plan.fixture.bindings.push(Binding {
        name: "over the stack".to_owned(),
        anchors: Anchors::Article,
        at: [Length::m(0.2), Length::m(0.0)],
        pull: Force::n(100.0),
        after: AFTER,
        width: Binding::WIDTH,
    });
    plan
}

#[test]
fn a_strap_is_asked_for_before_the_scales_are_read_and_only_a_pull_that_fits_is_taken() {
    let folder = tempfile::tempdir().expect("a folder");
    let is_strap = |next: &Next| matches!(next, Next::StrapOn { .. });
    let mut window = brought_by(&folder.path().join("day.testday"), &strapped(), is_strap);
    assert!(says(&window, "Put on the binding strap “over the stack”"));
    assert!(says(&window, "90 N to 110 N fits."), "{}", crate::stage::text(&window));
    type_into(&mut window, "Pull, left leg entry", "80");
    type_into(&mut window, "Pull, right leg entry", "101");
    assert!(says(&window, "Tighten or slacken it from outside the fall zone and read it again"));
    assert!(matches!(next(&window), Next::StrapOn { binding: 0 }), "a pull that does not fit is not taken");
    type_into(&mut window, "Pull, left leg entry", "98");
    press(&mut window, "The strap is on");
    assert!(matches!(next(&window), Next::Read), "the scales are read with it");
}

#[test]
fn a_strap_is_released_before_a_piece_comes_off() {
    let folder = tempfile::tempdir().expect("a folder");
    let is_off = |next: &Next| matches!(next, Next::StrapOff { .. });
    let mut window = brought_by(&folder.path().join("day.testday"), &strapped(), is_off);
    assert!(says(&window, "Release the binding strap “over the stack”"));
    press(&mut window, "Released");
    assert!(matches!(next(&window), Next::TakeOff { .. }));
}
