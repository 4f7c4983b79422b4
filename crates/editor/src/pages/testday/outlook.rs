//! What lies ahead once the stack as done is another than the plan's: every check of it, made again beside
//! the window, and the piece before which everything stands still.

use super::{BIG, Desk, big, button};
use crate::look::{self, Look};
use crate::signs;
use drafting::figure::{Ink, Sign};
use eframe::egui::{self, Frame, Margin, Stroke, Ui};
use plan::Plan;
use std::sync::Arc;
use testday::{Day, Deviation, Entry, Next};

/// How the reason of a stop begins that the checks of the stack as done made.
pub(super) const BY_OUTLOOK: &str = "the stack as done would not stand";

/// What going on against such a stop means.
pub(super) const FALLS: &str = "By the checks the stack falls with this piece on it. Whoever goes on all the same stands \
                                for it with a name, and both go into the record.";

/// The checks of a stack that deviates from the plan.
pub(super) struct Outlook {
    stack: Plan,
    /// What falls short, in sentences.
    short: Vec<String>,
    /// The first piece of the stack as done (from 0) with which it is not shown to stand.
    falls: Option<usize>,
}

impl Outlook {
    /// Of a day with deviations; `before` is kept as long as the stack is the same.
    pub(super) fn of(day: &Day, before: Option<Arc<Self>>) -> Option<Arc<Self>> {
        let run = day.run();
        if run.deviations.is_empty() {
            return None;
        }
        before.filter(|known| known.stack == *run.as_done()).or_else(|| Self::new(run.as_done()).map(Arc::new))
    }

    fn new(stack: &Plan) -> Option<Self> {
        let assessment = assess::decided(stack, &|_| true)?;
        let short = assessment.findings.iter().filter(|finding| !finding.state.is_in_order());
        let short = short.map(|finding| format!("{}. {}", finding.check, finding.text)).collect();
        let steps = assessment.exact.map(|exact| exact.steps).unwrap_or_default();
        let falls = steps.iter().position(|step| step.stands != Some(true));
        Some(Self { stack: stack.clone(), short, falls })
    }

    /// Why the piece that comes next must not be lifted.
    pub(super) fn forbids(&self, day: &Day, next: &Next) -> Option<String> {
        let Next::Lift { index } = next else { return None };
        let falls = self.falls.filter(|falls| falls <= index)?;
        let (piece, step) = (day.run().as_done().piece_name(falls), day.run().step_of(falls) + 1);
        let whence = if step > day.plan.steps() { ", not on the sheet" } else { " of the sheet" };
        Some(format!("{BY_OUTLOOK} with {piece} on it (step {step}{whence})"))
    }
}

/// What falls short of the stack as done, in view until the load comes off.
pub(super) fn show(ui: &mut Ui, look: &Look, desk: &Desk, next: &Next) {
    let goes_on =
        matches!(next, Next::Lift { .. } | Next::Read | Next::Gauges { .. } | Next::Hold { .. } | Next::Stopped);
    let Some(outlook) = desk.outlook().filter(|outlook| goes_on && !outlook.short.is_empty()) else { return };
    let edge = Stroke::new(1.0, look.ink(Ink::Wanted));
    Frame::new().stroke(edge).inner_margin(Margin::symmetric(12, 8)).show(ui, |ui| {
        ui.horizontal(|ui| {
            signs::sign(ui, look, Sign::Fails, Ink::Wanted);
            let head = match outlook.short.len() {
                1 => "As it is done now, a check falls short.".to_owned(),
                many => format!("As it is done now, {many} checks fall short."),
            };
            ui.label(look::bold(head, BIG));
        });
        for sentence in &outlook.short {
            ui.add(egui::Label::new(look::caption(look, sentence.as_str())).wrap());
        }
        let counted = "Steps are counted here by the pieces as done. Enter another piece or place under “Deviation from the \
                       plan”, put on “A piece more than planned”, or give up the test: what lies there then comes off in \
                       order.";
        ui.add(egui::Label::new(look::caption(look, counted)).wrap());
    });
    ui.add_space(8.0);
}

/// The ways on while the checks forbid the piece that comes next.
pub(super) fn forbidden(ui: &mut Ui, desk: &mut Desk, why: &str) {
    big(
        ui,
        "Do not put the next piece down. Leave it out, enter another piece or place under “Deviation from the plan”, or give \
         up the test.",
    );
    let Some(run) = desk.day().map(|day| day.run().clone()) else { return };
    let next = run.placed();
    if next < run.as_done().steps() && button(ui, &format!("Leave {} out", run.as_done().piece_name(next))) {
        let deviation = Deviation::LeftOut { step: run.step_of(next) + 1 };
        desk.enter(ui.ctx(), Entry::Deviation { deviation, why: why.to_owned() });
    }
}
