//! The parts of a plan that an edit can set as a whole.

use crate::{Allow, Article, Bed, Fixture, Gauge, Hold, Instrument, LoadCase, Lot, Plan, Target};
use quantity::Units;

/// A part of a plan with its new value.
#[derive(Clone, Debug, PartialEq)]
#[expect(missing_docs, reason = "each is the plan's field of that name")]
pub enum Part {
    Title(String),
    Units(Units),
    LoadCases(Vec<LoadCase>),
    Case(String),
    Article(Article),
    Target(Target),
    OtherTargets(Vec<Target>),
    Fixture(Fixture),
    Bed(Bed),
    Ballast(Vec<Lot>),
    Gauges(Vec<Gauge>),
    Holds(Vec<Hold>),
    Instruments(Vec<Instrument>),
    Allow(Allow),
}

impl Part {
    /// Puts it into the plan.
    pub(super) fn enter(self, plan: &mut Plan) {
        match self {
            Part::Title(title) => plan.title = title,
            Part::Units(units) => plan.units = units,
            Part::LoadCases(cases) => plan.load_cases = entered(&plan.load_cases, cases),
            Part::Case(case) => plan.case = case,
            Part::Article(article) => plan.article = article,
            Part::Target(target) => plan.target = target,
            Part::OtherTargets(others) => plan.other_targets = others,
            Part::Fixture(fixture) => plan.fixture = fixture,
            Part::Bed(bed) => plan.bed = bed,
            Part::Ballast(ballast) => plan.ballast = ballast,
            Part::Gauges(gauges) => plan.gauges = gauges,
            Part::Holds(holds) => plan.holds = holds,
            Part::Instruments(instruments) => plan.instruments = instruments,
            Part::Allow(allow) => plan.allow = allow,
        }
    }
}

/// A value of a case that is another than before was entered.
fn entered(before: &[LoadCase], cases: Vec<LoadCase>) -> Vec<LoadCase> {
    let entered = |(index, case): (usize, LoadCase)| match before.get(index) {
        Some(before) => case.in_place_of(before),
        None => case,
    };
    cases.into_iter().enumerate().map(entered).collect()
}
