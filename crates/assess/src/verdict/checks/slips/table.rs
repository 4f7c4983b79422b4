//! The table: every figure of the plan with the range in which it is meant. A field with a range of its own in
//! the rules of the plan (angles, stature, fractions of ultimate, how many lift) is refused there and has no line
//! here; a test holds the two together.
//!
//! A line: field of the plan file, name, unit, range in SI, whether a figure beyond it fails or is a caution, on
//! what the range rests, where it is read, and what hangs on it. All ranges are `common practice, no source`
//! (wide enough for any light aircraft, its occupant and the ballast that people carry) but where a rule is named.

use super::row::{Of, Row, Shown};
use crate::Source;

use crate::source::Rule;

const PRACTICE: &[Source] = Source::PRACTICE;
use plan::{LoadPoint, Posture, Softness, Strength, Target, Weighed};
use quantity::Quantity;

const RULE_305: &[Source] = &[Source::Rule(Rule::SetAtLimit)];

/// No light aircraft and no hangar reaches farther from its datum, m.
const FAR_M: f64 = 50.0;
/// Farther from the bed's origin is no seat, m.
const OFF_THE_SEAT_M: f64 = 5.0;
/// Day in seconds.
const DAY_S: f64 = 86_400.0;

const DATUM: &str = "Every lever arm counts on it. Check the number and its unit.";
const FRICTION: &str = "Every reserve against sliding counts on it. Measure it by tilting, or enter less.";
const DRAWN: &str = "It is only drawn. Check the number and its unit.";
const STEP: &str = "With so coarse a step no reading can show that something is wrong, and nothing stops the day. \
                    Check the number and its unit, or use a finer scale.";
const OFF_POINT: &str = "With so wide a tolerance the load is in place wherever it lies on the seat. Enter what the \
                         test allows.";
/// With so wide a tolerance nothing is off the point, m.
const OFF_POINT_M: f64 = 0.25;
/// What is stiffer is no bag, Pa.
const HARD_PA: f64 = 10e6;
const WIDE: &str = "The occupant's centre of mass is known better than that: a load so far off loads other parts of the seat. Ask for less.";
const LITTLE: &str = "A stack with so little reserve goes over at a touch. Ask for more.";
const LIFTING: &str = "The caution on lifting counts on it. Check the number and its unit.";
const TAPED: &str = "Every piece is taped from it. Check the number and its unit.";
const BEND: &str = "No board bears so much, or so little: bending is judged by it. Check the number and its unit.";
const BENDS: &str = "No seat bends so far. Check the number and its unit.";
const BAG: &str = "How a bag gives is judged by it. Check the number and its unit, or measure three bags.";

const STIFF: &str = "That is more than sand which cannot get out: a bag gives more. A reserve that is told by it is too high. Measure \
                     three bags again, the second loading with a finer gauge.";

fn one(quantity: impl Quantity) -> Vec<f64> {
    vec![quantity.si()]
}

fn given(quantity: Option<impl Quantity>) -> Vec<f64> {
    quantity.into_iter().map(Quantity::si).collect()
}

fn all<Q: Quantity>(quantities: impl IntoIterator<Item = Q>) -> Vec<f64> {
    quantities.into_iter().map(Quantity::si).collect()
}

fn strength(lot: &plan::Lot, of: fn(&Strength) -> f64) -> Vec<f64> {
    lot.strength.iter().map(of).collect()
}

fn softness(lot: &plan::Lot, of: fn(&Softness) -> Vec<f64>) -> Vec<f64> {
    lot.softness.iter().flat_map(of).collect()
}

/// The modulus of bags that were measured, where it is one that a soft thing can have at all.
fn measured(softness: &Softness) -> Vec<f64> {
    one(softness.modulus).into_iter().filter(|pa| !softness.readings.is_empty() && *pa <= HARD_PA).collect()
}

fn posture(target: &Target, of: fn(&Posture) -> Vec<f64>) -> Vec<f64> {
    if let Target::Posture(posture) = target { of(posture) } else { Vec::new() }
}

fn weighed(target: &Target, of: fn(&Weighed) -> Vec<f64>) -> Vec<f64> {
    if let Target::Weighed(weighed) = target { of(weighed) } else { Vec::new() }
}

fn typed(target: &Target) -> Vec<f64> {
    if let Target::Point { at, .. } = target { all(*at) } else { Vec::new() }
}

fn by_document(target: &Target) -> Vec<f64> {
    if let Target::LoadPoint(LoadPoint { at, .. }) = target { all(*at) } else { Vec::new() }
}

/// Whether a figure beyond the range fails.
macro_rules! decides {
    (fails) => {
        true
    };
    (caution) => {
        false
    };
}

macro_rules! table {
    ($($record:ident.$field:ident $called:literal $unit:ident [$low:expr, $high:expr] $state:ident $sources:ident $of:ident($figures:expr) $reason:expr;)*) => {
        &[$(Row {
            called: $called,
            unit: Shown::$unit,
            fits: [$low, $high],
            decides: decides!($state),
            reason: $reason,
            sources: $sources,
            of: Of::$of($figures),
        }),*]
    };
}

#[rustfmt::skip]
pub(super) const TABLE: &[Row] = table! {
    LoadCase.occupant_mass "occupant mass" Mass [10.0, 250.0] fails PRACTICE Case(|c| one(c.occupant_mass)) "It makes the limit load. Check the number and its unit.";
    LoadCase.load_factor "load factor" Factor [1.0, 30.0] fails PRACTICE Case(|c| vec![c.load_factor]) "It makes the limit load. Check the number against the paragraph of the rule.";
    LoadCase.safety_factor "factor of safety" Factor [1.0, 5.0] caution PRACTICE Case(|c| vec![c.safety_factor]) "It makes ultimate load of limit load. Check the number against the rule.";
    LoadCase.special_factor "special factor" Factor [1.0, 3.0] fails PRACTICE Case(|c| vec![c.special_factor]) "A special factor only adds to the load. Check the number against the rule.";
    Article.mass "mass" Mass [0.0, 10_000.0] fails PRACTICE Article(|a| one(a.mass)) "Its weight steadies the fixture. Check the number and its unit.";
    Article.centroid "centroid" Place [-FAR_M, FAR_M] fails PRACTICE Article(|a| all(a.centroid)) DATUM;
    Article.pivot "pivot" Place [-FAR_M, FAR_M] fails PRACTICE Article(|a| all(a.pivot)) DATUM;
    Line.points "corner" Place [-FAR_M, FAR_M] caution PRACTICE Line(|l| all(l.points.iter().flatten().copied())) DRAWN;
    Line.half_breadth "half-breadth" Place [0.001, FAR_M] caution PRACTICE Line(|l| given(l.half_breadth)) DRAWN;
    Line.width "width" Place [0.001, FAR_M] caution PRACTICE Line(|l| given(l.width)) DRAWN;
    KeepClear.side "corner" Place [-FAR_M, FAR_M] fails PRACTICE KeepClear(|k| all(k.side.iter().flatten().copied())) "So far off it keeps nothing clear. Check the number and its unit.";
    KeepClear.y "buttock line" Place [-FAR_M, FAR_M] fails PRACTICE KeepClear(|k| all(k.y)) "So far off it keeps nothing clear. Check the number and its unit.";
    KeepClear.clearance "clearance" Small [0.0, 1.0] caution PRACTICE KeepClear(|k| one(k.clearance)) "So much room leaves none for ballast. Check the number and its unit.";
    Picture.at "place" Place [-FAR_M, FAR_M] caution PRACTICE Picture(|p| all(p.at)) DRAWN;
    Picture.width "width" Place [0.01, FAR_M] caution PRACTICE Picture(|p| one(p.width)) DRAWN;
    Picture.turn "turn" Angle [-std::f64::consts::TAU, std::f64::consts::TAU] caution PRACTICE Picture(|p| one(p.turn)) DRAWN;
    WeighingPoint.at "place" Place [-FAR_M, FAR_M] fails PRACTICE WeighingPoint(|p| all(p.at)) DATUM;
    WeighingPoint.reading "reading" Mass [0.0, 10_000.0] fails PRACTICE WeighingPoint(|p| one(p.reading)) "Mass and centroid of the article come from it. Check the number and its unit.";
    WeighingPoint.tare "tare" Mass [0.0, 1000.0] caution PRACTICE WeighingPoint(|p| one(p.tare)) "Chocks and stands seldom weigh so much. Check the number and its unit.";
    WeighingPoint.division "scale division" Mass [0.0, 5.0] caution PRACTICE WeighingPoint(|p| given(p.division)) "Mass and centroid of the article are known no better than that. Check the number and its unit.";
    Point.at "place" Place [-FAR_M, FAR_M] fails PRACTICE Target(typed) DATUM;
    LoadPoint.at "place" Place [-FAR_M, FAR_M] fails PRACTICE Target(by_document) DATUM;
    Posture.seat_reference "seat reference" Place [-FAR_M, FAR_M] fails PRACTICE Target(|t| posture(t, |p| all(p.seat_reference))) DATUM;
    Posture.pan_cushion "pan cushion" Small [0.0, 0.3] fails PRACTICE Target(|t| posture(t, |p| one(p.pan_cushion))) "The occupant sits on it. Check the number and its unit.";
    Posture.back_cushion "back cushion" Small [0.0, 0.3] fails PRACTICE Target(|t| posture(t, |p| one(p.back_cushion))) "The occupant leans on it. Check the number and its unit.";
    Posture.back_pack "back pack" Small [0.0, 0.3] fails PRACTICE Target(|t| posture(t, |p| one(p.back_pack))) "The occupant leans on it. Check the number and its unit.";
    WeighingScale.at "scale" Place [-FAR_M, FAR_M] fails PRACTICE Target(|t| weighed(t, |w| all(w.scales.iter().flat_map(|s| s.at)))) DATUM;
    WeighingScale.without "reading without the occupant" Mass [0.0, 10_000.0] fails PRACTICE Target(|t| weighed(t, |w| all(w.scales.iter().map(|s| s.without)))) "The point comes from it. Check the number and its unit.";
    WeighingScale.with "reading with the occupant" Mass [0.0, 10_300.0] fails PRACTICE Target(|t| weighed(t, |w| all(w.scales.iter().map(|s| s.with)))) "The point comes from it. Check the number and its unit.";
    Weighed.reading_within "error of a reading" Mass [0.0, 5.0] caution PRACTICE Target(|t| weighed(t, |w| one(w.reading_within))) "The point is known no better than that. Check the number and its unit.";
    Weighed.waterline "waterline" Place [-FAR_M, FAR_M] fails PRACTICE Target(|t| weighed(t, |w| one(w.waterline))) DATUM;
    Target.tolerance "tolerance" Small [0.0, OFF_POINT_M] fails PRACTICE Target(|t| all(t.tolerance())) OFF_POINT;
    Target.tolerance "tolerance" Small [0.0, 0.06] caution PRACTICE Target(|t| all(t.tolerance()).into_iter().filter(|m| *m <= OFF_POINT_M).collect()) WIDE;
    Support.at "place" Place [-FAR_M, FAR_M] fails PRACTICE Support(|s| all(s.at)) DATUM;
    Support.capacity "capacity" Mass [0.0, 50_000.0] fails PRACTICE Support(|s| given(s.capacity)) "With so much the support is never overloaded. Check the number and its unit.";
    Support.stiffness "stiffness" Stiffness [1e3, 1e12] caution PRACTICE Support(|s| given(s.stiffness)) "The shares of the supports come from it. Check the number and its unit.";
    Support.division "scale division" Mass [0.0, 5.0] fails PRACTICE Support(|s| given(s.division)) STEP;
    HoldDown.on_article "end on the article" Place [-FAR_M, FAR_M] fails PRACTICE HoldDown(|h| all(h.on_article)) DATUM;
    HoldDown.on_floor "end on the floor" Place [-FAR_M, FAR_M] fails PRACTICE HoldDown(|h| all(h.on_floor)) DATUM;
    HoldDown.preload "preload" Force [0.0, 50e3] fails PRACTICE HoldDown(|h| one(h.preload)) "It steadies the fixture, and no hand draws a strap so tight. Check the number and its unit.";
    HoldDown.working_load "working load" Force [0.0, 200e3] fails PRACTICE HoldDown(|h| one(h.working_load)) "With so much the strap is never overloaded. Check the number and its unit on its label.";
    HoldDown.stiffness "stiffness" Stiffness [100.0, 1e9] fails PRACTICE HoldDown(|h| one(h.stiffness)) "How much a strap holds comes from it. Check the number and its unit.";
    Binding.at "place" Place [-OFF_THE_SEAT_M, OFF_THE_SEAT_M] fails PRACTICE Binding(|b| all(b.at)) "So far off it does not cross the stack. Check the number and its unit.";
    Binding.pull "pull" Force [0.0, 10e3] fails PRACTICE Binding(|b| one(b.pull)) "It steadies the stack, and no hand draws a strap so tight. Check the number and its unit.";
    Binding.width "width" Small [0.005, 0.3] caution PRACTICE Binding(|b| one(b.width)) "Over so much it bears on the piece beneath. Check the number and its unit.";
    CatchBlock.at "place" Place [-FAR_M, FAR_M] fails PRACTICE CatchBlock(|c| all(c.at)) "So far off it catches nothing. Check the number and its unit.";
    CatchBlock.gap "gap" Small [0.0, 0.1] fails PRACTICE CatchBlock(|c| one(c.gap)) "Over so much the article falls before it is caught. Set the block closer.";
    Fixture.floor_friction "friction" Factor [0.0, 1.5] fails PRACTICE Fixture(|f| vec![f.floor_friction]) FRICTION;
    Fixture.floor "height" Place [-5.0, 5.0] caution PRACTICE Fixture(|f| given(f.floor)) "How high hands lift counts on it. Check the number and its unit.";
    Bed.origin "origin" Place [-FAR_M, FAR_M] fails PRACTICE Bed(|b| all(b.origin)) DATUM;
    Bed.friction "friction" Factor [0.0, 1.5] fails PRACTICE Bed(|b| vec![b.friction]) FRICTION;
    Bed.touch "touch distance" Small [0.0, 0.020] fails PRACTICE Bed(|b| one(b.touch)) "A wider gap is no contact: pieces would be credited with support that they do not have. Enter how far bags squeeze.";
    Bed.touch_hard "touch distance between hard pieces" Small [0.0, 0.005] fails PRACTICE Bed(|b| one(b.touch_hard)) "A wider gap is no contact: boards and plates do not squeeze. Enter by how much their thickness differs.";
    Bed.beside "beside distance" Small [0.0, 0.050] fails PRACTICE Bed(|b| one(b.beside)) "A bag that overlaps by more lies on the other one. Enter how far bags squeeze side by side.";
    Bearing.x "extent along x" Place [-OFF_THE_SEAT_M, OFF_THE_SEAT_M] fails PRACTICE Bearing(|b| all(b.x)) "So wide a bearing carries whatever lies there. Check the number and its unit.";
    Bearing.y "extent along y" Place [-OFF_THE_SEAT_M, OFF_THE_SEAT_M] fails PRACTICE Bearing(|b| all(b.y)) "So wide a bearing carries whatever lies there. Check the number and its unit.";
    Bearing.top "top" Place [-OFF_THE_SEAT_M, OFF_THE_SEAT_M] fails PRACTICE Bearing(|b| one(b.top)) "The height of the whole stack comes from it. Check the number and its unit.";
    Bearing.allowable "allowable load" Force [0.0, 500e3] fails PRACTICE Bearing(|b| given(b.allowable)) "With so much the bearing is never overloaded. Check the number and its unit, or leave it out.";
    Mark.at "place" Place [-OFF_THE_SEAT_M, OFF_THE_SEAT_M] fails PRACTICE Mark(|m| all(m.at)) TAPED;
    StringLine.x "end of the string" Place [-OFF_THE_SEAT_M, OFF_THE_SEAT_M] caution PRACTICE Bed(|b| b.string.iter().flat_map(|s| all(s.x)).collect()) TAPED;
    StringLine.y "place of the string across" Place [-OFF_THE_SEAT_M, OFF_THE_SEAT_M] fails PRACTICE Bed(|b| given(b.string.as_ref().map(|s| s.y))) TAPED;
    Lot.size "size" Small [0.001, 6.0] caution PRACTICE Lot(|l| all(l.size)) "Check the number and its unit.";
    Lot.mass "mass" Mass [0.05, 1000.0] caution PRACTICE Lot(|l| one(l.mass)) "Check the number and its unit.";
    Lot.friction "friction" Factor [0.0, 1.5] fails PRACTICE Lot(|l| vec![l.friction]) FRICTION;
    Strength.bending "allowable bending stress" Pressure [0.1e6, 1000e6] fails PRACTICE Lot(|l| strength(l, |s| s.bending.si())) BEND;
    Strength.shear "allowable shear stress" Pressure [0.01e6, 600e6] fails PRACTICE Lot(|l| strength(l, |s| s.shear.si())) BEND;
    Strength.modulus "modulus of elasticity" Pressure [100e6, 250e9] fails PRACTICE Lot(|l| strength(l, |s| s.modulus.si())) BEND;
    Softness.modulus "modulus of softness" Pressure [1e3, HARD_PA] fails PRACTICE Lot(|l| softness(l, |s| one(s.modulus))) BAG;
    Softness.modulus "measured modulus of softness" Pressure [0.0, 2e6] caution PRACTICE Lot(|l| softness(l, measured)) STIFF;
    Softness.rim "rim" Small [0.0, 0.1] caution PRACTICE Lot(|l| softness(l, |s| given(s.rim))) BAG;
    Softness.shear_ratio "shear ratio" Factor [0.0, 1.0] fails PRACTICE Lot(|l| softness(l, |s| vec![s.shear_ratio])) BAG;
    Softness.creep_per_decade "creep for each tenfold of time" Factor [0.0, 1.0] caution PRACTICE Lot(|l| softness(l, |s| vec![s.creep_per_decade])) BAG;
    Softness.flat "flat" Small [0.01, 3.0] caution PRACTICE Lot(|l| softness(l, |s| all(s.flat.into_iter().flatten()))) BAG;
    Reading.added "mass added for softness" Mass [0.0, 2000.0] caution PRACTICE Lot(|l| softness(l, |s| all(s.readings.iter().map(|r| r.added)))) BAG;
    Reading.after "time under load" Time [0.0, 30.0 * DAY_S] caution PRACTICE Lot(|l| softness(l, |s| all(s.readings.iter().map(|r| r.after)))) BAG;
    Reading.sinks "sinking" Small [-0.01, 0.3] caution PRACTICE Lot(|l| softness(l, |s| all(s.readings.iter().map(|r| r.sinks)))) BAG;
    Place.at "place" Place [-OFF_THE_SEAT_M, OFF_THE_SEAT_M] fails PRACTICE Place(|p| all(p.at)) "So far off is no seat. Check the number and its unit.";
    Gauge.at "place" Place [-FAR_M, FAR_M] caution PRACTICE Gauge(|g| all(g.at)) DRAWN;
    Gauge.allowed_set "allowed set" Small [0.0, 0.020] fails PRACTICE Gauge(|g| one(g.allowed_set)) "With so much no permanent set is ever found. Enter what the structure may keep.";
    Gauge.expected_at_limit "expected at limit load" Small [-0.3, 0.3] caution PRACTICE Gauge(|g| given(g.expected_at_limit)) BENDS;
    Gauge.expected_at_ultimate "expected at ultimate load" Small [-0.3, 0.3] caution PRACTICE Gauge(|g| given(g.expected_at_ultimate)) BENDS;
    Gauge.expected_within "tolerance of what is expected" Small [0.0, 0.05] caution PRACTICE Gauge(|g| given(g.expected_within)) "With so much every reading fits. Check the number and its unit.";
    Hold.tolerance "tolerance" Small [0.0, 0.5] fails PRACTICE Hold(|h| all(h.tolerance.into_iter().flatten())) OFF_POINT;
    Hold.time "planned time" Time [1.0, DAY_S] caution PRACTICE Hold(|h| if is_ultimate(h) { Vec::new() } else { given(h.time) }) "How far bags sink and creep meanwhile comes from it. Check the number and its unit.";
    Hold.time "planned time at ultimate load" Time [3.0, DAY_S] fails RULE_305 Hold(|h| if is_ultimate(h) { given(h.time) } else { Vec::new() }) "Ultimate load is to be held for three seconds. Plan for as long.";
    Instrument.check_mass "check mass" Mass [0.001, 500.0] caution PRACTICE Instrument(|i| given(i.check_mass)) "An instrument is checked with it. Check the number and its unit.";
    Allow.collapse "required reserve of the stack" Factor [0.02, 10.0] fails PRACTICE Allow(|a| vec![a.collapse]) LITTLE;
    Allow.fixture_push "required reserve of the fixture" Factor [0.02, 10.0] fails PRACTICE Allow(|a| vec![a.fixture_push]) LITTLE;
    Allow.placement_scatter "placement scatter" Small [0.0, 0.1] caution PRACTICE Allow(|a| one(a.placement_scatter)) "Hands put a piece down closer than that. Check the number and its unit.";
    Allow.chance "allowed chance to miss" Factor [0.0, 0.5] fails PRACTICE Allow(|a| vec![a.chance]) "More than half of such stacks would fall short. Allow less.";
    Allow.critical "least critical load factor" Factor [1.5, 100.0] fails PRACTICE Allow(|a| vec![a.critical]) "At 1 the stack leans over by itself. Ask for more.";
    Allow.lean "allowed lean of the top piece" Small [0.0, 0.1] fails PRACTICE Allow(|a| one(a.lean)) "A stack that leans so far is going over. Allow less.";
    Handling.reach "reach of lifting" Place [0.0, 1.5] caution PRACTICE Allow(|a| one(a.handling.reach)) LIFTING;
    Handling.pick_up "pick-up height of lifting" Place [0.0, 2.5] caution PRACTICE Allow(|a| one(a.handling.pick_up)) LIFTING;
    Handling.two_people_from_layer "layer from which two people lift" Factor [1.0, 60.0] caution PRACTICE Allow(|a| a.handling.two_people_from_layer.map(f64::from).into_iter().collect()) LIFTING;
    Handling.lifts_per_minute "number of lifts per minute" Factor [0.0, 30.0] caution PRACTICE Allow(|a| vec![a.handling.lifts_per_minute]) LIFTING;
};

/// A fraction within a thousandth of ultimate is ultimate.
fn is_ultimate(hold: &plan::Hold) -> bool {
    hold.at >= 1.0 - 1e-3
}
