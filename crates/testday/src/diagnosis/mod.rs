//! A reading does not fit: what would explain it, each with the reading that it would give.
//!
//! Every cause that can be stated is tried against the changes from one weighing to the next, by how
//! much likelier it makes them than chance does (a linear Gaussian model). A cause with a number that
//! is free (how far off a scale is) must pay for that freedom, so that it comes first only where no
//! plain one fits. Source: `own derivation` (marginal likelihood of linear models).

mod evidence;
mod moved;
mod slip;
mod suspects;
mod words;

use crate::{Course, RunDone};
use evidence::Changes;

/// What went wrong, as a kind with its particulars. Pieces by their place in the stack as done, from 0;
/// scales and straps by their places in the plan.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// A piece is missing.
    LeftOut {
        /// The piece.
        index: usize,
    },
    /// A second piece like it lies there.
    Twice {
        /// The piece.
        index: usize,
    },
    /// A piece lies on the wrong side of the bed's centreline.
    WrongSide {
        /// The piece.
        index: usize,
    },
    /// A piece of another lot lies there.
    OtherPiece {
        /// The piece.
        index: usize,
        /// The lot of what lies there, by its place in the plan.
        lot: usize,
    },
    /// A piece lies elsewhere.
    WrongPlace {
        /// The piece.
        index: usize,
        /// By how much, m, floor frame: aft, right.
        off_m: [f64; 2],
    },
    /// A strap hangs loose.
    StrapSlack {
        /// The strap.
        strap: usize,
    },
    /// A scale shows the same whatever comes on.
    ScaleStuck {
        /// The scale.
        support: usize,
    },
    /// A scale shows too much or too little by the same amount.
    ScaleOff {
        /// The scale.
        support: usize,
        /// By how much, kg.
        by_kg: f64,
    },
    /// What was entered is not what the scale shows: digits changed places, or the decimal mark slipped.
    Mistyped {
        /// The scale.
        support: usize,
        /// What it would have shown, kg.
        meant_kg: f64,
    },
    /// The last readings of two scales were entered in each other's place.
    Exchanged {
        /// The scales.
        supports: [usize; 2],
    },
    /// The same at the tare.
    TareExchanged {
        /// The scales.
        supports: [usize; 2],
    },
    /// Part of the load goes into the floor past the scales.
    TouchesFloor {
        /// How much, kg.
        kg: f64,
    },
    /// The load went from some supports to others and nothing came on: the article tips, or something slides.
    GoesOver {
        /// What the load's moment grew by, kg m, floor frame: aft, right.
        moment_kg_m: [f64; 2],
    },
    /// A support carries less, and those beside it carry that.
    LostContact {
        /// The support.
        support: usize,
    },
    /// Something more stands on it.
    MoreOnIt {
        /// How much, kg.
        kg: f64,
    },
}

/// A likely cause.
#[derive(Clone, Debug, PartialEq)]
pub struct Cause {
    /// What went wrong.
    pub fault: Fault,
    /// In one sentence.
    pub sentence: String,
    /// What each support's scale would show with it, kg; none for what is no scale or was not read.
    pub would_read_kg: Vec<Option<f64>>,
    /// The worst miss of what was read, in parts of the band: within 1 it explains the reading.
    pub miss: f64,
    /// Whether with it every scale that was read is within what stops loading.
    pub fits: bool,
    /// How much likelier than chance it makes the readings: natural logarithm.
    pub weight: f64,
}

/// Within this miss a cause explains a reading; beyond that one it is not worth a look where another
/// cause explains it. In parts of the band: `common practice, no source`.
const EXPLAINS: f64 = 1.5;
const FAR_OFF: f64 = 3.0;
/// How many causes are named.
const NAMED: usize = 5;

/// Likely causes of the last weighing of a run, the likeliest first, one of a kind. Empty where the
/// tare or the last weighing is missing, or where chance explains it better than any of them.
pub fn diagnose(run: &RunDone, course: &Course) -> Vec<Cause> {
    let Some(changes) = Changes::of(run, course) else { return Vec::new() };
    let mut suspects = suspects::all(run, course, &changes);
    suspects.retain(|suspect| suspect.weight > 0.0 && is_something(&suspect.fault));
    suspects.sort_by(|one, other| other.weight.total_cmp(&one.weight));
    let mut kinds = Vec::new();
    suspects.retain(|suspect| {
        let kind = std::mem::discriminant(&suspect.fault);
        let first = !kinds.contains(&kind);
        kinds.push(kind);
        first
    });
    name_what_goes_over(&mut suspects);
    suspects.truncate(NAMED);
    let mut causes: Vec<_> = suspects.into_iter().map(|suspect| cause(run, &changes, suspect)).collect();
    if causes.iter().any(|cause| cause.miss <= EXPLAINS) {
        causes.retain(|cause| cause.miss <= FAR_OFF);
    }
    // Nobody needs to look at the load to find that two readings were exchanged: that is tried first.
    let exchanged = |cause: &Cause| matches!(cause.fault, Fault::Exchanged { .. } | Fault::TareExchanged { .. });
    causes.sort_by_key(|cause| !(cause.fits && exchanged(cause)));
    causes
}

/// A load that goes over is looked for even where five likelier causes explain the reading too: it is the one that
/// hurts.
fn name_what_goes_over(suspects: &mut Vec<suspects::Suspect>) {
    let goes_over = |suspect: &suspects::Suspect| matches!(suspect.fault, Fault::GoesOver { .. });
    if let Some(place) = suspects.iter().position(goes_over).filter(|place| *place >= NAMED) {
        let suspect = suspects.remove(place);
        suspects.insert(NAMED - 1, suspect);
    }
}

/// Less than this beside the scales or on them is nothing that could be found, kg: `common practice, no source`.
const SOMETHING_KG: f64 = 0.5;

/// Whether a cause names something that there is to be found.
fn is_something(fault: &Fault) -> bool {
    match fault {
        Fault::TouchesFloor { kg } | Fault::MoreOnIt { kg } => kg.abs() >= SOMETHING_KG,
        _ => true,
    }
}

fn cause(run: &RunDone, changes: &Changes, suspect: suspects::Suspect) -> Cause {
    let would_read_kg = changes.would_read(&suspect.added_kg);
    Cause {
        sentence: words::sentence(run, &suspect.fault),
        miss: changes.worst_miss(&would_read_kg),
        fits: changes.all_fit(&would_read_kg),
        would_read_kg,
        weight: suspect.weight,
        fault: suspect.fault,
    }
}
