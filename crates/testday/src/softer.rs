//! How many times as soft the bags are as the plan has them, by the settlements that were read at the holds.
//!
//! The sinking of a stack grows with the compliance of its bags. Of readings s and expected sinkings e at two holds
//! or more, the factor f on the compliance for which the squares of s - f e are least is sum(s e) / sum(e e). A stack
//! that leans gives more than in proportion: e is solved again with the bags so softened until f stays. Its standard
//! deviation is that of one reading over the root of sum(e e), relative to f. Source: `own derivation`.

use crate::{Day, RunDone, SettlementRead};
use assess::expect::{TAPE_WITHIN_M, sinks_m, softened};
use plan::Plan;

/// A factor that is not known to within this share of itself, two standard deviations, changes nothing: `common
/// practice, no source`.
const KNOWN_SHARE: f64 = 0.25;
/// So often the factor is worked out again, and so closely it is then known; a stack that is far from its limit
/// needs two.
const ROUNDS: usize = 8;
const CLOSE: f64 = 1e-6;

/// What settlements tell of the bags.
#[derive(Clone, Debug, PartialEq)]
pub struct Softer {
    /// How many times as soft they are as the plan has them.
    pub factor: f64,
    /// Two standard deviations of it.
    pub within: f64,
    /// What it rests on, one reading a hold of a run.
    pub read: Vec<SinkingRead>,
}

/// A settlement that was read at a hold, and what was expected there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SinkingRead {
    /// The run, from 0.
    pub run: usize,
    /// The hold, by its place in the plan, from 0.
    pub hold: usize,
    /// What was read, m.
    pub read_m: f64,
    /// What was expected of the bags as the plan has them, m.
    pub due_m: f64,
}

impl Softer {
    /// By all settlements of a day so far; none before two holds were read, or where what was expected there is
    /// not known.
    pub fn of(day: &Day) -> Option<Self> {
        Self::before(day, u64::MAX)
    }

    /// The same by those that were read before a line of the log.
    pub(crate) fn before(day: &Day, line: u64) -> Option<Self> {
        let runs = day.runs.iter().enumerate();
        let states: Vec<State> = runs.flat_map(|(number, run)| states(number, run, line)).collect();
        let due_m = |factor: f64| states.iter().map(|state| state.due_m(factor)).collect::<Option<Vec<f64>>>();
        if states.len() < 2 {
            return None;
        }
        let planned_m = due_m(1.0)?;
        let (mut factor, mut expected_m) = (1.0, planned_m.clone());
        for _ in 0..ROUNDS {
            let more = least_squares(&states, &expected_m)?;
            let next = factor * more;
            // Where the stack would not stand as soft as that, the last factor at which it did leads on.
            let Some(now_m) = (next > 0.0).then(|| due_m(next)).flatten() else { break };
            (factor, expected_m) = (next, now_m);
            if (more - 1.0).abs() < CLOSE {
                break;
            }
        }
        let factor = factor * least_squares(&states, &expected_m)?;
        let within = 2.0 * spread(&states, &expected_m) * factor.abs();
        let read = states.iter().zip(planned_m).map(|(state, due_m)| state.told(due_m)).collect();
        Some(Self { factor, within, read })
    }

    /// Whether it is known well enough to go by.
    pub fn is_known(&self) -> bool {
        self.factor > 0.0 && self.within <= KNOWN_SHARE * self.factor
    }

    /// Whether the rest of the day is judged by it: bags that are softer count, where the factor is known or is above
    /// one beyond doubt. Stiffer ones do not: the thickness in the plan is that of a bag as settled, so that a tape
    /// can miss a part of the sinking.
    pub fn counts(&self) -> bool {
        self.factor > 1.0 && (self.is_known() || self.factor - self.within > 1.0)
    }

    /// A stack with the bags so soft.
    pub fn stack(&self, plan: &Plan) -> Plan {
        softened(plan, self.factor)
    }

    /// What was found, on what it rests, and what follows, in sentences.
    pub fn words(&self, day: &Day) -> String {
        let length = |m: f64| crate::top::length(day.plan.units, m);
        let hold = |read: &SinkingRead| {
            let name = day.plan.holds.get(read.hold).map_or("", |hold| hold.name.as_str());
            format!("“{name}” of run {}: {}, by the plan {}", read.run + 1, length(read.read_m), length(read.due_m))
        };
        let rests: Vec<_> = self.read.iter().map(hold).collect();
        let follows = match (self.is_known(), self.counts()) {
            (_, true) => "What comes after these readings is judged with the bags so soft.",
            (true, _) => {
                "It changes no check: a small reading does not show that bags are stiffer than planned, since part of the \
                 sinking may have been missed."
            }
            _ => "That is not known well enough to go by, and changes no check.",
        };
        format!(
            "By the settlements the bags give {:.2} ± {:.2} times (2 s.d.) as much as planned ({}). {follows}",
            self.factor,
            self.within,
            rests.join("; ")
        )
    }
}

/// The stack as done with its bags as soft as the day has shown them to be: what lies ahead is judged of it.
pub fn as_judged(day: &Day) -> Plan {
    as_judged_before(day, day.run(), u64::MAX)
}

/// The same of a run, by what was read before a line of the log.
pub(crate) fn as_judged_before(day: &Day, run: &RunDone, line: u64) -> Plan {
    match Softer::before(day, line).filter(Softer::counts) {
        Some(softer) => softer.stack(run.as_done()),
        None => run.as_done().clone(),
    }
}

/// A state of a stack whose settlement was read.
struct State<'a> {
    number: usize,
    run: &'a RunDone,
    hold: usize,
    read: &'a SettlementRead,
}

impl State<'_> {
    fn due_m(&self, factor: f64) -> Option<f64> {
        let plan = self.run.as_done();
        let placed = self.run.count_to(self.read.last_on);
        if (factor - 1.0).abs() < f64::EPSILON {
            sinks_m(plan, placed)
        } else {
            sinks_m(&softened(plan, factor), placed)
        }
    }

    fn told(&self, due_m: f64) -> SinkingRead {
        SinkingRead { run: self.number, hold: self.hold, read_m: self.read.sinks_m, due_m }
    }
}

/// The last reading of each hold.
fn states(number: usize, run: &RunDone, line: u64) -> Vec<State<'_>> {
    let mut states: Vec<State> = Vec::new();
    for read in run.settlements.iter().filter(|read| read.line < line) {
        let Some(hold) = read.hold else { continue };
        states.retain(|state| state.hold != hold);
        states.push(State { number, run, hold, read });
    }
    states
}

/// By what factor more the expected sinkings come nearest to what was read; none where nothing is expected to sink.
fn least_squares(states: &[State], due_m: &[f64]) -> Option<f64> {
    let both = || states.iter().map(|state| state.read.sinks_m).zip(due_m);
    let (met, all) = both().fold((0.0, 0.0), |(met, all), (read, due)| (met + read * due, all + due * due));
    (all > 0.0).then(|| met / all)
}

/// Standard deviation of the factor as a share of itself: of a tape, or of what the readings miss where that is more.
fn spread(states: &[State], due_m: &[f64]) -> f64 {
    let all: f64 = due_m.iter().map(|due| due * due).sum();
    let missed: f64 = states.iter().zip(due_m).map(|(state, due)| (state.read.sinks_m - due).powi(2)).sum();
    #[expect(clippy::cast_precision_loss, reason = "holds are few")]
    let missed_m = (missed / (states.len() - 1) as f64).sqrt();
    missed_m.max(0.5 * TAPE_WITHIN_M) / all.sqrt()
}
