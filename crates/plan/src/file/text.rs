//! The doors: text to plan, plan to text, and the plan's fingerprint.

use super::kept::{Entry, Exit, Kept};
use super::{Unreadable, format, layout, position, wording};
use crate::{Fault, Path, Plan, faults};
use sha2::{Digest, Sha256};

/// Reads a plan file's text.
///
/// # Errors
/// The first thing in the text that makes the plan unusable, with its line and column, and how
/// many more there are.
pub fn read(text: &str) -> Result<Plan, Unreadable> {
    // Some editors open a file with this mark, which nobody sees.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    format::check(text)?;
    let file = ron::from_str(text).map_err(|error| wording::unreadable(text, &error))?;
    let mut entry = Entry::default();
    let plan = Plan::enter(file, &Path(Vec::new()), &mut entry);
    if !entry.faults.is_empty() {
        return Err(first_of(text, entry.faults));
    }
    let faults = faults(&plan);
    if faults.is_empty() { Ok(plan) } else { Err(first_of(text, faults)) }
}

/// Writes a plan file's text: the same bytes for the same plan.
pub fn write(plan: &Plan) -> String {
    layout::text(&plan.leave(&Path(Vec::new()), &Exit { units: plan.units }))
}

/// Twelve hexadecimal digits by which a sheet is matched to its plan file: the head of the
/// SHA-256 of the written text (FIPS 180-4, `from memory`).
pub fn fingerprint(plan: &Plan) -> String {
    let digest = Sha256::digest(write(plan));
    let pairs: Vec<_> = digest.iter().take(6).map(|byte| format!("{byte:02x}")).collect();
    pairs.chunks(2).map(<[String]>::concat).collect::<Vec<_>>().join(" ")
}

/// How many faults are looked up in the text, each by a walk of its own. The faults come in the
/// order of the plan's fields, which is that of nearly every text.
const LOOKED_UP: usize = 100;

/// The first fault in the order of the text.
fn first_of(text: &str, faults: Vec<Fault>) -> Unreadable {
    let more = faults.len().saturating_sub(1);
    let placed = faults.into_iter().take(LOOKED_UP).map(|fault| (position::of(text, &fault.path), fault));
    let (byte, fault) = placed.min_by_key(|(byte, _)| *byte).expect("called with one fault at least");
    let and_more = if more == 0 { String::new() } else { format!(" (and {more} more)") };
    Unreadable::at_byte(text, byte, format!("{}{and_more}", fault.sentence))
}
