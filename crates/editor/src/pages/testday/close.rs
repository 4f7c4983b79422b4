//! Closing the day: what the inspection after unloading has seen is asked for once, and the zeros of the instruments are
//! named where they are open. Neither stands in the way of closing.

use super::desk::Desk;
use super::entry::Row;
use super::held::{Open, Part, Topic};
use super::large::{big, big_size, huge, link, primary, quiet};
use crate::look::{self, Look};
use eframe::egui::Ui;
use testday::{Day, Device, Entry, Inspection};

const SEEN: &str = "What was seen";
const WHERE: &str = "Parts inspected";
const BY: &str = "Inspected by";
const CLOSED: &str = "Closed by";

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let Some(day) = desk.day().cloned() else { return };
    huge(ui, "The seat is empty: close the day");
    ui.add_space(6.0);
    let mut row = Row::default();
    let asks = day.was_loaded() && day.inspections.is_empty();
    if asks && !is_open_beside(desk) {
        ask(ui, look, desk, &mut row);
    }
    seen(ui, &day);
    if day.was_loaded() {
        zeros(ui, look, desk, &day);
    }
    ui.add_space(6.0);
    let by = row.field(ui, desk, [CLOSED, ""], 320.0);
    let entered = row.entered(ui, desk);
    ui.add_space(4.0);
    if primary(ui, look, "Close the day", (row.act(ui), false, false)) || entered {
        match entries(desk, &day, (asks && !is_open_beside(desk), by.trim())) {
            Ok(entries) => desk.enter_all(ui.ctx(), entries),
            Err(sentence) => desk.misfit(sentence),
        }
    }
}

/// The inspection, which may stay empty.
fn ask(ui: &mut Ui, look: &Look, desk: &mut Desk, row: &mut Row) {
    ui.label(look::bold("Inspection after unloading", big_size(ui)));
    // One that was begun is told whole: Return goes from field to field.
    let is_begun =
        [SEEN, WHERE, BY].iter().any(|name| desk.typed.get(*name).is_some_and(|text| !text.trim().is_empty()));
    for name in [SEEN, WHERE, BY] {
        let named = [name, ""];
        if is_begun {
            row.field(ui, desk, named, 320.0)
        } else {
            row.optional(ui, desk, named, 320.0)
        };
    }
    quiet(
        ui,
        look,
        "Cracks, anything broken, loose or bent; or nothing found. Left empty, the record says that nobody has entered an inspection.",
    );
}

/// Whether the fields of an inspection are open over the picture.
fn is_open_beside(desk: &Desk) -> bool {
    desk.side.open == Some(Part::Details) && desk.side.details.topic == Topic::Inspection
}

/// What was entered of inspections.
fn seen(ui: &mut Ui, day: &Day) {
    for (_, Inspection { after, place, found, by }) in &day.inspections {
        let found = found.as_deref().unwrap_or("nothing found");
        big(ui, format!("Inspection after {}: {place}, {found}; by {by}.", after.word()));
    }
}

/// The zeros that nobody entered after the test, and the way to their fields.
fn zeros(ui: &mut Ui, look: &Look, desk: &mut Desk, day: &Day) {
    let open = day.scales_without_zero_after();
    let Some(first) = open.first() else { return };
    let names: Vec<_> = open.iter().map(Device::name).collect();
    let text = format!(
        "Zero after the test, with nothing on the scale: not entered for {}. It is not the tare, which is read with the article on it.",
        names.join(", ")
    );
    ui.add_space(6.0);
    quiet(ui, look, text);
    let size = 0.86 * big_size(ui);
    if link(ui, look, "Enter the zeros", size) {
        let device = Device::all(&day.plan).iter().position(|device| device == first).unwrap_or_default();
        desk.side.open = Some(Part::Details);
        desk.side.details = Open { topic: Topic::Instruments, device };
    }
}

/// The inspection, where one was typed, and the end of the day.
fn entries(desk: &Desk, day: &Day, (asks, by): (bool, &str)) -> Result<Vec<Entry>, String> {
    let typed = |name: &str| desk.typed.get(name).map_or("", |text| text.trim()).to_owned();
    let [found, place, looked] = [SEEN, WHERE, BY].map(typed);
    let mut entries = Vec::new();
    if asks && [&found, &place, &looked].iter().any(|text| !text.is_empty()) {
        for (text, name) in [(&found, SEEN), (&place, WHERE), (&looked, BY)] {
            if text.is_empty() {
                return Err(format!("{name}: an inspection says what was seen, on which parts, and by whom."));
            }
        }
        entries.push(Entry::Inspected(Inspection { after: day.load_reached(), place, found: Some(found), by: looked }));
    }
    if by.is_empty() {
        return Err(format!("{CLOSED}: type a name, it goes into the record."));
    }
    entries.push(Entry::Ended { by: by.to_owned() });
    Ok(entries)
}
