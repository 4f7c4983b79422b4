//! Report details: which article, what is claimed, where, with which instruments, and what an inspection found. They can
//! be entered before the first piece, on the way, and after the last; nothing of it stops a day. What was said once is
//! put right by a correction, with its reason.

use super::desk::Desk;
use super::entry::{field, read};
use super::held::{Open, Topic};
use super::large::{big_size, button, quiet};
use crate::look::{self, Look};
use drafting::figure::Ink;
use eframe::egui::{self, RichText, Sense, Ui};
use quantity::{Force, Grain, Kind, Length, Mass, Quantity, Units};
use testday::{Device, Entry, Field, Inspection, Item, LookedAfter, Said};

impl Topic {
    const ALL: [Topic; 5] = [Topic::Article, Topic::Claim, Topic::Place, Topic::Instruments, Topic::Inspection];

    fn head(self) -> &'static str {
        match self {
            Topic::Article => "Article",
            Topic::Claim => "Claim",
            Topic::Place => "Place",
            Topic::Instruments => "Instruments",
            Topic::Inspection => "Inspection",
        }
    }

    fn fields(self, devices: &[Device], open: Open) -> Vec<Field> {
        match self {
            Topic::Article => Field::ARTICLE.to_vec(),
            Topic::Claim => Field::CLAIM.to_vec(),
            Topic::Place => Field::PLACE.to_vec(),
            Topic::Instruments => {
                let Some(device) = devices.get(open.device) else { return Vec::new() };
                Item::ALL.map(|item| Field::Instrument { device: device.clone(), item }).to_vec()
            }
            Topic::Inspection => Vec::new(),
        }
    }
}

/// What the zero of a scale is, so that nobody enters its tare there.
const ZERO: &str = "Zero: what it shows with nothing on it, the article off. It is not the tare, which is read with the article on it.";
const WHY: &str = "Why it is changed";
const WHERE: &str = "Parts inspected";
const FOUND: &str = "What was found";
const BY: &str = "Inspected by";

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let Some(day) = desk.day() else { return };
    let devices = Device::all(&day.plan);
    let open = desk.side.details;
    let topics: Vec<_> = Topic::ALL.iter().map(|topic| topic.head()).collect();
    let now = Topic::ALL.iter().position(|topic| *topic == open.topic).unwrap_or_default();
    if let Some(chosen) = choice(ui, look, &topics, now) {
        turn_to(desk, Open { topic: Topic::ALL[chosen], device: 0 });
    }
    if open.topic == Topic::Inspection {
        return inspection(ui, look, desk);
    }
    if open.topic == Topic::Instruments {
        let names: Vec<_> = devices.iter().map(Device::name).collect();
        if let Some(device) = choice(ui, look, &names, open.device) {
            turn_to(desk, Open { device, ..open });
        }
        if matches!(devices.get(open.device), Some(Device::Scale(_))) {
            quiet(ui, look, ZERO);
        }
    }
    form(ui, look, desk, &open.topic.fields(&devices, open));
}

/// What was typed for one does not stay for the other.
fn turn_to(desk: &mut Desk, open: Open) {
    desk.typed.clear();
    desk.side.details = open;
}

/// Words in a row, one of them chosen; which one was pressed.
fn choice(ui: &mut Ui, look: &Look, words: &[&str], now: usize) -> Option<usize> {
    let size = 0.86 * big_size(ui);
    let mut pressed = None;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 1.1 * size;
        for (index, word) in words.iter().enumerate() {
            let text = if index == now { look::bold(*word, size) } else { RichText::new(*word).size(size) };
            let text = text.color(look.ink(if index == now { Ink::Line } else { Ink::Is }));
            let link = ui.add(egui::Label::new(text).selectable(false).sense(Sense::click()));
            link.widget_info(|| egui::WidgetInfo::selected(egui::Role::RadioButton, true, index == now, *word));
            let under = [link.rect.left_bottom(), link.rect.right_bottom()];
            if index == now || link.has_focus() {
                ui.painter().line_segment(under, egui::Stroke::new(2.0, look.ink(Ink::Is)));
            }
            if link.on_hover_cursor(egui::CursorIcon::PointingHand).clicked() {
                pressed = Some(index);
            }
        }
    });
    ui.add_space(6.0);
    pressed
}

fn form(ui: &mut Ui, look: &Look, desk: &mut Desk, fields: &[Field]) {
    let Some(day) = desk.day() else { return };
    let (units, details) = (day.plan.units, day.details.clone());
    for asked in fields {
        let known = details.get(asked).map_or(String::new(), |(_, says)| in_field(units, asked, says));
        desk.typed.entry(asked.word().to_owned()).or_insert(known);
        let wide = if asked.is_number() { 90.0 } else { 190.0 };
        field(ui, desk, asked.word(), unit(units, asked), wide);
    }
    let is_changed = |asked: &&Field| {
        details.get(*asked).is_some_and(|(_, says)| typed(desk, asked.word()) != in_field(units, asked, says))
    };
    if fields.iter().any(|asked| is_changed(&asked)) {
        field(ui, desk, WHY, "", 190.0);
    }
    if button(ui, "Enter the details") {
        match entries(desk, fields) {
            Ok(entries) if entries.is_empty() => desk.misfit("Nothing new is typed here.".to_owned()),
            Ok(entries) => desk.enter_all(ui.ctx(), entries),
            Err(sentence) => desk.misfit(sentence),
        }
    }
    quiet(ui, look, "For the record. What is left empty stands there as “not entered”; it can be entered later.");
}

fn typed<'a>(desk: &'a Desk, name: &str) -> &'a str {
    desk.typed.get(name).map_or("", |text| text.trim())
}

/// An entry for everything that is new, a correction for what was said otherwise.
fn entries(desk: &Desk, fields: &[Field]) -> Result<Vec<Entry>, String> {
    let Some(day) = desk.day() else { return Ok(Vec::new()) };
    let (units, why) = (day.plan.units, typed(desk, WHY));
    let mut entries = Vec::new();
    for asked in fields {
        let text = typed(desk, asked.word());
        let known = day.details.get(asked);
        if known.map_or(String::new(), |(_, says)| in_field(units, asked, says)) == text {
            continue;
        }
        let says = (!text.is_empty()).then(|| says(units, asked, text)).transpose();
        let says = says.map_err(|sentence| format!("{}: {sentence}", asked.word()))?;
        let instead = says.map(|says| Entry::Detail { field: asked.clone(), says });
        entries.push(match (known, instead) {
            (None, Some(entry)) => entry,
            (None, None) => continue,
            (Some(_), _) if why.is_empty() => return Err(format!("{WHY}: say why, it goes into the record.")),
            (Some((of, _)), instead) => {
                Entry::Correction { of: *of, why: why.to_owned(), instead: instead.map(Box::new) }
            }
        });
    }
    Ok(entries)
}

/// The unit that stands beside a field.
fn unit(units: Units, asked: &Field) -> &'static str {
    match asked {
        Field::Temperature if units == Units::Metric => "°C",
        Field::Temperature => "°F",
        Field::Humidity => "%",
        Field::Instrument { device, item } if item.is_number() => units.unit(kind(device).0, kind(device).1).symbol,
        _ => "",
    }
}

fn kind(device: &Device) -> (Kind, Grain) {
    match device {
        Device::Scale(_) => (Kind::Mass, Grain::Coarse),
        Device::Gauge(_) => (Kind::Length, Grain::Fine),
        Device::Strap(_) => (Kind::Force, Grain::Coarse),
    }
}

/// What is said, as its field shows it.
fn in_field(units: Units, asked: &Field, says: &Said) -> String {
    let number = match says {
        Said::Text(text) => return text.clone(),
        Said::Number(number) => *number,
    };
    let shown = match asked {
        Field::Temperature if units == Units::InchPound => 1.8 * number + 32.0,
        Field::Instrument { device, .. } => number / units.unit(kind(device).0, kind(device).1).si,
        _ => number,
    };
    // As it was typed: what the way through SI adds in the last digits is dropped.
    let rounded = (shown * 1e6).round() / 1e6;
    format!("{rounded}")
}

fn says(units: Units, asked: &Field, text: &str) -> Result<Said, String> {
    if !asked.is_number() {
        return Ok(Said::Text(text.to_owned()));
    }
    let number = || text.replace(',', ".").parse::<f64>().ok().ok_or_else(|| "type a number".to_owned());
    let value = match asked {
        Field::Temperature if units == Units::InchPound => (number()? - 32.0) / 1.8,
        Field::Instrument { device: Device::Scale(_), .. } => read::<Mass>(text, units, Grain::Coarse)?.si(),
        Field::Instrument { device: Device::Gauge(_), .. } => read::<Length>(text, units, Grain::Fine)?.si(),
        Field::Instrument { device: Device::Strap(_), .. } => read::<Force>(text, units, Grain::Coarse)?.si(),
        _ => number()?,
    };
    Ok(Said::Number(value))
}

fn inspection(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    quiet(ui, look, "With the empty seat. One entry for each place that was looked at.");
    field(ui, desk, WHERE, "", 190.0);
    field(ui, desk, FOUND, "", 190.0);
    quiet(ui, look, "Left empty: nothing was found there.");
    field(ui, desk, BY, "", 190.0);
    for after in [LookedAfter::Limit, LookedAfter::Ultimate, LookedAfter::GivenUp] {
        if button(ui, &format!("Looked at after {}", after.word())) {
            let [place, found, by] = [WHERE, FOUND, BY].map(|name| typed(desk, name).to_owned());
            let found = (!found.is_empty()).then_some(found);
            desk.enter_all(ui.ctx(), vec![Entry::Inspected(Inspection { after, place, found, by })]);
        }
    }
    let done: Vec<_> = desk.day().map_or_else(Vec::new, |day| day.inspections.clone());
    for (line, Inspection { after, place, found, by }) in done {
        let found = found.as_deref().unwrap_or("nothing found");
        quiet(ui, look, format!("line {line}: {place}, after {}: {found}; by {by}", after.word()));
    }
}
