//! What does it ask of the people who lift the pieces? The worst lift of the stack. It says nothing on the
//! stack itself, so it is a caution at most.

use crate::closed::handling::{Advice, Heaviest, LIMITS, NEARLY_ALL_AT_RISK, SOME_AT_RISK, heaviest};
use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::Plan;
use quantity::Grain;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some(worst) = heaviest(plan, &assessment.closed) else { return Vec::new() };
    let state = if worst.lift.index > SOME_AT_RISK { State::Caution } else { State::Met };
    vec![Finding {
        check: Check::Lifting,
        state,
        value: Some(Amount::Ratio(worst.lift.index)),
        limit: None,
        place: Where::Pieces(vec![worst.lift.step]),
        text: told(plan, &worst),
        sources: &[Source::Lifting],
    }]
}

fn told(plan: &Plan, Heaviest { lift, above, of }: &Heaviest) -> String {
    let shown = |mass: quantity::Mass| quantity::Quantity::shown(mass, plan.units, Grain::Coarse);
    let by = if lift.recommended.people > 1 { " by two people, each half the load at best" } else { "" };
    let told = format!(
        "The worst lift is {}: {}{by}, {:.1} times the {} that the lifting equation recommends there",
        plan.piece_name(lift.step),
        shown(lift.mass),
        lift.index,
        shown(lift.recommended.limit)
    );
    if lift.advice() == Advice::Beyond {
        let (name, mass, by) = (plan.piece_name(lift.step), shown(lift.mass), lift.recommended.worst().meaning);
        return format!(
            "The worst lift is {name}: {mass}, out of what the lifting equation allows by {by}, however light the \
             piece; {above} of {of} pieces are above what it recommends. Stand nearer or higher, or use a hoist. {LIMITS}"
        );
    }
    match lift.index {
        index if index > NEARLY_ALL_AT_RISK => format!(
            "{told}; {above} of {of} pieces are above it. Nearly everybody is at risk of a back injury from such a \
             lift: use smaller pieces, or a hoist. {LIMITS}"
        ),
        index if index > SOME_AT_RISK => format!(
            "{told}; {above} of {of} pieces are above it. Some people are at risk of a back injury: two people for a \
             lift, smaller pieces, or a hoist. {LIMITS}"
        ),
        _ => format!("{told}."),
    }
}
