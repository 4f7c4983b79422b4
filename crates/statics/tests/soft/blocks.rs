//! One rigid block on one bed: footings, rocking, and the pushes that it bears.

use crate::given::{GRAVITY, Given, floor, near, piece, relatively};
use statics::soft::{Rocking, SoftEnd, Softness, at_rest, at_rest_first_order, rocking_limit};
use statics::{Bearing, Bed};

const BED_N_PER_M3: f64 = 5e6;
/// Shear so stiff that it plays no part.
const NO_SHEAR: f64 = 1e4;
const LONG_M: f64 = 0.5;
const SHORT_M: f64 = 0.33;

/// A block that is larger than its bed of 0.5 x 0.33 m, so that its weight can stand off the bed's middle.
struct Block {
    mass_kg: f64,
    height_m: f64,
    off_m: [f64; 2],
    stiffness: f64,
    bed_m: [f64; 2],
}

const BLOCK: Block =
    Block { mass_kg: 100.0, height_m: 0.6, off_m: [0.0, 0.0], stiffness: BED_N_PER_M3, bed_m: [LONG_M, SHORT_M] };

impl Block {
    fn given(&self) -> Given {
        let side = |axis: usize| [-0.5, 0.5].map(|part| part * self.bed_m[axis] - self.off_m[axis]);
        let bearing = Bearing { x_m: side(0), y_m: side(1), top_m: 0.0, friction: 0.5 };
        let bed = Bed { bearings: vec![bearing], ..floor() };
        let wide = self.bed_m.map(|side| 3.0 * side);
        let body = piece([0.0, 0.0], [wide[0], wide[1], self.height_m], self.mass_kg);
        let mut given = Given::new(&bed, vec![body], vec![Softness::RIGID]);
        given.stiffest = 1e14;
        given.bearings =
            vec![Softness { compliance_m3_per_n: 1.0 / self.stiffness, rim_m: 0.0, shear_ratio: NO_SHEAR }];
        given
    }

    fn first_order_tilt(&self) -> f64 {
        at_rest_first_order(&self.given().soft(), 1).unwrap()[0].turn_rad[1]
    }

    /// k b l^3 / 12 about the bed's long side.
    fn rocking_n_m(&self) -> f64 {
        self.stiffness * LONG_M * SHORT_M.powi(3) / 12.0
    }
}

#[test]
fn a_block_off_the_middle_tilts_as_a_footing_does() {
    // Source: `spread-footing-formulas`, textbook: inside the kern 12 W e / (k l b^3), beyond it closed over
    // x = 3 (b/2 - e) with tilt 2 W / (k l x^2). Printed: 2.852844e-3, 4.754739e-3, 7.815154e-3.
    for (off_m, want) in [(0.05, 2.852844e-3), (LONG_M / 6.0, 4.754739e-3), (0.12, 7.815154e-3)] {
        let got = Block { off_m: [off_m, 0.0], ..BLOCK }.first_order_tilt();
        near(&format!("tilt at {off_m} m"), got, want, 5e-10, "rad");
    }
}

#[test]
fn a_footing_beyond_its_kern_is_pressed_as_published() {
    // Source: `tower-crane-footing`, seen: 7 m square, 2687.5 kN, 1.563 m off: pressed over 5.811 m, 132.2 kPa. The
    // pressure printed is rounded up: 2 N / (l x) is 132.1. Stiff, so that the tilt adds nothing.
    let block =
        Block { mass_kg: 2687.5e3 / GRAVITY, height_m: 1.0, off_m: [1.563, 0.0], stiffness: 1e11, bed_m: [7.0, 7.0] };
    let solved = at_rest(&block.given().soft(), 1);
    near("pressed over", 7.0 * solved.beds[0].closed, 5.811, 5e-4, "m");
    near("pressure", solved.beds[0].greatest_pa, 132.2e3, 100.0, "Pa");
}

#[test]
fn a_block_leans_over_by_itself_at_the_load_of_a_hinged_bar_on_a_spring() {
    // Source: `hinged-bar-on-a-spring`, seen: P = k/l of a bar on a spring that turns; here W h = k b l^3 / 12.
    let (got, want) = (BLOCK.given().critical(), BLOCK.rocking_n_m() / (100.0 * GRAVITY * 0.3));
    relatively("critical load factor", got, want, 2e-4, "");
    near("the same", want, 25.45, 5e-3, "");
}

#[test]
fn a_block_bears_the_push_of_the_closed_form() {
    // `own derivation` (at `rocking_limit`): b/(2h) - 3 (c/6h)^(2/3), worked out apart: 0.618569 along, 0.363014
    // across; rigid it would be 0.8333 and 0.55.
    let given = BLOCK.given();
    for (direction_deg, edge_m, length_m, want) in
        [(0.0, 0.25, SHORT_M, 0.618569), (90.0, 0.165, LONG_M, 0.363014), (180.0, 0.25, SHORT_M, 0.618569)]
    {
        let block =
            Rocking { weight_n: 100.0 * GRAVITY, height_m: 0.3, edge_m, stiffness_n_per_m3: BED_N_PER_M3, length_m };
        near("closed form", rocking_limit(&block), want, 5e-7, "of weight");
        near(&format!("push at {direction_deg} deg"), given.push(direction_deg), want, 1e-4, "of weight");
    }
}

#[test]
fn a_block_stands_no_farther_off_the_middle_than_its_lean_allows() {
    // `own derivation`, the closed form at no push: 0.18557 m; rigid it would stand to 0.25 m.
    let end = |off_m: f64| Block { off_m: [off_m, 0.0], ..BLOCK }.given().end().stands();
    assert_eq!(end(0.1854), Some(true), "just inside");
    assert_ne!(end(0.1857), Some(true), "just outside");
}

#[test]
fn a_lean_grows_with_the_nearness_of_the_critical_load() {
    // 1/(1 - 1/L) of the first order's tilt, `from memory`, holds to 0.2 % while the bed is pressed all over.
    for mass_kg in [100.0, 400.0, 800.0] {
        let block = Block { mass_kg, off_m: [0.0, 1e-4], ..BLOCK };
        let given = block.given();
        let first = at_rest_first_order(&given.soft(), 1).unwrap()[0].turn_rad[0];
        let second = at_rest(&given.soft(), 1).moved[0].turn_rad[0];
        let critical = given.critical();
        relatively("growth", second / first, 1.0 / (1.0 - 1.0 / critical), 2e-3, "");
    }
}

#[test]
fn tilt_over_weight_against_tilt_is_a_line_whose_slope_is_one_over_the_critical_weight() {
    // Source: `southwell-1932`: the construction by which a critical load is found from measured leans. 0.5 %.
    let tall = |mass_kg: f64| Block { mass_kg, height_m: 1.2, off_m: [0.0, 1e-4], ..BLOCK };
    let point = |mass_kg: f64| {
        let tilt = at_rest(&tall(mass_kg).given().soft(), 1).moved[0].turn_rad[0].abs();
        [tilt, tilt / (mass_kg * GRAVITY)]
    };
    let critical_n = BLOCK.rocking_n_m() / 0.6;
    for (one, other) in [(200.0, 300.0), (300.0, 400.0), (400.0, 500.0)].map(|(a, b)| (point(a), point(b))) {
        let slope = (other[1] - one[1]) / (other[0] - one[0]);
        relatively("critical weight", slope.recip(), critical_n, 5e-3, "N");
    }
}

#[test]
fn the_pressure_stands_under_the_weight_where_it_has_shifted_to() {
    // Moments (`own derivation`): k l b^3 / 12 times the tilt = W (e + shift), to 0.3 %.
    let solved = at_rest(&Block { off_m: [0.04, 0.0], ..BLOCK }.given().soft(), 1);
    let SoftEnd::Stands(rest) = solved.end else { panic!("it stands") };
    let arm_m = BED_N_PER_M3 * SHORT_M * LONG_M.powi(3) / 12.0 * solved.moved[0].turn_rad[1] / (100.0 * GRAVITY);
    relatively("arm of the pressure", arm_m, 0.04 + rest.shift_m[0], 3e-3, "m");
    near("it leans the way of its weight", rest.shift_m[0].signum(), 1.0, 0.0, "");
}
