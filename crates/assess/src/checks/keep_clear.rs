//! Does ballast stay away from what it must not touch?

use crate::clearance::{Clearances, falls_short};
use crate::{Amount, Assessment, Finding, State, Where, problem};
use plan::{KeepClear, Plan};
use quantity::Quantity;

/// Within this factor of the clearance a finding says near: `common practice, no source`.
const NEAR_FACTOR: f64 = 1.2;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    if plan.stack.is_empty() {
        return Vec::new();
    }
    let clearances = Clearances::of(plan);
    let bodies = problem::bodies(plan);
    let distances_m = |region: usize| {
        let pieces = bodies.iter().zip(&assessment.pile.underside_m);
        pieces.map(|(body, underside_m)| clearances.distance_m(region, body, *underside_m)).collect::<Vec<_>>()
    };
    let regions = plan.article.keep_clear.iter().enumerate();
    regions.map(|(index, region)| one(plan, region, &distances_m(index))).collect()
}

fn one(plan: &Plan, region: &KeepClear, distances: &[f64]) -> Finding {
    let least = distances.iter().copied().fold(f64::INFINITY, f64::min);
    let allowed = region.clearance.si();
    let short = |d: &f64| falls_short(*d, allowed);
    let (state, place) = match least {
        d if short(&d) => {
            let too_near = (0..distances.len()).filter(|step| short(&distances[*step])).collect();
            (State::Fails, Where::Pieces(too_near))
        }
        d if d < allowed * NEAR_FACTOR => (State::Near, Where::Pieces(nearest(distances, least))),
        _ => (State::Holds, Where::Pieces(nearest(distances, least))),
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
