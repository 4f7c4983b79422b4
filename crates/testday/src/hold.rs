//! How long a hold lasted, by a clock that may stop or jump.

/// How long ultimate load must be held, s.
///
/// Source key `cfr-23-305`: 14 CFR 23.305(b) as amended to 23-45, at least three seconds.
pub const HELD_LONG_ENOUGH_S: f64 = 3.0;
/// Between two looks at the clock that lie further apart than this, nobody watched: the machine
/// slept, or the clock jumped. `common practice, no source`.
const LONGEST_GAP_S: f64 = 1.0;
/// From this fraction of ultimate on, the hold is that of ultimate load.
const ULTIMATE: f64 = 1.0 - 1e-9;

/// A fraction that a person typed with three digits is the one that is meant.
pub(crate) const TYPED_SHORT: f64 = 6e-4;

/// How long a hold at this fraction of ultimate must last, s.
pub fn due_s(at: f64) -> f64 {
    if at >= ULTIMATE { HELD_LONG_ENOUGH_S } else { 0.0 }
}

/// Adds up the time that was seen to pass. Whatever a clock does, it never counts more than passed
/// while the program looked: it may stop, run backwards or jump.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct HoldTimer {
    last_s: Option<f64>,
    seen_s: f64,
    unseen_s: f64,
}

impl HoldTimer {
    /// Looks at a monotonic clock, s since any beginning.
    pub fn look(&mut self, now_s: f64) {
        if !now_s.is_finite() {
            return;
        }
        let passed_s = self.last_s.map_or(0.0, |last_s| now_s - last_s);
        if passed_s > LONGEST_GAP_S {
            self.unseen_s += passed_s;
        } else if passed_s > 0.0 {
            self.seen_s += passed_s;
        }
        self.last_s = Some(now_s);
    }

    /// Time that was seen to pass, s.
    pub fn seen_s(&self) -> f64 {
        self.seen_s
    }

    /// Time that passed without being seen, s.
    pub fn unseen_s(&self) -> f64 {
        self.unseen_s
    }
}
