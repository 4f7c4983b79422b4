//! The way back once pieces come off: what is left after each, and where what still lies there is.

use assess::unload::{Left, Unloading};
use assess::{Ask, Closed};
use plan::Plan;
use testday::{Day, Stage, WayBack};

/// How what was put down comes off.
pub(super) struct Back {
    way: Unloading,
    /// What still lies there: as a plan, its pieces' places in the stack as done, and how they lie.
    pub(super) there: (Plan, Vec<usize>, Closed),
}

impl Back {
    /// Of a day whose pieces come off, now or next; none while they go on.
    pub(super) fn of(kept: &mut WayBack, day: &Day) -> Option<Self> {
        let run = day.run();
        let due = run.as_done().runs().get(day.runs.len() - 1).map_or(0, |this| this.placements(run.as_done()));
        let turns = run.stage == Stage::Unloading || (run.stage == Stage::Loading && run.placed() >= due);
        if !turns {
            return None;
        }
        let plan = run.as_done();
        let way = kept.of(plan, run.placed())?.clone();
        let on_seat = run.on_seat();
        let stack = on_seat.iter().map(|index| plan.stack[*index].clone()).collect();
        let left = Plan { stack, ..plan.clone() };
        let layout = assess::assess(&left, Ask::closed()).closed;
        Some(Self { way, there: (left, on_seat, layout) })
    }

    /// What is left once this piece is off; none after the last, or where it comes off out of its turn.
    pub(super) fn left_after(&self, index: usize) -> Option<&Left> {
        let turn = self.way.order.iter().position(|piece| *piece == index)?;
        self.way.left.get(turn)
    }
}
