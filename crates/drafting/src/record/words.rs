//! Entries and quantities as the record writes them.

use crate::words::{deflection, mass};
use plan::Plan;
use quantity::{Force, Grain, Length, Mass, Quantity, Units};
use testday::{Added, Deviation, Device, Entry, Field, Ground, Inspection, Reading, Said, shift_words};

/// A piece with its step on the sheet, from the step (from 0).
pub(super) fn piece(plan: &Plan, step: usize) -> String {
    let name = if step < plan.steps() { plan.piece_name(step) } else { "an extra piece".to_owned() };
    format!("step {}, {name}", step + 1)
}

/// What an entry says, in one line.
pub fn told(plan: &Plan, entry: &Entry) -> String {
    match entry {
        Entry::Started { people, fingerprint, .. } => format!("plan {fingerprint}; present: {people}"),
        Entry::LoadedAlthough { checks, why } => format!("{}; {why}", checks.join(", ")),
        Entry::Resumed => "the program was opened again".to_owned(),
        Entry::Tare(reading) | Entry::Reading(reading) => readings(plan, reading),
        Entry::Placed { step } | Entry::Unloaded { step } => piece(plan, step.saturating_sub(1)),
        Entry::HoldBegan { hold } => format!("“{hold}”"),
        Entry::HoldEnded { hold, lasted_s, unseen_s } => {
            let unseen = if *unseen_s > 0.0 { format!(", {unseen_s:.1} s more not seen") } else { String::new() };
            format!("“{hold}”, lasted {:.1} s{unseen}", (lasted_s * 10.0).floor() / 10.0)
        }
        Entry::Gauge { gauge, reading_m } => format!("{gauge}: {}", deflection(plan, *reading_m)),
        Entry::LeanRead { shift_m } => format!("top piece {} of its place", shift_words(plan.units, *shift_m)),
        Entry::SettlementRead { sinks_m } => format!("top piece sunk by {}", deflection(plan, *sinks_m)),
        Entry::StrapOn { binding, pulls_n } => format!("“{binding}”, {}", pulls(*pulls_n, plan)),
        Entry::StrapOff { binding } => format!("“{binding}”"),
        Entry::Deviation { deviation, why } => format!("{}; {why}", deviation_words(plan, deviation)),
        Entry::Correction { of, why, instead } => match instead {
            Some(instead) => format!("of line {of}: {}; {why}", told(plan, instead)),
            None => format!("line {of} is struck out; {why}"),
        },
        Entry::Note { text } => text.clone(),
        Entry::Photograph { path, sha256, caption } => {
            let shows = if caption.is_empty() { String::new() } else { format!("{caption}: ") };
            format!("{shows}{path}, SHA-256 {sha256}")
        }
        Entry::Detail { field, says } => detail_words(plan, field, says),
        Entry::Inspected(inspection) => inspection_words(inspection),
        Entry::Stopped { why, causes, .. } => match causes.is_empty() {
            true => why.clone(),
            false => format!("{why}. Likely causes given: {}", causes.join(" / ")),
        },
        Entry::WentOn { why, ground } => went_on(why, ground.as_ref()),
        Entry::Aborted { why } => why.clone(),
        Entry::Ended { by } => by.clone(),
    }
}

/// On what ground, and what was said to it.
fn went_on(why: &str, ground: Option<&Ground>) -> String {
    match ground {
        Some(Ground::Cause { cause }) => {
            format!("cause found: {cause} Done: {why}; then the scales had to be read again")
        }
        Some(Ground::Fits) => format!("the scales fitted when read again; {why}"),
        Some(Ground::Found) | None => why.to_owned(),
        Some(Ground::Released { name }) => format!("{why}; released by {name}"),
        Some(Ground::Against { name }) => format!("AGAINST THE STOP, signed by {name}: {why}"),
    }
}

/// What the two legs of a binding strap pulled.
pub(super) fn pulls(pulls_n: Option<[f64; 2]>, plan: &Plan) -> String {
    match pulls_n.map(|pulls| pulls.map(|n| Force::n(n).shown(plan.units, Grain::Coarse))) {
        Some([left, right]) => format!("left leg {left}, right leg {right}"),
        None => "its pull was not read".to_owned(),
    }
}

fn readings(plan: &Plan, reading: &Reading) -> String {
    let scales = reading.scales_kg.iter().map(|(name, kg)| format!("{name} {}", mass(plan, *kg)));
    let force = |n: f64| Force::n(n).shown(plan.units, Grain::Coarse);
    let straps = reading.straps_n.iter().map(|(name, n)| format!("{name} {}", force(*n)));
    let all: Vec<_> = scales.chain(straps).collect();
    if all.is_empty() { "not read".to_owned() } else { all.join(", ") }
}

pub(super) fn deviation_words(plan: &Plan, deviation: &Deviation) -> String {
    let what = piece(plan, deviation.step().saturating_sub(1));
    match deviation {
        Deviation::OtherPiece { lot, item, .. } => format!("{what}: {lot} {item} is there instead"),
        Deviation::OtherPlace { at_m, crosswise, .. } => {
            format!("{what}: placed {}", place(plan, *at_m, *crosswise))
        }
        Deviation::LeftOut { .. } => format!("{what}: left out"),
        Deviation::LostMass { lost_kg, .. } => format!("{what}: lost {}", mass(plan, *lost_kg)),
        Deviation::Added(added) => {
            let Added { lot, item, at_m, crosswise, .. } = added;
            let weighs = added.weighed_kg.map_or(String::new(), |kg| format!(", weighed {}", mass(plan, kg)));
            let whence = if added.lies_there { "found in place after" } else { "to be put on after" };
            let lies = place(plan, *at_m, *crosswise);
            format!("{what}: {lot} {item}{weighs}, {whence} step {}, {lies}", added.after)
        }
    }
}

fn detail_words(plan: &Plan, field: &Field, says: &Said) -> String {
    let of = match field {
        Field::Instrument { device, .. } => format!("{}, ", device.name()),
        _ => String::new(),
    };
    format!("{of}{}: {}", field.word(), said(plan, field, says))
}

/// What is said, with the unit that goes with it.
pub(super) fn said(plan: &Plan, field: &Field, says: &Said) -> String {
    let number = match says {
        Said::Text(text) => return text.clone(),
        Said::Number(number) => *number,
    };
    match field {
        Field::Temperature => temperature(plan, number),
        Field::Humidity => format!("{number} %"),
        Field::Instrument { device, .. } => on_device(plan, device, number),
        _ => number.to_string(),
    }
}

fn temperature(plan: &Plan, celsius: f64) -> String {
    match plan.units {
        Units::Metric => format!("{celsius:.1} °C"),
        Units::InchPound => format!("{:.1} °F", 1.8 * celsius + 32.0),
    }
}

/// A value of an instrument, in SI, as the plan's units show it.
pub(super) fn on_device(plan: &Plan, device: &Device, value: f64) -> String {
    match device {
        Device::Scale(_) => Mass::kg(value).shown(plan.units, Grain::Fine),
        Device::Gauge(_) => deflection(plan, value),
        Device::Strap(_) => Force::n(value).shown(plan.units, Grain::Coarse),
    }
}

fn inspection_words(inspection: &Inspection) -> String {
    let Inspection { after, place, found, by } = inspection;
    format!("{place}, after {}: {}; by {by}", after.word(), found.as_deref().unwrap_or("nothing found"))
}

/// Where a piece is on the bed, and how it is turned.
fn place(plan: &Plan, at_m: [f64; 2], crosswise: bool) -> String {
    let [x, y] = at_m.map(|m| Length::m(m).shown_taped(plan.units));
    format!("at x {x}, y {y} of the bed, {}", if crosswise { "crosswise" } else { "lengthwise" })
}
