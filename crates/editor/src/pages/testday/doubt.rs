//! A value that nobody would expect is questioned. The key that entered it does not take it: it is typed once more,
//! into a field that was emptied, or a button takes it that has no other use.

use super::desk::Desk;
use super::large::{big_inked, button, quiet};
use crate::look::Look;
use crate::signs;
use drafting::figure::{Ink, Sign};
use eframe::egui::{Context, Ui};
use std::collections::BTreeMap;
use testday::Entry;

/// What is strange in what was typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Doubt {
    /// What was typed, what is known, and the difference.
    pub(super) sentence: String,
    /// The fields that it was typed into; none where buttons alone lead there.
    pub(super) fields: Vec<String>,
}

impl Doubt {
    /// Of one field.
    pub(super) fn of(field: &str, sentence: String) -> Self {
        Self { sentence, fields: vec![field.to_owned()] }
    }

    /// Several as one.
    pub(super) fn of_all(doubts: Vec<Self>) -> Option<Self> {
        let (sentences, fields): (Vec<_>, Vec<_>) =
            doubts.into_iter().map(|doubt| (doubt.sentence, doubt.fields)).unzip();
        let doubt = Self { sentence: sentences.join(" "), fields: fields.concat() };
        (!doubt.sentence.is_empty()).then_some(doubt)
    }

    /// The button that takes it.
    fn button(&self) -> &'static str {
        if self.fields.is_empty() { "It is so" } else { "It reads so" }
    }
}

/// What was questioned, and what is entered once it is said to be so.
pub(super) struct Doubted {
    doubt: Doubt,
    entries: Vec<Entry>,
    /// What else was typed then: after any change the button takes nothing.
    typed: BTreeMap<String, String>,
}

impl Desk {
    /// Enters what nobody doubts, or what was questioned and typed once more as it was.
    pub(super) fn enter_meant(&mut self, ctx: &Context, doubt: Option<Doubt>, entries: Vec<Entry>) {
        let Some(doubt) = doubt else { return self.enter_each(ctx, entries) };
        let is_typed_again = self.doubted.as_ref().is_some_and(|before| before.doubt == doubt);
        if is_typed_again && !doubt.fields.is_empty() {
            return self.enter_each(ctx, entries);
        }
        for field in &doubt.fields {
            self.typed.insert(field.clone(), String::new());
        }
        self.said = None;
        self.entered_from = None;
        self.refocus = doubt.fields.first().cloned();
        let typed = self.filled();
        self.doubted = Some(Doubted { doubt, entries, typed });
    }

    fn enter_each(&mut self, ctx: &Context, entries: Vec<Entry>) {
        for entry in entries {
            self.enter(ctx, entry);
        }
    }

    /// What stands in the fields, but for those that are empty.
    fn filled(&self) -> BTreeMap<String, String> {
        let filled = self.typed.iter().filter(|(_, text)| !text.is_empty());
        filled.map(|(name, text)| (name.clone(), text.clone())).collect()
    }

    /// The question, and the button that answers it.
    pub(super) fn question(&mut self, ui: &mut Ui, look: &Look) {
        let Some(Doubted { doubt, entries, typed }) = &self.doubted else { return };
        let (word, doubt) = (doubt.button(), doubt.clone());
        let is_as_it_was = *typed == self.filled();
        let entries = entries.clone();
        let is_so = super::card(ui, look, |ui| {
            ui.set_width(ui.available_width());
            ui.horizontal(|ui| {
                signs::sign(ui, look, Sign::Near, Ink::Wanted);
                big_inked(ui, look, doubt.sentence, Ink::Wanted);
            });
            let again = if doubt.fields.is_empty() { "" } else { "type it again, or " };
            quiet(ui, look, format!("If {}, {again}press “{word}”.", word.replacen("It", "it", 1)));
            ui.add_enabled_ui(is_as_it_was, |ui| button(ui, word)).inner
        });
        ui.add_space(6.0);
        if is_so {
            self.enter_each(ui.ctx(), entries);
        }
    }
}
