//! Every entry as a table for a spreadsheet, in SI; corrected lines stand there as they were entered.

use super::words::told;
use crate::cautions::caution_row;
use crate::cell::cell;
use testday::{Account, Deviation, Device, Entry, Field, Line, Log, Reading, Said};

/// All entries, one row each, comma-separated with a head (RFC 4180, `from memory`). Columns of scales
/// and straps carry their names and units.
pub fn csv(log: &Log, account: &Account) -> String {
    let plan = &account.day.plan;
    let scales: Vec<_> = plan.fixture.supports.iter().filter(|s| s.scale).map(|s| s.name.as_str()).collect();
    let straps: Vec<_> = plan.fixture.hold_downs.iter().map(|s| s.name.as_str()).collect();
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    let mut head: Vec<String> =
        ["line", "at", "kind", "corrects_line", "step", "name", "value", "unit", "what"].map(str::to_owned).to_vec();
    head.extend(scales.iter().map(|name| format!("{name}, kg")));
    head.extend(straps.iter().map(|name| format!("{name}, N")));
    // Writing into memory cannot fail; a record that is short of a row would be worse than none.
    for row in [&caution_row(head.len()), &head] {
        writer.write_record(row.iter().map(|text| cell(text))).expect("memory takes every row");
    }
    for line in log.lines() {
        let row = row(plan, line, (&scales, &straps));
        writer.write_record(row.iter().map(|text| cell(text))).expect("memory takes every row");
    }
    let bytes = writer.into_inner().expect("memory takes every row");
    String::from_utf8(bytes).expect("every field is UTF-8")
}

fn row(plan: &plan::Plan, line: &Line, (scales, straps): (&[&str], &[&str])) -> Vec<String> {
    let (of, entry) = match &line.entry {
        Entry::Correction { of, instead, .. } => (of.to_string(), instead.as_deref()),
        entry => (String::new(), Some(entry)),
    };
    let (step, name, value, unit) = entry.map_or_else(Default::default, numbers);
    let mut row = vec![line.number.to_string(), line.at.clone(), line.entry.word().to_owned(), of, step, name, value];
    row.push(unit);
    row.push(told(plan, &line.entry));
    let empty = Reading::default();
    let reading = match entry {
        Some(Entry::Tare(reading) | Entry::Reading(reading)) => reading,
        _ => &empty,
    };
    let bare = |value: Option<f64>| value.map_or(String::new(), |value| value.to_string());
    row.extend(scales.iter().map(|name| bare(reading.scale_kg(name))));
    row.extend(straps.iter().map(|name| bare(reading.strap_n(name))));
    row
}

/// Step, name, value and unit of what an entry is about.
fn numbers(entry: &Entry) -> (String, String, String, String) {
    let none = String::new;
    match entry {
        Entry::Placed { step } | Entry::Unloaded { step } => (step.to_string(), none(), none(), none()),
        Entry::Deviation { deviation: Deviation::Added(added), .. } => {
            let weighed = added.weighed_kg.map(|kg| (kg.to_string(), "kg".to_owned()));
            let (value, unit) = weighed.unwrap_or_default();
            (added.step.to_string(), format!("{} {}", added.lot, added.item), value, unit)
        }
        Entry::Deviation { deviation: Deviation::LostMass { step, lost_kg }, .. } => {
            (step.to_string(), "mass lost".to_owned(), lost_kg.to_string(), "kg".to_owned())
        }
        Entry::Deviation { deviation, .. } => (deviation.step().to_string(), none(), none(), none()),
        Entry::HoldBegan { hold } => (none(), hold.clone(), none(), none()),
        Entry::HoldEnded { hold, lasted_s, .. } => (none(), hold.clone(), lasted_s.to_string(), "s".to_owned()),
        Entry::Gauge { gauge, reading_m } => (none(), gauge.clone(), reading_m.to_string(), "m".to_owned()),
        Entry::LeanRead { shift_m: [aft_m, right_m] } => {
            (none(), "aft; right".to_owned(), format!("{aft_m}; {right_m}"), "m".to_owned())
        }
        Entry::SettlementRead { sinks_m } => {
            (none(), "sinking of the top piece".to_owned(), sinks_m.to_string(), "m".to_owned())
        }
        Entry::StrapOn { binding, pulls_n } => {
            let pulls = pulls_n.map_or_else(none, |[left_n, right_n]| format!("{left_n}; {right_n}"));
            (none(), format!("{binding}: left leg; right leg"), pulls, "N".to_owned())
        }
        Entry::StrapOff { binding } => (none(), binding.clone(), none(), none()),
        Entry::Detail { field, says } => detail(field, says),
        Entry::Inspected(inspection) => (none(), inspection.place.clone(), none(), none()),
        Entry::Photograph { path, sha256, .. } => (none(), path.clone(), sha256.clone(), "sha256".to_owned()),
        _ => Default::default(),
    }
}

/// What is said of the report; a number with its unit.
fn detail(field: &Field, says: &Said) -> (String, String, String, String) {
    let (name, unit) = match field {
        Field::Temperature => (field.word().to_owned(), "°C"),
        Field::Humidity => (field.word().to_owned(), "%"),
        Field::Instrument { device, item } => {
            let unit = match device {
                _ if !item.is_number() => "",
                Device::Scale(_) => "kg",
                Device::Gauge(_) => "m",
                Device::Strap(_) => "N",
            };
            (format!("{}, {}", device.name(), item.word()), unit)
        }
        _ => (field.word().to_owned(), ""),
    };
    let value = match says {
        Said::Text(text) => text.clone(),
        Said::Number(number) => number.to_string(),
    };
    (String::new(), name, value, unit.to_owned())
}
