//! Bodies that hold one another up, as the programmes want them: scaled by their own weight and
//! their own extent, because an unscaled programme has come back with a wrong number and no
//! complaint. Groups share nothing but the bearings, which do not move, so that each is a problem of
//! its own, and a pile is as strong as its weakest group.

use super::block::{Block, Wrench, wrench};
use super::pull::DeadPull;
use crate::body::Body;
use crate::conic::SMOOTH;
use crate::rest::{Contact, Pile, Under};
use nalgebra::{Isometry3, Point3, Vector3};
use quantity::STANDARD_GRAVITY_M_S2 as GRAVITY;
use quantity::frame::plan_direction;
use std::ops::Range;

/// A pile on its bed on the floor, and the straps over it: what every question is about.
#[derive(Clone, Copy)]
pub struct Stack<'a> {
    /// The pose of the bed on the floor.
    pub floor_from_bed: &'a Isometry3<f64>,
    /// The pieces in the order of placing, bed frame.
    pub bodies: &'a [Body],
    /// Where they came to rest.
    pub pile: &'a Pile,
    /// Straps over the stack; none, mostly.
    pub dead: &'a [DeadPull],
}

impl<'a> Stack<'a> {
    /// The contacts among the first `step` bodies; they are kept in the order of the upper body.
    pub(crate) fn contacts(&self, step: usize) -> &'a [Contact] {
        let count = self.pile.contacts.partition_point(|contact| contact.upper < step);
        &self.pile.contacts[..count]
    }
}

/// A contact within a group.
#[derive(Clone)]
pub(super) struct Joint {
    /// Places in the group; no lower one: a bearing.
    pub(super) upper: usize,
    pub(super) lower: Option<usize>,
    /// From the centre of each body to the middle of the contact, scaled.
    pub(super) from_upper: [f64; 3],
    pub(super) from_lower: [f64; 3],
    /// The middle, scaled, from the group's own origin.
    pub(super) middle: Vector3<f64>,
    /// Half of the sides along the joint's own x and y, scaled.
    pub(super) half: [f64; 2],
    pub(super) facing: Facing,
    pub(super) friction: f64,
    /// Its place in the pile's list.
    pub(super) contact: usize,
}

/// Where the normal force on the upper body points. A joint reckons in its own x, y, z, with z that
/// normal; they are the bed's turned round, so that no rotation has to be worked out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Facing {
    /// Along the bed's z: one body rests on another. All joints of a pile.
    Up,
    /// Along the bed's x: an upright face. Piles leave these out, which can only lower what they
    /// bear; published walls have them.
    #[cfg_attr(not(test), expect(dead_code, reason = "piles have no upright joints; the published walls do"))]
    Aft,
}

impl Facing {
    /// Force and moment, or speed and turning, from the joint's own axes to the bed's.
    pub(super) fn to_bed(self, own: Wrench) -> Wrench {
        let [x, y, z, u, v, w] = own;
        match self {
            Facing::Up => own,
            Facing::Aft => [z, x, y, w, u, v],
        }
    }

    /// The same for the rows of a block.
    pub(super) fn to_bed_columns(self, rows: Block) -> Block {
        let order = self.to_bed([0.0, 1.0, 2.0, 3.0, 4.0, 5.0]);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 5, exactly")]
        order.map(|row| rows[row as usize])
    }

    /// The other way.
    pub(super) fn to_joint(self, in_bed: Wrench) -> Wrench {
        let [x, y, z, u, v, w] = in_bed;
        match self {
            Facing::Up => in_bed,
            Facing::Aft => [y, z, x, v, w, u],
        }
    }
}

/// The corners of a joint by the signs of x and y, in the order of [`crate::Patch::corners`].
pub(super) const SIGNS: [[f64; 2]; 4] = [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]];

impl Joint {
    pub(super) fn is_smooth(&self) -> bool {
        self.friction < SMOOTH
    }

    pub(super) fn corner(&self, corner: usize) -> [f64; 2] {
        [SIGNS[corner][0] * self.half[0], SIGNS[corner][1] * self.half[1]]
    }
}

/// The group and its loads; bed frame, forces in parts of the group's weight, lengths in parts of
/// its extent.
#[derive(Clone)]
pub(super) struct Group {
    /// Places in the pile, in the order of placing.
    pub(super) bodies: Vec<usize>,
    pub(super) centres: Vec<Vector3<f64>>,
    /// Parts of the group's weight, one in sum.
    pub(super) weights: Vec<f64>,
    pub(super) layers: Vec<usize>,
    /// In order of the upper body.
    pub(super) joints: Vec<Joint>,
    /// The joints on which each body rests.
    pub(super) under: Vec<Range<usize>>,
    pub(super) axes: Axes,
    /// What does not grow with the push: weight and straps, each about the body's own centre.
    pub(super) constant: Vec<Wrench>,
    pub(super) length_m: f64,
    pub(super) mass_kg: f64,
}

/// The floor's directions in the bed frame.
#[derive(Clone, Copy)]
pub(super) struct Axes {
    pub(super) down: Vector3<f64>,
    pub(super) aft: Vector3<f64>,
    pub(super) right: Vector3<f64>,
}

impl Axes {
    pub(super) fn of(floor_from_bed: &Isometry3<f64>) -> Axes {
        let bed_from_floor = floor_from_bed.rotation.inverse();
        let axis = |axis: Vector3<f64>| bed_from_floor * axis;
        Axes { down: axis(-Vector3::z()), aft: axis(Vector3::x()), right: axis(Vector3::y()) }
    }

    pub(super) fn level(&self, [aft, right]: [f64; 2]) -> Vector3<f64> {
        self.aft * aft + self.right * right
    }

    pub(super) fn along(&self, direction_rad: f64) -> Vector3<f64> {
        self.level(plan_direction(direction_rad))
    }
}

impl Group {
    /// None for a group without weight: nothing can be asked of it.
    pub(super) fn new(given: &Stack, step: usize, bodies: Vec<usize>) -> Option<Group> {
        let mass_kg: f64 = bodies.iter().map(|&body| given.bodies[body].mass_kg).sum();
        if mass_kg <= 0.0 {
            return None;
        }
        let mut place = vec![None; step];
        bodies.iter().enumerate().for_each(|(at, &body)| place[body] = Some(at));
        let units = Units::of(given, &bodies, mass_kg);
        let centres: Vec<Vector3<f64>> = bodies.iter().map(|&body| units.point(&given.centre(body))).collect();
        let contacts = given.contacts(step).iter().enumerate();
        let joints: Vec<Joint> =
            contacts.filter_map(|(at, contact)| units.joint(at, contact, &place, &centres)).collect();
        let mut group = Group {
            weights: bodies.iter().map(|&body| given.bodies[body].mass_kg / mass_kg).collect(),
            layers: bodies.iter().map(|&body| given.pile.layer[body]).collect(),
            under: ranges(&joints, bodies.len()),
            axes: Axes::of(given.floor_from_bed),
            constant: Vec::new(),
            length_m: units.length_m,
            mass_kg,
            bodies,
            centres,
            joints,
        };
        group.load(given, step, &place, &units);
        Some(group)
    }

    /// The same bodies and loads, with those of the joints alone that are wanted. Scales stay.
    pub(super) fn with_joints(&self, wanted: impl Fn(&Joint) -> bool) -> Group {
        let joints: Vec<Joint> = self.joints.iter().filter(|joint| wanted(joint)).cloned().collect();
        Group { under: ranges(&joints, self.bodies.len()), joints, ..self.clone() }
    }

    fn load(&mut self, given: &Stack, step: usize, place: &[Option<usize>], units: &Units) {
        let down = self.axes.down;
        self.constant = self.weights.iter().map(|weight| wrench(&(down * *weight), &Vector3::zeros())).collect();
        for pull in given.dead.iter().filter(|pull| pull.after <= step) {
            for bears in pull.bears_on(given, step) {
                let Some(at) = place[bears.body] else { continue };
                let force = down * (bears.share * pull.force_n / (self.mass_kg * GRAVITY));
                let moment = (units.point(&bears.at_in_bed) - self.centres[at]).cross(&force);
                super::block::add(&mut self.constant[at], 1.0, &wrench(&force, &moment));
            }
        }
    }

    /// The load of a unit push along a level direction: a force on each body, no moment.
    pub(super) fn push(&self, along: &Vector3<f64>) -> Vec<Wrench> {
        self.weights.iter().map(|weight| wrench(&(along * *weight), &Vector3::zeros())).collect()
    }

    /// Each body's load with the push [aft, right], parts of the weight.
    pub(super) fn loads(&self, push: [f64; 2]) -> Vec<Wrench> {
        self.loads_along(&self.axes.level(push))
    }

    /// The same, of a push as a vector, bed frame.
    pub(super) fn loads_along(&self, push: &Vector3<f64>) -> Vec<Wrench> {
        let mut loads = self.constant.clone();
        for (load, weight) in loads.iter_mut().zip(&self.weights) {
            super::block::add(load, *weight, &wrench(push, &Vector3::zeros()));
        }
        loads
    }
}

pub(super) fn ranges(joints: &[Joint], bodies: usize) -> Vec<Range<usize>> {
    let mut ranges = vec![0..0; bodies];
    for (at, joint) in joints.iter().enumerate() {
        let range = &mut ranges[joint.upper];
        *range = if range.end == 0 { at..at + 1 } else { range.start..at + 1 };
    }
    ranges
}

impl Stack<'_> {
    pub(super) fn centre(&self, body: usize) -> Point3<f64> {
        self.pile.centre(self.bodies, body)
    }
}

/// The scale of one group: it depends on nothing that is put down later.
struct Units {
    origin: Vector3<f64>,
    length_m: f64,
}

impl Units {
    fn of(given: &Stack, bodies: &[usize], mass_kg: f64) -> Units {
        let (mut low, mut high) = (Vector3::repeat(f64::INFINITY), Vector3::repeat(f64::NEG_INFINITY));
        let mut moment = Vector3::zeros();
        for &body in bodies {
            let centre = given.centre(body).coords;
            let half = 0.5 * Vector3::from(given.bodies[body].extent_m);
            (low, high) = (low.inf(&(centre - half)), high.sup(&(centre + half)));
            moment += centre * (given.bodies[body].mass_kg / mass_kg);
        }
        Units { origin: moment, length_m: (high - low).max() }
    }

    fn point(&self, in_bed: &Point3<f64>) -> Vector3<f64> {
        (in_bed.coords - self.origin) / self.length_m
    }

    fn joint(&self, at: usize, contact: &Contact, place: &[Option<usize>], centres: &[Vector3<f64>]) -> Option<Joint> {
        let upper = place[contact.upper]?;
        let lower = match contact.lower {
            Under::Body(body) => Some(place[body].expect("what touches is in one group")),
            Under::Bearing(_) => None,
        };
        let ([x0, x1], [y0, y1]) = (contact.patch.x_m, contact.patch.y_m);
        let middle = self.point(&Point3::new(0.5 * (x0 + x1), 0.5 * (y0 + y1), contact.plane_m));
        let half = [0.5 * (x1 - x0) / self.length_m, 0.5 * (y1 - y0) / self.length_m];
        let from = |place: Option<usize>| place.map_or([0.0; 3], |place| (middle - centres[place]).into());
        let (from_upper, from_lower) = (from(Some(upper)), from(lower));
        let (facing, friction) = (Facing::Up, contact.friction);
        Some(Joint { upper, lower, from_upper, from_lower, middle, half, facing, friction, contact: at })
    }
}
