//! One field: what is typed is taken when it is left, and where the keyboard goes then.

use super::{Changed, Face, Form, Typed, label};
use crate::look;
use drafting::figure::Ink;
use eframe::egui::text::{CCursor, CCursorRange};
use eframe::egui::text_edit::TextEditState;
use eframe::egui::{self, Align, Id, Key, Response, TextEdit, Ui};

/// The width of a sentence under a field, points.
const SENTENCE: f32 = 260.0;

impl Form<'_> {
    /// One line to type into: shows a value as text; gives what was read when the field is left
    /// with a text that differs and fits.
    pub(crate) fn entry<T>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        face: Face,
        read: impl FnOnce(&str) -> Result<T, String>,
    ) -> Option<T> {
        let (width, hint) = (face.width, face.hint.clone());
        let add = |ui: &mut Ui, id: Id, text: &mut String| {
            // A grid gives a cell what it had in the last frame: ask for the field's own width.
            ui.set_min_width(width);
            ui.add(TextEdit::singleline(text).id(id).desired_width(width).hint_text(hint))
        };
        self.taken(ui, name, (face, add), read)
    }

    /// What does not fit is framed; its sentence stands under one field at a time, elsewhere under the pointer.
    fn tell(&mut self, ui: &Ui, field: &Response, sentence: &str) {
        let stroke = egui::Stroke::new(1.0, self.look.ink(Ink::Wanted));
        ui.painter().rect_stroke(field.rect, 3.0, stroke, egui::StrokeKind::Inside);
        if field.has_focus() {
            self.fields.told_at = Some(field.id);
        }
        if self.fields.told_at == Some(field.id) || field.hovered() {
            self.under(ui, field, sentence);
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

    /// What is read from a field that `add` puts there, when it is left.
    pub(super) fn taken<T>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        (face, add): (Face, impl FnOnce(&mut Ui, Id, &mut String) -> Response),
        read: impl FnOnce(&str) -> Result<T, String>,
    ) -> Option<T> {
        ui.vertical(|ui| {
            let id = ui.make_persistent_id(name);
            let typed = self.fields.open.remove(&id);
            let (mut touched, focused) = (typed.is_some(), ui.memory(|m| m.has_focus(id)));
            let (text, mut sentence) = typed.map_or((None, None), |t| (Some(t.text), t.sentence));
            let at_rest = if focused { &face.in_full } else { &face.at_rest };
            let mut text = text.unwrap_or_else(|| at_rest.clone());
            let response = add(ui, id, &mut text);
            label(ui, &response, name);
            touched |= response.changed();
            let leaves = self.leaves(ui, &response);
            let open = touched && text != face.in_full && leaves != Leaves::GivenUp;
            let mut taken = None;
            if open && leaves != Leaves::Stays {
                match read(&text) {
                    Ok(value) => {
                        let (text, what, entered) = (text.clone(), name.to_owned(), leaves == Leaves::Entered);
                        self.fields.changed = Some(Changed { id, scope: ui.scope_id(), text, what, entered });
                        taken = Some(value);
                    }
                    Err(why) => {
                        self.fields.told_at = Some(id);
                        sentence = Some(why);
                    }
                }
            }
            let kept = open && taken.is_none();
            let leaves = if kept && leaves == Leaves::Entered { Leaves::EnteredAmiss } else { leaves };
            self.hand_keyboard(ui, &response, leaves, &face);
            if self.fields.take_led_to(name) {
                response.request_focus();
                select_all(ui, response.id, face.in_full.chars().count());
                response.scroll_to_me(Some(Align::Center));
            }
            if kept {
                if let Some(sentence) = &sentence {
                    self.tell(ui, &response, sentence);
                }
                let (name, scope, page) = (name.to_owned(), ui.scope_id(), self.fields.page);
                self.fields.open.insert(id, Typed { name, scope, page, text, sentence });
            } else if !response.has_focus() {
                face.tell(response);
            }
            taken
        })
        .inner
    }

    fn leaves(&self, ui: &Ui, response: &Response) -> Leaves {
        match response.lost_focus() {
            _ if self.fields.given_up == Some(response.id) => Leaves::GivenUp,
            false => Leaves::Stays,
            true if ui.input(|i| i.key_pressed(Key::Enter)) => Leaves::Entered,
            true => Leaves::Elsewhere,
        }
    }

    /// Enter leads on to the next field, or stays where what was typed does not fit. A field that
    /// the keyboard comes to is selected whole, so that what is typed takes its value's place.
    fn hand_keyboard(&mut self, ui: &Ui, response: &Response, leaves: Leaves, face: &Face) {
        let fields = &mut *self.fields;
        let from_before = fields.enter_leads_on && std::mem::take(&mut fields.hands_on) && ui.is_enabled();
        let back = fields.back_to.take_if(|id| *id == response.id).is_some();
        if matches!(leaves, Leaves::Entered | Leaves::EnteredAmiss) && fields.enter_leads_on {
            fields.hands_on = leaves == Leaves::Entered;
        }
        if from_before || back || leaves == Leaves::EnteredAmiss {
            response.request_focus();
        }
        if response.has_focus() {
            fields.in_hand = Some(response.id);
        }
        if response.gained_focus() && !back && !ui.input(|i| i.pointer.any_down() || i.pointer.any_released()) {
            select_all(ui, response.id, face.in_full.chars().count());
            // It may lie below the fold.
            response.scroll_to_me(None);
        }
    }
}

/// How a field is left in this frame.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Leaves {
    Stays,
    Entered,
    /// By Enter, with a text that does not fit.
    EnteredAmiss,
    GivenUp,
    Elsewhere,
}

fn select_all(ui: &Ui, id: Id, letters: usize) {
    let mut state = TextEditState::load(ui.ctx(), id).unwrap_or_default();
    let all = CCursorRange::two(CCursor::new(0), CCursor::new(letters));
    state.cursor.set_char_range(Some(all));
    state.store(ui.ctx(), id);
}
