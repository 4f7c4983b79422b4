//! Cuts: the pile is parted under each layer in turn, all above is taken as one body, and the
//! contacts that cross the cut must hold it.

use crate::body::Body;
use crate::margin::{Decision, Reach, Reserve};
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
pub fn cuts(floor_from_bed: &Isometry3<f64>, bodies: &[Body], pile: &Pile, reach: Reach) -> Vec<CutMargin> {
    cuts_at(floor_from_bed, bodies, pile, bodies.len(), reach)
}

/// The margins of every layer when the first `step` bodies have been put down, from the lowest
/// layer up. A cut without weight above it has no centroid and is left out.
///
/// Closed forms: tip d/h over the weakest edge, slide tan(atan(friction) - tilt). Limits: necessary
/// conditions, and with friction the answer of dilatant sliding (an upper bound of the real one);
/// at two heights the closed tip form is no bound and the cone programme decides, or nobody.
/// Source: `own derivation` (at the hull, the section and the programme).
pub fn cuts_at(
    floor_from_bed: &Isometry3<f64>,
    bodies: &[Body],
    pile: &Pile,
    step: usize,
    reach: Reach,
) -> Vec<CutMargin> {
    let placed = Placed::new(floor_from_bed, bodies, pile);
    let sections = Walk::sections_at(&placed, step);
    let layers = sections.iter().enumerate();
    let margin = |(below, section): (usize, &Section)| {
        let closed = section.closed(&placed)?;
        let least = section.least(&placed, &closed, reach);
        Some(CutMargin::new(below + 1, section, closed, least))
    };
    layers.filter_map(margin).collect()
}

impl CutMargin {
    pub(crate) fn new(layer: usize, section: &Section, closed: Closed, least: Decision) -> CutMargin {
        let Closed { above_in_bed, centroid_in_floor, edge_m, tip, slide } = closed;
        let (mass_kg, tip_rad, one_plane) = (above_in_bed.mass_kg, tip.multiplier.atan(), section.is_one_plane());
        CutMargin { layer, mass_kg, centroid_in_floor, edge_m, tip_rad, tip, slide, one_plane, least }
    }
}

/// The cone programme for one layer of the finished pile whether or not its contacts lie in one
/// plane: the least over 16 directions and the normals of the hull's edges.
/// Answers [`Decision::NotLimited`] for a cut that carries no weight.
pub fn strict_cut(floor_from_bed: &Isometry3<f64>, bodies: &[Body], pile: &Pile, layer: usize) -> Decision {
    let placed = Placed::new(floor_from_bed, bodies, pile);
    strict(&placed, layer, |section, programme| programme.least(section.directions()))
}

/// The cone programme for one layer of the finished pile and one direction of push in plan, rad,
/// floor frame: how great a push along it is borne. Ends as [`strict_cut`] does.
pub fn strict_push(
    floor_from_bed: &Isometry3<f64>,
    bodies: &[Body],
    pile: &Pile,
    layer: usize,
    direction_rad: f64,
) -> Decision {
    let placed = Placed::new(floor_from_bed, bodies, pile);
    strict(&placed, layer, |_, programme| programme.push(direction_rad))
}

fn strict(placed: &Placed, layer: usize, ask: impl Fn(&Section, &crate::strict::Programme) -> Decision) -> Decision {
    let sections = Walk::sections_at(placed, placed.bodies.len());
    let Some(section) = layer.checked_sub(1).and_then(|below| sections.get(below)) else {
        return Decision::NotLimited;
    };
    match section.masses() {
        Some(_) if !section.has_contacts() => Decision::Loose,
        Some(above) => ask(section, &section.strict(placed, &above)),
        None => Decision::NotLimited,
    }
}
