//! What makes a plan unusable: where, and a sentence that says what would fit.

use std::fmt;

/// One turn on the way to a value of the plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Way {
    /// A field by its name.
    Field(&'static str),
    /// An entry of a list, from 0.
    Index(usize),
    /// An entry of a map by its number.
    Key(u32),
}

/// The way to a value of the plan, as the plan file has it: `stack[3].lot`.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Path(pub Vec<Way>);

impl Path {
    /// The way to a field of the plan itself.
    pub fn of(field: &'static str) -> Self {
        Self(vec![Way::Field(field)])
    }

    /// Further into a field.
    #[must_use]
    pub fn field(&self, name: &'static str) -> Self {
        self.then(Way::Field(name))
    }

    /// Further into an entry, from 0.
    #[must_use]
    pub fn index(&self, index: usize) -> Self {
        self.then(Way::Index(index))
    }

    /// Further into an entry of a map.
    #[must_use]
    pub fn key(&self, key: u32) -> Self {
        self.then(Way::Key(key))
    }

    fn then(&self, way: Way) -> Self {
        let mut ways = self.0.clone();
        ways.push(way);
        Self(ways)
    }
}

impl fmt::Display for Path {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, way) in self.0.iter().enumerate() {
            match way {
                Way::Field(name) if i == 0 => write!(f, "{name}")?,
                Way::Field(name) => write!(f, ".{name}")?,
                Way::Index(index) => write!(f, "[{}]", index + 1)?,
                Way::Key(key) => write!(f, "{{{key}}}")?,
            }
        }
        Ok(())
    }
}

/// One thing that makes a plan unusable.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{path}: {sentence}")]
pub struct Fault {
    /// Where.
    pub path: Path,
    /// What is wrong and what would fit, in one sentence.
    pub sentence: String,
}
