//! What a sentence is about: where it stands and how it is spoken of.

use crate::Path;

/// A part of the plan: the way to it, and its name in a sentence.
#[derive(Clone)]
pub(super) struct Thing {
    pub(super) path: Path,
    pub(super) called: String,
}

impl Thing {
    /// The part of the plan under this field.
    pub(super) fn of(field: &'static str, called: &str) -> Self {
        Self { path: Path::of(field), called: called.to_owned() }
    }

    /// An entry of a list of the plan: `lot “shot bag”`.
    pub(super) fn entry(list: &Path, index: usize, kind: &str, name: &str) -> Self {
        let called =
            if name.trim().is_empty() { format!("{kind} {}", index + 1) } else { format!("{kind} “{name}”") };
        Self { path: list.index(index), called }
    }

    /// A field of it, spoken of by the field's own name: `the mass tolerance of lot “plank”`.
    pub(super) fn field(&self, name: &'static str) -> Self {
        self.field_called(name, &name.replace('_', " "))
    }

    /// A field of it whose name does not read well in a sentence.
    pub(super) fn field_called(&self, name: &'static str, words: &str) -> Self {
        Self { path: self.path.field(name), called: format!("the {words} of {}", self.called) }
    }

    /// One number of a group: `number 2 in the centroid of the article`.
    pub(super) fn number(&self, index: usize) -> Self {
        Self { path: self.path.index(index), called: format!("number {} in {}", index + 1, self.called) }
    }
}
