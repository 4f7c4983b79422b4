//! Do the catch blocks stay clear, and close? The article sinks on its supports as load comes on. A block that it comes
//! to rest on carries load, and the test then shows too little; one that is far below lets it fall too far.

use crate::source::Field;
use crate::{Amount, Assessment, Check, Exact, Finding, Source, State, Where};
use plan::{CatchBlock, Plan, point};
use quantity::Quantity;

/// The share of a gap that may close before it is a caution: `common practice, no source`.
const LOOK_SHARE: f64 = 0.8;
/// A crib is stacked no higher than so many times its least width: `common practice, no source`.
const HEIGHT_BY_WIDTH: f64 = 3.0;

/// A finding for each block; one that says so where there is none.
pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let mut blocks = plan.fixture.catch_blocks.iter();
    match &assessment.exact {
        _ if plan.stack.is_empty() => Vec::new(),
        _ if plan.fixture.catch_blocks.is_empty() => vec![none()],
        Some(exact) => blocks.map(|block| one(plan, exact, block)).collect(),
        None => blocks.next().map(|_| Finding::not_yet(Check::CatchBlocks)).into_iter().collect(),
    }
}

/// Not a limit of the stack, so a caution.
fn none() -> Finding {
    let text = "No catch block is entered: if the article, a support or a strap fails, nothing catches the load. Set one \
                under the article before anything is loaded, a little further below it than it sinks under the load, and enter it on the \
                Fixture page."
        .to_owned();
    Finding {
        check: Check::CatchBlocks,
        state: State::Caution,
        value: None,
        limit: None,
        place: Where::Fixture,
        text,
        sources: Source::PRACTICE,
    }
}

fn one(plan: &Plan, exact: &Exact, block: &CatchBlock) -> Finding {
    let at = point(block.at);
    let sinks = (0..exact.fixture.len()).map(|step| Some((step, exact.article_moved(step)?.sink_m(&at))));
    let sinks: Option<Vec<(usize, f64)>> = sinks.collect();
    let most = sinks.and_then(|sinks| sinks.into_iter().max_by(|a, b| a.1.total_cmp(&b.1)));
    let gap_m = block.gap.si();
    let (state, left_m, place, text) = match most {
        Some((step, sink_m)) => {
            let left_m = gap_m - sink_m.max(0.0);
            let (state, text) = judge(plan, block, (step, sink_m.max(0.0)));
            (state, Some(left_m), Where::Step { step, layer: None }, text)
        }
        None => {
            let text = format!(
                "How far the article sinks over catch block “{}” is not known: no support has a stiffness. Enter them \
                 on the Fixture page, or set a gauge there that is read from a distance at every hold: the gap is {}.",
                block.name,
                shown(plan, gap_m)
            );
            (State::Caution, None, Where::Fixture, text)
        }
    };
    Finding {
        check: Check::CatchBlocks,
        state,
        value: left_m.map(Amount::Distance),
        limit: left_m.map(|_| Amount::Distance(0.0)),
        place,
        text: format!("{text} {}", crib(plan, block)),
        sources: &[Source::Builder(Field::CatchBlock)],
    }
}

fn judge(plan: &Plan, block: &CatchBlock, (step, sink_m): (usize, f64)) -> (State, String) {
    let gap_m = block.gap.si();
    let told = format!(
        "Over catch block “{}” the gap of {} closes to {} after step {}, what the article itself bends left out",
        block.name,
        shown(plan, gap_m),
        shown(plan, (gap_m - sink_m).max(0.0)),
        step + 1
    );
    let thickest_m = plan.stack.iter().map(|place| plan.extent_of(place)[2].si()).fold(0.0, f64::max);
    if sink_m >= gap_m {
        (State::Fails, format!("{told}: the block would carry load, and the test would lie. Set it lower."))
    } else if sink_m > LOOK_SHARE * gap_m {
        (State::Caution, format!("{told}. Set it a little lower, and watch the gap from a distance."))
    } else if gap_m > thickest_m {
        (
            State::Caution,
            format!("{told}. That is more than one piece's thickness of {}: set it closer.", shown(plan, thickest_m)),
        )
    } else {
        (State::Met, format!("{told}."))
    }
}

/// How wide a crib of this height is at the least.
fn crib(plan: &Plan, block: &CatchBlock) -> String {
    let floor_m = plan.fixture.supports.iter().map(|support| support.at[2].si()).reduce(f64::min).unwrap_or(0.0);
    let height_m = block.at[2].si() - floor_m;
    if height_m <= 0.0 {
        return String::new();
    }
    format!(
        "Built {} high, it is at least {} wide each way.",
        shown(plan, height_m),
        shown(plan, height_m / HEIGHT_BY_WIDTH)
    )
}

fn shown(plan: &Plan, metres: f64) -> String {
    Amount::Distance(metres).shown(plan.units)
}
