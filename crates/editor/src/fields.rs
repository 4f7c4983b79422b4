//! Fields over the plan's values. What is typed is taken when the field is left; what does not fit
//! stays in its field with a sentence under it, and the last good value stays in force.

mod entry;
mod face;
mod kinds;

pub(crate) use face::{Face, WIDTH};

use crate::look::Look;
use eframe::egui::{self, Id, IdMap, Key, Modifiers, Response, Ui};
use quantity::Units;
use std::collections::HashMap;

/// Texts that are being typed, or that did not fit.
#[derive(Default)]
pub(crate) struct Fields {
    /// The page that is shown, by its word.
    page: &'static str,
    open: IdMap<Typed>,
    changed: Option<Changed>,
    /// The field that has the keyboard in this frame, as far as fields were shown yet.
    in_hand: Option<Id>,
    /// The field that had it in the last frame.
    was_in_hand: Option<Id>,
    /// The field that Escape gives up in this frame.
    given_up: Option<Id>,
    /// A field was entered: the next one that is shown gets the keyboard.
    hands_on: bool,
    /// The field that gets the keyboard back, since its entry was refused.
    back_to: Option<Id>,
    /// The field that gets the keyboard when it is shown next, by its name.
    led_to: Option<String>,
    /// The one field whose sentence is shown: refused last, or gone back to since. More would cover one another.
    told_at: Option<Id>,
    /// What undo took out of a field, for redo.
    taken_back: Option<(Id, Typed)>,
    /// Whether Enter leads on to the next field.
    enter_leads_on: bool,
    /// Parts of a page that were opened, or put away.
    parts: HashMap<&'static str, bool>,
}

struct Typed {
    name: String,
    /// The scope in which its name is its own.
    scope: Id,
    /// The page on which it is, by its word.
    page: &'static str,
    text: String,
    sentence: Option<String>,
}

struct Changed {
    id: Id,
    scope: Id,
    text: String,
    what: String,
    entered: bool,
}

/// Fields in the hand of a page: where they keep their texts, and how they look.
pub(crate) struct Form<'a> {
    pub(crate) fields: &'a mut Fields,
    pub(crate) look: &'a Look,
    pub(crate) units: Units,
    /// How wide a field for a value is, points.
    pub(crate) width: f32,
}

impl<'a> Form<'a> {
    /// With fields of the usual width.
    pub(crate) fn of(fields: &'a mut Fields, look: &'a Look, units: Units) -> Self {
        Self { fields, look, units, width: WIDTH }
    }
}

impl Fields {
    /// Begins a frame with a page, by its word; on a page of forms Enter leads on to the next field.
    pub(crate) fn begin(&mut self, ctx: &egui::Context, page: &'static str, enter_leads_on: bool) {
        self.page = page;
        self.hands_on = false;
        self.enter_leads_on = enter_leads_on;
        self.was_in_hand = self.in_hand.take();
        // Escape took the keyboard away before this frame began: it must not reach the page as well.
        let escaped = self.was_in_hand.is_some() && ctx.input_mut(|i| i.consume_key(Modifiers::NONE, Key::Escape));
        self.given_up = self.was_in_hand.filter(|_| escaped);
    }

    /// Whether a part of a page is open; how it is at first, as long as nobody touched it.
    pub(crate) fn part(&mut self, name: &'static str, at_first: bool) -> &mut bool {
        self.parts.entry(name).or_insert(at_first)
    }

    /// What is being typed in a field of this name and not taken yet.
    pub(crate) fn typing(&self, name: &str) -> Option<&str> {
        self.open.values().find(|typed| typed.name == name).map(|typed| typed.text.as_str())
    }

    /// The next field that is shown gets the keyboard.
    pub(crate) fn lead_on(&mut self) {
        self.hands_on = true;
    }

    /// The field of this name gets the keyboard, and is brought into view.
    pub(crate) fn lead_to(&mut self, name: impl Into<String>) {
        self.led_to = Some(name.into());
    }

    /// Whether the keyboard is to go to a control of this name; it is asked once.
    pub(crate) fn take_led_to(&mut self, name: &str) -> bool {
        self.led_to.take_if(|led_to| led_to == name).is_some()
    }

    /// Whether the last field that was shown was entered: what comes after it gets the keyboard.
    pub(crate) fn take_lead(&mut self) -> bool {
        std::mem::take(&mut self.hands_on)
    }

    /// Whether the keyboard is in one of these fields.
    pub(crate) fn have_keyboard(&self, ctx: &egui::Context) -> bool {
        self.was_in_hand.is_some() && ctx.memory(|m| m.focused()) == self.was_in_hand
    }

    /// Takes back what is being typed; whether there was anything.
    pub(crate) fn undo(&mut self, ctx: &egui::Context) -> bool {
        let Some(id) = self.was_in_hand.filter(|_| self.have_keyboard(ctx)) else { return false };
        self.taken_back = self.open.remove(&id).map(|typed| (id, typed));
        self.taken_back.is_some()
    }

    /// Puts back what undo took out of the field; whether there was anything.
    pub(crate) fn redo(&mut self, ctx: &egui::Context) -> bool {
        if !self.have_keyboard(ctx) {
            return false;
        }
        let Some((id, typed)) = self.taken_back.take_if(|(id, _)| Some(*id) == self.was_in_hand) else { return false };
        self.open.insert(id, Typed { sentence: None, ..typed });
        true
    }

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
            Some(Changed { id, scope, text, entered, what: name }) if id != Id::NULL => {
                self.back_to = entered.then_some(id);
                self.told_at = Some(id);
                self.open.insert(id, Typed { name, scope, page: self.page, text, sentence: Some(sentence) });
                None
            }
            _ => Some(sentence),
        }
    }

    /// The fields that hold a text that does not fit, each with its page: `“article mass” on the Fixture page`.
    pub(crate) fn misfits(&self) -> Vec<String> {
        let misfits = self.open.values().filter(|typed| typed.sentence.is_some());
        let mut misfits: Vec<_> = misfits.map(|typed| format!("“{}” on the {} page", typed.name, typed.page)).collect();
        misfits.sort();
        misfits
    }

    /// A list was put in another order: what is open in its fields (`hold 3 name`) goes along with its line, and goes
    /// with a line that is gone. Lines count from 0; a name counts from 1.
    pub(crate) fn reorder(&mut self, thing: &str, to: impl Fn(usize) -> Option<usize>) {
        let go_along = |(id, mut typed): (Id, Typed)| {
            let line = typed.name.strip_prefix(thing).and_then(|rest| rest.strip_prefix(' ')?.split_once(' '));
            let line = line.and_then(|(n, field)| Some((n.parse::<usize>().ok()?.checked_sub(1)?, field)));
            let Some((index, field)) = line else { return Some((id, typed)) };
            typed.name = format!("{thing} {} {field}", to(index)? + 1);
            Some((typed.scope.with(typed.name.as_str()), typed))
        };
        self.open = std::mem::take(&mut self.open).into_iter().filter_map(go_along).collect();
    }

    /// Forgets everything that was typed, for another plan.
    pub(crate) fn clear(&mut self) {
        *self = Self::default();
    }
}

/// Names a widget for screen readers and tests.
pub(crate) fn label(ui: &Ui, response: &Response, name: &str) {
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_label(name));
}
