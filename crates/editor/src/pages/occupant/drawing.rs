//! The seat from the side with the occupant in it: the same figure as on paper, and its joints as
//! handles over it.

use super::super::Bench;
use super::candidates::marks;
use super::handles::{self, Held};
use crate::look;
use crate::paint;
use assess::{Ask, Assessment, assess};
use drafting::figure::Ink;
use drafting::lower::{Viewport, lower};
use drafting::views::{self, Scene, View};
use eframe::egui::{FontId, Rect, Sense, Ui, WidgetInfo, accesskit::Role, vec2};
use plan::{Plan, Target};
use quantity::{Grain, Length, Quantity};

/// Least and greatest width and height, points.
const WIDTH: [f32; 2] = [380.0, 1500.0];
const HEIGHT: [f32; 2] = [470.0, 900.0];
/// What the window has above and below the drawing, points.
const AROUND: f32 = 430.0;
const MARGIN: f64 = 26.0;
/// Where the caption begins: beside the name of the upright ruler, points.
const CAPTION: f32 = 104.0;

pub(super) fn show(ui: &mut Ui, bench: &mut Bench) {
    let width = ui.available_width().clamp(WIDTH[0], WIDTH[1]);
    let height = (ui.ctx().content_rect().height() - AROUND).clamp(HEIGHT[0], HEIGHT[1]);
    let (rect, canvas) = ui.allocate_exact_size(vec2(width, height), Sense::hover());
    canvas.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, "Occupant from the side"));
    let held = handles::held(ui, bench.plan);
    let seat = Seat::of(bench.plan, held.as_ref());
    let Seat { plan, assessment } = &seat;
    let bounds = held.as_ref().map_or_else(|| views::seat_bounds(&seat.scene()), |held| held.bounds);
    let viewport = Viewport::fitting(bounds, area(rect), MARGIN, paint::UNIT_PER_PT);
    paint_seat(ui, bench, rect, &seat, &viewport);
    caption(ui, bench, rect);
    if let (Target::Posture(posture), Some(seated)) = (&plan.target, &assessment.closed.occupant.seated) {
        let stage = handles::Stage { plan, seated, posture, viewport: &viewport, bounds };
        if let Some(edit) = handles::show(ui, bench.look, &stage, held)
            && bench.edits.is_empty()
        {
            bench.edits.push(edit);
        }
        under(ui, bench, plan, assessment);
    }
}

/// The plan without its stack and with the posture in hand: cheap enough for every frame.
struct Seat {
    plan: Plan,
    assessment: Assessment,
}

impl Seat {
    fn of(plan: &Plan, held: Option<&Held>) -> Self {
        let mut plan = Plan { stack: Vec::new(), ..plan.clone() };
        if let Some(held) = held {
            plan.target = Target::Posture(held.posture.clone());
        }
        let assessment = assess(&plan, Ask::closed());
        Self { plan, assessment }
    }

    fn scene(&self) -> Scene<'_> {
        Scene::whole(&self.plan, &self.assessment.closed)
    }
}

fn paint_seat(ui: &Ui, bench: &Bench, rect: Rect, seat: &Seat, viewport: &Viewport) {
    let painter = ui.painter_at(rect);
    let palette = &bench.look.palette;
    let figure = views::seat(&seat.scene(), &marks(&seat.plan));
    paint::primitives(&painter, lower(&figure, viewport, palette));
    paint::primitives(&painter, lower(&views::rulers(viewport, View::Side, seat.plan.units), viewport, palette));
}

fn caption(ui: &Ui, bench: &Bench, rect: Rect) {
    let unit = bench.plan.units.unit(quantity::Kind::Length, Grain::Coarse).symbol;
    let (font, colour) = (FontId::proportional(look::SMALL), bench.look.ink(Ink::Quiet));
    let stands = "from the side, as it stands on the floor";
    let layout = |text: String| ui.painter().layout_no_wrap(text, font.clone(), colour);
    let full = layout(format!("{stands} · station aft, waterline up, {unit}"));
    // Where the drawing is narrow its rulers say the rest.
    let fits = CAPTION + full.size().x <= rect.width();
    let galley = if fits { full } else { layout(stands.to_owned()) };
    ui.painter_at(rect).galley(rect.left_top() + vec2(CAPTION, 2.0), galley, colour);
}

/// The numbers as they are while a joint is pulled.
fn under(ui: &mut Ui, bench: &Bench, plan: &Plan, assessment: &Assessment) {
    let at = assessment.closed.occupant.in_article;
    let [x, z] = [at.x, at.z].map(|m| Length::m(m).shown(plan.units, Grain::Coarse));
    let words = format!("Drag a joint, or turn it with the arrow keys. Occupant point: station {x}, waterline {z}.");
    ui.label(look::caption(bench.look, words));
}

fn area(rect: Rect) -> [f64; 4] {
    [rect.left(), rect.top(), rect.right(), rect.bottom()].map(f64::from)
}
