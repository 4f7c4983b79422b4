//! The checks, one a file. A new one is a file here, with its line in the list below.

mod after_ultimate;
mod article;
mod basis;
mod bearings;
mod beside;
mod bindings;
mod boards;
mod chances;
mod direction;
mod entered;
mod footprint;
mod friction;
mod holds;
mod keep_clear;
mod known;
mod lifting;
mod load;
mod occupant;
mod offset;
mod preload;
mod reserve;
mod rest;
mod safety_factor;
mod scales;
mod seat_straps;
mod set_shown;
mod slack;
mod slide;
mod slips;
mod stands;
mod straps;
mod straps_offset;
mod tare;
mod tip;
mod weighed;

pub(crate) use bearings::NEAR_SHARE as NEAR_BEARING;

use crate::check::{Group, Side, Unit, checks};
use crate::source::Derivation;
use crate::{Assessment, BearingState, BoardState, Finding, Source, State, Where};
use plan::Plan;

/// A look at a plan: what one check finds.
type Look = fn(&Plan, &Assessment) -> Vec<Finding>;

checks! {
    AppliedLoad: "Applied load", Load, Mass, AtLeast, load::check;
    ValuesToBeEntered: "Values to be entered", Load, None, Free, entered::check;
    Basis: "Basis of the load", Load, None, Free, basis::check;
    FactorOfSafety: "Factor of safety", Load, Ratio, AtLeast, safety_factor::check;
    OccupantPoint: "Occupant point", Position, None, Free, occupant::check;
    PointKnown: "Point known within", Position, Distance, Free, known::check;
    OffsetForeAndAft: "Offset fore and aft", Position, Distance, AtMost, offset::fore_and_aft;
    OffsetLateral: "Offset lateral", Position, Distance, AtMost, offset::lateral;
    OffsetAtHolds: "Offset at the holds", Position, Distance, AtMost, holds::check;
    SeatWithStraps: "Seat with straps", Load, Mass, AtMost, seat_straps::check;
    OffsetWithStraps: "Offset with straps", Position, Distance, AtMost, straps_offset::check;
    EveryPieceRests: "Every piece rests", Stability, Count, AtMost, rest::check;
    EveryStepStands: "Every step stands", Stability, Count, AtLeast, stands::check;
    CollapseReserve: "Collapse reserve", Stability, OfWeight, AtLeast, reserve::check;
    TipMargin: "Tip margin", Stability, OfWeight, AtLeast, tip::check;
    Sliding: "Sliding", Stability, OfWeight, AtLeast, slide::check;
    BareArticle: "Bare article", Fixture, OfWeight, AtLeast, tare::check;
    Footprint: "Footprint", Fixture, OfWeight, AtLeast, footprint::check;
    StrapStretch: "Strap stretch", Fixture, OfWeight, AtLeast, slack::check;
    ArticleStands: "Article stands", Fixture, None, Free, article::check;
    Scales: "Scales", Fixture, Mass, AtMost, scales::check;
    StrapPreload: "Strap preload", Fixture, Force, AtMost, preload::check;
    StrapPull: "Strap pull", Fixture, Force, AtMost, straps::check;
    BindingStraps: "Binding straps", Stability, None, Free, bindings::check;
    Boards: "Boards", BoardsAndBearings, Stress, AtMost, boards::check;
    Bearings: "Bearings", BoardsAndBearings, Force, AtMost, bearings::check;
    ChanceToMiss: "Chance to miss", Position, Ratio, AtMost, chances::check;
    KeepClear: "Keep clear", Clearance, Distance, AtLeast, keep_clear::check;
    LoadDirection: "Load direction", Load, Angle, AtMost, direction::check;
    BagsSideBySide: "Bags side by side", Stability, Distance, AtMost, beside::check;
    FrictionAlike: "Friction alike", Stability, Ratio, Free, friction::check;
    AfterUltimate: "After ultimate load", Load, Count, AtMost, after_ultimate::check;
    SetShown: "Set after limit", Load, None, Free, set_shown::check;
    PiecesWeighed: "Pieces weighed", Load, Count, Free, weighed::check;
    UnlikelyFigures: "Unlikely figures", Load, None, Free, slips::check;
    Lifting: "Lifting by hand", People, Ratio, Free, lifting::check;
}

const STATICS: &[Source] = &[Source::Own(Derivation::Statics)];
const PRACTICE: &[Source] = &[Source::Practice];

pub(crate) fn all(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    Check::ALL.iter().flat_map(|check| check.look()(plan, assessment)).map(strict).collect()
}

/// A limit passed is a failure, whatever a check makes of it.
fn strict(finding: Finding) -> Finding {
    let state = if finding.passes_its_limit() && !finding.state.falls_short() { State::Fails } else { finding.state };
    Finding { state, ..finding }
}

/// A check that waits for the solvers, where there are pieces to solve for.
fn not_yet(check: Check) -> Finding {
    Finding {
        check,
        state: State::Undecided,
        value: None,
        limit: None,
        place: Where::Stack,
        text: "Not decided yet: it is being solved.".to_owned(),
        sources: STATICS,
    }
}

/// What boards and bearings say of a load.
pub(crate) fn borne(plan: &Plan, boards: &[BoardState], bearings: &[BearingState]) -> Vec<Finding> {
    let boards = boards.iter().map(|board| boards::judge(plan, board));
    boards.chain(bearings.iter().map(|bearing| bearings::one(plan, bearing))).collect()
}

/// The names of the binding straps that are on after so many placements.
fn straps_on(plan: &Plan, placed: usize) -> Vec<&str> {
    let on = plan.fixture.bindings.iter().filter(|strap| strap.after as usize <= placed);
    on.map(|strap| strap.name.as_str()).collect()
}

/// What a closed form of the reserve is: without straps never less than the true one; a strap that is on
/// may add to it as well as take from it.
fn bound_words(plan: &Plan, placed: usize) -> &'static str {
    if straps_on(plan, placed).is_empty() { "upper bound" } else { "straps left out" }
}

/// A strap that is on may be what brings the stack down: a sentence about it, after a space.
fn strap_helps(plan: &Plan, placed: usize) -> String {
    match straps_on(plan, placed).as_slice() {
        [] => String::new(),
        straps => format!(
            " Or move the binding strap “{}”, which is on by then, to the middle of the stack, or tension it less.",
            straps.join("” and “")
        ),
    }
}

/// When a state of the fixture is, in words: after so many placements.
fn when(placed: usize) -> String {
    if placed == 0 { "before the first piece".to_owned() } else { format!("after step {placed}") }
}

/// Where such a state is shown.
fn place(placed: usize) -> Where {
    placed.checked_sub(1).map_or(Where::Fixture, |step| Where::Step { step, layer: None })
}

/// A fixture without supports, in words.
const NO_SUPPORTS: &str = "The fixture has no supports: nothing carries the article. Add them on the Fixture page.";

/// Shares that differ by less than this part of themselves are one: rounding of a solver.
const ALIKE: f64 = 1e-6;

/// Whether what is found of a state on the way is to be told in place of another finding of the same check:
/// one that is met is not, since the last state is the one that counts then.
fn is_worse(on_the_way: &Finding, than: &Finding) -> bool {
    let worse = share(on_the_way) > share(than) * (1.0 + ALIKE);
    let as_bad = on_the_way.state == than.state && on_the_way.state > State::Met;
    on_the_way.state > than.state || (as_bad && worse)
}

/// What is measured, as a share of what it is held against.
fn share(finding: &Finding) -> f64 {
    match (finding.value, finding.limit) {
        (Some(value), Some(limit)) => value.si() / limit.si(),
        _ => 0.0,
    }
}

/// A reserve against the least that is required: caution within a quarter (`common practice, no source`).
fn against_least(reserve: f64, asked: f64) -> State {
    match reserve {
        r if r < asked => State::Fails,
        r if r < asked * 1.25 => State::Caution,
        _ => State::Met,
    }
}

#[cfg(test)]
mod tests {
    use super::{Check, not_yet, strict};
    use crate::{Amount, Finding, State};
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
            let finding = Finding { state: said, value, limit, ..not_yet(check) };
            assert_eq!(strict(finding.clone()).state, want, "{finding:?}");
        }
    }
}
