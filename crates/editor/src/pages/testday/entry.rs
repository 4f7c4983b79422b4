//! Fields for readings: a bare number is in the unit that stands beside the field. The first field that
//! is empty takes the focus; Return goes on to the next one, and after the last one enters.

use super::desk::Desk;
use super::large::BIG;
use crate::fields::label;
use eframe::egui::{self, Id, Key, Ui};
use quantity::{Grain, Mass, Quantity, Units};

/// Fields that are filled one after the other.
#[derive(Default)]
pub(super) struct Row {
    fields: Vec<(Id, bool)>,
    /// The field in which Return was pressed.
    returned: Option<usize>,
}

impl Row {
    /// A field that must be filled, with its name and unit; hands back what is typed.
    pub(super) fn field(&mut self, ui: &mut Ui, desk: &mut Desk, named: [&str; 2], width: f32) -> String {
        self.any(ui, desk, &Blank { named, width }, true)
    }

    /// A field that may stay empty.
    pub(super) fn optional(&mut self, ui: &mut Ui, desk: &mut Desk, named: [&str; 2], width: f32) -> String {
        self.any(ui, desk, &Blank { named, width }, false)
    }

    fn any(&mut self, ui: &mut Ui, desk: &mut Desk, blank: &Blank, due: bool) -> String {
        let (text, response) = set(ui, desk, blank);
        if response.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter)) {
            self.returned = Some(self.fields.len());
        }
        self.fields.push((response.id, due && text.trim().is_empty()));
        text
    }

    /// Moves the focus; whether Return asks for what was typed to be entered.
    pub(super) fn entered(&self, ui: &Ui, desk: &mut Desk) -> bool {
        let empty_from = |from: usize| (from..self.fields.len()).find(|index| self.fields[*index].1);
        let focus = |index: usize| ui.memory_mut(|memory| memory.request_focus(self.fields[index].0));
        let first = desk.wants_focus();
        match (self.returned, empty_from(0)) {
            (Some(at), Some(first_empty)) => focus(empty_from(at + 1).unwrap_or(first_empty)),
            (Some(_), None) => return true,
            (None, Some(empty)) if first => focus(empty),
            _ => {}
        }
        false
    }
}

/// A field in large type; hands back what is typed.
pub(super) fn field(ui: &mut Ui, desk: &mut Desk, name: &str, unit: &str, width: f32) -> String {
    set(ui, desk, &Blank { named: [name, unit], width }).0
}

/// What is filled in: its name and unit, and how wide it is, points.
struct Blank<'a> {
    named: [&'a str; 2],
    width: f32,
}

fn set(ui: &mut Ui, desk: &mut Desk, blank: &Blank) -> (String, egui::Response) {
    let Blank { named: [name, unit], width } = *blank;
    let mut text = desk.typed.get(name).cloned().unwrap_or_default();
    let response = ui.horizontal(|ui| {
        let words = egui::RichText::new(name).size(BIG);
        let size = egui::vec2(190.0, 30.0);
        ui.allocate_ui_with_layout(size, egui::Layout::left_to_right(egui::Align::Center), |ui| {
            ui.set_min_size(size);
            ui.label(words);
        });
        let font = egui::FontId::proportional(BIG);
        let field = ui.add(egui::TextEdit::singleline(&mut text).desired_width(width).font(font));
        label(ui, &field, &format!("{name} entry"));
        ui.label(egui::RichText::new(unit).size(BIG));
        field
    });
    desk.typed.insert(name.to_owned(), text.clone());
    (text, response.inner)
}

/// Reads a quantity; a bare number, with point or comma, takes the unit that the plan shows this kind in.
pub(super) fn read<Q: Quantity>(text: &str, units: Units, grain: Grain) -> Result<Q, String> {
    Q::typed(text, units, grain).map_err(|error| error.to_string())
}

/// Reads a mass in kg.
pub(super) fn mass_kg(text: &str, units: Units) -> Result<f64, String> {
    read::<Mass>(text, units, Grain::Coarse).map(Quantity::si)
}
