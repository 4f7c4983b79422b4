//! What is reckoned from a day beside the window: it takes solvers.

use super::back::Back;
use assess::{Ask, Closed};
use std::sync::Arc;
use testday::{Account, Cause, Day, Next, Outlook, Range, Stage, WayBack, diagnose};

/// What is reckoned from a day, for as many lines as it had then.
pub(super) struct Worked {
    pub(super) lines: usize,
    pub(super) account: Account,
    pub(super) causes: Vec<Cause>,
    /// Where the pieces of the stack as done lie.
    pub(super) layout: Closed,
    /// Once pieces come off: how, and what still lies there.
    pub(super) back: Option<Back>,
    /// While pieces come off: what each support's scale should show with what is left.
    pub(super) due_left: Vec<Option<Range>>,
    pub(super) way_back: WayBack,
    pub(super) next: Next,
    /// The checks of the stack as done; none before they are asked for.
    pub(super) outlook: Option<Arc<Outlook>>,
}

impl Worked {
    /// Of a day with so many lines, with what was known of it before.
    pub(super) fn of(
        (lines, day): (usize, Day),
        before: Option<Account>,
        known: Option<Arc<Outlook>>,
        (mut way_back, back): (WayBack, Option<Back>),
    ) -> Self {
        let next = day.next_by(&mut way_back);
        let account = before.map_or_else(|| Account::of_day(day.clone()), |before| before.go_on(day.clone()));
        let fits = account.judged_now().is_none_or(|judged| judged.fits());
        let course = account.courses.last().filter(|_| !fits);
        let causes = course.map_or_else(Vec::new, |course| diagnose(account.day.run(), course));
        let comes_off = matches!(account.day.run().stage, Stage::Unloading | Stage::Done);
        let due_left = if comes_off { account.due_left() } else { Vec::new() };
        let outlook = known.filter(|known| known.is_of(&day)).or_else(|| ahead(&day, &next));
        let layout = assess::assess(account.day.run().as_done(), Ask::closed()).closed;
        Self { lines, account, causes, layout, back, due_left, way_back, next, outlook }
    }
}

/// The checks of the stack as done, where something comes on that they may forbid, or where it is another one
/// than the plan's. It takes a solver.
fn ahead(day: &Day, next: &Next) -> Option<Arc<Outlook>> {
    let loads = matches!(next, Next::Lift { .. } | Next::Hold { .. });
    let deviates = !day.run().deviations.is_empty();
    (loads || deviates).then(|| Arc::new(Outlook::of(day)))
}
