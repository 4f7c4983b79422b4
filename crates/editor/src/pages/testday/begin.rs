//! Before a log is open: a day begins, or goes on.

use super::desk::{Asked, Desk, PRESENT};
use super::entry::Row;
use super::large::{big, big_inked, button, huge, primary, quiet};
use crate::look::Look;
use crate::shown::Shown;
use crate::signs;
use drafting::figure::{Ink, Sign};
use eframe::egui::Ui;
use plan::Plan;
use quantity::{Grain, Mass, Quantity};
use testday::{Day, Passed, limits_passed};

/// Asked where checks fall short that may be answered for.
const WHY: &str = "Reason to load anyway";

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk, shown: &Shown) {
    let plan = &shown.plan;
    let standing = Standing::of(shown);
    // What must not be loaded is told before any button.
    warning(ui, look, &standing);
    offered(ui, look, desk);
    huge(ui, "Test day");
    big(ui, format!("Plan “{}”", plan.title));
    quiet(ui, look, format!("Fingerprint {}", plan::file::fingerprint(plan)));
    ui.add_space(6.0);
    big(
        ui,
        "The plan is fixed once the test starts: its fingerprint goes into the log and must match the one on the sheet. Every entry is on the disk before it is shown as entered; nothing is ever rewritten.",
    );
    ui.add_space(14.0);
    if matches!(standing, Standing::Barred(_)) {
        ui.horizontal(|ui| go_on(ui, desk));
        return;
    }
    let mut row = Row::default();
    let people = row.field(ui, desk, [PRESENT, ""], 420.0);
    quiet(ui, look, "All names; say who only watches.");
    let why = matches!(standing, Standing::Short(_)).then(|| row.field(ui, desk, [WHY, ""], 420.0));
    let entered = row.entered(ui, desk);
    ui.add_space(10.0);
    if primary(ui, look, "Start the test…", (row.act(ui), false, false)) || entered {
        begin(desk, &standing, people.trim(), why.as_deref().map(str::trim).unwrap_or_default());
    }
    ui.add_space(14.0);
    go_on(ui, desk);
    quiet(ui, look, "After a crash: continue with the log. It opens at the step where it stopped.");
}

fn go_on(ui: &mut Ui, desk: &mut Desk) {
    if button(ui, "Continue with a log…") {
        desk.ask(Asked::GoOn);
    }
}

fn begin(desk: &mut Desk, standing: &Standing, people: &str, why: &str) {
    match standing {
        _ if people.is_empty() => desk.misfit(format!("{PRESENT}: type the names, they go into the log.")),
        Standing::Open => {
            desk.misfit("The checks are being solved: wait until they are, then start.".to_owned());
        }
        Standing::Barred(_) => {}
        Standing::Short(_) if why.is_empty() => {
            desk.misfit(format!(
                "{WHY}: type who answers for it and on what ground; it goes onto page 1 of the record."
            ));
        }
        Standing::Short(checks) => {
            let checks = checks.iter().map(|check| (*check).to_owned()).collect();
            desk.although = Some((checks, why.to_owned()));
            desk.ask(Asked::Begin);
        }
        Standing::InOrder => desk.ask(Asked::Begin),
    }
}

/// How the plan stands before the day.
enum Standing {
    /// The solvers are at work.
    Open,
    /// It passes a limit that nobody can sign away; the limits in words.
    Barred(Vec<String>),
    /// Other checks fall short, by their headings: a reason is due.
    Short(Vec<&'static str>),
    /// No check falls short.
    InOrder,
}

impl Standing {
    fn of(shown: &Shown) -> Self {
        let (plan, assessment) = (&shown.plan, &shown.assessment);
        if assessment.exact.is_none() && assessment.is_undecided() {
            return Standing::Open;
        }
        let barred: Vec<_> = limits_passed(plan, assessment).iter().map(|passed| words(plan, passed)).collect();
        if !barred.is_empty() {
            return Standing::Barred(barred);
        }
        let short = assessment.findings.iter().filter(|finding| finding.state.falls_short());
        let mut checks: Vec<&str> = short.map(|finding| finding.check.heading()).collect();
        checks.dedup();
        if checks.is_empty() { Standing::InOrder } else { Standing::Short(checks) }
    }
}

/// A limit with when it is passed.
fn words(plan: &Plan, passed: &Passed) -> String {
    match passed.placed.checked_sub(1) {
        None => format!("before the first piece {}", passed.limit.words()),
        Some(step) => format!("after step {} ({}) {}", step + 1, plan.piece_name(step), passed.limit.words()),
    }
}

fn warning(ui: &mut Ui, look: &Look, standing: &Standing) {
    let text = match standing {
        Standing::InOrder => return,
        Standing::Open => "DO NOT LOAD the plan in the window: its checks are being solved.".to_owned(),
        Standing::Barred(limits) => format!(
            "DO NOT LOAD the plan in the window: {}. No name and no reason allows this load: change the plan. See the findings on the Stack page.",
            limits.join("; ")
        ),
        Standing::Short(checks) => {
            let falls = if checks.len() == 1 { "check falls" } else { "checks fall" };
            format!(
                "DO NOT LOAD the plan in the window: {} {falls} short ({}). See the findings on the Stack page.",
                checks.len(),
                checks.join(", ")
            )
        }
    };
    ui.horizontal(|ui| {
        signs::sign(ui, look, Sign::Fails, Ink::Wanted);
        big_inked(ui, look, text, Ink::Wanted);
    });
    ui.add_space(10.0);
}

/// A day that was left open: after a crash it is the first thing to be seen.
fn offered(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let Some((path, said)) = desk.offered.clone() else { return };
    huge(ui, "A test day is still open");
    big(ui, said);
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        if button(ui, "Continue this day") {
            desk.ask(Asked::GoOnOffered(path));
        }
        if button(ui, "Do not offer it again") {
            desk.offered = None;
            desk.ask(Asked::Forget);
        }
    });
    quiet(
        ui,
        look,
        "It has the plan with which it began, not the one in the window. It opens at the step where it stopped; nothing that was shown as entered is lost.",
    );
    ui.add_space(18.0);
    ui.separator();
    ui.add_space(12.0);
}

/// What lies on the seat by a log.
pub(super) fn lies(day: &Day) -> String {
    let run = day.run();
    match run.on_seat().len() {
        0 => "Nothing lies on the seat by its log".to_owned(),
        count => {
            let mass = Mass::kg(run.on_seat_kg()).shown(day.plan.units, Grain::Coarse);
            let lies = if count == 1 { "1 piece lies".to_owned() } else { format!("{count} pieces lie") };
            format!("By its log {lies} on the seat, {mass}: stand clear")
        }
    }
}
