//! What people enter. Values in SI; pieces by their step on the sheet, counted from 1; scales,
//! straps, holds and gauges by their names in the plan.

use crate::detail::{Field, Inspection, Said};
use crate::limits::{Limit, Passed};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The newest format of the log that this program reads, and the one that it writes.
///
/// Format 3 asks for the binding straps of the plan, when they go on and when they are released. Format 2 says on what ground a day stopped and with which failing checks it began, and asks at the holds how
/// the top of a stack of bags leans and sinks; it takes what a report says of article, claim, place and instruments, what
/// an inspection found, captions, and mass that a burst bag lost. Formats are frozen: what is added later stays readable by
/// its absence, and what a day newly asks for raises the number. Format 1 had none of it; older logs open, and keep the
/// verdict that was given under the rules of their day.
pub const FORMAT: u32 = 3;

/// One thing that happened.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Entry {
    /// The day begins, with this plan and no other.
    Started {
        /// Format of the log.
        format: u32,
        /// The plan's fingerprint, as it stands on the sheet.
        fingerprint: String,
        /// The whole plan as tested, as its file has it.
        plan: String,
        /// Who is there.
        people: String,
    },
    /// It is loaded although checks fall short, none of them one that nobody can sign away.
    LoadedAlthough {
        /// The checks, by their headings.
        checks: Vec<String>,
        /// Who answers for it, and on what ground.
        why: String,
    },
    /// The program was opened again on this day.
    Resumed,
    /// The scales before the first piece of a run.
    Tare(Reading),
    /// A piece was put down.
    Placed {
        /// Its step on the sheet, from 1.
        step: usize,
    },
    /// The scales as they stand.
    Reading(Reading),
    /// Loading stopped for a hold.
    HoldBegan {
        /// Its name.
        hold: String,
    },
    /// The hold is over.
    HoldEnded {
        /// Its name.
        hold: String,
        /// How long the program saw it last, s.
        lasted_s: f64,
        /// Time that passed without being seen (a sleeping machine, a clock that jumped), s; not
        /// counted.
        unseen_s: f64,
    },
    /// A gauge was read.
    Gauge {
        /// Its name.
        gauge: String,
        /// What it shows, m.
        reading_m: f64,
    },
    /// A plumb string from a mark at the middle of the top piece was read at a hold.
    LeanRead {
        /// How far the mark is from where the plan has it, level: aft and right, floor frame, m.
        shift_m: [f64; 2],
    },
    /// A tape up to the top of the stack was read at a hold.
    SettlementRead {
        /// How much lower the top piece is than the thicknesses of the pieces add to, m.
        sinks_m: f64,
    },
    /// A binding strap went on over the stack.
    StrapOn {
        /// Its name.
        binding: String,
        /// The pull of its left and of its right leg, N; none where no gauge was in it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pulls_n: Option<[f64; 2]>,
    },
    /// A binding strap was released.
    StrapOff {
        /// Its name.
        binding: String,
    },
    /// Something is done otherwise than planned.
    Deviation {
        /// What.
        deviation: Deviation,
        /// Why.
        why: String,
    },
    /// An earlier line is wrong. It stays; this one counts in its place.
    Correction {
        /// The number of the line.
        of: u64,
        /// Why.
        why: String,
        /// What holds instead; none where the line is struck out.
        instead: Option<Box<Entry>>,
    },
    /// A remark.
    Note {
        /// The words.
        text: String,
    },
    /// A photograph, by reference.
    Photograph {
        /// Where it lies.
        path: String,
        /// SHA-256 of its bytes, hexadecimal.
        sha256: String,
        /// What it shows; empty where nobody said it.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        caption: String,
    },
    /// Something that the report says beside what was loaded and read. Each field is said once; another answer is a
    /// correction of that line.
    Detail {
        /// What about.
        field: Field,
        /// What is said.
        says: Said,
    },
    /// The article was looked at.
    Inspected(Inspection),
    /// Everything stops: a noise, a shift, a reading that does not fit.
    Stopped {
        /// Why.
        why: String,
        /// What would explain it, as it was told then, the likeliest first.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        causes: Vec<String>,
        /// On what ground; none in logs of before it was kept.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        ground: Option<StopGround>,
    },
    /// Work goes on.
    WentOn {
        /// What was found or done.
        why: String,
        /// On what ground; none in logs of before it was asked for.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        ground: Option<Ground>,
    },
    /// The test is given up; what is on the seat comes off.
    Aborted {
        /// Why.
        why: String,
    },
    /// A piece was taken off.
    Unloaded {
        /// Its step on the sheet, from 1.
        step: usize,
    },
    /// The day is over.
    Ended {
        /// Who closes it, and with what remark.
        by: String,
    },
}

/// Scales and straps at one moment; what was not read is left out.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    /// What each scale shows, kg.
    pub scales_kg: BTreeMap<String, f64>,
    /// The pull of each hold-down strap that has a gauge, N.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub straps_n: BTreeMap<String, f64>,
}

/// On what ground everything stops.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum StopGround {
    /// Somebody stopped it.
    ByHand,
    /// These scales show what the plan does not expect.
    Reading {
        /// The scales.
        scales: Vec<String>,
    },
    /// The same, so far off that no name leads on: only another reading, a corrected one, or a cause that was
    /// found and is shown by reading again.
    FarOff {
        /// The scales.
        scales: Vec<String>,
    },
    /// The top piece leans otherwise than the plan has it.
    Lean,
    /// What was read passes a limit that nobody can sign away.
    BeyondLimit {
        /// The limits.
        limits: Vec<Limit>,
    },
    /// By the checks of the stack as done the next piece, or what lies there, passes such a limit.
    MustNotLoad {
        /// The limits.
        passed: Vec<Passed>,
    },
}

impl StopGround {
    /// Whether no name and no reason leads on from it.
    pub fn is_final(&self) -> bool {
        matches!(self, StopGround::BeyondLimit { .. } | StopGround::MustNotLoad { .. } | StopGround::FarOff { .. })
    }

    /// Whether a reading of the lean stopped the day, for itself or beside others.
    pub fn is_by_lean(&self) -> bool {
        match self {
            StopGround::Lean => true,
            StopGround::BeyondLimit { limits } => limits.contains(&Limit::LeansTooFar),
            _ => false,
        }
    }
}

/// On what ground work goes on after a stop.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Ground {
    /// One of the causes that were told was found and mended; the scales are read again.
    Cause {
        /// The cause, as it was told.
        cause: String,
    },
    /// The scales fit again.
    Fits,
    /// No reading stopped the day; what was looked at is said. In logs of before a name was asked for, and after
    /// a stop that the program made.
    Found,
    /// Somebody stopped the day; whoever says that it goes on is named.
    Released {
        /// Who says so.
        name: String,
    },
    /// The reading still does not fit, and someone goes on all the same.
    Against {
        /// Who stands for it.
        name: String,
    },
}

impl Reading {
    /// What a scale shows, kg.
    pub fn scale_kg(&self, name: &str) -> Option<f64> {
        self.scales_kg.get(name).copied()
    }

    /// The pull of a strap, N.
    pub fn strap_n(&self, name: &str) -> Option<f64> {
        self.straps_n.get(name).copied()
    }

    /// Whether nothing was read.
    pub fn is_empty(&self) -> bool {
        self.scales_kg.is_empty() && self.straps_n.is_empty()
    }
}

/// What is done otherwise than planned.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Deviation {
    /// Another piece lies in the place of the planned one. Where that piece is planned for another
    /// step, the two change places. It counts for the rest of the day.
    OtherPiece {
        /// The step, from 1.
        step: usize,
        /// Lot of the piece.
        lot: String,
        /// Its item number.
        item: u32,
    },
    /// The piece lies elsewhere. It counts for this run.
    OtherPlace {
        /// The step, from 1.
        step: usize,
        /// Centre of the piece, bed frame, m.
        at_m: [f64; 2],
        /// Whether its length lies across.
        crosswise: bool,
    },
    /// The piece is left out, or was found never to have been put down. It counts for this run.
    LeftOut {
        /// The step, from 1.
        step: usize,
    },
    /// An extra piece. It counts for this run.
    Added(Added),
    /// A bag burst or leaked: so much of it lies no longer on the seat. It counts from this line on, for the rest of
    /// the day; what was read and held before stays as it was.
    LostMass {
        /// The step, from 1.
        step: usize,
        /// The mass that left the seat, kg.
        lost_kg: f64,
    },
}

/// A piece that the stack as planned does not have.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Added {
    /// The step that it goes by, from 1: numbered on from the last step of the sheet.
    pub step: usize,
    /// The step after which it goes on, from 1; 0 before all others.
    pub after: usize,
    /// Lot of the piece.
    pub lot: String,
    /// Its item number; one beyond what the plan counts is one more of the lot.
    pub item: u32,
    /// What it weighs, kg, where it was weighed on the day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weighed_kg: Option<f64>,
    /// Centre of the piece, bed frame, m.
    pub at_m: [f64; 2],
    /// Whether its length lies across.
    pub crosswise: bool,
    /// Whether it was found lying there already; else it is put down when its turn comes.
    pub lies_there: bool,
}

impl Deviation {
    /// The step that it is about, from 1.
    pub fn step(&self) -> usize {
        match self {
            Deviation::OtherPiece { step, .. }
            | Deviation::OtherPlace { step, .. }
            | Deviation::LeftOut { step }
            | Deviation::LostMass { step, .. }
            | Deviation::Added(Added { step, .. }) => *step,
        }
    }
}

impl Entry {
    /// The word for what kind of entry this is.
    pub fn word(&self) -> &'static str {
        match self {
            Entry::Started { .. } => "started",
            Entry::LoadedAlthough { .. } => "loaded although",
            Entry::Resumed => "opened again",
            Entry::Tare(_) => "tare",
            Entry::Placed { .. } => "placed",
            Entry::Reading(_) => "reading",
            Entry::HoldBegan { .. } => "hold begun",
            Entry::HoldEnded { .. } => "hold ended",
            Entry::Gauge { .. } => "gauge",
            Entry::LeanRead { .. } => "lean read",
            Entry::SettlementRead { .. } => "settlement read",
            Entry::StrapOn { .. } => "strap on",
            Entry::StrapOff { .. } => "strap released",
            Entry::Deviation { .. } => "deviation",
            Entry::Correction { .. } => "correction",
            Entry::Note { .. } => "note",
            Entry::Photograph { .. } => "photograph",
            Entry::Detail { .. } => "report detail",
            Entry::Inspected(_) => "inspection",
            Entry::Stopped { .. } => "stopped",
            Entry::WentOn { .. } => "continued",
            Entry::Aborted { .. } => "aborted",
            Entry::Unloaded { .. } => "taken off",
            Entry::Ended { .. } => "ended",
        }
    }
}
