//! Does each binding strap hold anything down? Over no piece it hangs in the air, and no reserve may
//! count on it.

use crate::closed::problem::Problem;
use crate::source::Field;
use crate::{Assessment, Check, Finding, Source, State, Where};
use plan::{Binding, Plan};

pub(super) fn check(plan: &Plan, _: &Assessment) -> Vec<Finding> {
    if plan.stack.is_empty() || plan.fixture.bindings.is_empty() {
        return Vec::new();
    }
    let problem = Problem::of(plan);
    let stack = problem.stack();
    // A strap that goes on before the first piece counts from that one on.
    let on_at = |binding: &Binding| (binding.after as usize).max(1);
    let pairs = plan.fixture.bindings.iter().zip(&problem.dead_pulls);
    pairs
        .map(|(binding, pull)| {
            let placed = on_at(binding);
            if placed > plan.steps() {
                return never(plan, binding);
            }
            one(plan, binding, &pull.bodies(&stack, placed))
        })
        .collect()
}

fn one(plan: &Plan, binding: &Binding, bears_on: &[usize]) -> Finding {
    let names: Vec<String> = bears_on.iter().map(|step| plan.piece_name(*step)).collect();
    let (state, text) = match names.split_last() {
        Some((last, others)) => {
            let on = if others.is_empty() { last.clone() } else { format!("{} and {last}", others.join(", ")) };
            let text = format!("The strap “{}” bears on {on} when it is put on.", binding.name);
            (State::Met, text)
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
