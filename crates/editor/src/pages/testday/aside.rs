//! The day so far: the load on the seat, charts, the verdict.

use super::desk::{Asked, Desk};
use super::hold;
use super::large::{big_size, button};
use super::outlook;
use crate::look::{self, Look};
use crate::paint;
use crate::signs;
use drafting::chart::Chart;
use drafting::figure::{Ink, Sign};
use drafting::lower::{self, Viewport};
use drafting::record;
use eframe::egui::{self, Grid, Sense, Ui, vec2};
use quantity::{Grain, Mass, Quantity};
use testday::{Account, Answer};

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    enlarge(ui);
    outlook::in_full(ui, look, desk);
    if let Some(account) = desk.account() {
        on_the_seat(ui, look, account);
        verdict(ui, look, account);
        let run = account.day.runs.len() - 1;
        chart(ui, look, "Load against deflection", record::deflections(account, run, CHART_MM));
        chart(ui, look, "How far readings were off", record::residuals(account, run, CHART_MM));
    }
    ui.add_space(6.0);
    if button(ui, "Save the record so far…") {
        desk.ask(Asked::SaveRecord);
    }
}

fn part(ui: &mut Ui, head: &str) {
    ui.add_space(6.0);
    let size = big_size(ui);
    ui.label(look::bold(head, size));
}

/// Text without a size of its own is read from afar as well.
fn enlarge(ui: &mut Ui) {
    let size = 0.8 * big_size(ui);
    let styles = &mut ui.style_mut().text_styles;
    for style in [egui::TextStyle::Body, egui::TextStyle::Button] {
        styles.insert(style, egui::FontId::proportional(size));
    }
}

/// A second line, in type that goes with the rest.
fn noted(ui: &mut Ui, look: &Look, text: impl Into<String>) {
    let size = 0.68 * big_size(ui);
    ui.add(egui::Label::new(signs::inked(look, text, Ink::Quiet).size(size)).wrap());
}

/// The ledger: rows that add up, then what they mean.
fn on_the_seat(ui: &mut Ui, look: &Look, account: &Account) {
    part(ui, "On the seat");
    let units = account.day.plan.units;
    let mass = |kg: f64| Mass::kg(kg).shown(units, Grain::Coarse);
    ui.label(format!("{} by the pieces put down", mass(account.day.run().on_seat_kg())));
    // The last reading is one of all pieces: beside what is left it would be read as now.
    if matches!(account.day.run().stage, testday::Stage::Unloading | testday::Stage::Done) {
        noted(ui, look, "What the scales say of what is left is shown beside.");
        return;
    }
    let judged = account.judged(account.day.runs.len() - 1);
    let Some(ledger) = judged.last().and_then(|judged| judged.ledger.as_ref()) else {
        noted(ui, look, "From the scales, once tare and a reading are entered.");
        return;
    };
    Grid::new("ledger").num_columns(3).spacing([10.0, 2.0]).show(ui, |ui| {
        for row in &ledger.rows {
            noted(ui, look, row.what);
            ui.label(mass(row.kg));
            noted(ui, look, row.basis.word());
            ui.end_row();
        }
        let size = 0.8 * big_size(ui);
        ui.label(look::bold("on the seat by the scales", size));
        ui.label(look::bold(mass(ledger.net_kg), size));
        noted(ui, look, format!("± {}", mass(ledger.within_kg)));
        ui.end_row();
    });
    if let Some(kg) = ledger.not_measured_kg {
        noted(ui, look, format!("Not measured here: {} reckoned.", mass(kg)));
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
        noted(ui, look, format!("{text}; it counts at the holds."));
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

/// How an answer of the day is marked.
fn verdict(ui: &mut Ui, look: &Look, account: &Account) {
    part(ui, "What the day shows so far");
    for (question, answer) in account.verdict.answers() {
        let (sign, ink) = record::sign_of(answer);
        ui.horizontal(|ui| {
            signs::sign(ui, look, sign, ink);
            ui.add(egui::Label::new(format!("{question} {}", answer.word())).wrap()).on_hover_text(answer.why());
        });
        if let Answer::Beside(why) = answer {
            ui.add(egui::Label::new(signs::inked(look, why, Ink::Wanted)).wrap());
            if account.day.ended.is_none() {
                noted(ui, look, hold::BESIDE);
            }
        }
    }
}

/// A chart's size, mm; on the screen a millimetre is as wide as the column allows.
const CHART_MM: [f64; 2] = [112.0, 52.0];

pub(super) fn chart(ui: &mut Ui, look: &Look, head: &str, chart: Option<Chart>) {
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
    // Read from as far as the words beside it, as far as its margins allow.
    let unit_per_pt = paint::UNIT_PER_PT * f64::from(big_size(ui) / look::BODY).clamp(1.0, 1.35);
    let viewport = Viewport { centre, scale, area, unit_per_pt };
    paint::primitives(&ui.painter_at(rect), lower::lower(&chart.figure(), &viewport, &look.palette));
}
