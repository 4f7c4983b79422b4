//! Some pieces of a plan taken along to another one: what a clipboard carries is the text of a plan
//! that holds only them.

use crate::{Lot, Place, Plan};

impl Plan {
    /// The plan with only the pieces of these steps, in their placing order, and only their lots.
    /// Binding straps are left out: they go on after steps that it may not have.
    #[must_use]
    pub fn only(&self, steps: &[usize]) -> Plan {
        let mut plan = self.clone();
        plan.stack = (0..self.steps()).filter(|s| steps.contains(s)).map(|s| self.stack[s].clone()).collect();
        plan.ballast.retain(|lot| plan.stack.iter().any(|place| place.lot == lot.name));
        plan.fixture.bindings.clear();
        plan
    }
}

/// What another plan's pieces become here.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Fitted {
    /// Lots that this plan lacks.
    pub lots: Vec<Lot>,
    /// The pieces, with items that are free here, at the same places of the bed.
    pub places: Vec<Place>,
    /// How many pieces found no item that is left of their lot.
    pub left_out: usize,
}

impl Plan {
    /// Fits the pieces of another plan to this one. A lot counts as the same if name, form, size,
    /// mass, friction and grade are; an unlike one of the same name comes along under another name.
    pub fn fit(&self, other: &Plan) -> Fitted {
        let mut fitted = Fitted::default();
        let mut scratch = self.clone();
        for place in &other.stack {
            let Some(theirs) = other.lot(&place.lot) else { continue };
            let name = scratch.name_for(theirs);
            if scratch.lot(&name).is_none() {
                let lot = Lot { name: name.clone(), ..theirs.clone() };
                fitted.lots.push(lot.clone());
                scratch.ballast.push(lot);
            }
            let Some(item) = scratch.lot(&name).and_then(|lot| scratch.free_item(lot, place.item)) else {
                fitted.left_out += 1;
                continue;
            };
            let here = Place { lot: name, item, locked: false, ..place.clone() };
            scratch.stack.push(here.clone());
            fitted.places.push(here);
        }
        fitted
    }

    /// The name of the lot here that is like another one, or an unused name for it.
    fn name_for(&self, theirs: &Lot) -> String {
        let second = |n: u32| if n == 1 { theirs.name.clone() } else { format!("{} ({n})", theirs.name) };
        let fits = |name: &String| self.lot(name).is_none_or(|ours| alike(ours, theirs));
        (1_u32..).map(second).find(fits).unwrap_or_default()
    }

    /// The wanted item if it is there and not placed, else the first one that is.
    fn free_item(&self, lot: &Lot, wanted: u32) -> Option<u32> {
        let free = |item: u32| !self.stack.iter().any(|p| p.lot == lot.name && p.item == item);
        Some(wanted).filter(|item| (1..=lot.count).contains(item) && free(*item)).or_else(|| self.next_item(lot))
    }
}

fn alike(a: &Lot, b: &Lot) -> bool {
    let same = |x: f64, y: f64| (x - y).abs() <= 1e-9 * x.abs().max(y.abs());
    a.form == b.form
        && a.grade == b.grade
        && same(a.friction, b.friction)
        && same(quantity::Quantity::si(a.mass), quantity::Quantity::si(b.mass))
        && a.size.iter().zip(&b.size).all(|(x, y)| same(quantity::Quantity::si(*x), quantity::Quantity::si(*y)))
}
