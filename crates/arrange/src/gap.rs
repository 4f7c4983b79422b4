//! How much room there is between what must stay clear, fore and aft and at the sides of the occupant point: what
//! keeps the pieces out where a stack does not reach its load.

use crate::impossible::Shortfall;
use crate::task::Task;
use assess::{Check, Clearances};
use plan::{Form, KeepClear, Plan};
use quantity::{Grain, Length, Quantity};
use statics::Body;

/// Room is looked for in steps of this, m,
const STEP_M: f64 = 0.001;
/// as far as this from the occupant point, m.
const FAR_M: f64 = 1.5;

/// A region and where its clearance begins, m from the line of action.
struct Wall<'p> {
    region: &'p KeepClear,
    at_m: f64,
}

/// The piece of the heaviest lot that does not go lengthwise between what must stay clear, with the numbers; none
/// where it goes in.
pub(crate) fn too_short(task: &Task) -> Option<Shortfall> {
    let whole_kg = |lot: &&plan::Lot| lot.mass.si() * f64::from(lot.count);
    let loads = task.plan.ballast.iter().filter(|lot| lot.form != Form::Board);
    let lot = loads.max_by(|a, b| whole_kg(a).total_cmp(&whole_kg(b)))?;
    [0, 1].into_iter().find_map(|axis| {
        let [low, high] = [-1.0, 1.0].map(|sign| wall(task, axis, sign, lot.size[2].si()));
        let (low, high) = (low?, high?);
        let free_m = high.at_m - low.at_m;
        (free_m < lot.size[0].si()).then(|| sentence(task.plan, lot, (&low, &high), free_m))
    })
}

fn sentence(plan: &Plan, lot: &plan::Lot, (low, high): (&Wall, &Wall), free_m: f64) -> Shortfall {
    let shown = |m: f64| Length::m(m).shown(plan.units, Grain::Fine);
    let between_m = free_m + low.region.clearance.si() + high.region.clearance.si();
    let sentence = format!(
        "{} lie between {} and {}, {} with their clearances taken off, and a piece of “{}” is {} long: it goes in \
         crosswise only. Use pieces no longer than {}, or lay boards that carry crosswise pieces between the bearings.",
        shown(between_m),
        low.region.name,
        high.region.name,
        shown(free_m),
        lot.name,
        shown(lot.size[0].si()),
        shown(free_m),
    );
    Shortfall { check: Check::KeepClear, sentence, is_certain: false }
}

/// The first region from the line of action one way along an axis of the bed, at the height of a piece on the bearings.
fn wall<'p>(task: &Task<'p>, axis: usize, sign: f64, thickness_m: f64) -> Option<Wall<'p>> {
    let line = task.line_at(0.0);
    let clear_of = |region: &KeepClear| {
        let mut alone = task.plan.clone();
        alone.article.keep_clear = vec![region.clone()];
        Clearances::of(&alone)
    };
    let first = |region: &'p KeepClear| {
        let clear = clear_of(region);
        let blocked = |step: &u32| {
            let mut centre_m = line;
            centre_m[axis] += sign * f64::from(*step) * STEP_M;
            let body =
                Body { centre_m, extent_m: [STEP_M, STEP_M, thickness_m], mass_kg: 0.0, friction: 0.0, soft: false };
            !clear.is_clear(&body, 0.0)
        };
        let at_m = f64::from((0..far_steps()).find(blocked)?) * STEP_M;
        Some(Wall { region, at_m: sign * at_m })
    };
    let walls = task.plan.article.keep_clear.iter().filter_map(first);
    walls.min_by(|a, b| a.at_m.abs().total_cmp(&b.at_m.abs()))
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "some thousand steps")]
fn far_steps() -> u32 {
    (FAR_M / STEP_M) as u32
}
