//! Whether a push is reached on the way up to its top, without looking for the top. Most of what is asked of a stack is
//! that, in many directions at many steps.
//!
//! The path is that of `push`, its places by the same rules. A stride is no longer than the last one shows to stay near the
//! line onward, so that few are walked in vain, and the last one ends just beyond what is asked. Where it gets nowhere the
//! answer is left to the way up to the top.

use super::onward::{Found, Path, Place};
use super::push::{FIRST_PUSH, LONGER, STRETCH};

/// The part of the allowed distance off the line for which a stride is meant.
const WITHIN: f64 = 0.8;
/// Below this part of the first stride it is left to the way up to the top.
const TOO_SHORT: f64 = 0.02;
/// So much beyond what is asked, part of what was left, the last stride aims.
const BEYOND: f64 = 0.01;

/// The next stride, and what the last one lost against the line.
#[derive(Clone, Copy)]
struct Stride {
    long_m: f64,
    /// Push lost, for each square metre of stride.
    lost_per_m2: f64,
}

impl Stride {
    /// As long as it may be, but no longer than what is asked is away.
    fn toward(&self, from: &Place, enough: f64) -> f64 {
        let straight_m = (enough - from.push) / from.rise_per_m;
        let bent_m = straight_m * (1.0 + BEYOND + self.lost_per_m2 * straight_m / from.rise_per_m);
        if bent_m > 0.0 { self.long_m.min(bent_m) } else { self.long_m }
    }

    /// As long as the last one shows to stay near the line.
    fn after(gone_m: f64, found: &Found, from: &Place) -> Stride {
        let lost = from.push + gone_m * from.rise_per_m - found.place.push;
        let fits = if found.off > 0.0 { WITHIN / found.off } else { LONGER };
        Stride { long_m: gone_m * fits.clamp(0.5, LONGER), lost_per_m2: (lost / (gone_m * gone_m)).max(0.0) }
    }
}

impl Path<'_> {
    /// Whether the push comes to so much in places that are balanced and stable. False is no answer: it was not shown.
    /// None: stopped.
    pub(super) fn reaches(&self, enough: f64, wanted: &dyn Fn() -> bool) -> Option<bool> {
        let first_m = FIRST_PUSH * self.sway_m();
        let mut stride = Stride { long_m: first_m, lost_per_m2: 0.0 };
        let mut here = self.start.clone();
        for _ in 0..STRETCH {
            if !wanted() {
                return None;
            }
            let gone_m = stride.toward(&here, enough);
            let Some(found) = self.found(here.gone_m + gone_m, &here) else {
                stride.long_m = 0.5 * gone_m;
                if stride.long_m < TOO_SHORT * first_m {
                    return Some(false);
                }
                continue;
            };
            if found.place.push >= enough {
                return Some(self.is_stable(&found));
            }
            stride = Stride::after(gone_m, &found, &here);
            match self.held(found).filter(|place| place.push > here.push) {
                Some(place) => here = place,
                None => return Some(false),
            }
        }
        Some(false)
    }
}
