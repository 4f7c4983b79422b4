//! The two halves of the Load case page: what must be proved, and where it must act.

use super::{Bench, beside, load_case, occupant};
use crate::look::{self, Look};
use drafting::figure::Ink;
use eframe::egui::{Context, Id, Ui};

/// A half of the page.
#[derive(Clone, Copy, Default, PartialEq, Eq)]
enum Half {
    #[default]
    Proved,
    Acts,
}

const HALVES: [(Half, &str); 2] = [(Half::Proved, "What must be proved"), (Half::Acts, "Where it must act")];

/// Turns the page to what must be proved, or to where it must act.
pub(crate) fn turn_to(ctx: &Context, acts: bool) {
    let half = if acts { Half::Acts } else { Half::Proved };
    ctx.data_mut(|data| data.insert_temp(Id::unique(PLACE), half));
}

/// Where the half that is shown is kept.
const PLACE: &str = "half of the load case page";

/// From this width on both halves stand beside each other, and how wide the first one is then, points.
const BOTH: f32 = 2300.0;
const FIRST: f32 = 1095.0;

pub(crate) fn show(ui: &mut Ui, bench: &mut Bench) {
    if ui.available_width() >= BOTH {
        let head = |ui: &mut Ui, half: usize| {
            ui.add_space(10.0);
            ui.label(look::bold(HALVES[half].1, look::BODY).color(Look::of(ui.ctx()).ink(Ink::Is)));
        };
        let proved = |ui: &mut Ui, bench: &mut Bench| {
            head(ui, 0);
            load_case::show(ui, bench);
        };
        let acts = |ui: &mut Ui, bench: &mut Bench| {
            head(ui, 1);
            occupant::show(ui, bench);
        };
        return beside(ui, bench, FIRST, proved, acts);
    }
    one_at_a_time(ui, bench);
}

fn one_at_a_time(ui: &mut Ui, bench: &mut Bench) {
    let id = Id::unique(PLACE);
    let mut half: Half = ui.data(|data| data.get_temp(id)).unwrap_or_default();
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        for (each, word) in HALVES {
            ui.selectable_value(&mut half, each, word);
        }
    });
    ui.data_mut(|data| data.insert_temp(id, half));
    match half {
        Half::Proved => load_case::show(ui, bench),
        Half::Acts => occupant::show(ui, bench),
    }
}
