//! The instruments: which they were, until when they were calibrated, what they showed with a known value, and whether
//! they came back to their zero.

use super::parts::{entered_close, figure, part, strong};
use super::words::{on_device, said};
use crate::figure::{Align, Ink, Sign};
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::heading;
use plan::Plan;
use testday::{Account, Device, Field, Item};

pub(super) fn set(book: &mut Book, account: &Account) {
    part(book, "4 Instruments", 70.0);
    let devices = Device::all(&account.day.plan);
    if devices.is_empty() {
        return book.paragraph(Style::BODY, "The plan has no scale, no gauge and no strap.");
    }
    which(account, &devices).set(book);
    heading(book, "Checks and zeros", 40.0);
    checks(account, &devices).set(book);
    book.cursor_mm += 1.0;
    book.paragraph(Style::SMALL, ZERO);
    if let Some(told) = back_at_tare(account) {
        book.paragraph(Style::SMALL, &told);
    }
}

const ZERO: &str = "Zero: shown with nothing on the instrument, before and after the test. Where nobody entered how far it may move, one \
                    division of the scale counts; where that is not known either, it is not decided. The zero of a scale is not its tare, \
                    which is what it shows with the article on it.";

/// Whether the scales came back to the tare once the seat was empty, where they were read then.
fn back_at_tare(account: &Account) -> Option<String> {
    let run = account.day.runs.len().checked_sub(1)?;
    let judged = account.judged_left(run);
    let empty = judged.iter().rev().find(|judged| judged.placed == 0)?;
    let word = if empty.fits() { "came back to the tare" } else { "did not come back to the tare" };
    Some(format!("After run {} the scales {word} (part 7): that is with the article still on them.", run + 1))
}

fn cell(account: &Account, device: &Device, item: Item) -> Cell {
    let field = Field::Instrument { device: device.clone(), item };
    let plan = &account.day.plan;
    let entered = account.day.detail(&field).map(|says| said(plan, &field, says));
    entered_close(entered.or_else(|| planned(plan, device, item)))
}

/// What the plan says of it where nobody entered it on the day.
fn planned(plan: &Plan, device: &Device, item: Item) -> Option<String> {
    let instrument = plan.instruments.iter().find(|instrument| instrument.name == device.name())?;
    let told = match item {
        Item::Number => instrument.number.clone(),
        Item::Range => instrument.range.clone(),
        Item::CalibratedUntil => instrument.calibrated_until?.to_string(),
        Item::CheckPut | Item::CheckShown | Item::ZeroBefore | Item::ZeroAfter | Item::ZeroWithin => return None,
    };
    (!told.is_empty()).then(|| format!("{told} (plan)"))
}

fn kind(device: &Device) -> &'static str {
    match device {
        Device::Scale(_) => "scale",
        Device::Gauge(_) => "gauge",
        Device::Strap(_) => "force gauge in a strap",
    }
}

fn which(account: &Account, devices: &[Device]) -> Table {
    let columns = vec![
        Column::wide("instrument"),
        Column::fixed("kind", 36.0, Align::Left),
        Column::fixed("its number", 30.0, Align::Left),
        Column::fixed("range", 30.0, Align::Left),
        Column::fixed("calibrated until", 30.0, Align::Left),
    ];
    let row = |device: &Device| {
        let mut row = vec![strong(device.name()), figure(kind(device))];
        row.extend([Item::Number, Item::Range, Item::CalibratedUntil].map(|item| cell(account, device, item)));
        row
    };
    Table { columns, rows: devices.iter().map(row).collect(), row_mm: 5.4 }
}

fn checks(account: &Account, devices: &[Device]) -> Table {
    let mut columns = vec![Column::wide("instrument")];
    columns.extend(
        ["check value put on", "shown with it", "zero before", "zero after", "moved", "may move"]
            .map(|head| Column::fixed(head, 18.0, Align::Right)),
    );
    columns.push(Column::fixed("came back", 24.0, Align::Left));
    let items = [Item::CheckPut, Item::CheckShown, Item::ZeroBefore, Item::ZeroAfter];
    let row = |device: &Device| {
        let (plan, zero) = (&account.day.plan, account.day.zero_return(device));
        let told = |value: Option<f64>| figure(value.map_or("–".to_owned(), |value| on_device(plan, device, value)));
        let mut row = vec![strong(device.name())];
        row.extend(items.map(|item| cell(account, device, item)));
        row.push(told(zero.map(|zero| zero.moved)));
        row.push(told(zero.and_then(|zero| zero.within)));
        row.push(match zero.map(|zero| zero.is_back()) {
            Some(Some(true)) => Cell::CloseState(Sign::Holds, Ink::Is, "yes".to_owned()),
            Some(Some(false)) => Cell::CloseState(Sign::Fails, Ink::Wanted, "no".to_owned()),
            Some(None) | None => Cell::CloseState(Sign::Undecided, Ink::Wanted, "not known".to_owned()),
        });
        row
    };
    Table { columns, rows: devices.iter().map(row).collect(), row_mm: 5.4 }
}
