//! Corrections: which lines hold, and what they say now.

use super::Refused;
use crate::{Entry, Line, Log, StopGround};
use std::collections::BTreeMap;

/// The lines as they hold: corrected ones say what the last correction says, struck ones are gone.
pub(super) fn effective(log: &Log) -> Result<Vec<Line>, Refused> {
    let mut said: BTreeMap<u64, Option<Entry>> = BTreeMap::new();
    for line in log.lines() {
        if let Entry::Correction { of, instead, .. } = &line.entry {
            let meant = log.lines().iter().find(|earlier| earlier.number == *of && earlier.number < line.number);
            allowed(meant, instead.as_deref())
                .map_err(|Refused(why)| Refused(format!("line {}: {why}", line.number)))?;
            said.insert(*of, instead.as_deref().cloned());
        }
    }
    let holds = log.lines().iter().filter_map(|line| match said.get(&line.number) {
        Some(None) => None,
        Some(Some(entry)) => Some(Line { entry: entry.clone(), ..line.clone() }),
        None => Some(line.clone()),
    });
    Ok(holds.collect())
}

/// What was read or remarked may be put right or struck out; what was done may be struck out, if
/// nothing hangs on it, but not turned into something else.
fn allowed(meant: Option<&Line>, instead: Option<&Entry>) -> Result<(), Refused> {
    let Some(meant) = meant else {
        return Err(Refused::because("a correction names an earlier line, and there is no such line"));
    };
    let fixed = match &meant.entry {
        Entry::Started { .. } | Entry::LoadedAlthough { .. } | Entry::Correction { .. } | Entry::Resumed => true,
        // Struck out, it would lead on past what nobody can sign away.
        Entry::Stopped { ground, .. } => ground.as_ref().is_some_and(StopGround::is_final),
        _ => false,
    };
    if fixed {
        let sentence = format!("a line of the kind “{}” cannot be corrected: add a note", meant.entry.word());
        return Err(Refused(sentence));
    }
    match instead {
        Some(instead) if instead.word() != meant.entry.word() => Err(Refused(format!(
            "line {} is of the kind “{}”: what holds instead must be of the same kind, or the line is struck out",
            meant.number,
            meant.entry.word()
        ))),
        Some(instead) if !same_field(instead, &meant.entry) => Err(Refused(format!(
            "line {} says something else of the report: what holds instead must be about the same",
            meant.number
        ))),
        _ => Ok(()),
    }
}

/// Whether two entries, where they are of the report, say something about the same field.
fn same_field(one: &Entry, other: &Entry) -> bool {
    match (one, other) {
        (Entry::Detail { field, .. }, Entry::Detail { field: was, .. }) => field == was,
        _ => true,
    }
}
