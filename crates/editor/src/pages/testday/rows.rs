//! A row a scale: what it should show, within what, where the typed number lies in that band, and the field.

use super::desk::Desk;
use super::entry::{Row, mass_kg};
use super::large::{big_size, huge_size};
use crate::look::{self, Look};
use drafting::figure::{Ink, Sign};
use eframe::egui::{self, Rect, RichText, Sense, Ui, pos2, vec2};
use plan::Plan;
use quantity::{Grain, Kind, Mass, Quantity, Units};
use testday::{Range, TARE_FAR_KG};

/// Parts of a row's width: name, should show, within, band, field.
const PARTS: [f32; 5] = [0.25, 0.18, 0.15, 0.17, 0.25];

/// The heads of the rows.
pub(super) fn heads(ui: &mut Ui, look: &Look, plan: &Plan) {
    let unit = plan.units.unit(Kind::Mass, Grain::Coarse).symbol;
    let size = 0.72 * big_size(ui);
    let shows = format!("shows, {unit}");
    let mut cells = cells(ui, 1.3 * size);
    // Nothing stands over the names: the next head may reach there.
    cells[1] = cells[1].with_min_x(cells[0].left());
    for (cell, text) in cells.into_iter().zip(["", "should show", "within", "", &shows]) {
        let text = RichText::new(text).size(size).color(look.ink(Ink::Quiet));
        right(ui, cell, egui::Label::new(text).truncate());
    }
}

/// The cells of a row of this height.
fn cells(ui: &mut Ui, high: f32) -> [Rect; 5] {
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), high), Sense::hover());
    let mut left = rect.left();
    PARTS.map(|part| {
        let cell = Rect::from_min_size(pos2(left, rect.top()), vec2(part * rect.width() - 8.0, high));
        left += part * rect.width();
        cell
    })
}

fn right(ui: &mut Ui, cell: Rect, widget: impl egui::Widget) -> egui::Response {
    let layout = egui::Layout::right_to_left(egui::Align::Center);
    ui.scope_builder(egui::UiBuilder::new().max_rect(cell).layout(layout), |ui| ui.add(widget)).inner
}

/// The row of one scale; hands back what is typed.
pub(super) fn scale(
    ui: &mut Ui,
    look: &Look,
    (desk, row): (&mut Desk, &mut Row),
    (name, plan): (&str, &Plan),
    range: Option<Range>,
) -> String {
    let ([huge, big], units) = ([huge_size(ui), big_size(ui)], plan.units);
    let [named, due, within, band, field] = cells(ui, 1.5 * huge);
    let layout = egui::Layout::left_to_right(egui::Align::Center);
    ui.scope_builder(egui::UiBuilder::new().max_rect(named).layout(layout), |ui| {
        // All names in one size: the one that the longest needs.
        let scales = plan.fixture.supports.iter().filter(|support| support.scale);
        let size = scales.map(|scale| fitting(ui, &scale.name, (big, named.width()))).fold(big, f32::min);
        ui.add(egui::Label::new(look::bold(name, size)).wrap());
    });
    let mass = |kg: f64| Mass::kg(kg).shown_bare(units, Grain::Coarse);
    let told = range.map_or_else(|| "?".to_owned(), |range| mass(range.reading_kg));
    let shown = right(ui, due, egui::Label::new(look::bold(told, huge)));
    shown.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, due_words(units, range)));
    shown.on_hover_text(due_words(units, range));
    // A tare stops nothing; beyond this it is asked about.
    let asked_kg = |range: Range| if range.stop_kg.is_finite() { range.stop_kg } else { TARE_FAR_KG };
    let spread = range.map_or_else(|| "tare".to_owned(), |range| format!("± {}", mass(asked_kg(range))));
    let spread = RichText::new(spread).size(0.86 * big).color(look.ink(Ink::Quiet));
    right(ui, within, egui::Label::new(spread));
    let text = row.reading(ui, desk, name, field);
    mark(ui, look, band, range.zip(mass_kg(&text, units).ok()), range);
    text
}

/// The largest size at which a name stands whole on one line, else the least, on two lines: two scales must never read
/// alike.
fn fitting(ui: &Ui, name: &str, (big, width): (f32, f32)) -> f32 {
    let wide = |size: f32| {
        let font = egui::FontId::new(size, crate::paint::bold_family());
        ui.painter().layout_no_wrap(name.to_owned(), font, egui::Color32::PLACEHOLDER).size().x
    };
    let sizes = [1.0, 0.88, 0.76].map(|part| part * big);
    sizes.into_iter().find(|size| wide(*size) <= width).unwrap_or(sizes[2])
}

/// In a sentence, for those who hear the page.
fn due_words(units: Units, range: Option<Range>) -> String {
    let mass = |kg: f64| Mass::kg(kg).shown(units, Grain::Coarse);
    match range {
        Some(range) if range.stop_kg.is_finite() => {
            format!("should show {}, within ± {} (stop beyond)", mass(range.reading_kg), mass(range.stop_kg))
        }
        Some(range) => {
            let [due, far] = [range.reading_kg, TARE_FAR_KG].map(mass);
            format!("about {due}; what it differs by is taken into the tare, and asked about from {far} on")
        }
        None => "what it should show is not known: no tare, or the fixture was not shown to stand".to_owned(),
    }
}

/// The band as a box about what is due, and where the typed reading lies in it.
fn mark(ui: &Ui, look: &Look, cell: Rect, read: Option<(Range, f64)>, range: Option<Range>) {
    let Some(range) = range.filter(|range| range.stop_kg.is_finite() && range.stop_kg > 0.0) else { return };
    let painter = ui.painter();
    let line = Rect::from_center_size(cell.center(), vec2(cell.width() - 8.0, 6.0));
    painter.rect_filled(line, 0.0, look.rule());
    let half = 0.3 * line.width();
    let inside = Rect::from_center_size(line.center(), vec2(2.0 * half, 14.0));
    painter.rect_filled(inside, 0.0, look.in_hand());
    painter.rect_stroke(inside, 0.0, egui::Stroke::new(1.0, look.ink(Ink::Is)), egui::StrokeKind::Inside);
    let due = [inside.center_top(), inside.center_bottom()];
    painter.line_segment(due, egui::Stroke::new(1.5, look.ink(Ink::Is)));
    let Some((_, kg)) = read else { return };
    #[expect(clippy::cast_possible_truncation, reason = "points of the screen")]
    let off = ((kg - range.reading_kg) / range.stop_kg) as f32;
    let at = pos2((line.center().x + off * half).clamp(line.left(), line.right()), line.center().y);
    match range.fits(kg) {
        true => drop(painter.circle_filled(at, 7.0, look.ink(Ink::Is))),
        false => {
            let at = [f64::from(at.x), f64::from(at.y)];
            let sign = drafting::lower::sign(Sign::Fails, at, Ink::Wanted, 1.4, &look.palette);
            crate::paint::primitives(painter, sign);
        }
    }
}
