//! Beside the active task: the stop, the load on the seat, charts, the verdict, what else can be said.

use super::desk::{Asked, Desk};
use super::{correct, hold, said, spare};
use crate::look::{self, Look};
use crate::paint;
use crate::signs;
use drafting::chart::Chart;
use drafting::figure::{Ink, Sign};
use drafting::lower::{self, Viewport};
use drafting::record;
use eframe::egui::{self, CollapsingHeader, Grid, Sense, Ui, vec2};
use quantity::{Grain, Mass, Quantity};
use testday::{Account, Answer};

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    if !desk.is_open() {
        return;
    }
    if let Some(account) = desk.account() {
        on_the_seat(ui, look, account);
        verdict(ui, look, account);
        let run = account.day.runs.len() - 1;
        chart(ui, look, "Load against deflection", record::deflections(account, run, CHART_MM));
        chart(ui, look, "How far readings were off", record::residuals(account, run, CHART_MM));
    }
    ui.add_space(6.0);
    folded(ui, "Deviation from the plan", |ui| said::deviation(ui, look, desk));
    folded(ui, "Add an extra piece", |ui| spare::show(ui, look, desk));
    folded(ui, "Remarks and photographs", |ui| said::remark(ui, desk));
    folded(ui, "Lines of the log, corrections", |ui| correct::show(ui, look, desk));
    ui.add_space(6.0);
    if ui.button("Save the record so far…").clicked() {
        desk.ask(Asked::SaveRecord);
    }
}

/// A part that is seldom wanted; what it holds comes into view as it opens.
fn folded(ui: &mut Ui, head: &str, add: impl FnOnce(&mut Ui)) {
    let opened = CollapsingHeader::new(head).show(ui, add);
    if opened.header_response.clicked() {
        opened.header_response.scroll_to_me(Some(egui::Align::TOP));
    }
}

fn part(ui: &mut Ui, head: &str) {
    ui.add_space(6.0);
    ui.label(look::bold(head, look::BODY));
}

/// The ledger: rows that add up, then what they mean.
fn on_the_seat(ui: &mut Ui, look: &Look, account: &Account) {
    part(ui, "On the seat");
    let units = account.day.plan.units;
    let mass = |kg: f64| Mass::kg(kg).shown(units, Grain::Coarse);
    ui.label(format!("{} by the pieces put down", mass(account.day.run().on_seat_kg())));
    // The last reading is one of all pieces: beside what is left it would be read as now.
    if matches!(account.day.run().stage, testday::Stage::Unloading | testday::Stage::Done) {
        ui.label(look::caption(look, "What the scales say of what is left is shown in the middle."));
        return;
    }
    let judged = account.judged(account.day.runs.len() - 1);
    let Some(ledger) = judged.last().and_then(|judged| judged.ledger.as_ref()) else {
        ui.label(look::caption(look, "From the scales, once tare and a reading are entered."));
        return;
    };
    Grid::new("ledger").num_columns(3).spacing([10.0, 2.0]).show(ui, |ui| {
        for row in &ledger.rows {
            ui.label(look::caption(look, row.what));
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| ui.label(mass(row.kg)));
            ui.label(look::caption(look, row.basis.word()));
            ui.end_row();
        }
        ui.label(look::bold("on the seat by the scales", look::BODY));
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            ui.label(look::bold(mass(ledger.net_kg), look::BODY));
        });
        ui.label(look::caption(look, format!("± {}", mass(ledger.within_kg))));
        ui.end_row();
    });
    if let Some(kg) = ledger.not_measured_kg {
        ui.label(look::caption(look, format!("Not measured here: {} reckoned.", mass(kg))));
    }
    if let Some(load) = account.day.plan.case_in_hand().map(assess::load::Load::of) {
        let part = |kg: f64| 100.0 * kg / load.ultimate.as_mass().si();
        let limit = 100.0 * ledger.net_kg / load.limit.as_mass().si();
        ui.label(format!(
            "{:.1} ± {:.1} % of ultimate, {limit:.1} % of limit",
            part(ledger.net_kg),
            part(ledger.within_kg)
        ));
    }
    let run = account.day.runs.len() - 1;
    let line = judged.last().and_then(|judged| account.line_of_action(run, judged.weighing.last_on));
    let Some(line) = line else { return };
    let text = format!("Line of action {}", line.words(units));
    if !at_a_hold(account) {
        ui.add(egui::Label::new(look::caption(look, format!("{text}; it counts at the holds."))).wrap());
        return;
    }
    let (sign, ink) = if line.fits() { (Sign::Holds, Ink::Is) } else { (Sign::Near, Ink::Wanted) };
    ui.horizontal(|ui| {
        signs::sign(ui, look, sign, ink);
        ui.add(egui::Label::new(text).wrap());
    });
}

/// Whether what lies on the seat is what a hold is made of.
fn at_a_hold(account: &Account) -> bool {
    let run = account.day.run();
    let runs = run.as_done().runs();
    let holds = runs.get(account.day.runs.len() - 1).map_or(&[][..], |this| &this.holds);
    holds.iter().any(|hold| hold.step.is_some_and(|step| step + 1 == run.placed()))
}

fn verdict(ui: &mut Ui, look: &Look, account: &Account) {
    part(ui, "What the day shows so far");
    let verdict = &account.verdict;
    for (question, answer) in [
        ("Limit held", &verdict.limit),
        ("Ultimate held for 3 s", &verdict.ultimate),
        ("Set after limit within allowed", &verdict.set),
    ] {
        let (sign, ink) = match answer {
            Answer::Yes(_) => (Sign::Holds, Ink::Is),
            Answer::Beside(_) => (Sign::Near, Ink::Wanted),
            Answer::No(_) => (Sign::Fails, Ink::Wanted),
            Answer::NotShown(_) => (Sign::Undecided, Ink::Wanted),
        };
        ui.horizontal(|ui| {
            signs::sign(ui, look, sign, ink);
            ui.label(format!("{question}: {}", answer.word())).on_hover_text(answer.why());
        });
        if let Answer::Beside(why) = answer {
            ui.add(egui::Label::new(signs::inked(look, why, Ink::Wanted)).wrap());
            if account.day.ended.is_none() {
                ui.add(egui::Label::new(look::caption(look, hold::BESIDE)).wrap());
            }
        }
    }
}

/// A chart's size, mm; on the screen a millimetre is as wide as the column allows.
const CHART_MM: [f64; 2] = [112.0, 52.0];

fn chart(ui: &mut Ui, look: &Look, head: &str, chart: Option<Chart>) {
    let Some(chart) = chart else { return };
    part(ui, head);
    let width = ui.available_width();
    let scale = f64::from(width) / chart.size_mm[0];
    #[expect(clippy::cast_possible_truncation, reason = "points of the screen")]
    let height = (chart.size_mm[1] * scale) as f32;
    let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::hover());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Image, true, head));
    let area = [rect.left(), rect.top(), rect.right(), rect.bottom()].map(f64::from);
    let centre = chart.size_mm.map(|size| 0.5 * size);
    let viewport = Viewport { centre, scale, area, unit_per_pt: paint::UNIT_PER_PT };
    paint::primitives(&ui.painter_at(rect), lower::lower(&chart.figure(), &viewport, &look.palette));
}
