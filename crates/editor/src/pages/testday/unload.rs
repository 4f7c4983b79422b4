//! What comes off next, where it lies, and how what is left stands then.

use super::desk::Desk;
use super::large::{Act, big, big_inked, huge, primary};
use super::{stop, weigh};
use crate::look::Look;
use crate::signs;
use assess::Beside;
use assess::unload::Left;
use drafting::figure::{Ink, Sign};
use drafting::sheet::{bounded, reserve_words, step_reserve};
use eframe::egui::{self, CollapsingHeader, Ui};
use plan::Plan;
use quantity::{Grain, Mass, Quantity};
use testday::{Entry, Judged, Stage};

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk, index: usize) {
    let Some(day) = desk.day().cloned() else { return };
    let (run, plan) = (day.run(), day.run().as_done());
    let step = run.step_of(index) + 1;
    if let (Some(why), Stage::Unloading) = (&day.aborted, run.stage) {
        big_inked(ui, look, format!("Given up: {why}"), Ink::Wanted);
    }
    // What was put on by this log is released by it; an older one only tells it.
    let older = run.straps.is_empty();
    for strap in run.released_before(run.off.len()).into_iter().filter(|_| older) {
        let release = format!("First release the binding strap “{strap}”. Stay out of its line: it is under tension.");
        big_inked(ui, look, release, Ink::Wanted);
    }
    let bears = desk.back().is_none_or(|back| back.left_after(index).is_none_or(|left| left.bears(plan)));
    let what = format!("Take off {} (step {step})", plan.piece_name(index));
    huge(
        ui,
        if bears {
            what
        } else {
            format!("STOP. Nobody goes near. Planned next: {} (step {step})", plan.piece_name(index))
        },
    );
    let there = run.on_seat().len();
    let lie = if there == 1 { "One piece is in place.".to_owned() } else { format!("{there} pieces are in place.") };
    big(ui, format!("{lie} Take nothing from under another piece. Nobody reaches under the load."));
    if let Some(back) = desk.back() {
        margins(ui, look, plan, back.left_after(index));
    }
    ui.add_space(8.0);
    let word = if bears { "Taken off" } else { "Taken off by another way" };
    if primary(ui, look, word, (Act::Protected, desk.heard.free, false)) {
        desk.enter(ui.ctx(), Entry::Unloaded { step });
    }
    ui.add_space(10.0);
    scales(ui, look, desk);
}

fn said(judged: &Judged) -> &'static str {
    match (judged.fits(), judged.placed) {
        (true, 0) => "The scales came back to the tare.",
        (true, _) => "The scales fit what is left.",
        (false, 0) => {
            "The scales did not come back to the tare. The seat is empty: look at the straps, at what the article touches, and for what gave way."
        }
        (false, _) => {
            "The scales do not fit what is left. Stand clear. Before the next piece look from a distance: what is in place, where, \
             and what the article touches."
        }
    }
}

/// What the scales say of what is left, where someone reads them: a misfit is told at once.
pub(super) fn scales(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    if let Some(judged) = desk.judged_left_now() {
        let (sign, ink) = if judged.fits() { (Sign::Holds, Ink::Is) } else { (Sign::Fails, Ink::Wanted) };
        ui.horizontal(|ui| {
            signs::sign(ui, look, sign, ink);
            big_inked(ui, look, said(&judged), ink);
        });
        stop::misfits(ui, desk, &judged);
    }
    if desk.due_left().iter().any(Option::is_some) {
        let empty = desk.day().is_some_and(|day| day.run().on_seat().is_empty());
        let head = if empty { "Read the scales on the empty seat" } else { "Read the scales with what is left" };
        let head = egui::RichText::new(head).size(super::large::big_size(ui));
        CollapsingHeader::new(head).id_salt("what is left").show(ui, |ui| weigh::left(ui, look, desk));
    }
}

fn margins(ui: &mut Ui, look: &Look, plan: &Plan, left: Option<&Left>) {
    let Some(left) = left else { return big(ui, "After it the seat is empty.") };
    let mass = Mass::kg(left.applied_kg).shown(plan.units, Grain::Coarse);
    let [fore_aft, lateral] = Beside::both(left.offset_m, plan.target.tolerance().map(Quantity::si));
    big(
        ui,
        format!(
            "After it {mass} are left; the line of action is then {} and {} of the occupant point.",
            fore_aft.side_words(plan.units),
            lateral.side_words(plan.units)
        ),
    );
    let both = [
        (
            "Push that the stack then withstands, part of its weight",
            stack_words(plan, left),
            plan.allow.collapse,
            left.stack_bears(plan),
        ),
        (
            "Push that the fixture then withstands, part of the stack's weight",
            reserve_words(left.push),
            plan.allow.fixture_push,
            left.fixture_bears(plan),
        ),
    ];
    for (what, words, asked, bears) in both {
        let text = format!("{what}: {words}, required {asked:.2}.");
        match bears {
            true => big(ui, text),
            false => {
                let text = format!(
                    "{text} That is too little. Stop, everybody clear: nobody goes near until another way down is planned, such as a hoist worked from a distance."
                );
                big_inked(ui, look, text, Ink::Wanted);
            }
        }
    }
}

/// The reserve with how it ends, as far as it is known.
fn stack_words(plan: &Plan, left: &Left) -> String {
    if left.reserve.is_bound() {
        return bounded(&left.reserve);
    }
    match left.reserve.leans(plan) {
        Some(leans) => format!("{}; it {leans}", reserve_words(left.reserve.least)),
        None => step_reserve(&left.reserve),
    }
}
