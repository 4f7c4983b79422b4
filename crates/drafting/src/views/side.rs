//! The view from the side: station across, aft to the right, waterline up.

use super::{View, catch, fixture, members::members, occupant, piece::Pieces, plumb, regions, scene::Scene};
use crate::figure::{Figure, Ink, Pen, Weight};

/// The plan's state from its left side.
pub fn side(scene: &Scene) -> Figure {
    let (mut figure, view) = (Figure::default(), View::Side);
    fixture::hold_downs(&mut figure, scene, view);
    catch::blocks(&mut figure, scene, view);
    figure.over(members(scene.plan, view));
    // Over the faces of what must be kept clear.
    regions::keep_clear(&mut figure, scene, view);
    occupant::body(&mut figure, scene, Pen::solid(Ink::Quiet, Weight::Hair));
    fixture::supports(&mut figure, scene, view);
    regions::bearings(&mut figure, scene, view);
    // Before the names under the floor: they make way for it.
    plumb::offset(&mut figure, scene, view);
    fixture::floor(&mut figure, scene, view);
    let pieces = Pieces::of(scene, view);
    let top_m = plumb::top_m(scene);
    plumb::behind(&mut figure, scene, view, top_m);
    pieces.draw(&mut figure, scene);
    fixture::bindings_on(&mut figure, scene, view);
    plumb::over(&mut figure, scene, view, top_m);
    pieces.number(&mut figure, scene);
    fixture::names(&mut figure, scene, view);
    fixture::footprint_name(&mut figure, scene, view);
    regions::keep_clear_names(&mut figure, scene, view);
    figure
}
