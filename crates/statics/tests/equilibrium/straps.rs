//! Binding straps as dead pulls. Source: `own derivation`, moments about the edge: a tower of weight W, half-width b and
//! centroid height h under a pull T at the distance b_T from its edge goes at (W b + T b_T)/(W h).

use crate::given::{Settled, multiplier, near, panel, solid};
use quantity::STANDARD_GRAVITY_M_S2;
use statics::Way;
use statics::equilibrium::{DeadPull, Effort, Stack, collapse, collapse_by_general_solver, every_step, stands};

fn tower() -> Settled {
    Settled::new(&panel(2.0), (0..5).map(|_| solid([0.0, 0.0], [0.4, 0.3, 0.2], 20.0, 2.0)).collect())
}

#[test]
fn a_dead_pull_adds_its_moment_about_the_edge() {
    let (tower, force_n) = (tower(), 250.0);
    let dead = [DeadPull { at_in_bed_m: [0.05, 0.0], width_m: 0.05, force_n, after: 5 }];
    let stack = Stack { dead: &dead, ..tower.stack() };
    let weight_n = 100.0 * STANDARD_GRAVITY_M_S2;
    for (direction_deg, from_edge_m) in [(0.0f64, 0.15), (180.0, 0.25)] {
        let want = (weight_n * 0.2 + force_n * from_edge_m) / (weight_n * 0.5);
        let got = collapse(&stack, 5, &[direction_deg.to_radians()]);
        near(&format!("at {direction_deg} deg"), multiplier(&got), want, 2e-6, "of weight");
    }
    near("without it", tower.multiplier(0.0), 0.2 / 0.5, 1e-6, "of weight");
}

#[test]
fn a_pull_presses_only_from_its_step_on() {
    let tower = tower();
    let dead = [DeadPull { at_in_bed_m: [0.0, 0.0], width_m: 0.05, force_n: 500.0, after: 4 }];
    let with = every_step(&Stack { dead: &dead, ..tower.stack() }, Effort::FULL, &|_| true);
    let without = tower.every_step();
    for step in 0..5 {
        let (with, without) = (multiplier(&with[step]), multiplier(&without[step]));
        assert_eq!(with > without + 1e-3, step + 1 >= 4, "step {}: {with} of weight, without {without}", step + 1);
    }
}

#[test]
fn a_pull_far_out_brings_a_stack_down() {
    let board = vec![solid([0.0, 0.0], [0.4, 0.3, 0.2], 20.0, 0.6), solid([0.0, 0.0], [2.0, 0.3, 0.05], 8.0, 0.6)];
    let pile = Settled::new(&panel(0.6), board);
    let dead = [DeadPull { at_in_bed_m: [0.9, 0.0], width_m: 0.05, force_n: 60.0, after: 2 }];
    assert_eq!(pile.stands(), Some(true), "without the strap");
    assert_eq!(stands(&Stack { dead: &dead, ..pile.stack() }, 2), Some(false), "with it");
}

/// Strapped off the middle, so that pull and push twist the stack. Second opinion: a general conic solver
/// called on the whole stack.
#[test]
fn a_bound_stack_bears_what_a_general_solver_says_in_every_direction() {
    let block = |k: u32| {
        let [across, along] = [k % 4 % 2, k % 4 / 2].map(|slot| f64::from(slot) - 0.5);
        let (centre_m, extent_m) = match (k / 4).is_multiple_of(2) {
            true => ([0.6 * across, 0.4 * along], [0.58, 0.38, 0.14]),
            false => ([0.5 * across, 0.5 * along], [0.48, 0.49, 0.14]),
        };
        solid(centre_m, extent_m, 15.0 + f64::from(k * 7 % 10), 0.6)
    };
    let pile = Settled::new(&panel(0.5), (0..16).map(block).collect());
    let dead = [DeadPull { at_in_bed_m: [0.2, 0.1], width_m: 0.05, force_n: 400.0, after: 16 }];
    let stack = Stack { dead: &dead, ..pile.stack() };
    for sixteenth in 0..16 {
        let direction_rad = std::f64::consts::TAU * f64::from(sixteenth) / 16.0;
        let want = collapse_by_general_solver(&stack, direction_rad).reserve().unwrap().multiplier;
        let got = collapse(&stack, 16, &[direction_rad]);
        near(&format!("sixteenth {sixteenth}"), multiplier(&got), want, 1.5e-6, "of weight");
    }
}

/// Bound off its middle and pushed across, a plate turns round its strap. Tipping over its side would take 14 times its
/// weight (hand statics: half the width over half the height, times weight and pull over weight).
#[test]
fn a_plate_that_turns_round_its_strap_slides() {
    let pile = Settled::new(&panel(0.35), vec![solid([0.3, 0.0], [0.4, 0.4, 0.2], 50.0, 0.4)]);
    let dead = [DeadPull { at_in_bed_m: [0.48, 0.0], width_m: 0.05, force_n: 3000.0, after: 1 }];
    let stack = Stack { dead: &dead, ..pile.stack() };
    let weight_n = 50.0 * STANDARD_GRAVITY_M_S2;
    let as_a_whole = 0.35 * (weight_n + 3000.0) / weight_n;
    let found = collapse(&stack, 1, &[std::f64::consts::FRAC_PI_2]);
    let got = multiplier(&found);
    assert!(got < as_a_whole - 0.1, "turning round: got {got}, sliding as a whole {as_a_whole}, of weight");
    assert_eq!(found.mechanism.unwrap().by, Way::Slide, "way");
    let along = collapse(&stack, 1, &[0.0]);
    near("in line with the strap", multiplier(&along), as_a_whole, 1e-5, "of weight");
    assert_eq!(along.mechanism.unwrap().by, Way::Slide, "way in line");
}

#[test]
fn a_pull_that_misses_the_stack_does_nothing() {
    let tower = tower();
    let dead = [DeadPull { at_in_bed_m: [3.0, 0.0], width_m: 0.05, force_n: 500.0, after: 1 }];
    let stack = Stack { dead: &dead, ..tower.stack() };
    near("least", multiplier(&collapse(&stack, 5, &[0.0])), tower.multiplier(0.0), 1e-6, "of weight");
}
