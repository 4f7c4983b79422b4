//! Columns in a stack: pieces that lie straight on one another with nothing across their joints.
//! Geometry of contacts only; whether it stands is the business of the checks.

use super::{Closed, is_board};
use plan::Plan;
use statics::Under;

/// As many pieces on one another make a column worth a word: `common practice, no source`.
const LEAST: usize = 3;

/// On what a piece rests.
#[derive(Clone, Copy)]
enum Rests {
    Nowhere,
    /// On one other piece alone.
    OnOne(usize),
    Otherwise,
}

/// The pieces (by step, lowest first) of each column: each lies on the one before it and on nothing
/// else, and is the only one that lies there. Boards are what ties columns, and end them. The
/// tallest comes first.
pub fn columns(plan: &Plan, closed: &Closed) -> Vec<Vec<usize>> {
    let steps = closed.pile.layer.len();
    let (mut carries, mut rests) = (vec![0_usize; steps], vec![Rests::Nowhere; steps]);
    for contact in &closed.pile.contacts {
        rests[contact.upper] = match (rests[contact.upper], contact.lower) {
            (Rests::Nowhere, Under::Body(lower)) => Rests::OnOne(lower),
            _ => Rests::Otherwise,
        };
        if let Under::Body(lower) = contact.lower {
            carries[lower] += 1;
        }
    }
    let below = |step: usize| match rests[step] {
        Rests::OnOne(lower) if carries[lower] == 1 && !is_board(plan, step) && !is_board(plan, lower) => Some(lower),
        _ => None,
    };
    let mut above = vec![None; steps];
    let mut feet = Vec::new();
    for step in 0..steps {
        match below(step) {
            Some(lower) => above[lower] = Some(step),
            None => feet.push(step),
        }
    }
    // Asked in every frame of a drag: a list for each of thousands of pieces would be felt there.
    let column = |foot: usize| std::iter::successors(Some(foot), |step| above[*step]);
    feet.retain(|foot| column(*foot).nth(LEAST - 1).is_some());
    let mut columns: Vec<Vec<usize>> = feet.into_iter().map(|foot| column(foot).collect()).collect();
    columns.sort_by_key(|column| std::cmp::Reverse(column.len()));
    columns
}
