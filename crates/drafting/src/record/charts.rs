//! Two charts of a run: load against deflection, and how far each reading was off.

use crate::chart::{Chart, Curve};
use crate::words::unit_of_mass;
use assess::load::Load;
use quantity::{Grain, Kind, Quantity};
use testday::{Account, Moment};

/// Load on the seat over what each gauge moved since before loading; none without gauges.
pub fn deflections(account: &Account, run: usize, size_mm: [f64; 2]) -> Option<Chart> {
    let (plan, done) = (&account.day.plan, account.day.runs.get(run)?);
    let [length, mass] = [(Kind::Length, Grain::Fine), (Kind::Mass, Grain::Coarse)].map(|(k, g)| plan.units.unit(k, g));
    let curve = |(gauge, planned): (usize, &plan::Gauge)| {
        let zero_m = done.gauge_m(gauge, Moment::Before)?;
        let read = done.gauges.iter().filter(|read| read.gauge == gauge);
        let load = |read: &testday::GaugeRead| match read.moment {
            Moment::Before | Moment::After => 0.0,
            Moment::Hold(_) | Moment::Between => done.applied_then_kg(read.last_on, read.line) / mass.si,
        };
        let points: Vec<_> = read.map(|read| [(read.reading_m - zero_m) / length.si, load(read)]).collect();
        Some(Curve { name: planned.name.clone(), points })
    };
    let curves: Vec<_> = plan.gauges.iter().enumerate().filter_map(curve).filter(|c| c.points.len() > 1).collect();
    let limits = match plan.case_in_hand().map(Load::of) {
        Some(load) => vec![
            ("limit".to_owned(), load.limit.as_mass().si() / mass.si),
            ("ultimate".to_owned(), load.ultimate.as_mass().si() / mass.si),
        ],
        None => Vec::new(),
    };
    let points = || curves.iter().flat_map(|curve| &curve.points);
    let [low, high] = points().fold([0.0_f64, 0.0_f64], |[low, high], point| [low.min(point[0]), high.max(point[0])]);
    let top = points().map(|point| point[1]).chain(limits.iter().map(|limit| limit.1)).fold(0.0, f64::max);
    (!curves.is_empty() && high > low).then(|| Chart {
        size_mm,
        axes: [
            format!("moved since before loading, {}", length.symbol),
            format!("load on the seat, {}", unit_of_mass(plan)),
        ],
        span: [[low, 1.05 * high], [0.0, 1.05 * top]],
        notes: Vec::new(),
        curves,
        limits,
    })
}

/// What is farther off is drawn at the edge, with its value beside it: else the band itself could not be
/// seen.
const FARTHEST: f64 = 2.0;

/// How far each scale was off after every placement, as a part of what stops loading; none without
/// readings.
pub fn residuals(account: &Account, run: usize, size_mm: [f64; 2]) -> Option<Chart> {
    let course = account.courses.get(run)?;
    let judged = account.judged(run);
    #[expect(clippy::cast_precision_loss, reason = "pieces are few")]
    let shares = |support: usize| judged.iter().filter_map(move |j| Some([j.placed as f64, j.off_share(support)?]));
    let curve = |support: usize| {
        let points: Vec<_> =
            shares(support).map(|[placed, share]| [placed, share.clamp(-FARTHEST, FARTHEST)]).collect();
        Some(Curve { name: course.scale(support)?.to_owned(), points })
    };
    let beyond = |support: usize| {
        let name = course.scale(support).unwrap_or_default();
        let note = move |[placed, share]: [f64; 2]| {
            ([placed, share.clamp(-FARTHEST, FARTHEST)], format!("{name} {share:+.1}"))
        };
        shares(support).filter(|[_, share]| share.abs() > FARTHEST).map(note)
    };
    let notes = (0..course.supports()).flat_map(beyond);
    let curves: Vec<_> = (0..course.supports()).filter_map(curve).filter(|curve| !curve.points.is_empty()).collect();
    let far = curves.iter().flat_map(|curve| &curve.points).map(|point| point[1].abs()).fold(1.0, f64::max);
    let last = curves.iter().flat_map(|curve| &curve.points).map(|point| point[0]).fold(1.0, f64::max);
    (!curves.is_empty()).then(|| Chart {
        size_mm,
        axes: [
            "pieces on the seat".to_owned(),
            format!("how far off, by what stops loading (beyond {FARTHEST} at the edge, with its value)"),
        ],
        span: [[0.0, last], [-1.2 * far, 1.2 * far]],
        curves,
        notes: notes.collect(),
        limits: vec![("stop: too much".to_owned(), 1.0), ("stop: too little".to_owned(), -1.0)],
    })
}
