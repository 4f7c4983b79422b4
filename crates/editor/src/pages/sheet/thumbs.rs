//! The pages in small, one under the other: a click leads to the page.

use super::{Preview, paper_mm, placed, range};
use crate::look::{self, Look};
use crate::paint;
use drafting::figure::{Align, Ink};
use drafting::lower::Primitive;
use eframe::egui::{self, Color32, Rect, ScrollArea, Sense, Stroke, StrokeKind, Ui, pos2, vec2};

/// Width of a page in small, points.
const WIDE: f32 = 92.0;
/// Type smaller than this is drawn as a grey line, points: it could not be read.
const LEGIBLE: f32 = 5.0;

pub(super) fn show(ui: &mut Ui, look: &Look, preview: &mut Preview) {
    ScrollArea::vertical().id_salt("sheet thumbs").auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        for page in 1..=preview.pages.len() {
            thumb(ui, look, preview, page);
        }
    });
}

fn thumb(ui: &mut Ui, look: &Look, preview: &mut Preview, number: usize) {
    let Some(page) = preview.pages.get(number - 1) else { return };
    let paper = paper_mm(page);
    let scale = WIDE / paper.x;
    let size = vec2(ui.available_width(), paper.y * scale + 26.0);
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    let name = format!("Go to page {number}");
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &name));
    let is_shown = preview.at == number;
    if is_shown && preview.followed != number {
        ui.scroll_to_rect(rect, None);
        preview.followed = number;
    }
    if response.clicked() {
        (preview.jump, preview.at, preview.followed) = (Some(number), number, number);
    }
    let Some(page) = preview.pages.get(number - 1).filter(|_| ui.is_rect_visible(rect)) else { return };
    let sheet = Rect::from_min_size(pos2(rect.center().x - 0.5 * WIDE, rect.top() + 6.0), paper * scale);
    let edge = match (is_shown, response.has_focus() || response.hovered()) {
        (true, _) => Stroke::new(2.0, look.ink(Ink::Is)),
        (_, true) => Stroke::new(2.0, look.ink(Ink::Quiet)),
        _ => Stroke::new(1.0, look.rule()),
    };
    ui.painter().rect(sheet, 0.0, Color32::WHITE, edge, StrokeKind::Outside);
    let marks = page.marks.iter().filter_map(|mark| small(mark, sheet, scale)).collect();
    paint::primitives(&ui.painter_at(sheet), marks);
    let words = drafting::text::cut(&format!("{number}  {}", range::head(&preview.pages, number)), 112.0, 11.0, false);
    let at = pos2(rect.center().x, sheet.bottom() + 3.0);
    let ink = look.ink(if is_shown { Ink::Line } else { Ink::Quiet });
    ui.painter().text(at, egui::Align2::CENTER_TOP, words, egui::FontId::proportional(look::TICK), ink);
    response.on_hover_text(format!("Page {number}: {}", range::head(&preview.pages, number)));
}

/// A mark in small; words that could not be read are a grey line as long as they are.
fn small(mark: &Primitive, sheet: Rect, scale: f32) -> Option<Primitive> {
    let Primitive::Text { align, size, bold, text, .. } = mark else { return Some(placed(mark, sheet, scale)) };
    if size * scale >= LEGIBLE {
        return Some(placed(mark, sheet, scale));
    }
    let Primitive::Text { at: [x, y], .. } = placed(mark, sheet, scale) else { return None };
    #[expect(clippy::cast_possible_truncation, reason = "points on a screen")]
    let long = drafting::text::width(text, f64::from(size * scale), *bold) as f32;
    let left = match align {
        Align::Left => x,
        Align::Centre => x - 0.5 * long,
        Align::Right => x - long,
    };
    let (top, bottom) = (y - 0.5 * size * scale, y - 0.15 * size * scale);
    Some(Primitive::Polygon {
        points: vec![[left, top], [left + long, top], [left + long, bottom], [left, bottom]],
        fill: Some(drafting::palette::Rgba::opaque(0x00a9_adb1)),
        stroke: None,
    })
}
