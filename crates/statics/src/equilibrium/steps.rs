//! Every state on the way up. The steps are taken in runs of fixed length, several runs at once: within
//! a run each state starts from the bounds of the one before. The runs depend on nothing but
//! the number of the step, so that one thread and many give the same numbers, bit by bit.

use super::front::{Front, StepEquilibrium};
use super::group::Stack;
use super::proof::Effort;
use super::shortcuts::{Shortcuts, Work};
use rayon::prelude::*;
use std::ops::RangeInclusive;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};

/// Steps of a run. Long runs learn more from one another, short ones share the work out better.
const RUN: usize = 24;

/// The verdict on the state after every placement, in order: 16 plan directions and the normals of
/// the hull's edges of every layer, dead pulls included from their step on.
///
/// `progress` hears the part that is done, and says whether to go on: after a `false` what has not
/// been decided yet comes back as not decided; so does what takes more `effort` than is given. It is
/// called on the calling thread.
///
/// Limits and sources as for the module: an upper bound of the real reserve where friction is needed.
pub fn every_step(stack: &Stack, effort: Effort, progress: &dyn Fn(f64) -> bool) -> Vec<StepEquilibrium> {
    steps_wanted(stack, &|_| true, effort, progress)
}

/// The same for those numbers of placements that are wanted; any other state may come back as not decided.
pub fn steps_wanted(
    stack: &Stack,
    is_wanted: &(dyn Fn(usize) -> bool + Sync),
    effort: Effort,
    progress: &dyn Fn(f64) -> bool,
) -> Vec<StepEquilibrium> {
    // PushDirection before any work begins, so that a stop is heard however fast the work is.
    let (stopped, (sender, receiver)) = (AtomicBool::new(!progress(0.0)), channel());
    let runs = std::thread::scope(|scope| {
        let worker = scope.spawn(|| all_runs(stack, (effort, is_wanted), &stopped, sender));
        listen(stack, &receiver, progress, &stopped);
        worker.join()
    });
    runs.unwrap_or_else(|panic| std::panic::resume_unwind(panic))
}

/// Passes on how far it got, until the last run is over.
fn listen(stack: &Stack, receiver: &Receiver<usize>, progress: &dyn Fn(f64) -> bool, stopped: &AtomicBool) {
    // A later step costs more than an earlier one, about in proportion to its pieces.
    let weight = |step: usize| f64::from(u32::try_from(step).unwrap_or(u32::MAX));
    let whole: f64 = (1..=stack.bodies.len()).map(weight).sum();
    let mut done = 0.0;
    for step in receiver {
        done += weight(step);
        if !stopped.load(Ordering::Relaxed) && !progress(done / whole) {
            stopped.store(true, Ordering::Relaxed);
        }
    }
}

/// The last runs are the longest and come first.
fn all_runs(
    stack: &Stack,
    (effort, is_wanted): (Effort, &(dyn Fn(usize) -> bool + Sync)),
    stopped: &AtomicBool,
    sender: Sender<usize>,
) -> Vec<StepEquilibrium> {
    let starts: Vec<usize> = starts(stack).rev().collect();
    let go_on = || !stopped.load(Ordering::Relaxed);
    let run = |sender: &mut Sender<usize>, start: usize| {
        // Nobody listens any more only if the caller's thread has panicked: then it does not matter.
        let done = |step: usize| {
            let _ = sender.send(step);
        };
        let steps = start..=last(stack, start);
        let mut verdicts: Vec<StepEquilibrium> = steps.clone().map(StepEquilibrium::unseen).collect();
        let mut wanted = steps.clone().filter(|step| is_wanted(*step));
        let asked = wanted.next().map(|first| first..=wanted.next_back().unwrap_or(first));
        if let Some((first, last)) = asked.clone().map(RangeInclusive::into_inner) {
            let mut front = Front::new(*stack, first, effort);
            verdicts.splice(first - start..=last - start, run(&mut front, last, &go_on, &done));
        }
        steps.filter(|step| !asked.as_ref().is_some_and(|asked| asked.contains(step))).for_each(done);
        verdicts
    };
    let mut runs: Vec<Vec<StepEquilibrium>> = starts.into_par_iter().with_max_len(1).map_with(sender, run).collect();
    runs.reverse();
    runs.into_iter().flatten().collect()
}

/// The same verdicts, found on the calling thread with these shortcuts alone, and what that took. For measuring: no
/// check asks it.
pub fn every_step_with(stack: &Stack, shortcuts: Shortcuts) -> (Vec<StepEquilibrium>, Work) {
    let mut work = Work::default();
    let of_run = |start: usize| {
        let mut front = Front::with(*stack, start, Effort::FULL, shortcuts);
        let verdicts = run(&mut front, last(stack, start), &|| true, &|_| ());
        work += front.work();
        verdicts
    };
    let verdicts = starts(stack).flat_map(of_run).collect();
    (verdicts, work)
}

/// The first step of each run.
fn starts(stack: &Stack) -> impl DoubleEndedIterator<Item = usize> + use<> {
    (0..stack.bodies.len()).step_by(RUN).map(|before| before + 1)
}

/// The last step of the run that starts so.
fn last(stack: &Stack, start: usize) -> usize {
    stack.bodies.len().min(start + RUN - 1)
}

fn run(front: &mut Front, last: usize, wanted: &dyn Fn() -> bool, done: &dyn Fn(usize)) -> Vec<StepEquilibrium> {
    let mut verdicts = Vec::with_capacity(RUN);
    for step in front.step()..=last {
        if step > front.step() {
            front.place();
        }
        let verdict = |front: &mut Front| front.verdict(&front.directions(), wanted);
        verdicts.push(if wanted() { verdict(front) } else { StepEquilibrium::unseen(step) });
        done(step);
    }
    verdicts
}
