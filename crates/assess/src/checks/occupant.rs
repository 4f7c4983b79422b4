//! Does the way to the occupant point fit the load case? A typed point says nothing of itself.

use crate::{Amount, Assessment, Finding, State, Where};
use plan::{LoadPoint, LowerLegs, Plan, Posture, Target, Weighed};
use quantity::{Grain, Length, Mass, Quantity};

/// Who was weighed may differ from the case's occupant by this share: `common practice, no source`;
/// the point moves by about 0.8 mm a kilogram.
const LIKE_SHARE: f64 = 0.1;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let (state, value, limit, text) = match &plan.target {
        Target::Point { .. } => return Vec::new(),
        Target::LoadPoint(given) if given.document == LoadPoint::UNNAMED => {
            let text = "The load point names no document: say which one gives it, and type its point.";
            (State::Fails, None, None, text.to_owned())
        }
        Target::LoadPoint(given) => {
            (State::Holds, None, None, format!("The occupant point is the load point of {}.", given.document))
        }
        Target::Posture(posture) => posture_finding(plan, posture, assessment),
        Target::Weighed(weighed) if weighed.is_empty() => {
            let text = "Nothing was read without the occupant: type the readings of both weighings.";
            (State::Fails, None, None, text.to_owned())
        }
        Target::Weighed(weighed) => weighed_finding(plan, weighed),
    };
    let (state, value, limit, text) = with_doubt(plan, assessment, (state, value, limit, text));
    let source = assessment.occupant.source;
    vec![Finding { check: "Occupant point", state, value, limit, place: Where::LoadCase, text, source }]
}

type Told = (State, Option<Amount>, Option<Amount>, String);

/// A point that is known less well than the load must act over it: then the tolerance proves less than
/// it says.
fn with_doubt(plan: &Plan, assessment: &Assessment, (state, value, limit, text): Told) -> Told {
    let Some(within_m) = assessment.occupant.within_m else { return (state, value, limit, text) };
    let allowed_m = plan.target.tolerance().map(Quantity::si);
    let Some(axis) = (0..2).find(|axis| within_m[*axis] > allowed_m[*axis]) else { return (state, value, limit, text) };
    let [within, allowed] = [within_m[axis], allowed_m[axis]].map(|m| Length::m(m).shown(plan.units, Grain::Fine));
    let way = ["fore and aft", "laterally"][axis];
    let text = format!(
        "{text} The point itself is known within ± {within} {way}, less well than the ± {allowed} within which the load \
         must act over it: weigh an occupant in the seat, or take the difference as a reserve of the test."
    );
    let (value, limit) = match state {
        State::Holds => (Some(Amount::Distance(within_m[axis])), Some(Amount::Distance(allowed_m[axis]))),
        _ => (value, limit),
    };
    (state.max(State::Near), value, limit, text)
}

fn posture_finding(plan: &Plan, posture: &Posture, assessment: &Assessment) -> Told {
    let known = assessment.occupant.within_m.map(|[fore_aft, _]| Length::m(fore_aft).shown(plan.units, Grain::Fine));
    let known = known.map(|known| format!(", known within ± {known} fore and aft")).unwrap_or_default();
    let told = format!("The occupant point comes from the {}{known}", assessment.occupant.from);
    let Some(seated) = &assessment.occupant.seated else { return (State::Undecided, None, None, format!("{told}.")) };
    let (share, [aft, up]) = seated.lower_legs();
    let fine = |m: f64| Length::m(m).shown(plan.units, Grain::Fine);
    let legs = format!("Shanks and feet are {:.1} % of him", 100.0 * share);
    let moves = format!("{legs}: off the seat they leave the point {} further aft and {} higher", fine(aft), fine(up));
    match posture.lower_legs {
        LowerLegs::OnSeat => (State::Holds, None, None, format!("{told}. The seat carries the whole occupant.")),
        LowerLegs::OnFloor => {
            let advice = "The static cases of the rules put the whole occupant on the seat";
            (State::Near, Some(Amount::Ratio(share)), None, format!("{told}. {moves}. {advice}."))
        }
    }
}

fn weighed_finding(plan: &Plan, weighed: &Weighed) -> Told {
    let shown = |mass: Mass| mass.shown(plan.units, Grain::Coarse);
    let (is, case) = (weighed.occupant_mass(), plan.case_in_hand().map(|case| case.occupant_mass));
    let due = case.unwrap_or(is);
    let told = format!("The occupant who was weighed has {}, the load case {}", shown(is), shown(due));
    let (value, limit) = (Some(Amount::Mass(is.si())), Some(Amount::Mass(due.si())));
    if (is.si() / due.si() - 1.0).abs() > LIKE_SHARE {
        let text = format!("{told}. A heavier body's centre of mass lies further forward: weigh somebody like him.");
        (State::Near, value, limit, text)
    } else {
        (State::Holds, value, limit, format!("{told}."))
    }
}
