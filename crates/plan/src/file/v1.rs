//! Format 1, field by field as the file has it. This mirror is frozen: a field may be added with a
//! default, none changes its meaning.

pub(super) use super::soft::{Reading, Softness};
use super::spared::Spared;
pub(super) use super::weighed::Weighed;
use super::written::Written;
use serde::{Deserialize, Serialize};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Plan {
    pub(super) format: u32,
    pub(super) title: String,
    pub(super) units: Units,
    pub(super) load_cases: Vec<LoadCase>,
    pub(super) case: String,
    pub(super) article: Article,
    pub(super) target: Target,
    #[serde(default)]
    pub(super) other_targets: Vec<Target>,
    pub(super) fixture: Fixture,
    pub(super) bed: Bed,
    pub(super) ballast: Vec<Lot>,
    pub(super) stack: Vec<Place>,
    #[serde(default)]
    pub(super) gauges: Vec<Gauge>,
    pub(super) holds: Vec<Hold>,
    #[serde(default)]
    pub(super) allow: Allow,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LoadCase {
    pub(super) name: String,
    pub(super) basis: String,
    pub(super) occupant_mass: Written,
    pub(super) load_factor: f64,
    pub(super) direction: Written,
    pub(super) safety_factor: f64,
    pub(super) special_factor: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) from_rule: Option<FromRule>,
    #[serde(default, skip_serializing_if = "Spared::is_spared")]
    pub(super) not_entered: Spared<Vec<NotEntered>>,
}

/// A value of a load case that nobody entered.
#[derive(Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(super) enum NotEntered {
    OccupantMass,
    LoadFactor,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FromRule {
    pub(super) rule: String,
    #[serde(default, skip_serializing_if = "Spared::is_spared")]
    pub(super) occupant_mass: Spared<Written>,
    pub(super) load_factor: f64,
    pub(super) safety_factor: f64,
    pub(super) special_factor: f64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Article {
    pub(super) name: String,
    pub(super) mass: Written,
    pub(super) centroid: [Written; 3],
    pub(super) pitch: Written,
    pub(super) pivot: [Written; 3],
    pub(super) outline: Vec<Line>,
    pub(super) keep_clear: Vec<KeepClear>,
    #[serde(default)]
    pub(super) picture: Option<Picture>,
    #[serde(default)]
    pub(super) weighings: Vec<Weighing>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Picture {
    pub(super) path: String,
    pub(super) at: [Written; 2],
    pub(super) width: Written,
    pub(super) turn: Written,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Weighing {
    pub(super) name: String,
    pub(super) pitch: Written,
    pub(super) points: Vec<WeighingPoint>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WeighingPoint {
    pub(super) name: String,
    pub(super) at: [Written; 3],
    pub(super) reading: Written,
    pub(super) tare: Written,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) division: Option<Written>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Line {
    pub(super) name: String,
    pub(super) points: Vec<[Written; 2]>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct KeepClear {
    pub(super) name: String,
    pub(super) side: Vec<[Written; 2]>,
    pub(super) y: [Written; 2],
    pub(super) clearance: Written,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(clippy::large_enum_variant, reason = "it lives for the length of a reading")]
pub(super) enum Target {
    Point {
        at: [Written; 3],
        tolerance: [Written; 2],
    },
    Posture {
        seat_reference: [Written; 3],
        recline: Written,
        pan: Written,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        thigh: Option<Written>,
        knee: Written,
        arm: Written,
        elbow: Written,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        head: Option<Written>,
        #[serde(default = "nothing")]
        pan_cushion: Written,
        #[serde(default = "nothing")]
        back_cushion: Written,
        #[serde(default = "nothing")]
        back_pack: Written,
        stature: Written,
        #[serde(default = "slump")]
        slump: Written,
        sex: Sex,
        table: SegmentTable,
        lower_legs: LowerLegs,
        tolerance: [Written; 2],
    },
    Weighed {
        scales: Vec<WeighingScale>,
        reading_within: Written,
        waterline: Written,
        tolerance: [Written; 2],
    },
    LoadPoint {
        document: String,
        at: [Written; 3],
        tolerance: [Written; 2],
    },
}

fn nothing() -> Written {
    Written::Text("0 mm".to_owned())
}

fn slump() -> Written {
    Written::Text("20 mm".to_owned())
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WeighingScale {
    pub(super) name: String,
    pub(super) at: [Written; 2],
    pub(super) without: Written,
    pub(super) with: Written,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Fixture {
    pub(super) supports: Vec<Support>,
    pub(super) hold_downs: Vec<HoldDown>,
    #[serde(default)]
    pub(super) bindings: Vec<Binding>,
    #[serde(default)]
    pub(super) catch_blocks: Vec<CatchBlock>,
    pub(super) floor_friction: f64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Support {
    pub(super) name: String,
    pub(super) at: [Written; 3],
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) capacity: Option<Written>,
    pub(super) scale: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) stiffness: Option<Written>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) division: Option<Written>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct HoldDown {
    pub(super) name: String,
    pub(super) on_article: [Written; 3],
    pub(super) on_floor: [Written; 3],
    pub(super) preload: Written,
    #[serde(default, skip_serializing_if = "Spared::is_spared")]
    pub(super) preload_set: Spared<PreloadSet>,
    pub(super) working_load: Written,
    pub(super) stiffness: Written,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Binding {
    pub(super) name: String,
    pub(super) anchors: Anchors,
    pub(super) at: [Written; 2],
    pub(super) pull: Written,
    #[serde(default, skip_serializing_if = "Spared::is_spared")]
    pub(super) width: Spared<Written>,
    pub(super) after: u32,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CatchBlock {
    pub(super) name: String,
    pub(super) at: [Written; 3],
    pub(super) gap: Written,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Bed {
    pub(super) origin: [Written; 3],
    pub(super) slope: Written,
    pub(super) friction: f64,
    #[serde(default = "touch")]
    pub(super) touch: Written,
    #[serde(default, skip_serializing_if = "Spared::is_spared")]
    pub(super) touch_hard: Spared<Written>,
    #[serde(default = "beside")]
    pub(super) beside: Written,
    pub(super) bearings: Vec<Bearing>,
}

fn touch() -> Written {
    Written::Text("6 mm".to_owned())
}

fn beside() -> Written {
    Written::Text("5 mm".to_owned())
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Bearing {
    pub(super) name: String,
    pub(super) x: [Written; 2],
    pub(super) y: [Written; 2],
    pub(super) top: Written,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) allowable: Option<Written>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Lot {
    pub(super) name: String,
    pub(super) form: Form,
    pub(super) size: [Written; 3],
    pub(super) mass: Written,
    pub(super) mass_tolerance: Written,
    pub(super) count: u32,
    pub(super) friction: f64,
    #[serde(default, skip_serializing_if = "Weighed::is_empty")]
    pub(super) weighed: Weighed,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) grade: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) strength: Option<Strength>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) softness: Option<Softness>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Strength {
    pub(super) bending: Written,
    pub(super) shear: Written,
    pub(super) modulus: Written,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Place {
    pub(super) lot: String,
    pub(super) item: u32,
    pub(super) at: [Written; 2],
    pub(super) turn: Turn,
    #[serde(default, skip_serializing_if = "is_off")]
    pub(super) locked: bool,
}

// The signature is serde's: it hands out a reference.
fn is_off(marked: &bool) -> bool {
    !marked
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Gauge {
    pub(super) name: String,
    pub(super) at: [Written; 3],
    pub(super) allowed_set: Written,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Hold {
    pub(super) name: String,
    pub(super) at: f64,
    #[serde(default, skip_serializing_if = "is_off")]
    pub(super) unload: bool,
    #[serde(default, skip_serializing_if = "Spared::is_spared")]
    pub(super) tolerance: Spared<[Written; 2]>,
    #[serde(default, skip_serializing_if = "Spared::is_spared")]
    pub(super) time: Spared<Written>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct Allow {
    pub(super) collapse: f64,
    pub(super) fixture_push: f64,
    pub(super) placement_scatter: Written,
    #[serde(skip_serializing_if = "Spared::is_spared")]
    pub(super) chance: Spared<f64>,
    #[serde(skip_serializing_if = "Spared::is_spared")]
    pub(super) critical: Spared<f64>,
    #[serde(skip_serializing_if = "Spared::is_spared")]
    pub(super) lean: Spared<Written>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) handling: Option<Handling>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Handling {
    pub(super) reach: Written,
    pub(super) pick_up: Written,
    pub(super) twist: Written,
    pub(super) lifts_per_minute: f64,
    pub(super) spell: Spell,
    pub(super) grip: Grip,
    pub(super) people: u32,
}

/// As format 1 has them, whatever later versions of the program ask for by default.
impl Default for Allow {
    fn default() -> Self {
        Self {
            collapse: 0.10,
            fixture_push: 0.10,
            placement_scatter: Written::Text("10 mm".to_owned()),
            chance: Spared::default(),
            critical: Spared::default(),
            lean: Spared::default(),
            handling: None,
        }
    }
}

/// The same words in the plan's own types.
mod in_plan {
    pub(super) use crate::{Anchors, Form, Grip, LowerLegs, PreloadSet, SegmentTable, Sex, SoftnessFrom, Spell, Turn};
    pub(super) use quantity::Units;
}

macro_rules! words {
    ($($name:ident: $($word:ident)*;)*) => { $(
        #[derive(Clone, Copy, Serialize, Deserialize)]
        pub(super) enum $name { $($word),* }

        impl From<$name> for in_plan::$name {
            fn from(word: $name) -> Self {
                match word { $($name::$word => Self::$word),* }
            }
        }

        impl From<in_plan::$name> for $name {
            fn from(word: in_plan::$name) -> Self {
                match word { $(in_plan::$name::$word => Self::$word),* }
            }
        }
    )* };
}

words! {
    Units: Metric InchPound;
    Anchors: Article Floor;
    PreloadSet: Before After;
    SoftnessFrom: Measured Stated;
    Form: Bag Board Solid;
    Spell: OneHour TwoHours EightHours;
    Grip: Good Fair Poor;
    Turn: Lengthwise Crosswise;
    Sex: Female Male;
    SegmentTable: DeLeva Winter Dumas;
    LowerLegs: OnSeat OnFloor;
}
