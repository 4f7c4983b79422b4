//! What holds for any stack and any scatter.

use crate::given::{Stack, WIDE, block, near, panel};
use nalgebra::Matrix2;
use proptest::prelude::*;
use statics::Body;
use statics::spread::{Doubt, Piece, Scatter, first_order};

fn piece() -> impl Strategy<Value = Piece> {
    (1.0..40.0, 0.0..0.5, 0_usize..3, (-0.5..0.5, -0.3..0.3)).prop_map(|(mass_kg, mass_sd_kg, lot, at)| Piece {
        mass_kg,
        mass_sd_kg,
        lot,
        at_in_floor: [at.0, at.1],
    })
}

fn bodies() -> impl Strategy<Value = Vec<Body>> {
    let centre = (-20..20_i32, -20..20_i32).prop_map(|(x, y)| [0.01 * f64::from(x), 0.01 * f64::from(y)]);
    let body = (centre, 5.0..40.0).prop_map(|(centre, mass_kg)| block(centre, [0.5, 0.33, 0.11], mass_kg));
    prop::collection::vec(body, 1..8)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    #[test]
    fn the_covariance_has_no_negative_axis(pieces in prop::collection::vec(piece(), 1..20), share in 0.0..=1.0_f64) {
        let got = first_order(&pieces, &(Matrix2::identity() * 1e-4), share).unwrap().covariance_m2;
        prop_assert!(got[(0, 0)] >= 0.0 && got.determinant() >= -1e-18, "{got:?}");
    }

    #[test]
    fn a_common_error_of_equal_bags_leaves_the_centroid_where_it_is(pieces in prop::collection::vec(piece(), 2..20)) {
        // In proportion to the masses: g = sum s_i (r_i - c) = 0 (`own derivation`).
        let alike: Vec<Piece> = pieces.iter().map(|p| Piece { mass_sd_kg: 0.02 * p.mass_kg, lot: 0, ..*p }).collect();
        let got = first_order(&alike, &Matrix2::zeros(), 1.0).unwrap();
        near("variance", got.covariance_m2.norm(), 0.0, 1e-16, "m2");
        near("deviation of the mass", got.mass_sd_kg, 0.02 * got.mass_kg, 1e-9, "kg");
    }

    #[test]
    fn a_greater_share_in_common_scatters_the_mass_more(pieces in prop::collection::vec(piece(), 1..20), low in 0.0..1.0_f64, more in 0.0..1.0_f64) {
        let sd = |share: f64| first_order(&pieces, &Matrix2::zeros(), share).unwrap().mass_sd_kg;
        prop_assert!(sd(low + more * (1.0 - low)) >= sd(low) - 1e-12, "shares {low} and {more} more");
    }

    #[test]
    fn a_mirrored_stack_is_bounded_alike(pieces in prop::collection::vec(piece(), 1..12), share in 0.0..=1.0_f64) {
        let other: Vec<Piece> = pieces.iter().map(|p| Piece { at_in_floor: [p.at_in_floor[0], -p.at_in_floor[1]], ..*p }).collect();
        let bound = |pieces: &[Piece]| first_order(pieces, &(Matrix2::identity() * 1e-4), share).unwrap().offset_bound([0.0, 0.0]);
        let (here, there) = (bound(&pieces), bound(&other));
        near("fore-aft", there.fore_aft_m, here.fore_aft_m, 1e-12, "m");
        near("lateral", there.lateral_m, here.lateral_m, 1e-12, "m");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn without_scatter_all_draws_are_the_plan(bodies in bodies()) {
        let scatter = Scatter { doubts: vec![Doubt { mass_sd_kg: 0.0, lot: 0 }; bodies.len()], placement_sd_m: 0.0, common_share: 0.0 };
        let stack = Stack::new(panel(), bodies, scatter);
        let margins = statics::cuts(&stack.pose, &stack.bodies, &stack.pile);
        let want = margins.iter().map(|cut| cut.tip.multiplier).fold(f64::INFINITY, f64::min);
        let got = stack.drawn(&WIDE, 3, 1);
        near("tip", got.tip.unwrap().mean, want, 1e-9 * (1.0 + want.abs()), "of the weight above");
        let mass: f64 = stack.bodies.iter().map(|body| body.mass_kg).sum();
        near("mass", got.applied_kg.mean, mass, 1e-9, "kg");
    }

    #[test]
    fn any_stack_any_scatter_gives_numbers_in_order(bodies in bodies(), sd in 0.0..2.0_f64, placement in 0.0..0.05_f64, share in 0.0..=1.0_f64) {
        let doubts = (0..bodies.len()).map(|k| Doubt { mass_sd_kg: sd, lot: k % 2 }).collect();
        let stack = Stack::new(panel(), bodies, Scatter { doubts, placement_sd_m: placement, common_share: share });
        let got = stack.drawn(&WIDE, 600, 2);
        for spread in [got.applied_kg, got.fore_aft.signed_m, got.lateral.signed_m, got.tip.unwrap()] {
            prop_assert!(spread.p5 <= spread.p95 && !spread.mean.is_nan() && spread.deviation >= 0.0, "{spread:?}");
        }
    }
}
