//! Does the answer hang on how the supports give, where nobody entered that? Solved on supports so soft that nobody
//! overlooks it.

use crate::exact::SOFT_SUPPORT_N_PER_M;
use crate::verdict::when;
use crate::{Amount, Assessment, Beside, Check, Decision, Finding, Source, State, SupportsTried, Where};
use plan::Plan;
use quantity::{Grain, Quantity, Stiffness};

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let tried = assessment.exact.as_ref().and_then(|exact| exact.supports.as_ref());
    tried.map(|tried| one(plan, assessment, tried)).into_iter().collect()
}

fn one(plan: &Plan, assessment: &Assessment, tried: &SupportsTried) -> Finding {
    let soft = Stiffness::n_per_m(SOFT_SUPPORT_N_PER_M).shown(plan.units, Grain::Coarse);
    let hangs: Vec<String> =
        [offsets(plan, assessment, tried), reserve(plan, assessment, tried)].into_iter().flatten().collect();
    let names: Vec<&str> =
        plan.fixture.supports.iter().filter(|s| s.stiffness.is_none()).map(|s| s.name.as_str()).collect();
    let names = names.join(", ");
    let (state, text) = if hangs.is_empty() {
        let text = format!(
            "Nobody entered how {names} give. No verdict on offset or reserve hangs on it: tried at {soft}, which is 10 mm \
             of sinking under 100 kg, all together and each by itself. {}",
            most(plan, tried)
        );
        (State::Met, text)
    } else {
        let text = format!(
            "Nobody entered how {names} give, and the answer hangs on it. At {soft}, which is 10 mm of sinking under \
             100 kg, {}. Load the article with a known mass, read how far each support sinks, and enter the stiffness.",
            hangs.join("; ")
        );
        (State::Caution, text)
    };
    Finding {
        check: Check::SupportsGive,
        state,
        value: None,
        limit: None,
        place: Where::Fixture,
        text,
        sources: Source::STATICS,
    }
}

/// The first of the steps at which the line of action would leave its tolerance.
fn offsets(plan: &Plan, assessment: &Assessment, tried: &SupportsTried) -> Option<String> {
    let last = assessment.closed.steps.len().saturating_sub(1);
    tried.moves.iter().find_map(|(step, moves)| {
        let when = when::when(step + 1);
        let Some(moves_m) = moves else { return Some(format!("the article does not come to rest {when}")) };
        let offset_m = assessment.offset_m(*step)?;
        let hold = plan.holds.iter().zip(&assessment.closed.hold_steps).find(|(_, at)| **at == Some(*step));
        let allowed =
            hold.filter(|_| *step < last).map_or(plan.target.tolerance(), |(hold, _)| plan.tolerance_at(hold));
        let allowed_m = allowed.map(Quantity::si);
        let farther_m = [0, 1].map(|axis| (offset_m[axis].abs() + moves_m[axis]).copysign(offset_m[axis]));
        let [now, then] = [offset_m, farther_m].map(|offset_m| Beside::both(offset_m, allowed_m));
        let leaves = now.iter().zip(&then).find(|(now, then)| now.fits() && !then.fits());
        leaves.map(|(_, then)| {
            format!("{when} the line of action would be {}", then.words(plan.units, "the occupant point"))
        })
    })
}

/// Whether the reserve would fall below what is required; of bags that nobody measured also at their softest.
fn reserve(plan: &Plan, assessment: &Assessment, tried: &SupportsTried) -> Option<String> {
    let required = plan.allow.collapse;
    let bears = |decision: Decision| {
        decision == Decision::NotLimited || decision.reserve().is_some_and(|r| r.multiplier >= required)
    };
    let told = |step: usize, then: Decision, of_whom: &str| {
        let words = match then.reserve() {
            Some(reserve) => format!("would be {:.2}, required {required:.2}", reserve.multiplier),
            None => "would be none, or is not decided".to_owned(),
        };
        format!("the reserve {}{of_whom} {words}", when::when(step + 1))
    };
    let (step, then) = tried.reserve?;
    let now = assessment.reserve(step)?.least;
    if bears(now) && !bears(then) {
        return Some(told(step, then, ""));
    }
    let (step, now, then) = tried.softest?;
    (bears(now) && !bears(then)).then(|| told(step, then, ", with unmeasured bags at their softest,"))
}

/// What it changes at the most.
fn most(plan: &Plan, tried: &SupportsTried) -> String {
    let all = tried.moves.iter().filter_map(|(_, moves)| *moves);
    let most = all.fold([0.0_f64; 2], |most, moves| [most[0].max(moves[0]), most[1].max(moves[1])]);
    let [fore_aft, lateral] = most.map(|m| Amount::Distance(m).shown(plan.units));
    let reserve = tried.reserve.and_then(|(step, then)| Some((step, then.reserve()?)));
    let reserve = reserve
        .map(|(step, reserve)| format!(", and the reserve {} would be {:.2}", when::when(step + 1), reserve.multiplier))
        .unwrap_or_default();
    format!("The line of action would move {fore_aft} fore and aft and {lateral} to a side at the most{reserve}.")
}
