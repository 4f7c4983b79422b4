//! What is read and what is asked on the day: gauges, holds, runs, allowances.

use crate::{Handling, LimitLoad, Plan};
use quantity::{Length, Quantity, Time};

/// A deflection indicator read at the holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Gauge {
    /// What it is called.
    pub name: String,
    /// Where it touches, article frame.
    pub at: [Length; 3],
    /// The permanent set that is accepted.
    pub allowed_set: Length,
    /// How far the structure should bend there at limit load, downward positive, without what the whole article sinks
    /// on its supports; none: not given.
    pub expected_at_limit: Option<Length>,
    /// The same at ultimate load.
    pub expected_at_ultimate: Option<Length>,
    /// How far off that may be either way and still fit; none: not given.
    pub expected_within: Option<Length>,
}

impl Gauge {
    /// A gauge of which nobody said how far it should move.
    pub fn at(name: &str, at: [Length; 3], allowed_set: Length) -> Self {
        let name = name.to_owned();
        Self { name, at, allowed_set, expected_at_limit: None, expected_at_ultimate: None, expected_within: None }
    }
}

/// A fraction of ultimate load at which loading stops to read scales and gauges.
#[derive(Clone, Debug, PartialEq)]
pub struct Hold {
    /// What it is called.
    pub name: String,
    /// Fraction of ultimate load.
    pub at: f64,
    /// After it everything is taken off, gauges are read for permanent set, and loading begins anew.
    pub unload: bool,
    /// How far the line of action may lie off the occupant point there, fore-aft and lateral; none: as
    /// [`Plan::tolerance_at`] has it.
    pub tolerance: Option<[Length; 2]>,
    /// How long the load is planned to stay on; left out: 3 s at ultimate, else 60 s.
    pub time: Option<Time>,
}

impl Hold {
    /// A hold without more than its name and its fraction of ultimate load.
    pub fn at(name: &str, at: f64) -> Self {
        Self { name: name.to_owned(), at, unload: false, time: None, tolerance: None }
    }

    /// How long the load is planned to stay on. At ultimate: three seconds (source key
    /// `cfr-23-305`); below it a minute, `common practice, no source`.
    pub fn planned_time(&self) -> Time {
        self.time.unwrap_or(Time::s(if self.at >= 1.0 - HAIR { 3.0 } else { 60.0 }))
    }
}

/// One loading from the empty seat, up to an unloading or to the end of the day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Run {
    /// Its holds in order; none where the plan has no holds.
    pub holds: Vec<HoldStep>,
}

/// A hold of a run, and where it falls.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct HoldStep {
    /// The hold, by its place in the plan (from 0).
    pub hold: usize,
    /// The first step (from 0) after which its load is reached; none where the stack never does,
    /// or where the plan names no load case.
    pub step: Option<usize>,
}

impl Run {
    /// How many pieces it takes: up to its last hold, as far as that is reached.
    pub fn placements(&self, plan: &Plan) -> usize {
        let last = self.holds.last().filter(|last| plan.holds.get(last.hold).is_some_and(|hold| hold.unload));
        last.and_then(|last| last.step).map_or(plan.steps(), |step| step + 1)
    }
}

/// A hair below counts as reached: 12 digits of a fraction must not cost a bag.
const HAIR: f64 = 1e-9;

/// A fraction that people write for limit load, as 0.667, 0.666 or 0.66, is limit load.
const ROUNDED: f64 = 0.01;
/// Below limit load nothing is proved yet, and the line of action may lie so many times as far off:
/// `common practice, no source`.
const BELOW_LIMIT: f64 = 2.0;

impl Plan {
    /// How far the line of action may lie off the occupant point at a hold, fore-aft and lateral: its own
    /// tolerance where it has one; else the target's at limit load and above, and twice that below.
    pub fn tolerance_at(&self, hold: &Hold) -> [Length; 2] {
        let usual = self.target.tolerance();
        let limit = self.case_in_hand().map_or(0.0, |case| 1.0 / (case.safety_factor * case.special_factor));
        hold.tolerance.unwrap_or_else(|| match hold.at < limit.min(1.0) - ROUNDED {
            true => usual.map(|allowed| allowed * BELOW_LIMIT),
            false => usual,
        })
    }

    /// The runs of the day: limit and ultimate as runs of their own where a hold between them says
    /// to unload. Every run begins at the first step; one that could only begin after the last
    /// hold's unloading is none.
    pub fn runs(&self) -> Vec<Run> {
        let applied_kg: Vec<f64> = self
            .stack
            .iter()
            .scan(0.0, |sum, place| {
                *sum += self.mass_of(place).si();
                Some(*sum)
            })
            .collect();
        let ultimate_kg = self.case_in_hand().map(|case| LimitLoad::of(case).ultimate(case).as_mass().si());
        let step = |at: f64| {
            let due_kg = (at - HAIR) * ultimate_kg?;
            applied_kg.iter().position(|kg| *kg >= due_kg)
        };
        let holds: Vec<_> = self.holds.iter().enumerate().collect();
        let runs = holds.split_inclusive(|(_, hold)| hold.unload);
        let run = |run: &[(usize, &Hold)]| Run {
            holds: run.iter().map(|(index, hold)| HoldStep { hold: *index, step: step(hold.at) }).collect(),
        };
        let runs: Vec<_> = runs.map(run).collect();
        if runs.is_empty() { vec![Run { holds: Vec::new() }] } else { runs }
    }
}

/// What is asked of the checks.
#[derive(Clone, Debug, PartialEq)]
pub struct Allow {
    /// Least reserve of the stack: a level push as a fraction of weight.
    pub collapse: f64,
    /// Least reserve of the fixture: a level push at the stack's centroid as a fraction of the
    /// stack's weight.
    pub fixture_push: f64,
    /// How far off a piece may be put down, read as two standard deviations.
    pub placement_scatter: Length,
    /// Greatest chance that a stack of such pieces falls short of a check.
    pub chance: f64,
    /// Least critical load factor of the soft stack.
    pub critical: f64,
    /// How far the top piece may shift by leaning.
    pub lean: Length,
    /// How pieces are lifted, for the caution on manual handling.
    pub handling: Handling,
}

impl Allow {
    /// `critical` where a plan leaves it out: a judgement, `common practice, no source`.
    pub const CRITICAL: f64 = 3.0;
    /// `chance` where a plan leaves it out, one stack in five: `common practice, no source`.
    pub const CHANCE: f64 = 0.20;
    /// `lean` where a plan leaves it out: a judgement, `common practice, no source`.
    pub const LEAN: Length = Length::m(0.015);
}

impl Default for Allow {
    fn default() -> Self {
        Self {
            collapse: 0.10,
            fixture_push: 0.10,
            placement_scatter: Length::m(0.010),
            chance: Self::CHANCE,
            critical: Self::CRITICAL,
            lean: Self::LEAN,
            handling: Handling::default(),
        }
    }
}
