//! What nobody can sign away: states in which the load falls or the article goes over, or that were not
//! decided. By the plan, and by what was read.

use crate::day::Moment;
use crate::top::{length, lengths_apart};
use crate::{Reading, RunDone};
use assess::Assessment;
use nalgebra::Point3;
use plan::{CatchBlock, Plan};
use quantity::{Force, Grain, Mass, Quantity};
use serde::{Deserialize, Serialize};
use statics::fixture::Settled;

/// A limit of the kind that can only be kept: by leaving a piece out, by taking it off, by another plan.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Limit {
    /// The stack falls.
    StackFalls,
    /// Whether the stack stands was not decided.
    StackNotDecided,
    /// The article goes over, or nothing holds it.
    ArticleGoesOver,
    /// What supports and straps carry was not decided.
    ArticleNotDecided,
    /// The article lifts off a support.
    LiftsOff {
        /// The support.
        support: String,
    },
    /// A scale carries more than its capacity.
    ScaleOver {
        /// The scale.
        scale: String,
    },
    /// The top piece leans farther than is allowed.
    LeansTooFar,
    /// A gauge moved as far as the article can before it is down on a catch block.
    DownOnCatch {
        /// The gauge.
        gauge: String,
    },
    /// A strap pulls more than its working load.
    StrapOver {
        /// The strap.
        strap: String,
    },
}

/// A limit that is passed, and from when on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Passed {
    /// The limit.
    pub limit: Limit,
    /// After how many placements of the stack it is passed first; 0 before the first piece.
    pub placed: usize,
}

impl Limit {
    /// What happens, in words without an end.
    pub fn words(&self) -> String {
        match self {
            Limit::StackFalls => "the stack falls".to_owned(),
            Limit::StackNotDecided => "whether the stack stands was not decided".to_owned(),
            Limit::ArticleGoesOver => "the article tips over".to_owned(),
            Limit::ArticleNotDecided => "whether the article stands was not decided".to_owned(),
            Limit::LiftsOff { support } => format!("the article lifts off {support}"),
            Limit::ScaleOver { scale } => format!("{scale} carries more than its capacity"),
            Limit::LeansTooFar => "the top piece leans farther than is allowed".to_owned(),
            Limit::DownOnCatch { gauge } => format!("{gauge} moved as far as a catch block lets the article go"),
            Limit::StrapOver { strap } => format!("{strap} pulls more than its working load"),
        }
    }
}

/// The limits that a stack passes by its solved assessment, each with the first state that does. An
/// assessment that was not solved passes: nothing is known of it.
pub fn limits_passed(plan: &Plan, assessment: &Assessment) -> Vec<Passed> {
    let Some(exact) = &assessment.exact else {
        return vec![Passed { limit: Limit::StackNotDecided, placed: 0 }];
    };
    let mut passed: Vec<Passed> = Vec::new();
    let mut add = |limit: Limit, placed: usize| {
        if passed.iter().all(|known| known.limit != limit) {
            passed.push(Passed { limit, placed });
        }
    };
    let fixtures = std::iter::once(&exact.tare).chain(&exact.fixture).enumerate();
    fixtures.for_each(|(placed, step)| of_fixture(plan, &step.settled).into_iter().for_each(|l| add(l, placed)));
    for (step, state) in exact.steps.iter().enumerate() {
        let as_bags_give = exact.soft.as_ref().map_or(Some(true), |soft| soft.stands(step));
        match (state.stands, as_bags_give) {
            (Some(true), Some(true)) => {}
            (Some(false), _) | (_, Some(false)) => add(Limit::StackFalls, step + 1),
            _ => add(Limit::StackNotDecided, step + 1),
        }
    }
    passed.sort_by_key(|passed| passed.placed);
    passed
}

fn of_fixture(plan: &Plan, settled: &Settled) -> Vec<Limit> {
    let reactions = match settled {
        Settled::Falls { .. } | Settled::Loose => return vec![Limit::ArticleGoesOver],
        Settled::NotDecided { .. } => return vec![Limit::ArticleNotDecided],
        _ => settled.reactions(),
    };
    let Some(reactions) = reactions else { return vec![Limit::ArticleNotDecided] };
    let support = |index: usize| plan.fixture.supports.get(index).map_or_else(String::new, |s| s.name.clone());
    let strap = |index: usize| plan.fixture.hold_downs.get(index).map_or_else(String::new, |s| s.name.clone());
    let lifted = reactions.lifted().map(|index| Limit::LiftsOff { support: support(index) });
    let scales = reactions.overloaded_supports().map(|index| Limit::ScaleOver { scale: support(index) });
    let straps = reactions.overloaded_ties().map(|index| Limit::StrapOver { strap: strap(index) });
    lifted.chain(scales).chain(straps).collect()
}

/// A scale whose division is not known shows nothing below this, kg: `common practice, no source`.
const NOTHING_KG: f64 = 0.5;

/// The limits that a reading passes: a scale above its capacity, a strap above its working load, a support
/// that carried at the tare and carries nothing now.
pub fn limits_read(plan: &Plan, tare: Option<&Reading>, reading: &Reading) -> Vec<Limit> {
    let mut passed = Vec::new();
    for support in plan.fixture.supports.iter().filter(|support| support.scale) {
        let Some(kg) = reading.scale_kg(&support.name) else { continue };
        if support.capacity.is_some_and(|capacity| kg > capacity.si()) {
            passed.push(Limit::ScaleOver { scale: support.name.clone() });
        }
        let nothing_kg = support.division.map_or(NOTHING_KG, Quantity::si);
        let carried = tare.and_then(|tare| tare.scale_kg(&support.name)).is_some_and(|kg| kg > nothing_kg);
        if carried && kg <= nothing_kg {
            passed.push(Limit::LiftsOff { support: support.name.clone() });
        }
    }
    for strap in &plan.fixture.hold_downs {
        if reading.strap_n(&strap.name).is_some_and(|n| n > strap.working_load.si()) {
            passed.push(Limit::StrapOver { strap: strap.name.clone() });
        }
    }
    passed
}

/// What the root of two squares adds to a reading that is just what is allowed is no lean, m.
const HAIR_M: f64 = 1e-9;

/// The limit that a reading of the lean passes: the top piece may be so far from its place and no farther,
/// wherever that comes from.
pub fn lean_passed(plan: &Plan, shift_m: [f64; 2]) -> Option<Limit> {
    (shift_m[0].hypot(shift_m[1]) > plan.allow.lean.si() + HAIR_M).then_some(Limit::LeansTooFar)
}

/// The limits that what was read last passes, of what lies there now; none known where the scales that passed one
/// were not read since.
pub(crate) fn limits_read_now(plan: &Plan, run: &RunDone) -> Vec<Limit> {
    let tare = run.tare.as_ref().map(|tare| &tare.reading);
    let scales = run.weighing_now().map(|weighing| limits_read(plan, tare, &weighing.reading));
    let lean = run.lean_now().and_then(|lean| lean_passed(plan, lean.shift_m));
    scales.into_iter().flatten().chain(lean).chain(gauges_passed(plan, run)).collect()
}

fn gauges_passed<'a>(plan: &'a Plan, run: &'a RunDone) -> impl Iterator<Item = Limit> + 'a {
    let passed = |index: &usize| Moved::of(plan, run, *index).is_some_and(|moved| moved.is_down());
    let limit = |index: usize| Limit::DownOnCatch { gauge: plan.gauges[index].name.clone() };
    (0..plan.gauges.len()).filter(passed).map(limit)
}

/// How far a gauge moved by what it shows of the load that lies there now.
struct Moved<'a> {
    /// Since it was read before loading, m; none where that was not done.
    by_m: Option<f64>,
    /// What stops it.
    stop: GaugeStop<'a>,
}

impl<'a> Moved<'a> {
    /// None where the gauge was not read now, or nothing would stop it.
    fn of(plan: &'a Plan, run: &RunDone, gauge: usize) -> Option<Self> {
        let now_m = run.gauge_now(gauge)?.reading_m;
        let by_m = run.gauge_m(gauge, Moment::Before).map(|before_m| (now_m - before_m).abs());
        Some(Self { by_m, stop: GaugeStop::of(plan, gauge)? })
    }

    /// Whether the article is down on the catch block, or may be: what is not known counts as passed.
    fn is_down(&self) -> bool {
        // What is read as the gap itself is the gap, whatever the last digits of the difference.
        self.by_m.is_none_or(|by_m| by_m + HAIR_M >= self.stop.gap_m)
    }

    fn words(&self, plan: &Plan, gauge: &str) -> String {
        let block = &self.stop.block.name;
        let [moved, gap] = [self.by_m.unwrap_or_default(), self.stop.gap_m].map(|m| length(plan.units, m));
        match self.by_m {
            Some(_) => format!(
                "{gauge} moved {moved}, and the gap over the catch block “{block}” was {gap}: the article is down on it, or the gauge was read wrong"
            ),
            None => format!(
                "{gauge} was not read before loading: how far it has moved is not known, nor whether the article is down on the catch block “{block}”"
            ),
        }
    }
}

/// What ends the way of a gauge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GaugeStop<'a> {
    /// The catch block that stands nearest to the gauge, seen from above.
    pub block: &'a CatchBlock,
    /// Its gap before loading, m.
    pub gap_m: f64,
}

impl<'a> GaugeStop<'a> {
    /// Of a gauge, by its place in the plan; none where the plan has no catch block.
    pub fn of(plan: &'a Plan, gauge: usize) -> Option<Self> {
        let at = plan.floor_from_article() * Point3::from(plan.gauges.get(gauge)?.at.map(Quantity::si));
        let apart_m = |block: &CatchBlock| (block.at[0].si() - at.x).hypot(block.at[1].si() - at.y);
        let blocks = plan.fixture.catch_blocks.iter();
        let block = blocks.min_by(|one, other| apart_m(one).total_cmp(&apart_m(other)))?;
        Some(Self { block, gap_m: block.gap.si() })
    }
}

/// Whether limits that stopped the day are kept by now, by what was read since: of scales and straps as they stand
/// now, of the lean as it was read last.
pub fn limits_kept(plan: &Plan, run: &RunDone, stopped_by: &[Limit]) -> bool {
    let is_read = |limit: &Limit| match limit {
        Limit::LeansTooFar => run.lean_now().is_some(),
        Limit::DownOnCatch { gauge } => gauge_named(plan, gauge).is_some_and(|index| run.gauge_now(index).is_some()),
        _ => run.weighing_now().is_some(),
    };
    // A gauge that was not read before loading is in the way where it stopped the day; a stop of another kind, as older
    // logs have it beside such a gauge, is released by what that one asks for.
    let is_open = |limit: &Limit| match limit {
        Limit::DownOnCatch { gauge } => stopped_by.contains(limit) || is_known(plan, run, gauge),
        _ => true,
    };
    stopped_by.iter().all(is_read) && !limits_read_now(plan, run).iter().any(is_open)
}

/// Whether a gauge was read before loading.
fn is_known(plan: &Plan, run: &RunDone, gauge: &str) -> bool {
    gauge_named(plan, gauge).is_some_and(|index| run.gauge_m(index, Moment::Before).is_some())
}

fn gauge_named(plan: &Plan, name: &str) -> Option<usize> {
    plan.gauges.iter().position(|gauge| gauge.name == name)
}

/// What was read where a limit is passed, in a sentence each.
pub(crate) fn limit_read_words(plan: &Plan, limit: &Limit, run: &RunDone) -> String {
    let mass = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let force = |n: f64| Force::n(n).shown(plan.units, Grain::Coarse);
    let support = |name: &str| plan.fixture.supports.iter().find(|support| support.name == name);
    let reading = run.weighing_now().map(|weighing| &weighing.reading);
    let told = match limit {
        Limit::ScaleOver { scale } => reading.and_then(|reading| reading.scale_kg(scale)).and_then(|kg| {
            Some(format!("{scale} shows {}, capacity {}", mass(kg), mass(support(scale)?.capacity?.si())))
        }),
        Limit::LiftsOff { support } => reading
            .and_then(|reading| reading.scale_kg(support))
            .map(|kg| format!("{support} shows {}: the article lifts off it", mass(kg))),
        Limit::LeansTooFar => run.lean_now().map(|lean| {
            let (off_m, allowed_m) = (lean.shift_m[0].hypot(lean.shift_m[1]), plan.allow.lean.si());
            let [off, allowed] = lengths_apart(plan.units, off_m, allowed_m);
            format!("the top piece is {off} from its place, allowed {allowed}")
        }),
        Limit::DownOnCatch { gauge } => {
            gauge_named(plan, gauge).and_then(|index| Moved::of(plan, run, index)).map(|moved| moved.words(plan, gauge))
        }
        Limit::StrapOver { strap } => reading.and_then(|reading| reading.strap_n(strap)).and_then(|n| {
            let planned = plan.fixture.hold_downs.iter().find(|known| known.name == *strap)?;
            Some(format!("{strap} pulls {}, working load {}", force(n), force(planned.working_load.si())))
        }),
        _ => None,
    };
    told.unwrap_or_else(|| limit.words())
}
