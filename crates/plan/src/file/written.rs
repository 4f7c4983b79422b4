//! A quantity as it stands in the file: text with its unit. A bare number is taken in as well,
//! only to be refused with a sentence that names the units which fit.

use quantity::{NotAQuantity, Quantity};
use serde::de::{Deserialize, Deserializer, Visitor};
use serde::ser::{Serialize, Serializer};
use std::fmt;

#[derive(Clone, Debug)]
pub(super) enum Written {
    /// `"25 kg"`.
    Text(String),
    /// `25`: no unit.
    Bare(String),
}

impl Written {
    pub(super) fn quantity<Q: Quantity>(&self) -> Result<Q, NotAQuantity> {
        match self {
            Written::Text(text) => Q::parse(text),
            Written::Bare(text) => {
                let (due, fits) = (Q::KIND.with_article(), Q::KIND.fitting_units());
                Err(NotAQuantity::NoUnit { text: text.clone(), due, fits })
            }
        }
    }
}

impl Serialize for Written {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let (Written::Text(text) | Written::Bare(text)) = self;
        serializer.serialize_str(text)
    }
}

impl<'de> Deserialize<'de> for Written {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(WrittenVisitor)
    }
}

struct WrittenVisitor;

impl Visitor<'_> for WrittenVisitor {
    type Value = Written;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value with its unit in quotation marks")
    }
    fn visit_str<E>(self, text: &str) -> Result<Written, E> {
        Ok(Written::Text(text.to_owned()))
    }
    fn visit_i64<E>(self, number: i64) -> Result<Written, E> {
        Ok(Written::Bare(number.to_string()))
    }
    fn visit_u64<E>(self, number: u64) -> Result<Written, E> {
        Ok(Written::Bare(number.to_string()))
    }
    fn visit_f64<E>(self, number: f64) -> Result<Written, E> {
        Ok(Written::Bare(number.to_string()))
    }
}
