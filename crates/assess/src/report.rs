//! The report of `check --json`: SI, stable keys. Keys that this program does not compute are
//! left out, never faked.

use crate::{Assessment, Finding, StepState};
use plan::Plan;
use quantity::{Mass, Quantity, frame};
use serde::Serialize;
use statics::Decision;

#[derive(Serialize)]
struct Report<'a> {
    format: u32,
    plan: &'a str,
    fingerprint: String,
    holds: bool,
    load: Option<LoadPart>,
    centroid: Option<[f64; 3]>,
    offset: Option<OffsetPart>,
    steps: Vec<StepPart<'a>>,
    layers: Vec<LayerPart>,
    findings: Vec<FindingPart>,
}

#[derive(Serialize)]
struct LoadPart {
    limit_kg: f64,
    ultimate_kg: f64,
    applied_kg: f64,
    applied_spread_kg: f64,
    fraction_of_ultimate: f64,
}

#[derive(Serialize)]
struct OffsetPart {
    fore_aft_m: f64,
    lateral_m: f64,
}

#[derive(Serialize)]
struct StepPart<'a> {
    step: usize,
    lot: &'a str,
    item: u32,
    layer: usize,
    rests_on: &'a [String],
    applied_kg: f64,
    centroid: [f64; 3],
    offset: OffsetPart,
    /// Present only where it is certain: the closed forms can prove a fall, not a stand.
    #[serde(skip_serializing_if = "Option::is_none")]
    stands: Option<bool>,
    /// Upper bound of the collapse multiplier, closed form at the layers' undersides.
    collapse_bound: Option<BoundPart>,
    fixture: FixturePart,
}

#[derive(Serialize)]
struct BoundPart {
    multiplier: f64,
    direction_deg: f64,
    layer: usize,
}

#[derive(Serialize)]
struct FixturePart {
    edge_m: Option<f64>,
    /// Only without straps: with them their pull counts too.
    #[serde(skip_serializing_if = "Option::is_none")]
    push_fraction: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    direction_deg: Option<f64>,
}

#[derive(Serialize)]
struct LayerPart {
    layer: usize,
    mass_kg: f64,
    centroid: [f64; 3],
    edge_m: f64,
    tip_deg: f64,
}

#[derive(Serialize)]
struct FindingPart {
    check: &'static str,
    state: &'static str,
    value: Option<f64>,
    limit: Option<f64>,
    unit: Option<&'static str>,
    #[serde(rename = "where")]
    place: String,
    text: String,
    source: &'static str,
}

/// The report as JSON text, ending in a line end.
///
/// # Panics
/// Never: the report holds only numbers, texts and lists.
pub fn report(plan: &Plan, assessment: &Assessment) -> String {
    let report = Report {
        format: 1,
        plan: &plan.title,
        fingerprint: plan::file::fingerprint(plan),
        holds: assessment.holds(),
        load: load_part(assessment),
        centroid: assessment.last().map(|s| s.centroid.into()),
        offset: assessment.last().map(offset_part),
        steps: assessment.steps.iter().enumerate().map(|(k, s)| step_part(plan, k, s)).collect(),
        layers: assessment.layers.iter().map(layer_part).collect(),
        findings: assessment.findings.iter().map(|f| finding_part(plan, f)).collect(),
    };
    let mut text = serde_json::to_string_pretty(&report).expect("numbers, texts and lists have a JSON form");
    text.push('\n');
    text
}

fn load_part(assessment: &Assessment) -> Option<LoadPart> {
    let load = assessment.load?;
    let applied_kg = assessment.applied_kg();
    Some(LoadPart {
        limit_kg: load.limit.as_mass().si(),
        ultimate_kg: load.ultimate.as_mass().si(),
        applied_kg,
        applied_spread_kg: assessment.applied_spread_kg,
        fraction_of_ultimate: load.fraction(Mass::kg(applied_kg)),
    })
}

fn offset_part(state: &StepState) -> OffsetPart {
    OffsetPart { fore_aft_m: state.offset_m[0], lateral_m: state.offset_m[1] }
}

fn step_part<'a>(plan: &'a Plan, k: usize, state: &'a StepState) -> StepPart<'a> {
    let place = &plan.stack[k];
    StepPart {
        step: k + 1,
        lot: &place.lot,
        item: place.item,
        layer: state.layer,
        rests_on: &state.rests_on,
        applied_kg: state.applied_kg,
        centroid: state.centroid.into(),
        offset: offset_part(state),
        stands: surely_falls(state).then_some(false),
        collapse_bound: bound_part(state),
        fixture: fixture_part(plan, state),
    }
}

fn surely_falls(state: &StepState) -> bool {
    match state.least {
        Decision::Decided(reserve) => reserve.multiplier < 0.0,
        Decision::Falls | Decision::Loose => true,
        Decision::NotDecided { .. } | Decision::NotLimited => false,
    }
}

fn bound_part(state: &StepState) -> Option<BoundPart> {
    let Decision::Decided(reserve) = state.least else { return None };
    Some(BoundPart {
        multiplier: reserve.multiplier,
        direction_deg: degrees(reserve.direction_rad),
        layer: state.least_layer,
    })
}

fn fixture_part(plan: &Plan, state: &StepState) -> FixturePart {
    let push = state.fixture.push.filter(|_| plan.fixture.hold_downs.is_empty() && plan.fixture.bindings.is_empty());
    FixturePart {
        edge_m: state.fixture.edge_m,
        push_fraction: push.map(|p| p.multiplier),
        direction_deg: push.map(|p| degrees(p.direction_rad)),
    }
}

fn degrees(direction_rad: f64) -> f64 {
    frame::plan_angle_deg(frame::plan_direction(direction_rad))
}

fn layer_part(layer: &crate::Layer) -> LayerPart {
    LayerPart {
        layer: layer.layer,
        mass_kg: layer.mass_kg,
        centroid: layer.centroid_in_floor.into(),
        edge_m: layer.edge_m,
        tip_deg: layer.tip_rad.to_degrees(),
    }
}

fn finding_part(plan: &Plan, finding: &Finding) -> FindingPart {
    let unit = finding.value.or(finding.limit).map(crate::Amount::si_unit);
    FindingPart {
        check: finding.check,
        state: finding.state.word_in_report(),
        value: finding.value.map(crate::Amount::si).filter(|v| v.is_finite()),
        limit: finding.limit.map(crate::Amount::si),
        unit: unit.filter(|u| !u.is_empty()),
        place: finding.place.words(plan),
        text: finding.text.clone(),
        source: finding.source,
    }
}
