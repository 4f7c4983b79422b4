//! Kinds of proposals: which stack is of a kind, and what the kind puts before all other goals.

use crate::built::Built;
use crate::proposal::{Kind, Proposal};

pub(crate) fn is_of_kind(kind: Kind, built: &Built, chosen: &[(Built, Proposal)]) -> bool {
    let Some((first, _)) = chosen.first() else { return kind == Kind::Steadiest };
    let is_sound = built.judged.badly == 0 && built.judged.lacking_kg <= first.judged.lacking_kg;
    let is_new = chosen.iter().all(|(known, _)| known.print() != built.print());
    is_sound
        && is_new
        && match kind {
            Kind::FewestBoards => built.judged.boards < first.judged.boards,
            // Another in kind, not in a board more or less.
            Kind::Another => chosen.iter().all(|(known, _)| built.print().1 != known.print().1),
            Kind::Lowest => chosen.iter().all(|(known, _)| built.judged.work_j < 0.97 * known.judged.work_j),
            _ => true,
        }
}

/// What a kind puts before all goals: that it stands with something to spare, then its own.
pub(crate) fn rank(kind: Kind, built: &Built, asked: f64) -> [f64; 3] {
    #[expect(clippy::cast_precision_loss, reason = "counts of pieces")]
    let (badly, boards) = (built.judged.badly as f64, built.judged.boards as f64);
    let scarce = if built.judged.margin < 1.25 * asked { 1.0 } else { 0.0 };
    match kind {
        Kind::FewestBoards => [badly, scarce, boards],
        Kind::Lowest => [badly, scarce, built.judged.work_j],
        _ => [0.0; 3],
    }
}
