//! An edit that mends a finding, and what came of trying it.

use super::check::Check;
use plan::Edit;

/// An edit that mends a finding, and the words for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// What to do: `Move layer 4 and above 18 mm forward`.
    pub words: String,
    /// The edit that does it.
    pub edit: Edit,
    /// The checks that fell short, or were a caution, and are better after it.
    pub mends: Vec<Check>,
    /// The checks that fall short after it as well.
    pub leaves: Vec<Check>,
}

impl Remedy {
    /// What came of trying it, in a sentence: `Tried with every check: move layer 4 and above 18 mm forward
    /// mends Tip margin, and leaves Applied load as it is.`
    pub fn sentence(&self) -> String {
        let mut letters = self.words.chars();
        let words: String =
            letters.next().map(|first| first.to_lowercase().chain(letters).collect()).unwrap_or_default();
        let names = |checks: &[Check]| checks.iter().map(|check| check.heading()).collect::<Vec<_>>().join(", ");
        let mends = names(&self.mends);
        let leaves = match self.leaves.as_slice() {
            [] => "no check falls short then".to_owned(),
            [one] => format!("{} falls short as before", one.heading()),
            many => format!("{} fall short as before", names(many)),
        };
        format!("Tried with every check: {words}. This fixes {mends}; {leaves}.")
    }
}
