//! Sheet: what is printed, page by page as it will leave the printer.

use crate::look::{self, Look};
use crate::paint;
use assess::Assessment;
use drafting::lower::Primitive;
use drafting::page::{MM_PER_PT, Page, Paper};
use eframe::egui::{self, Color32, Frame, Margin, Panel, Rect, ScrollArea, Sense, Stroke, Ui, vec2};
use plan::Plan;

/// The pages of the sheet, kept until the plan changes.
#[derive(Default)]
pub(crate) struct Preview {
    revision: Option<(u64, bool)>,
    pages: Vec<Page>,
}

/// What the user asks for on the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Asked {
    Nothing,
    Save,
}

impl Preview {
    /// Lays the pages out anew if the plan or its assessment changed.
    pub(crate) fn refresh(&mut self, plan: &Plan, assessment: &Assessment, revision: (u64, bool)) {
        if self.revision != Some(revision) {
            self.pages = drafting::sheet::pages(plan, assessment, Paper::usual(plan.units));
            self.revision = Some(revision);
        }
    }
}

pub(crate) fn show(ui: &mut Ui, look: &Look, preview: &Preview) -> Asked {
    let mut asked = Asked::Nothing;
    let side = Frame::new().inner_margin(Margin::symmetric(12, 10)).fill(look.ground());
    Panel::right("sheet actions").exact_size(276.0).resizable(false).frame(side).show(ui, |ui| {
        ui.label(look::bold("Stacking sheet", look::BODY));
        ui.label(look::caption(look, format!("{} pages", preview.pages.len())));
        ui.add_space(6.0);
        if ui.button("Save sheet…").clicked() {
            asked = Asked::Save;
        }
        let hint = "Front page, fixture, level, instruments, ballast, a page for each layer with its holds, unloading, emergency, \
                    afterwards, engineer's annex. As PDF to print, as SVG, or the steps alone as CSV: the ending of the \
                    name decides.";
        ui.add(egui::Label::new(look::caption(look, hint)).wrap());
    });
    let desk = Frame::new().fill(look.band());
    egui::CentralPanel::default().frame(desk).show(ui, |ui| pages(ui, look, preview));
    asked
}

fn pages(ui: &mut Ui, look: &Look, preview: &Preview) {
    ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
        let room = ui.available_width();
        for (index, page) in preview.pages.iter().enumerate() {
            #[expect(clippy::cast_possible_truncation, reason = "millimetres of paper")]
            let (width, height) = (page.width_mm as f32, page.height_mm as f32);
            let scale = ((room - 48.0) / width).min(4.2);
            ui.add_space(18.0);
            let size = vec2(room, height * scale);
            let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
            let label = format!("Page {} of {}", index + 1, preview.pages.len());
            response.widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Image, true, &label));
            if !ui.is_rect_visible(rect) {
                continue;
            }
            let paper = Rect::from_center_size(rect.center(), vec2(width * scale, height * scale));
            ui.painter().rect(paper, 0.0, Color32::WHITE, Stroke::new(1.0, look.rule()), egui::StrokeKind::Outside);
            let marks = page.marks.iter().map(|mark| placed(mark, paper, scale)).collect();
            paint::primitives(&ui.painter_at(paper), marks);
        }
        ui.add_space(18.0);
    });
}

/// A mark of the paper (mm) on the screen.
fn placed(mark: &Primitive, paper: Rect, scale: f32) -> Primitive {
    let at = |[x, y]: [f32; 2]| [paper.left() + x * scale, paper.top() + y * scale];
    #[expect(clippy::cast_possible_truncation, reason = "a constant near a third")]
    let unit = MM_PER_PT as f32 * scale;
    let pen = |stroke: &drafting::lower::Stroke| drafting::lower::Stroke {
        width: stroke.width * scale,
        unit_per_pt: unit,
        ..*stroke
    };
    match mark {
        Primitive::Polygon { points, fill, stroke } => Primitive::Polygon {
            points: points.iter().map(|p| at(*p)).collect(),
            fill: *fill,
            stroke: stroke.as_ref().map(pen),
        },
        Primitive::Polyline { points, stroke } => {
            Primitive::Polyline { points: points.iter().map(|p| at(*p)).collect(), stroke: pen(stroke) }
        }
        Primitive::Text { at: from, align, size, bold, colour, text } => Primitive::Text {
            at: at(*from),
            align: *align,
            size: size * scale,
            bold: *bold,
            colour: *colour,
            text: text.clone(),
        },
    }
}
