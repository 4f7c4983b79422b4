//! The reserve that is really there: the lesser of what the rigid stack bears, where friction ends or an edge is
//! reached, and what it bears as its bags give.

use super::soft::Yielding;
use plan::Plan;
use statics::equilibrium::StepEquilibrium;
use statics::{Decision, Reserve};

/// Which model the reserve of a step is told by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// The rigid pieces' equilibrium.
    Rigid,
    /// The stack as its bags give.
    Soft,
}

/// The reserve after a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StepReserve {
    /// The lesser of both.
    pub least: Decision,
    /// Which of them it is; the rigid one of equals.
    pub by: Told,
    /// Where it ends by leaning over, the piece on whose bed it tips; none where that is not known.
    pub tips: Option<usize>,
    /// Whether the push was solved as the bags give, if any do. Where it was not, `least` is that of rigid pieces: no more than
    /// an upper bound, which no verdict takes for the reserve.
    pub pushed: bool,
    /// What the stack bears at the least as its bags give, where it was not pushed over but asked for so much, as a
    /// part of the weight.
    pub at_least: Option<f64>,
}

impl StepReserve {
    /// By a closed form, from above.
    pub(crate) fn bound(least: Decision, by: Told) -> Self {
        Self { least, by, tips: None, pushed: false, at_least: None }
    }

    fn of(rigid: Decision, yielding: Option<&Yielding>, step: usize) -> Self {
        let soft = yielding.and_then(|yielding| yielding.reserve(step));
        let at_least = yielding.filter(|_| soft.is_none()).and_then(|yielding| yielding.others_bear);
        let known = Self { pushed: yielding.is_none() || soft.is_some(), at_least, ..Self::bound(rigid, Told::Rigid) };
        match soft {
            Some(soft) if soft.governs(&rigid) => {
                let push = yielding.and_then(|yielding| yielding.push(step)?.push());
                Self { least: soft, by: Told::Soft, tips: push.and_then(|push| push.tips), ..known }
            }
            _ => known,
        }
    }

    /// Whether it is no more than an upper bound: that of rigid pieces, where what is known of the bags allows less.
    pub fn is_bound(&self) -> bool {
        let above = |reserve: Reserve| self.at_least.is_none_or(|at_least| reserve.multiplier > at_least);
        !self.pushed && self.by == Told::Rigid && self.least.reserve().is_none_or(above)
    }

    /// How it ends where the bags give way first: `leans: sand bag 14 tips aft`. None: it ends otherwise, or there is
    /// no push at which it does.
    pub fn leans(&self, plan: &Plan) -> Option<String> {
        self.least.reserve().filter(|_| self.by == Told::Soft)?;
        Some(self.tips_words(plan).map_or_else(|| "leans".to_owned(), |tips| format!("leans: {tips}")))
    }

    /// Which piece tips then, and where to: `sand bag 14 tips aft`; none where that is not known.
    pub fn tips_words(&self, plan: &Plan) -> Option<String> {
        let reserve = self.least.reserve().filter(|_| self.by == Told::Soft)?;
        let piece = self.tips.filter(|piece| *piece < plan.steps())?;
        Some(format!("{} tips {}", plan.piece_name(piece), reserve.toward()))
    }
}

/// The reserve after each step, at one softness of the bags; rigid where none is given.
pub(super) fn each(rigid: &[StepEquilibrium], yielding: Option<&Yielding>) -> Vec<StepReserve> {
    let of = |(step, rigid): (usize, &StepEquilibrium)| StepReserve::of(rigid.least, yielding, step);
    rigid.iter().enumerate().map(of).collect()
}

/// The least push that every step bears while rigid, as a part of the weight: more than that nobody need ask of a stack
/// that gives. Never below 0; infinite where nothing rigid limits it.
pub(super) fn enough(rigid: &[StepEquilibrium]) -> f64 {
    let multipliers = rigid.iter().filter_map(|step| step.least.reserve()).map(|reserve| reserve.multiplier);
    multipliers.fold(f64::INFINITY, f64::min).max(0.0)
}
