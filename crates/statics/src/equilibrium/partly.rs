//! Questions about a push that are answered on a few layers of the stack. What lies over them hands its load
//! down (`handed`), for the layers themselves a system is solved, and what lies under them hands on what
//! that leaves it to carry.
//!
//! `own derivation`. Where a stack goes, faces part in few layers: what lies over them rides along in one
//! piece and could bear more, what lies under them stays. The load that is handed down is worked out for
//! two pushes and mixed between them: forces of two equilibria, mixed, are an equilibrium of the mixed
//! push, so that it grows with the push in proportion, as a load of the programme must. Nothing that is
//! found here is believed: forces and motions are checked on the whole stack, as any others.

use super::band::Band;
use super::block::{NO_WRENCH, Wrench, add, speed_at};
use super::cone::Part;
use super::forces::Forces;
use super::group::{Group, Joint};
use super::handed::{Handing, Normals, Stuck};
use super::interior::Shape;
use super::mended::mended;
use super::motion::{Motion, at_corners};
use super::proof::normals;
use nalgebra::Vector3;
use quantity::frame::plan_direction;

/// Faces part if they do so faster than this, in parts of the fastest piece.
const PARTING: f64 = 1e-3;
/// So many layers are taken in below the one at which handing down gets stuck, and over it.
const AROUND: usize = 3;
/// Layers that hold more than this part of the pieces are as good as the whole.
const WORTH: f64 = 0.7;
/// The greater of the two pushes, in parts of what is enough, and the lesser in parts of the greater.
const MORE: f64 = 1.05;
const LESSER: f64 = 0.9;

/// A direction in plan, and forces to stay close to.
pub(super) struct Asked<'n> {
    direction_rad: f64,
    /// The same as a level unit vector, bed frame.
    along: Vector3<f64>,
    near: &'n Forces,
    normals: Normals,
}

/// The layers that are solved: about those in which a motion parts.
#[derive(Clone, Copy)]
pub(super) struct About<'m> {
    pub(super) motion: &'m Motion,
    /// Layers over and under them that are taken in too.
    pub(super) margin: usize,
    /// No push beyond this can be borne.
    pub(super) above: f64,
}

impl<'n> Asked<'n> {
    pub(super) fn new(group: &Group, direction_rad: f64, near: &'n Forces) -> Asked<'n> {
        Asked { direction_rad, along: group.axes.along(direction_rad), near, normals: normals(group, near) }
    }

    pub(super) fn direction(&self) -> [f64; 2] {
        plan_direction(self.direction_rad)
    }

    fn loads(&self, group: &Group, push: f64) -> Vec<Wrench> {
        group.loads_along(&(push * self.along))
    }
}

/// As great a push of what is `enough` as was found, with forces in the whole stack.
pub(super) fn push(whole: &Group, asked: &Asked, about: &About, enough: f64, steps: u32) -> Option<(f64, Forces)> {
    let greater = about.above.min(MORE * enough);
    let lesser = LESSER * greater;
    let (band, over) = handing_down(whole, asked, about.layers(whole)?, WORTH, [greater, lesser])?;
    let [at_greater, at_lesser] = over.each_ref().map(|over| band.about_centres(&over.carried));
    // What the pieces within carry is at_lesser + (push - lesser) unit.
    let unit: Vec<Wrench> = (at_greater.iter().zip(&at_lesser))
        .map(|(more, less)| std::array::from_fn(|row| (more[row] - less[row]) / (greater - lesser)))
        .collect();
    let mut loads = at_lesser;
    loads.iter_mut().zip(&unit).for_each(|(load, unit)| add(load, -lesser, unit));
    let group = band.group(loads);
    let stop = Shape::new(&group, band.start(&asked.normals)).push(unit, enough, steps);
    let share = (stop.multiplier - lesser) / (greater - lesser);
    let mix = |(more, less): (&Part, &Part)| std::array::from_fn(|k| share * more[k] + (1.0 - share) * less[k]);
    let mut forces = over[0].forces.iter().zip(&over[1].forces).map(mix).collect();
    band.put(&stop.forces, &mut forces);
    band.handed_on(asked.loads(whole, stop.multiplier), &mut forces, &asked.normals).ok()?;
    Some((stop.multiplier, forces))
}

/// Forces for a push: handed down as far as that goes, the known ones mended from there on.
pub(super) fn mend(whole: &Group, asked: &Asked, push: f64) -> Option<Forces> {
    let (band, [over]) = handing_down(whole, asked, [0, 0], 1.0, [push])?;
    let group = band.group(band.about_centres(&over.carried));
    let shape = Shape::new(&group, band.start(&asked.normals));
    let found = mended(&shape, &band.of_joints(asked.near))?;
    let mut forces = over.forces;
    band.put(&found, &mut forces);
    Some(forces)
}

/// The way in which the stack goes, if all that lies over the layers goes in one piece.
pub(super) fn going(whole: &Group, asked: &Asked, about: &About, steps: u32) -> Option<Motion> {
    let band = Band::new(whole, about.layers(whole)?);
    if band.part() > WORTH {
        return None;
    }
    let (group, start) = band.capped(&asked.normals)?;
    let found = Shape::new(&group, start).push(group.push(&asked.along), f64::INFINITY, steps).motion;
    let (cap, mut motion) = (band.within.len(), vec![NO_WRENCH; whole.bodies.len()]);
    band.within.iter().zip(&found).for_each(|(&body, speed)| motion[body] = *speed);
    for &body in &band.over {
        motion[body] = speed_at(&found[cap], &(whole.centres[body] - group.centres[cap]).into());
    }
    Some(motion)
}

/// The layers from the first to the last, and as many more as it takes to hand down the load over them
/// at each of these pushes. None where that is more of the stack than is worth it.
fn handing_down<'g, const N: usize>(
    whole: &'g Group,
    asked: &Asked,
    [first, mut last]: [usize; 2],
    worth: f64,
    pushes: [f64; N],
) -> Option<(Band<'g>, [Handing<'g>; N])> {
    loop {
        let band = Band::new(whole, [first, last]);
        if band.part() > worth {
            return None;
        }
        let handed = |push: &f64| band.handed_down(asked.loads(whole, *push), &asked.normals);
        match pushes.iter().map(handed).collect::<Result<Vec<_>, Stuck>>() {
            Ok(over) => return over.try_into().ok().map(|over| (band, over)),
            // Not without end: a stuck piece lies over the last layer.
            Err(Stuck(body)) => last = whole.layers[body] + AROUND,
        }
    }
}

impl About<'_> {
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
