//! How far the line of action is off the occupant point: as it counts and as laid, with what is allowed there.

use super::pictures::{Number, Picture, Target};
use super::{Moment, Told, joined};
use assess::{Check, State};
use plan::Plan;
use quantity::frame::side;
use quantity::{Grain, Length, Quantity};

pub(super) fn offset(told: Told) -> Number {
    let plan = told.plan;
    let [fore_aft, lateral] = plan.target.tolerance().map(|t| t.shown(plan.units, Grain::Fine));
    let words = |step: Option<usize>| {
        let offset_m = step.and_then(|step| told.assessment.offset_m(step));
        offset_m.map_or_else(|| "nothing placed".to_owned(), |offset_m| offset_words(plan, offset_m))
    };
    let last = told.assessment.closed.steps.len().checked_sub(1);
    let straps = told.state().and_then(|s| s.on_seat);
    let straps = straps.map(|on_seat| format!("with straps {} · ", offset_words(plan, on_seat.offset_m)));
    let laid = laid(told);
    let leans = if laid.is_some() { ", leaning" } else { "" };
    let laid = laid.map(|laid_m| format!(" · as laid {}", offset_words(plan, laid_m))).unwrap_or_default();
    let allowed = || format!("{}allowed {fore_aft} fore and aft, {lateral} lateral{laid}", straps.unwrap_or_default());
    let at_hold = hold_in_hand(told).map(|hold| allowed_at(plan, hold));
    let state = told.state_of(&[Check::OffsetForeAndAft, Check::OffsetLateral, Check::OffsetWithStraps]);
    Number {
        picture: Picture::Target(target(told)),
        state,
        head: told.head("Offset") + leans,
        value: words(told.step()),
        note: told.at_the_end(|| words(last)).map_or_else(allowed, |end| joined(at_hold, Some(end + &laid))),
        in_order: state != Some(State::Fails),
        about: "Line of action of what is placed minus the occupant point, level with the floor (floor frame). Heights are not compared: a dead weight's height does not change the load that it puts on the seat. The tolerance is the plan's and is required at the end.".to_owned(),
    }
}

/// The offset of this step and of those before it.
fn target(told: Told) -> Target {
    /// So many steps leave a track.
    const TRACK: usize = 12;
    let last = told.step().map_or(0, |step| step + 1);
    let offsets = (last.saturating_sub(TRACK)..last).filter_map(|step| told.assessment.offset_m(step));
    let tolerance = hold_in_hand(told).map_or(told.plan.target.tolerance(), |hold| told.plan.tolerance_at(hold));
    Target { tolerance_m: tolerance.map(Quantity::si), track_m: offsets.collect() }
}

/// The offset as laid, m, where lean and tilt make a difference that can be shown: the drawing has the pieces there.
fn laid(told: Told) -> Option<[f64; 2]> {
    let acts_m = told.assessment.offset_m(told.step()?)?;
    let laid_m = told.state()?.offset_m;
    let shown = |m: f64| Length::m(m.abs()).shown(told.plan.units, Grain::Fine);
    (0..2).any(|axis| shown(acts_m[axis] - laid_m[axis]) != shown(0.0)).then_some(laid_m)
}

/// The hold after the step that is looked at.
fn hold_in_hand(told: Told<'_>) -> Option<&plan::Hold> {
    let Moment::After(step) = told.moment() else { return None };
    let at = told.assessment.closed.hold_steps.iter().position(|of| *of == Some(step))?;
    told.plan.holds.get(at)
}

/// What is allowed at a hold, and why it is not what is allowed at the end.
fn allowed_at(plan: &Plan, hold: &plan::Hold) -> String {
    let [fore_aft, lateral] = plan.tolerance_at(hold).map(|t| t.shown(plan.units, Grain::Fine));
    let why = match hold.tolerance {
        Some(_) => "",
        None if plan.tolerance_at(hold) != plan.target.tolerance() => ": twice, below limit",
        None => "",
    };
    format!("allowed {fore_aft}, {lateral}{why}")
}

/// An offset in words: `4 mm aft, 1 mm left`; what is shown as zero lies to neither side.
pub(crate) fn offset_words(plan: &Plan, offset_m: [f64; 2]) -> String {
    let one = |axis: usize, neither: &'static str| {
        let m = offset_m[axis];
        let [off, none] = [m.abs(), 0.0].map(|m| Length::m(m).shown(plan.units, Grain::Fine));
        format!("{off} {}", if off == none { neither } else { side(axis, m) })
    };
    format!("{}, {}", one(0, "fore and aft"), one(1, "lateral"))
}
