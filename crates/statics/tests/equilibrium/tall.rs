//! Tall piles, where most states are decided on the few layers in which they go. Second opinion: a general
//! conic solver called on the whole stack.

use crate::given::{Settled, at_least, near, panel, solid};
use statics::equilibrium::{DeadPull, Effort, Stack, collapse_by_general_solver, every_step, steps_wanted};
use statics::{Body, settle};
use std::f64::consts::TAU;

/// Six blocks a layer, laid across the layer below in turn, of unlike masses.
fn crossing(count: u32, friction: f64) -> Vec<Body> {
    let block = |k: u32| {
        let (slots, extent_m) =
            if (k / 6).is_multiple_of(2) { ([2, 3], [0.6, 0.4, 0.14]) } else { ([3, 2], [0.4, 0.6, 0.14]) };
        let slot = [k % 6 % slots[0], k % 6 / slots[0]];
        let centre_m = [0, 1].map(|axis| (f64::from(slot[axis]) + 0.5) * extent_m[axis] - 0.6);
        solid(centre_m, extent_m, 15.0 + f64::from(k * 7 % 10), friction)
    };
    (0..count).map(block).collect()
}

/// Two of the last states of a pile: what is found as it grows against the general solver, in the weakest
/// direction and in two others.
fn as_the_general_solver_says(what: &str, pile: &Settled, dead: &[DeadPull]) {
    let count = pile.bodies.len();
    let verdicts = every_step(&Stack { dead, ..pile.stack() }, Effort::FULL, &|_| true);
    for step in [count - 7, count] {
        let what = format!("{what}, step {step}");
        let least = verdicts[step - 1].least.reserve().unwrap_or_else(|| panic!("{what}: {:?}", verdicts[step - 1]));
        let bodies = &pile.bodies[..step];
        let so_far = settle(&panel(0.6), bodies);
        let stack = Stack { floor_from_bed: &pile.pose, bodies, pile: &so_far, dead };
        let general = |turn_rad: f64| {
            let found = collapse_by_general_solver(&stack, least.direction_rad + turn_rad);
            found.reserve().unwrap_or_else(|| panic!("{what}: {found:?}")).multiplier
        };
        near(&what, least.multiplier, general(0.0), 1e-6, "of weight");
        for turn_rad in [TAU / 8.0, -TAU / 4.0] {
            at_least(
                &format!("{what}, {turn_rad} rad beside"),
                general(turn_rad),
                least.multiplier - 1e-6,
                "of weight",
            );
        }
    }
}

#[test]
fn a_rough_tower_tips_as_the_general_solver_says() {
    let pile = Settled::new(&panel(0.6), crossing(96, 1.5));
    as_the_general_solver_says("level", &pile, &[]);
    as_the_general_solver_says("sloped", &pile.sloped(-0.06), &[]);
}

#[test]
fn a_bound_tower_tips_as_the_general_solver_says() {
    let pile = Settled::new(&panel(0.6), crossing(90, 0.6));
    let dead = [DeadPull { at_in_bed_m: [0.3, 0.2], width_m: 0.05, force_n: 600.0, after: 20 }];
    as_the_general_solver_says("bound", &pile, &dead);
}

/// It goes where the column begins: what lies under that stays, what lies over it goes in one piece.
#[test]
fn a_column_on_a_wide_base_goes_as_the_general_solver_says() {
    let column = (0..40).map(|k| solid([0.003 * f64::from(k % 3), 0.1], [0.9, 0.8, 0.1], 20.0, 0.7));
    let pile = Settled::new(&panel(0.6), crossing(36, 0.9).into_iter().chain(column).collect());
    as_the_general_solver_says("column", &pile, &[]);
}

#[test]
fn states_that_alone_are_wanted_have_the_verdicts_of_all() {
    let pile = Settled::new(&panel(0.6), crossing(60, 0.6));
    let all = every_step(&pile.stack(), Effort::FULL, &|_| true);
    let is_wanted = |step: usize| matches!(step, 5..=9 | 30 | 34..=40 | 60);
    let some = steps_wanted(&pile.stack(), &is_wanted, Effort::FULL, None, &|_| true);
    assert_eq!(some.len(), all.len(), "one for each state, wanted or not");
    for (some, all) in some.iter().zip(&all).filter(|(some, _)| is_wanted(some.step)) {
        let what = format!("step {}", all.step);
        assert_eq!((some.step, some.stands), (all.step, all.stands), "{what}");
        let [some, all] = [some, all].map(|state| state.least.reserve().expect(&what).multiplier);
        near(&what, some, all, 2e-6, "of weight");
    }
    assert!(some[49].stands.is_none(), "a state that nobody asked for is not told as standing");
}
