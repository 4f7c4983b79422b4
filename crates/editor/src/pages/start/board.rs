//! The board: four shapes, and beside them what can be opened.

use super::drawn::Drawn;
use super::{Desk, recent};
use crate::commands::{Command, OnWindow, Stated};
use crate::intent::Intent;
use crate::look;
use crate::paint;
use drafting::figure::Ink;
use eframe::egui::{
    self, Align2, FontId, Rect, Response, Sense, Stroke, StrokeKind, Ui, WidgetInfo, accesskit::Role, pos2, vec2,
};
use plan::start::{SIZES, Shape};

/// Width of what can be opened, and of the gap before it, points.
const ASIDE: f32 = 330.0;
const GAP: f32 = 28.0;
/// Between cards, points.
const BETWEEN: f32 = 12.0;
/// Size of a shape's name, points.
const NAME: f32 = 17.0;
/// Height of the words under a picture, points.
const WORDS: f32 = 66.0;
/// Height of a card, least and most, points.
const CARD: [f32; 2] = [190.0, 520.0];

pub(super) fn show(ui: &mut Ui, desk: &mut Desk) {
    let all = ui.available_size();
    let left = all.x - ASIDE - GAP;
    let height = ((all.y - 128.0 - BETWEEN) / 2.0).clamp(CARD[0], CARD[1]);
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = GAP;
        ui.vertical(|ui| {
            ui.set_width(left);
            ui.label(look::bold("An empty plan", look::LARGE));
            ui.label(look::caption(
                desk.look,
                "Which of these stands in your hangar? Its sizes come next, on the picture.",
            ));
            ui.add_space(8.0);
            shapes(ui, desk, vec2((left - BETWEEN) / 2.0, height));
            ui.add_space(8.0);
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 8.0;
                if ui.button("None of these").on_hover_text("Draw article and supports on the Fixture page").clicked() {
                    desk.commands.push(Command::Go(crate::pages::Page::Fixture));
                }
                let help = OnWindow::Help.row().keys.first();
                ui.label(look::caption(
                    desk.look,
                    format!("for a fixture that is like none of these; {help} lists keys and pointer"),
                ));
            });
        });
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.x = 8.0;
            ui.set_width(ASIDE);
            aside(ui, desk);
        });
    });
}

fn shapes(ui: &mut Ui, desk: &mut Desk, size: egui::Vec2) {
    if desk.hand.pictures.is_empty() {
        let drawn = |shape: Shape| shape.picture(desk.units, [None; SIZES]).ok().map(|plan| Drawn::with_nose(&plan));
        desk.hand.pictures = Shape::ALL.into_iter().map(drawn).collect();
    }
    for pair in [0, 2] {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing = vec2(BETWEEN, BETWEEN);
            for index in [pair, pair + 1] {
                if shape(ui, desk, index, size).clicked() {
                    desk.hand.shape = Some(Shape::ALL[index]);
                }
            }
        });
        ui.add_space(BETWEEN - ui.spacing().item_spacing.y);
    }
}

fn shape(ui: &mut Ui, desk: &Desk, index: usize, size: egui::Vec2) -> Response {
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    let shape = Shape::ALL[index];
    response
        .widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("{}, {}", shape.name(), shape.stands_on())));
    card(ui, desk, rect, &response);
    let painter = ui.painter();
    let picture = Rect::from_min_max(rect.min, pos2(rect.right(), rect.bottom() - WORDS));
    if let Some(Some(drawn)) = desk.hand.pictures.get(index) {
        drawn.paint(ui, picture.shrink(2.0), desk.look, 12.0);
    }
    let at = pos2(rect.left() + 14.0, rect.bottom() - WORDS + 4.0);
    let bold = FontId::new(NAME, paint::bold_family());
    let name = painter.text(at, Align2::LEFT_TOP, shape.name(), bold, desk.look.ink(Ink::Line));
    let (small, quiet) = (FontId::proportional(look::SMALL), desk.look.ink(Ink::Quiet));
    let beside = pos2(name.right() + 8.0, name.bottom() - 1.0);
    painter.text(beside, Align2::LEFT_BOTTOM, shape.stands_on(), small.clone(), quiet);
    let asks = format!("asks {}", shape.sizes().map(|size| short(size.called)).join(", "));
    let asks = painter.layout(asks, small, quiet, size.x - 28.0);
    painter.with_clip_rect(rect).galley(pos2(at.x, name.bottom() + 3.0), asks, quiet);
    response
}

/// Of `spar distance fore and aft, front to front` the first words.
fn short(called: &str) -> &str {
    let end = [",", " above", " fore"].iter().filter_map(|word| called.find(word)).min();
    called.get(..end.unwrap_or(called.len())).unwrap_or(called)
}

fn card(ui: &Ui, desk: &Desk, rect: Rect, response: &Response) {
    let held = response.hovered() || response.has_focus();
    let stroke =
        Stroke::new(if held { 2.0 } else { 1.0 }, if held { desk.look.ink(Ink::Is) } else { desk.look.rule() });
    ui.painter().rect(rect, 4.0, desk.look.field(), stroke, StrokeKind::Inside);
}

fn aside(ui: &mut Ui, desk: &mut Desk) {
    if desk.hand.recent.is_none() {
        desk.hand.recent = Some(recent::of(desk.paths));
    }
    ui.add_space(6.0);
    ui.label(look::bold("Go on", look::HEAD));
    let count = desk.hand.recent.as_ref().map_or(0, Vec::len);
    if count == 0 {
        ui.label(look::caption(desk.look, "No plan was open here before."));
    }
    for index in 0..count {
        one_before(ui, desk, index);
    }
    ui.add_space(4.0);
    if ui.button("Open a plan").clicked() {
        desk.commands.push(Command::Intend(Intent::Choose));
    }
    ui.add_space(18.0);
    ui.label(look::bold("Or look at a finished one", look::HEAD));
    for (index, (title, _)) in crate::demos::DEMOS.iter().enumerate() {
        if demo(ui, desk, title).clicked() {
            desk.commands.push(Command::Intend(Intent::Demo(index)));
        }
    }
    ui.add_space(18.0);
    ui.label(look::bold("How it goes", look::HEAD));
    for (number, line) in HOW.iter().enumerate() {
        ui.label(look::caption(desk.look, format!("{}   {line}", number + 1)));
    }
}

const HOW: [&str; 5] = [
    "Who sits there, and where the load acts",
    "What stands in the hangar, and what it weighs",
    "The ballast that you can lift: weigh it",
    "Stack it on the screen, or have it proposed",
    "Print the sheet, and take the test day along",
];

fn one_before(ui: &mut Ui, desk: &mut Desk, index: usize) {
    let (rect, response) = ui.allocate_exact_size(vec2(ASIDE, 64.0), Sense::click());
    let Some(recent) = desk.hand.recent.as_ref().and_then(|all| all.get(index)) else { return };
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("Go on with {}", recent.title)));
    card(ui, desk, rect, &response);
    if let Some(drawn) = &recent.drawn {
        drawn.paint(ui, Rect::from_min_size(rect.min + vec2(4.0, 3.0), vec2(78.0, 58.0)), desk.look, 2.0);
    }
    let steps = if recent.steps == 1 { "1 step".to_owned() } else { format!("{} steps", recent.steps) };
    let file = recent.path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let (title, told) = (recent.title.clone(), format!("{steps} · {file}"));
    lines(ui, desk, Rect::from_min_max(pos2(rect.left() + 90.0, rect.top()), rect.max), [&title, &told]);
    if response.on_hover_text(recent.path.display().to_string()).clicked() {
        let path = recent.path.clone();
        desk.commands.push(Command::Intend(Intent::Open(path)));
    }
}

fn demo(ui: &mut Ui, desk: &Desk, title: &str) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(ASIDE, 30.0), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("Open the demo: {title}")));
    ui.painter().hline(rect.x_range(), rect.top(), Stroke::new(1.0, desk.look.rule()));
    if response.has_focus() {
        let ring = Stroke::new(1.0, desk.look.ink(Ink::Is));
        ui.painter().rect_stroke(rect, 2.0, ring, StrokeKind::Inside);
    }
    let at = pos2(rect.left() + 4.0, rect.center().y);
    let ink = if response.hovered() { Ink::Line } else { Ink::Is };
    let font = FontId::proportional(look::BODY);
    ui.painter().with_clip_rect(rect).text(at, Align2::LEFT_CENTER, title, font, desk.look.ink(ink));
    response
}

/// A bold line over a quiet one, each cut to its room.
fn lines(ui: &Ui, desk: &Desk, rect: Rect, [title, told]: [&str; 2]) {
    let cut = |text: &str, font: FontId, ink: Ink| {
        let mut job = egui::text::LayoutJob::simple_singleline(text.to_owned(), font, desk.look.ink(ink));
        job.wrap = egui::text::TextWrapping::truncate_at_width(rect.width() - 8.0);
        ui.painter().layout_job(job)
    };
    let title = cut(title, FontId::new(look::BODY, paint::bold_family()), Ink::Line);
    let told = cut(told, FontId::proportional(look::SMALL), Ink::Quiet);
    let top = rect.center().y - 0.5 * (title.size().y + told.size().y + 3.0);
    let below = top + title.size().y + 3.0;
    ui.painter().galley(pos2(rect.left(), top), title, desk.look.ink(Ink::Line));
    ui.painter().galley(pos2(rect.left(), below), told, desk.look.ink(Ink::Quiet));
}
