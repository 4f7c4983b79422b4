//! The fixture by itself: what is tested, what holds it, where the stack will start. No piece is
//! drawn, so that everything that will be set up can be seen and taken hold of.

use super::projection::View;
use super::scene::Scene;
use super::{
    catch, fixture,
    members::{FACING, members},
    plumb, regions,
};
use crate::figure::{Anchor, Figure, Fill, Ink, Label, Pen, Sign, Surface, Weight};
use nalgebra::Point3;
use plan::point;
use quantity::Quantity;

/// How long the arms of the bed's axes are drawn, m.
const AXIS_M: f64 = 0.12;
/// How wide a scale's platform and a block are drawn from above, m.
const PLATFORM_M: f64 = 0.16;
const BLOCK_M: f64 = 0.12;

/// The fixture of a plan in a view. Bindings are drawn over the stack that the scene has.
pub fn rig(scene: &Scene, view: View) -> Figure {
    let mut figure = Figure::default();
    fixture::hold_downs(&mut figure, scene, view);
    if view == View::Above {
        platforms(&mut figure, scene);
    }
    catch::blocks(&mut figure, scene, view);
    figure.over(members(scene.plan, view));
    regions::keep_clear(&mut figure, scene, view);
    if view == View::Above {
        footprint(&mut figure, scene);
    } else {
        fixture::supports(&mut figure, scene, view);
    }
    regions::bearings(&mut figure, scene, view);
    fixture::bindings(&mut figure, scene, view);
    if view != View::Above {
        fixture::floor(&mut figure, scene, view);
    }
    bed_axes(&mut figure, scene, view);
    plumb::tolerance(&mut figure, scene, view, Ink::Wanted);
    plumb::occupant_point(&mut figure, scene, view);
    points(&mut figure, scene, view);
    names(&mut figure, scene, view);
    figure
}

/// The hull of the supports: the article goes over where its plumb line leaves it.
fn footprint(figure: &mut Figure, scene: &Scene) {
    let corners = assess::footprint_m(scene.plan);
    if corners.len() > 2 {
        let pen = Pen::dashed(Ink::Structure, Weight::Medium);
        figure.polygon(corners, Fill::None, Some(pen));
    }
}

fn platforms(figure: &mut Figure, scene: &Scene) {
    for support in &scene.plan.fixture.supports {
        let [u, v] = View::Above.project(point(support.at));
        let half = 0.5 * if support.scale { PLATFORM_M } else { BLOCK_M };
        let pen = Some(Pen::solid(Ink::Structure, Weight::Thin));
        figure.rectangle([u - half, v - half], [u + half, v + half], Fill::Shaded(Surface::Metal, FACING), pen);
    }
}

/// The bed's origin with the directions of its axes.
fn bed_axes(figure: &mut Figure, scene: &Scene, view: View) {
    let floor_from_bed = scene.plan.floor_from_bed();
    let at = |x: f64, y: f64, z: f64| view.project(floor_from_bed * Point3::new(x, y, z));
    let arms = match view {
        View::Side => [at(AXIS_M, 0.0, 0.0), at(0.0, 0.0, AXIS_M)],
        View::Front => [at(0.0, AXIS_M, 0.0), at(0.0, 0.0, AXIS_M)],
        View::Above => [at(AXIS_M, 0.0, 0.0), at(0.0, AXIS_M, 0.0)],
    };
    let origin = at(0.0, 0.0, 0.0);
    for arm in arms {
        figure.line(vec![origin, arm], Pen::solid(Ink::Is, Weight::Medium));
        figure.line(super::arrow::barbs(origin, arm, 0.25 * AXIS_M), Pen::solid(Ink::Is, Weight::Medium));
    }
}

/// Centroid and pivot of the article, gauges.
fn points(figure: &mut Figure, scene: &Scene, view: View) {
    let article = &scene.plan.article;
    let floor_from_article = scene.plan.floor_from_article();
    let at = |p: [quantity::Length; 3]| view.project(floor_from_article * point(p));
    figure.sign(at(article.centroid), Sign::Centroid, Ink::Structure);
    figure.sign(at(article.pivot), Sign::Dot, Ink::Line);
    for gauge in &scene.plan.gauges {
        figure.sign(at(gauge.at), Sign::ArrowDown, Ink::Is);
    }
}

/// Names beside their points, with the article's own first: they are looked for first.
fn names(figure: &mut Figure, scene: &Scene, view: View) {
    let plan = scene.plan;
    let floor_from_article = plan.floor_from_article();
    let mut named = vec![
        (floor_from_article * point(plan.article.centroid), "article's centroid".to_owned(), Ink::Structure),
        (floor_from_article * point(plan.article.pivot), "pivot".to_owned(), Ink::Line),
        (scene.layout.target_in_floor, "occupant point".to_owned(), Ink::Wanted),
        (plan.floor_from_bed() * Point3::origin(), "bed".to_owned(), Ink::Is),
    ];
    named.extend(plan.gauges.iter().map(|g| (floor_from_article * point(g.at), g.name.clone(), Ink::Is)));
    if view != View::Side {
        named.extend(plan.fixture.supports.iter().map(|s| (point(s.at), s.name.clone(), Ink::Quiet)));
    }
    for (at, name, ink) in named {
        let label = Label::caption(view.project(at), name).ink(ink).anchored(Anchor::LEFT, [8.0, 6.0]);
        figure.label(label.in_margin());
    }
    match view {
        View::Side => fixture::names(figure, scene, view),
        View::Above => regions::bearing_names(figure, scene),
        View::Front => {}
    }
    if view != View::Above {
        fixture::footprint_name(figure, scene, view);
    }
    regions::keep_clear_names(figure, scene, view);
    binding_names(figure, scene, view);
    catch::names(figure, scene, view);
}

fn binding_names(figure: &mut Figure, scene: &Scene, view: View) {
    for strap in &scene.plan.fixture.bindings {
        let [x, y] = strap.at.map(Quantity::si);
        let at = view.project(scene.plan.floor_from_bed() * Point3::new(x, y, 0.0));
        let label = Label::caption(at, strap.name.as_str()).anchored(Anchor::LEFT, [8.0, -8.0]);
        figure.label(label.in_margin());
    }
}
