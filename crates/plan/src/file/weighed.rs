//! Weighed masses as format 1 has them.

use super::written::Written;
use serde::de::{Error, MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::fmt;

/// Weighed masses by item number. A list, because a map would silently drop an item that is
/// weighed twice.
pub(super) struct Weighed(pub(super) Vec<(u32, Written)>);

impl Serialize for Weighed {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|(item, mass)| (item, mass)))
    }
}

impl<'de> Deserialize<'de> for Weighed {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_map(WeighedVisitor)
    }
}

struct WeighedVisitor;

impl<'de> Visitor<'de> for WeighedVisitor {
    type Value = Weighed;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("weighed masses by item number, such as {3: \"24.6 kg\"}")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Weighed, A::Error> {
        let mut weighed = Vec::new();
        let mut items = std::collections::BTreeSet::new();
        while let Some(item) = map.next_key()? {
            if !items.insert(item) {
                return Err(A::Error::custom(format!("item {item} is weighed twice here: keep one of the two masses")));
            }
            weighed.push((item, map.next_value()?));
        }
        Ok(Weighed(weighed))
    }
}
