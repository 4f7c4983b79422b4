//! From a plan to a few stacks that differ in kind: survey all schemes by closed forms, improve the
//! best of each kind, let the full assessment decide.

use crate::proposal::Proposal;
use crate::scheme::Schemes;
use crate::wish::{Hearing, Wish};
use crate::work::Work;
use plan::Plan;

/// Lays out the free pieces of a plan: a few stacks that differ in kind, the steadiest first, all of
/// which hold if any does. Locked pieces stay where they are, with what carries them. `hearing`
/// hears how far it got; after a `false` what was found so far comes back. Empty only if it was
/// stopped before anything was found.
///
/// The order of the goals: every check holds; the load is reached and not passed by more than a
/// piece; the least reserve over all steps, rigid or as the bags give, up to twice what is required; the offset at
/// ultimate and at the holds; more reserve; lifting work; boards.
pub fn propose(plan: &Plan, wish: &Wish, hearing: &Hearing) -> Vec<Proposal> {
    let work = Work::on(plan, wish, hearing);
    let schemes = Schemes::of(&work.task);
    let surveyed = work.survey(&schemes);
    work.choose(surveyed)
}
