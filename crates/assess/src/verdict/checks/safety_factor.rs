//! Is the factor between limit and ultimate load the one of the rule? Another one may be right, where
//! another rule asks for it; a slip of it makes every later figure wrong alike.

use crate::source::Rule;
use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::standard::{SafetyParagraph, Standard};
use plan::{LoadCase, Plan};

/// Ultimate over limit load. Source key `cfr-23-303`.
const OF_THE_RULE: f64 = 1.5;
/// Below this ultimate load would be less than limit load. `own derivation`, from what the words mean.
const LEAST: f64 = 1.0;

fn is_of_the_rule(case: &LoadCase) -> bool {
    (case.safety_factor - OF_THE_RULE).abs() < 1e-9
}

/// Whether the case was started from a rule with this paragraph, and still has its factor. Where the basis is the
/// builder's own, nobody says that the factor is that rule's.
pub(super) fn quotes_the_rule(case: &LoadCase) -> bool {
    let started = |rule: &Standard| case.from_rule.as_ref().is_some_and(|from| from.rule == rule.name);
    let quoted = Standard::all().iter().any(|rule| started(rule) && rule.asks_by == SafetyParagraph::Part23);
    quoted && is_of_the_rule(case)
}

pub(super) fn check(plan: &Plan, _: &Assessment) -> Vec<Finding> {
    let Some(case) = plan.case_in_hand().filter(|case| !is_of_the_rule(case)) else { return Vec::new() };
    let means = match case.safety_factor {
        factor if factor < LEAST => "ultimate load would be less than limit load",
        factor if factor < OF_THE_RULE => "less is proved than the rules for light aircraft ask",
        _ => "the article is loaded beyond what the rules for light aircraft ask",
    };
    let text = format!(
        "The factor of safety of {} is {}, where the rules for light aircraft have {OF_THE_RULE}: {means}. Enter {OF_THE_RULE}, \
         or say in the basis which rule asks for another.",
        case.name, case.safety_factor
    );
    vec![Finding {
        check: Check::FactorOfSafety,
        // Another rule may ask for another factor: 1.0 for loads that are given as ultimate.
        state: if case.safety_factor < LEAST { State::Fails } else { State::Caution },
        value: Some(Amount::Ratio(case.safety_factor)),
        limit: Some(Amount::Ratio(LEAST)),
        place: Where::LoadCase,
        text,
        sources: &[Source::Rule(Rule::FactorOfSafety)],
    }]
}
