//! The one active task: what to lift, read, hold or take off.

use super::desk::Desk;
use super::large::{Act, big, big_inked, big_size, huge, huge_size, primary};
use super::{close, hold, last_read, lean, outlook, strap, unload, weigh};
use crate::look::{self, Look};
use crate::signs;
use assess::handling;
use drafting::figure::{Ink, Sign};
use drafting::sheet::{Taped, taped_place};
use eframe::egui::{self, Frame, Margin, RichText, Stroke, Ui};
use plan::Plan;
use quantity::{Grain, Mass, Quantity};
use testday::{Entry, Next, RunDone};

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let Some(day) = desk.day().cloned() else { return };
    let Some(next) = desk.next() else {
        big(ui, "Being solved…");
        return big(ui, "Put nothing on and take nothing off until it is.");
    };
    outlook::show(ui, look, desk, &next);
    let tells_last = !matches!(next, Next::Tare | Next::Holding { .. } | Next::Stopped | Next::Ended);
    match next {
        Next::Tare => weigh::scales(ui, look, desk, true),
        Next::Read => {
            if day.read_again {
                big(ui, "The cause was fixed: do the scales fit now?");
            }
            weigh::scales(ui, look, desk, false);
        }
        Next::Gauges { gauges, moment } => weigh::gauges(ui, look, desk, (&gauges, moment)),
        Next::Lean { hold } => lean::at_hold(ui, look, desk, hold),
        Next::Lift { index } => lift(ui, look, desk, index),
        Next::StrapOn { binding } => strap::put_on(ui, look, desk, binding),
        Next::StrapOff { binding } => strap::release(ui, look, desk, binding),
        Next::Hold { hold } => hold::begin(ui, look, desk, hold),
        Next::Holding { hold } => hold::holding(ui, look, desk, hold),
        Next::TakeOff { index } => unload::show(ui, look, desk, index),
        Next::Close => {
            close::show(ui, look, desk);
            ui.add_space(10.0);
            unload::scales(ui, look, desk);
        }
        Next::Stopped | Next::Ended => {}
    }
    if tells_last {
        last_read::beside_next(ui, look, desk);
    }
}

fn lift(ui: &mut Ui, look: &Look, desk: &mut Desk, index: usize) {
    let Some(day) = desk.day().cloned() else { return };
    let (run, plan) = (day.run(), day.run().as_done());
    let step = run.step_of(index) + 1;
    huge(ui, format!("Step {step}: lift {}", plan.piece_name(index)));
    if step > day.plan.steps() {
        big(ui, "An extra piece: it is not on the sheet.");
    }
    weak(ui, look, desk, (plan, index));
    if let Some(layout) = desk.layout() {
        let taped = taped_place(plan, layout, index);
        let layer = layout.pile.layer.get(index).copied().unwrap_or(1);
        big(ui, format!("Layer {layer}. {}.", taped.lies));
        tapes(ui, look, &taped);
        let lifts = handling::lifts(plan, layout);
        let lift = lifts.iter().find(|lift| lift.step == index);
        lifting(ui, look, plan, lift);
        big(ui, on_the_seat(run, plan, (index, lift.is_some())));
    }
    ui.add_space(6.0);
    let ready = has_stood(ui.ctx(), index);
    let (free, first) = (desk.heard.free && ready, ready && desk.wants_focus());
    if primary(ui, look, "Placed", (Act::Plain, free, first)) {
        desk.enter(ui.ctx(), Entry::Placed { step });
    }
}

/// Enter counts for a piece only when its page has stood for so long, s: a second press of the Enter that ended the
/// readings before must not say that a piece lies there which nobody has lifted.
const STANDS_S: f64 = 0.7;

fn has_stood(ctx: &egui::Context, index: usize) -> bool {
    let now_s = ctx.input(|input| input.time);
    let id = egui::Id::unique("the piece to be lifted");
    let (since, since_s) = ctx.data_mut(|data| *data.get_temp_mut_or(id, (index, now_s)));
    let since_s = if since == index { since_s } else { now_s };
    ctx.data_mut(|data| data.insert_temp(id, (index, since_s)));
    let left_s = STANDS_S - (now_s - since_s);
    if left_s > 0.0 {
        ctx.request_repaint_after(std::time::Duration::from_secs_f64(left_s));
    }
    left_s <= 0.0
}

/// With this piece the stack withstands less than is required.
fn weak(ui: &mut Ui, look: &Look, desk: &Desk, (plan, index): (&Plan, usize)) {
    let of = desk.outlook().and_then(|outlook| {
        let state = outlook.weak_reserve(index + 1)?;
        Some((state, state.least.reserve()?))
    });
    let Some((state, weak)) = of else { return };
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
    big_inked(ui, look, text, Ink::Wanted);
}

/// Where nothing is known of the lift, two people are told; else the warning of the lift tells who lifts.
fn on_the_seat(run: &RunDone, plan: &Plan, (index, lift_known): (usize, bool)) -> String {
    let weighs = plan.stack.get(index).map_or(0.0, |place| plan.mass_of(place).si());
    let then = Mass::kg(run.on_seat_kg() + weighs).shown(plan.units, Grain::Coarse);
    let mass = Mass::kg(weighs).shown(plan.units, Grain::Coarse);
    let who = if lift_known { "" } else { "Two people for a lift, or a hoist. " };
    format!("It weighs {mass}; with it {then} are on the seat. {who}Lower it, do not drop it.")
}

/// The two figures of the tape.
fn tapes(ui: &mut Ui, look: &Look, taped: &Taped) {
    let [huge, big] = [huge_size(ui), big_size(ui)];
    let wide = 0.5 * (ui.available_width() - 12.0);
    ui.horizontal_top(|ui| {
        for [from, how_far] in &taped.edges {
            let frame = Frame::new().fill(look.field()).stroke(Stroke::new(1.0, look.rule())).corner_radius(4);
            frame.inner_margin(Margin::symmetric(10, 6)).show(ui, |ui| {
                ui.set_width(wide - 22.0);
                ui.set_min_height(1.9 * big + 1.3 * huge);
                ui.vertical(|ui| {
                    let from = RichText::new(from).size(0.72 * big).color(look.ink(Ink::Quiet));
                    ui.add(egui::Label::new(from).wrap());
                    ui.add(egui::Label::new(look::bold(how_far, huge)).wrap());
                });
            });
        }
    });
}

/// Told where the lift is above what one pair of hands should take.
fn lifting(ui: &mut Ui, look: &Look, plan: &Plan, lift: Option<&handling::PieceLift>) {
    let Some((lift, warning)) = lift.and_then(|lift| Some((lift, lift.warning()?))) else { return };
    let [mass, height] = [lift.mass.shown(plan.units, Grain::Coarse), lift.put_down.shown(plan.units, Grain::Coarse)];
    let text = format!("Lifting: {mass} up to {height}. {warning}");
    Frame::new().fill(look.caution()).corner_radius(4).inner_margin(Margin::symmetric(10, 6)).show(ui, |ui| {
        ui.horizontal(|ui| {
            signs::sign(ui, look, Sign::Near, Ink::Wanted);
            big(ui, text);
        });
    });
}
