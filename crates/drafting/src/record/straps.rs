//! The binding straps of a run: what they pulled when they went on, and when they were released.

use super::words::{piece, pulls};
use crate::page::{Book, Style};
use crate::words::heading;
use plan::{Binding, Plan};
use quantity::{Force, Grain, Quantity};
use testday::{Account, RunDone, StrapDone};

/// Said of every run that a strap of the plan goes over.
pub(super) fn on(book: &mut Book, account: &Account, run: &RunDone) {
    let bindings = &account.day.plan.fixture.bindings;
    if bindings.is_empty() || run.placed() == 0 {
        return;
    }
    heading(book, "Binding straps", 20.0);
    for (index, binding) in bindings.iter().enumerate() {
        book.paragraph(Style::BODY, &told(account, (run, run.strap(index)), binding));
    }
    let not_applied = "What a binding strap presses onto the stack is not counted as applied load.";
    book.paragraph(Style::SMALL, not_applied);
}

fn told(account: &Account, (run, done): (&RunDone, Option<&StrapDone>), binding: &Binding) -> String {
    let (plan, name) = (&account.day.plan, &binding.name);
    let due = Force::n(binding.pull.si()).shown(plan.units, Grain::Coarse);
    match done {
        Some(done) => {
            let after = done.last_on.map_or_else(String::new, |step| format!(" after {}", piece(plan, step)));
            format!(
                "“{name}” went on{after}: {}; due {due} in each leg. {}.",
                pulls(done.pulls_n, plan),
                off(run, done)
            )
        }
        None if account.day.asks_for_straps() => format!("“{name}” was not put on; due {due} in each leg."),
        None => {
            format!("Whether “{name}” was put on is not known: this log does not ask for it. Due {due} in each leg.")
        }
    }
}

fn off(run: &RunDone, done: &StrapDone) -> String {
    match done.released_after.map(|off| run.off.get(off)) {
        Some(Some(next)) => format!("It was released before step {} came off", run.step_of(*next) + 1),
        Some(None) => "It was released".to_owned(),
        None => "Its release was not entered".to_owned(),
    }
}

/// What the first page says: straps of which the pull was not read, or of which nothing is known.
pub(super) fn not_known(account: &Account) -> Option<String> {
    let plan: &Plan = &account.day.plan;
    let runs = || account.day.runs.iter().filter(|run| run.placed() > 0);
    let of = |(index, binding): (usize, &Binding)| {
        let mut done = runs().map(|run| run.strap(index));
        let unread = done.any(|done| done.is_none_or(|done| done.pulls_n.is_none()));
        unread.then(|| format!("“{}”", binding.name))
    };
    let names: Vec<_> = plan.fixture.bindings.iter().enumerate().filter_map(of).collect();
    (!names.is_empty() && runs().next().is_some())
        .then(|| format!("the pull of {} was not read in every run: what they held is not known", names.join(", ")))
}
