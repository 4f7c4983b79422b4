//! Cuts: the pile is parted under each layer in turn, all above is taken as one body, and the
//! contacts that cross the cut must hold it.

use crate::body::Body;
use crate::margin::{Decision, Reserve};
use crate::mass::Masses;
use crate::rest::Pile;
use crate::section::{Closed, Placed, Section};
use crate::walk::Walk;
use nalgebra::{Isometry3, Point3};

/// The margins of all at or above one layer against what crosses into it from below. Lengths and
/// directions in the floor frame.
#[derive(Debug, Clone, PartialEq)]
pub struct CutMargin {
    /// The lowest layer above the cut.
    pub layer: usize,
    /// Mass above the cut, kg.
    pub mass_kg: f64,
    /// Centroid of all above the cut, m, floor frame.
    pub centroid_in_floor: Point3<f64>,
    /// Distance in plan from the centroid's plumb line to the nearest edge of the contacts' hull, m,
    /// positive inside; negative infinity where no contact crosses.
    pub edge_m: f64,
    /// Tilt at which it goes over its weakest edge, rad, negative if it leans beyond: atan of
    /// the tip multiplier.
    pub tip_rad: f64,
    /// Closed form: push at which it turns over the weakest edge. A bound only if `one_plane`.
    pub tip: Reserve,
    /// Closed form: push at which it slides at the greatest friction among the contacts.
    pub slide: Reserve,
    /// All contacts lie at one height of the bed frame, so that the closed forms are bounds.
    pub one_plane: bool,
    /// What the cut comes to.
    pub least: Decision,
}

/// The margins of every layer of the finished pile, from the lowest layer up. Arguments and
/// limits as for [`cuts_at`].
pub fn cuts(floor_from_bed: &Isometry3<f64>, bodies: &[Body], pile: &Pile) -> Vec<CutMargin> {
    cuts_at(floor_from_bed, bodies, pile, bodies.len())
}

/// The margins of every layer when the first `step` bodies have been put down, from the lowest
/// layer up. A cut without weight above it has no centroid and is left out.
///
/// Closed forms: tip d/h over the weakest edge, slide tan(atan(friction) - tilt). Limits: necessary
/// conditions, and with friction the answer of dilatant sliding (an upper bound of the real one);
/// at two heights the closed tip form is no bound and the cut is not decided: the equilibrium of the whole
/// stack decides it, and is the stricter question (its forces, summed over the pieces above a cut, balance the cut).
/// Source: `own derivation` (at the hull and the section).
pub fn cuts_at(floor_from_bed: &Isometry3<f64>, bodies: &[Body], pile: &Pile, step: usize) -> Vec<CutMargin> {
    let placed = Placed::new(floor_from_bed, bodies, pile);
    let sections = Walk::sections_at(&placed, step);
    let layers = sections.iter().enumerate();
    let margin = |(below, section): (usize, &Section)| {
        let closed = section.closed(&placed)?;
        let least = section.least(&closed);
        Some(CutMargin::new(below + 1, section, closed, least))
    };
    layers.filter_map(margin).collect()
}

impl CutMargin {
    pub(crate) fn new(layer: usize, section: &Section, closed: Closed, least: Decision) -> CutMargin {
        let Closed { above: Masses { mass_kg, centroid: centroid_in_floor }, edge_m, tip, slide } = closed;
        let (tip_rad, one_plane) = (tip.multiplier.atan(), section.is_one_plane());
        CutMargin { layer, mass_kg, centroid_in_floor, edge_m, tip_rad, tip, slide, one_plane, least }
    }
}
