//! 120 small bags of shot, of which all but a few are due: what the time is measured by.

use crate::draw::task;
use plan::{Form, Lot, Plan};
use quantity::{Force, Length, Mass};
use std::collections::BTreeMap;

const BAGS: f64 = 120.0;
const BAG_KG: f64 = 9.0;

/// The bed and the boards of an easy task under another heap and a heavier occupant.
pub(crate) fn plan() -> Plan {
    let mut plan = task(0).plan;
    let due_kg = BAGS * BAG_KG;
    plan.load_cases[0].occupant_mass = Mass::kg(due_kg / 6.0);
    plan.fixture.supports.iter_mut().for_each(|support| support.capacity = Some(Mass::kg(0.6 * due_kg + 60.0)));
    plan.bed.bearings.iter_mut().for_each(|bearing| bearing.allowable = Some(Force::n(due_kg * 9.81)));
    let mut lots: Vec<Lot> = plan.ballast.drain(..).filter(|lot| lot.form == Form::Board).collect();
    lots.insert(0, shot());
    plan.ballast = lots;
    plan
}

fn shot() -> Lot {
    let weighed = |item: u32| (item, Mass::kg(BAG_KG + 0.01 * f64::from(item % 7) - 0.03));
    Lot {
        name: "shot bag".to_owned(),
        form: Form::Bag,
        size: [0.30, 0.20, 0.07].map(Length::m),
        mass: Mass::kg(BAG_KG),
        mass_tolerance: Mass::kg(0.2),
        count: 124,
        friction: 0.35,
        weighed: (1..=124).map(weighed).collect::<BTreeMap<_, _>>(),
        grade: None,
        strength: None,
        softness: None,
    }
}
