//! The pages of “How to”: each a job with its steps, some of them marked in a picture of this window.

use crate::pages::Page;

/// A page of “How to”.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Job {
    /// From nothing to a plan.
    Begin,
    /// What must be proved, and where.
    LoadCase,
    /// Article, supports, straps, bearings.
    Fixture,
    /// What there is to load with.
    Ballast,
    /// The hangar test of a bag.
    Bags,
    /// A stack laid by hand.
    Stack,
    /// A stack laid out by the program.
    Propose,
    /// What falls short, and what fixes it.
    Findings,
    /// Paper.
    Sheet,
    /// The day itself.
    TestDay,
}

/// One step of a job.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Step {
    /// What is done, and what comes of it.
    pub(crate) says: &'static str,
    /// The control that is marked in the picture, by the name that a screen reader is told; none where it is empty.
    pub(crate) at: &'static str,
}

impl Job {
    /// In the order of the job.
    pub(crate) const ALL: [Self; 10] = [
        Self::Begin,
        Self::LoadCase,
        Self::Fixture,
        Self::Ballast,
        Self::Bags,
        Self::Stack,
        Self::Propose,
        Self::Findings,
        Self::Sheet,
        Self::TestDay,
    ];

    /// The one about a page of the window.
    pub(crate) fn of(page: Page) -> Self {
        match page {
            Page::LoadCase => Self::LoadCase,
            Page::Fixture => Self::Fixture,
            Page::Ballast => Self::Ballast,
            Page::Stack => Self::Stack,
            Page::Sheet => Self::Sheet,
            Page::TestDay => Self::TestDay,
        }
    }

    /// What is done there.
    pub(crate) fn title(self) -> &'static str {
        match self {
            Self::Begin => "Begin a plan",
            Self::LoadCase => "Say what must be proved",
            Self::Fixture => "Enter article and fixture",
            Self::Ballast => "Enter and weigh the ballast",
            Self::Bags => "Measure how bags give",
            Self::Stack => "Lay a stack by hand",
            Self::Propose => "Have a stack laid out",
            Self::Findings => "Fix what falls short",
            Self::Sheet => "Print the sheet",
            Self::TestDay => "Load on the test day",
        }
    }

    /// The name of its picture's file, without ending.
    pub(crate) fn file(self) -> &'static str {
        match self {
            Self::Begin => "begin",
            Self::LoadCase => "load-case",
            Self::Fixture => "fixture",
            Self::Ballast => "ballast",
            Self::Bags => "bags",
            Self::Stack => "stack",
            Self::Propose => "propose",
            Self::Findings => "findings",
            Self::Sheet => "sheet",
            Self::TestDay => "test-day",
        }
    }
}
