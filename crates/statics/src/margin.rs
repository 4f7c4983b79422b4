//! How a question about equilibrium can end, and which of several ends governs.

use quantity::frame::plan_words;

/// The way in which something goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    /// It turns over an edge.
    Tip,
    /// It slides (and may turn on the spot as it slides).
    Slide,
}

/// The least push that something bears, and where that push points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reserve {
    /// Push as a fraction of weight; negative: it already leans or slides beyond, and only a pull
    /// back of that size would hold it. Infinite: no push goes that way, or, if negative, no pull holds.
    pub multiplier: f64,
    /// Direction of the push in plan, rad, floor frame: 0 aft, a quarter turn right.
    pub direction_rad: f64,
    /// What happens at that push.
    pub by: Way,
    /// The same push does it in every direction in plan; the one given is one of them.
    pub any_way: bool,
}

impl Reserve {
    /// Where the push points, in words: `aft and left`, or `in any direction`.
    pub fn toward(&self) -> &'static str {
        if self.any_way { "in any direction" } else { plan_words(self.direction_rad.to_degrees()) }
    }
}

/// The end of a question about equilibrium.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Decision {
    /// Answered. A negative multiplier means that it does not stand.
    Decided(Reserve),
    /// There is nothing that a push could bring down: no weight, or no limit in the direction asked.
    NotLimited,
    /// There is no equilibrium at all under its own weight.
    Falls,
    /// Not answered, and so never to be read as safe.
    NotDecided {
        /// The worst miss of equilibrium or of a friction cone, as a fraction of weight, if a solver
        /// returned forces at all.
        residual: Option<f64>,
    },
    /// A body has nothing under it.
    Loose,
}

impl Decision {
    /// Does it stand under its own weight? `None` where that is not decided.
    pub fn stands(&self) -> Option<bool> {
        match self {
            Decision::Decided(reserve) => Some(reserve.multiplier >= 0.0),
            Decision::NotLimited => Some(true),
            Decision::Falls | Decision::Loose => Some(false),
            Decision::NotDecided { .. } => None,
        }
    }

    /// The reserve, where there is one.
    pub fn reserve(&self) -> Option<Reserve> {
        match self {
            Decision::Decided(reserve) => Some(*reserve),
            _ => None,
        }
    }

    /// Whether this end, found elsewhere in the same pile, outweighs the other one: a certain fall
    /// before an open question, an open question before any reserve, the smaller reserve before
    /// the greater.
    pub fn governs(&self, other: &Decision) -> bool {
        let (mine, theirs) = (self.rank(), other.rank());
        mine.0 < theirs.0 || (mine.0 == theirs.0 && mine.1 < theirs.1)
    }

    /// Whether nothing that is decided sets this end apart from one that is as weak or weaker.
    pub fn is_as_weak_as(&self, weaker: &Decision) -> bool {
        let is_alike =
            |(this, weaker): (Reserve, Reserve)| this.multiplier <= weaker.multiplier + slack(weaker.multiplier);
        !weaker.governs(self) || self.reserve().zip(weaker.reserve()).is_some_and(is_alike)
    }

    /// What governs has the lower one: which kind of end first, then the multiplier.
    pub(crate) fn rank(&self) -> (u8, f64) {
        match self {
            Decision::Loose => (0, 0.0),
            Decision::Falls => (1, 0.0),
            Decision::Decided(reserve) if reserve.multiplier < 0.0 => (2, reserve.multiplier),
            Decision::NotDecided { .. } => (3, 0.0),
            Decision::Decided(reserve) => (4, reserve.multiplier),
            Decision::NotLimited => (5, 0.0),
        }
    }
}

/// Multipliers that are closer than this are one number, relatively,
const ALIKE: f64 = 1e-6;
/// and smaller ones are compared as if they were this great.
const SMALL: f64 = 0.1;

/// Up to what a multiplier may exceed another and still be the same number.
pub(crate) fn slack(multiplier: f64) -> f64 {
    ALIKE * multiplier.abs().max(SMALL)
}
