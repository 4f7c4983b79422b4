//! What lies ahead of the stack as it is done: every check of it, and the state before which everything stops.

use crate::limits::{Limit, Passed, limits_passed};
use crate::{Day, Next, Softer, as_judged};
use assess::{Ask, Assessment, StepReserve};
use plan::Plan;

/// The checks of a stack as done.
#[derive(Clone, Debug)]
pub struct Outlook {
    stack: Plan,
    short: Vec<String>,
    passed: Vec<Passed>,
    /// The least reserve after each step, where it is below what the plan requires.
    weak: Vec<Option<StepReserve>>,
    /// What the settlements told of its bags, where they are softer than planned.
    softer: Option<Softer>,
}

impl Outlook {
    /// Of a stack whose assessment is known.
    pub fn new(stack: Plan, assessment: &Assessment) -> Self {
        let short = assessment.findings.iter().filter(|finding| finding.state.falls_short());
        let short = short.map(|finding| format!("{}. {}", finding.check.heading(), finding.text)).collect();
        let passed = limits_passed(&stack, assessment);
        let required = stack.allow.collapse;
        let is_weak = |state: &StepReserve| state.least.reserve().is_some_and(|reserve| reserve.multiplier < required);
        let weak = |state: &StepReserve| Some(*state).filter(is_weak);
        let steps = assessment.exact.as_ref().map_or_else(Vec::new, |exact| exact.reserves.iter().map(weak).collect());
        Self { stack, short, passed, weak: steps, softer: None }
    }

    /// Of the stack as done on a day, with its bags as soft as the day has shown them to be; it takes a solver.
    pub fn of(day: &Day) -> Self {
        let softer = Softer::of(day).filter(Softer::counts);
        let as_done = day.run().as_done();
        let stack = softer.as_ref().map_or_else(|| as_done.clone(), |softer| softer.stack(as_done));
        let assessment = assess::assess(&stack, Ask::checks());
        Self { softer, ..Self::new(stack, &assessment) }
    }

    /// Whether it is still the one of the stack as done; it takes a solver once settlements were read.
    pub fn is_of(&self, day: &Day) -> bool {
        self.stack == as_judged(day)
    }

    /// What the settlements told of its bags, where it is judged with them softer than planned.
    pub fn softer(&self) -> Option<&Softer> {
        self.softer.as_ref()
    }

    /// The least reserve of the stack once so many pieces lie there, where it is below what the plan requires.
    pub fn weak_reserve(&self, placed: usize) -> Option<StepReserve> {
        placed.checked_sub(1).and_then(|step| self.weak.get(step).copied().flatten())
    }

    /// What falls short, in sentences.
    pub fn short(&self) -> &[String] {
        &self.short
    }

    /// The limits that are passed once so many pieces lie there, or before.
    pub fn passed(&self, placed: usize) -> Vec<&Passed> {
        self.passed.iter().filter(|passed| passed.placed <= placed).collect()
    }

    /// The limits that forbid what comes next: of what lies there, and of the piece that would come on.
    pub fn forbids(&self, day: &Day, next: &Next) -> Vec<Passed> {
        let placed = match next {
            Next::Lift { index } => index + 1,
            Next::Hold { .. } => day.run().placed(),
            _ => return Vec::new(),
        };
        self.passed(placed).into_iter().cloned().collect()
    }
}

/// With which piece a limit is passed, in words.
pub fn passed_words(day: &Day, passed: &Passed) -> String {
    let run = day.run();
    let Passed { limit, placed } = passed;
    let what = match limit {
        Limit::StackFalls => "the stack as done would not stand".to_owned(),
        other => other.words(),
    };
    let Some(index) = placed.checked_sub(1) else { return format!("{what} before the first piece") };
    let (piece, step) = (run.as_done().piece_name(index), run.step_of(index) + 1);
    let whence = if step > day.plan.steps() { ", not on the sheet" } else { " of the sheet" };
    format!("{what} with {piece} on it (step {step}{whence})")
}
