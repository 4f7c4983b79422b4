//! What another order or a trim changes of a stack, piece by piece, so that people see it before
//! they take it over.

use plan::{Place, Plan};
use quantity::frame::side;
use quantity::{Grain, Length, Quantity, Units};
use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::ops::RangeInclusive;

/// One thing that is changed. Steps and layers count from 1, as people count them.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// A piece is put down earlier or later; its place stays. Those that are not told keep their
    /// order among themselves.
    Step {
        /// The piece by its lot and item.
        piece: String,
        /// Its step as it was.
        from: usize,
        /// Its step as it would be.
        to: usize,
        /// What is then put down right after it, where it comes earlier; else right before it.
        neighbour: String,
    },
    /// Pieces are shifted together.
    Shift {
        /// The layers in which they lie.
        layers: RangeInclusive<usize>,
        /// Their steps, rising.
        steps: Vec<usize>,
        /// The pieces that lie there in the end, by lot and item.
        pieces: Vec<String>,
        /// How much of the stack they are.
        extent: Extent,
        /// Aft and right along the bed, m.
        by_m: [f64; 2],
    },
    /// Two weighed pieces of a lot change places.
    Exchange {
        /// The pieces by lot and item.
        pieces: [String; 2],
        /// The steps at which they lay before.
        steps: [usize; 2],
    },
    /// A piece of a lot lies where another of it lay.
    Replacement {
        /// The step.
        step: usize,
        /// What lay there.
        piece: String,
        /// What lies there instead.
        by: String,
    },
}

/// How much of a stack is shifted together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extent {
    /// All pieces.
    Stack,
    /// Whole layers.
    Layers,
    /// Some pieces of one layer.
    Pieces,
}

/// Shifts that differ by less are one, m.
const ONE_SHIFT_M: f64 = 1e-5;

/// No more names than this in a sentence.
const NAMES: usize = 4;

impl Change {
    /// What to do, in a sentence.
    pub fn sentence(&self, units: Units) -> String {
        match self {
            Change::Step { piece, from, to, neighbour } => moved(piece, (*from, *to), neighbour),
            Change::Shift { layers, pieces, extent, by_m, .. } => {
                format!("Shift {} {}.", shifted(layers, pieces, *extent), way(*by_m, units))
            }
            Change::Exchange { pieces: [one, other], steps: [first, second] } => {
                format!("Exchange {one} (step {first}) with {other} (step {second}).")
            }
            Change::Replacement { step, piece, by } => format!("At step {step} use {by} instead of {piece}."),
        }
    }
}

fn moved(piece: &str, (from, to): (usize, usize), neighbour: &str) -> String {
    match to.cmp(&from) {
        Ordering::Less => format!("Place {piece} at step {to} instead of step {from}, directly before {neighbour}."),
        Ordering::Greater => format!(
            "Place {piece} at step {to} instead of step {from}, directly after \
                                      {neighbour}."
        ),
        // As many others passed it one way as the other.
        Ordering::Equal => format!("Place {piece} at step {to} as before, but directly after {neighbour}."),
    }
}

fn shifted(layers: &RangeInclusive<usize>, pieces: &[String], extent: Extent) -> String {
    let (first, last) = (layers.start(), layers.end());
    match extent {
        Extent::Stack => "the whole stack".to_owned(),
        Extent::Layers if first == last => format!("layer {first}"),
        Extent::Layers => format!("layers {first} to {last}"),
        Extent::Pieces => format!("{} (layer {first})", listed(pieces)),
    }
}

fn listed(names: &[String]) -> String {
    match names {
        [] => "nothing".to_owned(),
        [one] => one.clone(),
        [first @ .., last] if names.len() <= NAMES => format!("{} and {last}", first.join(", ")),
        _ => format!("{} and {} more", names[..NAMES - 1].join(", "), names.len() + 1 - NAMES),
    }
}

/// A shift in words, tenths of a millimetre where the grid has them.
fn way(by_m: [f64; 2], units: Units) -> String {
    let told = |axis: usize| {
        let m = by_m[axis];
        let shown = Length::m((m.abs() * 1e4).round() / 1e4).in_field(units, Grain::Fine);
        (m.abs() >= ONE_SHIFT_M).then(|| format!("{} {shown}", side(axis, m)))
    };
    [0, 1].into_iter().filter_map(told).collect::<Vec<_>>().join(" and ")
}

/// What another order of a plan's own places changes: as few pieces as will do.
pub(crate) fn of_order(plan: &Plan, places: &[Place]) -> Vec<Change> {
    let was = |place: &Place| plan.stack.iter().position(|p| p.lot == place.lot && p.item == place.item);
    let Some(before) = places.iter().map(was).collect::<Option<Vec<usize>>>() else { return Vec::new() };
    let stays = longest_rising(&before);
    let change = |to: usize| {
        let from = before[to];
        let neighbour = if to < from { places.get(to + 1) } else { to.checked_sub(1).and_then(|k| places.get(k)) };
        let neighbour = neighbour.map_or_else(String::new, name);
        Change::Step { piece: name(&places[to]), from: from + 1, to: to + 1, neighbour }
    };
    (0..places.len()).filter(|to| !stays[*to]).map(change).collect()
}

fn name(place: &Place) -> String {
    format!("{} {}", place.lot, place.item)
}

/// For each of the numbers whether it belongs to the longest rising run through them; of equals to
/// that in which most stand at their own place.
fn longest_rising(numbers: &[usize]) -> Vec<bool> {
    let mut best: Vec<(usize, Option<usize>)> = Vec::with_capacity(numbers.len());
    for (index, number) in numbers.iter().enumerate() {
        let below = (0..index).filter(|before| numbers[*before] < *number);
        let before = below.reduce(|a, b| if best[b].0 > best[a].0 { b } else { a });
        let worth = numbers.len() + 1 + usize::from(*number == index);
        best.push((worth + before.map_or(0, |before| best[before].0), before));
    }
    let mut belongs = vec![false; numbers.len()];
    let mut at = (0..best.len()).reduce(|a, b| if best[b].0 > best[a].0 { b } else { a });
    while let Some(index) = at {
        belongs[index] = true;
        at = best[index].1;
    }
    belongs
}

/// What a trim changes: shifts, from the lowest layer up, then pieces that change places. `layer`
/// gives the layer of each step; a trim keeps it.
pub(crate) fn of_trim(plan: &Plan, places: &[Place], layer: &[usize]) -> Vec<Change> {
    if places.len() != plan.stack.len() || layer.len() != places.len() {
        return Vec::new();
    }
    let mut changes = shifts(plan, places, layer);
    changes.extend(items(plan, places));
    changes
}

/// A shift as whole numbers, to tell like ones.
type Print = [i64; 2];

fn shifts(plan: &Plan, places: &[Place], layer: &[usize]) -> Vec<Change> {
    let by_m = |step: usize| [0, 1].map(|axis| places[step].at[axis].si() - plan.stack[step].at[axis].si());
    #[expect(clippy::cast_possible_truncation, reason = "hundredths of a millimetre of a bed")]
    let print = |step: usize| by_m(step).map(|m| (m / ONE_SHIFT_M).round() as i64);
    let mut alike: BTreeMap<(usize, Print), Vec<usize>> = BTreeMap::new();
    for (step, layer) in layer.iter().enumerate() {
        alike.entry((*layer, print(step))).or_default().push(step);
    }
    let in_layer = |number: usize| layer.iter().filter(|layer| **layer == number).count();
    let mut told: Vec<(RangeInclusive<usize>, bool, Print, Vec<usize>)> = Vec::new();
    for ((number, print), steps) in alike.into_iter().filter(|((_, print), _)| *print != [0, 0]) {
        let is_whole = steps.len() == in_layer(number);
        match told.last_mut() {
            Some((layers, true, known, all)) if is_whole && *known == print && *layers.end() + 1 == number => {
                *layers = *layers.start()..=number;
                all.extend(steps);
            }
            _ => told.push((number..=number, is_whole, print, steps)),
        }
    }
    let change = |(layers, is_whole, _, mut steps): (RangeInclusive<usize>, bool, Print, Vec<usize>)| {
        steps.sort_unstable();
        let extent = match is_whole {
            true if steps.len() == places.len() => Extent::Stack,
            true => Extent::Layers,
            false => Extent::Pieces,
        };
        let pieces = steps.iter().map(|step| name(&places[*step])).collect();
        let by_m = by_m(steps[0]);
        Change::Shift { layers, steps: steps.iter().map(|step| step + 1).collect(), pieces, extent, by_m }
    };
    told.into_iter().map(change).collect()
}

fn items(plan: &Plan, places: &[Place]) -> Vec<Change> {
    let is_same = |a: &Place, b: &Place| a.lot == b.lot && a.item == b.item;
    let is_changed = |step: &usize| !is_same(&places[*step], &plan.stack[*step]);
    let change = |step: usize| {
        let (was, is) = (&plan.stack[step], &places[step]);
        let other = plan.stack.iter().position(|place| is_same(place, is)).filter(|from| is_same(&places[*from], was));
        match other {
            // Told once, at the first of the two.
            Some(other) if other < step => None,
            Some(other) => Some(Change::Exchange { pieces: [name(was), name(is)], steps: [step + 1, other + 1] }),
            None => Some(Change::Replacement { step: step + 1, piece: name(was), by: name(is) }),
        }
    };
    (0..places.len()).filter(is_changed).filter_map(change).collect()
}
