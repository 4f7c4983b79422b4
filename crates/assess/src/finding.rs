//! One shape for every check: what was looked at, how it stands, the number, the limit, where,
//! and a sentence.

use crate::told;
use quantity::{Force, Grain, Length, Mass, Pressure, Quantity, Units};

/// How a check stands; ordered from good to bad.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// In order.
    Holds,
    /// In order, but with little to spare or with something to look at.
    Near,
    /// The program does not know yet; counts as falling short.
    Undecided,
    /// Falls short.
    Fails,
}

impl State {
    /// The word beside the state's sign.
    pub fn word(self) -> &'static str {
        match self {
            State::Holds => "holds",
            State::Near => "near",
            State::Undecided => "not decided",
            State::Fails => "fails",
        }
    }

    /// The word in the report, which knows three: what was not decided counts as falling short.
    pub fn word_in_report(self) -> &'static str {
        if self == State::Undecided { State::Fails.word() } else { self.word() }
    }

    /// Whether this state lets the plan hold.
    pub fn is_in_order(self) -> bool {
        self <= State::Near
    }
}

/// A number with what it measures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// A small distance, m.
    Distance(f64),
    /// How far something is off, m, and the words for the two ways: a positive one, a negative one.
    Off(f64, [&'static str; 2]),
    /// A mass, kg.
    Mass(f64),
    /// A force, N.
    Force(f64),
    /// A stress, Pa.
    Stress(f64),
    /// A level push as a part of the weight.
    OfWeight(f64),
    /// A pure ratio.
    Ratio(f64),
    /// An angle, rad.
    Angle(f64),
    /// How many.
    Count(usize),
}

impl Amount {
    /// The bare number in SI; a count as a number.
    pub fn si(self) -> f64 {
        match self {
            // Adding zero turns -0 into 0.
            Amount::Distance(v)
            | Amount::Off(v, _)
            | Amount::Mass(v)
            | Amount::Force(v)
            | Amount::Stress(v)
            | Amount::OfWeight(v)
            | Amount::Ratio(v)
            | Amount::Angle(v) => v + 0.0,
            #[expect(clippy::cast_precision_loss, reason = "counts of pieces are small")]
            Amount::Count(count) => count as f64,
        }
    }

    /// The SI unit's symbol; empty for ratios and counts.
    pub fn si_unit(self) -> &'static str {
        match self {
            Amount::Distance(_) | Amount::Off(..) => "m",
            Amount::Mass(_) => "kg",
            Amount::Angle(_) => "rad",
            Amount::Force(_) => "N",
            Amount::Stress(_) => "Pa",
            Amount::OfWeight(_) | Amount::Ratio(_) | Amount::Count(_) => "",
        }
    }

    /// As shown to people, in the plan's units.
    pub fn shown(self, units: Units) -> String {
        match self {
            Amount::Distance(v) => Length::m(v).shown(units, Grain::Fine),
            Amount::Off(v, [positive, negative]) => {
                let [off, none] = [v.abs(), 0.0].map(|m| Length::m(m).shown(units, Grain::Fine));
                // Nothing that is shown as zero lies to a side.
                if off == none { off } else { format!("{off} {}", if v > 0.0 { positive } else { negative }) }
            }
            Amount::Mass(v) => Mass::kg(v).shown(units, Grain::Coarse),
            Amount::Angle(v) => quantity::Angle::rad(v).shown(units, Grain::Coarse),
            Amount::Force(v) => Force::n(v).shown(units, Grain::Coarse),
            Amount::Stress(v) => told::significant(Pressure::pa(v), units, Grain::Coarse),
            Amount::OfWeight(v) => format!("{:.2} of weight", v + 0.0),
            Amount::Ratio(v) => format!("{:.2}", v + 0.0),
            Amount::Count(count) => count.to_string(),
        }
    }
}

impl Amount {
    /// As [`Amount::shown`], with what it is held against: where rounding would hide that it is more,
    /// both have so many decimals as show it.
    pub(crate) fn shown_beside(self, limit: Amount, units: Units) -> [String; 2] {
        let both = [self, limit].map(|amount| amount.shown(units));
        match (self, limit) {
            (Amount::Stress(is), Amount::Stress(may)) if is > may && both[0] == both[1] => {
                told::apart([is, may].map(Pressure::pa), units, Grain::Coarse)
            }
            (Amount::Force(is), Amount::Force(may)) if is > may && both[0] == both[1] => {
                told::apart([is, may].map(Force::n), units, Grain::Coarse)
            }
            _ => both,
        }
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

/// What a check found.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// The check's name, as it heads its line.
    pub check: &'static str,
    /// How it stands.
    pub state: State,
    /// What was measured; none where nothing could be.
    pub value: Option<Amount>,
    /// What it is held against.
    pub limit: Option<Amount>,
    /// Where.
    pub place: Where,
    /// One or two sentences: the thing, the numbers, what usually helps.
    pub text: String,
    /// What the limit rests on: a source key, a field of the plan, or `common practice, no source`.
    pub source: &'static str,
}

impl Finding {
    /// Whether it was held against anything: a load for which nobody gave an allowable one is told,
    /// and stands in nobody's way, but no check says that it is in order.
    pub fn is_judged(&self) -> bool {
        self.state != State::Holds || self.value.is_none() || self.limit.is_some()
    }

    /// The word beside it on screen and paper.
    pub fn word(&self) -> &'static str {
        if self.is_judged() { self.state.word() } else { "not judged" }
    }
}
