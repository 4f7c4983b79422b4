//! The faults that were found, and the rules that many parts share.

use super::thing::Thing;
use crate::{Fault, Path};
use quantity::{Angle, Grain, Quantity, Units};
use std::collections::BTreeMap;

/// Numbers beyond this, in SI, are slips of the keyboard; squared and summed they would end as
/// infinities in the mechanics. `own derivation`: a rigid support of 1e9 N/mm still fits.
const LARGEST: f64 = 1e15;
/// A file keeps twelve significant digits. This near below the largest, those digits in another unit may
/// stand for more than the largest: what counts is the number that would be read back. `own derivation`:
/// half a step of the twelfth digit is at most 5e-12 of the number, here twice that.
const ROUNDING: f64 = 1e-11;
/// Beyond this tilt nothing here is a seat any more: `common practice, no source`.
const STEEPEST_DEG: f64 = 60.0;

/// A number of the plan: a quantity, or a bare factor.
pub(super) trait Number: Copy {
    fn value(self) -> f64;
    /// The value that is read back from a file in these units.
    fn kept(self, units: Units, grain: Grain) -> f64;
    fn told(self, units: Units, grain: Grain) -> String;
}

impl<Q: Quantity> Number for Q {
    fn value(self) -> f64 {
        self.si()
    }
    fn kept(self, units: Units, grain: Grain) -> f64 {
        Q::parse(&self.written(units, grain)).map_or(self.si(), Q::si)
    }
    fn told(self, units: Units, grain: Grain) -> String {
        if fits(self) { self.written(units, grain) } else { self.shown(units, grain) }
    }
}

/// A factor, a coefficient of friction or a fraction.
#[derive(Clone, Copy)]
pub(super) struct Bare(pub(super) f64);

impl Number for Bare {
    fn value(self) -> f64 {
        self.0
    }
    fn kept(self, _: Units, _: Grain) -> f64 {
        self.0
    }
    fn told(self, _: Units, _: Grain) -> String {
        if fits(self) { self.0.to_string() } else { format!("{:e}", self.0) }
    }
}

/// Whether a number is finite and not beyond all measure, in whatever unit it is kept.
pub(super) fn fits(number: impl Number) -> bool {
    number.value().abs() <= LARGEST * (1.0 - ROUNDING)
}

pub(super) struct Faults {
    units: Units,
    found: Vec<Fault>,
}

impl Faults {
    pub(super) fn new(units: Units) -> Self {
        Self { units, found: Vec::new() }
    }

    pub(super) fn found(self) -> Vec<Fault> {
        self.found
    }

    /// A fault of its own: the sentence stands alone.
    pub(super) fn add(&mut self, path: Path, sentence: String) {
        self.found.push(Fault { path, sentence });
    }

    /// The number as the plan's units tell it.
    pub(super) fn told(&self, path: &Path, number: impl Number) -> String {
        number.told(self.units, path.grain())
    }

    /// Finite and not beyond all measure; says whether it is.
    pub(super) fn finite(&mut self, thing: &Thing, number: impl Number) -> bool {
        let value = number.value();
        if !value.is_finite() {
            self.add(thing.path.clone(), format!("{} is not a finite number: type a number", thing.called));
        } else if !fits(number) && number.kept(self.units, thing.path.grain()).abs() > LARGEST {
            let told = self.told(&thing.path, number);
            self.add(
                thing.path.clone(),
                format!("{} is {told}, far more than is possible: check the number and its unit", thing.called),
            );
            return false;
        }
        value.is_finite()
    }

    pub(super) fn all_finite(&mut self, thing: &Thing, numbers: &[impl Number]) {
        for (i, number) in numbers.iter().enumerate() {
            self.finite(&thing.number(i), *number);
        }
    }

    pub(super) fn above_zero(&mut self, thing: &Thing, number: impl Number) {
        if self.finite(thing, number) && number.value() <= 0.0 {
            let told = self.told(&thing.path, number);
            self.add(thing.path.clone(), format!("{} is {told}: it must be more than 0", thing.called));
        }
    }

    pub(super) fn not_negative(&mut self, thing: &Thing, number: impl Number) {
        if self.finite(thing, number) && number.value() < 0.0 {
            let told = self.told(&thing.path, number);
            self.add(thing.path.clone(), format!("{} is {told}: it must be 0 or more", thing.called));
        }
    }

    pub(super) fn gentle(&mut self, thing: &Thing, angle: Angle) {
        // A hair of room, so that the typed limit itself fits whatever its unit.
        if self.finite(thing, angle) && angle.si().abs() > STEEPEST_DEG.to_radians() * (1.0 + 1e-12) {
            let told = self.told(&thing.path, angle);
            let sentence =
                format!("{} is {told}: it must lie between -{STEEPEST_DEG} and {STEEPEST_DEG} deg", thing.called);
            self.add(thing.path.clone(), sentence);
        }
    }

    /// From one bound to another, both told in the plan's units.
    pub(super) fn between(&mut self, thing: &Thing, number: impl Number, [low, high]: [impl Number; 2]) {
        // A hair of room, so that a typed bound itself fits whatever its unit.
        let hair = 1e-12 * (low.value().abs() + high.value().abs());
        let inside = (low.value() - hair..=high.value() + hair).contains(&number.value());
        if self.finite(thing, number) && !inside {
            let [told, low, high] =
                [self.told(&thing.path, number), self.told(&thing.path, low), self.told(&thing.path, high)];
            let sentence = format!("{} is {told}: it must lie between {low} and {high}", thing.called);
            self.add(thing.path.clone(), sentence);
        }
    }

    /// Both finite; says whether so, that their order can be judged.
    pub(super) fn both_finite(&mut self, thing: &Thing, [low, high]: [impl Number; 2]) -> bool {
        let low = self.finite(&thing.number(0), low);
        self.finite(&thing.number(1), high) && low
    }

    /// Names are there and differ within their list.
    pub(super) fn names<'n>(&mut self, list: &Path, kind: &str, names: impl Iterator<Item = &'n str>) {
        let mut seen = BTreeMap::new();
        for (i, name) in names.enumerate() {
            let path = list.index(i).field("name");
            if name.trim().is_empty() {
                self.add(path, format!("{kind} {} has no name: give it one", i + 1));
            } else if let Some(first) = seen.get(name) {
                let sentence =
                    format!("{kind} {} is called “{name}” like {kind} {first}: give one of them another name", i + 1);
                self.add(path, sentence);
            } else {
                seen.insert(name, i + 1);
            }
        }
    }
}
