//! Where the load acted, held against the occupant point: from the scales where they tell it, else from
//! the pieces as they were put down.

use crate::{Centroid, Course, Ledger, RunDone, ledger, weighed};
use assess::Beside;
use plan::Plan;
use quantity::{Grain, Length, Quantity, Units};

/// The line of action at one state of the stack as done.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LineOfAction {
    /// Fore-aft and lateral, against the occupant point.
    pub beside: [Beside; 2],
    /// Two standard deviations of each by the scales, m; none where it was taken from the pieces.
    pub within_m: [Option<f64>; 2],
}

impl LineOfAction {
    /// After so many pieces of a stack as done; none on the empty seat.
    pub fn of(plan: &Plan, course: &Course, placed: usize, ledger: Option<&Ledger>) -> Option<Self> {
        let target = assess::target_in_floor(plan);
        let target_m = [target.x, target.y];
        let by_pieces_m = centroid_m(course, placed)?;
        let allowed_m = plan.target.tolerance().map(Quantity::si);
        let by_scales = ledger.map_or([None; 2], |ledger| [ledger.aft, ledger.right]);
        let offset = |axis: usize| {
            let by_scales = by_scales[axis].map(|c| Centroid { at_m: c.at_m - target_m[axis], ..c });
            match by_scales.filter(|c| tells(c, allowed_m[axis], 0.5 * course.stop_factor())) {
                Some(read) => (read.at_m, Some(read.within_m)),
                None => (by_pieces_m[axis] - target_m[axis], None),
            }
        };
        let [fore_aft, lateral] = [offset(0), offset(1)];
        let beside = Beside::both([fore_aft.0, lateral.0], allowed_m);
        Some(Self { beside, within_m: [fore_aft.1, lateral.1] })
    }

    /// The same against what a hold of the plan (from 0) allows, which may be more or less than the target does.
    pub fn at_hold(self, plan: &Plan, hold: usize) -> Self {
        let Some(hold) = plan.holds.get(hold) else { return self };
        let allowed_m = plan.tolerance_at(hold).map(Quantity::si);
        Self { beside: Beside::both(self.beside.map(|beside| beside.offset_m), allowed_m), ..self }
    }

    /// Whether the load acted within the tolerance, fore-aft and lateral.
    pub fn fits(&self) -> bool {
        self.beside.iter().all(Beside::fits)
    }

    /// `12 mm left of the occupant point where 10 mm are allowed (by the scales, ± 3 mm), and …`: what
    /// is worse first.
    pub fn words(&self, units: Units) -> String {
        let [fore_aft, lateral] = &self.beside;
        let order = if lateral.share() > fore_aft.share() { [1, 0] } else { [0, 1] };
        let from = |axis: usize| match self.within_m[axis] {
            Some(within_m) => format!("by the scales, ± {}", Length::m(within_m).shown(units, Grain::Fine)),
            None => "by the pieces put down".to_owned(),
        };
        let said = |axis: usize, of: &str| format!("{} ({})", self.beside[axis].words(units, of), from(axis));
        format!("{}, and {}", said(order[0], "the occupant point"), said(order[1], "it"))
    }
}

/// Whether scales that know a place no better than this (two standard deviations) tell on which side of
/// the tolerance it is: they know it twice as finely, or it is farther off than a day without a
/// fault would have it. `factor` is the band that stops loading, in the same measure.
fn tells(off: &Centroid, allowed_m: f64, factor: f64) -> bool {
    off.within_m <= 0.5 * allowed_m || off.at_m.abs() - factor * off.within_m > allowed_m
}

/// Centroid of the first pieces where they press, m, floor frame: aft, right.
fn centroid_m(course: &Course, placed: usize) -> Option<[f64; 2]> {
    let pieces = || (0..placed).filter_map(|index| course.piece(index));
    let mass_kg: f64 = pieces().map(|(_, kg)| kg).sum();
    let moment = |axis: usize| pieces().map(|(at, kg)| at[axis] * kg).sum::<f64>();
    (mass_kg > 0.0).then(|| [moment(0) / mass_kg, moment(1) / mass_kg])
}

/// By the last weighing of that state, where there is one.
pub(crate) fn line_of_action(run: &RunDone, course: &Course, last_on: Option<usize>) -> Option<LineOfAction> {
    let there = run.weighings.iter().rev().find(|weighing| weighing.last_on == last_on);
    let ledger = there.and_then(|weighing| weighed(run, course, weighing)).map(|weighed| ledger(&weighed));
    LineOfAction::of(run.as_done(), course, run.count_to(last_on), ledger.as_ref())
}
