//! Fields over the plan's values. What is typed is taken when the field is left; what does not fit
//! stays in its field with a sentence under it, and the last good value stays in force.

use crate::look::{self, Look};
use drafting::figure::Ink;
use eframe::egui::{self, Id, IdMap, Key, Response, TextEdit, Ui};
use quantity::{Grain, Quantity, Units};

/// Texts that are being typed, or that did not fit.
#[derive(Default)]
pub(crate) struct Fields {
    open: IdMap<Typed>,
    changed: Option<Changed>,
}

struct Typed {
    text: String,
    sentence: Option<String>,
}

struct Changed {
    id: Id,
    text: String,
    what: String,
}

/// Fields in the hand of a page: where they keep their texts, and how they look.
pub(crate) struct Form<'a> {
    pub(crate) fields: &'a mut Fields,
    pub(crate) look: &'a Look,
    pub(crate) units: Units,
}

impl Fields {
    /// What was changed since the last time, in words: `article mass`.
    pub(crate) fn take_change(&mut self) -> Option<String> {
        self.changed.as_ref().map(|c| c.what.clone())
    }

    /// The change was made: nothing is left open.
    pub(crate) fn accept(&mut self) {
        self.changed = None;
    }

    /// The change was refused: the text goes back into its field with the sentence. Gives the
    /// sentence back where no field holds it: after a tick, a choice, a button.
    pub(crate) fn refuse(&mut self, sentence: String) -> Option<String> {
        match self.changed.take() {
            Some(Changed { id, text, .. }) if id != Id::NULL => {
                self.open.insert(id, Typed { text, sentence: Some(sentence) });
                None
            }
            _ => Some(sentence),
        }
    }

    /// How many fields hold a text that does not fit.
    pub(crate) fn misfits(&self) -> usize {
        self.open.values().filter(|typed| typed.sentence.is_some()).count()
    }

    /// Forgets everything that was typed, for another plan.
    pub(crate) fn clear(&mut self) {
        *self = Self::default();
    }
}

impl Form<'_> {
    /// Notes that a value was changed by other means than typing.
    pub(crate) fn note(&mut self, what: &str) {
        self.fields.changed = Some(Changed { id: Id::NULL, text: String::new(), what: what.to_owned() });
    }

    /// A quantity with its unit.
    pub(crate) fn quantity<Q: Quantity>(&mut self, ui: &mut Ui, name: &str, grain: Grain, value: &mut Q) {
        let shown = value.in_field(self.units, grain);
        let read = |text: &str| Q::parse(text).map_err(|e| sentence(&e));
        if let Some(read) = self.entry(ui, name, (shown, WIDTH), read) {
            *value = read;
        }
    }

    /// A quantity that may be left out: an empty field.
    pub(crate) fn optional<Q: Quantity>(&mut self, ui: &mut Ui, name: &str, grain: Grain, value: &mut Option<Q>) {
        let shown = value.map(|v| v.in_field(self.units, grain)).unwrap_or_default();
        let read = |text: &str| match text.trim() {
            "" => Ok(None),
            text => Q::parse(text).map(Some).map_err(|e| sentence(&e)),
        };
        if let Some(read) = self.entry(ui, name, (shown, WIDTH), read) {
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
        self.entry(ui, name, (quantity::number_in_field(value), WIDTH), read)
    }

    /// A whole number.
    pub(crate) fn count(&mut self, ui: &mut Ui, name: &str, value: &mut u32) {
        let read = |text: &str| {
            let count = text.trim().parse::<u32>().ok();
            count.ok_or_else(|| format!("“{}” is not a whole number: write one such as 12", text.trim()))
        };
        if let Some(read) = self.entry(ui, name, (value.to_string(), 56.0), read) {
            *value = read;
        }
    }

    /// A line of text.
    pub(crate) fn text(&mut self, ui: &mut Ui, name: &str, width: f32, value: &mut String) {
        if let Some(read) = self.entry(ui, name, (value.clone(), width), |text| Ok(text.to_owned())) {
            *value = read;
        }
    }

    /// A paragraph that wraps in its field; line breaks become blanks, Enter leaves it.
    pub(crate) fn passage(&mut self, ui: &mut Ui, name: &str, width: f32, value: &mut String) {
        let read = |text: &str| Ok(text.split_whitespace().collect::<Vec<_>>().join(" "));
        let add = |ui: &mut Ui, id: Id, text: &mut String| {
            ui.set_min_width(width);
            let field = TextEdit::multiline(text).id(id).desired_width(width).desired_rows(2).return_key(None);
            let response = ui.add(field);
            if response.has_focus() && ui.input(|i| i.key_pressed(Key::Enter)) {
                response.surrender_focus();
            }
            response
        };
        if let Some(read) = self.taken(ui, name, (value.clone(), add), read) {
            *value = read;
        }
    }

    /// A text that may be left out.
    pub(crate) fn optional_text(&mut self, ui: &mut Ui, name: &str, value: &mut Option<String>) {
        let shown = value.clone().unwrap_or_default();
        let read = |text: &str| Ok(Some(text.trim().to_owned()).filter(|t| !t.is_empty()));
        if let Some(read) = self.entry(ui, name, (shown, WIDTH), read) {
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

    /// A sentence under a field, over what lies there: it must not move the form under the pointer.
    fn under(&self, ui: &Ui, field: &Response, sentence: &str) {
        let area = egui::Area::new(field.id.with("sentence")).order(egui::Order::Foreground);
        area.fixed_pos(field.rect.left_bottom()).interactable(false).show(ui.ctx(), |ui| {
            let stroke = egui::Stroke::new(1.0, self.look.ink(Ink::Wanted));
            let frame = egui::Frame::new().fill(self.look.caution()).stroke(stroke).inner_margin(4);
            frame.show(ui, |ui| {
                ui.set_max_width(SENTENCE);
                let words = egui::RichText::new(sentence).size(look::SMALL).color(self.look.ink(Ink::Line));
                ui.add(egui::Label::new(words).wrap());
            });
        });
    }

    /// One line to type into: shows a value as text; gives what was read when the field is left
    /// with a text that differs and fits.
    pub(crate) fn entry<T>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        (shown, width): (String, f32),
        read: impl FnOnce(&str) -> Result<T, String>,
    ) -> Option<T> {
        let add = |ui: &mut Ui, id: Id, text: &mut String| {
            // A grid gives a cell what it had in the last frame: ask for the field's own width.
            ui.set_min_width(width);
            ui.add(TextEdit::singleline(text).id(id).desired_width(width))
        };
        self.taken(ui, name, (shown, add), read)
    }

    /// What is read from a field that `add` puts there, when it is left.
    fn taken<T>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        (shown, add): (String, impl FnOnce(&mut Ui, Id, &mut String) -> Response),
        read: impl FnOnce(&str) -> Result<T, String>,
    ) -> Option<T> {
        ui.vertical(|ui| {
            let id = ui.make_persistent_id(name);
            let typed = self.fields.open.remove(&id);
            let mut sentence = typed.as_ref().and_then(|t| t.sentence.clone());
            let mut text = typed.map_or_else(|| shown.clone(), |t| t.text);
            let response = add(ui, id, &mut text);
            label(ui, &response, name);
            let given_up = response.lost_focus() && ui.input(|i| i.key_pressed(Key::Escape));
            let mut taken = None;
            if given_up || text == shown {
                sentence = None;
            } else if response.lost_focus() {
                match read(&text) {
                    Ok(value) => {
                        let (text, what) = (text.clone(), name.to_owned());
                        self.fields.changed = Some(Changed { id, text, what });
                        taken = Some(value);
                    }
                    Err(why) => sentence = Some(why),
                }
            }
            let keep = taken.is_none() && !given_up && text != shown;
            if let Some(sentence) = sentence.as_ref().filter(|_| keep) {
                self.under(ui, &response, sentence);
            }
            if keep {
                self.fields.open.insert(id, Typed { text, sentence });
            }
            taken
        })
        .inner
    }
}

/// The width of a sentence under a field, points.
const SENTENCE: f32 = 260.0;

/// The usual width of a field, points.
pub(crate) const WIDTH: f32 = 92.0;

/// An error's text as a sentence of its own.
fn sentence(error: &impl std::error::Error) -> String {
    let text = error.to_string();
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// Names a widget for screen readers and tests.
pub(crate) fn label(ui: &Ui, response: &Response, name: &str) {
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_label(name));
}
