//! A closed form from above for every frame of a drag: all above one layer as one rigid block that rocks on
//! the stiffest bed that could lie there. The real stack gives in every layer, so that it bears less.

use super::given::SoftStack;
use super::push::SoftPush;
use crate::body::Patch;
use crate::rest::{Contact, Under};
use nalgebra::Vector3;
use quantity::STANDARD_GRAVITY_M_S2 as GRAVITY;
use quantity::frame::plan_direction;
use std::f64::consts::TAU;

/// Directions in which every layer is looked at.
const DIRECTIONS: u32 = 16;

/// A rigid block on one bed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rocking {
    /// Its weight, N.
    pub weight_n: f64,
    /// Height of its centroid over the bed, m.
    pub height_m: f64,
    /// From below the centroid to the edge over which it rocks, m.
    pub edge_m: f64,
    /// Stiffness of the bed, N/m3.
    pub stiffness_n_per_m3: f64,
    /// Length of the bed along that edge, m.
    pub length_m: f64,
}

/// The greatest push, as a part of its weight, that a block bears as it rocks on a bed that gives: d/h -
/// 3 (c/6h)^(2/3), c = sqrt(2W/(k l)); never below 0.
///
/// From moments about the edge with a triangle of pressure x = c / sqrt(tilt): lambda = d/h - x/(3h) - tilt,
/// greatest at tilt = (c/6h)^(2/3). Source: `own derivation`. Holds while the block's critical load factor
/// is above 1; below it, it falls by itself.
pub fn rocking_limit(block: &Rocking) -> f64 {
    let Rocking { weight_n, height_m, edge_m, stiffness_n_per_m3, length_m } = *block;
    if height_m <= 0.0 {
        return f64::INFINITY;
    }
    let depth_m = (2.0 * weight_n / (stiffness_n_per_m3 * length_m)).sqrt();
    (edge_m / height_m - 3.0 * (depth_m / (6.0 * height_m)).powf(2.0 / 3.0)).max(0.0)
}

/// From above, the soft push limit of the first `step` pieces: the least of [`rocking_limit`] over the layers,
/// everything above each taken as glued, in 16 directions. None: no layer has weight above it.
///
/// Each layer's bed is taken as long as its beds reach across the push, and as stiff as its stiffest bed
/// throughout; contacts of one layer at several heights: the highest. All of that errs high. It is good only
/// while the critical load factor is above 1, and for beds tilted by a few degrees.
pub fn bound(given: &SoftStack, step: usize) -> Option<SoftPush> {
    let directions: Vec<f64> = (0..DIRECTIONS).map(|k| TAU * f64::from(k) / f64::from(DIRECTIONS)).collect();
    let highest = given.stack.pile.layer[..step].iter().copied().max()?;
    let layers = (1..=highest).filter_map(|layer| Layer::new(given, step, layer));
    let limits = layers.flat_map(|layer| {
        let limit =
            |&direction_rad: &f64| SoftPush { multiplier: layer.limit(direction_rad), direction_rad, tips: None };
        directions.iter().map(limit).collect::<Vec<_>>()
    });
    limits.min_by(|a, b| a.multiplier.total_cmp(&b.multiplier))
}

/// All at or above a layer, and what carries it.
struct Layer {
    weight_n: f64,
    /// Its centroid, and the points of its beds, bed frame.
    centroid_m: Vector3<f64>,
    beds: Vec<(Patch, f64)>,
    plane_m: f64,
    /// The floor's down, and its x and y, bed frame.
    down: Vector3<f64>,
    level: [Vector3<f64>; 2],
}

impl Layer {
    fn new(given: &SoftStack, step: usize, layer: usize) -> Option<Layer> {
        let stack = &given.stack;
        let above = |body: usize| stack.pile.layer[body] >= layer;
        let weight = |body: usize| stack.bodies[body].mass_kg * GRAVITY;
        let bodies: Vec<usize> = (0..step).filter(|&body| above(body)).collect();
        let weight_n: f64 = bodies.iter().map(|&body| weight(body)).sum();
        let moments = bodies.iter().map(|&body| weight(body) * stack.pile.centre(stack.bodies, body).coords);
        let centroid_m = moments.sum::<Vector3<f64>>() / weight_n;
        let crosses =
            |contact: &&Contact| above(contact.upper) && !matches!(contact.lower, Under::Body(lower) if above(lower));
        let crossing: Vec<&Contact> = stack.contacts(step).iter().filter(crosses).collect();
        let beds = crossing.iter().filter_map(|contact| super::model::bed(given, contact)).collect();
        let plane_m = crossing.iter().map(|contact| contact.plane_m).fold(f64::NEG_INFINITY, f64::max);
        let bed_from_floor = stack.floor_from_bed.rotation.inverse();
        let down = bed_from_floor * -Vector3::z();
        let level = [bed_from_floor * Vector3::x(), bed_from_floor * Vector3::y()];
        (weight_n > 0.0).then_some(Layer { weight_n, centroid_m, beds, plane_m, down, level })
    }

    fn limit(&self, direction_rad: f64) -> f64 {
        let [aft, right] = plan_direction(direction_rad);
        let way = aft * self.level[0] + right * self.level[1];
        let [x, y] = plan_direction(way.y.atan2(way.x));
        let corners = || self.beds.iter().flat_map(|(patch, _)| patch.corners());
        let along = |[cx, cy]: [f64; 2]| cx * x + cy * y;
        let across = |[cx, cy]: [f64; 2]| cy * x - cx * y;
        let far_m = corners().map(along).fold(f64::NEG_INFINITY, f64::max);
        let reach = corners()
            .map(across)
            .fold([f64::INFINITY, f64::NEG_INFINITY], |[least, most], at| [least.min(at), most.max(at)]);
        let block = Rocking {
            weight_n: self.weight_n,
            height_m: self.centroid_m.z - self.plane_m,
            edge_m: far_m - along([self.centroid_m.x, self.centroid_m.y]),
            stiffness_n_per_m3: self.beds.iter().map(|(_, stiffness)| *stiffness).fold(0.0, f64::max),
            length_m: reach[1] - reach[0],
        };
        // On a tilted bed part of the weight pushes already: (down + lambda way) along over across.
        let (slant, leaning) = (rocking_limit(&block), self.down.x * x + self.down.y * y);
        let (level, lifting) = (way.x * x + way.y * y, way.z);
        ((slant * -self.down.z - leaning) / (level + slant * lifting)).max(0.0)
    }
}
