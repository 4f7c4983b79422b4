//! Binding straps as dead pulls. Source: `own derivation`, moments about the edge: a tower of weight W, half-width b and
//! centroid height h under a pull T at the distance b_T from its edge goes at (W b + T b_T)/(W h).

use crate::given::{Settled, multiplier, near, panel, solid};
use quantity::STANDARD_GRAVITY_M_S2;
use statics::equilibrium::{DeadPull, Stack, collapse, every_step, stands};

fn tower() -> Settled {
    Settled::new(&panel(2.0), (0..5).map(|_| solid([0.0, 0.0], [0.4, 0.3, 0.2], 20.0, 2.0)).collect())
}

#[test]
fn a_dead_pull_adds_its_moment_about_the_edge() {
    let (tower, force_n) = (tower(), 250.0);
    let dead = [DeadPull { at_in_bed_m: [0.05, 0.0], force_n, after: 5 }];
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
    let dead = [DeadPull { at_in_bed_m: [0.0, 0.0], force_n: 500.0, after: 4 }];
    let with = every_step(&tower.pose, &tower.bodies, &tower.pile, &dead, &|_| true);
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
    let dead = [DeadPull { at_in_bed_m: [0.9, 0.0], force_n: 60.0, after: 2 }];
    assert_eq!(pile.stands(), Some(true), "without the strap");
    assert_eq!(stands(&Stack { dead: &dead, ..pile.stack() }, 2), Some(false), "with it");
}

#[test]
fn a_pull_that_misses_the_stack_does_nothing() {
    let tower = tower();
    let dead = [DeadPull { at_in_bed_m: [3.0, 0.0], force_n: 500.0, after: 1 }];
    let stack = Stack { dead: &dead, ..tower.stack() };
    near("least", multiplier(&collapse(&stack, 5, &[0.0])), tower.multiplier(0.0), 1e-6, "of weight");
}
