//! Does the bed lie as the article is drawn under it? The bed decides where pieces rest; the outline is drawn alone. Where
//! their slopes differ one of both was entered wrong.

use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use nalgebra::Point3;
use plan::Plan;
use quantity::Quantity;

/// Beyond this the eye sees it, and a spirit level does: `common practice, no source`.
const APART_RAD: f64 = 3.0 / 180.0 * std::f64::consts::PI;
/// So near to the bed's origin a line is what the bed lies on, m: `common practice, no source`.
const NEAR_M: f64 = 0.08;
/// A line is the bed's where it runs under so much of its length: `common practice, no source`.
const UNDER: f64 = 0.5;

pub(super) fn check(plan: &Plan, _: &Assessment) -> Vec<Finding> {
    let Some(drawn) = drawn_under(plan) else { return Vec::new() };
    let slope = plan.bed.slope.si();
    let apart = (slope - drawn.slope_rad).abs();
    if apart <= APART_RAD {
        return Vec::new();
    }
    let shown = |rad: f64| Amount::Angle(rad).shown(plan.units);
    let text = format!(
        "The bed slopes {}, and “{}”, which is drawn under it, {} (forward end up is positive): they differ by {}. The checks go by the bed. Measure the slope, and enter it for the bed or draw the line as it lies.",
        shown(slope),
        drawn.name,
        shown(drawn.slope_rad),
        shown(apart)
    );
    vec![Finding {
        check: Check::BedAsDrawn,
        state: State::Caution,
        value: Some(Amount::Angle(apart)),
        limit: None,
        place: Where::Fixture,
        text,
        sources: Source::PRACTICE,
    }]
}

/// A straight part of a line of the outline.
struct Drawn<'a> {
    name: &'a str,
    /// Forward end up is positive, as of the bed.
    slope_rad: f64,
    /// How far above or below the bed's origin it runs there, m.
    off_m: f64,
}

/// The part of the outline that lies nearest under the bed.
fn drawn_under(plan: &Plan) -> Option<Drawn<'_>> {
    let bed = bed_span_m(plan)?;
    let lines = plan.article.outline.iter();
    let parts = lines.flat_map(|line| line.points.windows(2).map(move |ends| (line.name.as_str(), ends)));
    let drawn = parts.filter_map(|(name, ends)| {
        let ends = [&ends[0], &ends[1]].map(|end| end.map(Quantity::si));
        part(plan, (name, ends), bed)
    });
    drawn.min_by(|one, other| one.off_m.total_cmp(&other.off_m))
}

/// A part that runs under enough of the bed, near enough to it.
fn part<'a>(plan: &Plan, (name, ends): (&'a str, [[f64; 2]; 2]), bed: [f64; 2]) -> Option<Drawn<'a>> {
    let [a, b] = if ends[0][0] <= ends[1][0] { ends } else { [ends[1], ends[0]] };
    let along = [a[0].max(bed[0]), b[0].min(bed[1])];
    let slope_rad = (a[1] - b[1]).atan2(b[0] - a[0]);
    let runs_under = along[1] - along[0] >= UNDER * (bed[1] - bed[0]);
    if !runs_under || slope_rad.abs() >= std::f64::consts::FRAC_PI_4 {
        return None;
    }
    let origin = plan.bed.origin.map(Quantity::si);
    let there = origin[0].clamp(along[0], along[1]);
    let line_m = a[1] - (there - a[0]) * slope_rad.tan();
    let bed_m = origin[2] - (there - origin[0]) * plan.bed.slope.si().tan();
    let off_m = (line_m - bed_m).abs();
    (off_m <= NEAR_M).then_some(Drawn { name, slope_rad, off_m })
}

/// From which station to which the bearings reach, article frame, m; none where the bed has no length.
fn bed_span_m(plan: &Plan) -> Option<[f64; 2]> {
    let in_article = plan.article_from_bed();
    let ends = plan.bed.bearings.iter().flat_map(|bearing| bearing.x.map(|x| (x.si(), bearing.top.si())));
    let stations = ends.map(|(x, z)| (in_article * Point3::new(x, 0.0, z)).x);
    let [from, to] = stations.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], x| [low.min(x), high.max(x)]);
    (to - from > NEAR_M).then_some([from, to])
}
