//! Boards in bending and bearings under load, with all pieces placed and at every hold: by the
//! least-energy contact forces, which are a choice among those that balance the stack.

use crate::occupant::occupant_point;
use crate::problem::Problem;
use nalgebra::Vector3;
use plan::{Form, Plan, Turn};
use quantity::{Quantity, STANDARD_GRAVITY_M_S2 as GRAVITY};
use statics::beam::{Across, Board, End, FaceContact};
use statics::equilibrium::{ContactForce, Shares, Stack, least_energy};
use statics::timber::{Allowables, Duration, Lie, look_up};
use statics::{Body, Contact, Pile, Under};

/// The balance that the contact forces keep, as a part of the stack's weight.
const CLOSES_WITHIN: f64 = 1e-6;

/// A board with all pieces placed.
#[derive(Clone, Debug)]
pub struct BoardState {
    /// Its step, from 0.
    pub step: usize,
    /// How it bends; none where the forces on it were not decided.
    pub bent: Option<Bent>,
    /// What it may bear, or the sentence that says why nobody knows.
    pub allowed: Result<Allowables, String>,
}

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

/// Boards and bearings under the finished stack.
pub(crate) fn all(plan: &Plan, problem: &Problem) -> (Vec<BoardState>, Vec<BearingState>) {
    let stack = problem.stack();
    let forces = forces(&least_energy(&stack, problem.bodies.len()));
    let boards = (0..problem.bodies.len())
        .filter(|step| plan.lot_of(&plan.stack[*step]).form == Form::Board)
        .map(|step| board(plan, problem, step, forces.as_deref()))
        .collect();
    (boards, bearings(plan, problem, forces.as_deref()))
}

fn forces(shares: &Shares) -> Option<Vec<ContactForce>> {
    if let Shares::Balanced { contacts, .. } = shares { Some(contacts.clone()) } else { None }
}

fn board(plan: &Plan, problem: &Problem, step: usize, forces: Option<&[ContactForce]>) -> BoardState {
    let lot = plan.lot_of(&plan.stack[step]);
    let [_, width_m, depth_m] = lot.size.map(Quantity::si);
    let allowed = match (&lot.strength, &lot.grade) {
        (Some(own), _) => Ok(Allowables::own(own.bending.si(), own.shear.si(), own.modulus.si())),
        (None, Some(grade)) => {
            look_up(grade, Lie { depth_m, width_m, flat: true }, Duration::Days).map_err(|e| e.to_string())
        }
        (None, None) => Err("no grade is given".to_owned()),
    };
    let bent = forces.and_then(|forces| bend(plan, problem, step, forces, allowed.as_ref().ok()));
    BoardState { step, bent, allowed }
}

fn bend(
    plan: &Plan,
    problem: &Problem,
    step: usize,
    forces: &[ContactForce],
    allowed: Option<&Allowables>,
) -> Option<Bent> {
    let body = &problem.bodies[step];
    let turn = plan.stack[step].turn;
    let faces = |above: bool| -> Vec<FaceContact> {
        let here = |c: &Contact| if above { c.lower == Under::Body(step) } else { c.upper == step };
        let contacts = problem.pile.contacts.iter().zip(forces).filter(|(c, _)| here(c));
        contacts.map(|(contact, force)| face(body, turn, contact, force)).collect()
    };
    let size_m = plan.lot_of(&plan.stack[step]).size.map(Quantity::si);
    let upright = (problem.floor_from_bed.rotation * Vector3::z()).z;
    // A board without a known modulus bends to the same moments: the forces are given.
    let modulus_pa = allowed.map_or(1e10, |a| a.modulus_pa);
    let board = Board {
        size_m,
        modulus_pa,
        weight_n: body.mass_kg * GRAVITY * upright,
        above: faces(true).into_iter().chain(straps(problem, turn, step)).collect(),
        below: faces(false),
        closes_within_n: closes_within_n(problem, step, forces, size_m),
    };
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

/// Binding straps that press the board itself, as patches of a millimetre.
fn straps(problem: &Problem, turn: Turn, step: usize) -> Vec<FaceContact> {
    const HALF_M: f64 = 0.0005;
    let (stack, body, placed) = (problem.stack(), &problem.bodies[step], problem.bodies.len());
    let on = problem.dead_pulls.iter().filter(|pull| pull.after <= placed);
    let points = on.filter_map(|pull| Some((pull.force_n, pull.pressed(&stack, placed)?)));
    points
        .filter(|(_, (pressed, _))| *pressed == step)
        .map(|(force_n, (_, at))| {
            let near = |axis: usize| {
                let (low, extent) = (body.centre_m[axis] - body.extent_m[axis] / 2.0, body.extent_m[axis]);
                let middle = (at[axis] - low).clamp(HALF_M, extent - HALF_M);
                [middle - HALF_M, middle + HALF_M]
            };
            let (x, y) = (near(0), near(1));
            let (along_m, across_m) = if turn == Turn::Lengthwise { (x, y) } else { (y, x) };
            FaceContact { along_m, across_m, corners_n: [[force_n / 4.0; 2]; 2] }
        })
        .collect()
}

/// How far the normal forces on a board may miss balance, N. Friction on its faces turns it by at
/// most its force times the thickness: that couple is left out of the bending, and said here.
fn closes_within_n(problem: &Problem, step: usize, forces: &[ContactForce], [length_m, _, depth_m]: [f64; 3]) -> f64 {
    let whole_n = problem.bodies.iter().map(|b| b.mass_kg).sum::<f64>() * GRAVITY;
    let on = |c: &Contact| c.upper == step || c.lower == Under::Body(step);
    let contacts = problem.pile.contacts.iter().zip(forces).filter(|(c, _)| on(c));
    let level_n: f64 = contacts.map(|(_, f)| f.level_n[0].hypot(f.level_n[1])).sum();
    CLOSES_WITHIN * whole_n + level_n * depth_m / length_m
}

/// A contact in the board's own axes: along its length, across its width.
fn face(body: &Body, turn: Turn, contact: &Contact, force: &ContactForce) -> FaceContact {
    let low = [0, 1].map(|axis| body.centre_m[axis] - body.extent_m[axis] / 2.0);
    let [x, y] = [contact.patch.x_m.map(|v| v - low[0]), contact.patch.y_m.map(|v| v - low[1])];
    // Corners go round: low x low y, high x low y, high x high y, low x high y.
    let [ll, hl, hh, lh] = force.corners_n.map(|n| n.max(0.0));
    match turn {
        Turn::Lengthwise => FaceContact { along_m: x, across_m: y, corners_n: [[ll, lh], [hl, hh]] },
        Turn::Crosswise => FaceContact { along_m: y, across_m: x, corners_n: [[ll, hl], [lh, hh]] },
    }
}

fn bearings(plan: &Plan, problem: &Problem, forces: Option<&[ContactForce]>) -> Vec<BearingState> {
    let occupant = occupant(plan, problem);
    let sum = |pile: &Pile, forces: &[ContactForce], bearing: usize| -> f64 {
        let on = pile.contacts.iter().zip(forces).filter(|(c, _)| c.lower == Under::Bearing(bearing));
        on.map(|(_, force)| force.normal_n).sum()
    };
    (0..plan.bed.bearings.len())
        .map(|bearing| BearingState {
            bearing,
            force_n: forces.map(|forces| sum(&problem.pile, forces, bearing)),
            occupant_n: occupant.as_ref().map(|(pile, forces)| sum(pile, forces, bearing)),
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
        soft: false,
    };
    let bodies = [body];
    let pile = statics::settle(&problem.bed, &bodies);
    let stack = Stack { floor_from_bed: &problem.floor_from_bed, bodies: &bodies, pile: &pile, dead: &[] };
    let forces = forces(&least_energy(&stack, 1))?;
    Some((pile, forces))
}
