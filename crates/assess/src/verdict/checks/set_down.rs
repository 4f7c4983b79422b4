//! What does a piece do that is set down hard? Its peak force on what lies there, by drop height and by how the pile
//! gives, against what the seat bears at that step.

use crate::source::Derivation;
use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::Plan;
use quantity::{Quantity, STANDARD_GRAVITY_M_S2 as GRAVITY};
use statics::soft::Blow;

/// The drops that are told, m: let go as it touches, from a hand's breadth, from a hand higher still.
const DROPS_M: [f64; 3] = [0.010, 0.050, 0.150];
/// The drop that is held against what the seat bears, m.
const LIKELY_M: f64 = 0.050;

/// Near the end every blow goes beyond ultimate load for an instant. From so many times that on it is a caution:
/// `common practice, no source`.
const LOOK_SHARE: f64 = 1.25;

/// What the worst step's blow comes to.
struct Worst {
    step: usize,
    stiffness_n_per_m: f64,
    /// With what lies there already, N.
    together_n: f64,
}

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some(soft) = assessment.exact.as_ref().and_then(|exact| exact.soft_of_what_stands()) else { return Vec::new() };
    let steps = soft.under_n_per_m.iter().enumerate().filter_map(|(step, stiffness)| Some((step, (*stiffness)?)));
    let together = |(step, stiffness_n_per_m): (usize, f64)| {
        let before_kg = step.checked_sub(1).map_or(0.0, |before| assessment.closed.steps[before].applied_kg);
        let together_n = before_kg * GRAVITY + peak_n(plan, step, stiffness_n_per_m, LIKELY_M);
        Worst { step, stiffness_n_per_m, together_n }
    };
    let worst = steps.map(together).max_by(|a, b| a.together_n.total_cmp(&b.together_n));
    worst.map(|worst| finding(plan, assessment, &worst)).into_iter().collect()
}

fn peak_n(plan: &Plan, step: usize, stiffness_n_per_m: f64, drop_m: f64) -> f64 {
    let mass_kg = plan.mass_of(&plan.stack[step]).si();
    Blow { mass_kg, drop_m, stiffness_n_per_m, pile_kg: 0.0 }.peak_n()
}

fn finding(plan: &Plan, assessment: &Assessment, worst: &Worst) -> Finding {
    let force = |n: f64| Amount::Force(n).shown(plan.units);
    let drop = |m: f64| Amount::Distance(m).shown(plan.units);
    let peak = |m: f64| peak_n(plan, worst.step, worst.stiffness_n_per_m, m);
    let each: Vec<_> = DROPS_M.iter().map(|m| format!("{} from {}", force(peak(*m)), drop(*m))).collect();
    let weight_n = plan.mass_of(&plan.stack[worst.step]).si() * GRAVITY;
    let ultimate_n = assessment.closed.load.map(|load| load.ultimate.as_mass().si() * GRAVITY);
    let too_much = ultimate_n.is_some_and(|ultimate| worst.together_n > LOOK_SHARE * ultimate);
    let against = ultimate_n.map_or_else(String::new, |ultimate| {
        format!(
            "; with what lies there that is {:.0} % of ultimate load from {}",
            100.0 * worst.together_n / ultimate,
            drop(LIKELY_M)
        )
    });
    let text = format!(
        "{}, set down hard at step {}, strikes with {}, {:.0} times its weight from {}, for some hundredths of a \
         second{against}. Lower it until the pile carries it, then let go; note any piece that was dropped.",
        plan.piece_name(worst.step),
        worst.step + 1,
        each.join(", "),
        peak(LIKELY_M) / weight_n,
        drop(LIKELY_M),
    );
    Finding {
        check: Check::SetDownHard,
        state: if too_much { State::Caution } else { State::NoLimit },
        value: Some(Amount::Force(peak(LIKELY_M))),
        limit: None,
        place: Where::Step { step: worst.step, layer: None },
        text,
        sources: &[Source::Own(Derivation::Blow)],
    }
}
