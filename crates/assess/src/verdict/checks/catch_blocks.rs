//! Do the catch blocks stay clear, and close? The article sinks on its supports as load comes on. A block that it comes
//! to rest on carries load, and the test then shows too little; one that is far below lets it fall too far.

use crate::source::Field;
use crate::{Amount, Assessment, Check, Exact, Finding, Source, State, Where};
use nalgebra::{Point3, Vector3};
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

/// A block farther from all that is known of article and fixture catches nothing, m: `common practice, no source`.
const BESIDE_M: f64 = 0.3;

fn one(plan: &Plan, exact: &Exact, block: &CatchBlock) -> Finding {
    let finding = clearance(plan, exact, block);
    match misplaced(plan, block) {
        Some((state, text)) => {
            Finding { state: state.max(finding.state), text: format!("{text} {}", finding.text), ..finding }
        }
        None => finding,
    }
}

/// What does not fit together: the article's underside above the seat itself, or nothing above the block.
fn misplaced(plan: &Plan, block: &CatchBlock) -> Option<(State, String)> {
    let at = point(block.at);
    if let Some(seat_m) = seat_over(plan, &at).filter(|seat_m| at.z + block.gap.si() > seat_m + 1e-3) {
        let text = format!(
            "Top and gap of catch block “{}” put the article's underside at {}, and the seat's surface there is at {}: one of the figures is wrong, \
             or the block stands in the stack.",
            block.name,
            shown(plan, at.z + block.gap.si()),
            shown(plan, seat_m)
        );
        return Some((State::Fails, text));
    }
    let known = known_places(plan);
    let off_m = [0, 1].map(|axis| {
        let along = || known.iter().map(|point| point[axis]);
        let (low, high) = (along().fold(f64::INFINITY, f64::min), along().fold(f64::NEG_INFINITY, f64::max));
        (low - at[axis]).max(at[axis] - high).max(0.0)
    });
    let off_m = off_m[0].max(off_m[1]);
    (off_m.is_finite() && off_m > BESIDE_M).then(|| {
        let text = format!(
            "Catch block “{}” stands {} beside all that is entered of article and fixture: whether it catches anything is not known. Check its place.",
            block.name,
            shown(plan, off_m)
        );
        (State::Caution, text)
    })
}

/// How high the bed's surface is over this place, where a bearing is above it, floor frame, m.
fn seat_over(plan: &Plan, at: &Point3<f64>) -> Option<f64> {
    let floor_from_bed = plan.floor_from_bed();
    let (origin, up) = (floor_from_bed * Point3::origin(), floor_from_bed * Vector3::z());
    let height = |top_m: f64| origin.z + (top_m - up.x * (at.x - origin.x) - up.y * (at.y - origin.y)) / up.z;
    let over = plan.bed.bearings.iter().filter_map(|bearing| {
        let seat = Point3::new(at.x, at.y, height(bearing.top.si()));
        let in_bed = floor_from_bed.inverse_transform_point(&seat);
        let within = |along: f64, [low, high]: [f64; 2]| (low..=high).contains(&along);
        let is_over = within(in_bed.x, bearing.x.map(Quantity::si)) && within(in_bed.y, bearing.y.map(Quantity::si));
        is_over.then_some(seat.z)
    });
    over.reduce(f64::max)
}

/// Supports, ends of straps on the article, corners of bearings and of the article's lines, floor frame, m.
fn known_places(plan: &Plan) -> Vec<Point3<f64>> {
    let fixture = &plan.fixture;
    let mut known: Vec<_> = fixture.supports.iter().map(|support| point(support.at)).collect();
    known.extend(fixture.hold_downs.iter().map(|strap| point(strap.on_article)));
    let floor_from_bed = plan.floor_from_bed();
    for bearing in &plan.bed.bearings {
        let corners = bearing.x.into_iter().flat_map(|x| bearing.y.map(|y| [x.si(), y.si()]));
        known.extend(corners.map(|[x, y]| floor_from_bed * Point3::new(x, y, bearing.top.si())));
    }
    let floor_from_article = plan.floor_from_article();
    for line in &plan.article.outline {
        let reach = line.half_breadth.map_or(0.0, Quantity::si);
        let corners = line.points.iter().flat_map(|[x, z]| [-reach, reach].map(|y| Point3::new(x.si(), y, z.si())));
        known.extend(corners.map(|corner| floor_from_article * corner));
    }
    known
}

fn clearance(plan: &Plan, exact: &Exact, block: &CatchBlock) -> Finding {
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
