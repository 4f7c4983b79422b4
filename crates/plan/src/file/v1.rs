//! Format 1, field by field as the file has it, each stated once: what it is in the plan, and what a file that
//! leaves it out means. This table is frozen: a field may be added with a default, none changes its meaning.

use super::kept::{Entry, Exit, Kept, Plain};
use super::layout::{Laid, Page};
use super::not_entered::{self, NotEntered};
use super::record::{choice, enter, file_type, laid, leave, one_of, record, words};
use super::spared::Spared;
use crate::{
    Allow, Anchors, Article, Bearing, Bed, Binding, CatchBlock, Date, Fixture, Form, FromRule, Gauge, Grip, Handling,
    Hold, HoldDown, Instrument, KeepClear, Line, LoadCase, Lot, LowerLegs, Mark, Path, Picture, Place, PreloadSet,
    Reading, SegmentTable, Sex, Softness, SoftnessFrom, Spell, Strength, StringLine, Stuff, Support, Target, Turn,
    Weighing, WeighingPoint, WeighingScale,
};
use quantity::{Angle, Force, Length, Mass, Pressure, Stiffness, Time, Units};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

record! { Plan, tall {
    [only format = super::format::NEWEST]
    title: String;
    units: Units;
    load_cases: Vec<LoadCase>;
    case: String;
    article: Article;
    target: Target;
    other_targets: Vec<Target>, spared = Vec::new();
    fixture: Fixture;
    bed: Bed;
    ballast: Vec<Lot>;
    stack: Vec<Place>;
    gauges: Vec<Gauge>, written = Vec::new();
    holds: Vec<Hold>;
    instruments: Vec<Instrument>, spared = Vec::new();
    allow: Allow, written = nothing_asked();
} }

record! { LoadCase, tall {
    name: String;
    basis: String;
    occupant_mass: Mass;
    load_factor: f64;
    direction: Angle;
    safety_factor: f64;
    special_factor: f64;
    from_rule: Option<FromRule>, spared = None;
    [late starting as not_entered: NotEntered, not_entered::entered, not_entered::left]
} }

record! { FromRule {
    rule: String;
    occupant_mass: Option<Mass>, plain;
    load_factor: f64;
    safety_factor: f64;
    special_factor: f64;
} }

record! { Article, tall {
    name: String;
    mass: Mass;
    centroid: [Length; 3];
    pitch: Angle;
    pivot: [Length; 3];
    outline: Vec<Line>;
    keep_clear: Vec<KeepClear>;
    picture: Option<Picture>, spared = None;
    weighings: Vec<Weighing>, spared = Vec::new();
} }

record! { Picture {
    path: String;
    at: [Length; 2];
    width: Length;
    turn: Angle;
} }

record! { Weighing {
    name: String;
    pitch: Angle;
    points: Vec<WeighingPoint>;
} }

record! { WeighingPoint {
    name: String;
    at: [Length; 3];
    reading: Mass;
    tare: Mass;
    division: Option<Mass>, spared = None;
} }

record! { Line {
    name: String;
    points: Vec<[Length; 2]>;
    half_breadth: Option<Length>, plain;
    width: Option<Length>, plain;
    stuff: Stuff, spared = Stuff::Metal;
} }

record! { KeepClear {
    name: String;
    side: Vec<[Length; 2]>;
    y: [Length; 2];
    y_known: [bool; 2], spared = [true; 2];
    clearance: Length;
} }

choice! { Target {
    Point {
        at: [Length; 3];
        tolerance: [Length; 2];
    }
    Posture(Posture) {
        seat_reference: [Length; 3];
        recline: Angle;
        pan: Angle;
        thigh: Option<Angle>, spared = None;
        knee: Angle;
        arm: Angle;
        elbow: Angle;
        head: Option<Angle>, spared = None;
        pan_cushion: Length, written = Length::m(0.0);
        back_cushion: Length, written = Length::m(0.0);
        back_pack: Length, written = Length::m(0.0);
        stature: Length;
        slump: Length, written = Length::m(0.020);
        sex: Sex;
        table: SegmentTable;
        lower_legs: LowerLegs;
        tolerance: [Length; 2];
    }
    Weighed(Weighed) {
        scales: Vec<WeighingScale>;
        reading_within: Mass;
        waterline: Length;
        tolerance: [Length; 2];
    }
    LoadPoint(LoadPoint) {
        document: String;
        at: [Length; 3];
        tolerance: [Length; 2];
    }
} }

record! { WeighingScale {
    name: String;
    at: [Length; 2];
    without: Mass;
    with: Mass;
} }

record! { Fixture, tall {
    supports: Vec<Support>;
    hold_downs: Vec<HoldDown>;
    bindings: Vec<Binding>, written = Vec::new();
    catch_blocks: Vec<CatchBlock>, spared = Vec::new();
    floor_friction: f64;
    floor: Option<Length>, plain;
} }

record! { Support {
    name: String;
    at: [Length; 3];
    capacity: Option<Mass>, spared = None;
    scale: bool;
    stiffness: Option<Stiffness>, spared = None;
    division: Option<Mass>, spared = None;
} }

record! { HoldDown {
    name: String;
    on_article: [Length; 3];
    on_floor: [Length; 3];
    preload: Force;
    preload_set: PreloadSet, spared = PreloadSet::Before;
    working_load: Force;
    stiffness: Stiffness;
} }

record! { Binding {
    name: String;
    anchors: Anchors;
    at: [Length; 2];
    pull: Force;
    width: Length, spared = crate::Binding::WIDTH;
    after: u32;
} }

record! { CatchBlock {
    name: String;
    at: [Length; 3];
    gap: Length;
} }

record! { Bed, tall {
    origin: [Length; 3];
    slope: Angle;
    friction: f64;
    touch: Length, written = Length::m(0.006);
    touch_hard: Length, spared = crate::Bed::TOUCH_HARD;
    beside: Length, written = Length::m(0.005);
    bearings: Vec<Bearing>;
    marks: Vec<Mark>, spared = Vec::new();
    string: Option<StringLine>, spared = None;
} }

record! { Mark {
    name: String;
    at: [Length; 3];
} }

record! { StringLine {
    x: [Length; 2];
    y: Length;
} }

record! { Bearing {
    name: String;
    x: [Length; 2];
    y: [Length; 2];
    top: Length;
    allowable: Option<Force>, spared = None;
} }

record! { Lot {
    name: String;
    form: Form;
    size: [Length; 3];
    mass: Mass;
    mass_tolerance: Mass;
    count: u32;
    friction: f64;
    weighed: BTreeMap<u32, Mass>, spared = BTreeMap::new();
    grade: Option<String>, spared = None;
    strength: Option<Strength>, spared = None;
    softness: Option<Softness>, spared = None;
} }

record! { Strength {
    bending: Pressure;
    shear: Pressure;
    modulus: Pressure;
} }

record! { Softness {
    modulus: Pressure;
    rim: Option<Length>, plain;
    shear_ratio: f64, spared = crate::Softness::SHEAR_RATIO;
    creep_per_decade: f64, spared = crate::Softness::CREEP_PER_DECADE;
    from: SoftnessFrom;
    source: String, spared = String::new();
    readings: Vec<Reading>, spared = Vec::new();
    flat: Option<[Length; 2]>, plain;
} }

record! { Reading {
    added: Mass;
    after: Time;
    sinks: Length;
} }

record! { Place {
    lot: String;
    item: u32;
    at: [Length; 2];
    turn: Turn;
    locked: bool, spared = false;
} }

record! { Gauge {
    name: String;
    at: [Length; 3];
    allowed_set: Length;
    expected_at_limit: Option<Length>, plain;
    expected_at_ultimate: Option<Length>, plain;
    expected_within: Option<Length>, plain;
} }

record! { Hold {
    name: String;
    at: f64;
    unload: bool, spared = false;
    tolerance: Option<[Length; 2]>, plain;
    time: Option<Time>, plain;
} }

record! { Instrument {
    name: String;
    number: String, spared = String::new();
    range: String, spared = String::new();
    calibrated_until: Option<Date>, plain;
    check_mass: Option<Mass>, plain;
} }

// As format 1 has them, whatever later versions of the program ask for by default.
record! { Allow {
    collapse: f64, written = 0.10;
    fixture_push: f64, written = 0.10;
    placement_scatter: Length, written = Length::m(0.010);
    chance: f64, spared = crate::Allow::CHANCE;
    critical: f64, spared = crate::Allow::CRITICAL;
    lean: Length, spared = crate::Allow::LEAN;
    handling: Handling, in_some = Handling::default();
} }

record! { Handling {
    reach: Length;
    pick_up: Length;
    twist: Angle;
    lifts_per_minute: f64;
    spell: Spell;
    grip: Grip;
    people: u32;
    two_people_from_layer: Option<u32>, plain;
} }

/// A file that leaves out what is allowed means the same as one in which all of that is left out.
fn nothing_asked() -> Allow {
    let empty = ron::from_str("Allow()").expect("every field of it may be left out");
    Allow::enter(empty, &Path::of("allow"), &mut Entry::default())
}

/// The plan's own types of the words.
mod in_plan {
    pub(super) use crate::{
        Anchors, Form, Grip, LowerLegs, PreloadSet, SegmentTable, Sex, SoftnessFrom, Spell, Stuff, Turn,
    };
    pub(super) use quantity::Units;
}

words! {
    Units: Metric InchPound;
    Anchors: Article Floor;
    PreloadSet: Before After;
    Stuff: Metal Timber;
    SoftnessFrom: Measured Stated;
    Form: Bag Board Solid;
    Spell: OneHour TwoHours EightHours;
    Grip: Good Fair Poor;
    Turn: Lengthwise Crosswise;
    Sex: Female Male;
    SegmentTable: DeLeva Winter Dumas;
    LowerLegs: OnSeat OnFloor;
}
