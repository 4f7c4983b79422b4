//! How the top of a stack of bags leans and sinks, read at a hold: two readings of a plumb string, and a tape.

use super::desk::Desk;
use super::entry::{Row, read};
use super::large::{big, big_inked, huge, primary, quiet};
use super::plausible;
use crate::look::Look;
use assess::expect::Lean;
use drafting::figure::Ink;
use eframe::egui::Ui;
use quantity::{Grain, Kind, Length, Quantity, Units};
use testday::{Account, Entry};

const AFT: &str = "Lean aft";
const RIGHT: &str = "Lean right";
const SINKS: &str = "Top has sunk";

/// At a hold: what is read beside scales and gauges.
pub(super) fn at_hold(ui: &mut Ui, look: &Look, desk: &mut Desk, hold: usize) {
    let name = desk.day().and_then(|day| day.plan.holds.get(hold)).map_or_else(String::new, |hold| hold.name.clone());
    huge(ui, format!("Read how the stack leans, at “{name}”"));
    fields(ui, look, desk);
}

/// The fields, with what each should say.
pub(super) fn fields(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let Some((units, allowed_m)) = desk.day().map(|day| (day.plan.units, day.plan.allow.lean.si())) else { return };
    let (due, fits) =
        desk.account().map_or((None, None), |account| (account.top_due().cloned(), account.top_due_words()));
    let mark = due.as_ref().map_or("the top piece", |due| due.name.as_str());
    match desk.is_stopped() {
        true => {
            big(ui, format!("Read the lean of {mark} again, from a distance or by camera. Forward and left: minus."))
        }
        false => big(
            ui,
            format!(
                "Everybody clear; read from a distance or by camera. The plumb string hangs from the mark at the middle of {mark}: \
                 how far is it from where the plan has that mark? Forward and left take a minus."
            ),
        ),
    }
    ui.add_space(6.0);
    let unit = units.unit(Kind::Length, Grain::Fine).symbol;
    let mut row = if desk.is_stopped() { Row::waiting() } else { Row::default() };
    let texts = [AFT, RIGHT].map(|name| row.field(ui, desk, [name, unit], 110.0));
    told(ui, look, &lean_due(units, allowed_m, (due.as_ref(), fits)));
    let sinks = row.optional(ui, desk, [SINKS, &format!("{unit}, if a tape was read")], 110.0);
    told(ui, look, &sinks_due(units, due.as_ref()));
    softer(ui, look, desk.account());
    let entered = row.entered(ui, desk);
    let pressed = primary(ui, look, "Enter the lean", (row.act(ui), false, false));
    if pressed || entered {
        match typed(units, [&texts[0], &texts[1], &sinks]) {
            Ok((shift_m, sinks_m)) => enter(ui, desk, shift_m, sinks_m),
            Err(sentence) => desk.misfit(sentence),
        }
    }
}

/// The settlement goes first: the lean is judged with what it tells of the bags.
fn enter(ui: &Ui, desk: &mut Desk, shift_m: [f64; 2], sinks_m: Option<f64>) {
    let Some(units) = desk.day().map(|day| day.plan.units) else { return };
    let doubt = plausible::top(units, shift_m, sinks_m, [AFT, RIGHT, SINKS]);
    let sunk = sinks_m.map(|sinks_m| Entry::SettlementRead { sinks_m });
    desk.enter_meant(ui.ctx(), doubt, sunk.into_iter().chain([Entry::LeanRead { shift_m }]).collect());
}

fn typed(units: Units, [aft, right, sinks]: [&str; 3]) -> Result<([f64; 2], Option<f64>), String> {
    let length = |name: &str, text: &str| {
        read::<Length>(text, units, Grain::Fine).map(Quantity::si).map_err(|why| format!("{name}: {why}"))
    };
    let sunk = if sinks.trim().is_empty() { None } else { Some(length(SINKS, sinks)?) };
    Ok(([length(AFT, aft)?, length(RIGHT, right)?], sunk))
}

fn lean_due(units: Units, allowed_m: f64, (due, fits): (Option<&Lean>, Option<String>)) -> String {
    match due.zip(fits) {
        Some((due, fits)) => {
            let usual = testday::shift_words(units, due.shift.map(|shift| shift.usual_m));
            let allowed = Length::m(allowed_m).shown(units, Grain::Fine);
            format!("by the plan {usual}; {fits} fits, and no more than {allowed} both ways together (stop beyond)")
        }
        None => "what it should be is not known: the stack was not shown to stand as its bags give".to_owned(),
    }
}

fn sinks_due(units: Units, due: Option<&Lean>) -> String {
    let Some(due) = due else { return String::new() };
    let length = |m: f64| Length::m(m).shown(units, Grain::Fine);
    let [from, to] = due.sinks.fits_from_to_m(2.0).map(length);
    format!("lower than the pieces' thicknesses add to: {} by the plan, {from} to {to} fits", length(due.sinks.usual_m))
}

/// What the settlements have told so far.
fn softer(ui: &mut Ui, look: &Look, account: Option<&Account>) {
    let Some((account, softer)) = account.and_then(|account| Some((account, account.softer.as_ref()?))) else { return };
    let ink = if softer.counts() { Ink::Wanted } else { Ink::Quiet };
    big_inked(ui, look, softer.words(&account.day), ink);
    ui.add_space(6.0);
}

fn told(ui: &mut Ui, look: &Look, text: &str) {
    quiet(ui, look, text);
    ui.add_space(4.0);
}
