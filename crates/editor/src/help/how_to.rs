//! Ten jobs, each with a picture of this window in which its steps are marked.

use super::job::Job;
use super::pictures;
use super::section::section;
use super::steps::{notes, steps};
use crate::look::{self, Look};
use drafting::figure::Ink;
use eframe::egui::{self, Button, Label, Sense, StrokeKind, Ui, Vec2, vec2};

/// The list of the jobs, points wide.
const LIST: f32 = 190.0;
/// The disc of a step's number, points.
const DISC: Vec2 = vec2(24.0, 22.0);

/// Shows a job; gives back another one where that was chosen.
pub(super) fn show(ui: &mut Ui, look: &Look, job: Job) -> Job {
    let mut next = job;
    ui.horizontal_top(|ui| {
        ui.vertical(|ui| {
            ui.set_width(LIST);
            for (other, number) in Job::ALL.into_iter().zip(1..) {
                let button = Button::selectable(other == job, format!("{number}  {}", other.title()));
                if ui.add(button.min_size(vec2(LIST, 26.0)).wrap()).clicked() {
                    next = other;
                }
            }
        });
        ui.add_space(16.0);
        ui.vertical(|ui| page(ui, look, job));
    });
    next
}

fn page(ui: &mut Ui, look: &Look, job: Job) {
    ui.label(look::bold(job.title(), look::HEAD));
    ui.add_space(8.0);
    if let Some(picture) = pictures::texture(ui.ctx(), job) {
        let size = picture.size_vec2();
        let width = ui.available_width().min(size.x);
        let alt = format!("Picture: {}", job.title());
        let shown = ui.add(egui::Image::new((picture.id(), vec2(width, width * size.y / size.x))).alt_text(alt));
        ui.painter().rect_stroke(shown.rect, 0.0, (1.0, look.ink(Ink::Grid)), StrokeKind::Outside);
        ui.add_space(8.0);
    }
    for (step, number) in steps(job).iter().zip(1..) {
        ui.horizontal_top(|ui| {
            disc(ui, look, number, step.at.is_empty());
            ui.add(Label::new(step.says).wrap());
        });
        ui.add_space(4.0);
    }
    section(ui, "Good to know", notes(job));
}

/// A step's number; filled as in the picture, where it is marked there.
fn disc(ui: &mut Ui, look: &Look, number: usize, is_unmarked: bool) {
    let (room, _) = ui.allocate_exact_size(DISC, Sense::hover());
    let ink = look.ink(Ink::Is);
    let painter = ui.painter();
    let face = if is_unmarked {
        painter.circle_stroke(room.center(), 10.0, (1.2, ink));
        ink
    } else {
        painter.circle_filled(room.center(), 10.0, ink);
        look.ground()
    };
    let font = egui::FontId::new(look::SMALL, crate::paint::bold_family());
    painter.text(room.center(), egui::Align2::CENTER_CENTER, number, font, face);
}
