//! Boards within a pile: what presses on them, and which low places their bending reaches.
//!
//! The rest rule lets a hard piece lie a little above a rail and counts the rail as a contact. Whether it
//! carries is another matter: it does once boards have bent by as much as the gap, and then by what
//! is left of the bending. Contact forces are chosen by least energy as ever; the force over a gap is
//! that at which the board just touches. Bags squeeze, so that a gap to a bag counts as closed.
//!
//! Source: `own derivation`; over two supports and a low third one it is the textbook's superposition
//! (source key `beam-theory`). Limits: boards bend along their length alone; bags and plates between do
//! not give way; a piece that cannot stand otherwise leans on the low place and takes there what it
//! needs.

mod low;
mod sinking;

use crate::beam::{Board, FaceContact};
use crate::body::Body;
use crate::equilibrium::{ContactForce, Shares, Stack, least_energy};
use crate::rest::{Contact, ONE_HEIGHT_M, Under};
use low::Low;
use nalgebra::Vector3;
use quantity::STANDARD_GRAVITY_M_S2 as GRAVITY;

/// The balance that the contact forces keep, as a part of the stack's weight.
const CLOSES_WITHIN: f64 = 1e-6;

/// What even a poor board has along its grain, Pa: whatever such a board does not reach, none does
/// (`common practice, no source`).
const LEAST_MODULUS_PA: f64 = 4e9;
/// Less than this part of all contact forces is none.
const UNLOADED: f64 = 1e-6;

/// A body that bends along its length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flex {
    /// Which.
    pub body: usize,
    /// Its length lies along the bed's x (0) or y (1).
    pub axis: usize,
    /// Modulus of elasticity along its length, Pa; none: not known.
    pub modulus_pa: Option<f64>,
}

/// The contact forces among the first `step` pieces, by least energy, with low places loaded only as
/// far as bending reaches them. Where a board of which the modulus is not known might reach one, they
/// are not decided.
pub fn shares(stack: &Stack, step: usize, flexes: &[Flex]) -> Shares {
    let low = low_contacts(stack, step);
    if low.is_empty() {
        return least_energy(stack, step);
    }
    let unknown = |flex: &&Flex| flex.modulus_pa.is_none() && touches(stack, flex.body, &low);
    let hangs_on_unknown = flexes.iter().any(|flex| unknown(&flex));
    let soft = |flex: &Flex| Flex { modulus_pa: flex.modulus_pa.or(Some(LEAST_MODULUS_PA)), ..*flex };
    let flexes: Vec<Flex> = flexes.iter().map(soft).collect();
    let found = Low { stack, step, flexes: &flexes, low: &low }.shares();
    if hangs_on_unknown && !is_unreached(&found, &low) { Shares::NotDecided { residual: None } } else { found }
}

/// Whether the forces leave every low place alone.
fn is_unreached(found: &Shares, low: &[usize]) -> bool {
    let Shares::Balanced { contacts, .. } = found else { return true };
    let all_n: f64 = contacts.iter().map(|contact| contact.normal_n).sum();
    low.iter().all(|at| contacts[*at].normal_n <= UNLOADED * all_n)
}

/// Contacts with a gap between hard pieces, by their place in the pile's list.
fn low_contacts(stack: &Stack, step: usize) -> Vec<usize> {
    let soft = |under: Under| matches!(under, Under::Body(body) if stack.bodies[body].soft);
    let is_low =
        |contact: &Contact| contact.gap_m > ONE_HEIGHT_M && !stack.bodies[contact.upper].soft && !soft(contact.lower);
    let here = stack.pile.contacts.iter().take_while(|contact| contact.upper < step).enumerate();
    here.filter(|(_, contact)| is_low(contact)).map(|(at, _)| at).collect()
}

fn touches(stack: &Stack, body: usize, low: &[usize]) -> bool {
    low.iter().map(|at| &stack.pile.contacts[*at]).any(|c| c.upper == body || c.lower == Under::Body(body))
}

/// The board with everything that presses on it among the first `step` pieces. An unknown modulus is
/// taken as 1e10 Pa: the forces are given, and it changes the deflection alone.
pub fn board(stack: &Stack, step: usize, flex: &Flex, forces: &[ContactForce]) -> Board {
    let body = &stack.bodies[flex.body];
    let [length_m, width_m, depth_m] = size_m(body, flex.axis);
    let upright = (stack.floor_from_bed.rotation * Vector3::z()).z;
    let above = with_forces(stack, forces).filter(|(contact, _)| contact.lower == Under::Body(flex.body));
    let below = with_forces(stack, forces).filter(|(contact, _)| contact.upper == flex.body);
    let face = |(contact, force): (&Contact, &ContactForce)| face(body, flex.axis, contact, force);
    Board {
        size_m: [length_m, width_m, depth_m],
        modulus_pa: flex.modulus_pa.unwrap_or(1e10),
        weight_n: body.mass_kg * GRAVITY * upright,
        above: above.map(face).chain(straps(stack, step, flex)).collect(),
        below: below.map(face).collect(),
        closes_within_n: closes_within_n(stack, flex, forces),
    }
}

fn size_m(body: &Body, axis: usize) -> [f64; 3] {
    [body.extent_m[axis], body.extent_m[1 - axis], body.extent_m[2]]
}

fn with_forces<'s>(
    stack: &Stack<'s>,
    forces: &'s [ContactForce],
) -> impl Iterator<Item = (&'s Contact, &'s ContactForce)> {
    stack.pile.contacts.iter().zip(forces)
}

/// A contact in the board's own axes: along its length, across its width.
fn face(body: &Body, axis: usize, contact: &Contact, force: &ContactForce) -> FaceContact {
    let low = [0, 1].map(|axis| body.centre_m[axis] - body.extent_m[axis] / 2.0);
    let [x, y] = [contact.patch.x_m.map(|v| v - low[0]), contact.patch.y_m.map(|v| v - low[1])];
    // Corners go round: low x low y, high x low y, high x high y, low x high y.
    let [ll, hl, hh, lh] = force.corners_n.map(|n| n.max(0.0));
    if axis == 0 {
        FaceContact { along_m: x, across_m: y, corners_n: [[ll, lh], [hl, hh]] }
    } else {
        FaceContact { along_m: y, across_m: x, corners_n: [[ll, hl], [lh, hh]] }
    }
}

/// Binding straps that bear on the board itself, each by the width of its web.
fn straps(stack: &Stack, step: usize, flex: &Flex) -> Vec<FaceContact> {
    let body = &stack.bodies[flex.body];
    let on = stack.dead.iter().filter(|pull| pull.after <= step);
    let bears = on.flat_map(|pull| pull.bears_on(stack, step).into_iter().map(|bears| (pull.force_n, bears)));
    bears
        .filter(|(_, bears)| bears.body == flex.body)
        .map(|(force_n, bears)| {
            let corner_n = 0.25 * bears.share * force_n;
            let force = ContactForce { corners_n: [corner_n; 4], ..ContactForce::default() };
            let contact = Contact {
                upper: flex.body,
                lower: Under::Body(flex.body),
                patch: bears.patch,
                plane_m: bears.at_in_bed.z,
                gap_m: 0.0,
                friction: 0.0,
            };
            face(body, flex.axis, &contact, &force)
        })
        .collect()
}

/// How far the normal forces on a board may miss balance, N. Friction on its faces turns it by at
/// most its force times the thickness: that couple is left out of the bending, and said here.
fn closes_within_n(stack: &Stack, flex: &Flex, forces: &[ContactForce]) -> f64 {
    let [length_m, _, depth_m] = size_m(&stack.bodies[flex.body], flex.axis);
    let whole_n = stack.bodies.iter().map(|b| b.mass_kg).sum::<f64>() * GRAVITY;
    let on = |c: &Contact| c.upper == flex.body || c.lower == Under::Body(flex.body);
    let contacts = with_forces(stack, forces).filter(|(c, _)| on(c));
    let level_n: f64 = contacts.map(|(_, f)| f.level_n[0].hypot(f.level_n[1])).sum();
    CLOSES_WITHIN * whole_n + level_n * depth_m / length_m
}
