//! Some layers of a stack as a problem of their own, and what lies over and under them.

use super::block::{NO_WRENCH, Wrench, add, carried_over};
use super::forces::{Forces, Normals, about_middle, well_within};
use super::group::{Group, Joint, ranges};
use super::load_path::{Blocked, Descent};
use nalgebra::Vector3;

/// Pieces are places in the whole, ascending.
pub(super) struct Band<'g> {
    pub(super) whole: &'g Group,
    pub(super) over: Vec<usize>,
    pub(super) within: Vec<usize>,
    under: Vec<usize>,
    /// Joints under the pieces within.
    joints: Vec<usize>,
}

impl<'g> Band<'g> {
    /// The layers from the first to the last.
    pub(super) fn new(whole: &'g Group, [first, last]: [usize; 2]) -> Band<'g> {
        let all = |lies: &dyn Fn(usize) -> bool| -> Vec<usize> {
            (0..whole.bodies.len()).filter(|&body| lies(whole.layers[body])).collect()
        };
        let within = all(&|layer| (first..=last).contains(&layer));
        let joints = within.iter().flat_map(|&body| whole.under[body].clone()).collect();
        Band { whole, over: all(&|layer| layer > last), within, under: all(&|layer| layer < first), joints }
    }

    /// How much of the whole lies within.
    pub(super) fn part(&self) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "counts of pieces are far below 2^52")]
        let part = self.within.len() as f64 / self.whole.bodies.len() as f64;
        part
    }

    /// The pieces within on what lies under them as on bearings. `loads`: of each about its own centre.
    pub(super) fn group(&self, loads: Vec<Wrench>) -> Group {
        let whole = self.whole;
        let joint = |&at: &usize| {
            let joint = &whole.joints[at];
            let upper = self.place(joint.upper).expect("the joint is under a piece within");
            Joint { upper, lower: joint.lower.and_then(|lower| self.place(lower)), ..joint.clone() }
        };
        let joints: Vec<Joint> = self.joints.iter().map(joint).collect();
        Group {
            bodies: self.of_bodies(&whole.bodies),
            centres: self.of_bodies(&whole.centres),
            weights: self.of_bodies(&whole.weights),
            layers: self.of_bodies(&whole.layers),
            under: ranges(&joints, self.within.len()),
            joints,
            axes: whole.axes,
            constant: loads,
            length_m: whole.length_m,
            mass_kg: whole.mass_kg,
        }
    }

    /// The pieces within and, as the last, one piece for all that lies over them; and forces to start from.
    /// None if nothing that weighs lies over them.
    pub(super) fn capped(&self, normals: &Normals) -> Option<(Group, Forces)> {
        let whole = self.whole;
        let weight: f64 = self.over.iter().map(|&body| whole.weights[body]).sum();
        if weight <= 0.0 {
            return None;
        }
        let moment: Vector3<f64> = self.over.iter().map(|&body| whole.weights[body] * whole.centres[body]).sum();
        let centre = moment / weight;
        let mut load = NO_WRENCH;
        for &body in &self.over {
            add(&mut load, 1.0, &carried_over(&whole.constant[body], &(whole.centres[body] - centre).into()));
        }
        let (mut group, mut start) = (self.group(self.of_bodies(&whole.constant)), self.start(normals));
        let (upper, is_over) = (self.within.len(), |body: usize| self.over.binary_search(&body).is_ok());
        for (joint, normals) in whole.joints.iter().zip(normals.chunks_exact(4)) {
            if is_over(joint.upper) && !joint.lower.is_some_and(is_over) {
                let lower = joint.lower.and_then(|lower| self.place(lower));
                group.joints.push(Joint { upper, lower, from_upper: (joint.middle - centre).into(), ..joint.clone() });
                start.extend(well_within(joint, normals));
            }
        }
        group.bodies.push(whole.bodies.len());
        group.centres.push(centre);
        group.weights.push(weight);
        group.layers.push(self.over.iter().map(|&body| whole.layers[body]).min().unwrap_or(0));
        group.constant.push(load);
        group.under = ranges(&group.joints, upper + 1);
        Some((group, start))
    }

    /// Forces within to start from, near those of the whole.
    pub(super) fn start(&self, normals: &Normals) -> Forces {
        let near = self.of_joints(normals);
        let joints = self.joints.iter().map(|&joint| &self.whole.joints[joint]);
        joints.zip(near.chunks_exact(4)).flat_map(|(joint, normals)| well_within(joint, normals)).collect()
    }

    /// The load of what lies over it, traced down.
    pub(super) fn descent_over(&self, loads: Vec<Wrench>, near: &Normals) -> Result<Descent<'g>, Blocked> {
        let mut descent = Descent::new(self.whole, loads);
        descent.down(self.over.iter().rev().copied(), near)?;
        Ok(descent)
    }

    /// What lies under it passes on the load that these forces above leave it to carry; its own are put among them.
    pub(super) fn pass_under(&self, loads: Vec<Wrench>, forces: &mut Forces, near: &Normals) -> Result<(), Blocked> {
        let (whole, mut descent) = (self.whole, Descent::new(self.whole, loads));
        let is_under = |body: usize| self.under.binary_search(&body).is_ok();
        for (joint, parts) in whole.joints.iter().zip(forces.chunks_exact(4)) {
            if let Some(lower) = joint.lower.filter(|&lower| is_under(lower) && !is_under(joint.upper)) {
                let about_origin = carried_over(&about_middle(joint, parts), &joint.middle.into());
                add(&mut descent.carried[lower], -1.0, &about_origin);
            }
        }
        descent.down(self.under.iter().rev().copied(), near)?;
        for joint in self.under.iter().flat_map(|&body| whole.under[body].clone()) {
            forces[4 * joint..4 * joint + 4].copy_from_slice(&descent.forces[4 * joint..4 * joint + 4]);
        }
        Ok(())
    }

    /// What each piece within carries, from about the group's origin to about its own centre.
    pub(super) fn about_centres(&self, about_origin: &[Wrench]) -> Vec<Wrench> {
        let own = |&body: &usize| carried_over(&about_origin[body], &(-self.whole.centres[body]).into());
        self.within.iter().map(own).collect()
    }

    /// Puts what was found within among the forces of the whole.
    pub(super) fn put(&self, found: &Forces, forces: &mut Forces) {
        for (&joint, found) in self.joints.iter().zip(found.chunks_exact(4)) {
            forces[4 * joint..4 * joint + 4].copy_from_slice(found);
        }
    }

    pub(super) fn of_joints<T: Copy>(&self, at_corners: &[T]) -> Vec<T> {
        self.joints.iter().flat_map(|&joint| at_corners[4 * joint..4 * joint + 4].iter().copied()).collect()
    }

    fn of_bodies<T: Clone>(&self, all: &[T]) -> Vec<T> {
        self.within.iter().map(|&body| all[body].clone()).collect()
    }

    fn place(&self, body: usize) -> Option<usize> {
        self.within.binary_search(&body).ok()
    }
}
