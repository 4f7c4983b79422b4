//! The reserve that is really there: the lesser of what the rigid stack bears, where friction ends or an edge is
//! reached, and what it bears as its bags give.

use super::soft::Yielding;
use statics::Decision;
use statics::equilibrium::StepEquilibrium;

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
    /// Whether the push was solved as the bags give: else it is bounded there by other steps, which bear less.
    pub pushed: bool,
}

impl StepReserve {
    fn of(rigid: Decision, soft: Option<Decision>) -> Self {
        let pushed = soft.is_some();
        match soft {
            Some(soft) if soft.governs(&rigid) => Self { least: soft, by: Told::Soft, pushed },
            _ => Self { least: rigid, by: Told::Rigid, pushed },
        }
    }
}

/// The reserve after each step, at one softness of the bags; rigid where none is given.
pub(super) fn each(rigid: &[StepEquilibrium], yielding: Option<&Yielding>) -> Vec<StepReserve> {
    let of = |(step, rigid): (usize, &StepEquilibrium)| {
        StepReserve::of(rigid.least, yielding.and_then(|yielding| yielding.reserve(step)))
    };
    rigid.iter().enumerate().map(of).collect()
}
