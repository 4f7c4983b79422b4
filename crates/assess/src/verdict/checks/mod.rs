//! What each check looks at, one a file. A new one is a file here and a line in `list`.

mod after_ultimate;
mod article;
mod basis;
mod bearings;
mod beside;
mod bindings;
mod boards;
mod catch_blocks;
mod chances;
mod critical;
mod direction;
mod drawn;
mod entered;
mod footprint;
mod friction;
mod hold_time;
mod holds;
mod keep_clear;
mod known;
mod lean;
mod lifting;
mod load;
mod occupant;
mod offset;
mod over_the_edge;
mod preload;
mod reserve;
mod rest;
mod safety_factor;
mod scales;
mod seat_straps;
mod set_down;
mod set_shown;
mod slack;
mod slide;
mod slips;
mod stands;
mod straps;
mod straps_offset;
mod supports;
mod tare;
mod tip;
mod weighed;

use super::assessment::Assessment;
use super::check::Check;
use super::finding::{Finding, State};
use super::list::every_check;
use crate::exact::{BearingState, BoardState};
use plan::Plan;

/// A look at a plan: what one check finds.
type Look = fn(&Plan, &Assessment) -> Vec<Finding>;

macro_rules! looks {
    ($($check:ident: $heading:literal, $group:ident, $unit:ident, $side:ident, $look:path;)*) => {
        fn look_of(check: Check) -> Look {
            match check { $(Check::$check => $look),* }
        }
    };
}

every_check!(looks);

pub(crate) fn all(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    Check::ALL.iter().flat_map(|check| look_of(*check)(plan, assessment)).map(strict).collect()
}

/// A limit passed is a failure, whatever a check makes of it.
fn strict(finding: Finding) -> Finding {
    let state = if finding.passes_its_limit() && !finding.state.falls_short() { State::Fails } else { finding.state };
    Finding { state, ..finding }
}

/// What boards and bearings say of a load.
pub(crate) fn borne(plan: &Plan, boards: &[BoardState], bearings: &[BearingState]) -> Vec<Finding> {
    let boards = boards.iter().map(|board| boards::judge(plan, board));
    boards.chain(bearings.iter().map(|bearing| bearings::one(plan, bearing))).collect()
}

#[cfg(test)]
mod tests {
    use super::strict;
    use crate::{Amount, Check, Finding, State};
    use std::collections::BTreeSet;

    #[test]
    fn no_two_checks_share_a_heading() {
        let headings: BTreeSet<_> = Check::ALL.iter().map(|check| check.heading()).collect();
        assert_eq!(headings.len(), Check::ALL.len());
    }

    #[test]
    fn a_limit_passed_is_a_failure_whatever_a_check_makes_of_it() {
        let m = |m: f64| Some(Amount::Distance(m));
        let rows = [
            (Check::OffsetForeAndAft, State::Caution, m(0.034), m(0.015), State::Fails),
            (Check::OffsetForeAndAft, State::Met, m(-0.034), m(0.015), State::Fails),
            (Check::OffsetForeAndAft, State::Caution, m(0.015), m(0.015), State::Caution),
            (Check::OffsetForeAndAft, State::Undecided, m(0.034), m(0.015), State::Undecided),
            (Check::KeepClear, State::Caution, m(0.020), m(0.025), State::Fails),
            (Check::KeepClear, State::Met, m(0.030), m(0.025), State::Met),
            (Check::PointKnown, State::Caution, m(0.025), m(0.015), State::Caution),
        ];
        for (check, said, value, limit, want) in rows {
            let finding = Finding { state: said, value, limit, ..Finding::not_yet(check) };
            assert_eq!(strict(finding.clone()).state, want, "{finding:?}");
        }
    }
}
