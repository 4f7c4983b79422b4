//! Which moves might mend a finding.

use super::Candidate;
use crate::amount::Amount;
use crate::verdict::assessment::Assessment;
use crate::verdict::check::Check;
use crate::verdict::finding::{Finding, Where};
use plan::{Edit, Plan};
use quantity::frame::{self, side};
use quantity::{Grain, Length, Quantity, Units};

/// A part of the stack is not shifted farther than this against the rest, m: `common practice, no
/// source`.
const FARTHEST_M: f64 = 0.06;
/// How many later pieces are tried before the one that tips.
const LOOK_AHEAD: usize = 8;

/// Candidates for a finding, the least trouble first.
pub(super) fn candidates(plan: &Plan, assessment: &Assessment, finding: &Finding) -> Vec<Candidate> {
    match (finding.check, &finding.place) {
        (Check::OffsetForeAndAft, _) => back(plan, assessment, 0, finding.value),
        (Check::OffsetLateral, _) => back(plan, assessment, 1, finding.value),
        (
            Check::TipMargin | Check::CollapseReserve | Check::EveryStepStands,
            Where::Step { step, layer: Some(layer) },
        ) => inward(plan, assessment, *step, *layer),
        (Check::KeepClear, Where::Pieces(steps)) => away(plan, steps, finding),
        (Check::AfterUltimate, Where::Pieces(steps)) => left_out(plan, steps),
        _ => Vec::new(),
    }
}

/// Pieces from a layer up, or all of them.
struct Part {
    steps: Vec<usize>,
    words: String,
}

fn from_layer(plan: &Plan, assessment: &Assessment, layer: usize) -> Part {
    let steps =
        (0..plan.steps()).filter(|s| assessment.closed.pile.layer.get(*s).is_some_and(|l| *l >= layer)).collect();
    let top = assessment.closed.pile.layer.iter().copied().max().unwrap_or(1);
    let words = match layer {
        1 => "the whole stack".to_owned(),
        layer if layer == top => format!("layer {layer}"),
        layer => format!("layer {layer} and above"),
    };
    Part { steps, words }
}

/// The line of action back over the occupant point. From the top down: a part of mass m moves the
/// centroid of all M by m/M of its own way (`own derivation`, the definition of the centre of mass).
fn back(plan: &Plan, assessment: &Assessment, axis: usize, offset: Option<Amount>) -> Vec<Candidate> {
    let Some(offset_m) = offset.map(Amount::si) else { return Vec::new() };
    let top = assessment.closed.pile.layer.iter().copied().max().unwrap_or(0);
    let whole = assessment.closed.applied_kg();
    let remedy = |layer: usize| {
        let part = from_layer(plan, assessment, layer);
        let mass: f64 = part.steps.iter().map(|s| plan.mass_of(&plan.stack[*s]).si()).sum();
        let shift_m = rounded(-offset_m * whole / mass, plan.units);
        let far = layer > 1 && shift_m.abs() > FARTHEST_M;
        (mass > 0.0 && shift_m.abs() > 0.0 && !far).then(|| shifted(plan, &part, axis, shift_m))
    };
    (1..=top).rev().filter_map(remedy).collect()
}

/// What leans out, back over what carries it; else its counterweight first.
///
/// With d from the edge and a push of d/h borne, a push of p asks for p h: (p / (d/h) - 1) d is
/// lacking (`own derivation`, for contacts in one plane).
fn inward(plan: &Plan, assessment: &Assessment, step: usize, layer: usize) -> Vec<Candidate> {
    let cut = assessment.closed.layers_after(plan, step + 1).into_iter().find(|cut| cut.layer == layer);
    let Some(cut) = cut.filter(|cut| cut.tip.multiplier.is_finite() && cut.tip.multiplier.abs() > 1e-9) else {
        return counterweight_first(plan, step);
    };
    let lacking_m = cut.edge_m * (plan.allow.collapse / cut.tip.multiplier - 1.0);
    let [aft, right] = frame::plan_direction(cut.tip.direction_rad);
    let (axis, side) = if aft.abs() >= right.abs() { (0, aft.signum()) } else { (1, right.signum()) };
    let above = from_layer(plan, assessment, layer);
    let alone = Part { steps: vec![step], words: plan.piece_name(step) };
    let shift = |part: &Part, times: f64| {
        // Hands put a piece down within the scatter: a remedy that ends within it mends nothing.
        let shift_m = grown(lacking_m.max(0.0) * times + plan.allow.placement_scatter.si(), plan.units);
        (shift_m <= FARTHEST_M * 2.0).then(|| shifted(plan, part, axis, -side * shift_m))
    };
    let shifts = [1.0, 1.5, 2.5, 4.0].into_iter().flat_map(|times| [shift(&alone, times), shift(&above, times)]);
    shifts.flatten().chain(counterweight_first(plan, step)).collect()
}

fn counterweight_first(plan: &Plan, step: usize) -> Vec<Candidate> {
    let later = (step + 1..plan.steps()).take(LOOK_AHEAD);
    later
        .map(|from| Candidate {
            words: format!("Place {} before {}", plan.piece_name(from), plan.piece_name(step)),
            edit: Edit::Reorder { from, to: step },
        })
        .collect()
}

/// Pieces that are not to be put on at all.
fn left_out(plan: &Plan, steps: &[usize]) -> Vec<Candidate> {
    let words = match steps {
        [] => return Vec::new(),
        [one] => format!("Leave out {}", plan.piece_name(*one)),
        [one, others @ ..] => format!("Leave out {} and {} more", plan.piece_name(*one), others.len()),
    };
    vec![Candidate { words, edit: Edit::Remove { steps: steps.to_vec() } }]
}

/// Pieces that come too near, away from the region, each way.
fn away(plan: &Plan, steps: &[usize], finding: &Finding) -> Vec<Candidate> {
    let (Some(is), Some(due)) = (finding.value.map(Amount::si), finding.limit.map(Amount::si)) else {
        return Vec::new();
    };
    let words = match steps {
        [one] => plan.piece_name(*one),
        [one, others @ ..] => format!("{} and {} more", plan.piece_name(*one), others.len()),
        [] => return Vec::new(),
    };
    let part = Part { steps: steps.to_vec(), words };
    // A piece that reaches into the region has farther to go than the clearance.
    let scatter = plan.allow.placement_scatter.si();
    let ways = [0.0, 0.01, 0.02, 0.04, 0.06, 0.10].map(|deeper| grown(due - is + scatter + deeper, plan.units));
    let each = |way: f64| [(0, way), (0, -way), (1, way), (1, -way)];
    ways.into_iter().flat_map(each).map(|(axis, way)| shifted(plan, &part, axis, way)).collect()
}

fn shifted(plan: &Plan, part: &Part, axis: usize, shift_m: f64) -> Candidate {
    let to = if axis == 0 { "" } else { "to the " };
    let side = side(axis, shift_m);
    let told = Length::m(shift_m.abs()).shown(plan.units, Grain::Fine);
    let mut by = [Length::m(0.0); 2];
    by[axis] = Length::m(shift_m);
    Candidate {
        words: format!("Move {} {to}{side} by {told}", part.words),
        edit: Edit::Move { steps: part.steps.clone(), by },
    }
}

/// What a tape measure can tell: 1 mm or a twentieth of an inch.
fn grain_m(units: Units) -> f64 {
    match units {
        Units::Metric => 0.001,
        Units::InchPound => 0.0254 / 20.0,
    }
}

fn rounded(m: f64, units: Units) -> f64 {
    (m / grain_m(units)).round() * grain_m(units)
}

/// To the next grain that is not less, one grain at least.
fn grown(m: f64, units: Units) -> f64 {
    ((m / grain_m(units) - 1e-6).ceil() * grain_m(units)).max(grain_m(units))
}
