//! How likely is it that the stack, as hands and bags make it, misses a check?

use crate::source::Field;
use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::Plan;
use quantity::{Grain, Mass, Quantity};
use statics::spread::Outcome;

/// A chance above this deserves a look: `common practice, no source`.
const LOOK: f64 = 0.05;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    if plan.stack.is_empty() {
        return Vec::new();
    }
    let Some(exact) = &assessment.exact else { return vec![Finding::not_yet(Check::ChanceToMiss)] };
    let Some(chances) = &exact.chances else { return Vec::new() };
    let (one, alike) = (chances.independent.failures.any.share(), chances.alike.failures.any.share());
    let worst = one.max(alike);
    let mass = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let spread = chances.alike.applied_kg;
    let [least, most] = [mass(spread.p5), mass(spread.p95)];
    let weigh = if least == most { format!("about {most}") } else { format!("{least} to {most}") };
    let told = format!(
        "With masses and places within their tolerances, {} of 100 stacks miss a check in the rigid model, {} if all pieces of a lot are off alike; 90 of 100 then weigh {weigh}",
        percent(one),
        percent(alike)
    );
    // Without a tip margin nobody knows how often the stack goes over.
    let known = [&chances.independent, &chances.alike].iter().all(|outcome| outcome.failures.tip.is_some());
    let state = match known {
        false => State::Undecided,
        true if worst > plan.allow.chance => State::Fails,
        true if worst > LOOK => State::Caution,
        true => State::Met,
    };
    let text = match state {
        State::Undecided => format!(
            "{told}, the tip margin left out: it is not known while a piece has nothing \
                                     under it."
        ),
        State::Met => format!("{told}."),
        _ => format!(
            "{told}. Most often it is the {}: weigh the pieces, or leave more room there.",
            most_often(&chances.independent)
        ),
    };
    vec![Finding {
        check: Check::ChanceToMiss,
        state,
        value: Some(Amount::Ratio(worst)),
        limit: Some(Amount::Ratio(plan.allow.chance)),
        place: Where::Stack,
        text,
        sources: &[Source::Builder(Field::Chance)],
    }]
}

fn percent(share: f64) -> String {
    if share > 0.0 && share < 0.01 { "fewer than 1".to_owned() } else { format!("{:.0}", share * 100.0) }
}

fn most_often(outcome: &Outcome) -> &'static str {
    let failures = &outcome.failures;
    let tip = failures.tip.map_or(1.0, |tip| tip.share());
    let shares = [
        ("applied load", failures.load.share()),
        ("fore-aft offset", failures.fore_aft.share()),
        ("lateral offset", failures.lateral.share()),
        ("tip margin", tip),
    ];
    shares.into_iter().max_by(|a, b| a.1.total_cmp(&b.1)).map_or("applied load", |(name, _)| name)
}
