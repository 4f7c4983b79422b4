//! The load's direction: a drawing of the load against gravity in the article as it stands, and the
//! pitch that brings them together.

use crate::look;
use crate::pages::Bench;
use crate::paint;
use assess::load::Load;
use drafting::lower::{Viewport, lower};
use drafting::views;
use eframe::egui::{self, Sense, Ui, WidgetInfo, accesskit::Role, vec2};
use plan::{Edit, LoadCase, Plan};
use quantity::frame::side;
use quantity::{Angle, Grain, Mass, Quantity};

/// Pitch and direction that differ by less are shown alike, so they are alike here.
const ALIKE_DEG: f64 = 0.05;
/// The drawing's greatest width, points; its least and greatest height, and how high it is as a part of its width.
const WIDTH: f32 = 980.0;
const HEIGHT: [f32; 2] = [260.0, 310.0];
const HIGH: f32 = 0.36;

pub(super) fn show(ui: &mut Ui, bench: &mut Bench) {
    let Some(case) = bench.plan.case_in_hand().cloned() else { return };
    let width = WIDTH.min(ui.available_width());
    ui.scope(|ui| {
        // Lines of text no longer than the drawing is wide.
        ui.set_max_width(width);
        drawing(ui, bench, &case);
        ui.add_space(4.0);
        pitch(ui, bench, &case);
    });
}

/// The direction in words: `straight down`, `10.0 deg forward`.
pub(super) fn words(plan: &Plan, case: &LoadCase) -> String {
    let lean_deg = case.direction.si().to_degrees();
    if lean_deg.abs() < ALIKE_DEG {
        return "straight down".to_owned();
    }
    // A load that leans forward is a positive angle; forward along x is negative.
    let side = side(0, -lean_deg);
    format!("{} {side}", Angle::rad(case.direction.si().abs()).shown(plan.units, Grain::Coarse))
}

fn drawing(ui: &mut Ui, bench: &Bench, case: &LoadCase) {
    ui.label(look::caption(bench.look, "The article from its left side, as it stands on the floor; forward is left."));
    let wide = ui.available_width();
    let size = vec2(wide, (HIGH * wide).clamp(HEIGHT[0], HEIGHT[1]));
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    let plan = bench.plan;
    let told = format!(
        "Load direction: load factor {} {}, article pitched {}",
        quantity::number_in_field(case.load_factor),
        words(plan, case),
        plan.article.pitch.shown(plan.units, Grain::Coarse)
    );
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &told));
    let (figure, [low, high]) = views::load(plan, bench.assessment.closed.target_in_floor);
    let area = [rect.left(), rect.top(), rect.right(), rect.bottom()].map(f64::from);
    let viewport = Viewport::fitting([low, high], area, 6.0, paint::UNIT_PER_PT);
    paint::primitives(&ui.painter_at(rect), lower(&figure, &viewport, &bench.look.palette));
    let frame = egui::Stroke::new(1.0, bench.look.rule());
    ui.painter().rect_stroke(rect, 0.0, frame, egui::StrokeKind::Inside);
}

/// What the direction asks of the article, and what has to lie on the seat.
fn pitch(ui: &mut Ui, bench: &mut Bench, case: &LoadCase) {
    let plan = bench.plan;
    let shown = |angle: Angle| angle.shown(plan.units, Grain::Coarse);
    let (is, due) = (plan.article.pitch, case.pitch_due());
    let off_deg = (is.si() - due.si()).to_degrees();
    ui.horizontal_wrapped(|ui| {
        if off_deg.abs() < ALIKE_DEG {
            ui.label(format!("The article is pitched {}: gravity acts along the load.", shown(is)));
            return;
        }
        ui.label(format!(
            "The article is pitched {}; the load case needs {}, nose-up positive.",
            shown(is),
            shown(due)
        ));
        if ui.button(format!("Pitch the article to {}", shown(due))).clicked() {
            bench.edits.push(Edit::Pitch { to: due });
        }
    });
    let note = note(plan, case, due);
    ui.add(egui::Label::new(look::caption(bench.look, note)).wrap());
}

fn note(plan: &Plan, case: &LoadCase, due: Angle) -> String {
    let ultimate = Load::of(case).ultimate.as_mass();
    let mass = |mass: Mass| mass.shown(plan.units, Grain::Coarse);
    let upright = case.direction.si().cos();
    let tilt = (due + plan.bed.slope).shown(plan.units, Grain::Coarse);
    let pitching = format!(
        "Pitching turns the article about its pivot while the supports stay where they are on the floor: see that \
         they still meet it. Pitched so, the bed is tilted {tilt}, forward end up positive."
    );
    // A lean of less than about two degrees takes less than a tenth of a per cent: none is told.
    if (1.0 - upright) < 5e-4 {
        return format!("{} have to lie on the seat at ultimate. {pitching}", mass(ultimate));
    }
    format!(
        "A dead weight acts straight down only: {} have to lie on the pitched seat at ultimate, the resultant. The \
         part along the article's vertical alone, {}, would fall {:.1} % short. {pitching}",
        mass(ultimate),
        mass(ultimate * upright),
        (1.0 - upright) * 100.0
    )
}
