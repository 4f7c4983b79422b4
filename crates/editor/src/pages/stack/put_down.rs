//! Placing without a pointer: the lot in hand is put down on what is selected, else under the
//! occupant point; arrows and exact fields move it from there.

use super::hand::Placing;
use super::table::Table;
use nalgebra::{Point3, Vector3};
use plan::edit::Adding;
use plan::{Edit, Place, Plan};
use quantity::{Length, Quantity};

/// Puts the next item of the lot in hand down, as one step; it is selected then.
pub(super) fn put_down(table: &mut Table) {
    let Some(place) = table.hand.placing.and_then(|placing| next(table, placing)) else { return };
    let at_step = table.hand.next_step(table.plan.steps());
    [table.hand.along_m, table.hand.lateral_m] = place.at.map(Quantity::si);
    // A ghost under the pointer gives way.
    table.hand.gesture = None;
    table.edits.push(Edit::Add { adding: Adding::Placing, at_step, places: vec![place] });
    table.hand.go_to(at_step + 1);
    table.hand.select_all([at_step]);
}

fn next(table: &Table, placing: Placing) -> Option<Place> {
    let lot = table.plan.ballast.get(placing.lot)?;
    let item = table.plan.next_item(lot)?;
    let selected = table.hand.last_selected().and_then(|step| table.plan.stack.get(step));
    let at =
        selected.map_or_else(|| under(table.plan, table.shown.assessment.closed.target_in_floor), |piece| piece.at);
    Some(Place { lot: lot.name.clone(), item, at, turn: placing.turn, locked: false })
}

/// Where the vertical line through a point of the floor frame (m) meets the bed: bed x and y.
fn under(plan: &Plan, point_in_floor: Point3<f64>) -> [Length; 2] {
    let bed_from_floor = plan.floor_from_bed().inverse();
    let point_in_bed = bed_from_floor * point_in_floor;
    let down_in_bed = bed_from_floor.rotation * Vector3::new(0.0, 0.0, -1.0);
    // A bed is tilted by 120 deg at the very most, and then no stack stands: any place will do.
    let way = if down_in_bed.z < -0.1 { point_in_bed.z / -down_in_bed.z } else { 0.0 };
    let foot_in_bed = point_in_bed + down_in_bed * way;
    [foot_in_bed.x, foot_in_bed.y].map(Length::m)
}
