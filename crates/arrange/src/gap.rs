//! What keeps the pieces out where a stack does not reach its load, and what would help, in numbers.

use crate::impossible::Shortfall;
use crate::judge::BAG_CARRIED;
use crate::task::{Item, Put, Task};
use assess::{Check, Gap, gap_along, gap_for};
use plan::{Form, Lot, Turn};
use quantity::{Grain, Length, Mass, Quantity};

/// Where a bag lies best on the bare bearings is looked for in steps of this, m,
const CARRIED_STEP_M: f64 = 0.01;
/// so many each way from the line of action.
const CARRIED_STEPS: i32 = 24;

/// Whether it says that load is lacking although pieces are left.
pub(crate) fn is_lacking(short: &Shortfall) -> bool {
    short.check == Check::AppliedLoad && !short.is_certain
}

/// That the pieces which are left find no place.
pub(crate) fn no_place(task: &Task, applied_kg: f64) -> String {
    let shown = |kg: f64| Mass::kg(kg).shown(task.plan.units, Grain::Coarse);
    format!(
        "{} of {} could be laid. Pieces are left for the {} that are missing, but no place was found where they rest \
         well, keep clear, and the stack still stands.",
        shown(applied_kg),
        shown(task.due_kg),
        shown(task.due_kg - applied_kg)
    )
}

/// The piece of the heaviest lot that does not go with its length between what must stay clear, with the numbers; none
/// where it goes in.
pub(crate) fn too_short(task: &Task) -> Option<Shortfall> {
    let lot = heaviest(task)?;
    let gap = gap_for(task.plan, lot)?;
    let sentence = format!("{}. {}", gap.words(task.plan.units), what_helps(task, lot, &gap));
    Some(Shortfall { check: Check::KeepClear, sentence, is_certain: false, gap: Some(gap) })
}

/// The lot of which there is most.
fn heaviest<'p>(task: &Task<'p>) -> Option<&'p Lot> {
    let whole_kg = |lot: &&Lot| lot.mass.si() * f64::from(lot.count);
    let loads = task.plan.ballast.iter().filter(|lot| lot.form != Form::Board);
    loads.max_by(|a, b| whole_kg(a).total_cmp(&whole_kg(b)))
}

/// That bags would sag between the bearings and no board here goes from one to the other, with the board that would;
/// none where a bag is carried, or a board goes.
pub(crate) fn not_carried(task: &Task) -> Option<Shortfall> {
    let lot = heaviest(task).filter(|lot| lot.form == Form::Bag)?;
    let carried = carried(task, lot, &[Turn::Lengthwise, Turn::Crosswise]);
    if carried >= BAG_CARRIED {
        return None;
    }
    let boards = task.plan.ballast.iter().filter(|lot| lot.form == Form::Board);
    let longest = boards.clone().max_by(|a, b| a.size[0].si().total_cmp(&b.size[0].si()));
    // A board without end stops at whatever there is on both sides.
    let endless = Lot { size: [Length::m(1e3), longest.unwrap_or(lot).size[1], lot.size[2]], ..lot.clone() };
    // Along the bed where the bearings lie one behind the other, else across it: rails lie side by side.
    let spanned = |axis: usize| {
        let gap = gap_along(task.plan, &endless, axis)?;
        Some((span_m(task, &gap)?, gap))
    };
    let (span_m, gap) = [0, 1].into_iter().find_map(spanned)?;
    let free_m = gap.free_m();
    if span_m > free_m || boards.clone().any(|board| (span_m..=free_m).contains(&board.size[0].si())) {
        return None;
    }
    let shown = |m: f64| Length::m(m).shown(task.plan.units, Grain::Fine);
    let [one, other] = &gap.between;
    let have = longest.map_or("there is none".to_owned(), |board| {
        format!(
            "“{}” is {} long, and {} are free between {one} and {other}",
            board.name,
            shown(board.size[0].si()),
            shown(free_m)
        )
    });
    let sentence = format!(
        "On the bearings alone a piece of “{}” lies on {:.0} % of its underside at best, and less than {:.0} % lets it sag \
         between them. No board goes from bearing to bearing: {have}. What would help: boards of {} to {}, side by side \
         from bearing to bearing.",
        lot.name,
        100.0 * carried,
        100.0 * BAG_CARRIED,
        shown(span_m),
        shown(free_m)
    );
    let needed =
        longest.filter(|board| board.size[0].si() > free_m).map(|board| (board.name.clone(), board.size[0].si()));
    let gap = needed.map(|needed| Gap { needed: Some(needed), ..gap });
    Some(Shortfall { check: Check::EveryPieceRests, sentence, is_certain: false, gap })
}

/// The share of its underside on which a piece of a lot lies on the bare bearings at best, where it keeps clear.
fn carried(task: &Task, lot: &Lot, turns: &[Turn]) -> f64 {
    let Some(index) = task.plan.ballast.iter().position(|known| known.name == lot.name) else { return 0.0 };
    let line = task.line_at(0.0);
    let off = |step: i32| f64::from(step) * CARRIED_STEP_M;
    let places = (-CARRIED_STEPS..=CARRIED_STEPS)
        .flat_map(|x| (-CARRIED_STEPS..=CARRIED_STEPS).map(move |y| [line[0] + off(x), line[1] + off(y)]));
    let share = |(at_m, turn): ([f64; 2], Turn)| {
        let item = Item::ANY;
        let body = task.body(&Put { lot: index, item, at_m, turn, locked: false, kept: false });
        let pile = statics::settle(&task.bed, std::slice::from_ref(&body));
        let lies_m2: f64 = pile.contacts.iter().map(|contact| contact.patch.area()).sum();
        if task.clearances.is_clear(&body, pile.underside_m[0]) { lies_m2 / body.footprint().area() } else { 0.0 }
    };
    let turned = places.flat_map(|at_m| turns.iter().map(move |turn| (at_m, *turn)));
    turned.map(share).fold(0.0, f64::max)
}

/// Pieces of another size; boards that carry turned ones; a little more room.
fn what_helps(task: &Task, lot: &Lot, gap: &Gap) -> String {
    let shown = |m: f64| Length::m(m).shown(task.plan.units, Grain::Fine);
    let mut ways = vec![format!("pieces no longer than {}", shown(gap.free_m()))];
    let width_m = lot.size[1].si();
    if width_m <= gap.free_m()
        && let Some(span_m) = span_m(task, gap).filter(|span_m| *span_m <= gap.free_m())
    {
        let carried = carried(task, lot, &[turned_about(gap)]);
        let alone = match lot.form == Form::Bag && carried < BAG_CARRIED {
            true => {
                format!(", and on the bearings alone they would lie on {:.0} % of their underside", 100.0 * carried)
            }
            false => String::new(),
        };
        ways.push(format!(
            "boards of {} to {} along the gap from bearing to bearing, which carry these pieces turned by 90 degrees: \
             their width of {} goes in{alone}",
            shown(span_m),
            shown(gap.free_m()),
            shown(width_m)
        ));
    }
    let [one, other] = &gap.between;
    ways.push(format!("{} more room, where {one} or {other} can be taken off for the test", shown(gap.lacking_m())));
    format!("What would help: {}.", ways.join("; or "))
}

/// How a piece lies whose width goes into a gap.
fn turned_about(gap: &Gap) -> Turn {
    let along = gap.ends_in_floor[1] - gap.ends_in_floor[0];
    if along.y.abs() > along.x.abs() { Turn::Lengthwise } else { Turn::Crosswise }
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
