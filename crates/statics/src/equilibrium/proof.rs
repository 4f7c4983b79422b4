//! What is proved about one direction, and by which route: a lower bound by forces that were checked (static
//! theorem of limit analysis), an upper bound by a motion that was made admissible (kinematic theorem). The method
//! of this crate is toward first, the general solver where that stops short.

use super::forces::{Forces, miss, normals, well_within};
use super::group::Group;
use super::interior::Shape;
use super::layers::{self, PartingLayers, PushDirection};
use super::load_path::{LoadPath, trace};
use super::motion::{Motion, UpperBound, upper_bound};
use super::plain;
pub(super) use crate::conic::BALANCED;
use crate::margin::slack;
use quantity::frame::plan_direction;

/// How many steps each solver may take in one solve. What fewer leave open comes back as not decided.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Steps of this crate's method.
    pub own: u32,
    /// Steps of the general solver, toward where the first stops short.
    pub general: u32,
}

impl Effort {
    /// As many as have decided every stack so far, with room to spare.
    pub const FULL: Effort = Effort { own: 60, general: 200 };
}

/// What came of one direction.
pub(super) enum Found {
    /// The greatest push: the two bounds meet.
    Limit(LoadPath, UpperBound),
    /// As much as was toward for is carried; how much more was not worked out.
    Lower(LoadPath),
    /// No push at all keeps it up: the half-plane leaves out even the weight alone.
    Falls(UpperBound),
    /// The push may grow without end.
    Unlimited,
    /// Not decided; the miss of the best forces, if there were any.
    Open(Option<f64>),
}

/// Forces to start from: those of the pile at rest where they are easily found, even pressure where not.
pub(super) fn start(group: &Group) -> Forces {
    let corners = 4 * group.joints.len();
    let at_rest = trace(group, [0.0; 2], &vec![0.0; corners]);
    let normals = at_rest.map_or_else(|| vec![0.25; corners], |forces| normals(group, &forces));
    let joints = group.joints.iter().zip(normals.chunks_exact(4));
    joints.flat_map(|(joint, normals)| well_within(joint, normals)).collect()
}

/// The greatest push along a direction in plan, rad; once `enough` is carried, any push that is.
pub(super) fn push(shape: &Shape, direction_rad: f64, enough: f64, effort: Effort) -> Found {
    let (group, direction) = (shape.group(), plan_direction(direction_rad));
    let along = group.axes.along(direction_rad);
    let own = shape.push(group.push(&along), enough, effort.own);
    if own.multiplier >= enough
        && let Some(path) = checked(group, direction, &own.forces, own.multiplier)
    {
        return Found::Lower(path);
    }
    let found = weigh(group, direction, &own.forces, own.multiplier, own.motion);
    if !matches!(found, Found::Open(_)) {
        return found;
    }
    let Some(second) = plain::push(group, &along, effort.general) else { return found };
    if second.unlimited && grows_alone(group, direction, &second.forces, second.multiplier) {
        return Found::Unlimited;
    }
    match (weigh(group, direction, &second.forces, second.multiplier, second.motion), found) {
        (Found::Open(second), Found::Open(first)) => Found::Open(smaller(first, second)),
        (decided, _) => decided,
    }
}

/// Of two misses that did not decide, the smaller one says more.
fn smaller(a: Option<f64>, b: Option<f64>) -> Option<f64> {
    a.into_iter().chain(b).filter(|miss| miss.is_finite()).min_by(f64::total_cmp)
}

/// Takes nothing on trust: forces and motion are checked, and decide only if their bounds meet.
fn weigh(group: &Group, direction: [f64; 2], forces: &Forces, multiplier: f64, motion: Motion) -> Found {
    let push = direction.map(|part| multiplier * part);
    let miss = miss(group, forces, push);
    match upper_bound(group, motion) {
        Some(bound) if bound.half_plane.reach < -BALANCED => Found::Falls(bound),
        Some(bound) if miss <= BALANCED && meets(&bound, direction, multiplier) => {
            Found::Limit(LoadPath { push, forces: forces.clone() }, bound)
        }
        _ => Found::Open(Some(miss).filter(|miss| miss.is_finite())),
    }
}

fn checked(group: &Group, direction: [f64; 2], forces: &Forces, multiplier: f64) -> Option<LoadPath> {
    let push = direction.map(|part| multiplier * part);
    (miss(group, forces, push) <= BALANCED).then(|| LoadPath { push, forces: forces.clone() })
}

fn meets(bound: &UpperBound, direction: [f64; 2], multiplier: f64) -> bool {
    bound.half_plane.along(direction) - multiplier <= slack(multiplier)
}

/// A ray of forces that balances the push alone, without weight: it may be added any number of times.
fn grows_alone(group: &Group, direction: [f64; 2], forces: &Forces, multiplier: f64) -> bool {
    let ray: Forces = forces.iter().map(|part| part.map(|part| part / multiplier)).collect();
    let push = group.push(&group.axes.level(direction));
    let held = super::forces::on_bodies(group, &ray);
    let rows = push.iter().flatten().zip(held.iter().flatten()).map(|(push, held)| (push + held).abs());
    let cones = ray.iter().map(super::cone::outside);
    multiplier > 0.0 && rows.chain(cones).all(|miss| miss <= BALANCED)
}

/// Tries to prove a push by tracing its load path; see there for what this cannot find.
pub(super) fn traced(group: &Group, push: [f64; 2], near: &Forces) -> Option<LoadPath> {
    let forces = trace(group, push, &normals(group, near))?;
    (miss(group, &forces, push) <= BALANCED).then_some(LoadPath { push, forces })
}

/// The same by rebalancing what cannot be traced.
pub(super) fn rebalanced(
    group: &Group,
    toward: &PushDirection,
    layers: [usize; 2],
    multiplier: f64,
) -> Option<LoadPath> {
    checked(group, toward.direction(), &layers::rebalance(group, toward, layers, multiplier)?, multiplier)
}

/// As much of `enough` as these layers were found to carry.
pub(super) fn on_layers(
    group: &Group,
    toward: &PushDirection,
    parting: &PartingLayers,
    enough: f64,
    effort: Effort,
) -> Option<LoadPath> {
    let (multiplier, forces) = layers::greatest_push(group, toward, parting, enough, effort.own)?;
    checked(group, toward.direction(), &forces, multiplier)
}

/// The upper bound of a mechanism in which all that lies over those layers moves in one piece.
pub(super) fn upper_bound_on_layers(
    group: &Group,
    toward: &PushDirection,
    parting: &PartingLayers,
    effort: Effort,
) -> Option<UpperBound> {
    upper_bound(group, layers::mechanism(group, toward, parting, effort.own)?)
}

#[cfg(test)]
mod walls;
