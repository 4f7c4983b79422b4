//! What the bounds of one state are worth in the next. Forces of the smaller pile prove nothing about the
//! greater one, but are a good start of the search. A mechanism of the smaller pile stays a proof once the
//! new piece has been given a motion with which no joint closes; its half-plane is worked out again
//! with the new weight. Both come from earlier placements only: a verdict depends on nothing that is put
//! down later.

use super::block::NO_WRENCH;
use super::bounds::Bounds;
use super::forces::Forces;
use super::group::Group;
use super::load_path::LoadPath;
use super::motion::{Motion, UpperBound, closing, upper_bound};
use quantity::frame::plan_direction;
use std::f64::consts::TAU;

/// Guesses are kept for at most about so many directions.
const GUESSES: usize = 32;
/// A new joint that closes no faster than this part of the fastest piece is left to the lifting of the whole
/// motion: its bound may then be higher than the limit, but shows where the stack fails.
const CLOSED: f64 = 1e-4;

/// Part of a new group, with its bounds.
pub(super) struct Before<'k> {
    pub(super) group: &'k Group,
    pub(super) bounds: &'k Bounds,
}

/// The bounds that a group starts with, from the groups that became one by the placement (or the same
/// group, if only a strap was put on).
pub(super) fn inherited(group: &Group, before: &[Before]) -> Bounds {
    let grown = before.iter().flat_map(|before| before.bounds.upper.iter().map(|bound| grown(group, before, bound)));
    let upper: Vec<UpperBound> = grown.flatten().collect();
    Bounds { upper, guesses: guesses(group, before), ..Bounds::default() }
}

fn guesses(group: &Group, before: &[Before]) -> Vec<LoadPath> {
    if let [one] = before {
        let kept = one.bounds.lower.iter().chain(&one.bounds.guesses);
        let mut list: Vec<LoadPath> = Vec::new();
        for path in kept {
            if list.len() < GUESSES && !list.iter().any(|listed| is_alongside(&listed.push, &path.push)) {
                let mut forces = vec![[0.0; 3]; 4 * group.joints.len()];
                place(group, one, &path.forces, &mut forces);
                list.push(LoadPath { push: path.push, forces });
            }
        }
        return list;
    }
    (0..16).map(|sixteenth| together(group, before, TAU * f64::from(sixteenth) / 16.0)).collect()
}

/// Two pushes within a few degrees: one of them is enough to start from.
fn is_alongside(a: &[f64; 2], b: &[f64; 2]) -> bool {
    let (sizes, facing) = (a[0].hypot(a[1]) * b[0].hypot(b[1]), a[0] * b[0] + a[1] * b[1]);
    sizes <= 1e-12 || facing > sizes * (TAU / 50.0).cos()
}

fn together(group: &Group, before: &[Before], direction_rad: f64) -> LoadPath {
    let push = plan_direction(direction_rad);
    let mut forces = vec![[0.0; 3]; 4 * group.joints.len()];
    for part in before {
        let guess = part.bounds.guess(push, 4 * part.group.joints.len());
        place(group, part, &guess, &mut forces);
    }
    LoadPath { push, forces }
}

/// The forces of a part, in parts of the weight of the whole.
fn place(group: &Group, part: &Before, from: &Forces, to: &mut Forces) {
    let share = part.group.mass_kg / group.mass_kg;
    let mut at = 0;
    for (joint, forces) in part.group.joints.iter().zip(from.chunks_exact(4)) {
        at += group.joints[at..].iter().position(|own| own.contact == joint.contact).expect("no contact is lost");
        to[4 * at..4 * at + 4].iter_mut().zip(forces).for_each(|(to, from)| *to = from.map(|part| share * part));
    }
}

/// A mechanism of the part as one of the whole: the new piece moves with one of those it rests on, or
/// stays at rest.
fn grown(group: &Group, part: &Before, bound: &UpperBound) -> Option<UpperBound> {
    let mut motion = placed_motion(group, part, &bound.motion);
    let last = group.bodies.len() - 1;
    let is_new = !part.group.bodies.contains(&group.bodies[last]);
    if is_new && !ride(group, last, &mut motion) {
        return None;
    }
    upper_bound(group, motion)
}

fn placed_motion(group: &Group, part: &Before, from: &Motion) -> Motion {
    let mut motion = vec![NO_WRENCH; group.bodies.len()];
    // Speeds are scaled by the extent: so many extents a second; turning is not.
    let turning = group.length_m / part.group.length_m;
    for (body, [vx, vy, vz, wx, wy, wz]) in part.group.bodies.iter().zip(from) {
        let at = group.bodies.binary_search(body).expect("no body is lost");
        motion[at] = [*vx, *vy, *vz, turning * wx, turning * wy, turning * wz];
    }
    motion
}

/// With the mount on which its joints close least.
fn ride(group: &Group, body: usize, motion: &mut Motion) -> bool {
    let joints = &group.joints[group.under[body].clone()];
    let fastest = motion.iter().flatten().fold(0.0, |fastest: f64, part| fastest.max(part.abs()));
    let mut least = (f64::INFINITY, NO_WRENCH);
    for mount in joints.iter().filter_map(|joint| joint.lower).map(Some).chain([None]) {
        motion[body] = mount.map_or(NO_WRENCH, |mount| {
            let arm = (group.centres[body] - group.centres[mount]).into();
            super::block::speed_at(&motion[mount], &arm)
        });
        let worst = joints.iter().map(|joint| closing(joint, motion)).fold(0.0, f64::max);
        if worst < least.0 {
            least = (worst, motion[body]);
        }
    }
    motion[body] = least.1;
    least.0 <= CLOSED * fastest
}
