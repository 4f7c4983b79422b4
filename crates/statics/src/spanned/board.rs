//! A board of a pile with everything that presses on it, in its own axes.

use crate::beam::{Board, FaceContact};
use crate::body::Body;
use crate::equilibrium::{ContactForce, Stack};
use crate::rest::{Contact, Under};
use nalgebra::Vector3;
use quantity::STANDARD_GRAVITY_M_S2 as GRAVITY;

/// The balance that the contact forces keep, as a part of the stack's weight.
const CLOSES_WITHIN: f64 = 1e-6;

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

pub(super) fn with_forces<'s>(
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
