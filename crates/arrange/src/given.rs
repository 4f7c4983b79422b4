//! The plan's own stack: its places in a better order, or drawn over the occupant point.

use crate::improve::{Aim, Search, reordered};
use crate::judge::judge;
use crate::proposal::{Kind, Proposal};
use crate::task::{Put, Task};
use crate::wish::{Heard, Hearing, Wish};
use fastrand::Rng;
use plan::Plan;

/// The plan's own places in the order that is steadiest at every step.
pub fn order(plan: &Plan, wish: &Wish, hearing: &Hearing) -> Option<Proposal> {
    let task = Task::with_stack(plan);
    let go_on = || hearing(&Heard { done: 0.5, best: None });
    let stack = task.kept.clone();
    let again = reordered(&task, &stack, &go_on);
    let better = |a: Vec<Put>, b: Vec<Put>| {
        if judge(&task, &b).worth(&task) < judge(&task, &a).worth(&task) { b } else { a }
    };
    let random = &mut Rng::with_seed(wish.seed);
    let search = Search::new(&task, better(stack, again), Aim::Order).run(rounds_of(plan), random, &go_on);
    let places = task.places(&search.stack);
    Proposal::of(plan, (Kind::Ordered, places), &[], &go_on)
}

/// The plan's own order and bonding, its layers shifted and its weighed pieces exchanged until the
/// offset vanishes, as far as that goes.
pub fn trim(plan: &Plan, wish: &Wish, hearing: &Hearing) -> Option<Proposal> {
    let task = Task::with_stack(plan);
    let go_on = || hearing(&Heard { done: 0.5, best: None });
    let before = judge(&task, &task.kept);
    let aim = Aim::Offset { pile: &before.pile, margin: before.margin };
    let random = &mut Rng::with_seed(wish.seed);
    let search = Search::new(&task, task.kept.clone(), aim).run(2 * rounds_of(plan), random, &go_on);
    let places = task.places(&search.stack);
    Proposal::of(plan, (Kind::Trimmed, places), &[], &go_on)
}

fn rounds_of(plan: &Plan) -> usize {
    (40_000 / plan.stack.len().max(1)).clamp(200, 1000)
}
