//! Single questions about one state.

use super::bounds::Bounds;
use super::front::{Front, StepEquilibrium};
use super::group::{Group, Stack};
use super::plain;
use super::proof::Effort;
use super::search::Search;
use super::shortcuts::{Means, Shortcuts};
use crate::margin::Decision;

/// Is there any equilibrium of the first `step` pieces under their weight and the dead pulls alone?
/// `None`: not decided, which is never to be read as yes. A piece with nothing under it does not stand.
///
/// Source: `own derivation`, see the module. With friction the answer is that of dilatant sliding: no is
/// certain, yes is necessary.
pub fn stands(stack: &Stack, step: usize) -> Option<bool> {
    if stack.pile.hanging.iter().any(|&body| body < step) {
        return Some(false);
    }
    let (mut answer, means) = (Some(true), Means::new(Shortcuts::ALL));
    for group in Front::new(*stack, step, Effort::FULL).groups() {
        let search = Search { group, directions: &[], effort: Effort::FULL, means: &means, wanted: &|| true };
        match search.stands(&mut Bounds::default()) {
            Some(false) => return Some(false),
            Some(true) => {}
            None => answer = None,
        }
    }
    answer
}

/// The collapse multiplier of the first `step` pieces: the least over the given plan directions (rad, floor
/// frame) of the greatest lambda with which weight, dead pulls and a horizontal force of lambda times
/// its weight on every piece can still be balanced. A stack that does not stand by itself `Falls`, even if it
/// would be held by a push in one of the directions.
pub fn collapse(stack: &Stack, step: usize, directions_rad: &[f64]) -> StepEquilibrium {
    Front::new(*stack, step, Effort::FULL).verdict(directions_rad, &|| true)
}

/// The plan directions over which the least is told: 16 and the normals of the hull's edges of every layer, rad, floor
/// frame.
pub fn directions(stack: &Stack, step: usize) -> Vec<f64> {
    Front::new(*stack, step, Effort::FULL).directions()
}

/// One direction by a general conic solver on the whole stack at once, with nothing of this module's
/// shortcuts: a second opinion and the yardstick of the bench. The solver's number as it comes.
/// Never for a verdict: what it returns is not checked.
pub fn collapse_by_general_solver(stack: &Stack, direction_rad: f64) -> Decision {
    let all = (0..stack.bodies.len()).collect();
    let Some(group) = Group::new(stack, stack.bodies.len(), all) else { return Decision::NotLimited };
    match plain::push(&group, &group.axes.along(direction_rad), Effort::FULL.general) {
        Some(opinion) if opinion.content => {
            let (multiplier, by) = (opinion.multiplier, crate::margin::Way::Tip);
            Decision::Decided(crate::margin::Reserve { multiplier, direction_rad, by, any_way: false })
        }
        _ => Decision::NotDecided { residual: None },
    }
}
