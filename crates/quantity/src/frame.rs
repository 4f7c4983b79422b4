//! Frames and signs, once for the whole program.
//!
//! x is the station, aft positive; y the buttock line, right positive; z the waterline, up
//! positive: right-handed. A turn is nose-up positive, which is a right-handed turn about +y.
//! A transform names both ends, target first: `p_in_floor = floor_from_bed * p_in_bed`.
//! Directions in plan are angles from aft towards the right: 0 = aft, 90 deg = right.

use crate::Angle;
use crate::kinds::Quantity;
use nalgebra::{Isometry3, Point3, Translation3, UnitQuaternion, Vector3};

/// Turns a frame nose-up about a pivot, which stays where it is.
///
/// x' = x cos a + z sin a, z' = -x sin a + z cos a from the pivot: the right-handed rotation
/// about +y (`own derivation` from the axes above).
pub fn nose_up_about(angle: Angle, pivot: Point3<f64>) -> Isometry3<f64> {
    let turn = UnitQuaternion::from_axis_angle(&Vector3::y_axis(), angle.si());
    let back = Translation3::from(pivot.coords);
    back * Isometry3::from_parts(Translation3::identity(), turn) * back.inverse()
}

/// A child frame with its origin at a point of the parent frame, turned nose-up against it.
pub fn nose_up_at(angle: Angle, origin_in_parent: Point3<f64>) -> Isometry3<f64> {
    let turn = UnitQuaternion::from_axis_angle(&Vector3::y_axis(), angle.si());
    Isometry3::from_parts(Translation3::from(origin_in_parent.coords), turn)
}

/// The level unit vector of a direction in plan: 0 = aft, a quarter turn = right.
pub fn plan_direction(angle_rad: f64) -> [f64; 2] {
    [angle_rad.cos(), angle_rad.sin()]
}

/// The direction in plan of a level vector, in degrees from 0 up to 360: 0 = aft, 90 = right.
pub fn plan_angle_deg([aft, right]: [f64; 2]) -> f64 {
    let degrees = right.atan2(aft).to_degrees().rem_euclid(360.0);
    // rem_euclid of a tiny negative angle rounds to 360 itself.
    if degrees >= 360.0 { 0.0 } else { degrees }
}

/// The words for the two ways along a level axis, `x` (0) or `y` (1): the positive one, the negative one.
pub fn sides(axis: usize) -> [&'static str; 2] {
    if axis == 0 { ["aft", "forward"] } else { ["right", "left"] }
}

/// The side to which a signed length along a level axis leads, `x` (0) or `y` (1). Nothing leads to a
/// side: who may have to tell zero asks first whether it is shown as zero.
pub fn side(axis: usize, signed: f64) -> &'static str {
    sides(axis)[usize::from(signed < 0.0)]
}

/// A direction in plan in words, to the nearest eighth of a turn.
pub fn plan_words(degrees: f64) -> &'static str {
    const WORDS: [&str; 8] =
        ["aft", "aft and right", "right", "forward and right", "forward", "forward and left", "left", "aft and left"];
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 7 after the modulo")]
    let eighth = (degrees.rem_euclid(360.0) / 45.0).round() as usize % 8;
    WORDS[eighth]
}
