//! Columns in a stack: pieces that lie straight on one another with nothing across their joints.
//! Geometry of contacts only; whether it stands is the business of the checks.

use super::{Closed, is_board};
use plan::Plan;
use statics::Under;

/// As many pieces on one another make a column worth a word: `common practice, no source`.
const LEAST: usize = 3;

/// The pieces (by step, lowest first) of each column: each lies on the one before it and on nothing
/// else, and is the only one that lies there. Boards are what ties columns, and end them. The
/// tallest comes first.
pub fn columns(plan: &Plan, closed: &Closed) -> Vec<Vec<usize>> {
    let steps = closed.pile.layer.len();
    let (mut carries, mut lies_on) = (vec![0_usize; steps], vec![Vec::new(); steps]);
    for contact in &closed.pile.contacts {
        lies_on[contact.upper].push(contact.lower);
        if let Under::Body(lower) = contact.lower {
            carries[lower] += 1;
        }
    }
    let below = |step: usize| match lies_on[step].as_slice() {
        [Under::Body(lower)] if carries[*lower] == 1 && !is_board(plan, step) && !is_board(plan, *lower) => {
            Some(*lower)
        }
        _ => None,
    };
    let mut columns: Vec<Vec<usize>> = Vec::new();
    for step in 0..steps {
        // A piece rests on earlier ones, so that its column is there already.
        match below(step).and_then(|lower| columns.iter().position(|column| column.last() == Some(&lower))) {
            Some(column) => columns[column].push(step),
            None => columns.push(vec![step]),
        }
    }
    columns.retain(|column| column.len() >= LEAST);
    columns.sort_by_key(|column| std::cmp::Reverse(column.len()));
    columns
}
