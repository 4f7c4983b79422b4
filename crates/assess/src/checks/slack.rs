//! Straps that would have to stretch far before they reach the working load up to which the push counts
//! them: by then the article has gone some way over.

use crate::exact::fixture::STRETCHES_M;
use crate::state::weakest;
use crate::{Amount, Decision, Exact, State};
use plan::Plan;
use quantity::Quantity;

/// Pushes that differ by less are shown alike.
const ALIKE: f64 = 1e-3;

/// What the push rests on, where it rests on a strap that is stretched far.
pub(super) fn judge(plan: &Plan, exact: &Exact, push: Decision) -> Option<(State, String)> {
    let [near, far] = [0, 1].map(|which| least(exact, which));
    let full = push.reserve()?;
    let is_less = |within: Decision| within.reserve().is_none_or(|within| within.multiplier < full.multiplier - ALIKE);
    if !is_less(near) {
        return None;
    }
    let asked = plan.allow.fixture_push;
    let (name, stretch_m) = farthest(plan, exact)?;
    let shown = |m: f64| Amount::Distance(m).shown(plan.units);
    let told = format!(
        "For its working load {name} would stretch by {} more; stretched by no more than {} the straps hold {}",
        shown(stretch_m),
        shown(STRETCHES_M[0]),
        of_weight(near)
    );
    let borne = |within: Decision| within.reserve().is_some_and(|reserve| reserve.multiplier >= asked);
    if far == Decision::NotLimited || borne(far) {
        return Some((State::Near, format!("{told}.")));
    }
    let helps = "Draw the straps tighter, take stiffer ones, or set the supports wider.";
    Some((State::Fails, format!("{told}, by no more than {} {}. {helps}", shown(STRETCHES_M[1]), of_weight(far))))
}

fn least(exact: &Exact, which: usize) -> Decision {
    let governing = weakest(&exact.fixture, |fixture| fixture.push_within[which].unwrap_or(fixture.push));
    governing.map_or(Decision::NotLimited, |(_, fixture)| fixture.push_within[which].unwrap_or(fixture.push))
}

fn of_weight(push: Decision) -> String {
    match push.reserve() {
        Some(reserve) => format!("a push of {:.2}", reserve.multiplier),
        None if push == Decision::Falls => "nothing: it goes over".to_owned(),
        None => "what was not decided: take it for nothing".to_owned(),
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
