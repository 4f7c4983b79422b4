//! A finding with what mends it; choosing it brings its piece and step into view.

use super::hand::Jump;
use super::lit;
use super::menus;
use super::table::Table;
use crate::commands::Command;
use crate::look;
use crate::pages::Page;
use crate::pages::bar::{Bar, Tick};
use crate::signs;
use assess::{Amount, Check, Finding, Side, State, Where};
use drafting::figure::Ink;
use eframe::egui::{self, Align, Layout, RichText, Sense, Ui, UiBuilder, WidgetInfo, accesskit::Role};

/// A finding with what mends it.
pub(super) fn whole(ui: &mut Ui, table: &mut Table, index: usize) {
    let finding = table.shown.assessment.findings[index].clone();
    one(ui, table, index, &finding);
    offer(ui, table, index);
    way(ui, table, &finding);
}

/// A finding that asks for something: an open card with a bar, its sentences and its buttons.
pub(super) fn card(ui: &mut Ui, table: &mut Table, index: usize) {
    let finding = table.shown.assessment.findings[index].clone();
    let chosen = table.hand.finding.as_ref() == Some(&(finding.check, finding.place.clone()));
    let fill = if chosen { table.look.in_hand() } else { table.look.field() };
    let frame = egui::Frame::new().fill(fill).stroke(egui::Stroke::new(1.0, table.look.rule())).corner_radius(4);
    let card = frame.inner_margin(egui::Margin { left: 4, right: 2, top: 2, bottom: 4 }).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 3.0;
        whole(ui, table, index);
        show_button(ui, table, &finding);
    });
    let rect = card.response.rect;
    let edge = rect.with_max_x(rect.left() + 3.0);
    ui.painter().rect_filled(edge, 0.0, table.look.ink(signs::of_state(finding.state).1));
    let jumps_here = |jump: &mut Jump| match jump {
        Jump::First(state) => *state == finding.state,
        Jump::To(check, place) => (*check, &*place) == (finding.check, &finding.place),
    };
    if table.hand.jump.take_if(jumps_here).is_some() {
        ui.scroll_to_rect(rect, Some(Align::Min));
    }
}

/// Brings it into view, where its place is on this page.
fn show_button(ui: &mut Ui, table: &mut Table, finding: &Finding) {
    if matches!(finding.place, Where::LoadCase | Where::Fixture) {
        return;
    }
    indented(ui, |ui| {
        let show = ui.button(RichText::new("Show").size(look::SMALL));
        crate::fields::label(ui, &show, &format!("Show: {}", finding.check.heading()));
        if show.clicked() {
            table.hand.finding = Some((finding.check, finding.place.clone()));
            bring_into_view(table, &finding.place);
        }
    });
}

/// Under the heading, beside the sign.
fn indented(ui: &mut Ui, add: impl FnOnce(&mut Ui)) {
    let frame = egui::Frame::new().inner_margin(egui::Margin { left: 28, bottom: 2, ..Default::default() });
    frame.show(ui, add);
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
    indented(ui, |ui| {
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
    indented(ui, |ui| {
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
    if response.hovered() {
        table.hand.lit = lit::pieces(table, &finding.place);
    }
    menus::of_finding(&response, table, index);
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
    if finding.state != State::Met {
        bar(ui, table, finding);
    }
    // Numbers alone do not tell two of a kind apart.
    let alone = table.shown.assessment.findings.iter().filter(|f| f.check == finding.check).count() == 1;
    let chosen =
        table.hand.finding.as_ref().is_some_and(|(check, place)| (*check, place) == (finding.check, &finding.place));
    let text = if !open && alone {
        numbers(table, finding)
    } else if chosen || matches!(finding.state, State::Fails | State::Undecided) {
        finding.text.clone()
    } else {
        in_short(&finding.text)
    };
    let text = [Some(text), wider(table, finding).filter(|_| open)].into_iter().flatten().collect::<Vec<_>>().join(" ");
    if !text.is_empty() {
        let text = RichText::new(text).size(look::SMALL).color(table.look.ink(Ink::Quiet));
        let indented = egui::Frame::new().inner_margin(egui::Margin { left: 22, ..Default::default() });
        indented.show(ui, |ui| ui.add(egui::Label::new(text).wrap().selectable(false)));
    }
}

/// Why more is allowed at this hold than the head says.
fn wider(table: &Table, finding: &Finding) -> Option<String> {
    let Where::Step { step, .. } = finding.place else { return None };
    if finding.check != Check::OffsetAtHolds {
        return None;
    }
    let plan = &table.shown.plan;
    let at = table.shown.assessment.closed.hold_steps.iter().position(|of| *of == Some(step))?;
    let hold = plan.holds.get(at)?;
    let is_wider = hold.tolerance.is_none() && plan.tolerance_at(hold) != plan.target.tolerance();
    is_wider.then(|| "Allowed is twice what it is at limit load: below that nothing is proved yet.".to_owned())
}

/// The first two sentences of a text; the others are told when it is chosen, and under the pointer.
fn in_short(text: &str) -> String {
    match text.match_indices(". ").nth(1) {
        Some((end, _)) => format!("{} …", &text[..=end]),
        None => text.to_owned(),
    }
}

/// The value on a bar against what is allowed or asked, with both in words.
fn bar(ui: &mut Ui, table: &Table, finding: &Finding) {
    let (Some(value), Some(limit)) = (finding.value, finding.limit) else { return };
    let word = match finding.check.side() {
        Side::AtMost => "allowed",
        Side::AtLeast => "required",
        Side::Free => return,
    };
    let units = table.shown.plan.units;
    let [at, tick] = [value, limit].map(|amount| amount.si().abs());
    let ink = if finding.state == State::Met { Ink::Is } else { signs::of_state(finding.state).1 };
    let shown = Bar { value: Some(at), ticks: vec![Tick::new(tick, "")], end: 1.25 * at.max(tick) };
    let beside_sign = egui::Frame::new().inner_margin(egui::Margin { left: 22, top: 2, ..Default::default() });
    beside_sign.show(ui, |ui| {
        let (rect, _) = ui.allocate_exact_size(egui::vec2(ui.available_width(), 13.0), Sense::hover());
        let place = rect.shrink2(egui::vec2(0.0, 2.0)).with_max_x(rect.right() - 4.0);
        crate::pages::bar::paint(ui, table.look, &shown, (place, ink));
        let words = format!("{}, {word} {}", value.shown(units), limit.shown(units));
        ui.add(egui::Label::new(RichText::new(words).size(look::SMALL)).wrap().selectable(false));
    });
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
    let place = finding.place.words(&table.shown.plan);
    let cut = if in_short(&finding.text) == finding.text { String::new() } else { format!("{}\n\n", finding.text) };
    format!("{cut}At: {place}. Held{limit} by: {source}. Click to bring it into view.")
}

pub(super) fn bring_into_view(table: &mut Table, place: &Where) {
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

#[cfg(test)]
mod tests {
    use super::in_short;

    #[test]
    fn a_long_text_is_cut_after_its_second_sentence_and_never_within_a_number() {
        assert_eq!(
            in_short("It is 2.3 times 8.0 kg. Take two people. Or a hoist."),
            "It is 2.3 times 8.0 kg. Take two people. …"
        );
        for whole in ["One.", "It is 2.3 kg. Two.", ""] {
            assert_eq!(in_short(whole), whole);
        }
    }
}
