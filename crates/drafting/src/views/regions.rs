//! The article: its outline, its keep-clear regions, its bearings.

use super::projection::View;
use super::scene::Scene;
use crate::figure::{Align, Anchor, Figure, Fill, Ink, Label, Level, Pen, Weight};
use nalgebra::Point3;
use plan::KeepClear;
use quantity::{Length, Quantity};

/// How thick a bearing is drawn, m.
const BEARING_M: f64 = 0.02;

/// The article's lines; only the side view knows them.
pub(super) fn outline(figure: &mut Figure, scene: &Scene) {
    for line in &scene.plan.article.outline {
        let points = line.points.iter().map(|p| side_point(scene, *p)).collect();
        figure.line(points, Pen::solid(Ink::Structure, Weight::Thick));
    }
}

fn in_floor(scene: &Scene, [x, z]: [Length; 2], y: Length) -> Point3<f64> {
    scene.plan.floor_from_article() * plan::point([x, y, z])
}

fn side_point(scene: &Scene, p: [Length; 2]) -> [f64; 2] {
    View::Side.project(in_floor(scene, p, Length::m(0.0)))
}

/// Hatched regions with their names.
pub(super) fn keep_clear(figure: &mut Figure, scene: &Scene, view: View) {
    for region in &scene.plan.article.keep_clear {
        let points = region_outline(scene, view, region);
        if points.len() < 3 {
            continue;
        }
        figure.polygon(points.clone(), Fill::Hatch(Ink::Clear), Some(Pen::solid(Ink::Clear, Weight::Thin)));
    }
}

/// Names of the regions at their upper corner away from the stack, leading away from it, so that
/// they do not crowd the pieces.
pub(super) fn keep_clear_names(figure: &mut Figure, scene: &Scene, view: View) {
    let stack = view.project(scene.layout.target_in_floor)[0];
    for region in &scene.plan.article.keep_clear {
        let points = region_outline(scene, view, region);
        let Some(first) = points.first() else { continue };
        let [low, high] = points.iter().fold([*first, *first], |b, p| crate::figure::grown(b, *p));
        // The end that lies farther from the stack.
        let forward = stack - low[0] > high[0] - stack;
        let (end, align, shift) = if forward { (low[0], Align::Right, -3.0) } else { (high[0], Align::Left, 3.0) };
        let text = format!("{}, keep clear", region.name);
        let anchor = Anchor { align, level: Level::Top };
        let label = Label::caption([end, high[1]], text).ink(Ink::Clear).anchored(anchor, [shift, 0.0]);
        figure.label(label.in_margin());
    }
}

fn region_outline(scene: &Scene, view: View, region: &KeepClear) -> Vec<[f64; 2]> {
    let corners = region.y.iter().flat_map(|y| region.side.iter().map(|p| in_floor(scene, *p, *y)));
    if view == View::Side {
        return corners.take(region.side.len()).map(|p| view.project(p)).collect();
    }
    let mut points = corners.map(|p| view.project(p));
    let Some(first) = points.next() else { return Vec::new() };
    let [low, high] = points.fold([first, first], crate::figure::grown);
    vec![low, [high[0], low[1]], high, [low[0], high[1]]]
}

/// Where the seat carries load.
pub(super) fn bearings(figure: &mut Figure, scene: &Scene, view: View) {
    for bearing in &scene.plan.bed.bearings {
        let top = bearing.top.si();
        let corners =
            scene.box_in_floor((bearing.x.map(Quantity::si), bearing.y.map(Quantity::si), [top - BEARING_M, top]));
        let pen = Pen::solid(Ink::Structure, Weight::Medium);
        figure.polygon(view.outline(&corners).to_vec(), Fill::Tint(Ink::Structure), Some(pen));
    }
}

/// Names of the bearings at the ends of their longer sides; for the view from above.
pub(super) fn bearing_names(figure: &mut Figure, scene: &Scene) {
    for bearing in &scene.plan.bed.bearings {
        let [x, y] = [bearing.x, bearing.y].map(|r| (r[1].si() - r[0].si(), f64::midpoint(r[0].si(), r[1].si())));
        let (end, anchor, shift) = if y.0 >= x.0 {
            ([Length::m(x.1), bearing.y[1], bearing.top], Anchor::ABOVE, [0.0, 2.5])
        } else {
            (
                [bearing.x[1], Length::m(y.1), bearing.top],
                Anchor { align: Align::Right, level: Level::Top },
                [-4.0, -4.0],
            )
        };
        let end = View::Above.project(scene.plan.floor_from_bed() * plan::point(end));
        let label = Label::caption(end, bearing.name.as_str()).anchored(anchor, shift);
        figure.label(label.ink(Ink::Structure).in_margin());
    }
}
