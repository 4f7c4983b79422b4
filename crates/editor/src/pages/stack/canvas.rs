//! One view of the drawing: painted from the same figures that the sheet prints, with a widget
//! for every piece so that pointer, keyboard and screen reader find it.

use super::scene::scene;
use super::table::Table;
use super::{band, blocked, gesture, lean, lit, measure, menus, readout, told};
use crate::pages::drawing::{self, Pane, Ruled, bounding, name};
use drafting::figure::{Figure, Mark};
use drafting::views::{self, Scene, View};
use eframe::egui::{self, Id, Rect, Sense, Ui, WidgetInfo, accesskit::Role};
use std::collections::HashSet;

pub(super) fn show(ui: &mut Ui, table: &mut Table, view: View, rect: Rect) {
    let canvas = ui.interact(rect, Id::unique(("view", name(view))), Sense::click_and_drag());
    canvas.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, name(view)));
    let pans = table.hand.grab.is_none() && table.hand.band.is_none() && !ui.input(|i| i.modifiers.shift);
    drawing::look_around(ui, &mut table.hand.camera, view, &canvas, pans);
    let pane = table.hand.camera.pane(view, rect);
    paint_view(ui, table, &pane);
    let targets = pieces(ui, table, &pane, canvas.id);
    if table.hand.measure.is_some() {
        measure::show(ui, table, &pane, (&targets, &canvas));
    } else if table.hand.placing.is_some() {
        gesture::placing(ui, table, view, &canvas);
    } else {
        band::select(ui, table, view, &targets, &canvas);
        if canvas.clicked() {
            table.hand.selected.clear();
        }
        // As in the turned view.
        if canvas.double_clicked() {
            table.hand.camera.fit();
        }
    }
    menus::of_ground(&canvas, table, &pane);
    readout::show(ui, table, view, rect);
}

/// What a view shows: the same in large and as a thumbnail.
pub(super) fn figure(table: &Table, view: View) -> Figure {
    let scene = scene(table);
    let mut figure = match view {
        View::Side if table.hand.leans => leaning(table, &scene),
        View::Side => views::side(&scene),
        View::Front => views::front(&scene),
        View::Above => {
            let mut beneath = views::members(scene.plan, view);
            beneath.over(views::above(&Scene { hide_above: true, ..scene }));
            beneath
        }
    };
    let weakest = scene.step.checked_sub(1).and_then(|step| table.shown.assessment.weakest_layer(step));
    figure.over(views::weakest(&scene, weakest, view));
    figure.over(blocked::figure(table, view));
    if view == View::Above {
        figure.over(views::catch_blocks_beneath(&scene));
        if let Some(curve) = curve(table) {
            figure.over(views::push(&curve));
        }
    }
    figure
}

fn paint_view(ui: &Ui, table: &Table, pane: &Pane) {
    let Pane { view, rect, viewport } = *pane;
    let caption = caption(table, view, scene(table).layer);
    let ruled = Ruled { pane: *pane, units: table.shown.plan.units, caption };
    if table.hand.grid {
        grid(ui, table, pane);
    }
    drawing::paint(ui, table.look, &figure(table, view), ruled);
    let painter = ui.painter_at(rect);
    lit::paint(&painter, table, view, &viewport);
    gesture::paint_guides(&painter, table, view, &viewport);
    gesture::paint_ghosts(&painter, table, view, &viewport);
}

/// Fainter than anything that is drawn over it.
fn grid(ui: &Ui, table: &Table, pane: &Pane) {
    let (painter, stroke) = (ui.painter_at(pane.rect), egui::Stroke::new(0.8, table.look.rule()));
    for mark in views::grid(&pane.viewport, table.shown.plan.units).marks {
        let Mark::Shape(line) = mark else { continue };
        let ends = bounding(line.points.iter().map(|p| pane.viewport.to_device(*p)));
        painter.line_segment([ends.min, ends.max], stroke);
    }
}

/// What the fixture bears by direction at the step in hand.
fn curve(table: &Table) -> Option<assess::PushCurve> {
    let step = table.hand.placed().checked_sub(1)?;
    let assessment = &table.shown.assessment;
    assess::push_curve(&table.shown.plan, &assessment.closed, assessment.exact.as_ref(), step)
}

/// The stack as it is laid, faint, and over it as it leans; as it is laid alone where no lean is known.
fn leaning(table: &Table, scene: &Scene) -> Figure {
    let Ok(soft) = lean::known(table) else { return views::side(scene) };
    // No layer is of this number: all of them are faint.
    let mut figure = views::side(&Scene { layer: Some(0), ..*scene });
    if let Some(leans) = views::lean(scene, soft) {
        figure.over(leans);
    }
    figure
}

fn caption(table: &Table, view: View, layer: Option<usize>) -> String {
    match (view, layer) {
        (View::Side, _) if table.hand.leans => {
            let told = lean::known(table).map_or_else(|why| why.to_owned(), |_| "leaning".to_owned());
            format!("{} · {told}", name(view))
        }
        (View::Above, Some(layer)) => format!("{} · layer {layer} · aircraft's right at top", name(view)),
        (View::Front, _) => format!("{}, looking aft", name(view)),
        (View::Side | View::Above, _) => name(view).to_owned(),
    }
}

/// A widget for every piece that is drawn; the topmost is registered last and wins the pointer.
/// While a lot is in hand they keep their names and let the pointer through.
fn pieces(ui: &Ui, table: &mut Table, pane: &Pane, canvas: Id) -> Vec<(usize, Rect)> {
    let Pane { view, rect, .. } = *pane;
    let targets = targets(table, pane);
    // What is put down or measured is put down or measured on them.
    let passes = table.hand.placing.is_some() || table.hand.measure.is_some();
    let sense = if passes { Sense::hover() } else { Sense::click_and_drag() };
    let reached = reached(table, &targets);
    let hidden = told::Hidden::of(ui, canvas, passes);
    // What is told asks the table, which holds it.
    let mut told = std::mem::take(&mut table.hand.told);
    told.keep(if hidden.is_told() { table.shown.plan.steps() } else { 0 });
    for ((step, target), is_reached) in targets.iter().zip(reached) {
        let (id, target, piece) = (Id::unique((name(view), *step)), target.intersect(rect), (view, *step));
        if !is_reached && !hidden.answers(id) {
            if hidden.is_told() {
                told::unseen(ui, table, piece, &ui.interact(target, id, Sense::hover()), &mut told);
            }
            continue;
        }
        let response = ui.interact(target, id, sense);
        told::seen(ui, table, piece, &response, &mut told);
        if !passes {
            gesture::piece(ui, table, pane, *step, &response);
            if menus::is_asked(table, view, *step, &response) {
                menus::of_piece(&response, table, *step);
            }
        }
    }
    table.hand.told = told;
    targets
}

/// The pieces that are drawn with where they are in the window, in placing order.
fn targets(table: &Table, pane: &Pane) -> Vec<(usize, Rect)> {
    let Pane { view, viewport, .. } = *pane;
    let scene = scene(table);
    let scene = if view == View::Above { Scene { hide_above: true, ..scene } } else { scene };
    let ghosts = table.hand.ghosts();
    let target = |step| {
        let corners = scene.outline(view, step)?.into_iter().map(|p| viewport.to_device(p));
        Some((step, bounding(corners)))
    };
    scene.pieces().filter(|step| !ghosts.contains(step)).filter_map(target).collect()
}

/// Which of them a pointer can reach, and what is in hand: right behind another one a piece needs no
/// widget unless somebody has the window read out. Of a tall stack that is most of it, and a widget
/// costs a microsecond in every frame. The list of steps has them all.
fn reached(table: &Table, targets: &[(usize, Rect)]) -> Vec<bool> {
    let mut nearer = HashSet::new();
    let spot = |target: &Rect| [target.min.x, target.min.y, target.max.x, target.max.y].map(f32::to_bits);
    let is_reached = |(step, target): &(usize, Rect)| {
        let is_held = table.hand.selected.contains(step) || table.hand.grab.as_ref().is_some_and(|g| g.step == *step);
        nearer.insert(spot(target)) || is_held
    };
    let mut reached: Vec<bool> = targets.iter().rev().map(is_reached).collect();
    reached.reverse();
    reached
}
