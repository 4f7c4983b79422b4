//! What is intended: a test as its builder plans it.
//!
//! In: a plan file's text, or named edits. Out: a [`Plan`], its frames, its text, or a sentence
//! that says why not. This crate must never judge a plan: it holds no mechanics, opens no file,
//! reads no clock; a plan opens even if no check can make sense of it. Start reading at [`Plan`],
//! then [`edit`], the one door through which a plan changes, and [`file`](mod@file).

mod align;
mod article;
mod ballast;
mod bed;
pub mod edit;
mod excerpt;
mod fault;
pub mod file;
mod fixture;
mod frames;
mod guide;
mod handling;
mod instrument;
mod load_case;
pub mod ready;
mod rules;
mod stack;
pub mod standard;
pub mod start;
mod target;
mod test_day;
pub mod weighing;

pub use align::Align;
pub use article::{Article, KeepClear, Line, Picture, Stuff, Weighing, WeighingPoint};
pub use ballast::{Form, Lot, Reading, Softness, SoftnessFrom, Strength};
pub use bed::{Bearing, Bed, Mark, StringLine};
pub use edit::Edit;
pub use excerpt::Fitted;
pub use fault::{Fault, Path, Way};
pub use fixture::{Anchors, Binding, CatchBlock, Fixture, HoldDown, PreloadSet, Support};
pub use frames::point;
pub use guide::{Beside, GuideStep, NotEntered, is_without_capacity};
pub use handling::{Grip, Handling, Spell};
pub use instrument::{Date, Instrument, NotADate};
pub use load_case::{Changed, FromRule, LimitLoad, LoadCase, StartingValues, UltimateLoad};
pub use rules::faults;
pub use stack::{Place, Turn};
pub use target::{LoadPoint, LowerLegs, Posture, SegmentTable, Sex, Target, Weighed, WeighingScale};
pub use test_day::{Allow, Gauge, Hold, HoldStep, Run};

use quantity::{Angle, Length, Mass, Units};

/// One test: what must be proved, on what, with what, and how the pieces are stacked.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// What the sheet is headed with.
    pub title: String,
    /// How values are shown and written.
    pub units: Units,
    /// The load cases that were looked at.
    pub load_cases: Vec<LoadCase>,
    /// The name of the load case that this stack proves.
    pub case: String,
    /// The structure under test.
    pub article: Article,
    /// Where the load must act.
    pub target: Target,
    /// Other ways to the occupant point, kept for comparison.
    pub other_targets: Vec<Target>,
    /// What holds the article.
    pub fixture: Fixture,
    /// Where the stack starts.
    pub bed: Bed,
    /// The pieces that there are.
    pub ballast: Vec<Lot>,
    /// The pieces that are placed, in the order in which hands put them down.
    pub stack: Vec<Place>,
    /// Deflection indicators read at the holds.
    pub gauges: Vec<Gauge>,
    /// Where loading stops to read.
    pub holds: Vec<Hold>,
    /// What measures on the day.
    pub instruments: Vec<Instrument>,
    /// What is asked of the checks.
    pub allow: Allow,
}

impl Plan {
    /// A plan without pieces, from which a builder begins. Its load case is only a place to
    /// type into: its basis says so.
    pub fn blank(units: Units) -> Self {
        let zero = Length::m(0.0);
        Self {
            title: "New plan".to_owned(),
            units,
            load_cases: vec![LoadCase::blank("load case 1")],
            case: "load case 1".to_owned(),
            article: Article {
                name: "article".to_owned(),
                mass: Mass::kg(0.0),
                centroid: [zero; 3],
                pitch: Angle::rad(0.0),
                pivot: [zero; 3],
                outline: Vec::new(),
                keep_clear: Vec::new(),
                picture: None,
                weighings: Vec::new(),
            },
            target: Target::Point { at: [zero; 3], tolerance: [Length::m(0.015), Length::m(0.010)] },
            other_targets: Vec::new(),
            fixture: Fixture {
                supports: Vec::new(),
                hold_downs: Vec::new(),
                bindings: Vec::new(),
                catch_blocks: Vec::new(),
                floor_friction: 0.5,
                floor: None,
            },
            bed: Bed {
                origin: [zero; 3],
                slope: Angle::rad(0.0),
                friction: 0.5,
                touch: Length::m(0.006),
                touch_hard: Bed::TOUCH_HARD,
                beside: Length::m(0.005),
                bearings: Vec::new(),
                marks: Vec::new(),
                string: None,
            },
            ballast: Vec::new(),
            stack: Vec::new(),
            gauges: Vec::new(),
            holds: vec![Hold::at("ultimate", 1.0)],
            instruments: Vec::new(),
            allow: Allow::default(),
        }
    }

    /// The load case that this stack proves; none only while a name does not fit.
    pub fn case_in_hand(&self) -> Option<&LoadCase> {
        self.load_cases.iter().find(|case| case.name == self.case)
    }

    /// A name like this one that no load case has yet: `up, symmetric 2`.
    pub fn unused_case_name(&self, like: &str) -> String {
        let taken = |name: &str| self.load_cases.iter().any(|case| case.name == name);
        let stem = like.trim_end_matches(|c: char| c.is_ascii_digit()).trim_end();
        let stem = if stem.is_empty() { "load case" } else { stem };
        (2_u32..).map(|n| format!("{stem} {n}")).find(|name| !taken(name)).unwrap_or_default()
    }

    /// The lot with this name.
    #[inline]
    pub fn lot(&self, name: &str) -> Option<&Lot> {
        self.ballast.iter().find(|lot| lot.name == name)
    }

    /// The lot of a placed piece.
    ///
    /// # Panics
    /// Never on a plan without faults: every placement names a lot of the plan.
    #[inline]
    pub fn lot_of(&self, place: &Place) -> &Lot {
        self.lot(&place.lot).expect("every placement names a lot of the plan: rules::faults")
    }

    /// The piece as it is spoken of: `shot bag 12`.
    pub fn piece_name(&self, step: usize) -> String {
        self.stack.get(step).map(|place| format!("{} {}", place.lot, place.item)).unwrap_or_default()
    }

    /// How many steps loading takes.
    pub fn steps(&self) -> usize {
        self.stack.len()
    }

    /// The smallest item number of a lot that is not placed yet.
    pub fn next_item(&self, lot: &Lot) -> Option<u32> {
        (1..=lot.count).find(|item| !self.stack.iter().any(|p| p.lot == lot.name && p.item == *item))
    }

    /// How many items of a lot are not placed yet.
    pub fn left_of(&self, lot: &Lot) -> u32 {
        let placed = self.stack.iter().filter(|p| p.lot == lot.name).count();
        lot.count.saturating_sub(u32::try_from(placed).unwrap_or(u32::MAX))
    }

    /// The mass of a placed piece: as weighed, else its lot's nominal one.
    pub fn mass_of(&self, place: &Place) -> Mass {
        self.lot_of(place).mass_of(place.item)
    }

    /// A piece's extent along the bed's x, y and z.
    #[inline]
    pub fn extent_of(&self, place: &Place) -> [Length; 3] {
        place.turn.extent(self.lot_of(place).size)
    }
}
