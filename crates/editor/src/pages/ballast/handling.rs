//! The caution on lifting by hand, with its inputs.

use crate::look;
use crate::pages::Bench;
use crate::pages::list::row;
use assess::handling::{Heaviest, LIMITS, NEARLY_ALL_AT_RISK, SOME_AT_RISK, heaviest, lifts};
use drafting::figure::Ink;
use eframe::egui::{Align2, FontId, Label, Rect, Sense, Stroke, Ui, WidgetInfo, accesskit::Role, pos2, vec2};
use plan::edit::Part;
use plan::{Grip, Handling, Plan, Spell};
use quantity::{Grain, Quantity};

pub(super) fn show(ui: &mut Ui, bench: &mut Bench) {
    let mut handling = bench.plan.allow.handling;
    fields(ui, bench, &mut handling);
    if handling != bench.plan.allow.handling {
        let mut allow = bench.plan.allow.clone();
        allow.handling = handling;
        bench.set_if_changed(|| Part::Allow(allow));
    }
    ui.add_space(4.0);
    match heaviest(bench.plan, &bench.assessment.closed) {
        Some(found) => told(ui, bench, &found),
        None => drop(ui.label("No piece is placed yet.")),
    }
    ui.add(Label::new(look::caption(bench.look, LIMITS)).wrap());
    let source = "Revised NIOSH lifting equation, publication 94-110 (1994, revised 2021), read where others quote it.";
    ui.add(Label::new(look::caption(bench.look, source)).wrap());
}

/// Height of the drawing of all lifts, points, where it is narrow and where it is wide, and how wide a step is at the
/// most.
const BARS: [f32; 2] = [84.0, 150.0];
const WIDE: f32 = 560.0;
const WIDEST: f32 = 22.0;
/// The greatest index that the drawing tells apart.
const TOP: f64 = 4.5;

/// The lifting index step by step, with lines at 1 and 3; an index beyond the drawing reaches its top.
#[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "points of a drawing")]
fn steps(ui: &mut Ui, bench: &Bench) {
    let all = lifts(bench.plan, &bench.assessment.closed);
    let width = ui.available_width().min(1300.0);
    let high = BARS[usize::from(width > WIDE)];
    let (rect, response) = ui.allocate_exact_size(vec2(width, high), Sense::hover());
    let told = format!("Lifting index of {} steps, lines at 1 and 3", all.len());
    response.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, &told));
    let (painter, left) = (ui.painter_at(rect), rect.left() + 44.0);
    let height = |index: f64| rect.bottom() - 14.0 - (index.min(TOP) / TOP) as f32 * (high - 18.0);
    let each = ((rect.right() - left) / all.len().max(1) as f32).min(WIDEST);
    for (place, lift) in all.iter().enumerate() {
        let from = left + place as f32 * each;
        let bar = Rect::from_min_max(pos2(from, height(lift.index)), pos2(from + (each - 1.0).max(0.6), height(0.0)));
        let ink = if lift.index > SOME_AT_RISK { Ink::Wanted } else { Ink::Is };
        painter.rect_filled(bar, 0.0, bench.look.ink(ink));
    }
    let font = FontId::proportional(look::TICK);
    for index in [SOME_AT_RISK, NEARLY_ALL_AT_RISK] {
        let stroke = Stroke::new(1.0, bench.look.ink(Ink::Line));
        painter.hline(left..=rect.right(), height(index), stroke);
        let at = pos2(left - 6.0, height(index));
        painter.text(at, Align2::RIGHT_CENTER, format!("{index:.0}"), font.clone(), bench.look.ink(Ink::Quiet));
    }
    painter.hline(left..=rect.right(), height(0.0), Stroke::new(1.0, bench.look.rule()));
    let below = pos2(left, rect.bottom());
    let words = format!("lifting index, steps 1 to {}", all.len());
    painter.text(below, Align2::LEFT_BOTTOM, words, font, bench.look.ink(Ink::Quiet));
}

fn fields(ui: &mut Ui, bench: &mut Bench, handling: &mut Handling) {
    let mut form = bench.form();
    row(ui, "Hands ahead of the ankles", |ui| {
        form.quantity(ui, "lifting reach", Grain::Coarse, &mut handling.reach);
    });
    row(ui, "Hands above the floor at first", |ui| {
        form.quantity(ui, "lifting pick-up height", Grain::Coarse, &mut handling.pick_up);
    });
    row(ui, "Twist to the side", |ui| form.quantity(ui, "lifting twist", Grain::Coarse, &mut handling.twist));
    row(ui, "Lifts a minute, for", |ui| {
        form.number(ui, "lifts per minute", &mut handling.lifts_per_minute);
        let spells = [(Spell::OneHour, "1 hour"), (Spell::TwoHours, "2 hours"), (Spell::EightHours, "8 hours")];
        form.choice(ui, "lifting spell", &spells, &mut handling.spell);
    });
    row(ui, "Grip, people", |ui| {
        let grips = [(Grip::Good, "good"), (Grip::Fair, "fair"), (Grip::Poor, "poor")];
        form.choice(ui, "lifting grip", &grips, &mut handling.grip);
        form.choice(ui, "lifting people", &[(1, "one person"), (2, "two people")], &mut handling.people);
    });
    row(ui, "Two people from layer", |ui| {
        form.optional_count(ui, "two people from layer", &mut handling.two_people_from_layer);
        ui.label(look::caption(form.look, "each is told half the load at best"));
    });
}

fn told(ui: &mut Ui, bench: &Bench, found: &Heaviest) {
    let ink = if found.lift.index > SOME_AT_RISK { Ink::Wanted } else { Ink::Line };
    ui.add(Label::new(look::bold(in_words(bench.plan, found), look::BODY).color(bench.look.ink(ink))).wrap());
    steps(ui, bench);
    let factors = found.lift.recommended.multipliers.iter();
    let factors: Vec<_> = factors.map(|factor| format!("{} {:.2}", factor.meaning, factor.value)).collect();
    let worst = found.lift.recommended.worst();
    let words = format!("Factors, 1 at best: {}. Most is lost by: {}.", factors.join(", "), worst.meaning);
    ui.add(Label::new(look::caption(bench.look, words)).wrap());
}

fn in_words(plan: &Plan, found: &Heaviest) -> String {
    let lift = &found.lift;
    let [mass, limit] = [lift.mass, lift.recommended.limit].map(|mass| mass.shown(plan.units, Grain::Coarse));
    let head = format!(
        "{} ({mass}), put down at {}",
        plan.piece_name(lift.step),
        lift.put_down.shown(plan.units, Grain::Coarse)
    );
    if lift.recommended.limit.si() <= 0.0 {
        return format!("{head}: beyond what the equation allows at all. Come nearer, lower, or lift seldom.");
    }
    let tail = match lift.index {
        index if index > NEARLY_ALL_AT_RISK => "nearly everybody is at risk. Use a hoist, or bags of half the mass.",
        index if index > SOME_AT_RISK => "some are at risk. Take lighter bags, a higher pick-up, a second person.",
        _ => "within the limit.",
    };
    let by = if lift.recommended.people > 1 { " for one, of two each bears half the load at best" } else { "" };
    format!(
        "{head}: recommended {limit}{by}, lifting index {:.1}; {} of {} are above it: {tail}",
        lift.index, found.above, found.of
    )
}
