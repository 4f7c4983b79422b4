//! Sheet: what is printed, page by page as it will leave the printer; pages in small that lead there, and some of them
//! saved again.

mod range;
mod thumbs;

use crate::fields::label;
use crate::look::{self, Look};
use crate::paint;
use assess::Assessment;
use drafting::lower::Primitive;
use drafting::page::{MM_PER_PT, Page, Paper};
use eframe::egui::{self, Color32, Frame, Margin, Panel, Rect, ScrollArea, Sense, Stroke, Ui, vec2};
use plan::Plan;

/// The pages of the sheet, kept until the plan changes, and where one looks.
#[derive(Default)]
pub(crate) struct Preview {
    revision: Option<(u64, bool)>,
    pages: Vec<Page>,
    /// The page that is looked at, from 1.
    at: usize,
    /// The page (from 1) that is to be shown.
    jump: Option<usize>,
    /// The page (from 1) that the pages in small were scrolled to last.
    followed: usize,
    /// Which pages are saved again, as typed.
    again: String,
    /// Why they cannot be.
    misfit: Option<String>,
}

/// What the user asks for on the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Asked {
    Nothing,
    Save,
    /// To the printer: the whole, or these pages alone, from 1, first and last.
    Print(Option<[usize; 2]>),
    /// These pages alone, from 1, first and last.
    SavePages([usize; 2]),
}

impl Preview {
    /// Lays the pages out anew if the plan or its assessment changed.
    pub(crate) fn refresh(&mut self, plan: &Plan, assessment: &Assessment, revision: (u64, bool)) {
        if self.revision != Some(revision) {
            self.pages = drafting::sheet::pages(plan, assessment, Paper::usual(plan.units));
            self.revision = Some(revision);
            self.at = self.at.clamp(1, self.pages.len().max(1));
        }
    }
}

pub(crate) fn show(ui: &mut Ui, look: &Look, preview: &mut Preview) -> Asked {
    let side = Frame::new().inner_margin(Margin::symmetric(12, 10)).fill(look.ground());
    let actions = Panel::right("sheet actions").exact_size(276.0).resizable(false).frame(side);
    let asked = actions.show(ui, |ui| actions_of(ui, look, preview)).inner;
    let strip = Frame::new().fill(look.ground());
    Panel::left("sheet thumbs").exact_size(132.0).resizable(false).frame(strip).show(ui, |ui| {
        thumbs::show(ui, look, preview);
    });
    let desk = Frame::new().fill(look.band());
    egui::CentralPanel::default().frame(desk).show(ui, |ui| pages(ui, look, preview));
    asked
}

fn actions_of(ui: &mut Ui, look: &Look, preview: &mut Preview) -> Asked {
    ui.label(look::bold("Stacking sheet", look::BODY));
    ui.label(look::caption(look, format!("{} pages", preview.pages.len())));
    ui.add_space(6.0);
    let mut whole = None;
    ui.horizontal(|ui| {
        if ui.button("Print").on_hover_text("Print the sheet (Ctrl+P)").clicked() {
            whole = Some(Asked::Print(None));
        }
        if ui.button("Save sheet…").clicked() {
            whole = Some(Asked::Save);
        }
    });
    let hint = "Front page, fixture, level, instruments, ballast, a page for each layer with its holds, unloading, afterwards, \
                emergency, engineer's annex. As PDF to print, as SVG, or the steps alone as CSV: the ending of the \
                name decides.";
    ui.add(egui::Label::new(look::caption(look, hint)).wrap());
    ui.add_space(16.0);
    ui.label(look::bold("Some pages again", look::BODY));
    ui.add_space(4.0);
    let again = some_again(ui, look, preview);
    whole.unwrap_or(again)
}

/// A page that was spoilt, or a layer, is saved again by itself.
fn some_again(ui: &mut Ui, look: &Look, preview: &mut Preview) -> Asked {
    ui.horizontal(|ui| {
        if ui.button("This page").clicked() {
            preview.again = range::words([preview.at; 2]);
        }
        if ui.button("This layer or part").clicked() {
            preview.again = range::words(range::part(&preview.pages, preview.at));
        }
    });
    ui.add_space(4.0);
    let entered = ui
        .horizontal(|ui| {
            ui.label("Pages");
            let field = ui.add(egui::TextEdit::singleline(&mut preview.again).desired_width(76.0).hint_text("3-5"));
            label(ui, &field, "Pages to save");
            field.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Enter))
        })
        .inner;
    ui.add_space(4.0);
    let mut asked = Asked::Nothing;
    ui.horizontal(|ui| {
        let print = ui.button("Print pages").clicked();
        let save = ui.button("Save pages…").clicked() || entered;
        if print || save {
            let read = range::read(&preview.again, preview.pages.len());
            preview.misfit = read.clone().err();
            asked = match read {
                Ok(pages) if print => Asked::Print(Some(pages)),
                Ok(pages) => Asked::SavePages(pages),
                Err(_) => Asked::Nothing,
            };
        }
    });
    // Room for the sentence is kept, so that nothing moves when it comes.
    let said = preview.misfit.clone().unwrap_or_else(|| AGAIN.to_owned());
    ui.add(egui::Label::new(look::caption(look, said)).wrap());
    asked
}

const AGAIN: &str = "They keep their numbers, so that a spoilt page is put in its place. PDF or SVG.";

fn paper_mm(page: &Page) -> egui::Vec2 {
    #[expect(clippy::cast_possible_truncation, reason = "millimetres of paper")]
    vec2(page.width_mm as f32, page.height_mm as f32)
}

fn pages(ui: &mut Ui, look: &Look, preview: &mut Preview) {
    let jump = preview.jump.take();
    ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
        let room = ui.available_width();
        let middle = ui.clip_rect().center().y;
        for (index, page) in preview.pages.iter().enumerate() {
            let paper = paper_mm(page);
            let scale = ((room - 48.0) / paper.x).min(4.2);
            ui.add_space(18.0);
            let (rect, response) = ui.allocate_exact_size(vec2(room, paper.y * scale), Sense::hover());
            let label = format!("Page {} of {}", index + 1, preview.pages.len());
            response.widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Image, true, &label));
            if jump == Some(index + 1) {
                let at_once = egui::style::ScrollAnimation::none();
                ui.scroll_to_rect_animation(rect.expand2(vec2(0.0, 9.0)), Some(egui::Align::TOP), at_once);
            } else if jump.is_none() && (rect.top() - 18.0..=rect.bottom()).contains(&middle) {
                preview.at = index + 1;
            }
            if !ui.is_rect_visible(rect) {
                continue;
            }
            let paper = Rect::from_center_size(rect.center(), paper * scale);
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
