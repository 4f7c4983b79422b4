//! Ballast: the lots of pieces, what each piece weighs, and how it is lifted.

mod add;
mod detail;
mod handling;
mod lots;
mod paste;
mod weighing;

use super::{Bench, beside, section};
use add::Short;
use eframe::egui::{Context, Ui};
use paste::Paste;
use plan::Plan;
use quantity::{Grain, Kind, Unit, unit};

/// What is in hand on this page.
#[derive(Default)]
pub(crate) struct Hand {
    /// The lot, from 0.
    lot: usize,
    /// The item that is weighed next, from 1.
    item: u32,
    /// What is typed for it, and why it did not fit.
    typed: String,
    sentence: Option<String>,
    /// The unit in which the scale reads, where another than the plan's was chosen.
    reads_in: Option<&'static str>,
    /// The item that the list was last scrolled to with its lot, and how far it is scrolled, points.
    seen: (usize, u32),
    scrolled: f32,
    /// The field for the next mass gets the keyboard when it is shown.
    wants_mass: bool,
    paste: Option<Paste>,
    adding: Option<Short>,
}

/// What the page asks of the window.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Asked {
    /// A list to read.
    OpenList,
    /// Where to write the list of the lot in hand.
    SaveList,
}

impl Hand {
    /// The unit in which the scale reads.
    fn unit(&self, plan: &Plan) -> Unit {
        self.reads_in.and_then(unit::by_symbol).unwrap_or_else(|| plan.units.unit(Kind::Mass, Grain::Coarse))
    }

    /// Takes another lot in hand, from its first item that was not weighed.
    fn take(&mut self, plan: &Plan, lot: usize) {
        *self = Self { lot, reads_in: self.reads_in, ..Self::default() };
        self.settle(plan);
    }

    /// Takes a placed piece in hand, to be weighed.
    pub(crate) fn weigh(&mut self, plan: &Plan, step: usize) {
        let Some(place) = plan.stack.get(step) else { return };
        let Some(lot) = plan.ballast.iter().position(|lot| lot.name == place.lot) else { return };
        self.take(plan, lot);
        (self.item, self.wants_mass) = (place.item, true);
    }

    /// Keeps lot and item within what there is.
    fn settle(&mut self, plan: &Plan) {
        self.lot = self.lot.min(plan.ballast.len().saturating_sub(1));
        if let Some(lot) = plan.ballast.get(self.lot)
            && !(1..=lot.count).contains(&self.item)
        {
            self.item = (1..=lot.count).find(|item| !lot.is_weighed(*item)).unwrap_or(1);
        }
    }

    /// Whether the keyboard is in the field for the next mass, and nothing is typed in it.
    pub(crate) fn awaits_mass(&self, ctx: &Context) -> bool {
        self.typed.is_empty() && ctx.memory(|m| m.has_focus(weighing::field()))
    }

    /// A list that was read from a file, to be looked at before it is taken.
    pub(crate) fn show_list(&mut self, text: String) {
        self.paste = Some(Paste::of(text));
    }

    /// The list of the lot in hand as CSV; none without lots.
    pub(crate) fn list(&self, plan: &Plan) -> Option<String> {
        plan.ballast.get(self.lot).map(|lot| plan::weighing::write(lot, plan.units))
    }
}

/// Width of the lots' side of the page, points.
const LOTS: f32 = 690.0;

pub(crate) fn show(ui: &mut Ui, bench: &mut Bench, hand: &mut Hand) -> Option<Asked> {
    hand.settle(bench.plan);
    let mut asked = None;
    let left = |ui: &mut Ui, bench: &mut Bench, hand: &mut Hand| {
        section(ui, "Lots", &lots::about(bench.plan), |ui| lots::show(ui, bench, hand));
        detail::show(ui, bench, hand.lot);
    };
    // Two closures cannot both hold the hand: the second side gets it when the first is done.
    let hand = std::cell::RefCell::new(hand);
    beside(
        ui,
        bench,
        LOTS,
        |ui, bench| left(ui, bench, &mut hand.borrow_mut()),
        |ui, bench| {
            asked = weighing::show(ui, bench, &mut hand.borrow_mut());
            section(ui, "Lifting by hand", "a caution, not a check", |ui| handling::show(ui, bench));
        },
    );
    asked
}
