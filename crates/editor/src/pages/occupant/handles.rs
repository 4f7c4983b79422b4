//! Joints to pull, by pointer and by keyboard. A pull is one step of undo: the posture in hand lives
//! beside the plan until it is let go.

use crate::look::Look;
use assess::{Handle, Seated};
use drafting::figure::Ink;
use drafting::lower::Viewport;
use drafting::views::View;
use eframe::egui::{
    self, CornerRadius, EventFilter, Id, Key, Pos2, Rect, Response, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2,
    vec2,
};
use nalgebra::Point3;
use plan::edit::Part;
use plan::{Edit, Plan, Posture, Target};

/// The joint in hand.
#[derive(Clone)]
pub(super) struct Held {
    handle: Handle,
    /// The posture as it is pulled.
    pub(super) posture: Posture,
    /// The drawing stays where it is meanwhile.
    pub(super) bounds: [[f64; 2]; 2],
    /// From the pointer to the joint, points.
    grip: egui::Vec2,
    /// The posture before, to know that nobody changed it meanwhile.
    before: Target,
}

/// What the handles lie over.
pub(super) struct Stage<'a> {
    pub(super) plan: &'a Plan,
    pub(super) seated: &'a Seated,
    pub(super) posture: &'a Posture,
    pub(super) viewport: &'a Viewport,
    pub(super) bounds: [[f64; 2]; 2],
}

/// Half the side of what the pointer hits, points.
const REACH: f32 = 11.0;
/// Half the side of what is drawn, points.
const DRAWN: f32 = 3.5;
/// One press of an arrow, deg; tenfold with Shift.
const NUDGE_DEG: f64 = 1.0;

/// Where the window keeps the joint in hand.
fn id() -> Id {
    Id::unique("selected occupant joint")
}

/// The joint in hand, unless the plan moved on without it.
pub(super) fn held(ui: &Ui, plan: &Plan) -> Option<Held> {
    let held: Option<Held> = ui.data(|data| data.get_temp(id()));
    held.filter(|held| held.before == plan.target)
}

/// Shows the handles; gives the edit when one is let go or turned.
pub(super) fn show(ui: &mut Ui, look: &Look, stage: &Stage, held: Option<Held>) -> Option<Edit> {
    let mut edit = None;
    let mut held = held;
    for handle in Handle::ALL {
        let at = stage.on_screen(stage.seated.in_article(handle.at(&stage.seated.build, &stage.seated.posture)));
        let target = Rect::from_center_size(at, vec2(2.0 * REACH, 2.0 * REACH));
        let response = ui.interact(target, Id::unique(("occupant handle", name(handle))), Sense::click_and_drag());
        let degrees = stage.seated.posture.angle_rad(&stage.seated.build, handle).to_degrees();
        describe(&response, handle, degrees);
        paint(ui, look, at, &response);
        pull(ui, stage, handle, &response, &mut held);
        edit = edit.or_else(|| let_go(&response, handle, &mut held)).or_else(|| turn(ui, stage, handle, &response));
    }
    ui.data_mut(|data| match held {
        Some(held) => {
            data.insert_temp(id(), held);
        }
        None => data.remove::<Held>(id()),
    });
    edit
}

fn name(handle: Handle) -> &'static str {
    match handle {
        Handle::Recline => "recline",
        Handle::Pan => "pan",
        Handle::Thigh => "thigh",
        Handle::Knee => "knee",
        Handle::Arm => "arm",
        Handle::Elbow => "elbow",
        Handle::Head => "head",
    }
}

fn describe(response: &Response, handle: Handle, degrees: f64) {
    response.widget_info(|| WidgetInfo::slider(true, degrees, format!("{} handle", name(handle))));
    response.clone().on_hover_text(format!("{} {degrees:.1} deg", name(handle)));
}

fn paint(ui: &Ui, look: &Look, at: Pos2, response: &Response) {
    let lively = response.hovered() || response.dragged() || response.has_focus();
    let half = if lively { DRAWN + 2.0 } else { DRAWN };
    let square = Rect::from_center_size(at, vec2(2.0 * half, 2.0 * half));
    let fill = if lively { look.in_hand() } else { look.field() };
    let stroke = Stroke::new(if response.has_focus() { 2.0 } else { 1.2 }, look.ink(Ink::Is));
    ui.painter().rect(square, CornerRadius::ZERO, fill, stroke, StrokeKind::Middle);
}

fn pull(ui: &Ui, stage: &Stage, handle: Handle, response: &Response, held: &mut Option<Held>) {
    let Some(pointer) = response.interact_pointer_pos() else { return };
    if response.drag_started() {
        *held = Some(Held {
            handle,
            posture: stage.posture.clone(),
            bounds: stage.bounds,
            grip: response.rect.center() - pointer,
            before: stage.plan.target.clone(),
        });
    }
    if held.as_ref().is_some_and(|held| held.handle == handle) && ui.input(|i| i.key_pressed(Key::Escape)) {
        *held = None;
    }
    let Some(held) = held.as_mut().filter(|held| held.handle == handle && response.dragged()) else { return };
    let to = stage.seated.in_seat(stage.in_article(pointer + held.grip));
    let build = &stage.seated.build;
    let pulled = stage.seated.posture.pulled(build, handle, to);
    let settled = pulled.with(build, handle, tenths(pulled.angle_rad(build, handle)));
    held.posture = assess::with_angles(stage.posture, &settled);
}

fn let_go(response: &Response, handle: Handle, held: &mut Option<Held>) -> Option<Edit> {
    if !response.drag_stopped() || held.as_ref().is_none_or(|held| held.handle != handle) {
        return None;
    }
    let Held { posture, .. } = held.take()?;
    Some(Edit::set(Part::Target(Target::Posture(posture)), format!("{} of the occupant", name(handle))))
}

/// By the arrow keys, while the handle has the focus.
fn turn(ui: &Ui, stage: &Stage, handle: Handle, response: &Response) -> Option<Edit> {
    if !response.has_focus() {
        return None;
    }
    let arrows = EventFilter { horizontal_arrows: true, vertical_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, arrows));
    let pressed = |key: Key| ui.input(|i| i.num_presses(key));
    let up = pressed(Key::ArrowUp) + pressed(Key::ArrowRight);
    let down = pressed(Key::ArrowDown) + pressed(Key::ArrowLeft);
    if up == down {
        return None;
    }
    let step = if ui.input(|i| i.modifiers.shift) { 10.0 * NUDGE_DEG } else { NUDGE_DEG };
    #[expect(clippy::cast_precision_loss, reason = "a few presses")]
    let by = step * (up as f64 - down as f64);
    let (build, angles) = (&stage.seated.build, &stage.seated.posture);
    let turned = angles.with(build, handle, tenths(angles.angle_rad(build, handle) + by.to_radians()));
    let posture = assess::with_angles(stage.posture, &turned);
    Some(Edit::set(Part::Target(Target::Posture(posture)), format!("{} of the occupant", name(handle))))
}

/// To a tenth of a degree: what is pulled is no measurement.
fn tenths(angle_rad: f64) -> f64 {
    ((angle_rad.to_degrees() * 10.0).round() / 10.0).to_radians()
}

impl Stage<'_> {
    #[expect(clippy::cast_possible_truncation, reason = "window coordinates")]
    fn on_screen(&self, in_article: Point3<f64>) -> Pos2 {
        let at = View::Side.project(self.plan.floor_from_article() * in_article);
        let [x, y] = self.viewport.to_device(at);
        pos2(x as f32, y as f32)
    }

    /// In the seat's mid-plane.
    fn in_article(&self, at: Pos2) -> Point3<f64> {
        let [u, v] = self.viewport.to_plane([f64::from(at.x), f64::from(at.y)]);
        let y = self.seated.seat_reference.y;
        self.plan.floor_from_article().inverse() * Point3::new(u, y, v)
    }
}
