//! What a plan still needs, in the order of the job: each step ticks itself from the plan alone. What takes an
//! assessment (in order or not) and what lies outside the plan (was the sheet printed) is told by who asks.

use crate::{LimitLoad, Plan, Support, Target};
use quantity::Quantity;

/// A step of the way from an empty plan to a printed sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum GuideStep {
    /// Who sits there: occupant mass and load factor.
    Occupant,
    /// Where the load acts: the occupant point.
    Point,
    /// What the article stands on, and where the seat bears.
    Seat,
    /// The article's mass and centroid.
    Article,
    /// Pieces enough for ultimate load.
    Ballast,
    /// The stack reaches ultimate load.
    Stack,
    /// Nothing fails and nothing is left undecided.
    Mend,
    /// The sheet is printed.
    Print,
}

/// What a plan can do without and a first-time user does not think of: named once the seat is there, in the way of no
/// step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum NotEntered {
    /// The bed is level, as every bed begins.
    Slope,
    /// Regions that ballast must not touch.
    KeepClear,
    /// What catches the article if it fails.
    CatchBlocks,
    /// Hold-down straps.
    Straps,
    /// What the scales carry: the first support, from 0, that is a scale without it.
    Capacity {
        /// Its place in the plan.
        support: usize,
    },
}

impl NotEntered {
    /// All of it, in the order in which it is told; nothing before supports and bearings are there.
    pub fn all(plan: &Plan) -> Vec<Self> {
        if !GuideStep::Seat.is_done(plan, Beside::default()) {
            return Vec::new();
        }
        let fixture = &plan.fixture;
        let without = fixture.supports.iter().position(is_without_capacity);
        let asked = [
            (plan.bed.slope.si() == 0.0).then_some(Self::Slope),
            plan.article.keep_clear.is_empty().then_some(Self::KeepClear),
            fixture.catch_blocks.is_empty().then_some(Self::CatchBlocks),
            fixture.hold_downs.is_empty().then_some(Self::Straps),
            without.map(|support| Self::Capacity { support }),
        ];
        asked.into_iter().flatten().collect()
    }
}

/// Whether a support is a scale and nobody said what it carries.
pub fn is_without_capacity(support: &Support) -> bool {
    support.scale && support.capacity.is_none()
}

/// What is known beside the plan.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Beside {
    /// Every check is met, with cautions at the most.
    pub in_order: bool,
    /// The sheet of this very plan was saved.
    pub printed: bool,
}

impl GuideStep {
    /// All of them, in the order of the job.
    pub const ALL: [Self; 8] =
        [Self::Occupant, Self::Point, Self::Seat, Self::Article, Self::Ballast, Self::Stack, Self::Mend, Self::Print];

    /// Whether it is done.
    pub fn is_done(self, plan: &Plan, beside: Beside) -> bool {
        match self {
            Self::Occupant => occupant(plan),
            Self::Point => point(&plan.target),
            Self::Seat => !plan.fixture.supports.is_empty() && !plan.bed.bearings.is_empty(),
            Self::Article => plan.article.mass.si() > 0.0 && plan.article.centroid.iter().any(|at| at.si() != 0.0),
            Self::Ballast => ultimate_kg(plan).is_some_and(|due| reaches(ballast_kg(plan), due)),
            Self::Stack => ultimate_kg(plan).is_some_and(|due| reaches(stack_kg(plan), due)),
            Self::Mend => !plan.stack.is_empty() && beside.in_order,
            Self::Print => !plan.stack.is_empty() && beside.printed,
        }
    }

    /// The first that is not done; none where all are.
    pub fn next(plan: &Plan, beside: Beside) -> Option<Self> {
        Self::ALL.into_iter().find(|step| !step.is_done(plan, beside))
    }
}

/// A value that a plan began with was entered by nobody.
fn occupant(plan: &Plan) -> bool {
    plan.case_in_hand().is_some_and(|case| {
        let starting = case.starting_values();
        !starting.occupant_mass && !starting.load_factor
    })
}

/// A typed point at zero is the one that an empty plan begins with.
fn point(target: &Target) -> bool {
    match target {
        Target::Point { at, .. } => at.iter().any(|at| at.si() != 0.0),
        Target::Posture(_) | Target::Weighed(_) | Target::LoadPoint(_) => true,
    }
}

fn ultimate_kg(plan: &Plan) -> Option<f64> {
    plan.case_in_hand().map(|case| LimitLoad::of(case).ultimate(case).as_mass().si())
}

/// To a hair, as a hold counts as reached.
fn reaches(kg: f64, due_kg: f64) -> bool {
    kg >= due_kg * (1.0 - 1e-9)
}

fn ballast_kg(plan: &Plan) -> f64 {
    plan.ballast.iter().flat_map(|lot| (1..=lot.count).map(|item| lot.mass_of(item).si())).sum()
}

fn stack_kg(plan: &Plan) -> f64 {
    plan.stack.iter().map(|place| plan.mass_of(place).si()).sum()
}
