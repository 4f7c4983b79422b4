//! The mechanism by which a stack fails, for words and arrows.

use super::group::Group;
use super::motion::{HalfPlane, Motion, at_corners};
use super::smallest::{SLOW, smallest};
use crate::margin::Way;
use nalgebra::{Isometry3, Vector3};

/// Turning slower than this, in parts of the fastest piece, is rounding.
const STILL: f64 = 1e-2;
/// A corner that parts faster than its slip asks by more than this part of the fastest piece is open.
const OPEN: f64 = 1e-3;

/// What moves when a stack fails, and how. Taken from the motion that proves the limit; where several
/// mechanisms need the same push, it is one of them, with few pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct Mechanism {
    /// The pieces that move, by their place in the order of placing, ascending.
    pub moving: Vec<usize>,
    /// The lowest layer among them: everything that moves lies in or above it.
    pub layer: usize,
    /// Where they go in plan, rad, floor frame: 0 aft, a quarter turn right.
    pub direction_rad: f64,
    /// Whether faces open faster than others slip.
    pub by: Way,
    /// They would slide as well in every other direction in plan.
    pub any_way: bool,
    /// The motion of each piece that moves, in the same order.
    pub motions: Vec<PieceMotion>,
}

/// The motion of one piece as it starts to go; the fastest centre of all has speed one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PieceMotion {
    /// Speed of its centre, parts of the fastest, floor frame.
    pub speed_in_floor: Vector3<f64>,
    /// Its turning, rad for a way of one metre of the fastest centre, right-handed, floor frame.
    pub turning_in_floor: Vector3<f64>,
}

impl Mechanism {
    /// Out of a motion, the fewest pieces found that still prove as much.
    pub(super) fn of(
        floor_from_bed: &Isometry3<f64>,
        group: &Group,
        motion: &Motion,
        proves: &dyn Fn(&HalfPlane) -> bool,
    ) -> Option<Mechanism> {
        Mechanism::described(floor_from_bed, group, &smallest(group, motion, proves))
    }

    fn described(floor_from_bed: &Isometry3<f64>, group: &Group, motion: &Motion) -> Option<Mechanism> {
        let part = |w: &[f64; 6], at: usize| Vector3::new(w[at], w[at + 1], w[at + 2]);
        let fastest = motion.iter().map(|speed| part(speed, 0).norm()).fold(0.0, f64::max);
        if fastest.is_nan() || fastest <= 0.0 {
            return None;
        }
        let moves = |&at: &usize| part(&motion[at], 0).norm() > SLOW * fastest;
        let moving: Vec<usize> = (0..motion.len()).filter(moves).collect();
        let scaled = |at: &usize| PieceMotion {
            speed_in_floor: floor_from_bed.rotation * part(&motion[*at], 0) / fastest,
            turning_in_floor: floor_from_bed.rotation * part(&motion[*at], 3) / (fastest * group.length_m),
        };
        let motions: Vec<PieceMotion> = moving.iter().map(scaled).collect();
        let going: Vector3<f64> =
            moving.iter().zip(&motions).map(|(&at, m)| group.weights[at] * m.speed_in_floor).sum();
        Some(Mechanism {
            layer: moving.iter().map(|&at| group.layers[at]).min().unwrap_or(1),
            direction_rad: going.y.atan2(going.x),
            by: way(group, motion, fastest),
            any_way: is_any_way(group, motion, fastest),
            moving: moving.iter().map(|&at| group.bodies[at]).collect(),
            motions,
        })
    }
}

/// Faces that stay pressed part no faster than their slip asks (what slides also opens, see the module). It slides
/// if these slip faster than others open, and tips else. Turning alone does not tell: a piece that is turned
/// round a strap lifts more at one corner than at the other. Source: `own derivation`.
fn way(group: &Group, motion: &Motion, fastest: f64) -> Way {
    let (mut slipping, mut opening): (f64, f64) = (0.0, 0.0);
    for joint in &group.joints {
        for [parting, aft, right] in at_corners(joint, motion) {
            let (slip, open) = (aft.hypot(right), joint.steepness() * (parting - aft.hypot(right)));
            opening = opening.max(open);
            if open <= OPEN * fastest {
                slipping = slipping.max(slip);
            }
        }
    }
    // Faces without friction have no slip among their numbers.
    if opening > slipping.max(OPEN * fastest) { Way::Tip } else { Way::Slide }
}

/// On a level bed a motion without turning may be turned as a whole about the vertical: slip, parting and the work
/// of the weight and the straps stay as they are.
fn is_any_way(group: &Group, motion: &Motion, fastest: f64) -> bool {
    let turning = motion.iter().flat_map(|speed| &speed[3..]).fold(0.0, |turning: f64, part| turning.max(part.abs()));
    turning <= STILL * fastest && group.axes.down.xy().norm() <= 1e-9
}
