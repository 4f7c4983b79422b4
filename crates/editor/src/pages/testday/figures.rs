//! The stack as it stands, with the piece in hand.

use super::about::{self, Said};
use super::desk::Desk;
use super::large::big_size;
use crate::look::{self, Look};
use crate::paint;
use drafting::figure::{Figure, Ink};
use drafting::lower::{self, Viewport};
use drafting::turned::{self, Numbers};
use drafting::views::{self, Scene, View};
use eframe::egui::{self, Rect, Sense, Ui};
use testday::Next;

/// What lies there as the day stands: with the piece that comes next, or without the one that comes off.
pub(super) fn of_day(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    if let Some(said) = drawn_day(ui, look, desk) {
        desk.say_of(said);
    }
}

/// What somebody wants to say of a piece.
fn drawn_day(ui: &mut Ui, look: &Look, desk: &Desk) -> Option<Said> {
    let run = desk.day().map(testday::Day::run)?;
    let off = match desk.next() {
        Some(Next::TakeOff { index }) => Some(index),
        _ => None,
    };
    let is_empty = run.on_seat().is_empty();
    let comes_off = off.is_some() || !run.off.is_empty();
    if let Some(back) = desk.back().filter(|_| comes_off && !is_empty) {
        let (plan, pieces, layout) = &back.there;
        let selected: Vec<_> = pieces.iter().position(|piece| Some(*piece) == off).into_iter().collect();
        let layer = selected.first().and_then(|at| layout.pile.layer.get(*at)).copied();
        let numbers: Vec<_> = pieces.iter().map(|piece| run.step_of(*piece)).collect();
        let numbers = Some(&numbers[..]);
        let whole = Scene { layer, selected: &selected, numbers, ..Scene::whole(plan, layout) };
        return show(ui, look, &whole, None);
    }
    let layout = desk.layout()?;
    let lifted = match desk.next() {
        Some(Next::Lift { index }) => Some(index),
        _ => None,
    };
    let lie = if is_empty { 0 } else { run.placed() };
    let step = lifted.map_or(lie, |index| index + 1);
    let selected: Vec<_> = lifted.into_iter().collect();
    let layer = step.checked_sub(1).and_then(|last| layout.pile.layer.get(last)).copied();
    let layer = layer.filter(|_| lifted.is_some());
    let numbers = Some(run.steps());
    let whole = Scene::whole(run.as_done(), layout);
    let scene = Scene { step, layer, hide_above: true, selected: &selected, numbers, ..whole };
    show(ui, look, &scene, lifted)
}

/// Room for names on either side of the pile, part of its length.
const AIR: f64 = 0.7;

const ABOVE: &str = "From above: aft to the right, aircraft's right at top";
const TURNED: &str = "Turned: the arrow on the floor points to the nose";
/// How far the next piece is drawn above its place, m.
const ABOVE_M: f64 = 0.12;

/// Below this height one view is drawn and not two, in lines of type.
const LOW: f32 = 15.0;

/// As it stands in the hangar, and under it from above where there is room. The piece that comes next is teal and
/// still above its place. Gives what somebody wants to say of a piece.
pub(super) fn show(ui: &mut Ui, look: &Look, scene: &Scene, next: Option<usize>) -> Option<Said> {
    let area = ui.available_rect_before_wrap();
    let is_low = area.height() < LOW * big_size(ui);
    let [upper, lower] = [area.split_top_bottom_at_fraction(0.62).0, area.split_top_bottom_at_fraction(0.62).1];
    let upper = if is_low { area } else { upper.with_max_y(upper.bottom() - 6.0) };
    let said = stands(ui, look, (scene, next), upper);
    if !is_low {
        let above = ABOVE;
        let around = around_pieces(scene, View::Above).map(with_air);
        drawn(ui, look, (above, &views::above(scene), around), lower);
    }
    ui.allocate_rect(area, Sense::hover());
    said
}

/// In the round alone, for the last page: the pile as it stood.
pub(super) fn alone(ui: &mut Ui, look: &Look, scene: &Scene) -> Option<Said> {
    let area = ui.available_rect_before_wrap();
    stands(ui, look, (scene, None), area)
}

fn with_air([low, high]: [[f64; 2]; 2]) -> [[f64; 2]; 2] {
    let air = AIR * (high[0] - low[0]);
    [[low[0] - air, low[1]], [high[0] + air, high[1]]]
}

/// The turned view; it keeps its scale from step to step.
fn stands(ui: &mut Ui, look: &Look, (scene, next): (&Scene, Option<usize>), rect: Rect) -> Option<Said> {
    let numbers = if scene.layer.is_some() { Numbers::OfLayer } else { Numbers::Seen };
    let above = next.map(|step| (step, ABOVE_M));
    let of = turned::Look { next, above, numbers, ..turned::Look::default() };
    let turned = turned::turned(scene, &of);
    // The piece that comes next hangs above all of it.
    let around = bounds(turned.bounds().into_iter().flatten().chain(turned::reach(scene, of.from)));
    let (response, viewport) = drawn(ui, look, (TURNED, &turned.figure, around), rect);
    let at = |at: egui::Pos2| turned.piece_at(viewport?.to_plane([f64::from(at.x), f64::from(at.y)]));
    about::asked(&response, scene, at)
}

/// A figure of which this must be seen, lower left and upper right corner, m.
type Captioned<'a> = (&'a str, &'a Figure, Option<[[f64; 2]; 2]>);

fn drawn(
    ui: &mut Ui,
    look: &Look,
    (caption, figure, around): Captioned,
    rect: Rect,
) -> (egui::Response, Option<Viewport>) {
    // Heard by the pointer alone: Tab goes from field to field.
    let response = ui.interact(rect, ui.scope_id().with(caption), Sense::CLICK);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, caption));
    let size = big_size(ui);
    // The arrow on the floor tells which way the turned view looks; from above it has to be said.
    let head = if caption == TURNED { 0.0 } else { size };
    let viewport = around.map(|around| {
        let area = [rect.left(), rect.top() + head, rect.right(), rect.bottom()].map(f64::from);
        // Numbers in pieces grow with the page's type.
        let unit = paint::UNIT_PER_PT * f64::from(size / look::BODY).clamp(1.0, 1.8);
        Viewport::fitting(around, area, 22.0, unit)
    });
    if let Some(viewport) = &viewport {
        paint::primitives(&ui.painter_at(rect), lower::lower_named(figure, viewport, &look.palette, Vec::new()));
    }
    if head > 0.0 {
        ui.painter().hline(rect.x_range(), rect.top(), egui::Stroke::new(1.0, look.rule()));
        let font = egui::FontId::proportional(0.64 * size);
        let at = rect.left_top() + egui::vec2(0.0, 4.0);
        ui.painter().text(at, egui::Align2::LEFT_TOP, caption, font, look.ink(Ink::Quiet));
    }
    (response, viewport)
}

/// What must be seen: where any piece will lie, so that the drawing keeps its scale from step to step.
fn around_pieces(scene: &Scene, view: View) -> Option<[[f64; 2]; 2]> {
    bounds((0..scene.plan.steps()).filter_map(|piece| scene.outline(view, piece)).flatten())
}

fn bounds(points: impl Iterator<Item = [f64; 2]>) -> Option<[[f64; 2]; 2]> {
    points.fold(None, |box_of: Option<[[f64; 2]; 2]>, [u, v]| {
        let [low, high] = box_of.unwrap_or([[u, v]; 2]);
        Some([[low[0].min(u), low[1].min(v)], [high[0].max(u), high[1].max(v)]])
    })
}
