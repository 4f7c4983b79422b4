//! What is in hand on the Ballast page: a lot, the item that is weighed next, what is typed for it.

use super::add::Short;
use super::density::Resized;
use super::paste::Paste;
use super::trial::Trial;
use eframe::egui::{Context, Id};
use plan::Plan;
use quantity::{Grain, Kind, Unit, unit};

/// What is in hand on this page.
#[derive(Default)]
pub(crate) struct Hand {
    /// The lot, from 0.
    pub(super) lot: usize,
    /// The item that is weighed next, from 1.
    pub(super) item: u32,
    /// What is typed for it, and why it did not fit.
    pub(super) typed: String,
    pub(super) sentence: Option<String>,
    /// The unit in which the scale reads, where another than the plan's was chosen.
    pub(super) reads_in: Option<&'static str>,
    /// The item that the list was last scrolled to with its lot, and how far it is scrolled, points.
    pub(super) seen: (usize, u32),
    pub(super) scrolled: f32,
    /// The field for the next mass gets the keyboard when it is shown.
    pub(super) wants_mass: bool,
    /// The bar of the histogram that is selected: masses from this one up to below that one, kg.
    pub(super) bar: Option<[f64; 2]>,
    pub(super) paste: Option<Paste>,
    pub(super) adding: Option<Short>,
    /// The hangar test of the lot in hand, while it is not taken over.
    pub(super) trial: Option<Trial>,
    /// The lot in hand, where its size was changed since its mass was entered.
    pub(super) resized: Option<Resized>,
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
    pub(super) fn unit(&self, plan: &Plan) -> Unit {
        self.reads_in.and_then(unit::by_symbol).unwrap_or_else(|| plan.units.unit(Kind::Mass, Grain::Coarse))
    }

    /// Whether a bag of the lot in hand is being measured.
    pub(crate) fn tries_a_bag(&self) -> bool {
        self.trial.is_some()
    }

    /// Takes another lot in hand, from its first item that was not weighed.
    pub(super) fn take(&mut self, plan: &Plan, lot: usize) {
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
    pub(super) fn settle(&mut self, plan: &Plan) {
        self.lot = self.lot.min(plan.ballast.len().saturating_sub(1));
        if let Some(lot) = plan.ballast.get(self.lot)
            && !(1..=lot.count).contains(&self.item)
        {
            self.item = (1..=lot.count).find(|item| !lot.is_weighed(*item)).unwrap_or(1);
        }
    }

    /// Whether the keyboard is in the field for the next mass, and nothing is typed in it.
    pub(crate) fn awaits_mass(&self, ctx: &Context) -> bool {
        self.typed.is_empty() && ctx.memory(|m| m.has_focus(field()))
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

/// The field in which a mass is typed.
pub(super) fn field() -> Id {
    Id::unique("weighed mass")
}
