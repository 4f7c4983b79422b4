//! The mechanism with the fewest pieces. Where several mechanisms need the same push, a solver's motion is a
//! mixture of them, and names pieces that could as well stay. A part of the motion that proves the
//! same limit by itself is shown instead: the words name what must move, and no more.
//!
//! `own derivation`. Two kinds of parts are tried, and each is checked like any motion. Pieces that move
//! and touch, the others at rest: the faces between part and rest do as before. One piece and all
//! that lies over it, moving as against what it rests on: what moves together may be given any common
//! motion, and no face between them parts or closes by it. The smallest that is found in this way need not be the
//! smallest of all; it proves the limit, and the same problem gives the same pieces every time.

use super::block::{NO_WRENCH, Wrench, add, speed_at};
use super::group::Group;
use super::motion::{HalfPlane, Motion, admissible, half_plane};

/// A piece slower than this part of the fastest one stays where it is.
pub(super) const SLOW: f64 = 1e-3;

/// The part of a motion with the fewest pieces that `proves` as much as the whole; the motion itself
/// if there is none with fewer.
pub(super) fn smallest(group: &Group, motion: &Motion, proves: &dyn Fn(&HalfPlane) -> bool) -> Motion {
    let mut least = without_slow(motion);
    // Every round leaves fewer pieces.
    while let Some(fewer) = next(group, &least, proves) {
        least = fewer;
    }
    least
}

/// The part with the fewest pieces, the first among equals; none if no part has fewer than the whole.
fn next(group: &Group, motion: &Motion, proves: &dyn Fn(&HalfPlane) -> bool) -> Option<Motion> {
    let mut parts: Vec<(usize, Motion)> = (together(group, motion).into_iter().chain(over(group, motion)))
        .map(|part| (moving(&part), part))
        .filter(|(count, part)| (1..moving(motion)).contains(count) && claims(group, part, proves))
        .collect();
    // A stable sort: the order of the pieces decides among equals.
    parts.sort_by_key(|(count, _)| *count);
    let proved =
        |part: &Motion| half_plane(group, &admissible(group, part.clone())).is_some_and(|plane| proves(&plane));
    parts.into_iter().map(|(_, part)| part).find(proved)
}

/// The cheap half of the proof: the powers, before any face has been looked at.
fn claims(group: &Group, part: &Motion, proves: &dyn Fn(&HalfPlane) -> bool) -> bool {
    half_plane(group, part).is_some_and(|plane| proves(&plane))
}

fn size(speed: &Wrench) -> f64 {
    speed.iter().fold(0.0, |size: f64, part| size.max(part.abs()))
}

fn moving(motion: &[Wrench]) -> usize {
    motion.iter().filter(|speed| size(speed) > 0.0).count()
}

/// Rounding of the solver is no motion.
fn without_slow(motion: &[Wrench]) -> Motion {
    let fastest = motion.iter().map(size).fold(0.0, f64::max);
    motion.iter().map(|speed| if size(speed) > SLOW * fastest { *speed } else { NO_WRENCH }).collect()
}

/// For each set of moving pieces that touch: its motion, all else at rest.
fn together(group: &Group, motion: &[Wrench]) -> Vec<Motion> {
    let mut set: Vec<usize> = (0..motion.len()).collect();
    let moves = |body: usize| size(&motion[body]) > 0.0;
    for joint in &group.joints {
        let Some(lower) = joint.lower else { continue };
        if moves(joint.upper) && moves(lower) {
            let (a, b) = (root(&set, joint.upper), root(&set, lower));
            set[a.max(b)] = a.min(b);
        }
    }
    let first = (0..motion.len()).filter(|&body| moves(body) && set[body] == body);
    let of = |first: usize| {
        let own = |(body, speed): (usize, &Wrench)| if root(&set, body) == first { *speed } else { NO_WRENCH };
        motion.iter().enumerate().map(own).collect()
    };
    first.map(of).collect()
}

fn root(set: &[usize], mut body: usize) -> usize {
    while set[body] != body {
        body = set[body];
    }
    body
}

/// For each piece that moves as against something it rests on: it and all that lies over it, moving
/// so, all else at rest.
fn over<'m>(group: &'m Group, motion: &'m Motion) -> impl Iterator<Item = Motion> + 'm {
    group.joints.iter().filter_map(move |joint| {
        let common = joint.lower.map_or((NO_WRENCH, 0), |lower| (motion[lower], lower));
        let against = |body: usize| {
            let (mut speed, (common, of)) = (motion[body], common);
            let arm = (group.centres[body] - group.centres[of]).into();
            add(&mut speed, -1.0, &speed_at(&common, &arm));
            speed
        };
        let goes = size(&against(joint.upper)) > SLOW * size(&motion[joint.upper]);
        goes.then(|| {
            let above = above(group, joint.upper);
            (0..motion.len()).map(|body| if above[body] { against(body) } else { NO_WRENCH }).collect::<Motion>()
        })
        .map(|part| without_slow(&part))
    })
}

/// The piece and everything that rests on it, at once or by way of others.
fn above(group: &Group, body: usize) -> Vec<bool> {
    let mut above = vec![false; group.bodies.len()];
    above[body] = true;
    // What lies under a piece was placed before it.
    for upper in body + 1..above.len() {
        let rests = group.joints[group.under[upper].clone()].iter().filter_map(|joint| joint.lower);
        above[upper] = rests.into_iter().any(|lower| above[lower]);
    }
    above
}
