//! A warning where frictions under one board differ: the limit theorems then overstate what a
//! stack can take (see the crate `statics`).

use crate::{Amount, Assessment, Check, Finding, Source, State, Where, closed::is_board};
use plan::Plan;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let mut mixed = Vec::new();
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for step in (0..plan.stack.len()).filter(|step| is_board(plan, *step)) {
        let under: Vec<f64> =
            assessment.closed.pile.contacts.iter().filter(|c| c.upper == step).map(|c| c.friction).collect();
        let least = under.iter().copied().fold(f64::INFINITY, f64::min);
        let most = under.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        if most - least > 1e-9 {
            mixed.push(step);
            (low, high) = (low.min(least), high.max(most));
        }
    }
    let Some(first) = mixed.first() else { return Vec::new() };
    let text = format!(
        "Friction under {} differs from contact to contact ({low:.2} and {high:.2}): a margin that needs friction may be overstated there. Take the lower value everywhere.",
        plan.piece_name(*first)
    );
    vec![Finding {
        check: Check::FrictionAlike,
        state: State::Caution,
        value: Some(Amount::Ratio(high - low)),
        limit: None,
        place: Where::Pieces(mixed),
        text,
        sources: Source::STATICS,
    }]
}
