//! The view from the side: station across, aft to the right, waterline up.

use super::{View, catch, fixture, occupant, piece, plumb, regions, scene::Scene};
use crate::figure::{Figure, Ink, Pen, Weight, grown};

/// The plan's state from its left side.
pub fn side(scene: &Scene) -> Figure {
    let (mut figure, view) = (Figure::default(), View::Side);
    fixture::hold_downs(&mut figure, scene, view);
    catch::blocks(&mut figure, scene, view);
    regions::keep_clear(&mut figure, scene, view);
    regions::outline(&mut figure, scene);
    occupant::body(&mut figure, scene, Pen::solid(Ink::Quiet, Weight::Hair));
    fixture::supports(&mut figure, scene, view);
    regions::bearings(&mut figure, scene, view);
    // Before the names under the floor: they make way for it.
    plumb::offset(&mut figure, scene, view);
    fixture::floor(&mut figure, scene, view);
    piece::pieces(&mut figure, scene, view);
    fixture::bindings_on(&mut figure, scene, view);
    plumb::tolerance(&mut figure, scene, view);
    plumb::track(&mut figure, scene, view);
    plumb::plumb_line(&mut figure, scene, view);
    plumb::occupant_point(&mut figure, scene, view);
    fixture::names(&mut figure, scene, view);
    fixture::footprint_name(&mut figure, scene, view);
    regions::keep_clear_names(&mut figure, scene, view);
    figure
}

/// The stack on its article and fixture from the left side, without what only the engineer reads: for hands.
pub fn beside(scene: &Scene) -> Figure {
    let (mut figure, view) = (Figure::default(), View::Side);
    fixture::hold_downs(&mut figure, scene, view);
    catch::blocks(&mut figure, scene, view);
    regions::outline(&mut figure, scene);
    fixture::supports(&mut figure, scene, view);
    regions::bearings(&mut figure, scene, view);
    fixture::floor(&mut figure, scene, view);
    piece::pieces(&mut figure, scene, view);
    fixture::bindings_on(&mut figure, scene, view);
    super::nose(&mut figure, view);
    figure
}

/// Where a leader to a layer ends in the view from the side: the middle of its aft edge, m.
pub fn layer_edge(scene: &Scene, layer: usize) -> Option<[f64; 2]> {
    let pieces = scene.pieces().filter(|step| scene.layer_of(*step) == layer);
    let corners = pieces.filter_map(|step| scene.outline(View::Side, step)).flatten();
    let [low, high] = corners.fold(None, |bounds, p| Some(grown(bounds.unwrap_or([p, p]), p)))?;
    let inside = 0.04 * (high[0] - low[0]);
    Some([high[0] - inside, f64::midpoint(low[1], high[1])])
}
