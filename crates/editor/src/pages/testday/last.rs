//! The last page of a day: the pile as it stood, what it shows, who was there. It is made to be kept.

use super::about::Said;
use super::desk::{Asked, Desk};
use super::large::{Act, big_size, button, huge_size, primary, quiet};
use super::times::local;
use super::{aside, at, figures, halves};
use crate::look::{self, Look};
use crate::signs;
use drafting::figure::Ink;
use drafting::record;
use drafting::views::Scene;
use eframe::egui::{self, RichText, Ui, vec2};
use quantity::{Grain, Mass, Quantity};
use testday::{Account, Answer, Day, RunDone};

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let Some(account) = desk.account().cloned() else { return };
    let area = ui.max_rect().shrink2(vec2(super::EDGE, 6.0));
    let [left, right] = halves(area, 0.48);
    if let Some(said) = at(ui, left, |ui| stood(ui, look, &account)) {
        desk.say_of(said);
    }
    at(ui, right, |ui| {
        super::column(ui, "day last", |ui| {
            desk.trouble(ui, look);
            shown(ui, look, &account);
            chart(ui, look, &account);
            facts(ui, look, desk, &account);
            ways(ui, look, desk);
        });
    });
}

/// The run that carried most, by its place in the day.
fn heaviest(account: &Account) -> Option<(usize, &RunDone)> {
    let runs = account.day.runs.iter().enumerate();
    runs.max_by(|a, b| a.1.applied_kg(a.1.last_on).total_cmp(&b.1.applied_kg(b.1.last_on)))
}

/// What was carried, and the pile as it stood then.
fn stood(ui: &mut Ui, look: &Look, account: &Account) -> Option<Said> {
    let (number, run) = heaviest(account)?;
    let kg = run.applied_kg(run.last_on);
    let [huge, big] = [huge_size(ui), big_size(ui)];
    let mass = Mass::kg(kg).shown(account.day.plan.units, Grain::Coarse);
    ui.label(look::bold(mass, 1.5 * huge));
    let held = run.holds.iter().filter(|hold| hold.last_on == run.last_on).map(|hold| hold.lasted_s).reduce(f64::max);
    let held = held.map_or_else(|| "not held".to_owned(), |s| format!("held {:.1} s", (10.0 * s).floor() / 10.0));
    ui.add(egui::Label::new(RichText::new(format!("{held}: {}", account.day.plan.title)).size(big)).truncate());
    let at_time = run.weighings.last().map_or_else(String::new, |w| format!(", {} local time", local(&w.at, 5)));
    let step = run.last_on.map_or(0, |last| last + 1);
    quiet(ui, look, format!("As it stood after step {step} of run {}{at_time}", number + 1));
    let plan = run.as_done();
    let layout = assess::assess(plan, assess::Ask::closed()).closed;
    let numbers = Some(run.steps());
    let scene = Scene { step: run.placed(), numbers, ..Scene::whole(plan, &layout) };
    figures::alone(ui, look, &scene)
}

/// The three answers with why.
fn shown(ui: &mut Ui, look: &Look, account: &Account) {
    let size = big_size(ui);
    for (question, answer) in account.verdict.answers() {
        let (sign, ink) = record::sign_of(answer);
        ui.horizontal(|ui| {
            signs::sign(ui, look, sign, ink);
            ui.add(egui::Label::new(look::bold(format!("{question} {}", answer.word()), size)).wrap());
        });
        let why = egui::Label::new(signs::inked(look, answer.why(), Ink::Quiet).size(0.66 * size));
        // A yes is told in full in the record; whatever else it is, is read here.
        let why = if matches!(answer, Answer::Yes(_)) { why.truncate() } else { why.wrap() };
        ui.add(why).on_hover_text(answer.why());
    }
}

/// Below this height of the window the chart is low, points.
const LOW: f32 = 860.0;

fn chart(ui: &mut Ui, look: &Look, account: &Account) {
    let Some((run, _)) = heaviest(account) else { return };
    // In a low window the buttons under it keep their room.
    let high = if ui.ctx().content_rect().height() < LOW { 30.0 } else { 42.0 };
    let chart = record::deflections(account, run, [112.0, high]);
    if chart.is_none() {
        let words = "Load against deflection: no gauge was read under load.";
        ui.label(signs::inked(look, words, Ink::Quiet).size(0.66 * big_size(ui)));
    }
    aside::chart(ui, look, "Load against deflection", chart);
}

fn facts(ui: &mut Ui, look: &Look, desk: &Desk, account: &Account) {
    let Some(journal) = desk.journal() else { return };
    let (day, log) = (&account.day, journal.log());
    let date = log.lines().first().map_or("", |line| line.at.split(' ').next().unwrap_or_default());
    let stops = match day.stops.len() {
        0 => "no stop".to_owned(),
        1 => "one stop".to_owned(),
        many => format!("{many} stops"),
    };
    let rows = [
        ("People", day.people.clone()),
        ("Date", date.to_owned()),
        ("Plan and log", format!("{} · {}, {} lines", day.fingerprint, log.fingerprint(), log.lines().len())),
        ("On the way", stops),
        ("Inspection", inspected(day)),
        ("Closed by", day.ended.clone().unwrap_or_default()),
    ];
    let size = 0.72 * big_size(ui);
    ui.separator();
    egui::Grid::new("day facts").num_columns(2).spacing([16.0, 3.0]).show(ui, |ui| {
        for (name, text) in rows {
            ui.label(signs::inked(look, name, Ink::Quiet).size(size));
            ui.add(egui::Label::new(RichText::new(text).size(size)).wrap());
            ui.end_row();
        }
    });
}

/// How many inspections were entered, and what the first one says.
fn inspected(day: &Day) -> String {
    let Some((_, first)) = day.inspections.first() else { return "nobody has entered an inspection".to_owned() };
    let found = first.found.as_deref().unwrap_or("nothing found");
    let more = match day.inspections.len() {
        1 => String::new(),
        many => format!(" (and {} more)", many - 1),
    };
    format!("{}: {found}; by {}{more}", first.place, first.by)
}

fn ways(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    ui.add_space(6.0);
    // Nothing but the record is left to do.
    if primary(ui, look, "Save the record…", (Act::Plain, desk.heard.free, desk.wants_focus())) {
        desk.ask(Asked::SaveRecord);
    }
    ui.add_space(6.0);
    ui.horizontal_wrapped(|ui| {
        if button(ui, "Save picture…") {
            desk.ask(Asked::SavePicture);
        }
        if button(ui, "Close this log") {
            *desk = Desk::default();
        }
    });
    let size = 0.62 * big_size(ui);
    let words = "Keep the log beside the record, which is made from it. An aid, not an approval: a licensed engineer or inspector decides.";
    ui.add(egui::Label::new(signs::inked(look, words, Ink::Quiet).size(size)).wrap());
}
