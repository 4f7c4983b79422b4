//! When a state of the fixture is, counted in placements, in words and as a place to point at.

use super::finding::Where;

/// When a state of the fixture is, in words: after so many placements.
pub(super) fn when(placed: usize) -> String {
    if placed == 0 { "before the first piece".to_owned() } else { format!("after step {placed}") }
}

/// Where such a state is shown.
pub(super) fn place(placed: usize) -> Where {
    placed.checked_sub(1).map_or(Where::Fixture, |step| Where::Step { step, layer: None })
}

/// A fixture without supports, in words.
pub(super) const NO_SUPPORTS: &str =
    "The fixture has no supports: nothing carries the article. Add them on the Fixture page.";
