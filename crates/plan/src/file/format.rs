//! The format's number is looked at before anything else: a later format has fields which this
//! program does not know, and the sentence must speak of the format, not of them.

use super::written::Written;
use super::{Unreadable, position};
use crate::Path;
use serde::de::{DeserializeSeed, Deserializer, Error, IgnoredAny, MapAccess, Visitor};
use std::fmt;

/// The newest format that this program reads, and the one that it writes.
pub(super) const NEWEST: u32 = 1;

pub(super) fn check(text: &str) -> Result<(), Unreadable> {
    let mut found = Found::Nothing;
    // Broken text is told by the reading that follows; here only the number counts.
    if let Ok(mut deserializer) = ron::Deserializer::from_str(text) {
        let _ = deserializer.deserialize_any(Head { found: &mut found });
    }
    let sentence = match found {
        Found::Nothing | Found::Number(1) => return Ok(()),
        Found::Missing => format!("the plan has no format: {FIRST_LINE} is expected"),
        Found::Number(0) | Found::Other => format!("this is no format of a plan file: {FIRST_LINE} is expected"),
        Found::Number(later) => format!(
            "the file has format {later} and this program reads up to format {NEWEST}: open it with a later version of the program"
        ),
    };
    Err(Unreadable::at_byte(text, position::of(text, &Path::of("format")), sentence))
}

const FIRST_LINE: &str = "`format: 1,` as the first field";

enum Found {
    /// The text broke before it came to a format.
    Nothing,
    Missing,
    Other,
    Number(u64),
}

struct Head<'f> {
    found: &'f mut Found,
}

impl<'de> Visitor<'de> for Head<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a plan")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        while let Some(field) = map.next_key_seed(FieldName)? {
            if field {
                *self.found = Found::Other;
                if let Written::Bare(number) = map.next_value()? {
                    *self.found = number.parse().map_or(Found::Other, Found::Number);
                }
                // The rest is not looked at: it may be of a format that nobody knows yet.
                return Err(A::Error::custom("the format is known"));
            }
            map.next_value::<IgnoredAny>()?;
        }
        *self.found = Found::Missing;
        Ok(())
    }
}

/// Whether a field is the format.
struct FieldName;

impl<'de> DeserializeSeed<'de> for FieldName {
    type Value = bool;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<bool, D::Error> {
        deserializer.deserialize_identifier(self)
    }
}

impl Visitor<'_> for FieldName {
    type Value = bool;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a field")
    }
    fn visit_str<E>(self, field: &str) -> Result<bool, E> {
        Ok(field == "format")
    }
}
