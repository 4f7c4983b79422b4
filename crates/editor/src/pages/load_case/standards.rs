//! Published rules and special factors to start from, each figure with its paragraph and how it came
//! to us.

use super::case::in_hand;
use crate::fields::{Fields, label};
use crate::look::{self, Look};
use crate::pages::Bench;
use drafting::figure::Ink;
use eframe::egui::{self, Grid, RichText, Ui};
use plan::edit::CaseEdit;
use plan::standard::{Figure, Given, Special, Standard, Status};
use plan::{Edit, LoadCase, Plan};
use quantity::{Grain, Quantity, Units};

const CHECK: &str = "Figures are marked as read in the document, read where it is quoted, or from memory. Hold each \
    against the edition that binds you: the local rules and a licensed engineer or inspector decide.";

/// From this width on the table has room for a column of editions, points.
const WITH_EDITION: f32 = 1620.0;

pub(super) fn show(ui: &mut Ui, bench: &mut Bench) {
    let Some(index) = in_hand(bench) else { return };
    let (look, case) = (bench.look, &bench.plan.load_cases[index]);
    ui.add(egui::Label::new(look::caption(look, CHECK)).wrap());
    ui.label(look::caption(look, overwritten(bench.plan, case)));
    ui.add_space(4.0);
    let mut asked = rules(ui, (look, bench.plan.units), case).map(|rule| CaseEdit::Start(index, rule));
    ui.add_space(10.0);
    if let Some(special) = specials(ui, look) {
        asked = Some(CaseEdit::Special(index, special));
    }
    bench.edits.extend(asked.map(Edit::Case));
}

/// Whether the tables are shown: from the start where the case has values that nobody entered.
pub(super) fn open<'a>(fields: &'a mut Fields, plan: &Plan) -> &'a mut bool {
    let started = plan.case_in_hand().and_then(|case| case.starting_values().words()).is_some();
    fields.part("published rules", started)
}

/// What is lost by starting from a row.
fn overwritten(plan: &Plan, case: &LoadCase) -> String {
    format!(
        "A row overwrites, in {}: the basis, the occupant mass (now {}), the load factor ({}), its direction ({}), the \
         factor of safety ({}) and the special factor ({}). The name stays; undo takes it back.",
        case.name,
        case.occupant_mass.shown(plan.units, Grain::Coarse),
        quantity::number_at_rest(case.load_factor),
        super::direction::words(plan, case),
        quantity::number_at_rest(case.safety_factor),
        quantity::number_at_rest(case.special_factor)
    )
}

/// What starting from a rule makes of the case: `occupant mass 77.1 kg, load factor 4.4, …`.
fn becomes(units: Units, rule: &Standard, case: &LoadCase) -> String {
    let then = rule.fill(case);
    let mass = then.occupant_mass.shown(units, Grain::Coarse);
    let attachments = rule.attachments_words().unwrap_or_default();
    let stays = if rule.occupant.is_none() { " as it is" } else { "" };
    format!(
        "{} becomes: occupant mass {mass}{stays}, load factor {} straight down, factor of safety {}, special factor {}; \
         its basis names the paragraphs. {attachments}",
        case.name,
        quantity::number_at_rest(then.load_factor),
        quantity::number_at_rest(then.safety_factor),
        quantity::number_at_rest(then.special_factor)
    )
}

fn rules(ui: &mut Ui, (look, units): (&Look, Units), case: &LoadCase) -> Option<&'static Standard> {
    let mut chosen = None;
    // A narrow window tells the edition in the basis alone.
    let wide = ui.available_width() > WITH_EDITION;
    Grid::new("rules").num_columns(7).spacing([18.0, 5.0]).show(ui, |ui| {
        for column in [
            "Rule",
            "Occupant",
            "Load factor",
            "Factor of safety",
            "Attachments",
            "",
            if wide { "Edition" } else { "" },
        ] {
            ui.label(look::caption(look, column));
        }
        ui.end_row();
        for rule in Standard::all() {
            ui.label(rule.name.as_str()).on_hover_text(rule.edition.as_str());
            match &rule.occupant {
                Some(occupant) => figure(ui, look, occupant, ""),
                None => drop(ui.label(look::caption(look, "stays as it is: not known to this table"))),
            }
            let given = if rule.given == Given::Ultimate { " ultimate" } else { "" };
            figure(ui, look, &rule.load_factor, given);
            figure(ui, look, &rule.safety, "");
            match &rule.attachments {
                Some(more) => figure(ui, look, more, ""),
                None => drop(ui.label("")),
            }
            let start = ui.button("Start from it");
            label(ui, &start, &format!("Start from {}", rule.name));
            if start.on_hover_text(becomes(units, rule, case)).clicked() {
                chosen = Some(rule);
            }
            if wide {
                ui.label(look::caption(look, rule.edition.as_str()));
            }
            ui.end_row();
        }
    });
    chosen
}

fn specials(ui: &mut Ui, look: &Look) -> Option<&'static Special> {
    let mut chosen = None;
    Grid::new("special factors").num_columns(4).spacing([18.0, 5.0]).show(ui, |ui| {
        for column in ["Special factor for a", "Factor", "", "Applies"] {
            ui.label(look::caption(look, column));
        }
        ui.end_row();
        for special in Special::all() {
            ui.label(special.name.as_str());
            figure(ui, look, &special.factor, "");
            let chosen_now = ui.button("Use");
            label(ui, &chosen_now, &format!("Use the factor of a {}", special.name));
            if chosen_now.clicked() {
                chosen = Some(special);
            }
            ui.label(look::caption(look, special.about.as_str()));
            ui.end_row();
        }
    });
    chosen
}

/// A figure as printed, its paragraph, and how it came to us; what is recalled stands out.
fn figure<T>(ui: &mut Ui, look: &Look, figure: &Figure<T>, given: &str) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        ui.label(format!("{}{given}", figure.printed));
        let ink = if figure.status == Status::Memory { Ink::Wanted } else { Ink::Quiet };
        let told = format!("{}, {}", figure.place, figure.status);
        ui.label(RichText::new(told).size(look::SMALL).color(look.ink(ink)));
    });
}
