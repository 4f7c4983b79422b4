//! The plane on which the stack starts, and the places where the seat carries load.

use quantity::{Angle, Force, Length};

/// The bed frame and what the seat offers on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Bed {
    /// Origin of the bed frame, article frame.
    pub origin: [Length; 3],
    /// Turn against the article, forward end up positive.
    pub slope: Angle,
    /// Coefficient of friction of the bearings.
    pub friction: f64,
    /// How far below the resting height a top still carries.
    pub touch: Length,
    /// The same where neither piece is a bag: hard things do not squeeze until they meet.
    pub touch_hard: Length,
    /// A bag that overlaps a piece by less than this lies beside it.
    pub beside: Length,
    /// Where the seat really carries load.
    pub bearings: Vec<Bearing>,
    /// Marks that no piece covers, from the first of which places are taped fore and aft; without any the
    /// sheet takes the front edge of the foremost bearing.
    pub marks: Vec<Mark>,
    /// The string from which places are taped across; none: the bed's y = 0.
    pub string: Option<StringLine>,
}

/// A mark on fixture or article from which places are taped; bed frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// What is written beside it: `A`.
    pub name: String,
    /// Where it is.
    pub at: [Length; 3],
}

/// A string drawn tight fore and aft, above or beside what will lie there; bed frame.
#[derive(Clone, Debug, PartialEq)]
pub struct StringLine {
    /// From nail to nail.
    pub x: [Length; 2],
    /// How far right of the bed's axis it runs.
    pub y: Length,
}

/// A rectangle of the bed where the seat carries load; bed frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Bearing {
    /// What it is called.
    pub name: String,
    /// From this x to that one.
    pub x: [Length; 2],
    /// From this y to that one.
    pub y: [Length; 2],
    /// Height of its top.
    pub top: Length,
    /// The load that it may carry.
    pub allowable: Option<Force>,
}

impl Bed {
    /// `touch_hard` where a plan leaves it out: what sawn timber and sheet metal differ by,
    /// `common practice, no source`.
    pub const TOUCH_HARD: Length = Length::m(0.001);
}
