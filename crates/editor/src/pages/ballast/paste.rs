//! A list as text, from a spreadsheet or a file: looked at, mended where it does not fit, then taken.

use crate::fields::label;
use crate::look;
use crate::pages::Bench;
use drafting::figure::Ink;
use eframe::egui::{Button, TextEdit, Ui};
use plan::weighing::{Asked, Read, read};
use plan::{Edit, Lot};

/// A text that is looked at.
pub(super) struct Paste {
    text: String,
    /// Whether the field was given the keyboard already.
    shown: bool,
}

impl Paste {
    pub(super) fn of(text: String) -> Self {
        Self { text, shown: false }
    }
}

/// So many lines that do not fit are told at once.
const TOLD: usize = 6;

/// The list while one is looked at; it is gone once it is done with.
pub(super) fn show(ui: &mut Ui, bench: &mut Bench, open: &mut Option<Paste>, asked: &Asked) {
    let Some(paste) = open else { return };
    let Asked { lot, first_item, bare } = *asked;
    ui.add_space(4.0);
    ui.label(look::caption(
        bench.look,
        format!("A column of masses from {} {first_item} on, or columns headed “item” and “mass ({})”; numbers without a unit are {}.", lot.name, bare.symbol, bare.symbol),
    ));
    let field = ui.add(TextEdit::multiline(&mut paste.text).desired_rows(6).desired_width(320.0));
    label(ui, &field, "list of masses");
    if !std::mem::replace(&mut paste.shown, true) {
        field.request_focus();
    }
    let list = read(&paste.text, asked);
    for wrong in list.wrong.iter().take(TOLD) {
        ui.colored_label(bench.look.ink(Ink::Wanted), format!("Row {}: {}", wrong.row, wrong.sentence));
    }
    if list.wrong.len() > TOLD {
        ui.label(look::caption(bench.look, format!("and {} more rows", list.wrong.len() - TOLD)));
    }
    if answer(ui, bench, lot, &list) {
        *open = None;
    }
}

/// Whether the text is done with.
fn answer(ui: &mut Ui, bench: &mut Bench, lot: &Lot, list: &Read) -> bool {
    let again = list.masses.iter().filter(|(item, mass)| lot.weighed.get(item).is_some_and(|old| old != mass)).count();
    let mut done = false;
    ui.horizontal(|ui| {
        let take = Button::new(format!("Use {} masses", list.masses.len()));
        let take = ui.add_enabled(list.wrong.is_empty() && !list.masses.is_empty(), take);
        if take.on_disabled_hover_text("Correct the rows that do not fit first").clicked() {
            let masses = list.masses.iter().map(|(item, mass)| (*item, Some(*mass))).collect();
            bench.edits.push(Edit::Weigh { lot: lot.name.clone(), masses });
            done = true;
        }
        done |= ui.button("Close the list").clicked();
        if again > 0 {
            ui.label(look::caption(bench.look, format!("{again} of them are weighed already and change")));
        }
    });
    done
}
