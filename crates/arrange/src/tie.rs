//! Boards between courses: what holds columns together that no bag can lie across.

use crate::base::is_level_and_well;
use crate::built::Built;
use crate::lie::Lie;
use crate::scheme::{Scheme, Schemes};
use crate::share::share_out;
use crate::task::{Put, Task};
use crate::work::Work;
use plan::{Form, Turn};
use statics::settle;

/// A stack of which less than this share lies in bond stands in columns.
const IN_BOND: f64 = 0.5;
/// What falls short by more, in parts of its limits, needs more than another order and a shift.
const FALLS: f64 = 0.05;
/// Boards are laid between the courses of so many of the best.
const LEADERS: usize = 4;
/// After each second course, each third, and so on.
const EVERY: [usize; 3] = [2, 3, 4];

/// Boards of a lot, turned so, after every so many courses.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Tie {
    lot: usize,
    turn: Turn,
    every: usize,
}

impl Tie {
    /// The boards that are due on a stack after so many courses; none where they do not lie well.
    pub(crate) fn after(self, task: &Task, stack: &[Put], courses: usize) -> Option<Vec<Put>> {
        courses.is_multiple_of(self.every).then(|| self.on(task, stack)).flatten()
    }

    /// Boards side by side over the whole uppermost course, as many as go, at least two.
    fn on(self, task: &Task, stack: &[Put]) -> Option<Vec<Put>> {
        let [along, across] = if self.turn == Turn::Lengthwise { [0, 1] } else { [1, 0] };
        // A step of the grid inside the ends, so that no rounded place comes nearer to what must stay clear than the bags.
        let top = extent_of_top(task, stack)?.map(|[from, to]| [from + task.grid_m, to - task.grid_m]);
        let free = crate::course::left(task, stack, self.lot);
        let width_m = task.stocks[self.lot].size_m[1];
        let whole_m = top[across][1] - top[across][0];
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few boards")]
        let most = ((whole_m / (width_m + task.grid_m)).max(0.0) as usize).min(free.len());
        (2..=most).rev().find_map(|count| {
            #[expect(clippy::cast_precision_loss, reason = "a few boards")]
            let step_m = (whole_m - width_m) / (count - 1) as f64;
            let put = |index: usize| {
                let mut at_m = [0.0; 2];
                at_m[along] = f64::midpoint(top[along][0], top[along][1]);
                #[expect(clippy::cast_precision_loss, reason = "a few boards")]
                let off_m = index as f64 * step_m;
                at_m[across] = top[across][0] + width_m / 2.0 + off_m;
                let at_m = task.on_grid(at_m);
                Put { lot: self.lot, item: free[index], at_m, turn: self.turn, locked: false, kept: false }
            };
            let puts = crate::balance::in_balance(task, stack, (0..count).map(put).collect());
            is_level_and_well(task, stack, &puts).then_some(puts)
        })
    }
}

/// The least and greatest x and y of the pieces whose tops are the highest, m.
fn extent_of_top(task: &Task, stack: &[Put]) -> Option<[[f64; 2]; 2]> {
    let bodies = task.bodies(stack);
    let pile = settle(&task.bed, &bodies);
    let top_m = |index: usize| pile.underside_m[index] + bodies[index].extent_m[2];
    let highest_m = (0..bodies.len()).map(top_m).fold(f64::NEG_INFINITY, f64::max);
    let of_top = (0..bodies.len()).filter(|index| top_m(*index) > highest_m - task.bed.touch_m);
    let extents = of_top.map(|index| {
        let body = &bodies[index];
        [0, 1].map(|axis| [-0.5, 0.5].map(|end| body.centre_m[axis] + end * body.extent_m[axis]))
    });
    extents.reduce(|a, b| [0, 1].map(|axis| [a[axis][0].min(b[axis][0]), a[axis][1].max(b[axis][1])]))
}

impl Work<'_> {
    /// The best that stand in columns once more, with boards between their courses.
    pub(crate) fn tied(&self, schemes: &Schemes, built: &[Built]) -> Vec<Built> {
        let mut all: Vec<&Built> = built.iter().collect();
        all.sort_by(|a, b| crate::built::by_worth(a, b));
        // What stands in bond gains by boards only where it would fall without.
        let falls = all.first().is_some_and(|best| best.judged.falls_short_by(&self.task) > FALLS);
        let is_wanted = |built: &&Built| falls || built.judged.bonded < IN_BOND;
        let columns: Vec<&Built> = all.into_iter().filter(is_wanted).collect();
        let scheme = |built: &&Built| schemes.all.get(built.number);
        let columns: Vec<&Scheme> = columns.iter().filter_map(scheme).take(LEADERS).collect();
        let ties = ties(&self.task);
        let build = |index: usize| {
            let (scheme, tie) = (columns[index / ties.len()], ties[index % ties.len()]);
            let stack = schemes.build_tied(&self.task, scheme, Some(tie));
            // Asked at once how it gives: by closed forms columns look as good without boards.
            let gives = Lie::of(&self.task, &stack).gives_at_last(&self.task);
            let mut built = Built::new(&self.task, schemes.all.len() + index, stack);
            built.ask_how_it_gives(&self.task, gives);
            built
        };
        share_out(columns.len() * ties.len(), self.wish.threads, &build, &|_| true)
    }
}

fn ties(task: &Task) -> Vec<Tie> {
    let boards = (0..task.stocks.len()).filter(|lot| task.stocks[*lot].form == Form::Board);
    let turned = boards.flat_map(|lot| [Turn::Lengthwise, Turn::Crosswise].map(|turn| (lot, turn)));
    turned.flat_map(|(lot, turn)| EVERY.map(|every| Tie { lot, turn, every })).collect()
}
