//! What is read and what is asked on the day: gauges, holds, runs, allowances.

use crate::{Handling, LimitLoad, Plan};
use quantity::{Length, Quantity};

/// A deflection indicator read at the holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Gauge {
    /// What it is called.
    pub name: String,
    /// Where it touches, article frame.
    pub at: [Length; 3],
    /// The permanent set that is accepted.
    pub allowed_set: Length,
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

impl Plan {
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
    /// How pieces are lifted, for the caution on manual handling.
    pub handling: Handling,
}

impl Default for Allow {
    fn default() -> Self {
        Self { collapse: 0.10, fixture_push: 0.10, placement_scatter: Length::m(0.010), handling: Handling::default() }
    }
}
