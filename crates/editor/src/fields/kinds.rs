//! The kinds of fields: quantities, numbers, texts, ticks and choices.

use super::{Changed, Face, Form, label};
use eframe::egui::{self, Id, Key, TextEdit, Ui};
use quantity::{Grain, Quantity};

/// The width of a passage in a narrow form, points.
const PASSAGE: f32 = 230.0;

impl Form<'_> {
    /// Notes that a value was changed by other means than typing.
    pub(crate) fn note(&mut self, what: &str) {
        let (text, what) = (String::new(), what.to_owned());
        self.fields.changed = Some(Changed { id: Id::NULL, scope: Id::NULL, text, what, entered: false });
    }

    /// A quantity with its unit.
    pub(crate) fn quantity<Q: Quantity>(&mut self, ui: &mut Ui, name: &str, grain: Grain, value: &mut Q) {
        let units = self.units;
        let read = |text: &str| Q::typed(text, units, grain).map_err(|e| sentence(&e));
        if let Some(read) = self.entry(ui, name, Face::quantity(Some(*value), units, grain).wide(self.width), read) {
            *value = read;
        }
    }

    /// A quantity that may be left out: an empty field.
    pub(crate) fn optional<Q: Quantity>(&mut self, ui: &mut Ui, name: &str, grain: Grain, value: &mut Option<Q>) {
        let units = self.units;
        let read = |text: &str| match text.trim() {
            "" => Ok(None),
            text => Q::typed(text, units, grain).map(Some).map_err(|e| sentence(&e)),
        };
        if let Some(read) = self.entry(ui, name, Face::quantity(*value, units, grain).wide(self.width), read) {
            *value = read;
        }
    }

    /// A pure number.
    pub(crate) fn number(&mut self, ui: &mut Ui, name: &str, value: &mut f64) {
        if let Some(read) = self.number_of(ui, name, *value) {
            *value = read;
        }
    }

    /// A pure number that is worked out from others: gives what was typed instead.
    pub(crate) fn number_of(&mut self, ui: &mut Ui, name: &str, value: f64) -> Option<f64> {
        let read = |text: &str| quantity::number(text).map_err(|e| sentence(&e));
        let face = Face::new(quantity::number_in_field(value), quantity::number_at_rest(value), self.width);
        self.entry(ui, name, face, read)
    }

    /// A whole number.
    pub(crate) fn count(&mut self, ui: &mut Ui, name: &str, value: &mut u32) {
        let read = |text: &str| {
            let count = text.trim().parse::<u32>().ok();
            count.ok_or_else(|| format!("“{}” is not a whole number: write one such as 12", text.trim()))
        };
        if let Some(read) = self.entry(ui, name, Face::text(value.to_string(), 56.0), read) {
            *value = read;
        }
    }

    /// A whole number that may be left out: an empty field.
    pub(crate) fn optional_count(&mut self, ui: &mut Ui, name: &str, value: &mut Option<u32>) {
        let read = |text: &str| match text.trim() {
            "" => Ok(None),
            text => {
                let count = text.parse::<u32>().ok().map(Some);
                count.ok_or_else(|| format!("“{text}” is not a whole number: write one such as 3, or leave it empty"))
            }
        };
        let shown = value.map(|count| count.to_string()).unwrap_or_default();
        if let Some(read) = self.entry(ui, name, Face::text(shown, 56.0), read) {
            *value = read;
        }
    }

    /// A day of the calendar that may be left out.
    pub(crate) fn date(&mut self, ui: &mut Ui, name: &str, value: &mut Option<plan::Date>) {
        let read = |text: &str| match text.trim() {
            "" => Ok(None),
            text => text.parse().map(Some).map_err(|e: plan::NotADate| sentence(&e)),
        };
        let shown = value.map(|date| date.to_string()).unwrap_or_default();
        if let Some(read) = self.entry(ui, name, Face::text(shown, 92.0), read) {
            *value = read;
        }
    }

    /// A line of text.
    pub(crate) fn text(&mut self, ui: &mut Ui, name: &str, width: f32, value: &mut String) {
        if let Some(read) = self.entry(ui, name, Face::text(value.clone(), width), |text| Ok(text.to_owned())) {
            *value = read;
        }
    }

    /// A paragraph that wraps in its field; line breaks become blanks, Enter leaves it.
    pub(crate) fn passage(&mut self, ui: &mut Ui, name: &str, width: f32, value: &mut String) {
        let read = |text: &str| Ok(text.split_whitespace().collect::<Vec<_>>().join(" "));
        if let Some(read) = self.wrapped(ui, name, Face::text(value.clone(), width), read) {
            *value = read;
        }
    }

    /// The same for what is read from it: in full while it is typed, at rest, and how it is typed.
    pub(crate) fn passage_of<T>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        [in_full, at_rest, about]: [String; 3],
        read: impl FnOnce(&str) -> Result<T, String>,
    ) -> Option<T> {
        self.wrapped(ui, name, Face::new(in_full, at_rest, PASSAGE).about(about), read)
    }

    fn wrapped<T>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        face: Face,
        read: impl FnOnce(&str) -> Result<T, String>,
    ) -> Option<T> {
        let width = face.width;
        let add = |ui: &mut Ui, id: Id, text: &mut String| {
            ui.set_min_width(width);
            let field = TextEdit::multiline(text).id(id).desired_width(width).desired_rows(2).return_key(None);
            let response = ui.add(field);
            if response.has_focus() && ui.input(|i| i.key_pressed(Key::Enter)) {
                response.surrender_focus();
            }
            response
        };
        self.taken(ui, name, (face, add), read)
    }

    /// A text that may be left out.
    pub(crate) fn optional_text(&mut self, ui: &mut Ui, name: &str, value: &mut Option<String>) {
        let shown = value.clone().unwrap_or_default();
        let read = |text: &str| Ok(Some(text.trim().to_owned()).filter(|t| !t.is_empty()));
        if let Some(read) = self.entry(ui, name, Face::text(shown, self.width), read) {
            *value = read;
        }
    }

    /// A tick box.
    pub(crate) fn tick(&mut self, ui: &mut Ui, name: &str, value: &mut bool) {
        let response = ui.checkbox(value, "");
        label(ui, &response, name);
        if response.changed() {
            self.note(name);
        }
    }

    /// A choice among a few words.
    pub(crate) fn choice<T: Copy + PartialEq>(&mut self, ui: &mut Ui, name: &str, all: &[(T, &str)], value: &mut T) {
        let word = all.iter().find(|(v, _)| v == value).map_or("", |(_, word)| *word);
        let before = *value;
        let shown = egui::ComboBox::from_id_salt(name).selected_text(word).width(96.0).show_ui(ui, |ui| {
            for (option, word) in all {
                ui.selectable_value(value, *option, *word);
            }
        });
        label(ui, &shown.response, name);
        if *value != before {
            self.note(name);
        }
    }
}

/// An error's text as a sentence of its own.
fn sentence(error: &impl std::error::Error) -> String {
    let text = error.to_string();
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
