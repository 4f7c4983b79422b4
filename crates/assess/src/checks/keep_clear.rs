//! Does ballast stay away from what it must not touch?

use crate::{Amount, Assessment, Finding, State, Where};
use geo::{Coord, Distance, Euclidean, LineString, Polygon};
use plan::{KeepClear, Plan};
use quantity::Quantity;

/// Within this factor of the clearance a finding says near: `common practice, no source`.
const NEAR_FACTOR: f64 = 1.2;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    if plan.stack.is_empty() {
        return Vec::new();
    }
    plan.article.keep_clear.iter().map(|region| one(plan, assessment, region)).collect()
}

fn one(plan: &Plan, assessment: &Assessment, region: &KeepClear) -> Finding {
    let shape = polygon(region.side.iter().map(|corner| corner.map(Quantity::si)));
    let distances: Vec<_> =
        (0..plan.stack.len()).map(|step| distance_m(plan, assessment, step, (region, &shape))).collect();
    let least = distances.iter().copied().fold(f64::INFINITY, f64::min);
    let allowed = region.clearance.si();
    // A hair below is met: distances come out of rotations. Touching never is, even with no clearance asked.
    let short = |d: &f64| *d < (allowed - 1e-9).max(1e-9);
    let (state, place) = match least {
        d if short(&d) => {
            let too_near = (0..distances.len()).filter(|step| short(&distances[*step])).collect();
            (State::Fails, Where::Pieces(too_near))
        }
        d if d < allowed * NEAR_FACTOR => (State::Near, Where::Pieces(nearest(&distances, least))),
        _ => (State::Holds, Where::Pieces(nearest(&distances, least))),
    };
    let (value, limit) = (Amount::Distance(least), Amount::Distance(allowed));
    let (is, due) = (value.shown(plan.units), limit.shown(plan.units));
    let Where::Pieces(pieces) = &place else { unreachable!("this check points at pieces") };
    let nearest = distances.iter().position(|d| *d <= least).map(|step| plan.piece_name(step)).unwrap_or_default();
    let told = format!("{nearest} comes within {is} of {}, clearance {due}", region.name);
    let text = match (state, pieces.len()) {
        (State::Fails, 1) => format!("{told}. Move it away, or turn it."),
        (State::Fails, count) => format!("{told}; {count} pieces come too near. Move them away, or turn them."),
        (State::Near, _) => format!("{told}. Little is left: measure it on the floor before the next piece."),
        _ => format!("{told}."),
    };
    let (value, limit) = (Some(value), Some(limit));
    Finding { check: "Keep clear", state, value, limit, place, text, source: "the plan's `keep_clear.clearance`" }
}

fn nearest(distances: &[f64], least: f64) -> Vec<usize> {
    distances.iter().position(|d| *d <= least).into_iter().collect()
}

/// Distance of a piece's box from the region, article frame: the region is a side-view shape
/// drawn out between two buttock lines, the piece a box turned with the bed about y, so the
/// distance is that in the side view and that across, at right angles (`own derivation`).
fn distance_m(plan: &Plan, assessment: &Assessment, step: usize, region: (&KeepClear, &Polygon)) -> f64 {
    let place = &plan.stack[step];
    let [length, width, thickness] = plan.extent_of(place).map(Quantity::si);
    let [x, y] = place.at.map(Quantity::si);
    let z = assessment.pile.underside_m[step];
    let article_from_bed = plan.article_from_bed();
    let corner = |along: f64, up: f64| {
        let p = article_from_bed * nalgebra::Point3::new(x + along * length / 2.0, y, z + up * thickness);
        [p.x, p.z]
    };
    let side = polygon([corner(-1.0, 0.0), corner(1.0, 0.0), corner(1.0, 1.0), corner(-1.0, 1.0)].into_iter());
    let in_side = Euclidean.distance(&side, region.1);
    let y_of_bed = plan.bed.origin[1].si();
    let [low, high] = region.0.y.map(Quantity::si);
    let across = (low - (y_of_bed + y + width / 2.0)).max(y_of_bed + y - width / 2.0 - high).max(0.0);
    in_side.hypot(across)
}

fn polygon(corners: impl Iterator<Item = [f64; 2]>) -> Polygon {
    Polygon::new(LineString(corners.map(|[x, y]| Coord { x, y }).collect()), Vec::new())
}
