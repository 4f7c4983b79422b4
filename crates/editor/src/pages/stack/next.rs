//! What to do next, with one button: what fails comes first, then what is to be weighed, then the sheet.

use super::finding;
use super::hand::Jump;
use super::table::Table;
use crate::commands::{Command, OnWindow};
use crate::fields::label;
use crate::guide;
use crate::pages::Page;
use assess::{Check, State, Where};
use eframe::egui::{Align, Button, Frame, Label, Layout, Margin, Response, RichText, Ui, vec2};
use plan::{Edit, GuideStep};
use quantity::{Grain, Quantity};

/// What it leads to.
enum Step {
    /// Nothing to press: the program is at work.
    Wait,
    /// A finding, by its place in the list.
    Show(usize),
    Do(Edit),
    Go(Command),
    /// The program lays the stack.
    Propose,
}

pub(super) fn show(ui: &mut Ui, table: &mut Table, here: &[usize]) {
    let (words, step) = next(table, here);
    let frame = Frame::new().fill(table.look.in_hand()).inner_margin(Margin::symmetric(10, 6)).corner_radius(2);
    frame.show(ui, |ui| {
        let size = vec2(ui.available_width(), 26.0);
        ui.allocate_ui_with_layout(size, Layout::right_to_left(Align::Center), |ui| {
            ui.set_min_size(size);
            let pressed = match &step {
                Step::Wait => false,
                Step::Show(..) => ui.button("Show").clicked(),
                Step::Do(_) => ui.add(Button::new("Do it")).clicked(),
                Step::Go(_) => ui.button("Go").clicked(),
                Step::Propose => named(ui, "Propose", "Have a stack proposed").clicked(),
            };
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                table.commands.extend(guide::behind(ui, table.look, table.plan, table.beside));
                ui.add(Label::new(RichText::new(&words)).truncate()).on_hover_text(&words);
            });
            if pressed {
                take(table, step);
            }
        });
    });
}

/// A button that is called otherwise than another one of the same word.
fn named(ui: &mut Ui, word: &str, name: &str) -> Response {
    let button = ui.button(word);
    label(ui, &button, name);
    button
}

fn take(table: &mut Table, step: Step) {
    match step {
        Step::Wait => {}
        Step::Show(index) => show_finding(table, index),
        Step::Do(edit) if table.hand.gesture.is_none() => table.edits.push(edit),
        Step::Do(_) => {}
        Step::Go(command) => table.commands.push(command),
        Step::Propose => table.commands.push(OnWindow::Propose.into()),
    }
}

/// The list goes to it, its card is lit, its pieces come into view.
fn show_finding(table: &mut Table, index: usize) {
    let finding = &table.shown.assessment.findings[index];
    let (check, place) = (finding.check, finding.place.clone());
    finding::bring_into_view(table, &place);
    table.hand.finding = Some((check, place.clone()));
    table.hand.jump = Some(Jump::To(check, place));
}

/// In words, and what the button does.
fn next(table: &Table, here: &[usize]) -> (String, Step) {
    let assessment = &table.shown.assessment;
    // Before anything lies there, what is still to be entered leads.
    if let Some(step) = guide::leading(table.plan).filter(|step| *step < GuideStep::Stack) {
        return (guide::words(step).to_owned(), Step::Go(guide::command(step)));
    }
    let of = |state: State| here.iter().copied().find(|index| assessment.findings[*index].state == state);
    if table.plan.steps() == 0 && !table.plan.ballast.is_empty() {
        return ("lay the stack, or".to_owned(), Step::Propose);
    }
    if let Some(kg) = table.shown.still_to_come_kg() {
        let mass = quantity::Mass::kg(kg).shown(table.plan.units, Grain::Coarse);
        return (format!("place {mass} more"), Step::Wait);
    }
    if let Some(index) = of(State::Fails).or_else(|| of(State::Undecided)) {
        return mend(table, here, index);
    }
    if assessment.is_undecided() {
        return ("wait while it is solved".to_owned(), Step::Wait);
    }
    if let Some(weigh) = to_weigh(table, here) {
        return weigh;
    }
    if table.plan.steps() == 0 {
        return ("lay the stack".to_owned(), Step::Wait);
    }
    ("print the sheet".to_owned(), Step::Go(Command::Go(Page::Sheet)))
}

/// The pieces that lie there and were not weighed.
fn to_weigh(table: &Table, here: &[usize]) -> Option<(String, Step)> {
    let found = here.iter().map(|index| &table.shown.assessment.findings[*index]);
    let mut unweighed = found.filter(|f| f.check == Check::PiecesWeighed && f.state != State::Met);
    let Where::Pieces(steps) = &unweighed.next()?.place else { return None };
    let step = *steps.first()?;
    let pieces = if steps.len() == 1 { "1 piece".to_owned() } else { format!("{} pieces", steps.len()) };
    Some((format!("weigh {pieces}"), Step::Go(Command::Weigh { step })))
}

/// What mends a finding, else the way to it.
fn mend(table: &Table, here: &[usize], index: usize) -> (String, Step) {
    if let Some(remedy) = table.shown.assessment.remedy(index) {
        let mut words = remedy.words.clone();
        if let Some(first) = words.get_mut(0..1) {
            first.make_ascii_lowercase();
        }
        return (words, Step::Do(remedy.edit.clone()));
    }
    let finding = &table.shown.assessment.findings[index];
    // What the masses may be off is mostly what makes a miss likely.
    if finding.check == Check::ChanceToMiss
        && let Some(weigh) = to_weigh(table, here)
    {
        return weigh;
    }
    let step = match finding.place {
        Where::LoadCase => Step::Go(Command::Go(Page::LoadCase)),
        Where::Fixture => Step::Go(Command::Go(Page::Fixture)),
        _ => Step::Show(index),
    };
    (format!("mend “{}”", finding.check.heading()), step)
}
