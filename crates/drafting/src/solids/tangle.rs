//! Solids that lie in one another: what of one reaches out of the other is cut off along the other's sides, and what
//! lies within is dropped, since the other hides it. Then most of them have an order without being cut any further.

use super::circle::Part;
use super::cut::{Lies, Plane};
use super::solid::Solid;
use std::collections::BTreeMap;

/// Solids by their numbers.
pub(super) struct Tangle {
    all: BTreeMap<usize, Torn>,
    /// How many were cut.
    cut: usize,
}

/// A solid with its parts.
struct Torn {
    whole: Part,
    parts: Vec<Part>,
    /// As which of them it was cut first; none while it is whole.
    turn: Option<usize>,
}

impl Tangle {
    pub(super) fn of(parts: Vec<Part>) -> Self {
        let torn = |part: Part| Torn { parts: vec![part.clone()], whole: part, turn: None };
        Self { all: parts.into_iter().map(|part| (part.of, torn(part))).collect(), cut: 0 }
    }

    /// Takes two that lie in one another apart. The one that was cut first is cut further: so whatever is dropped
    /// within another one is never hidden by something that is dropped itself.
    pub(super) fn take_apart(&mut self, a: usize, b: usize, hides: impl Fn(usize) -> bool) {
        let (Some(first), Some(second)) = (self.all.get(&a), self.all.get(&b)) else { return };
        let is_first = match (first.turn, second.turn) {
            (None, None) => across(&first.whole, &second.whole) <= across(&second.whole, &first.whole),
            (Some(turn), Some(other)) => turn < other,
            (turn, None) => turn.is_some(),
            (None, Some(_)) => false,
        };
        let (cut, by) = if is_first { (a, second) } else { (b, first) };
        let Some(planes) = planes(&by.whole.solid) else { return };
        let drops = planes.len() > 1 && hides(by.whole.of);
        let Some(torn) = self.all.get_mut(&cut) else { return };
        let parts = std::mem::take(&mut torn.parts).into_iter();
        torn.parts = parts.flat_map(|part| outside(part, &planes, drops)).collect();
        if torn.turn.is_none() {
            (torn.turn, self.cut) = (Some(self.cut), self.cut + 1);
        }
    }

    /// Whether anything was cut.
    pub(super) fn is_cut(&self) -> bool {
        self.cut > 0
    }

    /// All parts.
    pub(super) fn into_parts(self) -> Vec<Part> {
        self.all.into_values().flat_map(|torn| torn.parts).collect()
    }
}

/// The planes of all sides; none where one of them has no area, for then they close nothing off.
fn planes(solid: &Solid) -> Option<Vec<Plane>> {
    solid.sides.iter().map(|side| Plane::of(solid, side)).collect()
}

/// How many sides of one the other lies across.
fn across(cut: &Part, by: &Part) -> usize {
    let planes = by.solid.sides.iter().filter_map(|side| Plane::of(&by.solid, side));
    planes.filter(|plane| cut.lies(plane) == Lies::Across).count()
}

/// What of a part lies out of these planes, and what lies within where that is not dropped; the part itself where it
/// does not reach in.
fn outside(part: Part, planes: &[Plane], drops: bool) -> Vec<Part> {
    let (mut kept, mut within) = (Vec::new(), part.clone());
    for plane in planes {
        match within.lies(plane) {
            Lies::Behind => {}
            Lies::InFront => return vec![part],
            Lies::Across => {
                let [low, high] = plane.cut(&within.solid).map(|solid| Part::new(part.of, solid));
                kept.push(high);
                within = low;
            }
        }
    }
    if !drops {
        kept.push(within);
    }
    kept.retain(|part| !part.solid.sides.is_empty());
    kept
}
