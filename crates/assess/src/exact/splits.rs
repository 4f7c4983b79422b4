//! What becomes of the stack when a board is taken as split along its length: asked once for a board, over all steps,
//! and read for every state on the way up, since the first pieces rest as they do without those that come later.

use crate::closed::problem::Problem;
use statics::equilibrium::{SplitEnd, Splitting, when_split};
use std::sync::OnceLock;

pub(crate) struct Splits<'a> {
    problem: &'a Problem,
    /// For each piece, where it was asked.
    ends: Vec<OnceLock<SplitEnd>>,
}

impl<'a> Splits<'a> {
    pub(crate) fn of(problem: &'a Problem) -> Self {
        Self { problem, ends: problem.bodies.iter().map(|_| OnceLock::new()).collect() }
    }

    /// What becomes of the first so many pieces when this board among them is in two; none where there is no such
    /// board.
    pub(super) fn end(&self, board: usize, placed: usize) -> Option<SplitEnd> {
        let whole = self.ends.get(board)?.get_or_init(|| when_split(&self.splitting(board)));
        Some(match *whole {
            SplitEnd::LetsDown { step } | SplitEnd::NotDecided { step } if step > placed => SplitEnd::Stands,
            end => end,
        })
    }

    fn splitting(&self, board: usize) -> Splitting<'_> {
        let Problem { floor_from_bed, bed, bodies, dead_pulls, .. } = self.problem;
        Splitting { bed, floor_from_bed, bodies, dead: dead_pulls, board }
    }
}
