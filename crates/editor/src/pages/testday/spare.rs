//! An extra piece: which one, how heavy, where it goes, and whether it is in place already.

use super::desk::Desk;
use super::entry::{field, mass_kg, read};
use super::large::{button, quiet};
use super::said::{lot_and_item, number, such_as};
use crate::look::Look;
use eframe::egui::Ui;
use plan::{Plan, Turn};
use quantity::{Grain, Kind, Length, Quantity};
use testday::{Added, Deviation, Entry, RunDone};

const PIECE: &str = "Extra piece";
const WEIGHS: &str = "It weighs";
const AFTER: &str = "After step";
const X: &str = "x of its centre";
const Y: &str = "y of its centre";
const WHY: &str = "Why it is added";

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let Some(run) = desk.day().map(|day| day.run().clone()) else { return };
    let units = run.as_done().units;
    let [mass, length] = [Kind::Mass, Kind::Length].map(|kind| units.unit(kind, Grain::Coarse).symbol);
    desk.typed.entry(AFTER.to_owned()).or_insert(run.last_on.map_or(0, |last| last + 1).to_string());
    hint(ui, look, &format!("Lot and number. Free: {}.", free(run.as_done())));
    field(ui, desk, PIECE, "", 160.0);
    field(ui, desk, WEIGHS, mass, 80.0);
    hint(ui, look, "Left empty: as the plan has it.");
    field(ui, desk, AFTER, "", 60.0);
    field(ui, desk, X, length, 80.0);
    field(ui, desk, Y, length, 80.0);
    hint(ui, look, "In the bed frame. Left empty: over the piece of that step.");
    field(ui, desk, WHY, "", 160.0);
    ui.horizontal(|ui| {
        for (word, lies_there) in [("Put it on", false), ("It is in place already", true)] {
            if button(ui, word) {
                enter(ui, desk, &run, lies_there);
            }
        }
    });
    let hint_below = "It goes by the next number after the sheet's last step, counts for this run, and comes off with the \
                      others. Every check is made again with it.";
    hint(ui, look, hint_below);
}

fn hint(ui: &mut Ui, look: &Look, text: &str) {
    quiet(ui, look, text);
}

/// The first number of each lot that the stack does not have; one beyond the lot where all are placed.
fn free(plan: &Plan) -> String {
    let lots = plan.ballast.iter().map(|lot| format!("{} {}", lot.name, free_item(plan, &lot.name)));
    lots.collect::<Vec<_>>().join(", ")
}

fn free_item(plan: &Plan, lot: &str) -> u32 {
    let placed = |item: &u32| plan.stack.iter().any(|place| place.lot == lot && place.item == *item);
    (1..).find(|item| !placed(item)).unwrap_or(1)
}

fn enter(ui: &Ui, desk: &mut Desk, run: &RunDone, lies_there: bool) {
    let why = desk.typed.get(WHY).map_or("", |why| why.trim()).to_owned();
    match added(desk, run, lies_there) {
        Ok(_) if why.is_empty() => desk.misfit(format!("{WHY}: say why, it goes into the record.")),
        Ok(added) => desk.enter(ui.ctx(), Entry::Deviation { deviation: Deviation::Added(added), why }),
        Err(sentence) => desk.misfit(sentence),
    }
}

fn added(desk: &Desk, run: &RunDone, lies_there: bool) -> Result<Added, String> {
    let typed = |name: &str| desk.typed.get(name).map_or("", |text| text.trim());
    let plan = run.as_done();
    let (lot, item) = lot_and_item(typed(PIECE), &such_as(plan))?;
    let weighed_kg = match typed(WEIGHS) {
        "" => None,
        text => Some(mass_kg(text, plan.units).map_err(|why| format!("{WEIGHS}: {why}"))?),
    };
    let after = number(typed(AFTER))?;
    let below = after.checked_sub(1).and_then(|step| run.index_of(step)).and_then(|index| plan.stack.get(index));
    let at = |axis: usize| {
        let name = [X, Y][axis];
        match (typed(name), below) {
            ("", Some(below)) => Ok(below.at[axis].si()),
            (text, _) => read::<Length>(text, plan.units, Grain::Coarse)
                .map(Quantity::si)
                .map_err(|why| format!("{name}: {why}")),
        }
    };
    let crosswise = below.is_some_and(|below| below.turn == Turn::Crosswise);
    Ok(Added { step: run.next_step(), after, lot, item, weighed_kg, at_m: [at(0)?, at(1)?], crosswise, lies_there })
}

/// A second piece like this one of the stack as done, found where that one lies.
pub(super) fn like(run: &RunDone, index: usize) -> Option<Added> {
    let place = run.as_done().stack.get(index)?;
    Some(Added {
        step: run.next_step(),
        after: run.step_of(index) + 1,
        lot: place.lot.clone(),
        item: free_item(run.as_done(), &place.lot),
        weighed_kg: None,
        at_m: place.at.map(Quantity::si),
        crosswise: place.turn == Turn::Crosswise,
        lies_there: true,
    })
}
