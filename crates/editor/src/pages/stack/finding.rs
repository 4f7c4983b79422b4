//! A finding with what mends it; choosing it brings its piece and step into view.

use super::table::Table;
use crate::commands::Command;
use crate::look;
use crate::pages::Page;
use crate::signs;
use assess::{Amount, Check, Finding, State, Where};
use drafting::figure::Ink;
use eframe::egui::{self, Align, Layout, RichText, Sense, Ui, UiBuilder, WidgetInfo, accesskit::Role};

/// A finding with what mends it.
pub(super) fn whole(ui: &mut Ui, table: &mut Table, index: usize) {
    let finding = table.shown.assessment.findings[index].clone();
    one(ui, table, index, &finding);
    offer(ui, table, index);
    way(ui, table, &finding);
}

/// The way to the page on which a finding is mended, where that is another one.
fn way(ui: &mut Ui, table: &mut Table, finding: &Finding) {
    let to_page = |page: Page| (format!("Go to the {} page", page.word()), Command::Go(page));
    let (words, command) = match &finding.place {
        _ if finding.state == State::Met => return,
        Where::LoadCase => to_page(Page::LoadCase),
        Where::Fixture => to_page(Page::Fixture),
        Where::Pieces(steps) if finding.check == Check::PiecesWeighed => {
            let Some(first) = steps.first() else { return };
            ("Go to the weighing list".to_owned(), Command::Weigh { step: *first })
        }
        _ => return,
    };
    let indented = egui::Frame::new().inner_margin(egui::Margin { left: 28, bottom: 4, ..Default::default() });
    indented.show(ui, |ui| {
        if ui.button(RichText::new(words).size(look::SMALL)).clicked() {
            table.commands.push(command);
        }
    });
}

/// What was tried and mends it, as a button.
fn offer(ui: &mut Ui, table: &mut Table, index: usize) {
    let Some(remedy) = table.shown.assessment.remedy(index).cloned() else { return };
    if table.hand.gesture.is_some() {
        return;
    }
    let indented = egui::Frame::new().inner_margin(egui::Margin { left: 28, bottom: 4, ..Default::default() });
    indented.show(ui, |ui| {
        let button = egui::Button::new(RichText::new(&remedy.words).size(look::SMALL)).wrap();
        let about = format!("{} No other gets worse. Undo takes it back.", remedy.sentence());
        if ui.add(button).on_hover_text(about).clicked() {
            table.edits.push(remedy.edit);
        }
    });
}

fn one(ui: &mut Ui, table: &mut Table, index: usize, finding: &Finding) {
    let key = (finding.check, finding.place.clone());
    let chosen = table.hand.finding.as_ref() == Some(&key);
    let open = chosen || finding.state != State::Met;
    let frame = egui::Frame::new().inner_margin(egui::Margin::symmetric(6, 5)).corner_radius(2).fill(if chosen {
        table.look.in_hand()
    } else {
        egui::Color32::TRANSPARENT
    });
    let inner = ui.scope_builder(UiBuilder::new().id_salt(("finding", index)).sense(Sense::click()), |ui| {
        frame.show(ui, |ui| lines(ui, table, finding, open));
    });
    let response = inner.response;
    let label = format!("{}: {}", finding.check.heading(), finding.word());
    response.widget_info(|| WidgetInfo::selected(Role::ListBoxOption, true, chosen, &label));
    let response = response.on_hover_text(about(table, finding));
    if response.has_focus() {
        let ring = egui::Stroke::new(1.0, table.look.ink(Ink::Is));
        ui.painter().rect_stroke(response.rect, 2.0, ring, egui::StrokeKind::Inside);
    }
    if response.clicked() {
        table.hand.finding = (!chosen).then_some(key);
        bring_into_view(table, &finding.place);
    }
}

fn lines(ui: &mut Ui, table: &Table, finding: &Finding, open: bool) {
    ui.spacing_mut().item_spacing.y = 1.0;
    ui.spacing_mut().interact_size.y = 16.0;
    ui.set_width(ui.available_width());
    ui.horizontal(|ui| {
        signs::state(ui, table.look, finding.state);
        ui.add(egui::Label::new(look::bold(finding.check.heading(), look::BODY)).selectable(false));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let ink = signs::of_state(finding.state).1;
            ui.add(egui::Label::new(signs::inked(table.look, finding.word(), ink)).selectable(false));
        });
    });
    // Numbers alone do not tell two of a kind apart.
    let alone = table.shown.assessment.findings.iter().filter(|f| f.check == finding.check).count() == 1;
    let text = if open || !alone { finding.text.clone() } else { numbers(table, finding) };
    if !text.is_empty() {
        let text = RichText::new(text).size(look::SMALL).color(table.look.ink(Ink::Quiet));
        let indented = egui::Frame::new().inner_margin(egui::Margin { left: 22, ..Default::default() });
        indented.show(ui, |ui| ui.add(egui::Label::new(text).wrap().selectable(false)));
    }
}

/// Value and limit in short; counts say nothing without their words.
fn numbers(table: &Table, finding: &Finding) -> String {
    let units = table.shown.plan.units;
    match (finding.value, finding.limit) {
        (Some(Amount::Count(_)), _) => finding.text.clone(),
        (Some(value), Some(limit)) => format!("{}, held against {}", value.shown(units), limit.shown(units)),
        (Some(value), None) => value.shown(units),
        _ => finding.text.clone(),
    }
}

/// Where it is, what it is held against, and on what that rests.
fn about(table: &Table, finding: &Finding) -> String {
    let units = table.shown.plan.units;
    let limit = finding.limit.map(|limit| format!(" against {}", limit.shown(units))).unwrap_or_default();
    let source = finding.rests_on();
    format!("At: {}. Held{limit} by: {source}. Click to bring it into view.", finding.place.words(&table.shown.plan))
}

fn bring_into_view(table: &mut Table, place: &Where) {
    table.hand.reveal_selected = true;
    match place {
        Where::Pieces(steps) => {
            table.hand.select_all(steps.iter().copied());
            if let Some(last) = steps.iter().max() {
                table.hand.go_to((last + 1).max(table.hand.placed()));
            }
        }
        Where::Step { step, layer } => {
            table.hand.go_to(step + 1);
            let layers = &table.shown.assessment.closed.pile.layer;
            let of_layer = |s: &usize| layer.is_some_and(|l| layers.get(*s) == Some(&l));
            let steps: Vec<usize> = (0..=*step).filter(of_layer).collect();
            table.hand.select_all(steps);
        }
        Where::Stack => table.hand.go_to(table.plan.steps()),
        Where::Fixture | Where::LoadCase => {}
    }
}
