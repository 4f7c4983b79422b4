//! What a check is: an identity with its heading, its group, what it measures, and on which side of its
//! limit it falls short. What it looks at stands in `checks`.

use super::list::every_check;
use crate::amount::Amount;

/// What a check is about: the order of the list on screen and paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// Is it the right load?
    Load,
    /// Is it in the right place?
    Position,
    /// Does the stack stand?
    Stability,
    /// Does what holds the article hold?
    Fixture,
    /// Do boards and bearings bear it?
    BoardsAndBearings,
    /// Does it stay away from what it must not touch?
    Clearance,
    /// What it asks of people.
    People,
}

impl Group {
    /// All groups in their order.
    pub const ALL: [Group; 7] = [
        Group::Load,
        Group::Position,
        Group::Stability,
        Group::Fixture,
        Group::BoardsAndBearings,
        Group::Clearance,
        Group::People,
    ];

    /// Its heading.
    pub fn heading(self) -> &'static str {
        match self {
            Group::Load => "Load",
            Group::Position => "Position",
            Group::Stability => "Stability",
            Group::Fixture => "Fixture",
            Group::BoardsAndBearings => "Boards and bearings",
            Group::Clearance => "Clearance",
            Group::People => "People",
        }
    }
}

/// What a check measures: the kind of its amounts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// A distance, m.
    Distance,
    /// A mass, kg.
    Mass,
    /// A force, N.
    Force,
    /// A stress, Pa.
    Stress,
    /// A level push as a part of the weight.
    OfWeight,
    /// A pure ratio.
    Ratio,
    /// An angle, rad.
    Angle,
    /// A span of time, s.
    Time,
    /// How many.
    Count,
    /// Nothing: a sentence says it.
    None,
}

impl Unit {
    /// The kind of an amount.
    pub fn of(amount: Amount) -> Self {
        match amount {
            Amount::Distance(_) | Amount::Off(..) => Unit::Distance,
            Amount::Mass(_) => Unit::Mass,
            Amount::Force(_) => Unit::Force,
            Amount::Stress(_) => Unit::Stress,
            Amount::OfWeight(_) => Unit::OfWeight,
            Amount::Ratio(_) => Unit::Ratio,
            Amount::Angle(_) => Unit::Angle,
            Amount::Time(_) => Unit::Time,
            Amount::Count(_) => Unit::Count,
        }
    }
}

/// On which side of its limit a check falls short.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The value must reach the limit.
    AtLeast,
    /// The value must not be above the limit; of an offset, its size.
    AtMost,
    /// There is no limit to pass.
    Free,
}

/// Rounding of a limit that is met on paper: of the limit, or of one SI unit where it is less.
const HAIR: f64 = 1e-9;

impl Side {
    /// Whether a value lies beyond a limit, by more than rounding.
    pub fn is_passed(self, value: Amount, limit: Amount) -> bool {
        let (is, may) = (value.si(), limit.si());
        let hair = HAIR * may.abs().max(1.0);
        match self {
            Side::AtLeast => is < may - hair,
            Side::AtMost => is.abs() > may.abs() + hair,
            Side::Free => false,
        }
    }
}

/// The checks as an enum with what each is.
macro_rules! identities {
    ($($check:ident: $heading:literal, $group:ident, $unit:ident, $side:ident, $look:path;)*) => {
        /// A check.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Check {
            $(#[doc = concat!("The check “", $heading, "”.")] $check),*
        }

        impl Check {
            /// All checks in the order in which they are looked at.
            pub const ALL: &[Check] = &[$(Check::$check),*];

            /// Its name, as it heads its line.
            pub fn heading(self) -> &'static str {
                match self { $(Check::$check => $heading),* }
            }

            /// What it is about.
            pub fn group(self) -> Group {
                match self { $(Check::$check => Group::$group),* }
            }

            /// What it measures.
            pub fn unit(self) -> Unit {
                match self { $(Check::$check => Unit::$unit),* }
            }

            /// On which side of its limit it falls short.
            pub fn side(self) -> Side {
                match self { $(Check::$check => Side::$side),* }
            }
        }
    };
}

every_check!(identities);
