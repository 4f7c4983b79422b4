//! Do the hold-down straps bear what they will pull?

use crate::closed::StepState;
use crate::source::Field;
use crate::verdict::when;
use crate::{Amount, Assessment, Check, Finding, Source, State};
use plan::{HoldDown, Plan};
use quantity::frame::side;
use quantity::{Grain, Length, Quantity};

/// An offset that is told as a way to go, m: less cannot be laid (`common practice, no source`).
const WORTH_A_MOVE_M: f64 = 0.001;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some(exact) = &assessment.exact else { return Vec::new() };
    plan.fixture
        .hold_downs
        .iter()
        .enumerate()
        .filter_map(|(index, strap)| {
            let states = exact.settled().filter_map(|(placed, settled)| Some((placed, settled.reactions()?)));
            let pulls = states.map(|(placed, reactions)| (placed, reactions.ties[index].tension_n));
            // States of which nothing is known are told by the checks of article and scales.
            let (placed, pull) = pulls.max_by(|a, b| a.1.total_cmp(&b.1))?;
            let allowed = strap.working_load.si();
            let (value, limit) = (Amount::Force(pull), Amount::Force(allowed));
            let told = format!(
                "{} has its greatest pull {}: {} of {} working load",
                strap.name,
                when::when(placed),
                value.shown(plan.units),
                limit.shown(plan.units)
            );
            let (state, text) = match pull / allowed {
                share if share > 1.0 => {
                    let helps = match placed.checked_sub(1).and_then(|step| assessment.closed.steps.get(step)) {
                        None => "tension it less".to_owned(),
                        Some(step) => relief(plan, strap, step),
                    };
                    (State::Fails, format!("{told}. Take a stronger strap, or {helps}."))
                }
                share if share > 0.9 => (
                    State::Caution,
                    format!(
                        "{told}. The margin is small: take a stronger \
                    strap."
                    ),
                ),
                _ => (State::Met, format!("{told}.")),
            };
            Some(Finding {
                check: Check::StrapPull,
                state,
                value: Some(value),
                limit: Some(limit),
                place: when::place(placed),
                text,
                sources: &[Source::Builder(Field::WorkingLoad)],
            })
        })
        .collect()
}

/// What takes load off a strap that the stack pulls: load that moves toward the strap's foot presses the
/// article down there, and the pull falls. The way goes toward the occupant point, never past it; where the
/// stack already acts there, the supports are to be moved.
fn relief(plan: &Plan, strap: &HoldDown, step: &StepState) -> String {
    let at = [step.centroid.x, step.centroid.y];
    let way = [0, 1].map(|axis| strap.on_floor[axis].si() - at[axis]);
    let axis = usize::from(way[1].abs() > way[0].abs());
    let [toward, away] = [way[axis], -way[axis]].map(|m| side(axis, m));
    let back_m = -step.offset_m[axis] * way[axis].signum();
    let move_on = match back_m > WORTH_A_MOVE_M {
        true => format!("move the stack {} {toward}, over the occupant point", shown(plan, back_m)),
        false => {
            format!("set the supports further {away}: a stack nearer to the strap would be off the occupant point")
        }
    };
    format!("{move_on}{}", lever(plan, at, axis))
}

/// How far the line of action is from the support nearest to it, along an axis of the plan.
fn lever(plan: &Plan, at: [f64; 2], axis: usize) -> String {
    let from = |support: &plan::Support| [0, 1].map(|k| at[k] - support.at[k].si());
    let apart = |support: &plan::Support| from(support).into_iter().fold(0.0, f64::hypot);
    let nearest = plan.fixture.supports.iter().min_by(|a, b| apart(a).total_cmp(&apart(b)));
    let Some(support) = nearest else { return String::new() };
    let off_m = from(support)[axis];
    let side = side(axis, off_m);
    format!(". The line of action is {} {side} of {}, its nearest support", shown(plan, off_m.abs()), support.name)
}

fn shown(plan: &Plan, metres: f64) -> String {
    Length::m(metres).shown(plan.units, Grain::Fine).to_string()
}
