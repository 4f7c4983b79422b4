//! Noting what items of a lot weigh: one or many, as one edit.

use crate::Plan;
use quantity::Mass;

/// What undo would say.
pub(super) fn name(lot: &str, masses: &[(u32, Option<Mass>)]) -> String {
    match masses {
        [(item, Some(_))] => format!("weigh {lot} {item}"),
        [(item, None)] => format!("take back what {lot} {item} weighs"),
        many => format!("weigh {} of {lot}", many.len()),
    }
}

/// Notes the masses.
pub(super) fn change(plan: &mut Plan, lot: &str, masses: &[(u32, Option<Mass>)]) {
    let Some(lot) = plan.ballast.iter_mut().find(|l| l.name == lot) else { return };
    for (item, mass) in masses {
        match mass {
            Some(mass) => lot.weighed.insert(*item, *mass),
            None => lot.weighed.remove(item),
        };
    }
}
