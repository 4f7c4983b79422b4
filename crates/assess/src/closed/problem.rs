//! The plan as a statics problem: bodies on a bed, at rest, in the floor frame. Bare SI from here on.

use super::softness;
use nalgebra::{Isometry3, Point3, UnitQuaternion};
use plan::{Form, Lot, Place, Plan, point};
use quantity::Quantity;
use statics::equilibrium::{DeadPull, Stack};
use statics::soft::{self, SoftStack};
use statics::spread::{Doubt, Scatter};
use statics::{Bearing, Bed, Body, Masses, Pile};

/// The plan as a statics problem.
#[derive(Clone)]
pub(crate) struct Problem {
    pub(crate) floor_from_bed: Isometry3<f64>,
    pub(crate) bed: Bed,
    pub(crate) bodies: Vec<Body>,
    /// How they come to rest.
    pub(crate) pile: Pile,
    /// The same pile, every contact cut back to what carries: a bag's rim carries nothing.
    pub(crate) carrying: Pile,
    /// All pieces put down so far, after each step; floor frame.
    pub(crate) stack_after: Vec<Masses>,
    /// How well masses and places are known, masses independent.
    pub(crate) scatter: Scatter,
    /// Binding straps over the stack.
    pub(crate) dead_pulls: Vec<DeadPull>,
}

impl Problem {
    /// States the problem and lets the pieces come to rest.
    pub(crate) fn of(plan: &Plan) -> Self {
        let bodies = bodies(plan);
        let bed = bed(plan);
        let pile = statics::settle(&bed, &bodies);
        let floor_from_bed = plan.floor_from_bed();
        let carrying =
            carrying(plan, Stack { floor_from_bed: &floor_from_bed, bodies: &bodies, pile: &pile, dead: &[] });
        Self {
            floor_from_bed,
            bed,
            bodies,
            pile,
            carrying,
            stack_after: Vec::new(),
            scatter: scatter(plan),
            dead_pulls: plan.fixture.bindings.iter().map(dead_pull).collect(),
        }
    }

    /// The stack as the rigid equilibrium wants it: on what carries.
    pub(crate) fn stack(&self) -> Stack<'_> {
        Stack { pile: &self.carrying, ..self.whole_stack() }
    }

    /// The same problem with article, bed and stack turned together about the bed's origin.
    pub(crate) fn turned(&self, turn: &UnitQuaternion<f64>) -> Self {
        let mut floor_from_bed = self.floor_from_bed;
        floor_from_bed.append_rotation_wrt_center_mut(turn);
        Self { floor_from_bed, ..self.clone() }
    }

    /// The stack on its whole contacts: the soft model leaves out the rims by itself.
    pub(crate) fn whole_stack(&self) -> Stack<'_> {
        let Self { floor_from_bed, bodies, pile, dead_pulls, .. } = self;
        Stack { floor_from_bed, bodies, pile, dead: dead_pulls }
    }
}

/// The pile of a stack of this plan on what carries.
pub(crate) fn carrying(plan: &Plan, stack: Stack) -> Pile {
    soft::flats(&SoftStack::new(stack, &softness::pieces(plan, softness::ASSUMED_PA)))
}

/// Tolerances are read as two standard deviations; a weighed piece has none left.
fn scatter(plan: &Plan) -> Scatter {
    let doubt = |place: &plan::Place| {
        let lot = plan.lot_of(place);
        let tolerance_kg = if lot.is_weighed(place.item) { 0.0 } else { lot.mass_tolerance.si() };
        let lot = plan.ballast.iter().position(|l| l.name == lot.name).unwrap_or_default();
        Doubt { mass_sd_kg: tolerance_kg / 2.0, lot }
    };
    Scatter {
        doubts: plan.stack.iter().map(doubt).collect(),
        placement_sd_m: plan.allow.placement_scatter.si() / 2.0,
        common_share: 0.0,
    }
}

/// Both legs of a binding strap, straight down.
fn dead_pull(binding: &plan::Binding) -> DeadPull {
    DeadPull {
        at_in_bed_m: binding.at.map(Quantity::si),
        width_m: binding.width.si(),
        force_n: 2.0 * binding.pull.si(),
        after: binding.after as usize,
    }
}

/// The bed of a plan in bare SI, bed frame.
pub fn bed(plan: &Plan) -> Bed {
    let bearing = |b: &plan::Bearing| Bearing {
        x_m: b.x.map(Quantity::si),
        y_m: b.y.map(Quantity::si),
        top_m: b.top.si(),
        friction: plan.bed.friction,
    };
    Bed {
        bearings: plan.bed.bearings.iter().map(bearing).collect(),
        touch_m: plan.bed.touch.si(),
        touch_hard_m: plan.bed.touch_hard.si(),
        beside_m: plan.bed.beside.si(),
    }
}

pub(crate) fn bodies(plan: &Plan) -> Vec<Body> {
    plan.stack.iter().map(|place| body(plan.lot_of(place), place)).collect()
}

/// A placed piece of a lot as a box in bare SI, bed frame.
pub fn body(lot: &Lot, place: &Place) -> Body {
    Body {
        centre_m: place.at.map(Quantity::si),
        extent_m: place.turn.extent(lot.size).map(Quantity::si),
        mass_kg: lot.mass_of(place.item).si(),
        friction: lot.friction,
        soft: lot.form == Form::Bag,
    }
}

/// Where the supports push, floor frame, m.
pub(crate) fn supports(plan: &Plan) -> Vec<Point3<f64>> {
    plan.fixture.supports.iter().map(|s| point(s.at)).collect()
}

/// The article's mass and centroid, floor frame.
pub(crate) fn article(plan: &Plan) -> Masses {
    Masses { mass_kg: plan.article.mass.si(), centroid: plan.floor_from_article() * point(plan.article.centroid) }
}

/// The plan with no more than its first pieces.
pub(crate) fn first(plan: &Plan, placed: usize) -> Plan {
    let mut part = plan.clone();
    part.stack.truncate(placed);
    part
}
