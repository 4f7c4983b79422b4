//! The one active task: what to lift, read, hold or take off.

use super::desk::{Asked, Desk};
use super::entry::Row;
use super::large::{BIG, big, button, huge, large};
use super::{figures, hold, lean, outlook, stop, unload, weigh};
use crate::look::{self, Look};
use drafting::figure::Ink;
use drafting::sheet::place_words;
use drafting::views::Scene;
use eframe::egui::{self, Ui};
use plan::Plan;
use quantity::{Grain, Mass, Quantity};
use testday::{Entry, Next};

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk, in_window: &Plan) {
    let Some(day) = desk.day().cloned() else { return };
    let next = desk.next();
    head(ui, look, &day, (next.as_ref(), in_window));
    let Some(next) = next else {
        big(ui, "Being solved…");
        return;
    };
    outlook::show(ui, look, desk, &next);
    match next {
        Next::Tare => weigh::scales(ui, desk, true),
        Next::Read => {
            if day.read_again {
                big(ui, "The cause was fixed: do the scales fit now?");
            }
            weigh::scales(ui, desk, false);
        }
        Next::Gauges { gauges, moment } => weigh::gauges(ui, desk, &gauges, moment),
        Next::Lean { hold } => lean::at_hold(ui, look, desk, hold),
        Next::Lift { index } => lift(ui, look, desk, index),
        Next::Hold { hold } => hold::begin(ui, look, desk, hold),
        Next::Holding { hold } => hold::holding(ui, look, desk, hold),
        Next::Stopped => stop::show(ui, look, desk),
        Next::TakeOff { index } => unload::show(ui, look, desk, index),
        Next::Close => {
            close(ui, desk);
            ui.add_space(10.0);
            unload::scales(ui, look, desk);
        }
        Next::Ended => ended(ui, desk),
    }
}

fn head(ui: &mut Ui, look: &Look, day: &testday::Day, (next, in_window): (Option<&Next>, &Plan)) {
    let runs = day.plan.runs().len();
    let [run, placed] = next.map_or([day.runs.len(), day.run().placed()], |next| day.shown_run(next));
    let line = format!(
        "Run {run} of {runs} · {placed} of {} pieces put down · plan {}",
        day.run().as_done().steps(),
        day.fingerprint
    );
    ui.label(look::caption(look, line));
    // Plans that differ in nothing that a file keeps are one.
    if *in_window != day.plan && plan::file::fingerprint(in_window) != day.fingerprint {
        let text = "The plan in the window is another one: this day continues with the plan as it was frozen.";
        ui.label(crate::signs::inked(look, text, Ink::Wanted));
    }
    ui.add_space(6.0);
}

fn lift(ui: &mut Ui, look: &Look, desk: &mut Desk, index: usize) {
    let Some(day) = desk.day().cloned() else { return };
    let (run, plan) = (day.run(), day.run().as_done());
    let step = run.step_of(index) + 1;
    huge(ui, format!("Step {step}: lift {}", plan.piece_name(index)));
    if step > day.plan.steps() {
        big(ui, "An extra piece: it is not on the sheet.");
    }
    if let Some((state, weak)) = desk.outlook().and_then(|outlook| {
        let state = outlook.weak_reserve(index + 1)?;
        Some((state, state.least.reserve()?))
    }) {
        let (model, leans) = match state.leans(plan) {
            Some(leans) => ("as its bags give", format!(" It {leans}.")),
            None => ("in the rigid model", String::new()),
        };
        let text = format!(
            "With this piece, {model}, the stack withstands a level push {} of {:.2} of its weight; {:.2} is required.{leans}",
            weak.toward(),
            weak.multiplier,
            plan.allow.collapse
        );
        ui.add(egui::Label::new(crate::signs::inked(look, text, Ink::Wanted).size(BIG)).wrap());
    }
    if let Some(layout) = desk.layout() {
        big(ui, place_words(plan, layout, index));
        let weighs = plan.stack.get(index).map_or(0.0, |place| plan.mass_of(place).si());
        let then = Mass::kg(run.on_seat_kg() + weighs).shown(plan.units, Grain::Coarse);
        let mass = Mass::kg(weighs).shown(plan.units, Grain::Coarse);
        big(
            ui,
            format!(
                "It weighs {mass}; with it {then} are on the seat. Two people for a lift, or a hoist. Lower it, do not drop it."
            ),
        );
        let scene = Scene {
            plan,
            layout,
            step: index + 1,
            layer: layout.pile.layer.get(index).copied(),
            hide_above: true,
            selected: &[index],
            numbers: Some(run.steps()),
        };
        figures::show(ui, look, &scene);
    }
    let lies = ui.add(large("Placed"));
    // Return or the space bar presses it: the hands are full.
    if desk.wants_focus() {
        lies.request_focus();
    }
    if lies.clicked() {
        desk.enter(ui.ctx(), Entry::Placed { step });
    }
}

fn close(ui: &mut Ui, desk: &mut Desk) {
    huge(ui, "The seat is empty: close the day");
    ui.add_space(8.0);
    let mut row = Row::default();
    let by = row.field(ui, desk, ["Closed by", ""], 320.0);
    let entered = row.entered(ui, desk);
    if button(ui, "Close the day") || entered {
        match by.trim() {
            "" => desk.misfit("Closed by: type a name, it goes into the record.".to_owned()),
            by => desk.enter(ui.ctx(), Entry::Ended { by: by.to_owned() }),
        }
    }
}

fn ended(ui: &mut Ui, desk: &mut Desk) {
    huge(ui, "The test day is closed");
    big(ui, "Save the record, and keep the log beside it: the record is made from it.");
    ui.add_space(8.0);
    if button(ui, "Save the record…") {
        desk.ask(Asked::SaveRecord);
    }
    ui.add_space(8.0);
    if button(ui, "Close this log") {
        *desk = Desk::default();
    }
}
