//! What everything on the Stack page works on.

use super::hand::Hand;
use crate::commands::Command;
use crate::look::Look;
use crate::shown::Shown;
use plan::{Edit, Turn};

/// What the Stack page works on.
pub(crate) struct Table<'a> {
    /// The plan as it is, without the gesture in hand.
    pub(crate) plan: &'a plan::Plan,
    /// The plan as it is shown, with the gesture in hand.
    pub(crate) shown: &'a mut Shown,
    /// What the user has in hand.
    pub(crate) hand: &'a mut Hand,
    pub(crate) fields: &'a mut crate::fields::Fields,
    pub(crate) look: &'a Look,
    /// What the way from an empty plan to the sheet needs to know beside the plan.
    pub(crate) beside: plan::Beside,
    /// The part of the solving that is done, while it runs.
    pub(crate) progress: Option<f32>,
    /// Whether the history has a step to undo, and to redo.
    pub(crate) can_undo: bool,
    pub(crate) can_redo: bool,
    /// Edits that the page asks for.
    pub(crate) edits: Vec<Edit>,
    /// What else it asks of the window.
    pub(crate) commands: Vec<Command>,
}

impl Table<'_> {
    /// How the next piece of a lot lies: as the last one was put down, for a layer is often taken up again.
    pub(super) fn turn_of(&self, lot: &str) -> Turn {
        let last = self.plan.stack.iter().rev().find(|place| place.lot == lot);
        last.map_or(Turn::Lengthwise, |place| place.turn)
    }
}
