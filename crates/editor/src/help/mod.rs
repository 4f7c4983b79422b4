//! Help, over the page: how to, keys, words, signs, what this program is.

mod about;
mod how_to;
mod job;
mod keys;
mod pictures;
mod section;
mod signs;
mod steps;
mod topic;
mod words;

pub(crate) use about::built_from;
pub(crate) use job::Job;
pub(crate) use topic::Topic;

use crate::commands::{OnWindow, Stated};
use crate::look::Look;
use eframe::egui::{self, Align, Context, Key, Layout, ScrollArea, Ui};

/// Shows a topic; gives back which one is shown next, none where the help was closed.
pub(crate) fn show(ctx: &Context, look: &Look, topic: Topic) -> Option<Topic> {
    let mut next = Some(topic);
    let shown = egui::Modal::new(egui::Id::unique("help")).show(ctx, |ui| {
        ui.set_width(880.0_f32.min(ctx.content_rect().width() - 60.0));
        head(ui, topic, &mut next);
        ui.add_space(6.0);
        let height = ctx.content_rect().height() - 130.0;
        // Left to itself the area takes half of what there is.
        let area = ScrollArea::vertical()
            .id_salt((topic.word(), topic.job().map(Job::file)))
            .max_height(height)
            .min_scrolled_height(height);
        area.auto_shrink([false, false]).show(ui, |ui| match topic {
            Topic::HowTo(job) => {
                let chosen = how_to::show(ui, look, job);
                if chosen != job {
                    next = Some(Topic::HowTo(chosen));
                }
            }
            Topic::Keys => keys::show(ui, look),
            Topic::Words => words::show(ui),
            Topic::Signs => signs::show(ui, look),
            Topic::About => about::show(ui, look),
        });
    });
    // What opened it closes it.
    let escape = ctx.input_mut(|i| i.consume_key(egui::Modifiers::NONE, Key::Escape));
    let again = [OnWindow::Help, OnWindow::HelpHere].iter().any(|act| act.row().keys.presses(ctx) > 0);
    let closed = shown.should_close() || escape || again;
    if closed { None } else { next }
}

/// The controls that are marked in the picture of a job, by the name of its file; empty where a step has no mark.
pub(crate) fn marks(file: &str) -> Option<Vec<&'static str>> {
    let job = Job::ALL.into_iter().find(|job| job.file() == file)?;
    Some(steps::steps(job).iter().map(|step| step.at).collect())
}

fn head(ui: &mut Ui, topic: Topic, next: &mut Option<Topic>) {
    ui.horizontal(|ui| {
        for other in Topic::ALL {
            if ui.selectable_label(topic.word() == other.word(), other.word()).clicked() {
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
