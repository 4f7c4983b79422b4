//! The turned view, large or as a thumbnail: dragging turns it, a click picks a piece. Pieces are moved
//! in the flat views.

use super::lean;
use super::scene::scene;
use super::table::Table;
use super::turning::Drawn;
use crate::commands::Command;
use crate::look;
use crate::paint;
use drafting::figure::{Ink, Mark};
use drafting::lower::{self, Primitive, Viewport};
use drafting::turned::{self, Look, Numbers, Turned};
use drafting::views::Scene;
use eframe::egui::{
    self, Align2, CursorIcon, FontId, Id, Rect, Response, Sense, Stroke, StrokeKind, Ui, WidgetInfo, accesskit::Role,
    pos2, vec2,
};
use std::sync::Arc;

/// Device units of a point of type in a thumbnail: lines and signs are finer there.
const SMALL_UNIT: f64 = 0.8;

/// What a thumbnail of it shows in a part of the window.
pub(super) fn small(table: &mut Table, rect: Rect) -> Vec<Primitive> {
    let drawn = kept(table, 0.0, false);
    let reach = turned::reach(&whole(table), table.hand.turning.from);
    let area = [rect.left(), rect.top(), rect.right(), rect.bottom()].map(f64::from);
    let viewport = Viewport::fitting(reach, area, 5.0, SMALL_UNIT);
    lower::lower(&drawn.figure, &viewport, &table.look.palette)
}

/// Shows it in a part of the window.
pub(super) fn show(ui: &mut Ui, table: &mut Table, rect: Rect) {
    let canvas = ui.interact(rect, Id::unique("turned view"), Sense::click_and_drag());
    table.hand.turning.look_around(ui, &canvas);
    let name = format!("Turned view, {}", table.hand.turning.from.words());
    canvas.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, &name));
    let above_m = table.hand.turning.above_m(ui.ctx(), table.hand.placed());
    let drawn = kept(table, above_m, true);
    let viewport = table.hand.turning.viewport(turned::reach(&whole(table), table.hand.turning.from), rect);
    let painter = ui.painter_at(rect);
    paint::primitives(&painter, lower::lower(&drawn.figure, &viewport, &table.look.palette));
    let font = FontId::proportional(look::SMALL);
    painter.text(rect.left_top() + vec2(10.0, 8.0), Align2::LEFT_TOP, caption(table), font, table.look.ink(Ink::Quiet));
    pieces(ui, table, &drawn, (&viewport, rect));
    if canvas.clicked() {
        pick(ui, table, &drawn, &viewport, &canvas);
    }
    let cursor = if canvas.dragged() { CursorIcon::Grabbing } else { CursorIcon::Grab };
    canvas.on_hover_cursor(cursor);
    camera(ui, table, rect);
}

/// No layer is in hand here: all pieces are drawn strong.
fn whole<'a>(table: &'a Table) -> Scene<'a> {
    Scene { layer: None, ..scene(table) }
}

/// The drawing, made anew where anything of it has changed.
fn kept(table: &mut Table, above_m: f64, is_large: bool) -> Arc<Turned> {
    let wanted = Drawn {
        changes: table.shown.changes(),
        placed: table.hand.placed(),
        selected: table.hand.selected.clone(),
        from: table.hand.turning.from,
        above_m,
        leans: table.hand.leans,
        is_large,
    };
    if let Some(turned) = table.hand.turning.kept(&wanted) {
        return turned;
    }
    let mut turned = drawn(table, above_m, is_large);
    if !is_large {
        turned.figure.marks.retain(|mark| !matches!(mark, Mark::Text(_)));
    }
    let turned = Arc::new(turned);
    table.hand.turning.keep(wanted, &turned);
    turned
}

/// The state that is shown, with the piece that comes next.
fn drawn(table: &Table, above_m: f64, is_large: bool) -> Turned {
    let scene = whole(table);
    let placed = table.hand.placed();
    let weakest = placed.checked_sub(1).and_then(|step| table.shown.assessment.weakest_layer(step));
    let next = (placed < scene.plan.steps()).then_some(placed);
    let numbers = if is_large { Numbers::Seen } else { Numbers::None };
    let look = Look {
        from: table.hand.turning.from,
        next,
        above: placed.checked_sub(1).map(|step| (step, above_m)),
        numbers,
        weakest,
        leans: leaning(table),
        line_of_action: is_large,
        words: is_large,
        ..Look::default()
    };
    turned::turned(&scene, &look)
}

/// How the bags give, where the lean is to be drawn and known.
fn leaning<'a>(table: &'a Table) -> Option<&'a assess::Soft> {
    table.hand.leans.then(|| lean::known(table).ok()).flatten()
}

/// The view, from where, and what is exaggerated in it.
fn caption(table: &Table) -> String {
    let from = table.hand.turning.from.words();
    let leans = match (table.hand.leans, leaning(table)) {
        (false, _) => None,
        (true, Some(soft)) => drafting::views::lean_words(&whole(table), soft),
        (true, None) => lean::known(table).err().map(str::to_owned),
    };
    format!("Turned view, {from} · {}", leans.unwrap_or_else(|| "drag to turn, wheel to zoom".to_owned()))
}

/// A widget for every piece of which something shows. Their boxes overlap: which one a click means is
/// told by what lies under the pointer.
fn pieces(ui: &Ui, table: &mut Table, drawn: &Turned, (viewport, rect): (&Viewport, Rect)) {
    for (step, [low, high]) in drawn.boxes() {
        let corners = [[low[0], high[1]], [high[0], low[1]]].map(|corner| viewport.to_device(corner));
        let target = crate::pages::drawing::bounding(corners.into_iter()).intersect(rect);
        if !target.is_positive() {
            continue;
        }
        let response = ui.interact(target, Id::unique(("turned", step)), Sense::click());
        let chosen = table.hand.selected.contains(&step);
        let name = format!("{} turned", table.shown.plan.piece_name(step));
        response.widget_info(|| WidgetInfo::selected(Role::ListBoxOption, true, chosen, &name));
        if response.has_focus() {
            let ring = Stroke::new(2.0, table.look.ink(Ink::Is));
            ui.painter().rect_stroke(target.expand(2.0), 0.0, ring, StrokeKind::Outside);
        }
        if response.clicked() {
            // By the keyboard there is no pointer: then it is this one.
            if response.interact_pointer_pos().is_some() {
                pick(ui, table, drawn, viewport, &response);
            } else {
                table.hand.select(step, with_others(ui));
            }
        }
        if response.double_clicked() {
            table.hand.turning.go_home();
        }
    }
}

fn with_others(ui: &Ui) -> bool {
    ui.input(|i| i.modifiers.shift || i.modifiers.command)
}

/// Selects the piece under the pointer, or none.
fn pick(ui: &Ui, table: &mut Table, drawn: &Turned, viewport: &Viewport, clicked: &Response) {
    let Some(at) = clicked.interact_pointer_pos() else { return };
    match drawn.piece_at(viewport.to_plane([f64::from(at.x), f64::from(at.y)])) {
        Some(step) => table.hand.select(step, with_others(ui)),
        None => table.hand.selected.clear(),
    }
}

/// The button that saves a picture, with a camera drawn on it.
fn camera(ui: &Ui, table: &mut Table, rect: Rect) {
    let button = Rect::from_min_size(pos2(rect.right() - 38.0, rect.top() + 8.0), vec2(30.0, 26.0));
    let response = ui.interact(button, Id::unique("turned picture"), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, "Save picture of the turned view"));
    let lit = response.hovered() || response.has_focus();
    let ink = table.look.ink(if lit { Ink::Is } else { Ink::Line });
    let painter = ui.painter_at(rect);
    painter.rect(button, 4.0, table.look.ground(), Stroke::new(1.0, table.look.rule()), StrokeKind::Inside);
    let pen = Stroke::new(1.3, ink);
    let body = Rect::from_center_size(button.center() + vec2(0.0, 1.0), vec2(16.0, 11.0));
    painter.rect_stroke(body, 2.0, pen, StrokeKind::Middle);
    painter.circle_stroke(body.center(), 3.0, pen);
    painter.hline(body.center().x - 3.5..=body.center().x + 3.5, body.top() - 2.0, pen);
    let told = "Saves a picture of this view with title and numbers";
    if response.on_hover_cursor(egui::CursorIcon::PointingHand).on_hover_text(told).clicked() {
        table.commands.push(Command::SaveTurned);
    }
}

/// The view by itself under the plan's title and numbers, for a picture.
pub(crate) fn plate(ui: &mut Ui, table: &Table) {
    let area = ui.max_rect();
    let painter = ui.painter_at(area);
    painter.rect_filled(area, 0.0, table.look.ground());
    let (plan, closed) = (&table.shown.plan, &table.shown.assessment.closed);
    let placed = table.hand.placed();
    let title = FontId::new(look::LARGE, paint::bold_family());
    let left = area.left_top() + vec2(24.0, 20.0);
    painter.text(left, Align2::LEFT_TOP, &plan.title, title, table.look.ink(Ink::Line));
    let numbers = placed.checked_sub(1).and_then(|step| closed.steps.get(step)).map(|state| {
        let offset = crate::pages::head::offset_words(plan, state.offset_m);
        let mass = quantity::Quantity::shown(quantity::Mass::kg(state.applied_kg), plan.units, quantity::Grain::Fine);
        format!("after step {placed} of {} · {mass} on the seat · {offset}", plan.steps())
    });
    let numbers = numbers.unwrap_or_else(|| "before the first step".to_owned());
    let font = FontId::proportional(look::BODY);
    painter.text(left + vec2(0.0, 30.0), Align2::LEFT_TOP, numbers, font, table.look.ink(Ink::Quiet));
    let drawn = drawn(table, 0.0, true);
    let rect = Rect::from_min_max(pos2(area.left(), area.top() + 72.0), area.max);
    let viewport = table.hand.turning.viewport(turned::reach(&whole(table), table.hand.turning.from), rect);
    paint::primitives(&painter, lower::lower(&drawn.figure, &viewport, &table.look.palette));
}
