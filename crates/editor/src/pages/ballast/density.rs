//! What mass and size of a lot make of its density: told where no such piece has it. After a change of size alone the
//! mass in proportion is offered; it is never taken by itself.

use crate::fields::Form;
use crate::look;
use crate::signs;
use drafting::figure::{Ink, Sign};
use eframe::egui::{Label, Ui};
use plan::{Form as PieceForm, Lot, ready};
use quantity::{Grain, Kind, Mass, Quantity, Units};

/// From the lightest to the densest that pieces of a form have, kg/m3: loose filling to shot, light timber to heavy
/// plywood, water to lead. `common practice, no source`.
const fn usual(form: PieceForm) -> (&'static str, [f64; 2]) {
    match form {
        PieceForm::Bag => ("bags", [600.0, 7500.0]),
        PieceForm::Board => ("boards", [300.0, 1000.0]),
        PieceForm::Solid => ("plates, cans and weights", [700.0, 12_000.0]),
    }
}

/// A lot whose size was changed since its mass was entered.
pub(super) struct Resized {
    lot: String,
    volume_m3: f64,
    mass: Mass,
}

impl Resized {
    /// What is known of it after an edit of the lot in hand.
    pub(super) fn after(known: Option<Self>, before: &Lot, lot: &Lot) -> Option<Self> {
        let is_of = |known: &Self| known.lot == before.name && known.mass == lot.mass;
        if lot.mass != before.mass || lot.form != before.form {
            return None;
        }
        let fresh = || {
            (lot.size != before.size).then(|| Self {
                lot: lot.name.clone(),
                volume_m3: volume_m3(before),
                mass: lot.mass,
            })
        };
        known.filter(is_of).or_else(fresh)
    }

    /// The mass in proportion, where it is another one as people read it.
    fn proportional(&self, lot: &Lot, units: Units) -> Option<Mass> {
        let mass = rounded(self.mass * (volume_m3(lot) / self.volume_m3), units);
        let is_of = self.lot == lot.name && self.mass == lot.mass && mass.si().is_finite() && mass.si() > 0.0;
        (is_of && mass != rounded(lot.mass, units)).then_some(mass)
    }
}

fn volume_m3(lot: &Lot) -> f64 {
    lot.size.iter().map(|side| side.si()).product()
}

/// The density, what is odd about it, and the mass that would go with the size.
pub(super) fn show(ui: &mut Ui, form: &mut Form, lot: &mut Lot, resized: Option<&Resized>) {
    let kg_m3 = lot.mass.si() / volume_m3(lot);
    let (pieces, [least, most]) = usual(lot.form);
    let [told, from, to] = [kg_m3, least, most].map(|density| ready::density(density, form.units));
    let is_usual = (least..=most).contains(&kg_m3);
    if !is_usual {
        signs::sign(ui, form.look, Sign::Near, Ink::Wanted);
    }
    ui.label(told);
    if let Some(mass) = resized.and_then(|resized| resized.proportional(lot, form.units)) {
        let word = format!("Mass in proportion: {}", mass.in_field(form.units, Grain::Coarse));
        let hint = "The size was changed and the mass was not. Pieces that were weighed keep what was weighed.";
        if ui.button(word).on_hover_text(hint).clicked() {
            lot.mass = mass;
            form.note(&format!("{} mass", lot.name));
        }
    }
    if !is_usual {
        let words = format!("{pieces} have {from} to {to}: check mass and size");
        ui.add(Label::new(look::caption(form.look, words).color(form.look.ink(Ink::Wanted))).wrap());
    }
}

/// To a hundredth of the plan's unit, as a kitchen scale shows it.
fn rounded(mass: Mass, units: Units) -> Mass {
    let unit_kg = units.unit(Kind::Mass, Grain::Coarse).si;
    Mass::kg((100.0 * mass.si() / unit_kg).round() / 100.0 * unit_kg)
}
