//! What else can be said on the day: a stop, a deviation, a remark, a photograph, a correction.

use super::desk::{Asked, Desk};
use super::entry::{field, read};
use crate::look::{self, Look};
use eframe::egui::{self, Ui};
use quantity::{Grain, Length, Quantity};
use testday::{Deviation, Entry, Stage, StopGround};

/// STOP, as long as anything lies there or is about to; giving up asks first.
pub(super) fn stop(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let Some(day) = desk.day() else { return };
    let (stopped, aborted, over) = (day.stopped.is_some(), day.aborted.is_some(), day.ended.is_some());
    let stage = day.run().stage;
    if over || !matches!(stage, Stage::Loading | Stage::Unloading) {
        return;
    }
    ui.horizontal(|ui| {
        let word = |text: &str| {
            egui::Button::new(look::bold(text, 15.0)).fill(look.caution()).min_size(egui::vec2(150.0, 40.0))
        };
        // It keeps its place once pressed: a second press must not hit what stands beside it.
        if ui.add_enabled(!stopped, word("STOP")).clicked() {
            let why = "stopped by hand".to_owned();
            desk.enter(ui.ctx(), Entry::Stopped { why, causes: Vec::new(), ground: Some(StopGround::ByHand) });
        }
        ui.add_space(48.0);
        let may_give_up = stage == Stage::Loading && !aborted && !desk.giving_up;
        let give_up = egui::Button::new("Give up the test…").min_size(egui::vec2(130.0, 40.0));
        if ui.add_enabled(may_give_up, give_up).clicked() {
            desk.giving_up = true;
        }
    });
    giving_up(ui, desk);
    ui.add_space(8.0);
}

/// Nothing is given up by a slip of the hand, nor without a reason.
fn giving_up(ui: &mut Ui, desk: &mut Desk) {
    if !desk.giving_up {
        return;
    }
    ui.add_space(6.0);
    ui.label(look::bold("End the test? First everybody clear. Judge from a distance whether the stack can come off in the order of the sheet.", look::BODY));
    let why = field(ui, desk, "Why it is given up", "", 190.0);
    ui.horizontal(|ui| {
        if ui.button("End loading, then unload").clicked() {
            match why.trim() {
                "" => desk.misfit("Say why the test is given up: it goes into the record.".to_owned()),
                why => desk.enter(ui.ctx(), Entry::Aborted { why: why.to_owned() }),
            }
        }
        if ui.button("No, do not give up").clicked() {
            desk.giving_up = false;
        }
    });
}

pub(super) fn remark(ui: &mut Ui, desk: &mut Desk) {
    let text = field(ui, desk, "Remark", "", 170.0);
    ui.horizontal(|ui| {
        if ui.button("Enter the remark").clicked() && !text.trim().is_empty() {
            desk.enter(ui.ctx(), Entry::Note { text: text.trim().to_owned() });
        }
        if ui.button("Name a photograph…").clicked() {
            desk.ask(Asked::Photograph);
        }
    });
}

/// Another bag, another place, left out: the rest of the day is reckoned with it.
pub(super) fn deviation(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    ui.add(
        egui::Label::new(look::caption(
            look,
            "What is done otherwise than planned. Readings are expected with it from then on.",
        ))
        .wrap(),
    );
    let in_hand = desk.day().and_then(|day| day.run().last_on).map(|last| (last + 1).to_string());
    if let Some(in_hand) = in_hand {
        desk.typed.entry("Step".to_owned()).or_insert(in_hand);
    }
    let step = field(ui, desk, "Step", "", 60.0);
    let why = field(ui, desk, "Why", "", 160.0);
    ui.separator();
    let piece = field(ui, desk, "Piece in place", "", 160.0);
    ui.label(look::caption(look, "lot and number, such as “shot bag 26”"));
    if ui.button("Another piece").clicked() {
        let entry = number(&step).and_then(|step| {
            let (lot, item) = lot_and_item(&piece)?;
            Ok(Deviation::OtherPiece { step, lot, item })
        });
        deviate(ui, desk, entry, &why);
    }
    let length = desk.day().map_or("", |day| day.plan.units.unit(quantity::Kind::Length, Grain::Coarse).symbol);
    let x = field(ui, desk, "Centre, x of the bed", length, 80.0);
    let y = field(ui, desk, "Centre, y of the bed", length, 80.0);
    if ui.button("Another place").clicked() {
        let entry = elsewhere(desk, &step, [&x, &y]);
        deviate(ui, desk, entry, &why);
    }
    ui.separator();
    if ui.button("Left out, or never put down").clicked() {
        let entry = number(&step).map(|step| Deviation::LeftOut { step });
        deviate(ui, desk, entry, &why);
    }
}

fn deviate(ui: &Ui, desk: &mut Desk, deviation: Result<Deviation, String>, why: &str) {
    match deviation {
        Ok(_) if why.trim().is_empty() => {
            desk.misfit("Why: say why it is done otherwise, it goes into the record.".to_owned());
        }
        Ok(deviation) => {
            if desk.is_meant(buried(desk, &deviation)) {
                desk.enter(ui.ctx(), Entry::Deviation { deviation, why: why.trim().to_owned() });
            }
        }
        Err(sentence) => desk.misfit(sentence),
    }
}

/// What other pieces lie on by now is hardly changed without taking them off.
fn buried(desk: &Desk, deviation: &Deviation) -> Option<String> {
    let run = desk.day()?.run();
    let (step, now) = (deviation.step(), run.last_on? + 1);
    (step < now).then(|| format!("Step {step} is under what was put down since: step {now} was the last."))
}

pub(super) fn number(text: &str) -> Result<usize, String> {
    text.trim().parse().ok().ok_or_else(|| "Step: type its number on the sheet, such as 12.".to_owned())
}

pub(super) fn lot_and_item(text: &str) -> Result<(String, u32), String> {
    let due = || "Piece: type its lot and number, such as “shot bag 26”.".to_owned();
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
