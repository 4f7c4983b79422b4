//! Straps that would have to stretch far before they reach the working load up to which the push counts
//! them: by then the article has gone some way over.

use crate::closed::weakest;
use crate::exact::fixture::STRETCHES_M;
use crate::source::Field;
use crate::{Amount, Assessment, Check, Decision, Exact, Finding, Source, State, Where};
use plan::Plan;
use quantity::Quantity;

/// Pushes that differ by less are shown alike.
const ALIKE: f64 = 1e-3;

/// Told where the push rests on a strap that is stretched far.
pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let exact = assessment.exact.as_ref().filter(|_| !plan.fixture.supports.is_empty());
    exact.and_then(|exact| one(plan, exact)).into_iter().collect()
}

fn one(plan: &Plan, exact: &Exact) -> Option<Finding> {
    let [near, far] = [0, 1].map(|which| least(exact, which));
    let (_, weakest) = weakest(&exact.fixture, |fixture| fixture.push)?;
    let full = weakest.push.reserve()?;
    let is_less = |within: Decision| within.reserve().is_none_or(|within| within.multiplier < full.multiplier - ALIKE);
    if near == Decision::NotLimited || !is_less(near) {
        return None;
    }
    let required = plan.allow.fixture_push;
    let (name, stretch_m) = farthest(plan, exact)?;
    let shown = |m: f64| Amount::Distance(m).shown(plan.units);
    let told = format!(
        "For its working load {name} would stretch by {} more; stretched by no more than {} the straps hold {}",
        shown(stretch_m),
        shown(STRETCHES_M[0]),
        of_weight(near)
    );
    let borne = |within: Decision| within.reserve().is_some_and(|reserve| reserve.multiplier >= required);
    let (state, text) = match far {
        far if far == Decision::NotLimited || borne(far) => (State::Caution, format!("{told}.")),
        far => {
            let helps = "Tension the straps more, use stiffer ones, or set the supports wider.";
            let state = if matches!(far, Decision::NotDecided { .. }) { State::Undecided } else { State::Fails };
            (state, format!("{told}, by no more than {} {}. {helps}", shown(STRETCHES_M[1]), of_weight(far)))
        }
    };
    Some(Finding {
        check: Check::StrapStretch,
        state,
        value: far.reserve().map(|reserve| Amount::OfWeight(reserve.multiplier)),
        limit: Some(Amount::OfWeight(required)),
        place: Where::Fixture,
        text,
        sources: &[Source::Builder(Field::FixturePush)],
    })
}

fn least(exact: &Exact, which: usize) -> Decision {
    let governing = weakest(&exact.fixture, |fixture| fixture.push_within[which].unwrap_or(fixture.push));
    governing.map_or(Decision::NotLimited, |(_, fixture)| fixture.push_within[which].unwrap_or(fixture.push))
}

fn of_weight(push: Decision) -> String {
    match push.reserve() {
        Some(reserve) => format!("a push of {:.2}", reserve.multiplier),
        None if push == Decision::Falls => "nothing: it tips over".to_owned(),
        None => "what was not decided: count it as nothing".to_owned(),
    }
}

/// The strap that would stretch most from what it pulls now to its working load, and by how much, m.
fn farthest<'a>(plan: &'a Plan, exact: &Exact) -> Option<(&'a str, f64)> {
    let states = exact.fixture.iter().filter_map(|fixture| fixture.settled.reactions());
    let straps = states.flat_map(|reactions| plan.fixture.hold_downs.iter().zip(&reactions.ties));
    let stretches = straps.map(|(strap, now)| {
        let more_n = strap.working_load.si() - now.tension_n;
        (strap.name.as_str(), more_n / strap.stiffness.si())
    });
    stretches.max_by(|a, b| a.1.total_cmp(&b.1))
}
