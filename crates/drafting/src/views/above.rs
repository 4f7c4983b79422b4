//! The view from above: station across, aft to the right, the aircraft's right side up.

use super::{View, fixture, piece, plumb, projection, regions, scene::Scene};
use crate::figure::{Anchor, Figure, Fill, Ink, Label, Pen, Sign, Weight};
use quantity::Quantity;

/// The layer in hand from above, with the bearings and what lies below it faint. With no layer
/// in hand, that of the last piece is.
pub fn above(scene: &Scene) -> Figure {
    let last = scene.step.checked_sub(1).map(|step| scene.layer_of(step));
    let asked = scene.layer.is_some();
    let scene = &Scene { layer: scene.layer.or(last), hide_above: true, ..*scene };
    let (mut figure, view) = (Figure::default(), View::Above);
    regions::bearings(&mut figure, scene, view);
    piece::Pieces::of(scene, view).draw(&mut figure, scene);
    bearing_edges(&mut figure, scene);
    partial_contacts(&mut figure, scene);
    centreline(&mut figure, scene);
    // The numbers come first: names of bearings give way to them, never the other way round.
    fixture::binding_lines_on(&mut figure, scene, view);
    piece::tags(&mut figure, scene);
    fixture::binding_names_on(&mut figure, scene, view);
    regions::bearing_names(&mut figure, scene);
    plumb::tolerance(&mut figure, scene, view, Ink::Wanted);
    plumb::occupant_point(&mut figure, scene, view);
    plumb::track(&mut figure, scene, view);
    plumb::centroid(&mut figure, scene, view);
    if asked {
        centroid_of_all_above(&mut figure, scene);
    }
    figure
}

/// The layer in hand for those who lay it: the pieces with their numbers, what lies below faint, the occupant point.
pub(super) fn in_hand(scene: &Scene) -> Figure {
    let scene = &Scene { hide_above: true, ..*scene };
    let (mut figure, view) = (Figure::default(), View::Above);
    regions::bearings(&mut figure, scene, view);
    piece::Pieces::of(scene, view).draw(&mut figure, scene);
    bearing_edges(&mut figure, scene);
    fixture::binding_lines_on(&mut figure, scene, view);
    piece::tags(&mut figure, scene);
    fixture::binding_names_on(&mut figure, scene, view);
    plumb::occupant_point(&mut figure, scene, view);
    figure
}

/// The bearings show through what lies on them, dashed: they are the datums of the sheet.
fn bearing_edges(figure: &mut Figure, scene: &Scene) {
    for bearing in &scene.plan.bed.bearings {
        let top = bearing.top.si();
        let corners = scene.box_in_floor((bearing.x.map(Quantity::si), bearing.y.map(Quantity::si), [top, top]));
        let pen = Pen::dashed(Ink::Structure, Weight::Thin);
        figure.polygon(View::Above.outline(&corners).to_vec(), Fill::None, Some(pen));
    }
}

/// Where the pieces of the layer rest, for those that rest with less than two thirds of their
/// underside: the others would only double their own outline.
fn partial_contacts(figure: &mut Figure, scene: &Scene) {
    for step in scene.pieces().filter(|step| scene.layer == Some(scene.layer_of(*step))) {
        let [length, width, _] = scene.plan.extent_of(&scene.plan.stack[step]).map(Quantity::si);
        let contacts = || scene.layout.pile.contacts.iter().filter(|c| c.upper == step);
        let carried: f64 = contacts().map(|c| c.patch.area()).sum();
        if carried >= length * width * 2.0 / 3.0 {
            continue;
        }
        for contact in contacts() {
            let plane = [contact.plane_m, contact.plane_m];
            let corners = scene.box_in_floor((contact.patch.x_m, contact.patch.y_m, plane));
            figure.polygon(View::Above.outline(&corners).to_vec(), Fill::None, Some(Pen::solid(Ink::Is, Weight::Thin)));
        }
    }
}

/// The bed's centreline: the datum across.
fn centreline(figure: &mut Figure, scene: &Scene) {
    let Some([low, high]) = figure.bounds() else { return };
    let y = scene.plan.floor_from_bed() * nalgebra::Point3::origin();
    let reach = 0.06 * (high[0] - low[0]).max(0.3);
    let ends = vec![[low[0] - reach, y.y], [high[0] + reach, y.y]];
    figure.line(ends, Pen::chain(Ink::Quiet, Weight::Thin));
}

/// With every piece placed: the centroid of the layer in hand and all above it, a small teal dot
/// beside the stack's own.
fn centroid_of_all_above(figure: &mut Figure, scene: &Scene) {
    if scene.step < scene.plan.steps() {
        return;
    }
    let Some(cut) = scene.layout.layers.iter().find(|c| Some(c.layer) == scene.layer && c.layer > 1) else { return };
    let at = projection::View::Above.project(cut.centroid_in_floor);
    figure.sign(at, Sign::Dot, Ink::Is);
    let text = format!("centroid of layer {} up", cut.layer);
    let label = Label::caption(at, text).ink(Ink::Is).anchored(Anchor::LEFT, [12.0, 11.0]);
    figure.label(label.in_margin());
}
