//! Above the page: where the day stands, what is on the seat against what is due, local time, STOP.

use super::desk::Desk;
use super::large::{big_size, huge_size};
use crate::look::{self, Look};
use crate::paint;
use assess::load::Load;
use drafting::figure::Ink;
use eframe::egui::{self, Align, Align2, Color32, FontId, Layout, Rect, RichText, Sense, Ui, UiBuilder, pos2, vec2};
use plan::{Hold, Plan};
use quantity::{Grain, Mass, Quantity};
use testday::{Day, Next, Stage};

/// The corner that stops, points; the band is as high.
pub(super) const STOP: egui::Vec2 = vec2(236.0, 104.0);

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let area = ui.max_rect();
    let corner = Rect::from_min_size(pos2(area.right() - STOP.x, area.top()), STOP);
    let Some(day) = desk.day().cloned() else { return };
    let stopped = day.stopped.is_some();
    let left =
        Rect::from_min_max(area.min + vec2(super::EDGE, 10.0), pos2(corner.left() - 16.0, corner.bottom() - 8.0));
    if stopped {
        put(ui, left, Layout::left_to_right(Align::Center), |ui| {
            let size = 1.6 * huge_size(ui);
            ui.label(look::bold("STOP. Stand clear.", size).color(Color32::WHITE));
        });
        return since(ui, desk, corner);
    }
    let next = desk.next();
    let big = big_size(ui);
    let clock_wide = 5.2 * big;
    let told_wide = 12.5 * big;
    let told = Rect::from_min_max(left.min, pos2(left.left() + told_wide, left.bottom()));
    let clock = Rect::from_min_max(pos2(left.right() - clock_wide, left.top()), left.max);
    where_it_stands(ui, look, told, (&day, next.as_ref()));
    load(
        ui,
        look,
        Rect::from_min_max(pos2(told.right() + 12.0, left.top()), pos2(clock.left() - 16.0, left.bottom())),
        (&day, next.as_ref()),
    );
    put(ui, clock, Layout::top_down(Align::RIGHT), |ui| {
        ui.label(look::bold(desk.local_time(ui.ctx()), huge_size(ui)));
        ui.label(RichText::new("local time").size(0.72 * big).color(look.ink(Ink::Quiet)));
    });
    if day.ended.is_none() {
        stop(ui, desk, corner);
    }
}

fn put<R>(ui: &mut Ui, rect: Rect, layout: Layout, add: impl FnOnce(&mut Ui) -> R) -> R {
    ui.scope_builder(UiBuilder::new().max_rect(rect).layout(layout), add).inner
}

/// The step and the run; or what is done before the first piece and after the last.
fn where_it_stands(ui: &mut Ui, look: &Look, area: Rect, (day, next): (&Day, Option<&Next>)) {
    let run = day.run();
    let steps = run.as_done().steps();
    let (head, of) = match (next, run.stage) {
        (Some(Next::Lift { index }), _) => (format!("Step {}", run.step_of(*index) + 1), format!("of {steps}")),
        (_, Stage::Empty) => ("Before step 1".to_owned(), String::new()),
        (_, Stage::Loading) => (format!("Step {}", run.last_on.map_or(0, |last| last + 1)), format!("of {steps}")),
        (_, Stage::Unloading) => ("Unloading".to_owned(), format!("{} in place", run.on_seat().len())),
        (_, Stage::Done) => ("Seat empty".to_owned(), String::new()),
    };
    let runs = day.plan.runs().len();
    let [number, _] = next.map_or([day.runs.len(), 0], |next| day.shown_run(next));
    put(ui, area, Layout::top_down(Align::LEFT), |ui| {
        ui.horizontal(|ui| {
            ui.label(look::bold(head, huge_size(ui)));
            ui.label(RichText::new(of).size(big_size(ui)).color(look.ink(Ink::Quiet)));
        });
        let line = format!("Run {number} of {runs}{}", leads_to(&day.plan, number));
        let line = RichText::new(line).size(0.8 * big_size(ui)).color(look.ink(Ink::Quiet));
        ui.add(egui::Label::new(line).truncate());
    });
}

/// `, to limit`.
fn leads_to(plan: &Plan, run: usize) -> String {
    let runs = plan.runs();
    let last = run.checked_sub(1).and_then(|run| runs.get(run)?.holds.last().copied());
    last.and_then(|hold| plan.holds.get(hold.hold)).map_or_else(String::new, |hold| format!(", to {}", hold.name))
}

/// What the pieces on the seat weigh, on a bar with a tick for every hold of the run.
fn load(ui: &mut Ui, look: &Look, area: Rect, (day, next): (&Day, Option<&Next>)) {
    let Some(load) = day.plan.case_in_hand().map(Load::of) else { return };
    let ultimate_kg = load.ultimate.as_mass().si();
    let there_kg = day.run().on_seat_kg();
    let mass = |kg: f64| Mass::kg(kg).shown(day.plan.units, Grain::Coarse);
    let size = 0.8 * big_size(ui);
    let line = Rect::from_min_size(area.min, vec2(area.width(), 1.4 * size));
    put(ui, line, Layout::left_to_right(Align::Center), |ui| {
        ui.label(look::bold(format!("On the seat {}", mass(there_kg)), size));
    });
    let left_kg = ultimate_kg - there_kg;
    let rest = match left_kg >= 0.0 {
        true => format!("{} to ultimate", mass(left_kg)),
        false => format!("{} above ultimate", mass(-left_kg)),
    };
    put(ui, line, Layout::right_to_left(Align::Center), |ui| {
        if line.width() > 22.0 * size {
            ui.label(RichText::new(rest).size(0.85 * size).color(look.ink(Ink::Quiet)));
        }
    });
    let bar = Rect::from_min_size(line.left_bottom() + vec2(0.0, 4.0), vec2(area.width(), 14.0));
    let at = |kg: f64| {
        #[expect(clippy::cast_possible_truncation, reason = "a part of one")]
        let part = (kg / (1.03 * ultimate_kg)).clamp(0.0, 1.0) as f32;
        bar.left() + part * bar.width()
    };
    ui.painter().rect_filled(bar, 2.0, look.rule());
    let filled = Rect::from_min_max(bar.min, pos2(at(there_kg), bar.bottom()));
    ui.painter().rect_filled(filled, 2.0, look.ink(Ink::Is));
    let [number, _] = next.map_or([day.runs.len(), 0], |next| day.shown_run(next));
    let holds = holds_of(&day.plan, number);
    ticks(ui, look, bar, (&holds, &at, ultimate_kg));
}

/// All holds of the plan; of two at one load the one of the run that is shown, by its number from 1.
fn holds_of(plan: &Plan, run: usize) -> Vec<&Hold> {
    /// Loads closer together are one on the bar, a part of ultimate.
    const APART: f64 = 0.005;
    let runs = plan.runs();
    let own: Vec<usize> = run
        .checked_sub(1)
        .and_then(|run| runs.get(run))
        .map_or_else(Vec::new, |run| run.holds.iter().map(|step| step.hold).collect());
    let is_own_at = |at: f64| own.iter().any(|hold| (plan.holds[*hold].at - at).abs() < APART);
    let shown = |(index, hold): &(usize, &Hold)| own.contains(index) || !is_own_at(hold.at);
    plan.holds.iter().enumerate().filter(shown).map(|(_, hold)| hold).collect()
}

/// A tick for every hold, with its name where there is room.
fn ticks(ui: &Ui, look: &Look, bar: Rect, (holds, at, ultimate_kg): (&[&Hold], &dyn Fn(f64) -> f32, f64)) {
    let font = FontId::proportional(0.62 * big_size(ui));
    let ink = look.ink(Ink::Wanted);
    let mut free = f32::INFINITY;
    for hold in holds.iter().rev() {
        let x = at(hold.at * ultimate_kg);
        let line = [pos2(x, bar.top() - 4.0), pos2(x, bar.bottom() + 4.0)];
        ui.painter().line_segment(line, egui::Stroke::new(2.0, ink));
        let galley = ui.painter().layout_no_wrap(hold.name.clone(), font.clone(), ink);
        let wide = galley.size().x;
        let left = (x - 0.5 * wide).clamp(bar.left(), bar.right() - wide);
        if left + wide <= free {
            ui.painter().galley(pos2(left, bar.bottom() + 5.0), galley, ink);
            free = left - 10.0;
        }
    }
}

/// The corner; its colour is nowhere else.
fn stop(ui: &mut Ui, desk: &mut Desk, corner: Rect) {
    let response = ui.interact(corner, egui::Id::unique("stop corner"), Sense::click());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, "STOP"));
    let painter = ui.painter();
    painter.rect_filled(corner, 0.0, look::STOP);
    painter.text(
        corner.center() - vec2(0.0, 12.0),
        Align2::CENTER_CENTER,
        "STOP",
        FontId::new(44.0, paint::bold_family()),
        Color32::WHITE,
    );
    let keys = if desk.types_words(ui.ctx()) { "F12 while you type" } else { "space bar" };
    painter.text(
        corner.center_bottom() - vec2(0.0, 22.0),
        Align2::CENTER_CENTER,
        keys,
        FontId::proportional(15.0),
        Color32::WHITE,
    );
    if response.has_focus() {
        let inner = corner.shrink(4.0);
        painter.rect_stroke(inner, 0.0, egui::Stroke::new(3.0, Color32::WHITE), egui::StrokeKind::Inside);
    }
    if response.clicked() {
        desk.stop_by_hand(ui.ctx());
    }
}

/// How long it has been stopped, in the corner that stopped it: a second press meets nothing else there.
fn since(ui: &mut Ui, desk: &Desk, corner: Rect) {
    let painter = ui.painter();
    painter.rect_filled(corner, 0.0, Color32::WHITE);
    let font = FontId::new(20.0, paint::bold_family());
    let time = desk.stopped_for(ui.ctx());
    let up = if time.is_some() { 22.0 } else { 0.0 };
    painter.text(corner.center() - vec2(0.0, up), Align2::CENTER_CENTER, "stopped", font, look::STOP);
    if let Some(time) = time {
        let font = FontId::new(36.0, paint::bold_family());
        painter.text(corner.center() + vec2(0.0, 14.0), Align2::CENTER_CENTER, time, font, look::STOP);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_two_holds_at_one_load_the_bar_names_the_one_of_its_run() {
        let mut plan = crate::demos::demo(0);
        // The demo unloads after limit; the second run holds there again.
        let again = Hold::at("limit again", plan.holds[1].at);
        plan.holds.insert(2, again);
        let named = |run: usize| holds_of(&plan, run).into_iter().map(|hold| hold.name.as_str()).collect::<Vec<_>>();
        assert_eq!(named(1), ["half limit", "limit", "ultimate"]);
        assert_eq!(named(2), ["half limit", "limit again", "ultimate"]);
    }
}
