//! Reads the worked stacks. Source: `worked-stacks` (`derived`). Shared by the programs that test against
//! them, each of which takes it in by its path.

use nalgebra::{Isometry3, Point3};
use quantity::Angle;
use quantity::frame::nose_up_at;
use serde_json::Value;
use statics::{Bearing, Bed, Body};

/// Those that are stacks on a bed.
pub(crate) const STACKS: [&str; 13] = [
    include_str!("a01_one_bag.json"),
    include_str!("a03_two_bags_just_stands.json"),
    include_str!("a04_two_bags_just_falls.json"),
    include_str!("a06_counterweight_order_matters.json"),
    include_str!("b05_harmonic8_stands.json"),
    include_str!("c01_planks_and_layers.json"),
    include_str!("c04_overhanging_board_near.json"),
    include_str!("d01_bridge_equal.json"),
    include_str!("d02_bridge_4mm.json"),
    include_str!("d03_bridge_12mm.json"),
    include_str!("e01_eccentric_steps.json"),
    include_str!("f01_slope_5deg.json"),
    include_str!("f05_mixed_friction.json"),
];

pub(crate) fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

pub(crate) fn numbers<const N: usize>(value: &Value) -> [f64; N] {
    std::array::from_fn(|index| number(&value[index]))
}

pub(crate) fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

pub(crate) fn read_bed(bed: &Value) -> Bed {
    let bearing = |b: &Value| Bearing {
        x_m: numbers(&b["x"]),
        y_m: numbers(&b["y"]),
        top_m: number(&b["top"]),
        friction: number(&b["mu"]),
    };
    let bearings = list(&bed["bearings"]).iter().map(bearing).collect();
    Bed { bearings, touch_m: number(&bed["touch"]), touch_hard_m: number(&bed["touch"]), beside_m: 0.0 }
}

pub(crate) fn read_body(piece: &Value) -> Body {
    Body {
        centre_m: numbers(&piece["at"]),
        extent_m: numbers(&piece["size"]),
        mass_kg: number(&piece["mass"]),
        friction: number(&piece["mu"]),
        soft: false,
    }
}

/// The pose of the case's bed on the floor.
pub(crate) fn read_pose(bed: &Value) -> Isometry3<f64> {
    nose_up_at(Angle::rad(number(&bed["slope"])), Point3::from(numbers::<3>(&bed["origin"])))
}
