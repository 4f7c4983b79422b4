//! Is it enough load? Applied mass against the ultimate load, with the masses' uncertainty.

use crate::source::{Field, Rule};
use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::Plan;
use quantity::{Grain, Mass, Quantity};

/// Above this fraction of ultimate the load is more than the test needs: `common practice, no source`.
pub(super) const NEEDLESS: f64 = 1.05;
/// The limit of what may lie on the seat, as a fraction of ultimate: beyond it the article is loaded beyond
/// what the rule asks, and may be damaged by a test that proves no more: `common practice, no source`.
pub(super) const TOO_MUCH: f64 = 1.10;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some(load) = assessment.closed.load else { return Vec::new() };
    let (applied, due) = (assessment.closed.applied_kg(), load.ultimate.as_mass().si());
    let spread = assessment.closed.applied_spread_kg;
    let (state, text) = judge(plan, applied, due, spread);
    vec![Finding {
        check: Check::AppliedLoad,
        state,
        value: Some(Amount::Mass(applied)),
        limit: Some(Amount::Mass(if is_too_much(applied, due) { due * TOO_MUCH } else { due })),
        place: Where::Stack,
        text,
        sources: sources(plan, is_too_much(applied, due)),
    }]
}

pub(super) fn is_too_much(applied: f64, due: f64) -> bool {
    applied > due * TOO_MUCH * (1.0 + 1e-9)
}

/// The factor is the rule's where the case was started from it and still has it; any other is the plan's own, as its
/// basis says. How much is too much no rule says.
fn sources(plan: &Plan, too_much: bool) -> &'static [Source] {
    match plan.case_in_hand() {
        _ if too_much => Source::PRACTICE,
        Some(case) if super::safety_factor::quotes_the_rule(case) => &[Source::Rule(Rule::FactorOfSafety)],
        _ => &[Source::Builder(Field::LoadCase)],
    }
}

fn judge(plan: &Plan, applied: f64, due: f64, spread: f64) -> (State, String) {
    let mass = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let doubt = crate::plus_minus(spread, plan.units);
    let told = format!("{} {doubt} of {} ultimate is applied", mass(applied), mass(due));
    // A billionth of slack: a load that is met on paper must not fail by the conversion's last bit.
    if applied < due * (1.0 - 1e-9) {
        let lacking = mass(due - applied);
        let enough = enough(plan, due - applied).map(|words| format!(": {words} would be enough")).unwrap_or_default();
        (State::Fails, format!("{told}: {lacking} is missing. Place more ballast, or heavier pieces{enough}."))
    } else if is_too_much(applied, due) {
        let (share, most) = (100.0 * applied / due, 100.0 * TOO_MUCH);
        let text = format!(
            "{told}, {share:.0} % of it, where {most:.0} % is the limit: the article is loaded beyond what the rule asks and may be damaged. Take pieces off the top."
        );
        (State::Fails, text)
    } else if applied - spread < due * (1.0 - 1e-9) {
        let text = format!("{told}: the masses' tolerance reaches below it. Weigh the pieces, or add one.");
        (State::Caution, text)
    } else if applied > due * NEEDLESS {
        let over = mass(applied - due);
        (State::Caution, format!("{told}: {over} more than required. Take pieces off the top."))
    } else {
        (State::Met, format!("{told}."))
    }
}

/// The fewest pieces of one lot that are left and weigh what is lacking; boards do not count, they
/// spread load.
fn enough(plan: &Plan, lacking_kg: f64) -> Option<String> {
    let needed = |lot: &plan::Lot| (lacking_kg / lot.mass.si()).ceil();
    let serves = |lot: &&plan::Lot| {
        lot.form != plan::Form::Board && lot.mass.si() > 0.0 && needed(lot) <= f64::from(plan.left_of(lot))
    };
    let lot = plan.ballast.iter().filter(serves).min_by(|a, b| needed(a).total_cmp(&needed(b)))?;
    Some(format!("{:.0} more of {} ({} are left)", needed(lot), lot.name, plan.left_of(lot)))
}
