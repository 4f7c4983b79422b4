//! How far each body sinks where boards bend: from the bearings, which do not, upwards.

use super::board::{Flex, board, with_forces};
use crate::beam::{Diagram, End};
use crate::equilibrium::{ContactForce, Stack};
use crate::rest::{Contact, ONE_HEIGHT_M, Under};
use std::cell::OnceCell;

/// The pile under its contact forces.
pub(super) struct Sinking<'a> {
    stack: &'a Stack<'a>,
    flexes: &'a [Flex],
    forces: &'a [ContactForce],
    /// The bending of each board, in the order of `flexes`.
    bent: Vec<Diagram>,
    /// How far each body that does not bend sinks, once it was asked: asked anew by each of those above, the ways
    /// down through a pile would double with every layer.
    stiff_m: Vec<OnceCell<Option<f64>>>,
    /// What each board hangs on, in the order of `flexes`, once it was asked.
    hung: Vec<OnceCell<Option<Hung>>>,
}

/// The chord of a board: two places along it (m, bed frame), and how far each sinks less the bending there, m.
#[derive(Clone, Copy)]
struct Hung {
    at_m: [f64; 2],
    low_m: [f64; 2],
}

/// Two places that hold a board up, along its length (m, bed frame), and the contacts there.
struct Chord<'c> {
    at_m: [f64; 2],
    on: [&'c Contact; 2],
}

impl<'a> Sinking<'a> {
    /// None where a board's forces do not close.
    pub(super) fn of(
        stack: &'a Stack<'a>,
        step: usize,
        flexes: &'a [Flex],
        forces: &'a [ContactForce],
    ) -> Option<Sinking<'a>> {
        let bent = flexes.iter().filter(|flex| flex.body < step).map(|flex| {
            let End::Balanced(bending) = board(stack, step, flex, forces).along().ok()? else { return None };
            Some(bending.diagram)
        });
        let bent = bent.collect::<Option<Vec<_>>>()?;
        let (stiff_m, hung) = (vec![OnceCell::new(); stack.bodies.len()], vec![OnceCell::new(); flexes.len()]);
        Some(Sinking { stack, flexes, forces, bent, stiff_m, hung })
    }

    /// By how much the two sides of a contact come nearer to each other where they come nearest, m.
    pub(super) fn closed_by_m(&self, contact: &Contact) -> Option<f64> {
        let axis = self.flex(contact.upper).or(self.flex_under(contact)).map_or(0, |(_, flex)| flex.axis);
        let [from, to] = if axis == 0 { contact.patch.x_m } else { contact.patch.y_m };
        let places = [from, 0.5 * (from + to), to].map(|along| {
            let mut at = middle(contact);
            at[axis] = along;
            let under_m = self.under_m(contact.lower, at)?;
            Some(self.body_m(contact.upper, at)? - under_m)
        });
        places.into_iter().try_fold(f64::NEG_INFINITY, |most, place| Some(most.max(place?)))
    }

    fn flex(&self, body: usize) -> Option<(usize, &Flex)> {
        self.flexes.iter().enumerate().find(|(_, flex)| flex.body == body)
    }

    fn flex_under(&self, contact: &Contact) -> Option<(usize, &Flex)> {
        if let Under::Body(body) = contact.lower { self.flex(body) } else { None }
    }

    fn under_m(&self, under: Under, at: [f64; 2]) -> Option<f64> {
        match under {
            Under::Bearing(_) => Some(0.0),
            Under::Body(body) => self.body_m(body, at),
        }
    }

    fn body_m(&self, body: usize, at: [f64; 2]) -> Option<f64> {
        match self.flex(body) {
            Some((index, flex)) => self.board_m(index, flex, at),
            None => *self.stiff_m.get(body)?.get_or_init(|| self.stiff_m(body)),
        }
    }

    /// A body that does not bend goes down with what holds it: the mean, by the forces.
    fn stiff_m(&self, body: usize) -> Option<f64> {
        let holding = || self.holding(body);
        let whole_n: f64 = holding().map(|(_, force)| force.normal_n).sum();
        let sunk =
            holding().map(|(contact, force)| Some(force.normal_n * self.under_m(contact.lower, middle(contact))?));
        (whole_n > 0.0).then(|| sunk.sum::<Option<f64>>()).flatten().map(|sum_n_m| sum_n_m / whole_n)
    }

    /// From the chord between its outermost supports, which sink with what is under them.
    fn board_m(&self, index: usize, flex: &Flex, at: [f64; 2]) -> Option<f64> {
        let Hung { at_m: [a, b], low_m } = (*self.hung.get(index)?.get_or_init(|| self.hung(index, flex)))?;
        let part = (at[flex.axis] - a) / (b - a);
        Some(self.bent_m(index, flex, at[flex.axis]) + low_m[0] + part * (low_m[1] - low_m[0]))
    }

    fn bent_m(&self, index: usize, flex: &Flex, along_m: f64) -> f64 {
        let body = &self.stack.bodies[flex.body];
        let left_m = body.centre_m[flex.axis] - 0.5 * body.extent_m[flex.axis];
        self.bent[index].deflection_m(along_m - left_m)
    }

    fn hung(&self, index: usize, flex: &Flex) -> Option<Hung> {
        let chord = self.chord(flex)?;
        let mut low_m = [0.0; 2];
        for ((low_m, along_m), on) in low_m.iter_mut().zip(chord.at_m).zip(chord.on) {
            let mut at = middle(on);
            at[flex.axis] = along_m;
            *low_m = self.under_m(on.lower, at)? - self.bent_m(index, flex, along_m);
        }
        Some(Hung { at_m: chord.at_m, low_m })
    }

    /// Between the outermost contacts without a gap that carry; on a single one between its edges.
    fn chord(&self, flex: &Flex) -> Option<Chord<'_>> {
        let place = |contact: &Contact, force: &ContactForce| {
            let [from, to] = if flex.axis == 0 { contact.patch.x_m } else { contact.patch.y_m };
            let [ll, hl, hh, lh] = force.corners_n;
            let high_n = if flex.axis == 0 { hl + hh } else { lh + hh };
            from + (to - from) * (high_n / (ll + hl + hh + lh)).clamp(0.0, 1.0)
        };
        let places: Vec<(f64, &Contact)> = self.holding(flex.body).map(|(c, f)| (place(c, f), c)).collect();
        let left = places.iter().min_by(|one, other| one.0.total_cmp(&other.0))?;
        let right = places.iter().max_by(|one, other| one.0.total_cmp(&other.0))?;
        if right.0 - left.0 > 1e-6 {
            return Some(Chord { at_m: [left.0, right.0], on: [left.1, right.1] });
        }
        let at_m = if flex.axis == 0 { left.1.patch.x_m } else { left.1.patch.y_m };
        Some(Chord { at_m, on: [left.1; 2] })
    }

    /// The contacts that hold a body up and had no gap to close.
    fn holding(&self, body: usize) -> impl Iterator<Item = (&Contact, &ContactForce)> {
        let holds = move |(contact, force): &(&Contact, &ContactForce)| {
            contact.upper == body && contact.gap_m <= ONE_HEIGHT_M && force.normal_n > 1e-9
        };
        // Contacts stand in the order of the upper body.
        let contacts = &self.stack.pile.contacts;
        let first = contacts.partition_point(|contact| contact.upper < body);
        let last = contacts.partition_point(|contact| contact.upper <= body);
        with_forces(self.stack, self.forces).skip(first).take(last - first).filter(holds)
    }
}

fn middle(contact: &Contact) -> [f64; 2] {
    let ([x0, x1], [y0, y1]) = (contact.patch.x_m, contact.patch.y_m);
    [0.5 * (x0 + x1), 0.5 * (y0 + y1)]
}
