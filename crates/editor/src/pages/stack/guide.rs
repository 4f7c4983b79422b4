//! Where a piece in hand holds, and at what.

use plan::Plan;

/// What holds a piece, along one axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Catch {
    /// It lies against this piece.
    Face(usize),
    /// Its edge or its middle is in line with that of this piece.
    InLine(usize),
    /// The same with this bearing.
    Bearing(usize),
    Centreline,
    OccupantPoint,
}

impl Catch {
    /// `against shot bag 7`.
    pub(super) fn words(self, plan: &Plan) -> String {
        match self {
            Catch::Face(step) => format!("against {}", plan.piece_name(step)),
            Catch::InLine(step) => format!("in line with {}", plan.piece_name(step)),
            Catch::Bearing(index) => format!("in line with {}", plan.bed.bearings[index].name),
            Catch::Centreline => "on the centreline".to_owned(),
            Catch::OccupantPoint => "under the occupant point".to_owned(),
        }
    }
    /// The same where it is only in line.
    pub(super) fn in_line(self) -> Self {
        if let Catch::Face(step) = self { Catch::InLine(step) } else { self }
    }
}

/// A line along which a piece snapped, bed frame, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Guide {
    /// Along which axis it fixes the place: 0 = x, 1 = y.
    pub(crate) axis: usize,
    /// Where.
    pub(crate) at: f64,
    /// What it holds at there.
    pub(crate) catch: Catch,
}
