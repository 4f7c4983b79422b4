//! A field that the text leaves out where its value is the default, so that a plan which does not
//! use it keeps its bytes. Where it stands, it stands plainly, without RON's `Some`.

use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// What the text says, if it says it.
#[derive(Clone, Debug)]
pub(super) struct Spared<T>(pub(super) Option<T>);

impl<T> Spared<T> {
    // The signature is serde's.
    pub(super) fn is_spared(&self) -> bool {
        self.0.is_none()
    }
}

impl<T> Default for Spared<T> {
    fn default() -> Self {
        Self(None)
    }
}

impl<T: Serialize> Serialize for Spared<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match &self.0 {
            Some(value) => value.serialize(serializer),
            None => serializer.serialize_none(),
        }
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Spared<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        T::deserialize(deserializer).map(|value| Self(Some(value)))
    }
}
