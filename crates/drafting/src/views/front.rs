//! The view from the front, looking aft, at the same heights as the view from the side.

use super::{View, catch, fixture, members::members, piece::Pieces, plumb, regions, scene::Scene};
use crate::figure::{Align, Anchor, Figure, Label, Level};

/// The plan's state from ahead; the aircraft's right is on the viewer's left, which is written
/// under the floor.
pub fn front(scene: &Scene) -> Figure {
    let (mut figure, view) = (Figure::default(), View::Front);
    fixture::hold_downs(&mut figure, scene, view);
    catch::blocks(&mut figure, scene, view);
    figure.over(members(scene.plan, view));
    regions::keep_clear(&mut figure, scene, view);
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
    sides(&mut figure, scene);
    fixture::footprint_name(&mut figure, scene, view);
    figure
}

/// Beyond the ends of the floor: between them a narrow drawing has no room.
fn sides(figure: &mut Figure, scene: &Scene) {
    let Some([low, high]) = figure.bounds() else { return };
    let mut side = |u: f64, align: Align, text: &str| {
        let anchor = Anchor { align, level: Level::Top };
        figure.label(Label::caption([u, scene.floor_m()], text).anchored(anchor, [0.0, -12.0]).dodging());
    };
    side(low[0], Align::Right, "aircraft's right");
    side(high[0], Align::Left, "aircraft's left");
}
