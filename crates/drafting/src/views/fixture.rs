//! The floor, the supports with their footprint, the straps.

use super::members::FACING;
use super::projection::View;
use super::scene::Scene;
use crate::figure::{Anchor, Figure, Fill, Ink, Label, Pen, Sign, Surface, Weight};
use nalgebra::Point3;
use plan::{Anchors, Binding, Support};
use quantity::Quantity;

/// How wide a scale's platform and a block are drawn, m.
const PLATFORM_M: f64 = 0.16;
const BLOCK_M: f64 = 0.12;
/// How far a strap that misses the stack is drawn to each side, m.
const MISSES_M: f64 = 0.2;

/// The floor from one end to the other, and how far the footprint reaches on it.
pub(super) fn floor(figure: &mut Figure, scene: &Scene, view: View) {
    let z = scene.floor_m();
    let Some([low, high]) = figure.bounds() else { return };
    let overhang = 0.1 * (high[0] - low[0]).max(0.5);
    figure.line(vec![[low[0] - overhang, z], [high[0] + overhang, z]], Pen::solid(Ink::Structure, Weight::Thick));
    if let Some([from, to]) = footprint(scene, view) {
        figure.line(vec![[from, z], [to, z]], Pen::solid(Ink::Line, Weight::Thick));
    }
}

/// From the first support to the last one in a view.
fn footprint(scene: &Scene, view: View) -> Option<[f64; 2]> {
    let feet = scene.plan.fixture.supports.iter().map(|s| view.project(plan::point(s.at))[0]);
    let [from, to] = feet.fold([f64::INFINITY, f64::NEG_INFINITY], |[a, b], u| [a.min(u), b.max(u)]);
    (from < to).then_some([from, to])
}

/// The name of the footprint under the floor; after the names that cannot do without their places.
pub(super) fn footprint_name(figure: &mut Figure, scene: &Scene, view: View) {
    let Some([from, to]) = footprint(scene, view) else { return };
    let at = [f64::midpoint(from, to), scene.floor_m()];
    let label = Label::caption(at, "footprint").anchored(Anchor::BELOW, [0.0, -12.0]);
    figure.label(label.ink(Ink::Structure).dodging());
}

/// Platforms and blocks from the floor up to where they push.
pub(super) fn supports(figure: &mut Figure, scene: &Scene, view: View) {
    for support in &scene.plan.fixture.supports {
        block(figure, scene, view, support);
        figure.sign(view.project(plan::point(support.at)), Sign::SupportUp, Ink::Structure);
    }
}

fn block(figure: &mut Figure, scene: &Scene, view: View, support: &Support) {
    let [u, v] = view.project(plan::point(support.at));
    let half = 0.5 * if support.scale { PLATFORM_M } else { BLOCK_M };
    let pen = Some(Pen::solid(Ink::Structure, Weight::Thin));
    let floor = scene.floor_m();
    if v > floor + 1e-6 {
        figure.rectangle([u - half, floor], [u + half, v], Fill::Shaded(Surface::Metal, FACING), pen);
    }
}

/// The binding straps that are on by now, with their names: over the pieces, as they lie.
pub(super) fn bindings_on(figure: &mut Figure, scene: &Scene, view: View) {
    let on = scene.plan.fixture.bindings.iter().filter(|b| scene.step >= b.after as usize && scene.step > 0);
    for strap in on {
        let line = binding(scene, view, strap);
        // Where the strap comes over the stack's edge.
        let label = Label::caption(line[1], strap.name.as_str()).ink(Ink::Structure);
        figure.line(line, STRAP);
        figure.label(label.anchored(Anchor::LEFT, [6.0, 8.0]).dodging());
    }
}

const STRAP: Pen = Pen::dashed(Ink::Structure, Weight::Medium);

pub(super) fn hold_downs(figure: &mut Figure, scene: &Scene, view: View) {
    for strap in &scene.plan.fixture.hold_downs {
        let upper = view.project(scene.plan.floor_from_article() * plan::point(strap.on_article));
        let lower = view.project(plan::point(strap.on_floor));
        figure.line(vec![upper, lower], STRAP);
    }
}

/// All binding straps, whenever they are put on.
pub(super) fn bindings(figure: &mut Figure, scene: &Scene, view: View) {
    for strap in &scene.plan.fixture.bindings {
        figure.line(binding(scene, view, strap), STRAP);
    }
}

/// Over the top of the stack, a leg down on each side of it.
fn binding(scene: &Scene, view: View, strap: &Binding) -> Vec<[f64; 2]> {
    let line = binding_in_floor(scene, strap, 0.0).map(|p| view.project(p));
    // From the side one leg hides the other: drawn twice, their dashes would run into a solid line.
    if view == View::Side { line[..2].to_vec() } else { line.to_vec() }
}

/// The binding straps that are on by now, each from foot to foot, so far off the stack; floor frame, m.
pub(crate) fn bindings_in_floor(scene: &Scene, off_m: f64) -> Vec<[Point3<f64>; 4]> {
    let on = scene.plan.fixture.bindings.iter().filter(|b| scene.step >= b.after as usize && scene.step > 0);
    on.map(|strap| binding_in_floor(scene, strap, off_m)).collect()
}

fn binding_in_floor(scene: &Scene, strap: &Binding, off_m: f64) -> [Point3<f64>; 4] {
    let [x, y] = strap.at.map(Quantity::si);
    let (top, [left, right]) = over_stack(scene, x).unwrap_or((0.0, [y - MISSES_M, y + MISSES_M]));
    let foot = match strap.anchors {
        Anchors::Article => 0.0,
        Anchors::Floor => {
            let bed_in_floor = scene.plan.floor_from_bed() * Point3::new(x, y, 0.0);
            scene.floor_m() - bed_in_floor.z
        }
    };
    let at = |y: f64, z: f64| scene.plan.floor_from_bed() * Point3::new(x, y, z);
    let (left, right, top) = (left - off_m, right + off_m, top + off_m);
    [at(left, foot), at(left, top), at(right, top), at(right, foot)]
}

/// Height of the stack at a station of the bed, and how far it reaches across there, m. None where no
/// piece lies.
fn over_stack(scene: &Scene, x: f64) -> Option<(f64, [f64; 2])> {
    let mut top = 0.0_f64;
    let mut across = [f64::INFINITY, f64::NEG_INFINITY];
    for step in scene.pieces() {
        let place = &scene.plan.stack[step];
        let [length, width, thickness] = scene.plan.extent_of(place).map(Quantity::si);
        let [at_x, at_y] = place.at.map(Quantity::si);
        if (at_x - x).abs() <= length / 2.0 {
            top = top.max(scene.layout.pile.underside_m[step] + thickness);
            across = [across[0].min(at_y - width / 2.0), across[1].max(at_y + width / 2.0)];
        }
    }
    (across[0] < across[1]).then_some((top, across))
}

/// Where supports stand in a view, and their names; those behind each other share a place.
fn support_names(scene: &Scene, view: View) -> Vec<(f64, String)> {
    let mut places: Vec<(f64, String)> = Vec::new();
    for support in &scene.plan.fixture.supports {
        let [u, _] = view.project(plan::point(support.at));
        match places.iter_mut().find(|(at, _)| (*at - u).abs() < 0.02) {
            Some((_, names)) => {
                names.push_str(" · ");
                names.push_str(&support.name);
            }
            None => places.push((u, support.name.clone())),
        }
    }
    places
}

/// Names of supports and straps.
pub(super) fn names(figure: &mut Figure, scene: &Scene, view: View) {
    for (u, name) in support_names(scene, view) {
        let label = Label::caption([u, scene.floor_m()], name).anchored(Anchor::BELOW, [0.0, -12.0]);
        figure.label(label.dodging());
    }
    for strap in &scene.plan.fixture.hold_downs {
        let upper = scene.plan.floor_from_article() * plan::point(strap.on_article);
        let middle = Point3::from((upper.coords + plan::point(strap.on_floor).coords) / 2.0);
        let label = Label::caption(view.project(middle), strap.name.as_str()).anchored(Anchor::LEFT, [5.0, 0.0]);
        figure.label(label.in_margin());
    }
}
