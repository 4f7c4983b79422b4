//! The occupant point and the other ones that are kept for comparison.

use super::faults::Faults;
use super::thing::Thing;
use crate::{LoadPoint, Path, Plan, Posture, Target, Weighed};
use quantity::{Angle, Length, Quantity};

/// Statures of grown people with room to spare: `common practice, no source`.
const STATURE_M: [f64; 2] = [1.2, 2.3];
/// Nobody slumps by more: `common practice, no source`.
const SLUMP_M: [f64; 2] = [0.0, 0.15];
/// Joints neither fold flat nor bend beyond straight: `common practice, no source`.
const JOINT_DEG: [f64; 2] = [20.0, 180.0];
const ARM_DEG: [f64; 2] = [-60.0, 180.0];
const THIGH_DEG: [f64; 2] = [-60.0, 90.0];
/// Recline less pan: back and pan of a seat stand roughly square to each other, and where they come
/// near to parallel no hip has a place between them.
const OPEN_DEG: [f64; 2] = [-45.0, 75.0];

pub(super) fn rules(plan: &Plan, faults: &mut Faults) {
    one(&Thing::of("target", "the target"), &plan.target, faults);
    let list = Path::of("other_targets");
    for (i, target) in plan.other_targets.iter().enumerate() {
        let called = format!("other target {}", i + 1);
        one(&Thing { path: list.index(i), called }, target, faults);
    }
}

fn one(thing: &Thing, target: &Target, faults: &mut Faults) {
    match target {
        Target::Point { at, .. } => faults.all_finite(&thing.field_called("at", "point"), at),
        Target::Posture(posture) => posture_rules(thing, posture, faults),
        Target::Weighed(weighed) => weighed_rules(thing, weighed, faults),
        Target::LoadPoint(point) => load_point_rules(thing, point, faults),
    }
    let tolerance = thing.field("tolerance");
    for (i, way) in ["fore-aft", "lateral"].into_iter().enumerate() {
        let called = format!("the {way} tolerance of {}", thing.called);
        faults.above_zero(&Thing { path: tolerance.path.index(i), called }, target.tolerance()[i]);
    }
}

fn degrees([low, high]: [f64; 2]) -> [Angle; 2] {
    [low, high].map(|degrees| Angle::rad(degrees.to_radians()))
}

fn posture_rules(thing: &Thing, posture: &Posture, faults: &mut Faults) {
    faults.all_finite(&thing.field("seat_reference"), &posture.seat_reference);
    faults.gentle(&thing.field("recline"), posture.recline);
    faults.gentle(&thing.field_called("pan", "pan angle"), posture.pan);
    opening(thing, posture, faults);
    if let Some(thigh) = posture.thigh {
        faults.between(&thing.field_called("thigh", "thigh angle"), thigh, degrees(THIGH_DEG));
    }
    faults.between(&thing.field_called("knee", "knee angle"), posture.knee, degrees(JOINT_DEG));
    faults.between(&thing.field_called("arm", "arm angle"), posture.arm, degrees(ARM_DEG));
    faults.between(&thing.field_called("elbow", "elbow angle"), posture.elbow, degrees(JOINT_DEG));
    if let Some(head) = posture.head {
        faults.gentle(&thing.field_called("head", "head lean"), head);
    }
    faults.not_negative(&thing.field("pan_cushion"), posture.pan_cushion);
    faults.not_negative(&thing.field("back_cushion"), posture.back_cushion);
    faults.not_negative(&thing.field("back_pack"), posture.back_pack);
    faults.between(&thing.field("stature"), posture.stature, STATURE_M.map(Length::m));
    faults.between(&thing.field("slump"), posture.slump, SLUMP_M.map(Length::m));
}

/// Both angles are gentle, so that their difference is finite; a fault of their own is told before.
fn opening(thing: &Thing, posture: &Posture, faults: &mut Faults) {
    let opening = posture.recline - posture.pan;
    if !opening.si().is_finite() {
        return;
    }
    let called = format!("recline less pan angle of {}", thing.called);
    faults.between(&Thing { path: thing.path.field("recline"), called }, opening, degrees(OPEN_DEG));
}

fn weighed_rules(thing: &Thing, weighed: &Weighed, faults: &mut Faults) {
    let list = thing.path.field("scales");
    faults.names(&list, "weighing scale", weighed.scales.iter().map(|scale| scale.name.as_str()));
    for (i, scale) in weighed.scales.iter().enumerate() {
        let thing = Thing::entry(&list, i, "weighing scale", &scale.name);
        faults.all_finite(&thing.field_called("at", "place"), &scale.at);
        faults.not_negative(&thing.field_called("without", "reading without the occupant"), scale.without);
        faults.not_negative(&thing.field_called("with", "reading with the occupant"), scale.with);
    }
    faults.not_negative(&thing.field_called("reading_within", "error of a reading"), weighed.reading_within);
    faults.finite(&thing.field("waterline"), weighed.waterline);
    let more = weighed.occupant_mass();
    if more.si() <= 0.0 {
        let told = faults.told(&list, more);
        let sentence = format!(
            "the scales of {} show {told} more with the occupant than without: it must be more than 0",
            thing.called
        );
        faults.add(list, sentence);
    }
}

fn load_point_rules(thing: &Thing, point: &LoadPoint, faults: &mut Faults) {
    if point.document.trim().is_empty() {
        let sentence = format!("the load point of {} names no document: say which one gives it", thing.called);
        faults.add(thing.path.field("document"), sentence);
    }
    faults.all_finite(&thing.field_called("at", "point"), &point.at);
}
