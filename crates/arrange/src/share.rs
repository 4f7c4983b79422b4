//! Work shared out among threads, with answers in the order of the questions.

use std::num::NonZero;
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

/// The answers to the questions 0 to `count`, in order: the same on one thread and on many. `heard`
/// hears the part that is done and says whether to go on; after a `false` the answers so far come
/// back.
pub(crate) fn share_out<A: Send>(
    count: usize,
    threads: NonZero<usize>,
    answer: &(dyn Fn(usize) -> A + Sync),
    heard: &(dyn Fn(f64) -> bool + Sync),
) -> Vec<A> {
    let (next, stopped, answers) = (AtomicUsize::new(0), AtomicBool::new(false), Mutex::new(Vec::new()));
    let work = || {
        while !stopped.load(Ordering::Relaxed) {
            let index = next.fetch_add(1, Ordering::Relaxed);
            if index >= count {
                break;
            }
            #[expect(clippy::cast_precision_loss, reason = "a few thousand questions")]
            let part = index as f64 / count as f64;
            if !heard(part) {
                stopped.store(true, Ordering::Relaxed);
                break;
            }
            let answer = answer(index);
            if let Ok(mut answers) = answers.lock() {
                answers.push((index, answer));
            }
        }
    };
    std::thread::scope(|scope| {
        for _ in 1..threads.get().min(count.max(1)) {
            scope.spawn(work);
        }
        work();
    });
    let mut answers = answers.into_inner().unwrap_or_else(std::sync::PoisonError::into_inner);
    answers.sort_by_key(|(index, _)| *index);
    answers.into_iter().map(|(_, answer)| answer).collect()
}
