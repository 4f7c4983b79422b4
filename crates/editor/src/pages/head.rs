//! The four numbers that matter, at every page's head.

use crate::look::{self, Look};
use assess::{Assessment, Decision, State};
use drafting::figure::Ink;
use eframe::egui::{self, Ui, vec2};
use plan::Plan;
use quantity::{Grain, Length, Mass, Quantity, frame};

/// What the numbers are told of.
#[derive(Clone, Copy)]
pub(crate) struct Told<'a> {
    pub(crate) plan: &'a Plan,
    pub(crate) assessment: &'a Assessment,
    /// How many placements are looked at; fewer than all show the state after that step, with the
    /// end's beside it.
    pub(crate) placed: usize,
    /// The part of the full assessment that is done, while it runs.
    pub(crate) progress: Option<f32>,
}

impl Told<'_> {
    /// The step looked at, from 0, if it is not the last one.
    fn step(&self) -> Option<usize> {
        self.placed.checked_sub(1).filter(|_| self.placed < self.plan.steps())
    }

    /// `Applied at the end`, `Applied after step 12`.
    fn head(&self, what: &str) -> String {
        self.step().map_or_else(|| format!("{what} at the end"), |step| format!("{what} after step {}", step + 1))
    }

    /// What holds at the end, for the second line while a step is looked at.
    fn at_the_end(&self, value: impl FnOnce() -> String) -> String {
        if self.step().is_some() { format!(" · {} at the end", value()) } else { String::new() }
    }
}

pub(crate) fn show(ui: &mut Ui, look: &Look, told: Told) {
    let width = ui.available_width() / 4.0;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        for number in [applied(told), offset(told), reserve(told), supports(told)] {
            ui.allocate_ui(vec2(width, 58.0), |ui| {
                ui.set_min_width(width);
                ui.vertical(|ui| one(ui, look, &number));
            });
        }
    });
}

struct Number {
    head: String,
    value: String,
    note: String,
    in_order: bool,
    progress: Option<f32>,
    about: &'static str,
}

fn one(ui: &mut Ui, look: &Look, number: &Number) {
    ui.spacing_mut().item_spacing.y = 1.0;
    ui.label(look::caption(look, &number.head)).on_hover_text(number.about);
    let ink = if number.in_order { Ink::Line } else { Ink::Wanted };
    ui.label(look::bold(&number.value, look::LARGE).color(look.ink(ink))).on_hover_text(number.about);
    match number.progress {
        Some(part) => {
            let width = (ui.available_width() - 24.0).min(180.0);
            let bar = egui::ProgressBar::new(part).desired_width(width).desired_height(10.0).fill(look.ink(Ink::Is));
            ui.add(bar);
        }
        None => drop(ui.label(look::caption(look, &number.note))),
    }
}

fn in_order(assessment: &Assessment, checks: &[&str]) -> bool {
    assessment.findings.iter().filter(|f| checks.contains(&f.check)).all(|f| f.state != State::Fails)
}

fn applied(told: Told) -> Number {
    let (plan, assessment) = (told.plan, told.assessment);
    let shown = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let at_end = assessment.applied_kg();
    let applied = told.step().and_then(|k| assessment.steps.get(k)).map_or(at_end, |s| s.applied_kg);
    let note = assessment.load.map(|load| {
        let ultimate = load.ultimate.as_mass().shown(plan.units, Grain::Coarse);
        format!("of {ultimate} ultimate · {:.1} %", load.fraction(Mass::kg(applied)) * 100.0)
    });
    Number {
        head: told.head("Applied"),
        value: shown(applied),
        note: note.unwrap_or_default() + &told.at_the_end(|| shown(at_end)),
        in_order: in_order(assessment, &["Applied load"]),
        progress: None,
        about: "Mass of all placed pieces, bags and boards: what bears on the seat. Held against the ultimate load of the load case in hand: occupant mass x limit load factor x factor of safety x special factors.",
    }
}

fn offset(told: Told) -> Number {
    let (plan, assessment) = (told.plan, told.assessment);
    let [fore_aft, lateral] = plan.target.tolerance().map(|t| t.shown(plan.units, Grain::Fine));
    let words = |state: Option<&assess::StepState>| {
        state.map_or_else(|| "nothing placed".to_owned(), |s| offset_words(plan, s.offset_m))
    };
    let state = told.step().and_then(|k| assessment.steps.get(k)).or(assessment.last());
    Number {
        head: told.head("Offset"),
        value: words(state),
        note: match told.step() {
            Some(_) => format!("{} at the end", words(assessment.last())),
            None => format!("allowed {fore_aft} fore and aft, {lateral} lateral"),
        },
        in_order: told.step().is_some() || in_order(assessment, &["Offset fore and aft", "Offset lateral"]),
        progress: None,
        about: "Line of action of what is placed minus the occupant point, level with the floor (floor frame). Heights are not compared: a dead weight's height does not change the load that it puts on the seat. The tolerance is the plan's and is asked at the end.",
    }
}

/// An offset in words: `4 mm aft, 1 mm left`.
pub(crate) fn offset_words(plan: &Plan, [aft, right]: [f64; 2]) -> String {
    let one = |m: f64, sides: [&str; 2]| {
        let side = if m >= 0.0 { sides[0] } else { sides[1] };
        format!("{} {side}", Length::m(m.abs()).shown(plan.units, Grain::Fine))
    };
    format!("{}, {}", one(aft, ["aft", "forward"]), one(right, ["right", "left"]))
}

/// The reserve after a step, as solved, else the closed form, which is an upper bound.
fn reserve_after(assessment: &Assessment, step: usize) -> Option<Decision> {
    let solved = assessment.exact.as_ref().and_then(|exact| exact.steps.get(step)).map(|s| s.least);
    solved.or_else(|| assessment.steps.get(step).map(|s| s.least))
}

fn reserve_words(least: Option<Decision>) -> String {
    match least {
        None => "nothing placed".to_owned(),
        Some(Decision::Decided(r)) if r.multiplier < 0.0 => "falls by itself".to_owned(),
        Some(Decision::Decided(r)) => {
            format!("{:.2} {}", r.multiplier, frame::plan_words(r.direction_rad.to_degrees()))
        }
        Some(Decision::NotLimited) => "not limited".to_owned(),
        Some(Decision::NotDecided { .. }) => "not decided".to_owned(),
        Some(Decision::Falls) => "falls by itself".to_owned(),
        Some(Decision::Loose) => "a piece touches nothing".to_owned(),
    }
}

/// The least reserve of all steps; while a step is looked at, that step's with the least beside it.
fn reserve(told: Told) -> Number {
    let (plan, assessment) = (told.plan, told.assessment);
    let solved = assessment.exact.as_ref().and_then(|exact| exact.weakest_step()).map(|(step, _)| step);
    let weakest = solved.or_else(|| assessment.weakest_step().map(|(step, _)| step));
    let least = weakest.and_then(|step| reserve_after(assessment, step));
    let place = weakest.map_or(String::new(), |k| format!("step {} · ", k + 1));
    let asked = format!("asked {:.2}", plan.allow.collapse);
    let bound = if assessment.exact.is_some() { "" } else { " (closed form, upper bound)" };
    let checks: &[&str] = if assessment.exact.is_some() {
        &["Every step stands", "Collapse reserve", "Tip margin", "Every piece rests"]
    } else {
        &["Tip margin", "Every piece rests"]
    };
    let (head, value, note) = match told.step() {
        Some(step) => (
            format!("Reserve after step {}{bound}", step + 1),
            reserve_words(reserve_after(assessment, step)),
            format!("least of all: {place}{} · {asked}", reserve_words(least)),
        ),
        None => (
            format!("Least reserve{bound}"),
            reserve_words(least),
            format!("{place}level push, fraction of weight · {asked}"),
        ),
    };
    Number {
        head,
        value,
        note,
        in_order: in_order(assessment, checks),
        progress: told.progress,
        about: "The least level push on every piece, as a fraction of its weight, that brings the stack down, and the way it goes (floor frame). Solved over all plan directions; with friction an upper bound of the true reserve.",
    }
}

/// What each scale shows at the end, as solved; until then what all supports carry together.
fn supports(told: Told) -> Number {
    let Told { plan, assessment, progress, .. } = told;
    let shown = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let checks = ["Footprint", "Article stands", "Scales", "Strap pull"];
    let step = told.placed.saturating_sub(1);
    let last = assessment.exact.as_ref().and_then(|exact| exact.fixture.get(step));
    let about = "What each support shows after this step, in the order of their names below: article, stack and the pull of straps, as solved.";
    let Some(reactions) = last.and_then(|fixture| fixture.settled.reactions()) else {
        let (article, stack) = (plan.article.mass.si(), assessment.applied_kg());
        let in_order = in_order(assessment, &checks[..if progress.is_some() { 1 } else { 4 }]);
        let note = format!("article {} + stack {} · straps left out", shown(article), shown(stack));
        let value = shown(article + stack);
        return Number {
            head: "On the supports in all, at the end".to_owned(),
            value,
            note,
            in_order,
            progress,
            about,
        };
    };
    let unit = plan.units.unit(quantity::Kind::Mass, Grain::Coarse);
    let readings: Vec<String> =
        reactions.supports.iter().map(|s| format!("{:.0}", s.reading_kg / unit.si + 0.0)).collect();
    let names: Vec<&str> = plan.fixture.supports.iter().map(|s| s.name.as_str()).collect();
    let straps: Vec<String> = plan
        .fixture
        .hold_downs
        .iter()
        .zip(&reactions.ties)
        .map(|(strap, tie)| {
            format!("{} {}", strap.name, quantity::Force::n(tie.tension_n).shown(plan.units, Grain::Coarse))
        })
        .collect();
    let note = names.into_iter().map(str::to_owned).chain(straps).collect::<Vec<_>>().join(" · ");
    let value = format!("{} {}", readings.join(" · "), unit.symbol);
    Number {
        head: told.head(if plan.fixture.supports.iter().any(|s| s.scale) { "Scales" } else { "On the supports" }),
        value,
        note,
        in_order: in_order(assessment, &checks),
        progress: None,
        about,
    }
}
