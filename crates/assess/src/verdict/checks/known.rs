//! How well is the occupant point itself known? Not a limit of the stack: a caution at most.

use crate::{Amount, Assessment, Check, Finding, State, Where};
use plan::Plan;
use quantity::{Grain, Length, Quantity};

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some(within_m) = assessment.closed.occupant.within_m else { return Vec::new() };
    let allowed_m = plan.target.tolerance().map(Quantity::si);
    let excess = |axis: &usize| within_m[*axis] > allowed_m[*axis];
    let (axis, state) = (0..2).find(excess).map_or((0, State::Met), |axis| (axis, State::Caution));
    vec![Finding {
        check: Check::PointKnown,
        state,
        value: Some(Amount::Distance(within_m[axis])),
        limit: None,
        place: Where::LoadCase,
        text: told(plan, axis, [within_m[axis], allowed_m[axis]], state),
        sources: assessment.closed.occupant.sources,
    }]
}

fn told(plan: &Plan, axis: usize, both_m: [f64; 2], state: State) -> String {
    let [within, allowed] = both_m.map(|m| Length::m(m).shown(plan.units, Grain::Fine));
    let way = ["fore and aft", "laterally"][axis];
    let told = format!("The occupant point itself is known within ± {within} {way}");
    match state {
        State::Met => format!("{told}; the load must act over it within ± {allowed}."),
        _ => format!(
            "{told}, less well than the ± {allowed} within which the load must act over it: weigh an occupant in \
             the seat, or count the difference as an uncertainty of the test."
        ),
    }
}
