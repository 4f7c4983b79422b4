//! What else can be said on the day: a deviation, a remark, a photograph, that it is given up.

use super::about::{REMARK, Said};
use super::desk::{Asked, CAPTION, Desk};
use super::doubt::Doubt;
use super::entry::{field, mass_kg, read};
use super::large::{big, button, quiet};
use crate::look::Look;
use eframe::egui::Ui;
use plan::Plan;
use quantity::{Grain, Length, Quantity};
use testday::{Deviation, Entry};

/// Nothing is given up by a slip of the hand, nor without a reason.
pub(super) fn giving_up(ui: &mut Ui, desk: &mut Desk) {
    let empty = desk.day().is_some_and(|day| day.run().placed() == 0);
    big(
        ui,
        match empty {
            true => "End the test? Nothing is on the seat: the day can be closed then, with no reading of a set.",
            false => {
                "End the test? First everybody clear. Judge from a distance whether the stack can come off in the order of the sheet."
            }
        },
    );
    let why = field(ui, desk, "Why it is given up", "", 190.0);
    ui.horizontal(|ui| {
        if button(ui, if empty { "End the test" } else { "End loading, then unload" }) {
            match why.trim() {
                "" => desk.misfit("Say why the test is given up: it goes into the record.".to_owned()),
                why => desk.enter(ui.ctx(), Entry::Aborted { why: why.to_owned() }),
            }
        }
        if button(ui, "No, do not give up") {
            desk.side.open = None;
        }
    });
}

pub(super) fn remark(ui: &mut Ui, desk: &mut Desk) {
    let last = desk.last_piece();
    if let Some(piece) = last
        && button(ui, "On the last piece")
    {
        desk.say_of(Said::Remark(piece));
    }
    let text = field(ui, desk, REMARK, "", 170.0);
    field(ui, desk, CAPTION, "", 170.0);
    ui.horizontal(|ui| {
        if button(ui, "Enter the remark") && !text.trim().is_empty() {
            desk.enter(ui.ctx(), Entry::Note { text: text.trim().to_owned() });
        }
        if button(ui, "Name a photograph…") {
            desk.ask(Asked::Photograph);
        }
    });
}

/// Another bag, another place, left out: the rest of the day is reckoned with it.
pub(super) fn deviation(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    quiet(ui, look, "What is done otherwise than planned. Readings are expected with it from then on.");
    let in_hand = desk.day().and_then(|day| day.run().last_on).map(|last| (last + 1).to_string());
    if let Some(in_hand) = in_hand {
        desk.typed.entry("Step".to_owned()).or_insert(in_hand);
    }
    let example = desk.day().map(|day| such_as(day.run().as_done())).unwrap_or_default();
    let step = field(ui, desk, "Step", "", 60.0);
    let why = field(ui, desk, "Why", "", 160.0);
    ui.separator();
    let piece = field(ui, desk, "Piece in place", "", 160.0);
    quiet(ui, look, format!("lot and number, such as “{example}”"));
    if button(ui, "Another piece") {
        let entry = number(&step).and_then(|step| {
            let (lot, item) = lot_and_item(&piece, &example)?;
            Ok(Deviation::OtherPiece { step, lot, item })
        });
        deviate(ui, desk, entry, &why);
    }
    let length = desk.day().map_or("", |day| day.plan.units.unit(quantity::Kind::Length, Grain::Coarse).symbol);
    let x = field(ui, desk, "Centre, x of the bed", length, 80.0);
    let y = field(ui, desk, "Centre, y of the bed", length, 80.0);
    if button(ui, "Another place") {
        let entry = elsewhere(desk, &step, [&x, &y]);
        deviate(ui, desk, entry, &why);
    }
    ui.separator();
    if button(ui, "Left out, or never put down") {
        let entry = number(&step).map(|step| Deviation::LeftOut { step });
        deviate(ui, desk, entry, &why);
    }
    ui.separator();
    let mass = desk.day().map_or("", |day| day.plan.units.unit(quantity::Kind::Mass, Grain::Coarse).symbol);
    let lost = field(ui, desk, LOST, mass, 80.0);
    quiet(ui, look, "Of a bag that burst: what left the seat. What spilled onto the seat still loads it.");
    if button(ui, "The bag lost mass") {
        let entry = number(&step).and_then(|step| Ok(Deviation::LostMass { step, lost_kg: lost_kg(desk, &lost)? }));
        deviate(ui, desk, entry, &why);
    }
}

const LOST: &str = "Mass lost";

fn lost_kg(desk: &Desk, text: &str) -> Result<f64, String> {
    let units = desk.day().ok_or("no log is open")?.plan.units;
    mass_kg(text, units).map_err(|why| format!("{LOST}: {why}"))
}

fn deviate(ui: &Ui, desk: &mut Desk, deviation: Result<Deviation, String>, why: &str) {
    match deviation {
        Ok(_) if why.trim().is_empty() => {
            desk.misfit("Why: say why it is done otherwise, it goes into the record.".to_owned());
        }
        Ok(deviation) => {
            let doubt = buried(desk, &deviation);
            desk.enter_meant(ui.ctx(), doubt, vec![Entry::Deviation { deviation, why: why.trim().to_owned() }]);
        }
        Err(sentence) => desk.misfit(sentence),
    }
}

/// What other pieces lie on by now is hardly changed without taking them off.
fn buried(desk: &Desk, deviation: &Deviation) -> Option<Doubt> {
    let run = desk.day()?.run();
    if matches!(deviation, Deviation::LostMass { .. }) {
        return None;
    }
    let (step, now) = (deviation.step(), run.last_on? + 1);
    let sentence = || format!("Step {step} is under what was put down since: step {now} was the last.");
    (step < now).then(|| Doubt { sentence: sentence(), fields: Vec::new() })
}

pub(super) fn number(text: &str) -> Result<usize, String> {
    text.trim().parse().ok().ok_or_else(|| "Step: type its number on the sheet, such as 12.".to_owned())
}

/// A piece of the plan as it is typed: the last of the largest lot.
pub(super) fn such_as(plan: &Plan) -> String {
    let largest = plan.ballast.iter().max_by_key(|lot| lot.count);
    largest.map(|lot| format!("{} {}", lot.name, lot.count)).unwrap_or_default()
}

pub(super) fn lot_and_item(text: &str, example: &str) -> Result<(String, u32), String> {
    let due = || format!("Piece: type its lot and number, such as “{example}”.");
    let (lot, item) = text.trim().rsplit_once(' ').ok_or_else(due)?;
    Ok((lot.trim().to_owned(), item.parse().ok().ok_or_else(due)?))
}

/// Turned as it is in the stack now.
fn elsewhere(desk: &Desk, step: &str, [x, y]: [&str; 2]) -> Result<Deviation, String> {
    let step = number(step)?;
    let run = desk.day().ok_or("no log is open")?.run();
    let index = step.checked_sub(1).and_then(|step| run.index_of(step));
    let index = index.ok_or_else(|| format!("Step {step} is not in the stack as it is done."))?;
    let plan = run.as_done();
    let metres = |name: &str, text: &str| {
        read::<Length>(text, plan.units, Grain::Coarse).map(Quantity::si).map_err(|why| format!("{name}: {why}"))
    };
    let at_m = [metres("Centre, x of the bed", x)?, metres("Centre, y of the bed", y)?];
    Ok(Deviation::OtherPlace { step, at_m, crosswise: plan.stack[index].turn == plan::Turn::Crosswise })
}
