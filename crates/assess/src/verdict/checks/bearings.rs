//! Do the seat's bearings bear it? Load of each against its allowable; beside it what the seated
//! occupant would put there.

use crate::closed::load::Load;
use crate::exact::NEAR_BEARING as NEAR_SHARE;
use crate::source::{Derivation, Field};
use crate::{Amount, Assessment, BearingState, Check, Exact, Finding, Source, State, Where};
use plan::Plan;
use quantity::Quantity;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    if plan.stack.is_empty() {
        return Vec::new();
    }
    let Some(exact) = &assessment.exact else { return vec![Finding::not_yet(Check::Bearings)] };
    exact.bearings.iter().map(|bearing| worst(plan, exact, bearing)).collect()
}

/// What is found of a bearing with all pieces placed, or after an earlier step where it is worse.
fn worst(plan: &Plan, exact: &Exact, last: &BearingState) -> Finding {
    let with_all = one(plan, last);
    let on_the_way = exact.on_the_way.iter().map(|borne| Finding {
        place: Where::Step { step: borne.step, layer: None },
        ..told(plan, &borne.bearings[last.bearing], &format!(" after step {}", borne.step + 1))
    });
    // Where no allowable load is given, the last state says enough.
    let judged = on_the_way.filter(|finding| finding.limit.is_some());
    judged.fold(with_all, |worst, next| if next.is_worse_than(&worst) { next } else { worst })
}

pub(super) fn one(plan: &Plan, state: &BearingState) -> Finding {
    told(plan, state, "")
}

fn told(plan: &Plan, state: &BearingState, when: &str) -> Finding {
    let bearing = &plan.bed.bearings[state.bearing];
    let shown = |n: f64| Amount::Force(n).shown(plan.units);
    let occupant = occupant_words(plan, state);
    let allowed = bearing.allowable.map(Quantity::si);
    let (verdict, text) = match (state.force_n, allowed) {
        (None, _) => {
            (State::Undecided, format!("What {} carries{when} was not decided; treat it as overloaded.", bearing.name))
        }
        (Some(is), None) => (
            State::NoLimit,
            format!(
                "{} carries {}{occupant}. No allowable load is given for it on the Fixture page.",
                bearing.name,
                shown(is)
            ),
        ),
        (Some(is), Some(may)) => {
            let [carries, allowed] = Amount::Force(is).shown_beside(Amount::Force(may), plan.units);
            let told = format!("{} carries {carries} of {allowed} allowed{when}{occupant}", bearing.name);
            match is / may {
                share if share > 1.0 => {
                    (State::Fails, format!("{told}. Bring boards and pieces over the other bearings."))
                }
                share if share > NEAR_SHARE => (
                    State::Caution,
                    format!(
                        "{told}. The margin is small: bring boards over the other bearings as \
                                              well."
                    ),
                ),
                _ => (State::Met, format!("{told}.")),
            }
        }
    };
    Finding {
        check: Check::Bearings,
        state: verdict,
        value: state.force_n.map(Amount::Force),
        limit: allowed.map(Amount::Force),
        place: Where::Stack,
        text,
        sources: &[Source::Builder(Field::Allowable), Source::Own(Derivation::LeastEnergy)],
    }
}

/// What the seated occupant would put there: at the load that lies there, or at ultimate load where less lies.
fn occupant_words(plan: &Plan, state: &BearingState) -> String {
    let Some(alike_n) = state.occupant_n else { return String::new() };
    let applied_kg: f64 = plan.stack.iter().map(|place| plan.mass_of(place).si()).sum();
    let ultimate_kg = plan.case_in_hand().map_or(0.0, |case| Load::of(case).ultimate.as_mass().si());
    let shown = |n: f64| Amount::Force(n).shown(plan.units);
    if applied_kg > 0.0 && applied_kg < ultimate_kg * (1.0 - 1e-9) {
        return format!(
            "; at ultimate load the occupant would put {} there",
            shown(alike_n * ultimate_kg / applied_kg)
        );
    }
    format!("; the occupant would put {} there at the same load", shown(alike_n))
}
