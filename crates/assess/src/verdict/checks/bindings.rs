//! Does each binding strap hold anything down? Over no piece it hangs in the air, and no reserve may
//! count on it.

use crate::closed::problem::Problem;
use crate::source::Field;
use crate::told;
use crate::{Assessment, Check, Finding, Source, State, StrapLeft, Where};
use plan::{Binding, Plan};
use quantity::{Force, Grain, Length, Quantity};

/// Where less than this share of a pull is left it is a caution: `common practice, no source`.
const LOOK_SHARE: f64 = 0.5;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    if plan.stack.is_empty() || plan.fixture.bindings.is_empty() {
        return Vec::new();
    }
    let problem = Problem::of(plan);
    let stack = problem.stack();
    // A strap that goes on before the first piece counts from that one on.
    let on_at = |binding: &Binding| (binding.after as usize).max(1);
    let soft = assessment.exact.as_ref().and_then(|exact| exact.soft.as_ref());
    let pairs = plan.fixture.bindings.iter().zip(&problem.dead_pulls).enumerate();
    pairs
        .map(|(index, (binding, pull))| {
            let placed = on_at(binding);
            if placed > plan.steps() {
                return never(plan, binding);
            }
            let left = soft.and_then(|soft| soft.straps.get(index));
            one(plan, binding, (&pull.bodies(&stack, placed), left))
        })
        .collect()
}

fn one(plan: &Plan, binding: &Binding, (bears_on, left): (&[usize], Option<&StrapLeft>)) -> Finding {
    let names: Vec<String> = bears_on.iter().map(|step| plan.piece_name(*step)).collect();
    let (state, text) = match names.split_last() {
        Some((last, others)) => {
            let on = if others.is_empty() { last.clone() } else { format!("{} and {last}", others.join(", ")) };
            let text = format!("The strap “{}” bears on {on} when it is put on.", binding.name);
            match left.map(|left| counts(plan, binding, left)) {
                Some((state, counts)) => (state, format!("{text} {counts}")),
                None => (State::Met, text),
            }
        }
        None => {
            let text = format!(
                "The strap “{}” goes on after step {} and crosses no piece there: it holds nothing down. Move it over the stack, or remove it.",
                binding.name, binding.after
            );
            (State::Fails, text)
        }
    };
    finding(state, text)
}

/// As load it counts whole; as reserve with what the sinking stack leaves of it.
fn counts(plan: &Plan, binding: &Binding, left: &StrapLeft) -> (State, String) {
    let force = |n: f64| Force::n(n).shown(plan.units, Grain::Coarse);
    let drawn_n = 2.0 * binding.pull.si();
    let state = if left.force_n < LOOK_SHARE * drawn_n { State::Caution } else { State::Met };
    let (drawn, kept) = (force(drawn_n), force(left.force_n));
    let text = match left.sinks_m {
        Some(sinks_m) => format!(
            "As load all its pull counts, {drawn} in both legs. The stack sinks {} under it after that, so that the \
             reserve counts on {kept} of it.",
            told::significant(Length::m(sinks_m), plan.units, Grain::Fine)
        ),
        None => format!(
            "As load all its pull counts, {drawn} in both legs. The stack does not stand under it as its bags give, so \
             that the reserve counts on nothing of it."
        ),
    };
    (state, text)
}

fn never(plan: &Plan, binding: &Binding) -> Finding {
    let text = format!(
        "The strap “{}” goes on after step {}, and the stack has {}: it is never put on, and nothing counts on it. Say on the Fixture page after which step it goes on, or remove it.",
        binding.name,
        binding.after,
        plan.steps()
    );
    finding(State::Caution, text)
}

fn finding(state: State, text: String) -> Finding {
    Finding {
        check: Check::BindingStraps,
        state,
        value: None,
        limit: None,
        place: Where::Fixture,
        text,
        sources: &[Source::Builder(Field::Bindings)],
    }
}
