//! Where in the text a value of the plan stands. The text is walked once more along the value's
//! path, and the walk stops by an error at its end: what RON has not read yet begins with the value.

use crate::{Path, Way};
use serde::de::{DeserializeSeed, Deserializer, Error, IgnoredAny, MapAccess, SeqAccess, Visitor};
use std::fmt;

/// The byte of the text at which the value at the end of this path begins. Where the text leaves
/// the value out, that of the thing which it belongs to.
pub(super) fn of(text: &str, path: &Path) -> usize {
    let mut ways = path.0.as_slice();
    loop {
        if let Some(byte) = walk(text, ways) {
            return byte;
        }
        match ways.split_last() {
            Some((_, shorter)) => ways = shorter,
            None => return 0,
        }
    }
}

fn walk(text: &str, ways: &[Way]) -> Option<usize> {
    let mut deserializer = ron::Deserializer::from_str(text).ok()?;
    let mut arrived = false;
    // The walk always ends in an error where it arrives.
    let _ = Walk { ways, arrived: &mut arrived }.deserialize(&mut deserializer);
    arrived.then(|| text.len() - deserializer.remainder().len())
}

struct Walk<'p> {
    ways: &'p [Way],
    arrived: &'p mut bool,
}

impl<'de> DeserializeSeed<'de> for Walk<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        if self.ways.is_empty() {
            *self.arrived = true;
            return Err(D::Error::custom("arrived"));
        }
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Walk<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a part of the plan")
    }

    fn visit_some<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        self.deserialize(deserializer)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<(), A::Error> {
        let Some((Way::Index(index), ways)) = self.ways.split_first() else { return rest(seq) };
        for _ in 0..*index {
            if seq.next_element::<IgnoredAny>()?.is_none() {
                return Ok(());
            }
        }
        seq.next_element_seed(Walk { ways, arrived: self.arrived })?;
        rest(seq)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        let Some((way, ways)) = self.ways.split_first() else { return Ok(()) };
        while let Some(found) = map.next_key_seed(Key { way })? {
            if found {
                return map.next_value_seed(Walk { ways, arrived: self.arrived });
            }
            map.next_value::<IgnoredAny>()?;
        }
        Ok(())
    }
}

fn rest<'de, A: SeqAccess<'de>>(mut seq: A) -> Result<(), A::Error> {
    while seq.next_element::<IgnoredAny>()?.is_some() {}
    Ok(())
}

/// Whether a key of the text is the one that is looked for.
struct Key<'p> {
    way: &'p Way,
}

impl<'de> DeserializeSeed<'de> for Key<'_> {
    type Value = bool;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<bool, D::Error> {
        match self.way {
            Way::Key(_) => deserializer.deserialize_u32(self),
            Way::Field(_) | Way::Index(_) => deserializer.deserialize_identifier(self),
        }
    }
}

impl Visitor<'_> for Key<'_> {
    type Value = bool;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a field or an item number")
    }
    fn visit_str<E>(self, field: &str) -> Result<bool, E> {
        Ok(matches!(self.way, Way::Field(name) if *name == field))
    }
    fn visit_u32<E>(self, item: u32) -> Result<bool, E> {
        Ok(matches!(self.way, Way::Key(key) if *key == item))
    }
}
