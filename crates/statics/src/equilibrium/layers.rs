//! Questions about a push that are solved on a few layers of the stack only. The load of all that lies over them is
//! traced down (`load_path`), a programme is solved for the layers themselves, and the load is traced on through
//! all that lies under them.
//!
//! `own derivation`. Where a stack fails, faces part in few layers: what lies over them moves along in one
//! piece and could carry more, what lies under them stays at rest. The load from above is worked out for
//! two pushes and mixed between them: forces of two equilibria, mixed, are an equilibrium of the mixed
//! push. So it grows in proportion to the push, as a load of the programme must. Nothing that is
//! found here is taken on trust: forces and motions are checked on the whole stack, as any others.

use super::band::Band;
use super::block::{NO_WRENCH, Wrench, add, speed_at};
use super::cone::Part;
use super::forces::{Forces, Normals, normals};
use super::group::{Group, Joint};
use super::interior::Shape;
use super::load_path::{Blocked, Descent};
use super::motion::{Motion, at_corners};
use super::rebalance::rebalanced;
use nalgebra::Vector3;
use quantity::frame::plan_direction;

/// Faces part if they do so faster than this, in parts of the fastest piece.
const PARTING: f64 = 1e-3;
/// So many layers are added above the one at which the load path is blocked.
const AROUND: usize = 3;
/// Layers with more than this part of the pieces cost as much as the whole.
const WORTH: f64 = 0.7;
/// The greater of the two pushes, in parts of what is enough, and the lesser in parts of the greater.
const MORE: f64 = 1.05;
const LESSER: f64 = 0.9;

/// The direction of a push in plan, and forces to stay close to.
pub(super) struct PushDirection<'n> {
    direction_rad: f64,
    /// The same as a level unit vector, bed frame.
    along: Vector3<f64>,
    near: &'n Forces,
    normals: Normals,
}

/// The layers that are solved: those in which faces part under a motion, and some beside them.
#[derive(Clone, Copy)]
pub(super) struct PartingLayers<'m> {
    pub(super) motion: &'m Motion,
    /// Layers over and under them that are taken in too.
    pub(super) margin: usize,
    /// No push beyond this can be carried.
    pub(super) upper: f64,
}

impl<'n> PushDirection<'n> {
    pub(super) fn new(group: &Group, direction_rad: f64, near: &'n Forces) -> PushDirection<'n> {
        PushDirection { direction_rad, along: group.axes.along(direction_rad), near, normals: normals(group, near) }
    }

    pub(super) fn direction(&self) -> [f64; 2] {
        plan_direction(self.direction_rad)
    }

    fn loads(&self, group: &Group, push: f64) -> Vec<Wrench> {
        group.loads_along(&(push * self.along))
    }
}

/// As great a push of what is `enough` as was found, with forces in the whole stack.
pub(super) fn greatest_push(
    whole: &Group,
    toward: &PushDirection,
    parting: &PartingLayers,
    enough: f64,
    steps: u32,
) -> Option<(f64, Forces)> {
    let greater = parting.upper.min(MORE * enough);
    let lesser = LESSER * greater;
    let (band, over) = descents(whole, toward, parting.layers(whole)?, WORTH, [greater, lesser])?;
    let [at_greater, at_lesser] = over.each_ref().map(|over| band.about_centres(&over.carried));
    // What the pieces within carry is at_lesser + (push - lesser) unit.
    let unit: Vec<Wrench> = (at_greater.iter().zip(&at_lesser))
        .map(|(more, less)| std::array::from_fn(|row| (more[row] - less[row]) / (greater - lesser)))
        .collect();
    let mut loads = at_lesser;
    loads.iter_mut().zip(&unit).for_each(|(load, unit)| add(load, -lesser, unit));
    let group = band.group(loads);
    let stop = Shape::new(&group, band.start(&toward.normals)).push(unit, enough, steps);
    let share = (stop.multiplier - lesser) / (greater - lesser);
    let mix = |(more, less): (&Part, &Part)| std::array::from_fn(|k| share * more[k] + (1.0 - share) * less[k]);
    let mut forces = over[0].forces.iter().zip(&over[1].forces).map(mix).collect();
    band.put(&stop.forces, &mut forces);
    band.pass_under(toward.loads(whole, stop.multiplier), &mut forces, &toward.normals).ok()?;
    Some((stop.multiplier, forces))
}

/// Forces for a push: traced down as far as that goes, but not through these layers; the known ones rebalanced from
/// there on.
pub(super) fn rebalance(whole: &Group, toward: &PushDirection, layers: [usize; 2], push: f64) -> Option<Forces> {
    let (band, [over]) = descents(whole, toward, layers, 1.0, [push])?;
    let group = band.group(band.about_centres(&over.carried));
    let shape = Shape::new(&group, band.start(&toward.normals));
    let found = rebalanced(&shape, &band.of_joints(toward.near))?;
    let mut forces = over.forces;
    band.put(&found, &mut forces);
    Some(forces)
}

/// The mechanism of the stack, if all that lies over the layers moves in one piece.
pub(super) fn mechanism(whole: &Group, toward: &PushDirection, parting: &PartingLayers, steps: u32) -> Option<Motion> {
    let band = Band::new(whole, parting.layers(whole)?);
    if band.part() > WORTH {
        return None;
    }
    let (group, start) = band.capped(&toward.normals)?;
    let found = Shape::new(&group, start).push(group.push(&toward.along), f64::INFINITY, steps).motion;
    let (cap, mut motion) = (band.within.len(), vec![NO_WRENCH; whole.bodies.len()]);
    band.within.iter().zip(&found).for_each(|(&body, speed)| motion[body] = *speed);
    for &body in &band.over {
        motion[body] = speed_at(&found[cap], &(whole.centres[body] - group.centres[cap]).into());
    }
    Some(motion)
}

/// The layers from the first to the last, and as many more as it takes to trace down the load over them
/// at each of these pushes. None where that is more of the stack than `worth`.
fn descents<'g, const N: usize>(
    whole: &'g Group,
    toward: &PushDirection,
    [first, mut last]: [usize; 2],
    worth: f64,
    pushes: [f64; N],
) -> Option<(Band<'g>, [Descent<'g>; N])> {
    loop {
        let band = Band::new(whole, [first, last]);
        if band.part() > worth {
            return None;
        }
        let descent = |push: &f64| band.descent_over(toward.loads(whole, *push), &toward.normals);
        match pushes.iter().map(descent).collect::<Result<Vec<_>, Blocked>>() {
            Ok(over) => return over.try_into().ok().map(|over| (band, over)),
            // This ends: a blocked piece lies over the last layer.
            Err(Blocked(body)) => last = whole.layers[body] + AROUND,
        }
    }
}

impl PartingLayers<'_> {
    /// The lowest and the highest. None where nothing parts.
    fn layers(&self, whole: &Group) -> Option<[usize; 2]> {
        let fastest = self.motion.iter().flatten().fold(0.0, |fastest: f64, part| fastest.max(part.abs()));
        let parts = |joint: &&Joint| {
            let speed = |part: &Part| (joint.steepness() * part[0]).abs().max(part[1].hypot(part[2]));
            at_corners(joint, self.motion).iter().any(|part| speed(part) > PARTING * fastest)
        };
        let layers = || whole.joints.iter().filter(parts).map(|joint| whole.layers[joint.upper]);
        Some([layers().min()?.saturating_sub(self.margin), layers().max()? + self.margin])
    }
}
