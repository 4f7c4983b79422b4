//! The pieces as solids.

use super::dress::What;
use super::{Item, Look, Spread};
use crate::solids::Solid;
use crate::views::{Leaning, Scene};
use nalgebra::{Point3, Vector3};
use plan::Form;
use quantity::Quantity;

/// From where to where a piece reaches along x, y and z of the bed, m.
type Extent = [[f64; 2]; 3];

/// The pieces that lie, and the next one.
pub(super) fn pieces(scene: &Scene, look: &Look) -> Vec<Item> {
    let mut steps: Vec<usize> = scene.pieces().collect();
    steps.extend(look.next.filter(|next| !steps.contains(next)));
    let squeezed = squeezed(scene);
    let leaning = look.leans.and_then(|soft| Leaning::of(scene, soft));
    let above_m = |step: usize| look.above.map_or(0.0, |(moving, m)| if moving == step { m } else { 0.0 });
    let item = |step: usize| {
        let extent = squeezed.get(step).copied().flatten()?;
        let lifted_m = lift(scene, look.spread, step) + above_m(step);
        let laid = boxed(scene, extent, lifted_m);
        let leans = leaning.as_ref().and_then(|leaning| leaning.box_of(step, laid));
        Some(Item { what: What::Piece(step), solid: solid(scene, step, leans.unwrap_or(laid)) })
    };
    steps.into_iter().filter_map(item).collect()
}

/// Once round the left side of a piece, once round its right, floor frame, m.
fn boxed(scene: &Scene, [x, y, z]: Extent, above_m: f64) -> [Point3<f64>; 8] {
    let lifted = scene.layout.floor_from_bed.rotation * Vector3::new(0.0, 0.0, above_m);
    scene.box_in_floor((x, y, z)).map(|corner| corner + lifted)
}

fn solid(scene: &Scene, step: usize, corners: [Point3<f64>; 8]) -> Solid {
    match scene.plan.lot_of(&scene.plan.stack[step]).form {
        Form::Bag => Solid::pillow(&corners),
        Form::Board | Form::Solid => Solid::block(corners),
    }
}

/// How far a piece (step from 0) is drawn above its place, m.
pub(super) fn lift(scene: &Scene, spread: Spread, step: usize) -> f64 {
    let layer = scene.layer_of(step);
    match spread {
        Spread::Together => 0.0,
        Spread::Lifted { layer: from, by_m } => {
            if layer >= from {
                by_m
            } else {
                0.0
            }
        }
        #[expect(clippy::cast_precision_loss, reason = "some hundred layers")]
        Spread::Exploded { by_m } => by_m * layer.saturating_sub(1) as f64,
    }
}

/// The pieces with bags that lie a little in one another drawn back, each by half: bags squeeze. None
/// for what has no place.
fn squeezed(scene: &Scene) -> Vec<Option<Extent>> {
    let mut extents: Vec<Option<Extent>> = (0..scene.plan.steps()).map(|step| extent(scene, step)).collect();
    for beside in &scene.layout.pile.beside {
        let pair = (extents.get(beside.body).copied().flatten(), extents.get(beside.neighbour).copied().flatten());
        let (Some(mut bag), Some(mut neighbour)) = pair else { continue };
        let overlaps: [f64; 3] =
            std::array::from_fn(|i| bag[i][1].min(neighbour[i][1]) - bag[i][0].max(neighbour[i][0]));
        if overlaps.iter().any(|overlap| *overlap <= 0.0) {
            continue;
        }
        let axis = usize::from(overlaps[1] < overlaps[0]);
        let (low, high) =
            if bag[axis][0] < neighbour[axis][0] { (&mut bag, &mut neighbour) } else { (&mut neighbour, &mut bag) };
        let seam = f64::midpoint(low[axis][1], high[axis][0]);
        (low[axis][1], high[axis][0]) = (seam, seam);
        (extents[beside.body], extents[beside.neighbour]) = (Some(bag), Some(neighbour));
    }
    extents
}

fn extent(scene: &Scene, step: usize) -> Option<Extent> {
    let place = scene.plan.stack.get(step)?;
    let [length, width, thickness] = scene.plan.extent_of(place).map(Quantity::si);
    let [x, y] = place.at.map(Quantity::si);
    let z = *scene.layout.pile.underside_m.get(step)?;
    Some([[x - length / 2.0, x + length / 2.0], [y - width / 2.0, y + width / 2.0], [z, z + thickness]])
}
