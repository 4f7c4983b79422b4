//! The four numbers that matter, at every page's head.

use crate::look::{self, Look};
use assess::{Assessment, Decision};
use drafting::figure::Ink;
use eframe::egui::{Ui, vec2};
use plan::Plan;
use quantity::{Grain, Length, Mass, Quantity, frame};

pub(crate) fn show(ui: &mut Ui, look: &Look, plan: &Plan, assessment: &Assessment, deciding: bool) {
    let width = ui.available_width() / 4.0;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        let numbers = [
            applied(plan, assessment),
            offset(plan, assessment),
            reserve(plan, assessment, deciding),
            supports(plan, assessment),
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
    about: &'static str,
}

fn one(ui: &mut Ui, look: &Look, number: &Number) {
    ui.spacing_mut().item_spacing.y = 1.0;
    ui.label(look::caption(look, number.head));
    let ink = if number.in_order { Ink::Line } else { Ink::Wanted };
    ui.label(look::bold(&number.value, look::LARGE).color(look.ink(ink))).on_hover_text(number.about);
    ui.label(look::caption(look, &number.note));
}

fn in_order(assessment: &Assessment, checks: &[&str]) -> bool {
    assessment.findings.iter().filter(|f| checks.contains(&f.check)).all(|f| f.state.is_in_order())
}

fn applied(plan: &Plan, assessment: &Assessment) -> Number {
    let applied = Mass::kg(assessment.applied_kg());
    let note = assessment.load.map(|load| {
        let ultimate = load.ultimate.as_mass().shown(plan.units, Grain::Coarse);
        format!("of {ultimate} ultimate · {:.1} %", load.fraction(applied) * 100.0)
    });
    Number {
        head: "Applied",
        value: applied.shown(plan.units, Grain::Coarse),
        note: note.unwrap_or_default(),
        in_order: in_order(assessment, &["Applied load"]),
        about: "Mass of all placed pieces, bags and boards, against the ultimate load of the case in hand",
    }
}

fn offset(plan: &Plan, assessment: &Assessment) -> Number {
    let [fore_aft, lateral] = plan.target.tolerance().map(|t| t.shown(plan.units, Grain::Fine));
    let value = assessment.last().map(|s| offset_words(plan, s.offset_m));
    Number {
        head: "Offset",
        value: value.unwrap_or_else(|| "nothing placed".to_owned()),
        note: format!("allowed {fore_aft} fore and aft, {lateral} lateral"),
        in_order: in_order(assessment, &["Offset fore and aft", "Offset lateral"]),
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

fn reserve(plan: &Plan, assessment: &Assessment, deciding: bool) -> Number {
    let weakest = assessment.weakest_step();
    let value = match weakest.map(|(_, s)| s.least) {
        None => "nothing placed".to_owned(),
        Some(Decision::Decided(r)) => {
            format!("{:.2} {}", r.multiplier, frame::plan_words(r.direction_rad.to_degrees()))
        }
        Some(Decision::NotLimited) => "not limited".to_owned(),
        Some(Decision::NotDecided { .. }) if deciding => "being decided".to_owned(),
        Some(Decision::NotDecided { .. }) => "not decided".to_owned(),
        Some(Decision::Falls) => "falls".to_owned(),
        Some(Decision::Loose) => "touches nothing".to_owned(),
    };
    let step = weakest.map_or(String::new(), |(k, _)| format!("step {} · ", k + 1));
    Number {
        head: "Least reserve (upper bound)",
        value,
        note: format!("{step}asked {:.2} · closed form", plan.allow.collapse),
        in_order: in_order(assessment, &["Tip margin", "Sliding", "Every piece rests"]),
        about: "The least level push, as a fraction of the weight above, that moves a layer at any step; an upper bound of the true reserve",
    }
}

fn supports(plan: &Plan, assessment: &Assessment) -> Number {
    let shown = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let article = plan.article.mass.si();
    let stack = assessment.applied_kg();
    Number {
        head: "On the supports in all",
        value: shown(article + stack),
        note: format!("article {} + stack {} · straps left out", shown(article), shown(stack)),
        in_order: in_order(assessment, &["Footprint"]),
        about: "What all supports together carry, before the pull of straps",
    }
}
