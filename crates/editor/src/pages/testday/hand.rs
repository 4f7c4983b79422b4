//! The one thing in hand: what to lift, read, hold or take off.

use super::entry::{field, mass_kg, read};
use super::{BIG, Desk, big, button, huge, stop};
use crate::look::{self, Look};
use crate::paint;
use drafting::figure::Ink;
use drafting::lower::{self, Viewport};
use drafting::sheet::place_words;
use drafting::views::{self, Scene};
use eframe::egui::{self, Sense, Ui, vec2};
use plan::Plan;
use quantity::{Force, Grain, Kind, Length, Mass, Quantity};
use testday::{Entry, Moment, Next, Range, Reading, Stage, due_s};

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk, in_window: &Plan) {
    let Some(day) = desk.day().cloned() else { return };
    head(ui, look, &day, in_window);
    let Some(next) = desk.next() else {
        big(ui, "Being worked out…");
        return;
    };
    match next {
        Next::Tare => weigh(ui, desk, true),
        Next::Read => weigh(ui, desk, false),
        Next::Gauges { gauges, moment } => read_gauges(ui, desk, &gauges, moment),
        Next::Lift { index } => lift(ui, look, desk, index),
        Next::Hold { hold } => begin_hold(ui, look, desk, hold),
        Next::Holding { hold } => holding(ui, look, desk, hold),
        Next::Stopped => stop::show(ui, look, desk),
        Next::TakeOff { index } => take_off(ui, look, desk, index),
        Next::Close => close(ui, desk),
        Next::Ended => ended(ui, desk),
    }
}

fn head(ui: &mut Ui, look: &Look, day: &testday::Day, in_window: &Plan) {
    let [run, runs] = day.run_of();
    let placed = day.run().placed();
    let line = format!(
        "Run {run} of {runs} · {placed} of {} pieces put down · plan {}",
        day.run().as_done().steps(),
        day.fingerprint
    );
    ui.label(look::caption(look, line));
    if *in_window != day.plan {
        let text = "The plan in the window is another one: this day goes on with the plan as it was frozen.";
        ui.label(crate::signs::inked(look, text, Ink::Wanted));
    }
    ui.add_space(6.0);
}

/// The fields for the scales, with what each should show.
pub(super) fn weigh(ui: &mut Ui, desk: &mut Desk, tare: bool) {
    match tare {
        true => huge(ui, "Read the scales before the first bag"),
        false => huge(ui, "Read the scales"),
    }
    if tare {
        big(ui, "What they show now is the tare. It is taken out of every later reading, scale by scale.");
    }
    ui.add_space(10.0);
    let Some(day) = desk.day().cloned() else { return };
    let plan = day.run().as_done().clone();
    let ranges = ranges(desk, tare);
    let unit = plan.units.unit(Kind::Mass, Grain::Coarse).symbol;
    let mut texts = Vec::new();
    for (support, range) in plan.fixture.supports.iter().zip(ranges) {
        if support.scale {
            let text = field(ui, desk, &support.name, unit, 110.0);
            expected(ui, &plan, range);
            texts.push((support.name.clone(), text));
        }
    }
    let force = plan.units.unit(Kind::Force, Grain::Coarse).symbol;
    let mut pulls = Vec::new();
    for strap in &plan.fixture.hold_downs {
        let text = field(ui, desk, &strap.name, &format!("{force}, if it has a gauge"), 110.0);
        pulls.push((strap.name.clone(), text));
    }
    ui.add_space(8.0);
    let enter = ui.input(|i| i.key_pressed(egui::Key::Enter)) && texts.iter().all(|(_, text)| !text.trim().is_empty());
    let word = if tare { "Take the tare" } else { "Enter the readings" };
    if button(ui, word) || enter {
        match reading(&texts, &pulls, &plan) {
            Ok(reading) if tare => desk.enter(ui.ctx(), Entry::Tare(reading)),
            Ok(reading) => desk.enter(ui.ctx(), Entry::Reading(reading)),
            Err(sentence) => desk.misfit(sentence),
        }
    }
}

/// What each support's scale should show in the state in hand.
fn ranges(desk: &Desk, tare: bool) -> Vec<Option<Range>> {
    let (Some(day), Some(course)) = (desk.day(), desk.account().and_then(|account| account.courses.last())) else {
        return Vec::new();
    };
    let run = day.run();
    match (&run.tare, tare) {
        (Some(taken), false) => course.ranges(&taken.reading, [run.count_to(taken.last_on), run.placed()]),
        _ => course.at_tare(run.placed()),
    }
}

fn expected(ui: &mut Ui, plan: &Plan, range: Option<Range>) {
    let mass = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let text = match range {
        Some(range) if range.stop_kg.is_finite() => {
            format!("should show {}, within ± {} (stop beyond)", mass(range.reading_kg), mass(range.stop_kg))
        }
        Some(range) => {
            format!("about {} by the plan; a difference stands on the scales and is tared", mass(range.reading_kg))
        }
        None => "what it should show is not known: no tare, or the fixture is not known to stand".to_owned(),
    };
    ui.horizontal(|ui| {
        ui.add_space(198.0);
        ui.label(egui::RichText::new(text).size(14.0));
    });
    ui.add_space(4.0);
}

fn reading(texts: &[(String, String)], pulls: &[(String, String)], plan: &Plan) -> Result<Reading, String> {
    let mut reading = Reading::default();
    for (name, text) in texts {
        let kg = mass_kg(text, plan.units).map_err(|why| format!("{name}: {why}"))?;
        reading.scales_kg.insert(name.clone(), kg);
    }
    for (name, text) in pulls.iter().filter(|(_, text)| !text.trim().is_empty()) {
        let pull: Force = read(text, plan.units, Grain::Coarse).map_err(|why| format!("{name}: {why}"))?;
        reading.straps_n.insert(name.clone(), pull.si());
    }
    Ok(reading)
}

fn read_gauges(ui: &mut Ui, desk: &mut Desk, gauges: &[usize], moment: Moment) {
    let when = match moment {
        Moment::Before => "before loading",
        Moment::Hold(_) | Moment::Between => "under load",
        Moment::After => "after unloading: what is left is permanent set",
    };
    huge(ui, format!("Read the gauges, {when}"));
    ui.add_space(10.0);
    let Some(plan) = desk.day().map(|day| day.plan.clone()) else { return };
    let unit = plan.units.unit(Kind::Length, Grain::Fine).symbol;
    // One at a time: an entry is one reading, on the disk before the next one is asked for.
    let Some(gauge) = gauges.first().and_then(|gauge| plan.gauges.get(*gauge)) else { return };
    let text = field(ui, desk, &gauge.name, unit, 110.0);
    ui.add_space(8.0);
    let enter = ui.input(|i| i.key_pressed(egui::Key::Enter)) && !text.trim().is_empty();
    if button(ui, "Enter the gauge") || enter {
        match read::<Length>(&text, plan.units, Grain::Fine) {
            Ok(length) => {
                let entry = Entry::Gauge { gauge: gauge.name.clone(), reading_m: length.si() };
                desk.enter(ui.ctx(), entry);
            }
            Err(why) => desk.misfit(format!("{}: {why}", gauge.name)),
        }
    }
    if gauges.len() > 1 {
        big(ui, format!("{} more after this one.", gauges.len() - 1));
    }
}

fn lift(ui: &mut Ui, look: &Look, desk: &mut Desk, index: usize) {
    let Some(day) = desk.day().cloned() else { return };
    let (run, plan) = (day.run(), day.run().as_done());
    let step = run.step_of(index) + 1;
    huge(ui, format!("Step {step}: lift {}", plan.piece_name(index)));
    if let Some(layout) = desk.layout() {
        big(ui, place_words(plan, layout, index));
        let weighs = plan.stack.get(index).map_or(0.0, |place| plan.mass_of(place).si());
        let then = Mass::kg(run.on_seat_kg() + weighs).shown(plan.units, Grain::Coarse);
        let mass = Mass::kg(weighs).shown(plan.units, Grain::Coarse);
        big(ui, format!("It weighs {mass}; then {then} lie on the seat."));
        let scene = Scene {
            plan,
            layout,
            step: index + 1,
            layer: layout.pile.layer.get(index).copied(),
            hide_above: true,
            selected: &[index],
        };
        drawing(ui, look, &scene);
    }
    if button(ui, "It lies there") {
        desk.enter(ui.ctx(), Entry::Placed { step });
    }
}

/// From above and from the side, the piece in hand with a heavy outline.
fn drawing(ui: &mut Ui, look: &Look, scene: &Scene) {
    ui.add_space(6.0);
    let width = (ui.available_width() - 16.0) / 2.0;
    let figures = [
        ("From above: aft to the right", views::above(scene)),
        ("From the side: aft to the right", views::side(scene)),
    ];
    ui.horizontal(|ui| {
        for (caption, figure) in figures {
            let (rect, response) = ui.allocate_exact_size(vec2(width, 320.0), Sense::hover());
            response.widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Image, true, caption));
            ui.painter().rect_stroke(rect, 2.0, egui::Stroke::new(1.0, look.rule()), egui::StrokeKind::Inside);
            let Some(around) = around_pieces(scene, caption) else { continue };
            let area = [rect.left(), rect.top(), rect.right(), rect.bottom()].map(f64::from);
            let viewport = Viewport::fitting(around, area, 22.0, paint::UNIT_PER_PT);
            paint::primitives(&ui.painter_at(rect), lower::lower(&figure, &viewport, &look.palette));
            let at = rect.left_top() + vec2(6.0, 4.0);
            ui.painter().text(
                at,
                egui::Align2::LEFT_TOP,
                caption,
                egui::FontId::proportional(look::SMALL),
                look.ink(Ink::Quiet),
            );
        }
    });
    ui.add_space(8.0);
}

/// What must be seen: where any piece will lie, so that the drawing keeps its scale from step to step.
fn around_pieces(scene: &Scene, caption: &str) -> Option<[[f64; 2]; 2]> {
    let view = if caption.contains("above") { views::View::Above } else { views::View::Side };
    let corners = (0..scene.plan.steps()).filter_map(|piece| scene.outline(view, piece)).flatten();
    corners.fold(None, |box_of: Option<[[f64; 2]; 2]>, [u, v]| {
        let [low, high] = box_of.unwrap_or([[u, v]; 2]);
        Some([[low[0].min(u), low[1].min(v)], [high[0].max(u), high[1].max(v)]])
    })
}

fn begin_hold(ui: &mut Ui, look: &Look, desk: &mut Desk, hold: usize) {
    let Some(plan) = desk.day().map(|day| day.plan.clone()) else { return };
    let Some(planned) = plan.holds.get(hold) else { return };
    huge(ui, format!("Hold “{}”", planned.name));
    let due = match due_s(planned.at) {
        due if due > 0.0 => format!("At least {due:.0} s at ultimate load. "),
        _ => String::new(),
    };
    big(ui, format!("{due}Everybody clear. Look, listen; then read the gauges."));
    where_it_acts(ui, look, desk);
    ui.add_space(8.0);
    if button(ui, "Begin the hold") {
        desk.enter(ui.ctx(), Entry::HoldBegan { hold: planned.name.clone() });
    }
}

/// Where the load acts that is about to be held: a hold beside the point is no plain yes.
fn where_it_acts(ui: &mut Ui, look: &Look, desk: &Desk) {
    let Some(account) = desk.account() else { return };
    let run = account.day.runs.len() - 1;
    let Some(line) = account.line_of_action(run, account.day.run().last_on) else { return };
    let words = line.words(account.day.plan.units);
    match line.fits() {
        true => big(ui, format!("The line of action is {words}.")),
        false => {
            let text = format!(
                "The line of action is {words}. What is held now is held there: the record will not say a plain yes."
            );
            ui.add(egui::Label::new(crate::signs::inked(look, text, Ink::Wanted).size(BIG)).wrap());
        }
    }
}

fn holding(ui: &mut Ui, look: &Look, desk: &mut Desk, hold: usize) {
    let Some(plan) = desk.day().map(|day| day.plan.clone()) else { return };
    let Some(planned) = plan.holds.get(hold) else { return };
    let timer = desk.timer(ui.ctx());
    let due = due_s(planned.at);
    huge(ui, format!("Hold “{}”", planned.name));
    let tenths = (timer.seen_s() * 10.0).floor() / 10.0;
    ui.label(look::bold(format!("{tenths:.1} s"), 64.0));
    let enough = timer.seen_s() >= due;
    match enough {
        true => big(ui, "Long enough. End it when you have looked."),
        false => big(ui, format!("Hold on: {due:.0} s are due.")),
    }
    if timer.unseen_s() > 0.0 {
        let text = format!("{:.0} s passed without being seen; they do not count.", timer.unseen_s());
        ui.label(crate::signs::inked(look, text, Ink::Wanted).size(BIG));
    }
    ui.add_space(8.0);
    let word = if enough { "End the hold" } else { "End the hold too early" };
    if button(ui, word) {
        let entry =
            Entry::HoldEnded { hold: planned.name.clone(), lasted_s: timer.seen_s(), unseen_s: timer.unseen_s() };
        desk.enter(ui.ctx(), entry);
    }
}

fn take_off(ui: &mut Ui, look: &Look, desk: &mut Desk, index: usize) {
    let Some(day) = desk.day().cloned() else { return };
    let (run, plan) = (day.run(), day.run().as_done());
    let step = run.step_of(index) + 1;
    if let (Some(why), Stage::Unloading) = (&day.aborted, run.stage) {
        ui.label(crate::signs::inked(look, format!("Given up: {why}"), Ink::Wanted).size(BIG));
    }
    huge(ui, format!("Take off {} (step {step})", plan.piece_name(index)));
    let left = run.on_seat().len().saturating_sub(1);
    big(ui, format!("Nothing comes from under anything, and side to side. {left} pieces stay after it."));
    ui.add_space(8.0);
    if button(ui, "It is off") {
        desk.enter(ui.ctx(), Entry::Unloaded { step });
    }
}

fn close(ui: &mut Ui, desk: &mut Desk) {
    huge(ui, "The seat is empty: close the day");
    ui.add_space(8.0);
    let by = field(ui, desk, "Closed by", "", 320.0);
    if button(ui, "Close the day") {
        desk.enter(ui.ctx(), Entry::Ended { by });
    }
}

fn ended(ui: &mut Ui, desk: &mut Desk) {
    huge(ui, "The day is over");
    big(ui, "Save the record, and keep the log beside it: the record is made from it.");
    ui.add_space(8.0);
    if button(ui, "Save the record…") {
        desk.ask(super::Asked::SaveRecord);
    }
}
