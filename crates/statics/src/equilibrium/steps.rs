//! Every state on the way up. The steps are taken in runs of fixed length, several runs at once: within
//! a run each state starts from the bounds of the one before. The runs depend on nothing but
//! the number of the step, so that one thread and many give the same numbers, bit by bit.

use super::front::{Front, StepEquilibrium};
use super::group::Stack;
use super::proof::Effort;
use super::shortcuts::{Shortcuts, Work};
use crate::recall::{Answers, Recalled};
use rayon::prelude::*;
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
    steps_wanted(stack, &|_| true, effort, None, progress)
}

/// The same for those numbers of placements that are wanted; any other state may come back as not decided. What is
/// among the `answers` is not worked out again, and what is worked out is kept there: with them and without, the verdicts
/// are the same, bit by bit.
pub fn steps_wanted(
    stack: &Stack,
    is_wanted: &(dyn Fn(usize) -> bool + Sync),
    effort: Effort,
    answers: Option<&Answers<StepEquilibrium>>,
    progress: &dyn Fn(f64) -> bool,
) -> Vec<StepEquilibrium> {
    // PushDirection before any work begins, so that a stop is heard however fast the work is.
    let (stopped, (sender, receiver)) = (AtomicBool::new(!progress(0.0)), channel());
    let asked = Asked { stack: *stack, is_wanted, effort, recalled: Recalled::of(answers, || stack.marks()) };
    let runs = std::thread::scope(|scope| {
        let worker = scope.spawn(|| asked.all_runs(&stopped, sender));
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

/// What is asked of the states of a stack.
struct Asked<'a> {
    stack: Stack<'a>,
    is_wanted: &'a (dyn Fn(usize) -> bool + Sync),
    effort: Effort,
    recalled: Recalled<'a, StepEquilibrium>,
}

impl Asked<'_> {
    /// The last runs are the longest and come first.
    fn all_runs(&self, stopped: &AtomicBool, sender: Sender<usize>) -> Vec<StepEquilibrium> {
        let starts: Vec<usize> = starts(&self.stack).rev().collect();
        let go_on = || !stopped.load(Ordering::Relaxed);
        let of_run = |sender: &mut Sender<usize>, start: usize| {
            // Nobody listens any more only if the caller's thread has panicked: then it does not matter.
            let done = |step: usize| {
                let _ = sender.send(step);
            };
            let steps = start..=last(&self.stack, start);
            let mut verdicts: Vec<StepEquilibrium> = steps.clone().map(StepEquilibrium::unseen).collect();
            let mut wanted = steps.clone().filter(|step| (self.is_wanted)(*step));
            let mut solved = 0..0;
            if let Some(first) = wanted.next() {
                let found = self.run(first, wanted.next_back().unwrap_or(first), &go_on, &done);
                solved = first..first + found.len();
                verdicts.splice(first - start..solved.end - start, found);
            }
            steps.filter(|step| !solved.contains(step)).for_each(done);
            verdicts
        };
        let runs = starts.into_par_iter().with_max_len(1).map_with(sender, of_run);
        let mut runs: Vec<Vec<StepEquilibrium>> = runs.collect();
        runs.reverse();
        runs.into_iter().flatten().collect()
    }

    /// The verdicts from the first of these steps to the last one.
    fn run(&self, first: usize, last: usize, go_on: &dyn Fn() -> bool, done: &dyn Fn(usize)) -> Vec<StepEquilibrium> {
        let steps = first..=last;
        let question = self.question(first);
        let mut verdicts: Vec<Option<StepEquilibrium>> =
            steps.clone().map(|step| self.recalled.get(step, &question)).collect();
        // Each starts from the bounds of the one before: all before the last open one are worked out again.
        let open = verdicts.iter().rposition(Option::is_none).map_or(0, |at| at + 1);
        if open > 0 {
            let found = run(&mut Front::new(self.stack, first, self.effort), first + open - 1, go_on, done);
            if go_on() {
                found.iter().for_each(|verdict| self.recalled.put(verdict.step, &question, verdict));
            }
            verdicts.splice(..open, found.into_iter().map(Some));
        }
        steps.clone().skip(open).for_each(done);
        verdicts
            .into_iter()
            .zip(steps)
            .map(|(verdict, step)| verdict.unwrap_or(StepEquilibrium::unseen(step)))
            .collect()
    }

    /// What a verdict hangs on beside the pieces: the step at which its run begins, and the effort.
    fn question(&self, first: usize) -> [f64; 3] {
        #[expect(clippy::cast_precision_loss, reason = "a count of pieces is far below 2^52")]
        let first = first as f64;
        [first, f64::from(self.effort.own), f64::from(self.effort.general)]
    }
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
