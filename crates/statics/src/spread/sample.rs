//! Drawing many stacks, on as many threads as are given, with the same numbers on any.

use super::model::{Drawn, Model, Question, Room};
use super::outcome::{Limits, Outcome};
use super::random::Random;
use std::num::NonZero;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::thread;

/// Draws of one block: the stream of random numbers starts anew at each.
const BLOCK: usize = 500;

/// How many draws, from which seed, on how many threads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Draw {
    /// How many stacks.
    pub draws: NonZero<usize>,
    /// Where the random numbers start.
    pub seed: u64,
    /// Threads; they change nothing but the time it takes.
    pub threads: NonZero<usize>,
}

/// Looked at by the threads that draw, and by whoever waits for them.
#[derive(Debug, Default)]
pub struct Watch {
    stop: AtomicBool,
    done: AtomicUsize,
}

impl Watch {
    /// Asks the drawing to end; it does within one block.
    pub fn stop(&self) {
        self.stop.store(true, Ordering::Relaxed);
    }

    /// Stacks drawn so far.
    pub fn done(&self) -> usize {
        self.done.load(Ordering::Relaxed)
    }
}

/// The end of a drawing.
#[derive(Debug, Clone, PartialEq)]
pub enum Sampled {
    /// All were drawn.
    Drawn(Box<Outcome>),
    /// It was asked to stop; nothing is told of a part.
    Stopped,
    /// There is nothing to draw: no weight, or numbers that cannot be used.
    Nothing,
}

impl Sampled {
    /// The outcome, where there is one.
    pub fn outcome(&self) -> Option<&Outcome> {
        match self {
            Sampled::Drawn(outcome) => Some(outcome),
            _ => None,
        }
    }
}

/// Draws stacks: each piece's mass normal about its own (never below 0), each place normal about the
/// planned one along both axes of the bed, and in each the applied load, the offset of the line of
/// action, and the least tip multiplier over the cuts of the finished stack.
///
/// The same seed gives the same numbers whatever the threads: each block of draws has its own
/// stream. Source: `own derivation`. Limits: the finished stack, not the way up; the closed tip
/// form, an upper bound of the real reserve for contacts in one plane and a cautious reading at two
/// heights; the contacts of the plan, moved and lost but never gained (see the cut); pieces do not
/// ride on one another's errors: each is put down by the datum, as the sheet says.
pub fn sample(question: &Question, limits: &Limits, draw: &Draw, watch: &Watch) -> Sampled {
    let Some(model) = Model::new(*question) else { return Sampled::Nothing };
    let blocks = draw.draws.get().div_ceil(BLOCK);
    let next = AtomicUsize::new(0);
    let work = || draw_blocks(&model, draw, &next, watch);
    let mut parts: Vec<(usize, Vec<Drawn>)> = thread::scope(|scope| {
        let workers: Vec<_> = (1..draw.threads.get().min(blocks)).map(|_| scope.spawn(work)).collect();
        let mut parts = work();
        for worker in workers {
            parts.extend(worker.join().expect("drawing does not panic"));
        }
        parts
    });
    if watch.stop.load(Ordering::Relaxed) {
        return Sampled::Stopped;
    }
    parts.sort_by_key(|(block, _)| *block);
    let drawn: Vec<Drawn> = parts.into_iter().flat_map(|(_, part)| part).collect();
    Sampled::Drawn(Box::new(Outcome::of(&drawn, limits, model.has_margins())))
}

/// Takes blocks as long as there are any.
fn draw_blocks(model: &Model, draw: &Draw, next: &AtomicUsize, watch: &Watch) -> Vec<(usize, Vec<Drawn>)> {
    let (mut parts, mut room) = (Vec::new(), Room::default());
    loop {
        let block = next.fetch_add(1, Ordering::Relaxed);
        let left = draw.draws.get().saturating_sub(block * BLOCK).min(BLOCK);
        if left == 0 || watch.stop.load(Ordering::Relaxed) {
            return parts;
        }
        let mut random = Random::of_block(draw.seed, block as u64);
        parts.push((block, (0..left).map(|_| model.draw(&mut random, &mut room)).collect()));
        watch.done.fetch_add(left, Ordering::Relaxed);
    }
}
