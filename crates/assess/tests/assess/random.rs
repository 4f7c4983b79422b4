//! Random small plans.

use crate::bench::{at, bench, degrees, hold_down, lot, place, scale};
use plan::{Form, Plan, Turn};
use proptest::prelude::*;

/// One piece: its form, where it lies, whether across.
pub(crate) type Drawn = (usize, f64, f64, bool);

pub(crate) fn pieces(most: usize) -> impl Strategy<Value = Vec<Drawn>> {
    prop::collection::vec((0_usize..3, -0.1..0.5_f64, -0.2..0.2_f64, any::<bool>()), 1..=most)
}

/// A bench with these pieces on a wide panel, so that whatever lies lies on something.
pub(crate) fn on_a_panel(drawn: &[Drawn]) -> Plan {
    let mut plan = on_tubes(drawn);
    plan.bed.bearings = vec![crate::bench::bearing("panel", [-9.0, 9.0], [-9.0, 9.0])];
    plan
}

/// A bench with these pieces over its tubes: some may hang in the air.
pub(crate) fn on_tubes(drawn: &[Drawn]) -> Plan {
    let mut plan = bench();
    plan.ballast.push(lot("plate", Form::Solid, [0.40, 0.30, 0.02], 20.0));
    plan.ballast.push(lot("plank", Form::Board, [0.90, 0.19, 0.045], 4.0));
    plan.ballast[2].grade = Some("C24".to_owned());
    plan.stack = Vec::new();
    for (form, x, y, across) in drawn {
        let lot = &plan.ballast[*form];
        let item = plan.next_item(lot).unwrap();
        let mut next = place(&lot.name, item, [*x, *y]);
        next.turn = if *across { Turn::Crosswise } else { Turn::Lengthwise };
        plan.stack.push(next);
    }
    assert_eq!(plan::faults(&plan), []);
    plan
}

/// Turned, strapped, on fewer supports.
pub(crate) fn tilted(mut plan: Plan, pitch_deg: f64, slope_deg: f64, supports: usize) -> Plan {
    plan.article.pitch = degrees(pitch_deg);
    plan.bed.slope = degrees(slope_deg);
    plan.fixture.supports.push(scale("fourth scale", [2.0, 0.5, 0.0]));
    plan.fixture.supports.truncate(supports);
    plan.fixture.hold_downs = vec![hold_down(4.2, 100.0)];
    assert_eq!(plan::faults(&plan), []);
    plan
}

/// The same plan seen in the mirror: right is left.
pub(crate) fn mirrored(plan: &Plan) -> Plan {
    let mut mirrored = plan.clone();
    let flip = |[low, high]: [quantity::Length; 2]| [-high, -low];
    for place in &mut mirrored.stack {
        place.at[1] = -place.at[1];
    }
    for support in &mut mirrored.fixture.supports {
        support.at[1] = -support.at[1];
    }
    for strap in &mut mirrored.fixture.hold_downs {
        (strap.on_article[1], strap.on_floor[1]) = (-strap.on_article[1], -strap.on_floor[1]);
    }
    for bearing in &mut mirrored.bed.bearings {
        bearing.y = flip(bearing.y);
    }
    for region in &mut mirrored.article.keep_clear {
        region.y = flip(region.y);
    }
    mirrored.article.centroid[1] = -mirrored.article.centroid[1];
    if let plan::Target::Point { at, .. } = &mut mirrored.target {
        at[1] = -at[1];
    }
    mirrored
}

/// A plan that is not alike on both sides.
pub(crate) fn lopsided(mut plan: Plan) -> Plan {
    plan.article.centroid = at([1.2, 0.03, 0.5]);
    plan.target = plan::Target::Point { at: at([1.2, -0.01, 0.8]), tolerance: plan.target.tolerance() };
    plan.article.keep_clear[0].y = at([-0.3, 0.05]);
    plan
}
