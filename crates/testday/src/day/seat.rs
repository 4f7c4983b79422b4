//! The stack as it is really done: the plan as tested, with what was done otherwise.

use super::Refused;
use crate::Deviation;
use plan::{Place, Plan, Turn, faults};
use quantity::Length;

/// A copy of the plan as tested whose stack is what lies on the seat, or will.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Seat {
    pub(super) plan: Plan,
    /// For each piece of this stack its step in the plan as tested, from 0; rising.
    pub(super) steps: Vec<usize>,
}

impl Seat {
    pub(super) fn planned(plan: &Plan) -> Self {
        Self { steps: (0..plan.steps()).collect(), plan: plan.clone() }
    }

    /// The next run's: as planned, with the pieces that were exchanged.
    pub(super) fn again(&self, tested: &Plan) -> Self {
        let mut next = Self::planned(tested);
        for (place, step) in self.plan.stack.iter().zip(&self.steps) {
            next.exchange(*step, (&place.lot, place.item));
        }
        next
    }

    /// With a deviation.
    pub(super) fn with(&self, deviation: &Deviation) -> Result<Self, Refused> {
        let mut next = self.clone();
        let index = deviation.step().checked_sub(1).and_then(|step| self.steps.iter().position(|s| *s == step));
        let Some(index) = index else {
            return Err(Refused(format!("step {} is not in the stack as it is done", deviation.step())));
        };
        match deviation {
            Deviation::OtherPiece { step, lot, item } => next.exchange(step - 1, (lot, *item)),
            Deviation::OtherPlace { at_m, crosswise, .. } => {
                let turn = if *crosswise { Turn::Crosswise } else { Turn::Lengthwise };
                let place = &mut next.plan.stack[index];
                *place = Place { at: at_m.map(Length::m), turn, ..place.clone() };
            }
            Deviation::LeftOut { .. } => {
                next.plan.stack.remove(index);
                next.steps.remove(index);
            }
        }
        match faults(&next.plan).into_iter().next() {
            Some(fault) => Err(Refused(fault.sentence)),
            None => Ok(next),
        }
    }

    /// Puts a piece in a step's place; where it lies elsewhere, the two change places.
    fn exchange(&mut self, step: usize, (lot, item): (&str, u32)) {
        let Some(index) = self.steps.iter().position(|known| *known == step) else { return };
        let planned = (self.plan.stack[index].lot.clone(), self.plan.stack[index].item);
        let elsewhere = self.plan.stack.iter().position(|place| place.lot == lot && place.item == item);
        if let Some(other) = elsewhere {
            (self.plan.stack[other].lot, self.plan.stack[other].item) = planned;
        }
        (self.plan.stack[index].lot, self.plan.stack[index].item) = (lot.to_owned(), item);
    }
}
