//! Before a log is open: a day begins, or goes on.

use super::entry::Row;
use super::{Asked, Desk, big, button, huge};
use crate::look::{self, Look};
use crate::shown::Shown;
use crate::signs;
use drafting::figure::{Ink, Sign};
use eframe::egui::{Label, Ui};

/// Asked where checks fall short.
const WHY: &str = "Why it is loaded all the same";

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk, shown: &Shown) {
    let plan = &shown.plan;
    offered(ui, look, desk);
    huge(ui, "Test day");
    big(ui, format!("Plan “{}”, fingerprint {}.", plan.title, plan::file::fingerprint(plan)));
    ui.add_space(6.0);
    big(
        ui,
        "The plan is frozen when the day begins: its fingerprint goes into the log and must be the one on the sheet. Every entry is on the disk before it is shown as taken; nothing is ever rewritten.",
    );
    ui.add_space(14.0);
    let short = short(shown);
    if let Some(short) = &short {
        ui.horizontal(|ui| {
            signs::sign(ui, look, Sign::Fails, Ink::Wanted);
            let text = match shown.assessment.is_undecided() {
                true => "DO NOT LOAD: the checks are being worked out.".to_owned(),
                false => format!("DO NOT LOAD: {short}. See the findings on the Stack page."),
            };
            ui.add(Label::new(signs::inked(look, &text, Ink::Wanted).size(super::BIG)).wrap());
        });
        ui.add_space(10.0);
    }
    let mut row = Row::default();
    let people = row.field(ui, desk, ["Who is there", ""], 420.0);
    ui.label(look::caption(look, "Names, and who of them only watches."));
    let why = short.as_ref().map(|_| row.field(ui, desk, [WHY, ""], 420.0));
    let entered = row.entered(ui, desk);
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        if button(ui, "Begin the day…") || entered {
            let why = why.as_deref().map(str::trim);
            match people.trim() {
                "" => desk.misfit("Who is there: type the names, they go into the log.".to_owned()),
                _ if shown.assessment.is_undecided() => {
                    desk.misfit("The checks are being worked out: wait until they are, then begin.".to_owned());
                }
                _ if why == Some("") => {
                    desk.misfit(format!("{WHY}: say who answers for it and on what ground; it goes into the record."));
                }
                _ => {
                    desk.against = short.zip(why).map(|(short, why)| format!("Begun although {short}. {WHY}: {why}"));
                    desk.ask(Asked::Begin);
                }
            }
        }
        if button(ui, "Go on with a log…") {
            desk.ask(Asked::GoOn);
        }
    });
    ui.add_space(8.0);
    ui.label(look::caption(look, "After a crash: go on with the log, it stands at the step where it stood."));
}

/// Which checks fall short, or are not decided.
fn short(shown: &Shown) -> Option<String> {
    let mut names: Vec<&str> =
        shown.assessment.findings.iter().filter(|f| !f.state.is_in_order()).map(|f| f.check).collect();
    names.dedup();
    let checks = if names.len() == 1 { "check falls" } else { "checks fall" };
    (!names.is_empty()).then(|| format!("{} {checks} short ({})", names.len(), names.join(", ")))
}

/// A day that was left open: after a crash it is the first thing to be seen.
fn offered(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let Some((path, said)) = desk.offered.clone() else { return };
    huge(ui, "A test day is not over");
    big(ui, said);
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        if button(ui, "Go on with this day") {
            desk.ask(Asked::GoOnOffered(path));
        }
        if button(ui, "Do not offer it again") {
            desk.offered = None;
            desk.ask(Asked::Forget);
        }
    });
    ui.label(look::caption(look, "It stands at the step where it stood; nothing that was shown as taken is lost."));
    ui.add_space(18.0);
    ui.separator();
    ui.add_space(12.0);
}
