//! One shape for every check: what was looked at, how it stands, the number, the limit, where,
//! and a sentence.

use super::check::Check;
use crate::amount::Amount;
use crate::source::Source;

/// How a check stands; ordered from good to bad.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// In order.
    Met,
    /// Told for information: the builder gave no limit, and none is needed to decide. It stands in nobody's
    /// way, and nobody says that it is in order.
    NoLimit,
    /// In order, with something to look at.
    Caution,
    /// A solver stopped short, or what the check needs is unknown: counts as falling short.
    Undecided,
    /// A limit is passed.
    Fails,
}

impl State {
    /// All states, from good to bad.
    pub const ALL: [State; 5] = [State::Met, State::NoLimit, State::Caution, State::Undecided, State::Fails];

    /// The word beside the state's sign.
    pub fn word(self) -> &'static str {
        match self {
            State::Met => "met",
            State::NoLimit => "no limit given",
            State::Caution => "caution",
            State::Undecided => "not decided",
            State::Fails => "fails",
        }
    }

    /// The word in the report.
    pub fn key(self) -> &'static str {
        match self {
            State::NoLimit => "no-limit",
            State::Undecided => "undecided",
            State::Met | State::Caution | State::Fails => self.word(),
        }
    }

    /// A reserve against the least that is required: caution within a quarter (`common practice, no source`).
    pub(super) fn against_least(reserve: f64, required: f64) -> State {
        match reserve {
            r if r < required => State::Fails,
            r if r < required * 1.25 => State::Caution,
            _ => State::Met,
        }
    }

    /// Whether this state keeps the plan from being in order.
    pub fn falls_short(self) -> bool {
        matches!(self, State::Undecided | State::Fails)
    }
}

/// Where a finding points. Steps count from 0, layers from 1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Where {
    /// The stack as a whole.
    Stack,
    /// Pieces, by their steps.
    Pieces(Vec<usize>),
    /// The state after this step, and the layer above whose underside it goes.
    Step {
        /// The step.
        step: usize,
        /// The layer, where one governs.
        layer: Option<usize>,
    },
    /// The fixture.
    Fixture,
    /// The load case.
    LoadCase,
}

impl Where {
    /// In words, steps counted from 1 as people do.
    pub fn words(&self, plan: &plan::Plan) -> String {
        match self {
            Where::Stack => "stack".to_owned(),
            Where::Pieces(steps) => match steps.as_slice() {
                [] => "stack".to_owned(),
                [one] => format!("{}, step {}", plan.piece_name(*one), one + 1),
                [one, others @ ..] => format!("{}, step {}, and {} more", plan.piece_name(*one), one + 1, others.len()),
            },
            Where::Step { step, layer: Some(layer) } => format!("step {}, layer {layer}", step + 1),
            Where::Step { step, layer: None } => format!("step {}", step + 1),
            Where::Fixture => "fixture".to_owned(),
            Where::LoadCase => "load case".to_owned(),
        }
    }
}

/// Shares that differ by less than this part of themselves are one: rounding of a solver.
const ALIKE: f64 = 1e-6;

/// What a check found.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Which check it is.
    pub check: Check,
    /// How it stands.
    pub state: State,
    /// What was measured; none where nothing could be.
    pub value: Option<Amount>,
    /// What it is held against; none where there is no limit.
    pub limit: Option<Amount>,
    /// Where.
    pub place: Where,
    /// One or two sentences: the thing, the numbers, what usually helps.
    pub text: String,
    /// What value and limit rest on.
    pub sources: &'static [Source],
}

impl Finding {
    /// The word beside it on screen and paper.
    pub fn word(&self) -> &'static str {
        self.state.word()
    }

    /// What it rests on, in words for people.
    pub fn rests_on(&self) -> String {
        self.sources.iter().map(|source| source.words()).collect::<Vec<_>>().join("; ")
    }

    /// Whether the value lies beyond the limit, on the side on which the check has one.
    pub fn passes_its_limit(&self) -> bool {
        let (Some(value), Some(limit)) = (self.value, self.limit) else { return false };
        self.check.side().is_passed(value, limit)
    }

    /// A check that waits for the solvers, where there are pieces to solve for.
    pub(super) fn not_yet(check: Check) -> Self {
        Self {
            check,
            state: State::Undecided,
            value: None,
            limit: None,
            place: Where::Stack,
            text: "Not decided yet: it is being solved.".to_owned(),
            sources: Source::STATICS,
        }
    }

    /// Whether what is found of a state on the way is to be told in place of another finding of the same
    /// check: one that is met is not, since the last state is the one that counts then.
    pub(super) fn is_worse_than(&self, other: &Finding) -> bool {
        let worse = self.share() > other.share() * (1.0 + ALIKE);
        let as_bad = self.state == other.state && self.state > State::Met;
        self.state > other.state || (as_bad && worse)
    }

    /// What is measured, as a share of what it is held against.
    pub(super) fn share(&self) -> f64 {
        match (self.value, self.limit) {
            (Some(value), Some(limit)) => value.si() / limit.si(),
            _ => 0.0,
        }
    }
}
