//! Does ballast stay away from what it must not touch?

use crate::closed::clearance::{Clearances, falls_short};
use crate::source::Field;
use crate::{Amount, Assessment, Check, Finding, Source, State, Where, closed::problem};
use plan::{KeepClear, Plan};
use quantity::Quantity;
use statics::Body;

/// Within this factor of the clearance a finding is a caution: `common practice, no source`.
const NEAR_FACTOR: f64 = 1.2;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    if plan.stack.is_empty() {
        return Vec::new();
    }
    let clearances = Clearances::of(plan);
    let bodies = problem::bodies(plan);
    let distances_m = |(index, region): (usize, &KeepClear)| {
        let (mut least, allowed) = (f64::INFINITY, region.clearance.si());
        let distance = |(body, underside_m): (&Body, &f64)| {
            // Neither the nearest nor too near: of hundreds of pieces few are worth an exact distance.
            let at_least = clearances.at_least_m(index, body, *underside_m);
            if at_least > least.max(allowed) + HAIR_M {
                return f64::INFINITY;
            }
            let exact = clearances.distance_m(index, body, *underside_m);
            least = least.min(exact);
            exact
        };
        bodies.iter().zip(&assessment.closed.pile.underside_m).map(distance).collect::<Vec<_>>()
    };
    let regions = plan.article.keep_clear.iter().enumerate();
    regions.map(|(index, region)| one(plan, region, &distances_m((index, region)))).collect()
}

/// More than rounding puts between a distance and its bound, m.
const HAIR_M: f64 = 1e-9;

/// A region that was drawn in the side view alone reaches nobody knows how far across.
fn not_entered(plan: &Plan, region: &KeepClear) -> Finding {
    let [left, right] = region.y.map(|y| Amount::Distance(y.si()).shown(plan.units));
    Finding {
        check: Check::KeepClear,
        state: State::Undecided,
        value: None,
        limit: None,
        place: Where::Fixture,
        text: format!(
            "How far “{}” reaches across is not entered: it is only drawn from y {left} to {right}. Drag both its edges \
             in the front view, or type them on the Fixture page.",
            region.name
        ),
        sources: &[Source::Builder(Field::Clearance)],
    }
}

fn one(plan: &Plan, region: &KeepClear, distances: &[f64]) -> Finding {
    if region.y_known != [true; 2] {
        return not_entered(plan, region);
    }
    let least = distances.iter().copied().fold(f64::INFINITY, f64::min);
    let allowed = region.clearance.si();
    let short = |d: &f64| falls_short(*d, allowed);
    let (state, place) = match least {
        d if short(&d) => {
            let too_near = (0..distances.len()).filter(|step| short(&distances[*step])).collect();
            (State::Fails, Where::Pieces(too_near))
        }
        d if d < allowed * NEAR_FACTOR => (State::Caution, Where::Pieces(nearest(distances, least))),
        _ => (State::Met, Where::Pieces(nearest(distances, least))),
    };
    let (value, limit) = (Amount::Distance(least), Amount::Distance(allowed));
    let (is, due) = (value.shown(plan.units), limit.shown(plan.units));
    let Where::Pieces(pieces) = &place else { unreachable!("this check points at pieces") };
    let nearest = distances.iter().position(|d| *d <= least).map(|step| plan.piece_name(step)).unwrap_or_default();
    let told = format!("{nearest} comes within {is} of {}, clearance {due}", region.name);
    let text = match (state, pieces.len()) {
        (State::Fails, 1) => format!("{told}. Move it away, or turn it."),
        (State::Fails, count) => format!("{told}; {count} pieces come too near. Move them away, or turn them."),
        (State::Caution, _) => format!("{told}. The margin is small: measure it before anything is loaded."),
        _ => format!("{told}."),
    };
    let (value, limit) = (Some(value), Some(limit));
    Finding { check: Check::KeepClear, state, value, limit, place, text, sources: &[Source::Builder(Field::Clearance)] }
}

fn nearest(distances: &[f64], least: f64) -> Vec<usize> {
    distances.iter().position(|d| *d <= least).into_iter().collect()
}
