//! Help, over the page: how to, keys, words, signs.

mod how_to;
mod keys;
mod signs;
mod words;

use crate::look::{self, Look};
use eframe::egui::{self, Align, Context, Key, Layout, ScrollArea, Ui};

/// A part of the help.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Topic {
    /// What is done on each page.
    HowTo,
    /// Keys and what the pointer does.
    Keys,
    /// The words of the trade as they are used here.
    Words,
    /// Colours and signs.
    Signs,
}

impl Topic {
    /// In the order in which they are offered.
    pub(crate) const ALL: [Topic; 4] = [Topic::HowTo, Topic::Keys, Topic::Words, Topic::Signs];

    /// As the menu and the help name it.
    pub(crate) fn word(self) -> &'static str {
        match self {
            Topic::HowTo => "How to",
            Topic::Keys => "Keyboard and pointer",
            Topic::Words => "Words",
            Topic::Signs => "Colours and signs",
        }
    }
}

/// Shows a topic; gives back which one is shown next, none where the help was closed.
pub(crate) fn show(ctx: &Context, look: &Look, topic: Topic) -> Option<Topic> {
    let mut next = Some(topic);
    let shown = egui::Modal::new(egui::Id::unique("help")).show(ctx, |ui| {
        ui.set_width(880.0_f32.min(ctx.content_rect().width() - 60.0));
        head(ui, topic, &mut next);
        ui.add_space(6.0);
        let height = ctx.content_rect().height() - 130.0;
        // Left to itself the area takes half of what there is.
        let area = ScrollArea::vertical().id_salt(topic.word()).max_height(height).min_scrolled_height(height);
        area.auto_shrink([false, false]).show(ui, |ui| match topic {
            Topic::HowTo => how_to::show(ui),
            Topic::Keys => keys::show(ui, look),
            Topic::Words => words::show(ui),
            Topic::Signs => signs::show(ui, look),
        });
    });
    let pressed = |key: Key| ctx.input_mut(|i| i.consume_key(egui::Modifiers::NONE, key));
    let closed = shown.should_close() || pressed(Key::Escape) || pressed(Key::F1);
    if closed { None } else { next }
}

fn head(ui: &mut Ui, topic: Topic, next: &mut Option<Topic>) {
    ui.horizontal(|ui| {
        for other in Topic::ALL {
            if ui.selectable_label(topic == other, other.word()).clicked() {
                *next = Some(other);
            }
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if ui.button("Close").clicked() {
                *next = None;
            }
        });
    });
}

/// A heading with its paragraphs.
fn section(ui: &mut Ui, head: &str, paragraphs: &[&str]) {
    ui.add_space(10.0);
    ui.label(look::bold(head, look::BODY));
    for paragraph in paragraphs {
        ui.add(egui::Label::new(*paragraph).wrap());
    }
}
