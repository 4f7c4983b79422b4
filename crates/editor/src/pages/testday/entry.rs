//! Fields for readings: a bare number is in the unit that stands beside the field. The first field that
//! is empty takes the focus; Return goes on to the next one, and after the last one enters.

use super::desk::Desk;
use super::large::{Act, big_size, huge_size};
use crate::fields::label;
use eframe::egui::{self, Id, Key, Ui};
use quantity::{Grain, Mass, Quantity, Units};

/// Fields that are filled one after the other.
#[derive(Default)]
pub(super) struct Row {
    fields: Vec<(Id, bool)>,
    /// What they are called: what is told above them moves their identities on.
    names: Vec<String>,
    /// The field in which Return was pressed.
    returned: Option<usize>,
    /// Whether its fields wait until they are gone to.
    waits: bool,
}

impl Row {
    /// Fields that take the keyboard only where somebody goes to them.
    pub(super) fn waiting() -> Self {
        Self { waits: true, ..Self::default() }
    }

    /// A field for what a scale shows, in this place; a space typed in it stops the day.
    pub(super) fn reading(&mut self, ui: &mut Ui, desk: &mut Desk, name: &str, place: egui::Rect) -> String {
        let mut text = desk.typed.get(name).cloned().unwrap_or_default();
        let font = egui::FontId::proportional(0.9 * huge_size(ui));
        let edit = egui::TextEdit::singleline(&mut text).font(font);
        let response = ui.put(place.shrink2(egui::vec2(0.0, 2.0)), edit.align(egui::Align2::RIGHT_CENTER));
        label(ui, &response, &format!("{name} entry"));
        desk.heard.readings.push(response.id);
        desk.typed.insert(name.to_owned(), text.clone());
        self.note(ui, &response, (name, text.trim().is_empty()));
        text
    }

    fn note(&mut self, ui: &Ui, response: &egui::Response, (name, due): (&str, bool)) {
        if response.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter)) {
            self.returned = Some(self.fields.len());
        }
        self.fields.push((response.id, due));
        self.names.push(name.to_owned());
    }

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
        // A number with its unit beside it: a space in it stops the day.
        if !blank.named[1].is_empty() {
            desk.heard.readings.push(response.id);
        }
        self.note(ui, &response, (blank.named[0], due && text.trim().is_empty()));
        text
    }

    /// Whether one of its fields has the keyboard: then Return is heard here.
    fn is_in_hand(&self, ui: &Ui) -> bool {
        let focused = ui.memory(|memory| memory.focused());
        self.fields.iter().any(|(id, _)| Some(*id) == focused)
    }

    /// How Enter presses the button under it.
    pub(super) fn act(&self, ui: &Ui) -> Act {
        Act::Fields { in_hand: self.is_in_hand(ui) }
    }

    /// Moves the focus; whether Return asks for what was typed to be entered.
    pub(super) fn entered(&self, ui: &Ui, desk: &mut Desk) -> bool {
        let empty_from = |from: usize| (from..self.fields.len()).find(|index| self.fields[*index].1);
        let focus = |index: usize| ui.memory_mut(|memory| memory.request_focus(self.fields[index].0));
        let first = !self.waits && desk.wants_focus();
        let again = desk.refocus.as_ref().and_then(|name| self.names.iter().position(|known| known == name));
        if let Some(place) = again {
            desk.refocus = None;
            focus(place);
        }
        match (self.returned, empty_from(0)) {
            (Some(at), Some(first_empty)) => {
                let to = empty_from(at + 1).unwrap_or(first_empty);
                focus(to);
                // Nothing further on is empty: what was passed is told.
                if to <= at {
                    // What is questioned says already what is due.
                    if desk.doubted.is_none() {
                        desk.misfit(format!("{}: nothing is typed there yet.", self.names[to]));
                    }
                    desk.refocus = Some(self.names[to].clone());
                }
            }
            // A field that may stay empty is passed by Return as well: what is typed next belongs to it.
            (Some(at), None) if at + 1 < self.fields.len() && desk.doubted.is_none() => focus(at + 1),
            (Some(at), None) => {
                desk.entered_from = Some(self.names[at].clone());
                return true;
            }
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
    let big = big_size(ui);
    let response = ui.horizontal(|ui| {
        let words = egui::RichText::new(name).size(big);
        let size = egui::vec2((10.0 * big).min(0.42 * ui.available_width()), 1.9 * big);
        ui.allocate_ui_with_layout(size, egui::Layout::left_to_right(egui::Align::Center), |ui| {
            ui.set_min_size(size);
            ui.add(egui::Label::new(words).wrap());
        });
        let font = egui::FontId::proportional(big);
        let unit_wide = 0.5 * big * unit.chars().count() as f32;
        let width = (width * big / 17.0).min(ui.available_width() - unit_wide - 16.0).max(3.0 * big);
        let field = ui.add(egui::TextEdit::singleline(&mut text).desired_width(width).font(font));
        label(ui, &field, &format!("{name} entry"));
        ui.label(egui::RichText::new(unit).size(0.8 * big));
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
