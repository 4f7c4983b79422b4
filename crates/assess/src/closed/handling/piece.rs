//! Each piece of the stack as it is lifted: from where pieces are taken up to its place.

use super::equation::{Lift, Recommended, recommended};
use super::{NEARLY_ALL_AT_RISK, SOME_AT_RISK};
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

/// What helps with a lift.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Advice {
    /// Within the limit.
    Within,
    /// Above it for one person: a second one, who bears half at best.
    Second,
    /// Above it for two as well: a hoist, or smaller pieces.
    Hoist,
    /// So high, far off or turned away that the equation allows nothing at all, however light the piece: stand
    /// nearer or higher.
    Beyond,
}

impl PieceLift {
    /// What helps.
    pub fn advice(&self) -> Advice {
        match self.index {
            _ if self.recommended.limit.si() <= 0.0 => Advice::Beyond,
            index if index <= SOME_AT_RISK => Advice::Within,
            index if self.recommended.people < 2 && index <= NEARLY_ALL_AT_RISK => Advice::Second,
            _ => Advice::Hoist,
        }
    }

    /// What helps, as a sentence for the sheet and the test day; none within the limit.
    pub fn warning(&self) -> Option<String> {
        let told = match self.advice() {
            Advice::Within => return None,
            Advice::Second => format!("Index {:.1}: two people lift, each half the load at best.", self.index),
            Advice::Hoist => format!("Index {:.1}: a hoist, or several people.", self.index),
            Advice::Beyond => {
                format!("Out of reach by {}: stand nearer or higher.", self.recommended.worst().meaning)
            }
        };
        Some(told)
    }
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

/// The lifts of all placed pieces, in their order. Heights are those above the floor on which the lifter stands:
/// the plan's, else it is taken to be where the lowest support is, else at 0 of the floor frame.
pub fn lifts(plan: &Plan, closed: &Closed) -> Vec<PieceLift> {
    let floor_from_bed = plan.floor_from_bed();
    let lowest_m = || plan.fixture.supports.iter().map(|s| point(s.at).z).reduce(f64::min).unwrap_or(0.0);
    let floor_m = plan.fixture.floor.map_or_else(lowest_m, Quantity::si);
    let height_m = |step: usize| {
        let place = plan.stack.get(step)?;
        let underside_m = closed.pile.underside_m.get(step)?;
        let middle_m = underside_m + plan.extent_of(place)[2].si() / 2.0;
        let [x_m, y_m] = place.at.map(Quantity::si);
        Some((floor_from_bed * nalgebra::Point3::new(x_m, y_m, middle_m)).z - floor_m)
    };
    let steps = (0..plan.steps()).filter_map(|step| Some((step, Length::m(height_m(step)?))));
    let layer = |step: usize| closed.pile.layer.get(step).map_or(1, |layer| u32::try_from(*layer).unwrap_or(u32::MAX));
    steps.map(|(step, put_down)| lifted(plan, (step, layer(step)), put_down)).collect()
}

fn lifted(plan: &Plan, (step, layer): (usize, u32), put_down: Length) -> PieceLift {
    let handling = &plan.allow.handling;
    let handling = &plan::Handling { people: handling.people_at(layer), ..*handling };
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
