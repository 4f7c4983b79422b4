//! One view of the drawing: painted from the same figures that the sheet prints, with a widget
//! for every piece so that pointer, keyboard and screen reader find it.

use super::{Table, gesture};
use crate::pages::drawing::{self, bounding, name};
use drafting::views::{self, Scene, View};
use eframe::egui::{self, Id, Pos2, Rect, Response, Sense, Ui, WidgetInfo, accesskit::Role};

pub(super) fn show(ui: &mut Ui, table: &mut Table, view: View, rect: Rect) {
    let canvas = ui.interact(rect, Id::unique(("view", name(view))), Sense::click_and_drag());
    canvas.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, name(view)));
    let pans = table.hand.grab.is_none();
    drawing::look_around(ui, &mut table.hand.camera, view, (&canvas, pans));
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

/// A point of the window in a view's drawing plane, m.
pub(super) fn to_plane(table: &Table, view: View, rect: Rect, at: Pos2) -> [f64; 2] {
    table.hand.camera.to_plane(view, rect, at)
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
    drawing::paint(ui, table.look, &figure, (view, &viewport, table.shown.plan.units));
    gesture::paint_guides(&ui.painter_at(rect), table, view, &viewport);
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
    drawing::caption(ui, table.look, rect, text);
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
