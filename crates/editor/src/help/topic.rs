//! The parts of the help.

use super::job::Job;

/// A part of the help.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Topic {
    /// What is done, job by job.
    HowTo(Job),
    /// Keys and what the pointer does.
    Keys,
    /// The words of the trade as they are used here.
    Words,
    /// Colours and signs.
    Signs,
    /// Version and licences.
    About,
}

impl Topic {
    /// In the order in which they are offered.
    pub(crate) const ALL: [Topic; 5] =
        [Topic::HowTo(Job::Begin), Topic::Keys, Topic::Words, Topic::Signs, Topic::About];

    /// As the menu and the help name it.
    pub(crate) fn word(self) -> &'static str {
        match self {
            Topic::HowTo(_) => "How to",
            Topic::Keys => "Keyboard and pointer",
            Topic::Words => "Words",
            Topic::Signs => "Colours and signs",
            Topic::About => "About",
        }
    }

    /// The job that is told.
    pub(crate) fn job(self) -> Option<Job> {
        if let Topic::HowTo(job) = self { Some(job) } else { None }
    }
}
