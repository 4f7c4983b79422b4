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
    binding_lines_on(figure, scene, view);
    binding_names_on(figure, scene, view);
}

/// The same without their names: under numbers that the straps would strike through.
pub(super) fn binding_lines_on(figure: &mut Figure, scene: &Scene, view: View) {
    on(scene).for_each(|strap| figure.line(binding(scene, view, strap), STRAP));
}

/// Their names, where each comes over the stack's edge.
pub(super) fn binding_names_on(figure: &mut Figure, scene: &Scene, view: View) {
    for strap in on(scene) {
        let label = Label::caption(binding(scene, view, strap)[1], strap.name.as_str()).ink(Ink::Structure);
        figure.label(label.anchored(Anchor::LEFT, [6.0, 8.0]).dodging());
    }
}

fn on<'a>(scene: &Scene<'a>) -> impl Iterator<Item = &'a Binding> {
    let step = scene.step;
    scene.plan.fixture.bindings.iter().filter(move |strap| step >= strap.after as usize && step > 0)
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

/// Over what it binds, a leg down on each side of it.
fn binding(scene: &Scene, view: View, strap: &Binding) -> Vec<[f64; 2]> {
    let line = binding_in_floor(scene, strap, 0.0, |_| 0.0);
    let seen = line.iter().map(|p| view.project(*p));
    // From the side one leg hides the other: drawn twice, their dashes would run into a solid line.
    let highest = line.iter().max_by(|a, b| a.z.total_cmp(&b.z)).map(|p| view.project(*p));
    if view == View::Side { seen.take(1).chain(highest).collect() } else { seen.collect() }
}

/// The binding straps that are on by now, each from foot to foot, so far off the stack, where pieces are lifted by so
/// much (by their steps from 0, m); floor frame, m.
pub(crate) fn bindings_in_floor(scene: &Scene, off_m: f64, lift_m: impl Fn(usize) -> f64) -> Vec<Vec<Point3<f64>>> {
    let on = scene.plan.fixture.bindings.iter().filter(|b| scene.step >= b.after as usize && scene.step > 0);
    on.map(|strap| binding_in_floor(scene, strap, off_m, &lift_m)).collect()
}

fn binding_in_floor(scene: &Scene, strap: &Binding, off_m: f64, lift_m: impl Fn(usize) -> f64) -> Vec<Point3<f64>> {
    let [x, y] = strap.at.map(Quantity::si);
    let mut over = over_stack(scene, strap, lift_m);
    if over.is_empty() {
        over = vec![[y - MISSES_M, 0.0], [y + MISSES_M, 0.0]];
    }
    let foot = match strap.anchors {
        Anchors::Article => 0.0,
        Anchors::Floor => {
            let bed_in_floor = scene.plan.floor_from_bed() * Point3::new(x, y, 0.0);
            scene.floor_m() - bed_in_floor.z
        }
    };
    let last = over.len() - 1;
    over[0][0] -= off_m;
    over[last][0] += off_m;
    let (left, right) = (over[0][0], over[last][0]);
    let over = over.into_iter().map(|[y, z]| [y, z + off_m]);
    let line = std::iter::once([left, foot]).chain(over).chain([[right, foot]]);
    line.map(|[y, z]| scene.plan.floor_from_bed() * Point3::new(x, y, z)).collect()
}

/// Where a taut strap lies on what it was put on to bind, left to right: across and up in the bed frame, m. What was
/// put down after it lies over it. Empty where it crosses no piece.
fn over_stack(scene: &Scene, strap: &Binding, lift_m: impl Fn(usize) -> f64) -> Vec<[f64; 2]> {
    // A strap that goes on before the first piece lies on that one.
    let bound = (strap.after as usize).max(1);
    let mut edges = Vec::new();
    for step in scene.pieces().filter(|step| *step < bound) {
        let place = &scene.plan.stack[step];
        let [length, width, thickness] = scene.plan.extent_of(place).map(Quantity::si);
        let [x, y] = place.at.map(Quantity::si);
        if (x - strap.at[0].si()).abs() <= length / 2.0 {
            let top = scene.layout.pile.underside_m[step] + thickness + lift_m(step);
            edges.extend([[y - width / 2.0, top], [y + width / 2.0, top]]);
        }
    }
    upper_hull(edges)
}

/// The upper side of the convex hull of points, left to right.
fn upper_hull(mut points: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    points.sort_by(|a, b| a[0].total_cmp(&b[0]).then(b[1].total_cmp(&a[1])));
    // Of two above each other the higher one counts.
    points.dedup_by(|next, kept| (next[0] - kept[0]).abs() < 1e-9);
    let mut hull: Vec<[f64; 2]> = Vec::with_capacity(points.len());
    for point in points {
        while let [.., a, b] = hull.as_slice()
            && (b[0] - a[0]) * (point[1] - a[1]) >= (b[1] - a[1]) * (point[0] - a[0])
        {
            hull.pop();
        }
        hull.push(point);
    }
    hull
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

#[cfg(test)]
mod tests {
    use super::upper_hull;

    /// By hand: two bags side by side, one of them under a third in the middle of the pile.
    #[test]
    fn a_taut_strap_touches_the_edges_that_stand_out_and_no_others() {
        let low = [[-0.3, 0.1], [0.0, 0.1], [0.0, 0.1], [0.3, 0.1]];
        let high = [[-0.1, 0.2], [0.1, 0.2]];
        let over = upper_hull(low.into_iter().chain(high).collect());
        assert_eq!(over, [[-0.3, 0.1], [-0.1, 0.2], [0.1, 0.2], [0.3, 0.1]]);
        assert_eq!(upper_hull(low.to_vec()), [[-0.3, 0.1], [0.3, 0.1]], "level, it spans from edge to edge");
        assert_eq!(upper_hull(vec![[0.0, 0.1], [0.0, 0.3], [0.2, 0.3]]), [[0.0, 0.3], [0.2, 0.3]], "the higher edge");
        assert!(upper_hull(Vec::new()).is_empty());
    }
}
