//! Load that went from some supports to others while nothing was added: the article tips, something slides, a
//! support lost contact.

use super::Fault;
use super::evidence::Change;
use super::suspects::{Bench, Suspect, prior, sum};
use nalgebra::{DMatrix, DVector};
use quantity::Quantity;

/// Less than this part of what goes over to the other supports is no pattern of its own.
const NO_PATTERN: f64 = 1e-6;

impl Bench<'_> {
    /// The load acts elsewhere than it did: two free moments, and no mass.
    pub(super) fn goes_over(&self, change: &Change) -> Option<Suspect> {
        let levers = &self.course.after(change.placed[1])?.levers;
        let per = |axis: usize| levers.iter().map(|lever| lever.per_kg_m[axis]).collect::<Vec<_>>();
        let per = [0, 1].map(|axis| (per(axis), prior::OFF_KG * prior::ELSEWHERE_M));
        let (weight, found) = change.weight_of_free(&per);
        let moment_kg_m = [*found.first()?, *found.get(1)?];
        let fault = Fault::GoesOver { moment_kg_m };
        Some(Suspect { fault, added_kg: sum(&per, &found), weight: weight + prior::GOES_OVER })
    }

    /// One support carries less and the others carry that, with the same sum and the same moments: only where more
    /// supports stand than statics needs.
    pub(super) fn lost_contact(&self, change: &Change) -> Vec<Suspect> {
        (0..self.course.supports()).filter_map(|support| self.lost_contact_of(change, support)).collect()
    }

    fn lost_contact_of(&self, change: &Change, support: usize) -> Option<Suspect> {
        let less = self.without_balance(change, support)?;
        let per = [(less, prior::OFF_KG)];
        let (weight, found) = change.weight_of_free(&per);
        let added_kg = sum(&per, &found);
        let fault = Fault::LostContact { support };
        let is_less = added_kg[support] < 0.0;
        is_less.then_some(Suspect { fault, added_kg, weight: weight + prior::LOST_CONTACT })
    }

    /// A kilogram less on a support, and what the scales beside it must show for sum and moments to stay: the part of
    /// that one reading that no balance sees (`own derivation`: projection onto the null space of the balance).
    fn without_balance(&self, change: &Change, support: usize) -> Option<Vec<f64>> {
        let read: Vec<usize> = (0..self.course.supports()).filter(|at| change.off_kg[*at].is_some()).collect();
        let at = |index: usize, axis: usize| self.plan.fixture.supports[index].at[axis].si();
        let rows = DMatrix::from_fn(3, read.len(), |row, column| match row {
            0 => 1.0,
            axis => at(read[column], axis - 1),
        });
        let one = DVector::from_iterator(read.len(), read.iter().map(|index| f64::from(u8::from(*index == support))));
        let seen = (&rows * rows.transpose()).try_inverse()? * (&rows * &one);
        let unseen = one - rows.transpose() * seen;
        let own = read.iter().position(|index| *index == support)?;
        let mut less = vec![0.0; self.course.supports()];
        (unseen[own] > NO_PATTERN)
            .then(|| read.iter().enumerate().for_each(|(column, index)| less[*index] = -unseen[column] / unseen[own]))
            .map(|()| less)
    }
}
