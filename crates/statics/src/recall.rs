//! Answers that were found before, by all that they are functions of.
//!
//! A stack that was edited passes through many states that it passed through before the edit: those before the piece
//! that was edited, for one. A [`Mark`] is made of every bit that goes into a solve, never of a name, so that an answer
//! is given again only where the very same would be worked out.

use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::sync::{Mutex, MutexGuard, PoisonError};

/// So many rounds an answer is kept since it was asked for last.
const ROUNDS: u64 = 12;

/// What stands for a question: equal where every number in it is the same, to the last bit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Mark([u8; 32]);

impl Mark {
    /// The mark of a question about the same with these numbers more.
    pub fn with(self, more: &[f64]) -> Mark {
        let mut marker = Marker::default();
        marker.bytes.extend(self.0);
        marker.reals(more);
        marker.mark()
    }
}

/// Takes down what a question is made of, in a fixed order.
#[derive(Clone, Default)]
pub struct Marker {
    digest: Sha256,
    bytes: Vec<u8>,
}

impl Marker {
    /// Numbers, each by its bits.
    pub fn reals(&mut self, reals: &[f64]) {
        reals.iter().for_each(|real| self.bytes.extend(real.to_bits().to_le_bytes()));
    }

    /// A count, a place in a list, or the length of one.
    pub fn count(&mut self, count: usize) {
        self.bytes.extend((count as u64).to_le_bytes());
    }

    /// Yes or no.
    pub fn flag(&mut self, flag: bool) {
        self.bytes.push(u8::from(flag));
    }

    /// A number that may be missing.
    pub fn maybe(&mut self, real: Option<f64>) {
        self.flag(real.is_some());
        self.reals(real.as_slice());
    }

    /// The mark of all that was taken down so far; more may follow.
    pub fn mark(&mut self) -> Mark {
        self.digest.update(std::mem::take(&mut self.bytes));
        Mark(self.digest.clone().finalize().into())
    }
}

/// Answers of one kind.
#[derive(Debug)]
pub struct Answers<T>(Mutex<Kept<T>>);

#[derive(Debug)]
struct Kept<T> {
    round: u64,
    /// With the round in which each was asked for last.
    answers: BTreeMap<Mark, (u64, T)>,
}

impl<T> Default for Answers<T> {
    fn default() -> Self {
        Self(Mutex::new(Kept { round: 0, answers: BTreeMap::new() }))
    }
}

impl<T: Clone> Answers<T> {
    /// The answer that was found to a question, if it is still kept.
    pub fn get(&self, mark: &Mark) -> Option<T> {
        let mut kept = self.kept();
        let now = kept.round;
        let (round, answer) = kept.answers.get_mut(mark)?;
        *round = now;
        Some(answer.clone())
    }

    /// Keeps an answer. What a stop cut short is none.
    pub fn put(&self, mark: Mark, answer: T) {
        let mut kept = self.kept();
        let round = kept.round;
        kept.answers.insert(mark, (round, answer));
    }

    /// Another stack is asked about: what was not asked for in a dozen rounds goes.
    pub fn next_round(&self) {
        let mut kept = self.kept();
        kept.round += 1;
        let oldest = kept.round.saturating_sub(ROUNDS);
        kept.answers.retain(|_, (round, _)| *round >= oldest);
    }

    /// How many are kept.
    pub fn count(&self) -> usize {
        self.kept().answers.len()
    }

    /// An answer is put in whole or not at all: one that a panic passed by is as good as before.
    fn kept(&self) -> MutexGuard<'_, Kept<T>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// Answers for the states of one stack, each by the mark of its first pieces; none where nothing is kept.
pub(crate) struct Recalled<'a, T>(Option<(&'a Answers<T>, Vec<Mark>)>);

impl<'a, T: Clone> Recalled<'a, T> {
    /// `marks`: one for each number of placements, from 0 on.
    pub(crate) fn of(answers: Option<&'a Answers<T>>, marks: impl FnOnce() -> Vec<Mark>) -> Recalled<'a, T> {
        Recalled(answers.map(|answers| (answers, marks())))
    }

    /// The answer to a question of the state after so many placements.
    pub(crate) fn get(&self, step: usize, question: &[f64]) -> Option<T> {
        let (answers, marks) = self.0.as_ref()?;
        answers.get(&marks.get(step)?.with(question))
    }

    pub(crate) fn put(&self, step: usize, question: &[f64], answer: &T) {
        if let Some((answers, marks)) = &self.0
            && let Some(mark) = marks.get(step)
        {
            answers.put(mark.with(question), answer.clone());
        }
    }

    /// The answer that was found before, or what is found now; that is kept unless it was cut short.
    pub(crate) fn or(
        &self,
        (step, question): (usize, &[f64]),
        wanted: &dyn Fn() -> bool,
        find: impl FnOnce() -> T,
    ) -> T {
        self.get(step, question).unwrap_or_else(|| {
            let found = find();
            if wanted() {
                self.put(step, question, &found);
            }
            found
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mark(reals: &[f64]) -> Mark {
        let mut marker = Marker::default();
        marker.reals(reals);
        marker.mark()
    }

    #[test]
    fn a_mark_tells_the_last_bit_and_the_sign_of_nothing() {
        assert_eq!(mark(&[1.5, 2.5]), mark(&[1.5, 2.5]), "the same numbers");
        assert_ne!(mark(&[1.0]), mark(&[1.0 + f64::EPSILON]), "the last bit");
        assert_ne!(mark(&[0.0]), mark(&[-0.0]), "the sign of nothing");
        assert_ne!(mark(&[1.0, 2.0]), mark(&[2.0, 1.0]), "the order");
        assert_ne!(mark(&[1.0]).with(&[2.0]), mark(&[1.0]), "a number more");
    }

    #[test]
    fn a_marker_goes_on_after_each_mark() {
        let mut marker = Marker::default();
        marker.reals(&[1.0]);
        let first = marker.mark();
        marker.reals(&[2.0]);
        assert_eq!(first, mark(&[1.0]), "the first part alone");
        assert_eq!(marker.mark(), mark(&[1.0, 2.0]), "both parts");
    }

    #[test]
    fn an_answer_goes_when_nobody_asked_for_it_for_a_dozen_rounds() {
        let answers = Answers::default();
        let [asked, left] = [mark(&[1.0]), mark(&[2.0])];
        answers.put(asked, 1);
        answers.put(left, 2);
        for round in 1..=ROUNDS + 1 {
            answers.next_round();
            assert_eq!(answers.get(&asked), Some(1), "round {round}, asked for in each");
        }
        assert_eq!(answers.get(&left), None, "nobody asked");
        assert_eq!(answers.count(), 1, "answers kept");
    }

    #[test]
    fn what_was_cut_short_is_not_kept() {
        let answers = Answers::default();
        let recalled = Recalled::of(Some(&answers), || vec![mark(&[0.0])]);
        assert_eq!(recalled.or((0, &[]), &|| false, || 7), 7, "the part that was found");
        assert_eq!(recalled.or((0, &[]), &|| true, || 8), 8, "found anew");
        assert_eq!(recalled.or((0, &[]), &|| true, || 9), 8, "kept");
    }
}
