//! The drawn tip margin.

use crate::given::{Stack, WIDE, block, near, panel, scatter};
use nalgebra::{Isometry3, Vector3};
use statics::spread::Limits;
use statics::{Bearing, Bed, Body, cuts};

fn planned(stack: &Stack) -> f64 {
    let margins = cuts(&stack.pose, &stack.bodies, &stack.pile);
    margins.iter().map(|cut| cut.tip.multiplier).fold(f64::INFINITY, f64::min)
}

/// Five bags lapped on two tubes, on a sloped bed.
fn lapped() -> Stack {
    let tube = |x: f64| Bearing { x_m: [x, x + 0.05], y_m: [-0.25, 0.25], top_m: 0.0, friction: 0.5 };
    let bed = Bed { bearings: vec![tube(-0.2), tube(0.2)], touch_m: 0.006, touch_hard_m: 0.006, beside_m: 0.005 };
    let at = [[-0.02, 0.0], [0.01, 0.02], [0.04, -0.01], [0.03, 0.03], [0.0, 0.0]];
    let bodies: Vec<Body> = at.iter().map(|at| block(*at, [0.5, 0.33, 0.11], 25.0)).collect();
    let doubts = scatter(bodies.len(), 0.0, 0.0);
    Stack { pose: Isometry3::rotation(Vector3::new(0.0, 0.06, 0.0)), ..Stack::new(bed, bodies, doubts) }
}

#[test]
fn without_scatter_every_draw_has_the_planned_margin() {
    let stack = lapped();
    let got = stack.drawn(&WIDE, 10, 1).tip.unwrap();
    for value in [got.mean, got.p5, got.p95] {
        near("tip", value, planned(&stack), 1e-12, "of the weight above");
    }
    near("deviation", got.deviation, 0.0, 1e-12, "of the weight above");
}

/// One block on a panel moves with its contact: its margin b/h does not scatter, however badly it is
/// put down (`own derivation`).
#[test]
fn a_single_block_keeps_its_margin_wherever_it_is_put() {
    let stack = Stack::new(panel(), vec![block([0.0, 0.0], [0.4, 0.6, 1.0], 80.0)], scatter(1, 1.0, 0.02));
    let got = stack.drawn(&WIDE, 2_000, 1).tip.unwrap();
    near("mean", got.mean, 0.2 / 0.5, 1e-12, "of the weight above");
    near("deviation", got.deviation, 0.0, 1e-12, "of the weight above");
}

/// A block on a tube narrower than itself: the contact stays with the tube, the centroid moves with
/// the block, d/h scatters by s/h about the nearer edge: mean of (b - |x|)/h with x normal
/// (`own derivation`: E|x| = s sqrt(2/pi)).
#[test]
fn a_block_on_a_narrow_tube_loses_the_mean_size_of_its_error() {
    let tube = Bearing { x_m: [-0.1, 0.1], y_m: [-2.0, 2.0], top_m: 0.0, friction: 0.5 };
    let bed = Bed { bearings: vec![tube], touch_m: 0.006, touch_hard_m: 0.006, beside_m: 0.005 };
    let (draws, s, h) = (60_000_usize, 0.01, 0.5);
    let stack = Stack::new(bed, vec![block([0.0, 0.0], [0.5, 0.9, 2.0 * h], 80.0)], scatter(1, 0.0, s));
    let got = stack.drawn(&WIDE, draws, 2).tip.unwrap();
    let want = (0.1 - s * (2.0 / std::f64::consts::PI).sqrt()) / h;
    let deviation = s * (1.0 - 2.0 / std::f64::consts::PI).sqrt() / h;
    near("mean", got.mean, want, 5.0 * deviation / (draws as f64).sqrt(), "of the weight above");
    near("P5", got.p5, (0.1 - 1.959_964 * s) / h, 0.01 * s / h * 5.0, "of the weight above");
    near("P95", got.p95, (0.1 - 0.062_707 * s) / h, 0.01 * s / h, "of the weight above");
}

/// A drawn stack, settled and cut by the rest of the crate: the same margin, or a lower one.
#[test]
fn a_drawn_margin_is_never_above_that_of_the_stack_laid_out_anew() {
    // The draw cannot be looked into, so two bodies only: the upper one alone scatters the margin.
    let (s, h, half) = (0.02, 0.055, 0.165);
    let bodies = vec![block([0.0, 0.0], [5.0, 0.33, 0.11], 25.0), block([0.0, 0.0], [0.5, 0.33, 0.11], 25.0)];
    let stack = Stack::new(panel(), bodies, scatter(2, 0.0, s));
    let got = stack.drawn(&WIDE, 50_000, 2).tip.unwrap();
    // Lateral error y between the two, of deviation s sqrt 2: the common width loses |y|, and the
    // upper centroid lies |y|/2 off the middle of what is left: (b - |y|)/h; the lower cut, of both
    // on the panel, bears b/(2h) and half of |y| off.
    let y = |share: f64| share * s * 2.0_f64.sqrt();
    let upper_p5 = (half - y(1.959_964)) / h;
    let lower = |y: f64| (half - 0.5 * y) / (2.0 * h);
    near("P5", got.p5, upper_p5.min(lower(y(1.959_964))), 0.02, "of the weight above");
    near("P95", got.p95, lower(y(0.062_707)), 0.02, "of the weight above");
}

#[test]
fn a_contact_that_parts_in_a_draw_no_longer_holds() {
    // The upper block bears on the lower one by 4 mm at one end and by 200 mm at the other; errors of
    // 10 mm part the 4 mm in many draws: then it stands on the other end alone, and falls.
    let piers = vec![block([-0.3, 0.0], [0.2, 0.4, 0.1], 20.0), block([0.3, 0.0], [0.2, 0.4, 0.1], 20.0)];
    let beam = block([0.098, 0.0], [0.604, 0.4, 0.1], 20.0);
    let stack = Stack::new(panel(), [piers, vec![beam]].concat(), scatter(3, 0.0, 0.01));
    let got = stack.drawn(&Limits { tip: 0.0, ..WIDE }, 20_000, 2);
    let share = got.failures.tip.unwrap().share();
    // Parts where the difference of two normal errors of 10 mm exceeds 4 mm: 1 - P(4/14.14).
    near("share that falls", share, 0.388_6, 0.015, "of 1");
}

#[test]
fn a_body_in_the_air_has_no_margin_to_draw() {
    let bed = Bed { bearings: Vec::new(), touch_m: 0.006, touch_hard_m: 0.006, beside_m: 0.005 };
    let stack = Stack::new(bed, vec![block([0.0, 0.0], [0.5, 0.33, 0.11], 25.0)], scatter(1, 0.0, 0.01));
    let got = stack.drawn(&WIDE, 100, 1);
    assert_eq!(got.tip, None, "margin");
    assert_eq!(got.failures.tip, None, "chance");
    assert_eq!(got.failures.any.fails, 100, "and so every draw fails");
}
