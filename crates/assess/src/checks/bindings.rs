//! Does each binding strap hold anything down? Over no piece it hangs in the air, and no reserve may
//! count on it.

use crate::problem::Problem;
use crate::{Assessment, Finding, State, Where};
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
            one(plan, binding, pull.pressed(&stack, placed).map(|(step, _)| step))
        })
        .collect()
}

fn one(plan: &Plan, binding: &Binding, pressed: Option<usize>) -> Finding {
    let (state, text) = match pressed {
        Some(step) => {
            let text = format!("The strap “{}” presses {} when it is put on.", binding.name, plan.piece_name(step));
            (State::Holds, text)
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
    finding(State::Near, text)
}

fn finding(state: State, text: String) -> Finding {
    Finding {
        check: "Binding straps",
        state,
        value: None,
        limit: None,
        place: Where::Fixture,
        text,
        source: "the plan's `fixture.bindings`",
    }
}
