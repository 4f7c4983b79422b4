//! Each piece of the stack as it is lifted: from where pieces are taken up to its place.

use super::equation::{Lift, Recommended, recommended};
use crate::closed::Closed;
use plan::{Plan, point};
use quantity::{Length, Mass, Quantity};

/// A piece as it is lifted onto the stack.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceLift {
    /// Its step, from 0.
    pub step: usize,
    /// Its mass.
    pub mass: Mass,
    /// Height of the hands above the floor when it is put down: at half its thickness.
    pub put_down: Length,
    /// The limit at the worse end of the lift. Putting a piece exactly into its place counts as
    /// holding it, so the end counts as the beginning does (manual, sections 2.1.1 and 2.3).
    pub recommended: Recommended,
    /// Mass over that limit.
    pub index: f64,
}

/// The heaviest lift, and how many are above the limit.
#[derive(Clone, Debug, PartialEq)]
pub struct Heaviest {
    /// The lift with the greatest index.
    pub lift: PieceLift,
    /// How many of the placed pieces are above the recommended limit.
    pub above: usize,
    /// Of how many.
    pub of: usize,
}

/// The lifts of all placed pieces, in their order. Heights are those of the floor frame: the floor
/// on which the lifter stands is taken to be where the lowest support is, else at 0.
pub fn lifts(plan: &Plan, closed: &Closed) -> Vec<PieceLift> {
    let floor_from_bed = plan.floor_from_bed();
    let floor_m = plan.fixture.supports.iter().map(|s| point(s.at).z).reduce(f64::min).unwrap_or(0.0);
    let height_m = |step: usize| {
        let place = plan.stack.get(step)?;
        let underside_m = closed.pile.underside_m.get(step)?;
        let middle_m = underside_m + plan.extent_of(place)[2].si() / 2.0;
        let [x_m, y_m] = place.at.map(Quantity::si);
        Some((floor_from_bed * nalgebra::Point3::new(x_m, y_m, middle_m)).z - floor_m)
    };
    let steps = (0..plan.steps()).filter_map(|step| Some((step, Length::m(height_m(step)?))));
    steps.map(|(step, put_down)| lifted(plan, step, put_down)).collect()
}

fn lifted(plan: &Plan, step: usize, put_down: Length) -> PieceLift {
    let handling = &plan.allow.handling;
    let picked_up = handling.pick_up;
    let travel = put_down - picked_up;
    let at = |hands| recommended(&Lift { handling, hands, picked_up, travel });
    let (first, last) = (at(picked_up), at(put_down));
    let worse = if last.limit < first.limit { last } else { first };
    let mass = plan.mass_of(&plan.stack[step]);
    PieceLift { step, mass, put_down, index: worse.index(mass), recommended: worse }
}

/// The lift of the heaviest piece and that of the piece that is put down highest; none without pieces. Of equal
/// ones the one with the greater index.
pub fn heaviest_and_highest(plan: &Plan, closed: &Closed) -> Option<[PieceLift; 2]> {
    let all = lifts(plan, closed);
    let most = |of: fn(&PieceLift) -> f64| {
        let order = |a: &&PieceLift, b: &&PieceLift| of(a).total_cmp(&of(b)).then(a.index.total_cmp(&b.index));
        all.iter().max_by(order).cloned()
    };
    Some([most(|lift| lift.mass.si())?, most(|lift| lift.put_down.si())?])
}

/// The heaviest lift of a plan; none without pieces.
pub fn heaviest(plan: &Plan, closed: &Closed) -> Option<Heaviest> {
    let all = lifts(plan, closed);
    let (above, of) = (all.iter().filter(|lift| lift.index > super::SOME_AT_RISK).count(), all.len());
    let lift = all.into_iter().reduce(|worst, next| if next.index > worst.index { next } else { worst })?;
    Some(Heaviest { lift, above, of })
}
