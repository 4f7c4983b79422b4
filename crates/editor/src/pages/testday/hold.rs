//! A hold: the load that is due, where it acts, the clock.

use super::desk::Desk;
use super::large::{Act, big, big_inked, big_size, huge, primary};
use crate::look::{self, Look};
use assess::load::Load;
use drafting::figure::Ink;
use eframe::egui::{self, Ui};
use plan::Hold;
use quantity::{Grain, Mass, Quantity};
use testday::{Day, Entry, due_s};

pub(super) fn begin(ui: &mut Ui, look: &Look, desk: &mut Desk, hold: usize) {
    let Some(day) = desk.day().cloned() else { return };
    let Some(planned) = day.plan.holds.get(hold) else { return };
    huge(ui, format!("Hold “{}”", planned.name));
    load(ui, &day, planned);
    clock(ui, planned, 0.0);
    big(
        ui,
        "Everybody clear. Start the hold, look and listen from a distance; then read the gauges from a distance or by camera.",
    );
    where_it_acts(ui, look, desk, hold);
    ui.add_space(8.0);
    let first = desk.wants_focus();
    if primary(ui, look, "Start the hold", (Act::Plain, desk.heard.free, first)) {
        desk.enter(ui.ctx(), Entry::HoldBegan { hold: planned.name.clone() });
    }
}

pub(super) fn holding(ui: &mut Ui, look: &Look, desk: &mut Desk, hold: usize) {
    let Some(day) = desk.day().cloned() else { return };
    let Some(planned) = day.plan.holds.get(hold) else { return };
    let timer = desk.timer(ui.ctx());
    huge(ui, format!("Hold “{}”", planned.name));
    load(ui, &day, planned);
    clock(ui, planned, timer.seen_s());
    let enough = timer.seen_s() >= due_s(planned.at);
    match timer.seen_s() >= due_s(planned.at).max(planned.planned_time().si()) {
        true => big(ui, "Long enough. End it when you have looked, from a distance."),
        false if enough && planned.time.is_some() => {
            big(ui, "Keep holding the load. Ended before its time, the hold is told as “held, but”.");
        }
        false => big(ui, "Keep holding the load."),
    }
    if timer.unseen_s() > 0.0 {
        let text = format!("{:.0} s were not watched and do not count.", timer.unseen_s());
        big_inked(ui, look, text, Ink::Wanted);
    }
    ui.add_space(8.0);
    let word = if enough { "End the hold" } else { "End the hold too early" };
    if primary(ui, look, word, (Act::Protected, desk.heard.free, false)) {
        let entry =
            Entry::HoldEnded { hold: planned.name.clone(), lasted_s: timer.seen_s(), unseen_s: timer.unseen_s() };
        desk.enter(ui.ctx(), entry);
    }
}

/// The load that is due here, and what lies there.
fn load(ui: &mut Ui, day: &Day, planned: &Hold) {
    let Some(load) = day.plan.case_in_hand().map(Load::of) else { return };
    let mass = |kg: f64| Mass::kg(kg).shown(day.plan.units, Grain::Coarse);
    let parts = |kg: f64| {
        let [limit, ultimate] = [load.limit.as_mass(), load.ultimate.as_mass()].map(|due| 100.0 * kg / due.si());
        format!("{limit:.1} % of limit, {ultimate:.1} % of ultimate")
    };
    let due_kg = planned.at * load.ultimate.as_mass().si();
    let there_kg = day.run().on_seat_kg();
    big(ui, format!("Due: {}, {}.", mass(due_kg), parts(due_kg)));
    big(ui, format!("On the seat by the pieces: {}, {}.", mass(there_kg), parts(there_kg)));
}

/// The time that was held, beside the time that must be.
fn clock(ui: &mut Ui, planned: &Hold, seen_s: f64) {
    // Never rounded up to what is due.
    let tenths = (seen_s * 10.0).floor() / 10.0;
    ui.horizontal(|ui| {
        let big = big_size(ui);
        ui.label(look::bold(format!("{tenths:.1} s"), 3.6 * big));
        let due = match due_s(planned.at) {
            due if due > 0.0 => format!("of {due:.0} s at the least"),
            _ => format!(
                "of {:.0} s planned; the rules ask no least time below ultimate load",
                planned.planned_time().si()
            ),
        };
        ui.add(egui::Label::new(egui::RichText::new(due).size(big)).wrap());
    });
}

/// What may be done about a load that acts beside the point.
pub(super) const BESIDE: &str = "Continue only if whoever the test is for accepts it there. Else correct it by where the next \
                                 pieces go, or take off what is in the wrong place, and hold it then.";

/// Where the load acts that is about to be held: a hold beside the point is no plain yes.
fn where_it_acts(ui: &mut Ui, look: &Look, desk: &Desk, hold: usize) {
    let Some(account) = desk.account() else { return };
    let run = account.day.runs.len() - 1;
    let Some(line) = account.line_of_action(run, account.day.run().last_on) else { return };
    let line = line.at_hold(&account.day.plan, hold);
    let words = line.words(account.day.plan.units);
    match line.fits() {
        true => big(ui, format!("The line of action is {words}.")),
        false => {
            let text = format!(
                "The line of action is {words}. A hold now is a hold there: the record will not say a plain yes. {BESIDE}"
            );
            big_inked(ui, look, text, Ink::Wanted);
        }
    }
}
