//! How far a piece stays away from what it must not touch.

use geo::{Coord, Distance, Euclidean, LineString, Polygon};
use nalgebra::{Isometry3, Point3};
use plan::{KeepClear, Plan};
use quantity::Quantity;
use statics::Body;

/// Distances come out of rotations: a hair below the clearance is met. m.
const HAIR_M: f64 = 1e-9;

/// The keep-clear regions of a plan, made ready to be asked thousands of times.
#[derive(Clone, Debug)]
pub struct Clearances {
    article_from_bed: Isometry3<f64>,
    y_of_bed_m: f64,
    regions: Vec<Region>,
}

/// A side-view shape between two buttock lines, article frame, m.
#[derive(Clone, Debug)]
struct Region {
    side: Polygon,
    /// Least and greatest station and waterline, for a quick first answer.
    station_m: [f64; 2],
    waterline_m: [f64; 2],
    y_m: [f64; 2],
    clearance_m: f64,
}

impl Clearances {
    /// The regions of a plan, in its order.
    pub fn of(plan: &Plan) -> Self {
        Self {
            article_from_bed: plan.article_from_bed(),
            y_of_bed_m: plan.bed.origin[1].si(),
            regions: plan.article.keep_clear.iter().map(Region::of).collect(),
        }
    }

    /// Distance of a piece's box from a region (by its place in the plan's list), m; 0 where they
    /// touch. The box is given in the bed frame, its underside at `underside_m`.
    ///
    /// The region is a side-view shape drawn out between two buttock lines, the piece a box turned
    /// with the bed about y, so the distance is that in the side view and that across, at right
    /// angles (`own derivation`).
    pub fn distance_m(&self, region: usize, piece: &Body, underside_m: f64) -> f64 {
        let region = &self.regions[region];
        let side = polygon(self.corners_in_article(piece, underside_m).into_iter());
        Euclidean.distance(&side, &region.side).hypot(self.across_m(region, piece))
    }

    /// Whether a piece's box keeps its clearance from every region. Box as for
    /// [`Clearances::distance_m`].
    pub fn is_clear(&self, piece: &Body, underside_m: f64) -> bool {
        (0..self.regions.len()).all(|region| self.is_clear_of(region, piece, underside_m))
    }

    /// The same of one region, by its place in the plan's list.
    pub fn is_clear_of(&self, region: usize, piece: &Body, underside_m: f64) -> bool {
        let asked = &self.regions[region];
        self.is_far(asked, piece, underside_m) || !asked.is_short(self.distance_m(region, piece, underside_m))
    }

    /// A bound of [`Clearances::distance_m`] from below, m: the distance of the boxes around both.
    pub(crate) fn at_least_m(&self, region: usize, piece: &Body, underside_m: f64) -> f64 {
        let [along, up, across] = self.gaps_m(&self.regions[region], piece, underside_m);
        along.hypot(up).hypot(across)
    }

    /// By the boxes around both alone: clear for certain.
    fn is_far(&self, region: &Region, piece: &Body, underside_m: f64) -> bool {
        let gaps = self.gaps_m(region, piece, underside_m);
        gaps.iter().any(|gap| *gap > region.clearance_m.max(HAIR_M))
    }

    /// Between the boxes around both: along, up and across the article.
    fn gaps_m(&self, region: &Region, piece: &Body, underside_m: f64) -> [f64; 3] {
        let corners = self.corners_in_article(piece, underside_m);
        let span = |axis: usize| {
            let values = corners.iter().map(|corner| corner[axis]);
            values.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], v| [low.min(v), high.max(v)])
        };
        [gap_m(span(0), region.station_m), gap_m(span(1), region.waterline_m), self.across_m(region, piece)]
    }

    fn across_m(&self, region: &Region, piece: &Body) -> f64 {
        let (y, half) = (self.y_of_bed_m + piece.centre_m[1], piece.extent_m[1] / 2.0);
        gap_m([y - half, y + half], region.y_m)
    }

    fn corners_in_article(&self, piece: &Body, underside_m: f64) -> [[f64; 2]; 4] {
        let ([x, y], [length, _, thickness]) = (piece.centre_m, piece.extent_m);
        [(-1.0, 0.0), (1.0, 0.0), (1.0, 1.0), (-1.0, 1.0)].map(|(along, up)| {
            let p = self.article_from_bed * Point3::new(x + along * length / 2.0, y, underside_m + up * thickness);
            [p.x, p.z]
        })
    }
}

impl Region {
    fn of(region: &KeepClear) -> Self {
        let span = |axis: usize| {
            let values = region.side.iter().map(|corner| corner[axis].si());
            values.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], v| [low.min(v), high.max(v)])
        };
        Self {
            side: polygon(region.side.iter().map(|corner| corner.map(Quantity::si))),
            station_m: span(0),
            waterline_m: span(1),
            y_m: region.y.map(Quantity::si),
            clearance_m: region.clearance.si(),
        }
    }

    fn is_short(&self, distance_m: f64) -> bool {
        falls_short(distance_m, self.clearance_m)
    }
}

/// Whether a distance misses a clearance, m. Touching always does, even with no clearance asked.
pub(crate) fn falls_short(distance_m: f64, clearance_m: f64) -> bool {
    distance_m < (clearance_m - HAIR_M).max(HAIR_M)
}

/// The gap between two spans of one axis, 0 where they meet.
fn gap_m(one: [f64; 2], other: [f64; 2]) -> f64 {
    (other[0] - one[1]).max(one[0] - other[1]).max(0.0)
}

fn polygon(corners: impl Iterator<Item = [f64; 2]>) -> Polygon {
    Polygon::new(LineString(corners.map(|[x, y]| Coord { x, y }).collect()), Vec::new())
}
