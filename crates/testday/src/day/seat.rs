//! The stack as it is really done: the plan as tested, with what was done otherwise.

use super::Refused;
use crate::{Added, Deviation};
use plan::{Place, Plan, Turn, faults};
use quantity::{Length, Mass, Quantity};
use std::collections::BTreeSet;

/// A copy of the plan as tested whose stack is what lies on the seat, or will.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Seat {
    pub(super) plan: Plan,
    /// For each piece of this stack its step, from 0: of the plan as tested, or the next number for a
    /// piece that was added.
    pub(super) steps: Vec<usize>,
    /// Bags that lost mass and were never weighed, by lot and item: what is left of them is reckoned.
    pub(super) never_weighed: BTreeSet<(String, u32)>,
    /// The steps with the pieces that were left out, in the order in which they go on.
    order: Vec<usize>,
}

/// So many more of a lot than the plan counts are believed.
const MORE_OF_A_LOT: u32 = 100;

impl Seat {
    pub(super) fn planned(plan: &Plan) -> Self {
        let steps: Vec<_> = (0..plan.steps()).collect();
        Self { order: steps.clone(), steps, never_weighed: BTreeSet::new(), plan: plan.clone() }
    }

    /// The step that a piece which is added goes by, from 1.
    pub(super) fn next_step(&self) -> usize {
        self.order.len() + 1
    }

    /// How many pieces lie there once this step is put down.
    pub(super) fn count_to(&self, step: usize) -> usize {
        let up_to = self.order.iter().position(|known| *known == step).map_or(0, |at| at + 1);
        let mut there = self.steps.iter().peekable();
        self.order[..up_to].iter().filter(|known| there.next_if_eq(known).is_some()).count()
    }

    /// The last step that lies there once so many pieces are put down.
    pub(super) fn last_of(&self, count: usize) -> Option<usize> {
        count.checked_sub(1).and_then(|last| self.steps.get(last).copied())
    }

    /// The next run's: as planned, with the pieces that were exchanged.
    pub(super) fn again(&self, tested: &Plan) -> Self {
        let mut next = Self::planned(tested);
        next.plan.ballast.clone_from(&self.plan.ballast);
        next.never_weighed.clone_from(&self.never_weighed);
        for (place, step) in self.plan.stack.iter().zip(&self.steps) {
            next.exchange(*step, (&place.lot, place.item));
        }
        next
    }

    /// With a deviation.
    pub(super) fn with(&self, deviation: &Deviation) -> Result<Self, Refused> {
        let mut next = self.clone();
        if let Deviation::Added(added) = deviation {
            next.add(added)?;
            return next.checked();
        }
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
                next.bindings_from(index, |after| after - 1);
            }
            Deviation::LostMass { step, lost_kg } => next.lose(index, *step, *lost_kg)?,
            Deviation::Added(_) => {}
        }
        next.checked()
    }

    fn checked(self) -> Result<Self, Refused> {
        match faults(&self.plan).into_iter().next() {
            Some(fault) => Err(Refused(fault.sentence)),
            None => Ok(self),
        }
    }

    fn add(&mut self, added: &Added) -> Result<(), Refused> {
        let due = self.next_step();
        if added.step != due {
            return Err(Refused(format!("the next piece that is added goes by step {due}, not {}", added.step)));
        }
        self.know(added)?;
        let at = match added.after.checked_sub(1) {
            None => 0,
            Some(after) => {
                let there = self.order.iter().position(|known| *known == after);
                there.ok_or_else(|| Refused(format!("there is no step {} to put it on after", added.after)))? + 1
            }
        };
        let index = at.checked_sub(1).map_or(0, |before| self.count_to(self.order[before]));
        let turn = if added.crosswise { Turn::Crosswise } else { Turn::Lengthwise };
        let at_in_bed = added.at_m.map(Length::m);
        let place = Place { lot: added.lot.clone(), item: added.item, at: at_in_bed, turn, locked: false };
        self.plan.stack.insert(index, place);
        self.steps.insert(index, due - 1);
        self.order.insert(at, due - 1);
        self.bindings_from(index, |after| after + 1);
        Ok(())
    }

    /// The piece becomes one of its lot, with the mass that it was weighed at.
    fn know(&mut self, added: &Added) -> Result<(), Refused> {
        let Added { lot: name, item, .. } = added;
        if let Some(index) = self.plan.stack.iter().position(|place| place.lot == *name && place.item == *item) {
            let step = self.steps[index] + 1;
            return Err(Refused(format!("{name} {item} is the piece of step {step}: an extra piece is another one")));
        }
        let Some(lot) = self.plan.ballast.iter_mut().find(|lot| lot.name == *name) else {
            return Err(Refused(format!(
                "the plan has no lot “{name}”: take the lot that it is most like, and weigh it"
            )));
        };
        let most = lot.count.saturating_add(MORE_OF_A_LOT);
        if !(1..=most).contains(item) {
            return Err(Refused(format!("{name} {item}: a number from 1 to {most} would fit")));
        }
        lot.count = lot.count.max(*item);
        if let Some(kg) = added.weighed_kg {
            lot.weighed.insert(*item, Mass::kg(kg));
        }
        Ok(())
    }

    /// The piece weighs less from now on.
    fn lose(&mut self, index: usize, step: usize, lost_kg: f64) -> Result<(), Refused> {
        let had_kg = self.plan.mass_of(&self.plan.stack[index]).si();
        if !(lost_kg > 0.0 && lost_kg < had_kg) {
            return Err(Refused(format!(
                "step {step} has {had_kg:.2} kg: it can lose more than nothing and less than that"
            )));
        }
        let Place { lot, item, .. } = self.plan.stack[index].clone();
        let known = self.plan.ballast.iter_mut().find(|known| known.name == lot);
        if let Some(known) = known
            && known.weighed.insert(item, Mass::kg(had_kg - lost_kg)).is_none()
        {
            self.never_weighed.insert((lot, item));
        }
        Ok(())
    }

    /// A strap goes over the stack after a number of pieces: it stays after the same ones.
    fn bindings_from(&mut self, index: usize, renumbered: impl Fn(u32) -> u32) {
        let bindings = self.plan.fixture.bindings.iter_mut();
        for binding in bindings.filter(|binding| binding.after as usize > index) {
            binding.after = renumbered(binding.after);
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
