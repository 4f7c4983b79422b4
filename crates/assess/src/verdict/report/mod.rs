//! The report of `check --json`: SI, stable keys. Keys that this program does not compute are
//! left out, never faked.

mod shape;

use self::shape::{
    ArticlePart, BearingPart, BoardPart, BoundPart, CollapsePart, FindingPart, FixturePart, LayerPart, LoadPart,
    MechanismPart, OccupantPart, OffsetPart, OutcomePart, Report, SoftPart, SoftPiecePart, SoftPushPart, SoftnessPart,
    SpreadPart, StepPart, StrapPart, SupportPart, UncertaintyPart,
};
use crate::amount::Amount;
use crate::closed::softness::{ASSUMED_PA, lot_from, softness};
use crate::closed::{Layer, StepState};
use crate::exact::{BearingState, BoardState, Soft};
use crate::source::Source;
use crate::verdict::assessment::Assessment;
use plan::{Form, Lot, Plan};
use quantity::{Mass, Quantity, frame};
use statics::equilibrium::StepEquilibrium;
use statics::fixture::Reactions;
use statics::spread::{Outcome, Spread};
use statics::{Decision, Way};

/// The report as JSON text, ending in a line end.
///
/// # Panics
/// Never: the report holds only numbers, texts and lists.
pub fn report(plan: &Plan, assessment: &Assessment) -> String {
    let report = Report {
        format: 2,
        plan: &plan.title,
        fingerprint: plan::file::fingerprint(plan),
        in_order: assessment.in_order(),
        load: load_part(assessment),
        centroid: assessment.closed.last().map(|s| s.centroid.into()),
        offset: assessment.closed.last().map(offset_part),
        occupant: occupant_part(plan, assessment),
        steps: (0..assessment.closed.steps.len()).map(|k| step_part(plan, assessment, k)).collect(),
        layers: assessment.closed.layers.iter().map(layer_part).collect(),
        boards: assessment.exact.as_ref().map(|e| e.boards.iter().map(|b| board_part(plan, b)).collect()),
        bearings: assessment.exact.as_ref().map(|e| e.bearings.iter().map(|b| bearing_part(plan, b)).collect()),
        softness: softness_parts(plan),
        soft_pieces: assessment.exact.as_ref().and_then(|e| e.soft.as_ref()).map(|soft| soft_pieces(plan, soft)),
        uncertainty: assessment.exact.as_ref().and_then(|e| e.chances.as_ref()).map(|chances| UncertaintyPart {
            independent: outcome_part(&chances.independent),
            alike: outcome_part(&chances.alike),
        }),
        findings: (0..assessment.findings.len()).map(|f| finding_part(plan, assessment, f)).collect(),
    };
    let mut text = serde_json::to_string_pretty(&report).expect("numbers, texts and lists have a JSON form");
    text.push('\n');
    text
}

fn load_part(assessment: &Assessment) -> Option<LoadPart> {
    let load = assessment.closed.load?;
    let applied_kg = assessment.closed.applied_kg();
    Some(LoadPart {
        limit_kg: load.limit.as_mass().si(),
        ultimate_kg: load.ultimate.as_mass().si(),
        applied_kg,
        applied_spread_kg: assessment.closed.applied_spread_kg,
        fraction_of_ultimate: load.fraction(Mass::kg(applied_kg)),
    })
}

fn offset_part(state: &StepState) -> OffsetPart {
    OffsetPart { fore_aft_m: state.offset_m[0], lateral_m: state.offset_m[1] }
}

fn occupant_part<'a>(plan: &Plan, assessment: &'a Assessment) -> OccupantPart<'a> {
    let occupant = &assessment.closed.occupant;
    OccupantPart {
        in_article: occupant.in_article.into(),
        in_floor: assessment.closed.target_in_floor.into(),
        tolerance_m: plan.target.tolerance().map(Quantity::si),
        known_within_m: occupant.within_m,
        from: &occupant.from,
        source: keys(occupant.sources),
    }
}

fn step_part<'a>(plan: &'a Plan, assessment: &'a Assessment, k: usize) -> StepPart<'a> {
    let (place, state) = (&plan.stack[k], &assessment.closed.steps[k]);
    let exact = assessment.exact.as_ref();
    let fixture = exact.map(|e| &e.fixture[k]);
    let reactions = fixture.and_then(|f| f.settled.reactions());
    StepPart {
        step: k + 1,
        lot: &place.lot,
        item: place.item,
        layer: state.layer,
        rests_on: assessment.closed.rests_on(plan, k),
        applied_kg: state.applied_kg,
        centroid: state.centroid.into(),
        offset: offset_part(state),
        stands: exact.and_then(|e| e.steps[k].stands),
        collapse: exact.and_then(|e| collapse_part(&e.steps[k])),
        collapse_bound: bound_part(state),
        fixture: fixture_part(state, fixture.map(|f| f.push)),
        article: exact.and_then(|e| e.article_moved(k)).map(|moved| ArticlePart {
            sink_m: moved.sink_m(&assessment.closed.target_in_floor),
            pitch_deg: moved.pitch_rad().to_degrees(),
            roll_deg: moved.roll_rad().to_degrees(),
        }),
        soft: exact.and_then(|e| e.soft.as_ref()).and_then(|soft| soft_part(soft, k)),
        supports: reactions.map(|r| support_parts(plan, r)),
        straps: reactions.map(|r| strap_parts(plan, r)),
    }
}

fn soft_part(soft: &Soft, k: usize) -> Option<SoftPart> {
    let end = &soft.usual.steps.get(k)?.end;
    let rest = end.rest();
    let push = soft.usual.push(k).and_then(|push| push.push());
    Some(SoftPart {
        modulus_from: soft.from.key(),
        stands: end.stands(),
        critical: end.critical().filter(|critical| critical.is_finite()),
        amplification: rest.map(|rest| rest.amplification).filter(|by| by.is_finite()),
        shift_m: rest.map(|rest| rest.shift_m),
        settlement_m: rest.map(|rest| rest.settlement_m),
        tilt_rad: rest.map(|rest| rest.tilt_rad),
        push: push.map(|push| SoftPushPart { multiplier: push.multiplier, direction_deg: degrees(push.direction_rad) }),
    })
}

fn softness_parts(plan: &Plan) -> Vec<SoftnessPart<'_>> {
    let bags = plan.ballast.iter().filter(|lot| lot.form == Form::Bag && plan.left_of(lot) < lot.count);
    bags.map(softness_part).collect()
}

fn softness_part(lot: &Lot) -> SoftnessPart<'_> {
    let known = lot.softness.as_ref();
    SoftnessPart {
        lot: &lot.name,
        modulus_from: lot_from(lot).key(),
        source: known.map(|softness| softness.source.as_str()).filter(|source| !source.is_empty()),
        modulus_pa: known.map_or(ASSUMED_PA, |softness| softness.modulus.si()),
        rim_m: softness(lot).rim_m,
    }
}

fn soft_pieces<'a>(plan: &'a Plan, soft: &Soft) -> Vec<SoftPiecePart<'a>> {
    let moved = plan.stack.iter().zip(soft.moved_after(plan.steps().saturating_sub(1)));
    moved
        .map(|(place, moved)| SoftPiecePart {
            lot: &place.lot,
            item: place.item,
            settlement_m: -moved.shift_m[2],
            tilt_x_rad: moved.turn_rad[0],
            tilt_y_rad: moved.turn_rad[1],
        })
        .collect()
}

fn collapse_part(step: &StepEquilibrium) -> Option<CollapsePart> {
    let Decision::Decided(reserve) = step.least else { return None };
    let mechanism = step.mechanism.as_ref().map(|m| MechanismPart {
        steps: m.moving.iter().map(|piece| piece + 1).collect(),
        layer: m.layer,
        by: if m.by == Way::Tip { "tip" } else { "slide" },
    });
    Some(CollapsePart { multiplier: reserve.multiplier, direction_deg: degrees(reserve.direction_rad), mechanism })
}

fn support_parts<'a>(plan: &'a Plan, reactions: &Reactions) -> Vec<SupportPart<'a>> {
    let pairs = plan.fixture.supports.iter().zip(&reactions.supports);
    pairs
        .map(|(support, force)| SupportPart {
            name: &support.name,
            force_n: force.normal_n,
            reading_kg: support.scale.then_some(force.reading_kg),
        })
        .collect()
}

fn strap_parts<'a>(plan: &'a Plan, reactions: &Reactions) -> Vec<StrapPart<'a>> {
    let pairs = plan.fixture.hold_downs.iter().zip(&reactions.ties);
    pairs.map(|(strap, tie)| StrapPart { name: &strap.name, tension_n: tie.tension_n }).collect()
}

fn board_part<'a>(plan: &'a Plan, board: &BoardState) -> BoardPart<'a> {
    let place = &plan.stack[board.step];
    BoardPart {
        lot: &place.lot,
        item: place.item,
        moment_nm: board.bent.map(|b| b.moment_n_m),
        bending_pa: board.bent.map(|b| b.bending_pa),
        allowable_pa: board.allowed.as_ref().ok().map(|a| a.bending_pa),
        shear_n: board.bent.map(|b| b.shear_n),
        deflection_m: board.bent.and_then(|b| b.deflection_m),
    }
}

fn bearing_part<'a>(plan: &'a Plan, state: &BearingState) -> BearingPart<'a> {
    let bearing = &plan.bed.bearings[state.bearing];
    BearingPart {
        name: &bearing.name,
        force_n: state.force_n,
        allowable_n: bearing.allowable.map(Quantity::si),
        occupant_n: state.occupant_n,
    }
}

fn outcome_part(outcome: &Outcome) -> OutcomePart {
    let spread = |s: Spread| SpreadPart { mean: s.mean, deviation: s.deviation, p5: s.p5, p95: s.p95 };
    let failures = &outcome.failures;
    OutcomePart {
        applied_kg: spread(outcome.applied_kg),
        fore_aft_m: spread(outcome.fore_aft.signed_m),
        lateral_m: spread(outcome.lateral.signed_m),
        radial_p95_m: outcome.radial_p95_m,
        tip: outcome.tip.map(spread),
        chance_load: failures.load.share(),
        chance_fore_aft: failures.fore_aft.share(),
        chance_lateral: failures.lateral.share(),
        chance_tip: failures.tip.map(|tip| tip.share()),
        chance_any: failures.any.share(),
    }
}

fn bound_part(state: &StepState) -> Option<BoundPart> {
    let Decision::Decided(reserve) = state.least else { return None };
    reserve.multiplier.is_finite().then(|| BoundPart {
        multiplier: reserve.multiplier,
        direction_deg: degrees(reserve.direction_rad),
        layer: state.least_layer,
    })
}

fn fixture_part(state: &StepState, push: Option<Decision>) -> FixturePart {
    let push = match push {
        Some(Decision::Decided(reserve)) => Some(reserve),
        _ => None,
    };
    FixturePart {
        edge_m: state.fixture.edge_m.filter(|edge| edge.is_finite()),
        push_fraction: push.map(|p| p.multiplier),
        direction_deg: push.map(|p| degrees(p.direction_rad)),
    }
}

fn degrees(direction_rad: f64) -> f64 {
    frame::plan_angle_deg(frame::plan_direction(direction_rad))
}

fn layer_part(layer: &Layer) -> LayerPart {
    LayerPart {
        layer: layer.layer,
        mass_kg: layer.mass_kg,
        centroid: layer.centroid_in_floor.into(),
        edge_m: layer.edge_m,
        tip_deg: layer.tip_rad.to_degrees(),
    }
}

/// What it rests on, as keys and fields.
fn keys(sources: &[Source]) -> String {
    sources.iter().map(|source| source.key()).collect::<Vec<_>>().join("; ")
}

fn finding_part<'a>(plan: &Plan, assessment: &'a Assessment, index: usize) -> FindingPart<'a> {
    let finding = &assessment.findings[index];
    let unit = finding.value.or(finding.limit).map(Amount::si_unit);
    FindingPart {
        check: finding.check.heading(),
        state: finding.state.key(),
        value: finding.value.map(Amount::si).filter(|v| v.is_finite()),
        limit: finding.limit.map(Amount::si),
        unit: unit.filter(|u| !u.is_empty()),
        place: finding.place.words(plan),
        text: finding.text.clone(),
        source: keys(finding.sources),
        remedy: assessment.remedy(index).map(|remedy| remedy.words.as_str()),
    }
}
