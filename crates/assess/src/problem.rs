//! The plan as a statics problem: bodies on a bed, supports under an article. Bare SI from here on.

use plan::{Form, Plan, point};
use quantity::Quantity;
use statics::{Bearing, Bed, Body};

pub(crate) fn bed(plan: &Plan) -> Bed {
    let bearing = |b: &plan::Bearing| Bearing {
        x_m: b.x.map(Quantity::si),
        y_m: b.y.map(Quantity::si),
        top_m: b.top.si(),
        friction: plan.bed.friction,
    };
    Bed {
        bearings: plan.bed.bearings.iter().map(bearing).collect(),
        touch_m: plan.bed.touch.si(),
        beside_m: plan.bed.beside.si(),
    }
}

pub(crate) fn bodies(plan: &Plan) -> Vec<Body> {
    plan.stack
        .iter()
        .map(|place| {
            let lot = plan.lot_of(place);
            Body {
                centre_m: place.at.map(Quantity::si),
                extent_m: place.turn.extent(lot.size).map(Quantity::si),
                mass_kg: lot.mass_of(place.item).si(),
                friction: lot.friction,
                soft: lot.form == Form::Bag,
            }
        })
        .collect()
}

/// Where the supports push, floor frame, m.
pub(crate) fn supports(plan: &Plan) -> Vec<nalgebra::Point3<f64>> {
    plan.fixture.supports.iter().map(|s| point(s.at)).collect()
}
