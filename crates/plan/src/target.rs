//! The occupant point: where the load must act, and how the plan comes by it.

use quantity::{Angle, Length, Mass, Quantity};

/// Where the load must act.
#[derive(Clone, Debug, PartialEq)]
pub enum Target {
    /// A typed point.
    Point {
        /// The occupant point (station, buttock line, waterline), article frame.
        at: [Length; 3],
        /// How far off the line of action may be, fore-aft and lateral.
        tolerance: [Length; 2],
    },
    /// The centre of mass of the case's occupant, as he sits.
    Posture(Posture),
    /// Found by weighing the aircraft with and without the occupant.
    Weighed(Weighed),
    /// Given by a document.
    LoadPoint(LoadPoint),
}

/// How the occupant sits. His mass is that of the load case in hand, so that another case moves the
/// point. Recline, pan, thigh and head are told against the article frame, joints by the angle that
/// they enclose.
#[derive(Clone, Debug, PartialEq)]
pub struct Posture {
    /// Where the undeflected pan meets the back in the seat's mid-plane (station, buttock line,
    /// waterline), article frame.
    pub seat_reference: [Length; 3],
    /// The back, aft from upright.
    pub recline: Angle,
    /// The pan, forward end up.
    pub pan: Angle,
    /// The thigh, knee up from level; none: it lies on the pan.
    pub thigh: Option<Angle>,
    /// Between thigh and shank; 180 deg is a straight leg.
    pub knee: Angle,
    /// The upper arm, forward from hanging along the back.
    pub arm: Angle,
    /// Between upper arm and forearm; 180 deg is a straight arm.
    pub elbow: Angle,
    /// The head, aft from upright; none: half of the recline.
    pub head: Option<Angle>,
    /// The cushion on the pan, as thick as it is under the occupant.
    pub pan_cushion: Length,
    /// The cushion on the back, as thick as it is under the occupant.
    pub back_cushion: Length,
    /// A pack behind the whole back: a parachute.
    pub back_pack: Length,
    /// Stature.
    pub stature: Length,
    /// How much lower he sits than drawn up.
    pub slump: Length,
    /// Whose dimensions.
    pub sex: Sex,
    /// Which published table of segments.
    pub table: SegmentTable,
    /// Who carries shanks and feet.
    pub lower_legs: LowerLegs,
    /// How far off the line of action may be, fore-aft and lateral.
    pub tolerance: [Length; 2],
}

/// Whose dimensions a body has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the words say it")]
pub enum Sex {
    Female,
    Male,
}

/// A published table of body segments.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SegmentTable {
    /// de Leva 1996.
    DeLeva,
    /// Winter after Dempster 1955.
    Winter,
    /// Dumas and Wojtusch 2018.
    Dumas,
}

/// Who carries shanks and feet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LowerLegs {
    /// The seat carries the whole occupant, as the static cases of the rules have it.
    OnSeat,
    /// Floor and pedals carry them: the rest lies further aft and higher.
    OnFloor,
}

/// The aircraft on its scales, its article frame level, read without and with the occupant.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// The scales.
    pub scales: Vec<WeighingScale>,
    /// To what each reading is right.
    pub reading_within: Mass,
    /// Waterline of the point. No weighing of a level aircraft tells it; it counts only where the
    /// article is pitched.
    pub waterline: Length,
    /// How far off the line of action may be, fore-aft and lateral.
    pub tolerance: [Length; 2],
}

/// A scale with its two readings.
#[derive(Clone, Debug, PartialEq)]
pub struct WeighingScale {
    /// What stands on it.
    pub name: String,
    /// Where it carries (station, buttock line), article frame.
    pub at: [Length; 2],
    /// Reading without the occupant.
    pub without: Mass,
    /// Reading with him.
    pub with: Mass,
}

/// A load point for static seat tests.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadPoint {
    /// The document that gives it, with its paragraph; the plan assumes none.
    pub document: String,
    /// The point (station, buttock line, waterline), article frame.
    pub at: [Length; 3],
    /// How far off the line of action may be, fore-aft and lateral.
    pub tolerance: [Length; 2],
}

impl Target {
    /// How far off the line of action may be, fore-aft and lateral.
    pub fn tolerance(&self) -> [Length; 2] {
        match self {
            Target::Point { tolerance, .. }
            | Target::Posture(Posture { tolerance, .. })
            | Target::Weighed(Weighed { tolerance, .. })
            | Target::LoadPoint(LoadPoint { tolerance, .. }) => *tolerance,
        }
    }

    /// The point (station, buttock line, waterline), article frame, where the plan states it; none
    /// where it must be worked out.
    pub fn stated_at(&self) -> Option<[Length; 3]> {
        match self {
            Target::Point { at, .. } | Target::LoadPoint(LoadPoint { at, .. }) => Some(*at),
            Target::Posture(_) | Target::Weighed(_) => None,
        }
    }

    /// The same with another tolerance.
    #[must_use]
    pub fn with_tolerance(mut self, wanted: [Length; 2]) -> Self {
        match &mut self {
            Target::Point { tolerance, .. }
            | Target::Posture(Posture { tolerance, .. })
            | Target::Weighed(Weighed { tolerance, .. })
            | Target::LoadPoint(LoadPoint { tolerance, .. }) => *tolerance = wanted,
        }
        self
    }

    /// How the plan comes by it, as it is spoken of.
    pub fn kind(&self) -> &'static str {
        match self {
            Target::Point { .. } => "typed point",
            Target::Posture(_) => "posture",
            Target::Weighed(_) => "weighing",
            Target::LoadPoint(_) => "load point",
        }
    }
}

impl LoadPoint {
    /// Stands where the document is not named yet, and fails a check.
    pub const UNNAMED: &str = "to be filled in: the document and its paragraph";
}

impl Weighed {
    /// Whether nothing was read without the occupant: no aircraft weighs nothing.
    pub fn is_empty(&self) -> bool {
        self.scales.iter().all(|scale| scale.without.si() <= 0.0)
    }

    /// What all scales together show more with the occupant than without.
    pub fn occupant_mass(&self) -> Mass {
        self.scales.iter().map(|scale| scale.with - scale.without).sum()
    }
}
