//! What is pointed out over the solids: numbers, marks, the weakest layer, the line of action.

use super::{Look, Numbers, Spread, Turned};
use crate::figure::{Anchor, Figure, Ink, Label, Pen, Plate, Room, Sign, TextSize, Weight};
use crate::views::{self, Scene};
use nalgebra::{Point3, Vector3};
use quantity::{Quantity, frame};

/// How far the arrow reaches out of the weakest layer, m.
const ARROW_M: f64 = 0.16;
/// How far above the pile the line of action begins, m.
const ABOVE_M: f64 = 0.12;

pub(super) fn add(turned: &mut Turned, scene: &Scene, look: &Look) {
    let mut over = Figure::default();
    let top_m = if look.line_of_action { top_m(scene) } else { None };
    line_of_action(&mut over, scene, look, top_m);
    if look.spread == Spread::Together {
        weakest(&mut over, scene, look);
    }
    marks(&mut over, look);
    if look.words {
        words(&mut over, turned, (scene, top_m), look);
    }
    numbers(&mut over, turned, scene, look);
    turned.figure.over(over);
}

fn numbers(over: &mut Figure, turned: &Turned, scene: &Scene, look: &Look) {
    if look.numbers == Numbers::None {
        return;
    }
    let is_wanted = |step: &usize| match look.numbers {
        Numbers::None => false,
        Numbers::Seen => true,
        Numbers::OfLayer => scene.layer == Some(scene.layer_of(*step)),
    };
    for (step, at, room) in turned.tops().into_iter().filter(|(step, ..)| is_wanted(step)) {
        let is_next = look.next == Some(step);
        let ink = if is_next { Ink::Is } else { Ink::Line };
        let label = Label::new(at, scene.number(step).to_string()).bold().ink(ink).on(Plate::Halo);
        // The next one has its number however small its top is seen: it is what the picture is about.
        over.label(match is_next {
            true => label.size(TextSize::Large),
            false => label.size(TextSize::Body).room(Room::Within(room)),
        });
    }
}

/// The next piece and the supports by name, the line of action with its offset.
fn words(over: &mut Figure, turned: &Turned, (scene, top_m): (&Scene, Option<f64>), look: &Look) {
    let plan = scene.plan;
    if let Some((next, [_, high])) = look.next.and_then(|next| Some((next, turned.box_of(next)?))) {
        let text = format!("next: {}, {}", scene.number(next), plan.piece_name(next));
        over.label(Label::new(high, text).bold().ink(Ink::Is).anchored(Anchor::LEFT, [10.0, 14.0]).dodging());
    }
    if let Some((state, top)) = scene.state().zip(top_m) {
        let at = look.from.project(Point3::new(state.centroid.x, state.centroid.y, top + ABOVE_M));
        let shown = |axis: usize| views::offset_words(state.offset_m[axis], axis, plan.units);
        let label = Label::new(at, "line of action").bold().ink(Ink::Is);
        over.label(label.anchored(Anchor::RIGHT, [-12.0, 5.0]).dodging());
        let offset = if state.offset_m[0].abs() >= state.offset_m[1].abs() { shown(0) } else { shown(1) };
        over.label(Label::caption(at, offset).anchored(Anchor::RIGHT, [-12.0, -7.0]).dodging());
    }
    for support in &plan.fixture.supports {
        let at = look.from.project(Point3::new(support.at[0].si(), support.at[1].si(), scene.floor_m()));
        let label = Label::caption(at, support.name.as_str()).anchored(Anchor::BELOW, [0.0, -14.0]);
        over.label(label.ink(Ink::Structure).dodging());
    }
}

fn marks(over: &mut Figure, look: &Look) {
    for (name, at) in look.marks {
        let label = Label::new(look.from.project(*at), *name).bold().on(Plate::Framed);
        over.label(label);
    }
}

/// From above the pile down onto it: the centroid's sign, and the way of its weight.
fn line_of_action(over: &mut Figure, scene: &Scene, look: &Look, top_m: Option<f64>) {
    let Some((state, top)) = scene.state().zip(top_m) else { return };
    let at = |z: f64| look.from.project(Point3::new(state.centroid.x, state.centroid.y, z));
    over.line(vec![at(top + ABOVE_M), at(top)], Pen::chain(Ink::Is, Weight::Medium));
    over.sign(at(top + ABOVE_M), Sign::Centroid, Ink::Is);
}

/// How high the pile is, where the line of action begins.
fn top_m(scene: &Scene) -> Option<f64> {
    scene.pieces().filter_map(|step| scene.corners(step)).flatten().map(|corner| corner.z).reduce(f64::max)
}

/// A level arrow out of the underside of the weakest layer, the way it would go.
fn weakest(over: &mut Figure, scene: &Scene, look: &Look) {
    let Some(weakest) = look.weakest else { return };
    let of_layer = scene.pieces().filter(|step| scene.layer_of(*step) == weakest.layer);
    let underside = of_layer.filter_map(|step| scene.corners(step)).flat_map(|c| [c[0], c[1], c[4], c[5]]);
    let underside: Vec<Point3<f64>> = underside.collect();
    let [aft, right] = frame::plan_direction(weakest.reserve.direction_rad);
    let way = Vector3::new(aft, right, 0.0);
    let along = |p: &Point3<f64>| p.coords.dot(&way);
    let Some(end) = underside.iter().map(along).reduce(f64::max) else { return };
    let sum: Vector3<f64> = underside.iter().map(|p| p.coords).sum();
    #[expect(clippy::cast_precision_loss, reason = "some hundred corners")]
    let middle = Point3::from(sum / underside.len() as f64);
    let start = middle + way * (end - along(&middle));
    let pen = Pen::solid(Ink::Wanted, Weight::Thick);
    let [from, tip] = [start, start + way * ARROW_M].map(|p| look.from.project(p));
    over.line(vec![from, tip], pen);
    over.line(views::barbs(from, tip, 0.35 * ARROW_M), pen);
}
