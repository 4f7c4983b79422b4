//! How the pieces of a stack moved as their bags gave, after each step: for drawings and reports.

use super::soft::Soft;
use crate::closed::softness::softness;
use plan::Plan;
use statics::soft::Moved;
use statics::{Pile, Under};

impl Soft {
    /// How each piece moved after a step (from 0), at the usual softness; empty where the stack does not stand.
    pub fn moved_after(&self, step: usize) -> &[Moved] {
        self.moved.get(step).map_or(&[], Vec::as_slice)
    }

    /// How much lower the underside and the top of each piece are after a step (from 0), m, along the bed's z, at its
    /// middle. Two pieces on one another share what gives between them by their softness, so that the faces stay on one
    /// another. Empty where the stack does not stand.
    pub fn faces_sunk_m(&self, plan: &Plan, pile: &Pile, step: usize) -> Vec<[f64; 2]> {
        let moved = self.moved_after(step);
        let gives = |piece: usize| softness(plan.lot_of(&plan.stack[piece])).compliance_m3_per_n;
        let sunk_m = |piece: usize| -moved[piece].shift_m[2];
        // By area: what lies under a piece, and what lies on it.
        let mut faces = vec![[(0.0, 0.0); 2]; moved.len()];
        for contact in pile.contacts.iter().filter(|contact| contact.upper < moved.len()) {
            let (upper, area) = (contact.upper, contact.patch.area());
            let at_m = match contact.lower {
                Under::Bearing(_) => 0.0,
                Under::Body(lower) => {
                    let (above, below) = (gives(upper), gives(lower));
                    let share = if above + below > 0.0 { below / (above + below) } else { 0.5 };
                    sunk_m(lower) + share * (sunk_m(upper) - sunk_m(lower))
                }
            };
            let mut meets = |piece: usize, face: usize| {
                let (weight, sum) = &mut faces[piece][face];
                (*weight, *sum) = (*weight + area, *sum + area * at_m);
            };
            meets(upper, 0);
            if let Under::Body(lower) = contact.lower {
                meets(lower, 1);
            }
        }
        let mean = |(piece, both): (usize, [(f64, f64); 2])| {
            both.map(|(weight, sum)| if weight > 0.0 { sum / weight } else { sunk_m(piece) })
        };
        faces.into_iter().enumerate().map(mean).collect()
    }
}
