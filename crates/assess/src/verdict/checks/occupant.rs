//! Does the way to the occupant point fit the load case? A typed point says nothing of itself.

use crate::{Assessment, Check, Finding, State, Where};
use plan::{LoadPoint, LowerLegs, Plan, Posture, Target, Weighed};
use quantity::{Grain, Length, Mass, Quantity};

/// Who was weighed may differ from the case's occupant by this share: `common practice, no source`;
/// the point moves by about 0.8 mm a kilogram.
const LIKE_SHARE: f64 = 0.1;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let (state, text) = match &plan.target {
        Target::Point { at, .. } if at.iter().all(|along| along.si().abs() <= 0.0) => {
            let text = "The occupant point stands at station, buttock line and waterline 0, as in an empty plan: nobody entered it. \
                        Type where the seated occupant's centre of mass is, or choose a way to find it.";
            (State::Undecided, text.to_owned())
        }
        Target::Point { .. } => return Vec::new(),
        Target::LoadPoint(given) if given.document == LoadPoint::UNNAMED => {
            let text = "The load point names no document: say which one gives it, and type its point.";
            (State::Undecided, text.to_owned())
        }
        Target::LoadPoint(given) => {
            (State::Met, format!("The occupant point is the load point of {}.", given.document))
        }
        Target::Posture(posture) => posture_finding(plan, posture, assessment),
        Target::Weighed(weighed) if weighed.is_empty() => {
            let text = "Nothing was read without the occupant: type the readings of both weighings.";
            (State::Undecided, text.to_owned())
        }
        Target::Weighed(weighed) => weighed_finding(plan, weighed),
    };
    vec![Finding {
        check: Check::OccupantPoint,
        state,
        value: None,
        limit: None,
        place: Where::LoadCase,
        text,
        sources: assessment.closed.occupant.sources,
    }]
}

type Told = (State, String);

fn posture_finding(plan: &Plan, posture: &Posture, assessment: &Assessment) -> Told {
    let told = format!("The occupant point comes from the {}", assessment.closed.occupant.from);
    let Some(seated) = &assessment.closed.occupant.seated else { return (State::Undecided, format!("{told}.")) };
    let (share, [aft, up]) = seated.lower_legs();
    let fine = |m: f64| Length::m(m).shown(plan.units, Grain::Fine);
    let legs = format!("Lower legs and feet are {:.1} % of the occupant", 100.0 * share);
    let moves = format!("{legs}: off the seat they leave the point {} further aft and {} higher", fine(aft), fine(up));
    match posture.lower_legs {
        LowerLegs::OnSeat => (State::Met, format!("{told}. The seat carries the whole occupant.")),
        LowerLegs::OnFloor => {
            let advice = "The static cases of the rules put the whole occupant on the seat";
            (State::Caution, format!("{told}. {moves}. {advice}."))
        }
    }
}

fn weighed_finding(plan: &Plan, weighed: &Weighed) -> Told {
    let shown = |mass: Mass| mass.shown(plan.units, Grain::Coarse);
    let (is, case) = (weighed.occupant_mass(), plan.case_in_hand().map(|case| case.occupant_mass));
    let due = case.unwrap_or(is);
    let told = format!("The occupant who was weighed has a mass of {}, the load case {}", shown(is), shown(due));
    if (is.si() / due.si() - 1.0).abs() > LIKE_SHARE {
        let text = format!(
            "{told}. A heavier body's centre of mass lies further forward: weigh somebody as heavy as the case says."
        );
        (State::Caution, text)
    } else {
        (State::Met, format!("{told}."))
    }
}
