//! The way from an empty plan to a printed sheet: one line that says what comes next, with the whole list behind it.
//! What is done is found in the plan by `plan::GuideStep`; here are its words and where each step is done.

use crate::commands::Command;
use crate::fields::label;
use crate::look::{self, Look};
use crate::pages::Page;
use crate::signs;
use drafting::figure::{Ink, Sign};
use eframe::egui::containers::menu::MenuButton;
use eframe::egui::{Align, Button, Frame, Label, Layout, Margin, Panel, RichText, Ui};
use plan::{Beside, GuideStep, NotEntered, Plan, is_without_capacity};

/// What is to be done, as a button and a line name it.
pub(crate) fn words(step: GuideStep) -> &'static str {
    match step {
        GuideStep::Occupant => "who sits there, load factor",
        GuideStep::Point => "where the load acts",
        GuideStep::Seat => "supports and bearings",
        GuideStep::Article => "mass, centroid of the article",
        GuideStep::Ballast => "ballast up to ultimate load",
        GuideStep::Stack => "lay the stack, or propose one",
        GuideStep::Mend => "mend what falls short",
        GuideStep::Print => "print the sheet",
    }
}

/// Where it is done.
pub(crate) fn command(step: GuideStep) -> Command {
    match step {
        GuideStep::Occupant => Command::Prove,
        GuideStep::Point => Command::Act,
        GuideStep::Seat => Command::Go(Page::Fixture),
        GuideStep::Article => Command::Article,
        GuideStep::Ballast => Command::Go(Page::Ballast),
        GuideStep::Stack | GuideStep::Mend => Command::Go(Page::Stack),
        GuideStep::Print => Command::Go(Page::Sheet),
    }
}

/// The step that leads while a plan is not stacked yet; none once it is.
pub(crate) fn leading(plan: &Plan) -> Option<GuideStep> {
    GuideStep::next(plan, Beside { in_order: true, printed: true }).filter(|step| *step <= GuideStep::Stack)
}

/// The line over the pages of forms, while something is still to be entered.
pub(crate) fn strip(ui: &mut Ui, look: &Look, plan: &Plan, beside: Beside) -> Option<Command> {
    let step = leading(plan)?;
    let mut asked = None;
    let frame = Frame::new().fill(look.in_hand()).inner_margin(Margin::symmetric(20, 4));
    Panel::top("guide").frame(frame).resizable(false).show(ui, |ui| {
        ui.horizontal(|ui| {
            ui.label(look::bold("Next:", look::BODY).color(look.ink(Ink::Is)));
            ui.add(Label::new(words(step)).selectable(false));
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                asked = list(ui, look, plan, beside);
                if ui.button("Go").on_hover_text("Goes to where it is done").clicked() {
                    asked = Some(command(step));
                }
                ui.with_layout(Layout::left_to_right(Align::Center), |ui| not_entered(ui, look, plan));
            });
        });
    });
    asked
}

/// What else nobody entered, in as many words as there is room for.
fn not_entered(ui: &mut Ui, look: &Look, plan: &Plan) {
    let names: Vec<_> = NotEntered::all(plan).into_iter().map(short).collect();
    if names.is_empty() {
        return;
    }
    let words = format!("Not entered: {}", names.join(", "));
    ui.add(Label::new(look::caption(look, &words)).truncate().selectable(false)).on_hover_text(words);
}

fn short(what: NotEntered) -> &'static str {
    match what {
        NotEntered::Slope => "slope of the bed",
        NotEntered::KeepClear => "keep-clear regions",
        NotEntered::CatchBlocks => "catch blocks",
        NotEntered::Straps => "hold-down straps",
        NotEntered::Capacity { .. } => "capacity of scales",
    }
}

/// As a line of the list says it.
fn in_full(plan: &Plan, what: NotEntered) -> String {
    let NotEntered::Capacity { support } = what else {
        let level = if what == NotEntered::Slope { ", or level" } else { "" };
        return format!("{}: not entered{level}", capital(short(what)));
    };
    let supports = &plan.fixture.supports;
    let more = supports.iter().filter(|support| is_without_capacity(support)).count().saturating_sub(1);
    let others = if more > 0 { format!(" and {more} more") } else { String::new() };
    format!("Capacity of {}{others}: not entered", supports[support].name)
}

/// What its button is called.
const ALL_STEPS: &str = "All steps";

/// All steps with what is done ticked, behind a button.
fn list(ui: &mut Ui, look: &Look, plan: &Plan, beside: Beside) -> Option<Command> {
    ui.menu_button(ALL_STEPS, |ui| steps(ui, look, plan, beside)).inner.flatten()
}

/// The same behind the word before what comes next.
pub(crate) fn behind(ui: &mut Ui, look: &Look, plan: &Plan, beside: Beside) -> Option<Command> {
    let word = look::bold("Next:", look::BODY).color(look.ink(Ink::Is));
    let button = MenuButton::from_button(Button::new(word).frame(false));
    let (response, inner) = button.ui(ui, |ui| steps(ui, look, plan, beside));
    label(ui, &response, ALL_STEPS);
    response.on_hover_text("All steps from an empty plan to the printed sheet");
    inner.and_then(|inner| inner.inner)
}

fn steps(ui: &mut Ui, look: &Look, plan: &Plan, beside: Beside) -> Option<Command> {
    let mut asked = None;
    ui.set_min_width(300.0);
    for (number, step) in GuideStep::ALL.into_iter().enumerate() {
        let is_done = step.is_done(plan, beside);
        ui.horizontal(|ui| {
            let (sign, ink) = if is_done { (Sign::Holds, Ink::Is) } else { (Sign::Undecided, Ink::Quiet) };
            signs::sign(ui, look, sign, ink);
            let told = if is_done { ", done" } else { "" };
            let line = RichText::new(format!("{}. {}{told}", number + 1, capital(words(step))));
            if ui.add(Button::new(line).frame(false)).clicked() {
                asked = Some(command(step));
                ui.close();
            }
        });
        if step == GuideStep::Seat {
            asked = missing(ui, look, plan).or(asked);
        }
    }
    asked
}

/// Under supports and bearings: what nobody entered there, each a click.
fn missing(ui: &mut Ui, look: &Look, plan: &Plan) -> Option<Command> {
    let mut asked = None;
    for what in NotEntered::all(plan) {
        ui.horizontal(|ui| {
            ui.add_space(36.0);
            let line = look::caption(look, in_full(plan, what)).color(look.ink(Ink::Is));
            if ui.add(Button::new(line).frame(false)).clicked() {
                asked = Some(Command::Enter(what));
                ui.close();
            }
        });
    }
    asked
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
