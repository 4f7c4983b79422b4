//! What a stack that was ordered or trimmed does to the one that is there, in words.

use plan::{Place, Plan};
use quantity::frame::side;
use quantity::{Grain, Length, Quantity, Units};

/// Less than this is no move, m.
const HAIR_M: f64 = 5e-4;

/// The pieces that are put down earlier or later: the fewest that make the one order from the other.
pub(super) fn of_order(before: &Plan, after: &Plan) -> Vec<String> {
    let was = |place: &Place| before.stack.iter().position(|other| is_same(other, place));
    let came_from: Vec<Option<usize>> = after.stack.iter().map(was).collect();
    let stay = longest_rise(&came_from);
    let moved = (0..after.steps()).filter(|step| !stay.contains(step));
    moved.filter_map(|step| Some(reordered(after, step, came_from[step]?))).collect()
}

fn is_same(a: &Place, b: &Place) -> bool {
    a.lot == b.lot && a.item == b.item
}

/// `bag 7 before bag 5: step 9, was 12`.
fn reordered(after: &Plan, step: usize, was: usize) -> String {
    let beside = match step.checked_sub(1) {
        _ if was > step => format!("before {}", after.piece_name(step + 1)),
        Some(last) => format!("after {}", after.piece_name(last)),
        None => "first".to_owned(),
    };
    format!("{} {beside}: step {}, was {}", after.piece_name(step), step + 1, was + 1)
}

/// The places of a longest part of a list that rises: what can stay when the rest is moved.
fn longest_rise(list: &[Option<usize>]) -> Vec<usize> {
    // Ends of the best rises so far with what came before each; stacks are short enough for the square.
    let mut best: Vec<(usize, Option<usize>)> = Vec::with_capacity(list.len());
    for (index, value) in list.iter().enumerate() {
        let before = (0..index).filter(|i| list[*i].is_some() && list[*i] < *value).max_by_key(|i| (best[*i].0, *i));
        let length = if value.is_some() { 1 + before.map_or(0, |i| best[i].0) } else { 0 };
        best.push((length, before));
    }
    let mut rise = Vec::new();
    let mut next = (0..list.len()).filter(|i| best[*i].0 > 0).max_by_key(|i| best[*i].0);
    while let Some(index) = next {
        rise.push(index);
        next = best[index].1;
    }
    rise
}

/// The moves and exchanges placement by placement, in an order that stayed as it was; what a whole
/// layer does is told once. `layers`: of the placements.
pub(super) fn of_places(before: &Plan, after: &Plan, layers: &[usize]) -> Vec<String> {
    let shifts: Vec<[f64; 2]> = before.stack.iter().zip(&after.stack).map(shift).collect();
    let mut told = match shared(&shifts, before.units) {
        Some(words) => vec![format!("the whole stack {words}")],
        None => by_layer(after, &shifts, layers),
    };
    told.extend(exchanged(before, after));
    told
}

/// `layers 1, 2 aft 12 mm`; pieces by themselves where their layer does not move as one.
fn by_layer(after: &Plan, shifts: &[[f64; 2]], layers: &[usize]) -> Vec<String> {
    let (mut whole, mut single): (Vec<(String, Vec<String>)>, Vec<String>) = (Vec::new(), Vec::new());
    for layer in 1..=layers.iter().copied().max().unwrap_or(0) {
        let steps: Vec<usize> = (0..shifts.len()).filter(|step| layers.get(*step) == Some(&layer)).collect();
        let of_them: Vec<[f64; 2]> = steps.iter().map(|step| shifts[*step]).collect();
        let Some(words) = shared(&of_them, after.units) else {
            let words =
                |step: &usize| Some(format!("{} {}", after.piece_name(*step), way(shifts[*step], after.units)?));
            single.extend(steps.iter().filter_map(words));
            continue;
        };
        match whole.iter_mut().find(|(way, _)| *way == words) {
            Some((_, alike)) => alike.push(layer.to_string()),
            None => whole.push((words, vec![layer.to_string()])),
        }
    }
    let of_layers = |(way, alike): (String, Vec<String>)| {
        format!("layer{} {} {way}", if alike.len() == 1 { "" } else { "s" }, alike.join(", "))
    };
    whole.into_iter().map(of_layers).chain(single).collect()
}

fn shift((before, after): (&Place, &Place)) -> [f64; 2] {
    [0, 1].map(|axis| after.at[axis].si() - before.at[axis].si())
}

/// The one shift of several pieces, if they have one.
fn shared(shifts: &[[f64; 2]], units: Units) -> Option<String> {
    let first = shifts.first()?;
    let alike = shifts.iter().all(|shift| (0..2).all(|axis| (shift[axis] - first[axis]).abs() < HAIR_M));
    alike.then(|| way(*first, units))?
}

/// `aft 12 mm, left 3 mm`; nothing where it stays.
fn way(shift: [f64; 2], units: Units) -> Option<String> {
    let one = |axis: usize| {
        let m = shift[axis];
        let shown = || Length::m(m.abs()).shown(units, Grain::Fine);
        (m.abs() >= HAIR_M).then(|| format!("{} {}", side(axis, m), shown()))
    };
    let ways: Vec<String> = [0, 1].into_iter().filter_map(one).collect();
    (!ways.is_empty()).then(|| ways.join(", "))
}

/// Pieces that took each other's places, each pair once, and pieces that took another one's.
fn exchanged(before: &Plan, after: &Plan) -> Vec<String> {
    let now = |place: &Place| after.stack.iter().position(|other| is_same(other, place));
    let mut told = Vec::new();
    for (step, (old, new)) in before.stack.iter().zip(&after.stack).enumerate() {
        if is_same(old, new) {
            continue;
        }
        let (old_name, new_name) = (before.piece_name(step), after.piece_name(step));
        match now(old) {
            Some(other) if before.stack.get(other).is_some_and(|piece| is_same(piece, new)) => {
                if step < other {
                    told.push(format!("{old_name} exchanged with {new_name}"));
                }
            }
            _ => told.push(format!("{new_name} in the place of {old_name}")),
        }
    }
    told
}

#[cfg(test)]
mod tests {
    use super::{of_order, of_places};
    use plan::{Edit, Plan};
    use quantity::Length;

    fn demo() -> Plan {
        plan::file::read(crate::DEMOS[0].1).expect("the demo is a plan")
    }

    fn made(plan: &Plan, edit: &Edit) -> Plan {
        edit.apply(plan).expect("an edit that can be made")
    }

    #[test]
    fn the_one_piece_that_goes_earlier_is_told_and_not_those_that_make_way() {
        let before = demo();
        let after = made(&before, &Edit::Reorder { from: 11, to: 8 });
        let (moved, next) = (before.piece_name(11), before.piece_name(8));
        assert_eq!(of_order(&before, &after), [format!("{moved} before {next}: step 9, was 12")]);
        let after = made(&before, &Edit::Reorder { from: 8, to: 11 });
        let (moved, last) = (before.piece_name(8), before.piece_name(11));
        assert_eq!(of_order(&before, &after), [format!("{moved} after {last}: step 12, was 9")]);
        assert!(of_order(&before, &before).is_empty(), "no change is no sentence");
    }

    #[test]
    fn a_layer_that_moves_as_one_is_told_once_and_a_bag_by_itself() {
        let before = demo();
        let layers = assess::assess(&before, assess::Ask::closed()).closed.pile.layer;
        let steps: Vec<usize> = (0..before.steps()).filter(|step| layers[*step] == 3).collect();
        let by = [Length::m(0.012), Length::m(-0.003)];
        let after = made(&before, &Edit::Move { steps, by });
        assert_eq!(of_places(&before, &after, &layers), ["layer 3 aft 12 mm, left 3 mm"]);
        let steps: Vec<usize> = (0..before.steps()).filter(|step| [1, 3].contains(&layers[*step])).collect();
        let after = made(&before, &Edit::Move { steps, by });
        assert_eq!(of_places(&before, &after, &layers), ["layers 1, 3 aft 12 mm, left 3 mm"]);
        let after = made(&before, &Edit::Move { steps: vec![12], by });
        let want = format!("{} aft 12 mm, left 3 mm", before.piece_name(12));
        assert_eq!(of_places(&before, &after, &layers), [want]);
        let after = made(&before, &Edit::Move { steps: (0..before.steps()).collect(), by });
        assert_eq!(of_places(&before, &after, &layers), ["the whole stack aft 12 mm, left 3 mm"]);
    }

    #[test]
    fn two_bags_in_each_others_places_are_told_as_exchanged() {
        let before = demo();
        let mut after = before.clone();
        (after.stack[9].item, after.stack[14].item) = (before.stack[14].item, before.stack[9].item);
        let want = format!("{} exchanged with {}", before.piece_name(9), before.piece_name(14));
        assert_eq!(of_places(&before, &after, &[]), [want]);
        // One that was left in the tray comes in: it takes the other one's place.
        let mut after = before.clone();
        after.stack[9].item = 28;
        let want = format!("{} in the place of {}", after.piece_name(9), before.piece_name(9));
        assert_eq!(of_places(&before, &after, &[]), [want]);
    }
}
