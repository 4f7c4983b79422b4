//! Gestures on the drawing: placing a piece from the tray, dragging pieces. While a gesture
//! lasts it is an edit that is shown but not yet made; at its end it is made, as one step of undo.

use super::guide::Catch;
use super::hand::{Carry, Grab, Placing};
use super::scene::{scene, to_plane};
use super::snap;
use super::snap::{Around, Moving, Rule};
use super::table::Table;
use crate::commands::{OnStack, Stated};
use crate::look;
use crate::pages::drawing::{self, Pane};
use drafting::figure::Ink;
use drafting::lower::Viewport;
use drafting::views::View;
use eframe::egui::{self, Painter, PointerButton, Pos2, Rect, Response, Ui, pos2, vec2};
use nalgebra::Point3;
use plan::edit::Adding;
use plan::{Edit, Place, Turn};
use quantity::{Grain, Length, Quantity as _};

/// A piece under the pointer: click selects, drag moves all that is selected.
pub(super) fn piece(ui: &Ui, table: &mut Table, pane: &Pane, step: usize, response: &Response) {
    let Pane { view, rect, .. } = *pane;
    let with_others = ui.input(|i| i.modifiers.shift || i.modifiers.command);
    if response.clicked() {
        table.hand.select(step, with_others);
        response.request_focus();
    }
    if response.drag_started_by(PointerButton::Primary)
        && let Some(origin) = ui.input(|i| i.pointer.press_origin())
    {
        if !table.hand.selected.contains(&step) {
            table.hand.select(step, with_others);
        }
        response.request_focus();
        let from = to_plane(table, view, rect, origin);
        let layer = table.hand.layer(&table.shown.assessment.closed.pile.layer);
        table.hand.grab = Some(Grab { view, step, steps: table.hand.selected.clone(), from, layer });
    }
    let Some(grab) = table.hand.grab.clone().filter(|g| g.step == step && g.view == view) else { return };
    if let Some(pointer) = response.interact_pointer_pos() {
        drag(ui, table, &grab, to_plane(table, view, rect, pointer));
    }
    if response.drag_stopped() {
        table.hand.grab = None;
        finish(table);
    }
}

/// Makes the gesture's edit.
fn finish(table: &mut Table) {
    table.hand.guides.clear();
    if let Some(edit) = table.hand.gesture.take() {
        table.edits.push(edit);
    }
}

fn drag(ui: &Ui, table: &mut Table, grab: &Grab, now: [f64; 2]) {
    let moved = bed_shift(table, grab.view, [now[0] - grab.from[0], now[1] - grab.from[1]]);
    let Some(place) = table.plan.stack.get(grab.step) else { return };
    let at = place.at.map(quantity::Quantity::si);
    let wanted = [at[0] + moved[0], at[1] + moved[1]];
    let free = ui.input(|i| i.modifiers.alt);
    let moving = Moving { place, step: grab.step, steps: &grab.steps };
    let snapped = snapped(table, &moving, wanted, grab.view, free);
    let by = [snapped[0] - at[0], snapped[1] - at[1]].map(Length::m);
    table.hand.gesture = Some(Edit::Move { steps: grab.steps.clone(), by });
}

/// A shift in a view's plane as a shift along the bed's x and y, m.
fn bed_shift(table: &Table, view: View, [u, v]: [f64; 2]) -> [f64; 2] {
    let tilt = quantity::Quantity::si(table.plan.article.pitch + table.plan.bed.slope);
    match view {
        View::Side => [u / tilt.cos(), 0.0],
        View::Front => [0.0, -u],
        View::Above => [u / tilt.cos(), v],
    }
}

fn snapped(table: &mut Table, moving: &Moving, wanted: [f64; 2], view: View, free: bool) -> [f64; 2] {
    /// How near a line draws a piece, points.
    const REACH: f64 = 7.0;
    let moves = match view {
        View::Side => [true, false],
        View::Front => [false, true],
        View::Above => [true, true],
    };
    let scale = table.hand.camera.viewport(view, Rect::ZERO).scale;
    let rule = Rule { moves, reach_m: if free || !table.hand.snaps { 0.0 } else { REACH / scale } };
    // A piece that is placed now lies at the end of what is placed; one that is moved has others after it.
    let placed = if moving.steps.is_empty() { moving.step } else { table.hand.placed() };
    let around = Around::of(table.plan, &table.shown.assessment.closed.pile.underside_m, placed, moving);
    let piece = assess::body(table.plan.lot_of(moving.place), moving.place);
    let (at, guides) = snap::snap(&around, &piece, wanted, rule);
    table.hand.guides = guides;
    at
}

/// A lot from the tray over a view: its ghost falls where the pointer is, a click places it.
pub(super) fn placing(ui: &Ui, table: &mut Table, view: View, canvas: &Response) {
    let Some(placing) = table.hand.placing else { return };
    let pointer = ui.input(|i| i.pointer.hover_pos()).filter(|p| canvas.rect.contains(*p));
    let Some(pointer) = pointer else { return };
    ui.ctx().set_cursor_icon(egui::CursorIcon::Crosshair);
    let put = canvas.clicked() || table.hand.carry == Carry::Dropped;
    if waits(table, pointer) && !put {
        table.hand.gesture = None;
        table.hand.guides.clear();
        return;
    }
    let Some(place) = ghost(ui, table, placing, &Aim { view, rect: canvas.rect, pointer }) else {
        table.hand.placing = None;
        return;
    };
    let [along, lateral] = place.at.map(quantity::Quantity::si);
    let at_step = table.hand.next_step(table.plan.steps());
    table.hand.gesture = Some(Edit::Add { adding: Adding::Placing, at_step, places: vec![place] });
    if put {
        (table.hand.along_m, table.hand.lateral_m) = (along, lateral);
        finish(table);
        table.hand.go_to(at_step + 1);
        // Keys act on what was just placed, and the next ghost does not hide it yet.
        table.hand.select_all([at_step]);
        table.hand.placed_at = Some(pointer);
    }
}

/// Puts the next piece of a lot down where the pointer was, as it would lie of itself.
pub(super) fn place_at(ui: &Ui, table: &mut Table, (view, rect): (View, Rect), (lot, pointer): (usize, Pos2)) {
    let turn = table.plan.ballast.get(lot).map_or(Turn::Lengthwise, |lot| table.turn_of(&lot.name));
    let Some(place) = ghost(ui, table, Placing { lot, turn }, &Aim { view, rect, pointer }) else { return };
    table.hand.guides.clear();
    let at_step = table.hand.next_step(table.plan.steps());
    [table.hand.along_m, table.hand.lateral_m] = place.at.map(quantity::Quantity::si);
    table.edits.push(Edit::Add { adding: Adding::Placing, at_step, places: vec![place] });
    table.hand.go_to(at_step + 1);
    table.hand.select_all([at_step]);
}

/// Whether the pointer still rests where a piece was just placed.
fn waits(table: &mut Table, pointer: Pos2) -> bool {
    const AWAY: f32 = 8.0;
    let rests = table.hand.placed_at.is_some_and(|at| at.distance(pointer) < AWAY);
    if !rests {
        table.hand.placed_at = None;
    }
    rests
}

/// Where the pointer is.
struct Aim {
    view: View,
    rect: Rect,
    pointer: Pos2,
}

fn ghost(ui: &Ui, table: &mut Table, placing: Placing, aim: &Aim) -> Option<Place> {
    let Aim { view, rect, pointer } = *aim;
    let lot = table.plan.ballast.get(placing.lot)?.clone();
    let item = table.plan.next_item(&lot)?;
    let [u, v] = to_plane(table, view, rect, pointer);
    let bed_from_floor = table.plan.floor_from_bed().inverse();
    let wanted = match view {
        View::Side => [(bed_from_floor * Point3::new(u, 0.0, v)).x, table.hand.lateral_m],
        View::Front => [table.hand.along_m, (bed_from_floor * Point3::new(0.0, -u, v)).y],
        View::Above => {
            let height = table.shown.assessment.closed.last().map_or(0.0, |s| s.centroid.z);
            let p = bed_from_floor * Point3::new(u, v, height);
            [p.x, p.y]
        }
    };
    let place = Place { lot: lot.name, item, at: wanted.map(Length::m), turn: placing.turn, locked: false };
    let free = ui.input(|i| i.modifiers.alt);
    let moving = Moving { place: &place, step: table.hand.next_step(table.plan.steps()), steps: &[] };
    let at = snapped(table, &moving, wanted, view, free).map(Length::m);
    Some(Place { at, ..place })
}

/// Lines along which the piece in hand snapped.
pub(super) fn paint_guides(painter: &Painter, table: &Table, view: View, viewport: &Viewport) {
    let floor_from_bed = table.plan.floor_from_bed();
    let stroke = egui::Stroke::new(1.0, table.look.ink(Ink::Is));
    for guide in &table.hand.guides {
        let [x, y] = if guide.axis == 0 { [guide.at, 0.0] } else { [0.0, guide.at] };
        let [px, py] = viewport.to_device(view.project(floor_from_bed * Point3::new(x, y, 0.0)));
        #[expect(clippy::cast_possible_truncation, reason = "window coordinates")]
        let (px, py) = (px as f32, py as f32);
        let clip = painter.clip_rect();
        let ends = match (view, guide.axis) {
            (View::Side | View::Above, 0) | (View::Front, 1) => [pos2(px, clip.top()), pos2(px, clip.bottom())],
            (View::Above, _) => [pos2(clip.left(), py), pos2(clip.right(), py)],
            _ => continue,
        };
        // A face is drawn as the line that it is, what is only in line as a broken one.
        match guide.catch {
            Catch::Face(_) => drop(painter.line_segment(ends, stroke)),
            _ => painter.extend(egui::Shape::dashed_line(&ends, stroke, 3.0, 3.0)),
        }
    }
}

/// What hangs on the pointer, told from what lies by a broken outline.
pub(super) fn paint_ghosts(painter: &Painter, table: &Table, view: View, viewport: &Viewport) {
    let scene = scene(table);
    for step in table.hand.ghosts() {
        let Some(outline) = scene.outline(view, step) else { continue };
        #[expect(clippy::cast_possible_truncation, reason = "window coordinates")]
        let corner = |p: [f64; 2]| viewport.to_device(p).map(|c| c as f32).into();
        let mut ring: Vec<Pos2> = outline.into_iter().map(corner).collect();
        ring.extend(ring.first().copied());
        let under = egui::Stroke::new(4.0, table.look.ground());
        painter.add(egui::Shape::line(ring.clone(), under));
        let stroke = egui::Stroke::new(2.5, table.look.ink(Ink::Is));
        painter.extend(egui::Shape::dashed_line(&ring, stroke, 7.0, 4.0));
    }
}

/// At the pointer: what the gesture does to load and offset, or why it cannot be done.
pub(super) fn say_at_pointer(ui: &Ui, table: &Table, area: Rect) {
    if table.hand.gesture.is_none() {
        return;
    }
    let Some(pointer) = ui.input(|i| i.pointer.hover_pos()).filter(|p| area.contains(*p)) else { return };
    let mut lines = match &table.shown.refusal {
        Some(sentence) => vec![(sentence.clone(), Ink::Wanted)],
        None => said(table),
    };
    lines.push((held_by(table, ui.input(|i| i.modifiers.alt)), Ink::Quiet));
    let mut job = egui::text::LayoutJob { wrap: egui::text::TextWrapping::wrap_at_width(280.0), ..Default::default() };
    for (index, (line, ink)) in lines.iter().enumerate() {
        let format = egui::TextFormat::simple(egui::FontId::proportional(look::SMALL), table.look.ink(*ink));
        job.append(&format!("{}{line}", if index == 0 { "" } else { "\n" }), 0.0, format);
    }
    let galley = ui.painter().layout_job(job);
    let corner = (pointer + vec2(16.0, 18.0)).min(area.max - galley.size() - vec2(8.0, 8.0));
    let back = Rect::from_min_size(corner, galley.size()).expand2(vec2(6.0, 4.0));
    let stroke = egui::Stroke::new(1.0, table.look.rule());
    ui.painter().rect(back, 2.0, table.look.ground(), stroke, egui::StrokeKind::Outside);
    ui.painter().galley(corner, galley, table.look.ink(Ink::Line));
}

/// What the piece in hand holds at.
fn held_by(table: &Table, free: bool) -> String {
    if free {
        return "no snapping: Alt".to_owned();
    }
    if !table.hand.snaps {
        return format!("no snapping: {} switches it on", OnStack::Snap.row().keys.first());
    }
    match table.hand.guides.as_slice() {
        [] => format!("on the grid of {}", drawing::grid(table.plan.units).shown(table.plan.units, Grain::Fine)),
        guides => guides.iter().map(|guide| guide.catch.words(table.plan)).collect::<Vec<_>>().join(", "),
    }
}

/// The offset as it would be, then every check that the gesture makes fall short.
fn said(table: &Table) -> Vec<(String, Ink)> {
    const MOST: usize = 4;
    let shown = &table.shown;
    let offset = shown.assessment.closed.last().map(|s| crate::pages::head::offset_words(&shown.plan, s.offset_m));
    let ghosts = table.hand.ghosts();
    let in_hand = ghosts.map(|step| (format!("Active: {}", shown.plan.piece_name(step)), Ink::Line));
    let mut lines: Vec<_> = in_hand.chain(offset.map(|words| (words, Ink::Is))).collect();
    let (new, old) = shown.newly_failing();
    for check in new.iter().take(MOST) {
        lines.push((format!("{} {}", check.heading(), assess::State::Fails.word()), Ink::Wanted));
    }
    if new.len() > MOST {
        lines.push((format!("and {} more", new.len() - MOST), Ink::Wanted));
    }
    if old > 0 {
        let checks = if old == 1 { "check falls" } else { "checks fall" };
        lines.push((format!("{old} {checks} short as before"), Ink::Quiet));
    }
    lines
}
