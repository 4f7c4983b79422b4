//! What keeps the pieces out where a stack does not reach its load, and what would help, in numbers.

use crate::impossible::Shortfall;
use crate::task::Task;
use assess::{Check, Gap, gap_for};
use plan::{Form, Lot};
use quantity::{Grain, Length, Quantity};

/// The piece of the heaviest lot that does not go with its length between what must stay clear, with the numbers; none
/// where it goes in.
pub(crate) fn too_short(task: &Task) -> Option<Shortfall> {
    let whole_kg = |lot: &&Lot| lot.mass.si() * f64::from(lot.count);
    let loads = task.plan.ballast.iter().filter(|lot| lot.form != Form::Board);
    let lot = loads.max_by(|a, b| whole_kg(a).total_cmp(&whole_kg(b)))?;
    let gap = gap_for(task.plan, lot)?;
    let sentence = format!("{}. {}", gap.words(task.plan.units), what_helps(task, lot, &gap));
    Some(Shortfall { check: Check::KeepClear, sentence, is_certain: false, gap: Some(gap) })
}

/// Pieces of another size; boards that carry turned ones; a little more room.
fn what_helps(task: &Task, lot: &Lot, gap: &Gap) -> String {
    let shown = |m: f64| Length::m(m).shown(task.plan.units, Grain::Fine);
    let mut ways = vec![format!("pieces no longer than {}", shown(gap.free_m()))];
    let width_m = lot.size[1].si();
    if width_m <= gap.free_m()
        && let Some(span_m) = span_m(task, gap).filter(|span_m| *span_m <= gap.free_m())
    {
        ways.push(format!(
            "boards of {} to {} along the gap from bearing to bearing, which carry these pieces turned: their width of \
             {} goes in",
            shown(span_m),
            shown(gap.free_m()),
            shown(width_m)
        ));
    }
    let [one, other] = &gap.between;
    ways.push(format!("{} more room, where {one} or {other} can be taken off for the test", shown(gap.lacking_m())));
    format!("What would help: {}.", ways.join("; or "))
}

/// From middle to middle of the outermost bearings along the gap, m: what a board must reach at the least to lie on both
/// with half of their breadth.
fn span_m(task: &Task, gap: &Gap) -> Option<f64> {
    let along = gap.ends_in_floor[1] - gap.ends_in_floor[0];
    let axis = if along.y.abs() > along.x.abs() { 1 } else { 0 };
    let middle = |bearing: &statics::Bearing| {
        let [from, to] = if axis == 0 { bearing.x_m } else { bearing.y_m };
        f64::midpoint(from, to)
    };
    let middles = || task.bed.bearings.iter().map(middle);
    let span_m = middles().fold(f64::NEG_INFINITY, f64::max) - middles().fold(f64::INFINITY, f64::min);
    (span_m > 0.0 && span_m.is_finite()).then_some(span_m)
}
