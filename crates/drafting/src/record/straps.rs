//! The binding straps of a run: what they pulled when they went on, and when they were released.

use super::words::{piece, pulls};
use crate::page::{Book, Style};
use crate::words::heading;
use plan::Binding;
use quantity::{Force, Grain, Quantity};
use std::collections::BTreeSet;
use testday::{Account, RunDone, StrapDone};

/// Said of every run that a strap of the plan goes over.
pub(super) fn on(book: &mut Book, account: &Account, run: &RunDone) {
    let due: Vec<_> = due(run).collect();
    if due.is_empty() {
        return;
    }
    heading(book, "Binding straps", 20.0);
    for (index, binding) in due {
        book.paragraph(Style::BODY, &told(account, (run, run.strap(index)), binding));
    }
    let not_applied = "What a binding strap presses onto the stack is not counted as applied load.";
    book.paragraph(Style::SMALL, not_applied);
}

/// The straps that go on in a run as far as it came, with their places in the plan.
fn due(run: &RunDone) -> impl Iterator<Item = (usize, &Binding)> {
    let all = run.as_done().fixture.bindings.iter().enumerate();
    all.filter(|(_, strap)| (strap.after as usize).max(1) <= run.placed())
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
    let each = account.day.runs.iter().flat_map(|run| due(run).map(move |due| (run, due)));
    let unread = each.filter(|(run, (index, _))| run.strap(*index).is_none_or(|done| done.pulls_n.is_none()));
    let names: BTreeSet<_> = unread.map(|(_, (_, binding))| format!("“{}”", binding.name)).collect();
    let names: Vec<_> = names.into_iter().collect();
    (!names.is_empty())
        .then(|| format!("the pull of {} was not read in every run: what they held is not known", names.join(", ")))
}
