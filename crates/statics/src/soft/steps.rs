//! Every state on the way up, several at once. Each is solved by itself from closed beds, so that one thread
//! and many give the same numbers, bit by bit.

use super::blow::stiffness_under;
use super::given::SoftStack;
use super::push::{PushEnd, bears_while, push_limit_while};
use super::state::{Moved, SoftEnd, at_rest, settle};
use crate::recall::Recalled;
use rayon::prelude::*;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};

/// The state after a placement.
#[derive(Debug, Clone, PartialEq)]
pub struct SoftStep {
    /// How many pieces lie.
    pub step: usize,
    /// How it ended.
    pub end: SoftEnd,
}

/// The push limit after a placement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PushStep {
    /// How many pieces lie.
    pub step: usize,
    /// How it ended.
    pub end: PushEnd,
}

/// The state after every placement, in order, straps from their step on.
///
/// `progress` hears the part that is done, and says whether to go on: after a `false` what has not been
/// decided yet comes back as not decided. It is called on the calling thread.
pub fn every_step(given: &SoftStack, progress: &dyn Fn(f64) -> bool) -> Vec<SoftStep> {
    let steps: Vec<usize> = (1..=given.count()).collect();
    let recalled = Recalled::of(given.recall.map(|recall| &recall.states), || given.marks());
    beside(&steps, progress, |step, wanted| {
        let find = || if wanted() { settle(given, step).0 } else { SoftEnd::NotDecided { residual: None } };
        SoftStep { step, end: recalled.or((step, &[]), wanted, find) }
    })
}

/// The soft push limit at the given steps, in their order; `progress` as for [`every_step`]. A step that the stack
/// has not is not decided. A push limit costs some twenty times what its state costs: ask for it where it can
/// be least ([`weakest`], the holds, the last piece of each layer).
pub fn push_limits(given: &SoftStack, steps: &[usize], progress: &dyn Fn(f64) -> bool) -> Vec<PushStep> {
    let recalled = Recalled::of(given.recall.map(|recall| &recall.pushes), || given.marks());
    beside(steps, progress, |step, wanted| {
        let is_there = (1..=given.count()).contains(&step);
        let find = || if is_there && wanted() { push_limit_while(given, step, wanted) } else { PushEnd::NotDecided };
        PushStep { step, end: recalled.or((step, &[]), wanted, find) }
    })
}

/// Whether the stack bears a push (part of the weight) whichever way it points, at each of the given steps, in their
/// order; none where that is not decided. `progress` as for [`every_step`]. It costs a small part of the push limit.
pub fn bears(given: &SoftStack, steps: &[usize], push: f64, progress: &dyn Fn(f64) -> bool) -> Vec<Option<bool>> {
    let recalled = Recalled::of(given.recall.map(|recall| &recall.bears), || given.marks());
    beside(steps, progress, |step, wanted| {
        let is_there = (1..=given.count()).contains(&step);
        let find = || if is_there && wanted() { bears_while(given, step, push, wanted) } else { None };
        recalled.or((step, &[push]), wanted, find)
    })
}

/// How the pieces moved in the state after every placement, in order; see [`at_rest`].
pub fn moved(given: &SoftStack) -> Vec<Vec<Moved>> {
    let recalled = Recalled::of(given.recall.map(|recall| &recall.moved), || given.marks());
    let one = |step: usize| recalled.or((step, &[]), &|| true, || at_rest(given, step).moved);
    (1..=given.count()).into_par_iter().map(one).collect()
}

/// What each piece meets when it is set down; see [`stiffness_under`].
pub fn stiffnesses_under(given: &SoftStack) -> Vec<Option<f64>> {
    let recalled = Recalled::of(given.recall.map(|recall| &recall.under), || given.marks());
    let one = |step: usize| recalled.or((step, &[]), &|| true, || stiffness_under(given, step));
    (1..=given.count()).into_par_iter().map(one).collect()
}

/// The steps of lowest critical load factor, the lowest first, at most so many; those that do not stand are
/// left out, because they have no push limit.
pub fn weakest(steps: &[SoftStep], count: usize) -> Vec<usize> {
    let standing = steps.iter().filter_map(|step| Some((step.end.rest()?.critical, step.step)));
    let mut standing: Vec<(f64, usize)> = standing.collect();
    standing.sort_by(|a, b| a.0.total_cmp(&b.0));
    standing.into_iter().take(count).map(|(_, step)| step).collect()
}

/// Works on every step, several at once, and tells how far it got.
fn beside<T: Send>(
    steps: &[usize],
    progress: &dyn Fn(f64) -> bool,
    work: impl Fn(usize, &dyn Fn() -> bool) -> T + Sync,
) -> Vec<T> {
    // Asked before any work begins, so that a stop is heard however fast the work is.
    let (stopped, (sender, receiver)) = (AtomicBool::new(!progress(0.0)), channel());
    let done = std::thread::scope(|scope| {
        let worker = scope.spawn(|| all(steps, &stopped, sender, &work));
        listen(steps, &receiver, progress, &stopped);
        worker.join()
    });
    done.unwrap_or_else(|panic| std::panic::resume_unwind(panic))
}

fn all<T: Send>(
    steps: &[usize],
    stopped: &AtomicBool,
    sender: Sender<usize>,
    work: &(impl Fn(usize, &dyn Fn() -> bool) -> T + Sync),
) -> Vec<T> {
    let one = |sender: &mut Sender<usize>, &step: &usize| {
        let done = work(step, &|| !stopped.load(Ordering::Relaxed));
        // Nobody listens any more only if the caller's thread has panicked: then it does not matter.
        let _ = sender.send(step);
        done
    };
    steps.par_iter().with_max_len(1).map_with(sender, one).collect()
}

/// Passes on how far it got, until the last step is over. A step costs about in proportion to its pieces.
fn listen(steps: &[usize], receiver: &Receiver<usize>, progress: &dyn Fn(f64) -> bool, stopped: &AtomicBool) {
    let weight = |step: usize| f64::from(u32::try_from(step).unwrap_or(u32::MAX));
    let whole: f64 = steps.iter().map(|&step| weight(step)).sum();
    let mut done = 0.0;
    for step in receiver {
        done += weight(step);
        if !stopped.load(Ordering::Relaxed) && !progress(done / whole) {
            stopped.store(true, Ordering::Relaxed);
        }
    }
}
