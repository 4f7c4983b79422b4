//! What must be proved: limit and ultimate load of the case in hand.

use plan::{LimitLoad, LoadCase, UltimateLoad};
use quantity::{Mass, Quantity};

/// Limit and ultimate load of a case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    /// The greatest load expected in service.
    pub limit: LimitLoad,
    /// The load that must be carried.
    pub ultimate: UltimateLoad,
}

impl Load {
    /// The loads of a case.
    pub fn of(case: &LoadCase) -> Self {
        let limit = LimitLoad::of(case);
        Self { limit, ultimate: limit.ultimate(case) }
    }

    /// A mass as a fraction of the ultimate load.
    pub fn fraction(&self, applied: Mass) -> f64 {
        applied.si() / self.ultimate.as_mass().si()
    }
}
