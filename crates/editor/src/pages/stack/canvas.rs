//! One view of the drawing: painted from the same figures that the sheet prints, with a widget
//! for every piece so that pointer, keyboard and screen reader find it.

use super::{Table, gesture};
use crate::look;
use crate::paint;
use drafting::lower;
use drafting::views::{self, Scene, View};
use eframe::egui::{self, Id, Pos2, Rect, Response, Sense, Ui, WidgetInfo, accesskit::Role, pos2, vec2};

/// Where each view lies.
pub(crate) struct Parts {
    pub(crate) side: Rect,
    pub(crate) front: Rect,
    pub(crate) above: Rect,
}

pub(super) fn show(ui: &mut Ui, table: &mut Table, view: View, rect: Rect) {
    let canvas = ui.interact(rect, Id::unique(("view", name(view))), Sense::click_and_drag());
    canvas.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, name(view)));
    look_around(ui, table, view, &canvas);
    paint_view(ui, table, view, rect);
    if table.hand.placing.is_some() {
        gesture::placing(ui, table, view, &canvas);
    } else {
        pieces(ui, table, view, rect);
        if canvas.clicked() {
            table.hand.selected.clear();
        }
    }
    caption(ui, table, view, rect);
}

/// How a view is called.
pub(super) fn name(view: View) -> &'static str {
    match view {
        View::Side => "From the side",
        View::Front => "From the front",
        View::Above => "From above",
    }
}

fn look_around(ui: &Ui, table: &mut Table, view: View, canvas: &Response) {
    let panned = canvas.dragged_by(egui::PointerButton::Middle)
        || (canvas.dragged_by(egui::PointerButton::Primary) && table.hand.grab.is_none());
    if panned {
        table.hand.camera.pan(view, canvas.drag_delta());
    }
    // Pieces lie over the canvas, so ask where the pointer is, not what it hovers.
    let over = ui
        .input(|i| i.pointer.hover_pos())
        .filter(|p| canvas.rect.contains(*p) && canvas.contains_pointer() || canvas.rect.contains(*p));
    let Some(pointer) = over else { return };
    let turned = ui.input(|i| f64::from(i.zoom_delta()) * (f64::from(i.smooth_scroll_delta().y) * 0.004).exp());
    if (turned - 1.0).abs() > 1e-6 {
        let about = to_plane(table, view, canvas.rect, pointer);
        table.hand.camera.zoom(view, about, turned);
    }
}

/// A point of the window in a view's drawing plane, m.
pub(super) fn to_plane(table: &Table, view: View, rect: Rect, at: Pos2) -> [f64; 2] {
    table.hand.camera.viewport(view, rect).to_plane([f64::from(at.x), f64::from(at.y)])
}

pub(super) fn scene<'a>(table: &'a Table) -> Scene<'a> {
    let layout = &table.shown.assessment;
    Scene {
        plan: &table.shown.plan,
        layout,
        step: table.hand.placed(),
        layer: table.hand.layer(&layout.pile.layer),
        hide_above: false,
        selected: &table.hand.selected,
    }
}

fn paint_view(ui: &Ui, table: &Table, view: View, rect: Rect) {
    let scene = scene(table);
    let viewport = table.hand.camera.viewport(view, rect);
    let mut figure = match view {
        View::Side => views::side(&scene),
        View::Front => views::front(&scene),
        View::Above => views::above(&Scene { hide_above: true, ..scene }),
    };
    figure.over(views::weakest(&scene, view));
    if view == View::Above
        && let Some(curve) = curve(table)
    {
        figure.over(views::push(&curve));
    }
    let painter = ui.painter_at(rect);
    paint::primitives(&painter, lower::lower(&figure, &viewport, &table.look.palette));
    let rulers = views::rulers(&viewport, view, table.shown.plan.units);
    paint::primitives(&painter, lower::lower(&rulers, &viewport, &table.look.palette));
    gesture::paint_guides(&painter, table, view, &viewport);
}

/// What the fixture bears by direction at the step in hand.
fn curve(table: &Table) -> Option<assess::PushCurve> {
    let step = table.hand.placed().checked_sub(1)?;
    assess::push_curve(&table.shown.plan, &table.shown.assessment, step)
}

fn caption(ui: &Ui, table: &Table, view: View, rect: Rect) {
    let scene = scene(table);
    let unit = table.shown.plan.units.unit(quantity::Kind::Length, quantity::Grain::Coarse).symbol;
    let text = match (view, scene.layer) {
        (View::Above, Some(layer)) => {
            format!("{} · layer {layer} in hand · station aft, right side up, {unit}", name(view))
        }
        (View::Front, _) => format!("{} · right is on the left, {unit}", name(view)),
        (View::Side, _) => format!("{} · station aft, waterline up, {unit}", name(view)),
        (View::Above, None) => format!("{} · {unit}", name(view)),
    };
    let font = egui::FontId::proportional(look::SMALL);
    let colour = table.look.ink(drafting::figure::Ink::Quiet);
    ui.painter_at(rect).text(rect.left_top() + vec2(12.0, 8.0), egui::Align2::LEFT_TOP, text, font, colour);
}

/// A widget for every piece that is drawn; the topmost is registered last and wins the pointer.
fn pieces(ui: &Ui, table: &mut Table, view: View, rect: Rect) {
    let viewport = table.hand.camera.viewport(view, rect);
    let targets: Vec<(usize, Rect)> = {
        let scene = scene(table);
        let scene = if view == View::Above { Scene { hide_above: true, ..scene } } else { scene };
        scene
            .pieces()
            .filter_map(|step| {
                let outline = scene.outline(view, step)?;
                let corners = outline.into_iter().map(|p| viewport.to_device(p));
                Some((step, bounding(corners)))
            })
            .collect()
    };
    for (step, target) in targets {
        let response = ui.interact(target.intersect(rect), Id::unique((name(view), step)), Sense::click_and_drag());
        describe(ui, table, view, (step, &response));
        gesture::piece(ui, table, (view, rect), (step, &response));
    }
}

#[expect(clippy::cast_possible_truncation, reason = "window coordinates")]
fn bounding(corners: impl Iterator<Item = [f64; 2]>) -> Rect {
    corners.fold(Rect::NOTHING, |mut rect, [x, y]| {
        rect.extend_with(pos2(x as f32, y as f32));
        rect
    })
}

fn describe(ui: &Ui, table: &Table, view: View, (step, response): (usize, &Response)) {
    // Read before: the closures run while egui's context is locked.
    let chosen = table.hand.selected.contains(&step);
    let piece = table.shown.plan.piece_name(step);
    let label = match view {
        View::Side => piece,
        View::Front => format!("{piece} from the front"),
        View::Above => format!("{piece} from above"),
    };
    response.widget_info(|| WidgetInfo::selected(Role::ListBoxOption, true, chosen, &label));
    let layer = table.shown.assessment.pile.layer.get(step).copied().unwrap_or_default();
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_description(format!("step {}, layer {layer}", step + 1));
    });
    if response.has_focus() {
        let ring = egui::Stroke::new(2.0, table.look.ink(drafting::figure::Ink::Is));
        ui.painter().rect_stroke(response.rect.expand(2.0), 0.0, ring, egui::StrokeKind::Outside);
    }
}
