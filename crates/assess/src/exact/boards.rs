//! Boards in bending and bearings under load, with all pieces placed and at every hold: by the
//! least-energy contact forces, which are a choice among those that balance the stack.

use super::splits::Splits;
use crate::closed::occupant::occupant_point;
use crate::closed::problem::{Problem, carrying};
use crate::recall::Recall;
use plan::{Form, Plan, Turn};
use quantity::Quantity;
use statics::beam::{Across, End};
use statics::equilibrium::{ContactForce, Shares, SplitEnd, Stack, least_energy};
use statics::recall::{Mark, Marker};
use statics::spanned::{Flex, shares};
use statics::timber::{Allowables, Duration, Lie, look_up};
use statics::{Bed, Body, Pile, Under};

/// From this share of its allowable load a bearing is a caution: `common practice, no source`.
pub(crate) const NEAR_SHARE: f64 = 0.9;

/// A board with all pieces placed.
#[derive(Clone, Debug)]
pub struct BoardState {
    /// Its step, from 0.
    pub step: usize,
    /// How it bends; none where the forces on it were not decided.
    pub bent: Option<Bent>,
    /// What it may bear, or the sentence that says why nobody knows.
    pub allowed: Result<Allowables, String>,
    /// What becomes of the stack when the board is taken as two half planks, split along its length; none where it
    /// bends so little across its grain that this is not asked.
    pub split: Option<SplitEnd>,
}

impl BoardState {
    /// Whether it bends more across its grain than its grade's design value, or than a little where there is none.
    fn may_split(&self) -> bool {
        let design_pa = self.allowed.as_ref().ok().and_then(|allowed| allowed.across_bending_pa);
        self.bent.and_then(|bent| bent.across_pa).is_some_and(|is| is > design_pa.unwrap_or(LITTLE_ACROSS_PA))
    }
}

/// Below this, bending across the grain is not worth a word, Pa: a quarter of what the weakest European class may bear
/// there (`common practice, no source`).
pub(crate) const LITTLE_ACROSS_PA: f64 = 5e4;

/// How a board bends under the contact forces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bent {
    /// Moment farthest from zero along the board, N m.
    pub moment_n_m: f64,
    /// Shear farthest from zero, N.
    pub shear_n: f64,
    /// Greatest bending stress along the grain, Pa.
    pub bending_pa: f64,
    /// Greatest shear stress, Pa.
    pub shear_pa: f64,
    /// Deflection from the chord between the outermost places that hold it up, m; none without a modulus.
    pub deflection_m: Option<f64>,
    /// Greatest bending stress across the grain where it overhangs sideways, Pa; none where that
    /// was not decided.
    pub across_pa: Option<f64>,
}

/// A bearing with all pieces placed.
#[derive(Clone, Debug, PartialEq)]
pub struct BearingState {
    /// Which, from 0.
    pub bearing: usize,
    /// What it carries, N; none where that was not decided.
    pub force_n: Option<f64>,
    /// What the seated occupant would put there at the same load, N: a rigid body on all bearings
    /// with its centroid at the occupant point; none where it would not stand.
    pub occupant_n: Option<f64>,
}

/// Boards and bearings under the stack of a problem, with what splitting does to that or to a later one.
pub(crate) fn all(
    plan: &Plan,
    problem: &Problem,
    splits: &Splits,
    recall: Option<&Recall>,
) -> (Vec<BoardState>, Vec<BearingState>) {
    let is_board = |step: &usize| plan.lot_of(&plan.stack[*step]).form == Form::Board;
    let bends = (0..problem.bodies.len()).any(|step| is_board(&step));
    // Only a board that bends reaches what lies low.
    let pile = if bends { within_reach(plan, problem) } else { problem.carrying.clone() };
    let stack = Stack { pile: &pile, ..problem.stack() };
    let boards: Vec<_> =
        (0..problem.bodies.len()).filter(is_board).map(|step| (step, allowables(plan, step))).collect();
    let lying = Lying { plan, stack: &stack, boards: &boards };
    let bending = lying.recalled(recall);
    let board = |((step, allowed), bent): ((usize, Result<Allowables, String>), Option<Bent>)| {
        let board = BoardState { step, bent, allowed, split: None };
        let split = if board.may_split() { splits.end(step, problem.bodies.len()) } else { None };
        BoardState { split, ..board }
    };
    let bearings = bearings(plan, problem, bending.bearings_n.as_deref());
    (boards.into_iter().zip(bending.bent).map(board).collect(), bearings)
}

/// What contact forces do to boards and bearings.
#[derive(Clone, Debug)]
struct Bending {
    /// One for each board, in the order of placing; none where it was not decided.
    bent: Vec<Option<Bent>>,
    /// What each bearing carries, N; none where the forces were not decided.
    bearings_n: Option<Vec<f64>>,
}

/// A stack that lies, with what its boards may bear.
struct Lying<'a> {
    plan: &'a Plan,
    stack: &'a Stack<'a>,
    boards: &'a [(usize, Result<Allowables, String>)],
}

impl Lying<'_> {
    /// The answer that was found before, or what is found now.
    fn recalled(&self, recall: Option<&Recall>) -> Bending {
        match recall {
            Some(recall) => recall.or(self.mark(), || self.bending()),
            None => self.bending(),
        }
    }

    fn flexes(&self) -> Vec<Flex> {
        let modulus = |allowed: &Result<Allowables, String>| allowed.as_ref().ok().map(|allowed| allowed.modulus_pa);
        self.boards.iter().map(|(step, allowed)| flex(self.plan, *step, modulus(allowed))).collect()
    }

    /// Of all that the bending follows from.
    fn mark(&self) -> Mark {
        let mut marker = Marker::default();
        marker.count(self.plan.bed.bearings.len());
        for (Flex { body, axis, modulus_pa }, (_, allowed)) in self.flexes().iter().zip(self.boards) {
            marker.count(*body);
            marker.count(*axis);
            marker.maybe(*modulus_pa);
            marker.maybe(allowed.as_ref().ok().and_then(|allowed| allowed.across_modulus_pa));
        }
        self.stack.mark_after(marker)
    }

    fn bending(&self) -> Bending {
        let forces = forces(&shares(self.stack, self.stack.bodies.len(), &self.flexes()));
        let bent = |(step, allowed): &(usize, Result<Allowables, String>)| {
            bend(self.plan, self.stack, *step, forces.as_deref()?, allowed.as_ref().ok())
        };
        let on = |bearing: usize| forces.as_deref().map(|forces| on_bearing(self.stack.pile, forces, bearing));
        Bending {
            bent: self.boards.iter().map(bent).collect(),
            bearings_n: (0..self.plan.bed.bearings.len()).map(on).collect(),
        }
    }
}

/// What a bearing carries, N.
fn on_bearing(pile: &Pile, forces: &[ContactForce], bearing: usize) -> f64 {
    let on = pile.contacts.iter().zip(forces).filter(|(c, _)| c.lower == Under::Bearing(bearing));
    on.map(|(_, force)| force.normal_n).sum()
}

/// Lower than this below a board nothing is looked for: no board of a stack bends so far (`common practice,
/// no source`), m.
const BENDS_AT_MOST_M: f64 = 0.05;

/// The pile with every low contact that a bent board might close, on what carries.
fn within_reach(plan: &Plan, problem: &Problem) -> Pile {
    let pile = statics::settle(&reaching(&problem.bed), &problem.bodies);
    carrying(plan, Stack { pile: &pile, ..problem.stack() })
}

/// The bed with every low place at hand that a bent board might reach; whether it does is found with the
/// forces.
fn reaching(bed: &Bed) -> Bed {
    Bed { touch_hard_m: bed.touch_hard_m.max(BENDS_AT_MOST_M), ..bed.clone() }
}

/// How a board lies, and how stiff it is (Pa) where that is known.
fn flex(plan: &Plan, step: usize, modulus_pa: Option<f64>) -> Flex {
    let axis = if plan.stack[step].turn == Turn::Lengthwise { 0 } else { 1 };
    Flex { body: step, axis, modulus_pa }
}

fn forces(shares: &Shares) -> Option<Vec<ContactForce>> {
    if let Shares::Balanced { contacts, .. } = shares { Some(contacts.clone()) } else { None }
}

fn allowables(plan: &Plan, step: usize) -> Result<Allowables, String> {
    let lot = plan.lot_of(&plan.stack[step]);
    let [_, width_m, depth_m] = lot.size.map(Quantity::si);
    match (&lot.strength, &lot.grade) {
        (Some(own), _) => Ok(Allowables::own(own.bending.si(), own.shear.si(), own.modulus.si())),
        (None, Some(grade)) => {
            look_up(grade, Lie { depth_m, width_m, flat: true }, Duration::Days).map_err(|e| e.to_string())
        }
        (None, None) => Err("no grade is given".to_owned()),
    }
}

fn bend(
    plan: &Plan,
    stack: &Stack,
    step: usize,
    forces: &[ContactForce],
    allowed: Option<&Allowables>,
) -> Option<Bent> {
    let flex = flex(plan, step, allowed.map(|allowed| allowed.modulus_pa));
    let board = statics::spanned::board(stack, stack.bodies.len(), &flex, forces);
    let End::Balanced(along) = board.along().ok()? else { return None };
    let across = board.across(allowed.and_then(|a| a.across_modulus_pa).unwrap_or(1e9)).ok();
    let across_pa = across.and_then(|across| match across {
        Across::Unloaded => Some(0.0),
        Across::Worst { bending, .. } => Some(bending.bending_pa),
        Across::NotDecided { .. } => None,
    });
    Some(Bent {
        moment_n_m: along.moment.value,
        shear_n: along.shear.value,
        bending_pa: along.bending_pa,
        shear_pa: along.shear_pa,
        deflection_m: allowed.map(|_| along.deflection.value),
        across_pa,
    })
}

fn bearings(plan: &Plan, problem: &Problem, forces_n: Option<&[f64]>) -> Vec<BearingState> {
    let occupant = occupant(plan, problem);
    (0..plan.bed.bearings.len())
        .map(|bearing| BearingState {
            bearing,
            force_n: forces_n.and_then(|forces_n| forces_n.get(bearing).copied()),
            occupant_n: occupant.as_ref().map(|(pile, forces)| on_bearing(pile, forces, bearing)),
        })
        .collect()
}

/// The seated occupant at the applied load as one rigid body over all bearings, its centroid at
/// the occupant point: how the bearings would share it by the same least energy.
fn occupant(plan: &Plan, problem: &Problem) -> Option<(Pile, Vec<ContactForce>)> {
    let target = plan.article_from_bed().inverse() * occupant_point(plan).in_article;
    let reach = |axis: usize| {
        let sides = plan.bed.bearings.iter().flat_map(move |b| if axis == 0 { b.x } else { b.y });
        sides.map(|side| (side.si() - target[axis]).abs()).fold(0.0, f64::max)
    };
    let body = Body {
        centre_m: [target.x, target.y],
        extent_m: [2.0 * reach(0), 2.0 * reach(1), 2.0 * target.z.max(0.05)],
        mass_kg: problem.bodies.iter().map(|b| b.mass_kg).sum(),
        friction: plan.bed.friction.max(0.5),
        // A person gives way as a bag does.
        soft: true,
    };
    let bodies = [body];
    let pile = statics::settle(&problem.bed, &bodies);
    let stack = Stack { floor_from_bed: &problem.floor_from_bed, bodies: &bodies, pile: &pile, dead: &[] };
    let forces = forces(&least_energy(&stack, 1))?;
    Some((pile, forces))
}
