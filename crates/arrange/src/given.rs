//! The plan's own stack: its places in a better order, or drawn over the occupant point.

use crate::fewest::{OF_ORDER, OF_PLACES, first_as_good, moved_one_by_one, without_needless_exchanges};
use crate::improve::{Aim, Search, reordered};
use crate::judge::judge;
use crate::proposal::{Kind, Proposal};
use crate::task::{Put, Task};
use crate::wish::{Heard, Hearing, Wish};
use fastrand::Rng;
use plan::Plan;

/// The plan's own places in the order that is steadiest at every step, as few of them as may be earlier or later than they
/// were.
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
    let mut stacks = moved_one_by_one(&task, &task.kept, &go_on);
    stacks.push(search.stack);
    let places = task.places(&first_as_good(&task, OF_ORDER, stacks));
    Proposal::of(plan, (Kind::Ordered, places), &[], &go_on)
}

/// The plan's own order and bonding, its layers shifted and its weighed pieces exchanged until the
/// offset vanishes, as far as that goes and as anybody can measure: by the fewest changes that do it.
pub fn trim(plan: &Plan, wish: &Wish, hearing: &Hearing) -> Option<Proposal> {
    let task = Task::with_stack(plan);
    let go_on = || hearing(&Heard { done: 0.5, best: None });
    let before = judge(&task, &task.kept);
    let aim = Aim::Offset { pile: &before.pile, margin: before.margin };
    let random = &mut Rng::with_seed(wish.seed);
    let own = || Search::new(&task, task.kept.clone(), aim);
    let (as_one, by_layers) = (own().shifted_once().stack, own().run(0, random, &go_on).stack);
    let found = own().run(2 * rounds_of(plan), random, &go_on).stack;
    let found = without_needless_exchanges(&task, &task.kept, found);
    let places = task.places(&first_as_good(&task, OF_PLACES, vec![task.kept.clone(), as_one, by_layers, found]));
    Proposal::of(plan, (Kind::Trimmed, places), &[], &go_on)
}

fn rounds_of(plan: &Plan) -> usize {
    (40_000 / plan.stack.len().max(1)).clamp(200, 1000)
}
