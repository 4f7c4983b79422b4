//! The worked case of 20 bags. Source: `worked-stacks` (`derived`), file in `tests/cases`.

use crate::given::{Stack, WIDE, block, near, panel};
use nalgebra::{Isometry3, Matrix2};
use serde_json::Value;
use statics::spread::{Doubt, FirstOrder, Piece, Scatter, first_order, placement_in_floor};

const I01: &str = include_str!("../cases/i01_uncertainty.json");
const DRAWS: usize = 60_000;

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

fn pair(value: &Value) -> [f64; 2] {
    [number(&value[0]), number(&value[1])]
}

fn read() -> (Value, Vec<Piece>) {
    let json: Value = serde_json::from_str(I01).unwrap();
    let piece = |k: usize| Piece {
        mass_kg: number(&json["mass"][k]),
        mass_sd_kg: number(&json["mass_sd"][k]),
        lot: 0,
        at_in_floor: pair(&json["at"][k]),
    };
    let pieces = (0..json["mass"].as_array().unwrap().len()).map(piece).collect();
    (json, pieces)
}

fn closed_form(json: &Value, pieces: &[Piece], share: f64) -> FirstOrder {
    let placement = Matrix2::identity() * number(&json["placement_sd"]).powi(2);
    first_order(pieces, &placement, share).unwrap()
}

#[test]
fn the_first_order_of_the_worked_bags_agrees_independent_and_half_shared() {
    let (json, pieces) = read();
    for share in [0.0, 0.5] {
        let want = &json["expect"][format!("rho_{share:.1}")];
        let got = closed_form(&json, &pieces, share);
        near("mass", got.mass_kg, number(&want["mass"]), 1e-9, "kg");
        near("deviation of the mass", got.mass_sd_kg, number(&want["mass_sd"]), 1e-9, "kg");
        for axis in 0..2 {
            near("centroid", got.centroid_in_floor[axis], number(&want["centroid"][axis]), 1e-9, "m");
            for other in 0..2 {
                let covariance = number(&want["covariance"][axis][other]);
                near("covariance", got.covariance_m2[(axis, other)], covariance, 1e-16, "m2");
            }
        }
        let bound = got.offset_bound(pair(&json["target"]));
        near("fore-aft", bound.fore_aft_m, number(&want["p95_fore_aft"]), 1e-9, "m");
        near("lateral", bound.lateral_m, number(&want["p95_lateral"]), 1e-9, "m");
    }
}

fn stack(json: &Value, pieces: &[Piece], share: f64) -> Stack {
    let body = |piece: &Piece| block(piece.at_in_floor, [0.5, 0.33, 0.11], piece.mass_kg);
    let doubts = pieces.iter().map(|piece| Doubt { mass_sd_kg: piece.mass_sd_kg, lot: piece.lot }).collect();
    let scatter = Scatter { doubts, placement_sd_m: number(&json["placement_sd"]), common_share: share };
    let target_in_floor = pair(&json["target"]);
    Stack { target_in_floor, ..Stack::new(panel(), pieces.iter().map(body).collect(), scatter) }
}

/// Each against its own standard error, five times over: some twenty comparisons.
#[test]
fn the_draws_agree_with_the_first_order_within_their_own_error() {
    let (json, pieces) = read();
    for share in [0.0, 0.5, 1.0] {
        let want = closed_form(&json, &pieces, share);
        let got = stack(&json, &pieces, share).drawn(&WIDE, DRAWS, 2);
        let error = 1.0 / (DRAWS as f64).sqrt();
        let of_deviation = error / 2.0_f64.sqrt();
        near("mean mass", got.applied_kg.mean, want.mass_kg, 5.0 * error * want.mass_sd_kg, "kg");
        let sd = want.mass_sd_kg;
        near("deviation of the mass", got.applied_kg.deviation, sd, 5.0 * of_deviation * sd, "kg");
        near("P5 of the mass", got.applied_kg.p5, want.mass_kg - 1.644_854 * sd, 5.0 * 2.113 * error * sd, "kg");
        near("P95 of the mass", got.applied_kg.p95, want.mass_kg + 1.644_854 * sd, 5.0 * 2.113 * error * sd, "kg");
        for (axis, offset) in [got.fore_aft, got.lateral].iter().enumerate() {
            let sd = want.covariance_m2[(axis, axis)].sqrt();
            let mean = want.centroid_in_floor[axis] - pair(&json["target"])[axis];
            near("mean offset", offset.signed_m.mean, mean, 5.0 * error * sd, "m");
            // Beside the error of the draws, what the first order leaves out: sd of mass over mass.
            near("deviation of the offset", offset.signed_m.deviation, sd, (5.0 * of_deviation + 5e-3) * sd, "m");
        }
        let bound = want.offset_bound(pair(&json["target"]));
        near("P95 of fore-aft", got.fore_aft.size_p95_m, bound.fore_aft_m, 1e-2 * bound.fore_aft_m, "m");
        near("P95 of lateral", got.lateral.size_p95_m, bound.lateral_m, 1e-2 * bound.lateral_m, "m");
        // Both drawn: `tol.percentile_rel` of the file, 5e-3, and as much again.
        if let Some(radial) = json["expect"][format!("rho_{share:.1}")]["p95_radial"].as_f64() {
            near("P95 of the distance", got.radial_p95_m, radial, 1e-2 * radial, "m");
        }
    }
}

/// The file's own 200 000 draws, from another generator: `tol.percentile_rel` on each side.
#[test]
fn the_draws_agree_with_those_of_the_worked_case() {
    let (json, pieces) = read();
    for share in [0.0, 0.5] {
        let want = &json["expect"][format!("rho_{share:.1}")];
        let got = stack(&json, &pieces, share).drawn(&WIDE, DRAWS, 2);
        for (what, got, want) in [
            ("deviation of the mass", got.applied_kg.deviation, number(&want["mc_mass_sd"])),
            ("P95 of fore-aft", got.fore_aft.size_p95_m, number(&want["mc_p95_fore_aft"])),
            ("P95 of lateral", got.lateral.size_p95_m, number(&want["mc_p95_lateral"])),
            ("P95 of the distance", got.radial_p95_m, number(&want["mc_p95_radial"])),
        ] {
            near(what, got, want, 1e-2 * want, "kg or m");
        }
    }
}

#[test]
fn a_tilted_bed_shortens_the_scatter_along_its_slope() {
    let pose = Isometry3::rotation(nalgebra::Vector3::new(0.0, 0.3, 0.0));
    let got = placement_in_floor(&pose, 0.01);
    near("fore-aft", got[(0, 0)], 1e-4 * 0.3_f64.cos().powi(2), 1e-18, "m2");
    near("lateral", got[(1, 1)], 1e-4, 1e-18, "m2");
}
