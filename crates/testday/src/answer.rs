//! The kinds of answer that a day gives.

/// Yes, yes beside the point, no, or not shown; with the sentence that says why.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// Shown.
    Yes(String),
    /// Carried, but farther off the occupant point than is allowed: another load than the one that
    /// was to be proved, and never to be read as a plain yes.
    Beside(String),
    /// Shown not to be so.
    No(String),
    /// The entries do not show it; never to be read as yes.
    NotShown(String),
}

impl Answer {
    /// The word.
    pub fn word(&self) -> &'static str {
        match self {
            Answer::Yes(_) => "yes",
            Answer::Beside(_) => "held, but",
            Answer::No(_) => "no",
            Answer::NotShown(_) => "not shown",
        }
    }

    /// The sentence.
    pub fn why(&self) -> &str {
        match self {
            Answer::Yes(why) | Answer::Beside(why) | Answer::No(why) | Answer::NotShown(why) => why,
        }
    }
}
