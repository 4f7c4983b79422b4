//! The four numbers that matter, at every page's head.

use crate::look::{self, Look};
use assess::{Assessment, Decision, State};
use drafting::figure::Ink;
use eframe::egui::{self, Ui, vec2};
use plan::Plan;
use quantity::{Grain, Length, Mass, Quantity, frame};

/// `progress` is the part of the full assessment that is done, while it runs.
pub(crate) fn show(ui: &mut Ui, look: &Look, (plan, assessment): (&Plan, &Assessment), progress: Option<f32>) {
    let width = ui.available_width() / 4.0;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        let numbers = [
            applied(plan, assessment),
            offset(plan, assessment),
            reserve(plan, assessment, progress),
            supports(plan, assessment, progress),
        ];
        for number in numbers {
            ui.allocate_ui(vec2(width, 58.0), |ui| {
                ui.set_min_width(width);
                ui.vertical(|ui| one(ui, look, &number));
            });
        }
    });
}

struct Number {
    head: &'static str,
    value: String,
    note: String,
    in_order: bool,
    progress: Option<f32>,
    about: &'static str,
}

fn one(ui: &mut Ui, look: &Look, number: &Number) {
    ui.spacing_mut().item_spacing.y = 1.0;
    ui.label(look::caption(look, number.head));
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

fn applied(plan: &Plan, assessment: &Assessment) -> Number {
    let applied = Mass::kg(assessment.applied_kg());
    let note = assessment.load.map(|load| {
        let ultimate = load.ultimate.as_mass().shown(plan.units, Grain::Coarse);
        format!("of {ultimate} ultimate · {:.1} %", load.fraction(applied) * 100.0)
    });
    Number {
        head: "Applied at the end",
        value: applied.shown(plan.units, Grain::Coarse),
        note: note.unwrap_or_default(),
        in_order: in_order(assessment, &["Applied load"]),
        progress: None,
        about: "Mass of all placed pieces, bags and boards, against the ultimate load of the case in hand",
    }
}

fn offset(plan: &Plan, assessment: &Assessment) -> Number {
    let [fore_aft, lateral] = plan.target.tolerance().map(|t| t.shown(plan.units, Grain::Fine));
    let value = assessment.last().map(|s| offset_words(plan, s.offset_m));
    Number {
        head: "Offset at the end",
        value: value.unwrap_or_else(|| "nothing placed".to_owned()),
        note: format!("allowed {fore_aft} fore and aft, {lateral} lateral"),
        in_order: in_order(assessment, &["Offset fore and aft", "Offset lateral"]),
        progress: None,
        about: "Line of action minus occupant point, floor frame; heights are not compared",
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

/// The least reserve of all steps: as solved, else the closed form, which is an upper bound.
fn reserve(plan: &Plan, assessment: &Assessment, progress: Option<f32>) -> Number {
    let solved = assessment.exact.as_ref().and_then(|exact| exact.weakest_step());
    let closed = || assessment.weakest_step().map(|(step, state)| (step, state.least));
    let weakest = solved.map(|(step, state)| (step, state.least)).or_else(closed);
    let value = match weakest.map(|(_, least)| least) {
        None => "nothing placed".to_owned(),
        Some(Decision::Decided(r)) if r.multiplier < 0.0 => "falls by itself".to_owned(),
        Some(Decision::Decided(r)) => {
            format!("{:.2} {}", r.multiplier, frame::plan_words(r.direction_rad.to_degrees()))
        }
        Some(Decision::NotLimited) => "not limited".to_owned(),
        Some(Decision::NotDecided { .. }) => "not decided".to_owned(),
        Some(Decision::Falls) => "falls by itself".to_owned(),
        Some(Decision::Loose) => "a piece touches nothing".to_owned(),
    };
    let step = weakest.map_or(String::new(), |(k, _)| format!("step {} · ", k + 1));
    let (head, checks): (_, &[&str]) = if assessment.exact.is_some() {
        ("Least reserve", &["Every step stands", "Collapse reserve", "Tip margin", "Every piece rests"])
    } else {
        ("Least reserve (closed form, upper bound)", &["Tip margin", "Every piece rests"])
    };
    Number {
        head,
        value,
        note: format!("{step}level push, fraction of weight · asked {:.2}", plan.allow.collapse),
        in_order: in_order(assessment, checks),
        progress,
        about: "The least level push on every piece, as a fraction of its weight, that brings the stack down at any step; with friction an upper bound of the true reserve",
    }
}

/// What each scale shows at the end, as solved; until then what all supports carry together.
fn supports(plan: &Plan, assessment: &Assessment, progress: Option<f32>) -> Number {
    let shown = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let checks = ["Footprint", "Article stands", "Scales", "Strap pull"];
    let last = assessment.exact.as_ref().and_then(|exact| exact.fixture.last());
    let about = "What the supports show with all pieces placed, the pull of straps included";
    let Some(reactions) = last.and_then(|fixture| fixture.settled.reactions()) else {
        let (article, stack) = (plan.article.mass.si(), assessment.applied_kg());
        let in_order = in_order(assessment, &checks[..if progress.is_some() { 1 } else { 4 }]);
        let note = format!("article {} + stack {} · straps left out", shown(article), shown(stack));
        let value = shown(article + stack);
        return Number { head: "On the supports in all", value, note, in_order, progress, about };
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
        head: if plan.fixture.supports.iter().any(|s| s.scale) {
            "Scales at the end"
        } else {
            "On the supports at the end"
        },
        value,
        note,
        in_order: in_order(assessment, &checks),
        progress: None,
        about,
    }
}
