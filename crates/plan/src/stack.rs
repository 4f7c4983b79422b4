//! Placed pieces.

use quantity::Length;

/// How a piece lies: with its length along the bed's x or along its y.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// Length along x, fore and aft.
    Lengthwise,
    /// Length along y, across.
    Crosswise,
}

impl Turn {
    /// Extent along the bed's x, y and z of a piece of this length, width and thickness.
    pub fn extent(self, [length, width, thickness]: [Length; 3]) -> [Length; 3] {
        match self {
            Turn::Lengthwise => [length, width, thickness],
            Turn::Crosswise => [width, length, thickness],
        }
    }

    /// The other one.
    pub fn other(self) -> Self {
        match self {
            Turn::Lengthwise => Turn::Crosswise,
            Turn::Crosswise => Turn::Lengthwise,
        }
    }
}

/// One placement; its place in the list is its step. Heights are never stored: they follow from
/// what lies beneath.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// Name of the lot.
    pub lot: String,
    /// Item number within the lot, from 1.
    pub item: u32,
    /// Centre of the piece, bed frame.
    pub at: [Length; 2],
    /// How it lies.
    pub turn: Turn,
    /// Whether a proposal may move it.
    pub locked: bool,
}
