//! Scales, straps and gauges: a field each, with what it should show.

use super::desk::Desk;
use super::doubt::Doubt;
use super::entry::{Row, mass_kg, read};
use super::foreseen::Foreseen;
use super::large::{big, huge, primary, quiet};
use super::plausible::{self, When};
use super::rows;
use crate::look::Look;
use eframe::egui::Ui;
use plan::Plan;
use quantity::{Force, Grain, Kind, Length, Quantity};
use testday::{Day, Entry, GaugeStop, Moment, Range, Reading, Stage};

/// The fields for the scales, with what each should show.
pub(super) fn scales(ui: &mut Ui, look: &Look, desk: &mut Desk, tare: bool) {
    match tare {
        true => huge(ui, "Read the scales before the first piece"),
        false => huge(ui, "Read the scales"),
    }
    match tare {
        true => big(
            ui,
            "What they show now is the tare: do not set them to zero. It is taken out of every later reading, scale by scale. Later readings: from a distance or by camera.",
        ),
        false => big(ui, "Everybody clear. Read from a distance or by camera."),
    }
    ui.add_space(6.0);
    asked(ui, look, desk, (tare, Row::default()));
}

/// The fields, and what enters them.
pub(super) fn asked(ui: &mut Ui, look: &Look, desk: &mut Desk, (tare, mut row): (bool, Row)) {
    let Some(day) = desk.day().cloned() else { return };
    let plan = day.run().as_done().clone();
    let ranges = ranges(desk, tare);
    let (texts, pulls) = fields(ui, look, (desk, &mut row), (&plan, &ranges));
    ui.add_space(8.0);
    let word = if tare { "Take the tare" } else { "Enter the readings" };
    let entered = row.entered(ui, desk);
    let pressed = primary(ui, look, word, (row.act(ui), false, false));
    if !pressed && !entered {
        return;
    }
    match reading(&texts, &pulls, &plan) {
        Ok(reading) => {
            let is_of_plan = desk.account().is_none_or(testday::Account::tare_due_is_of_plan);
            let when = if tare { When::Tare { due: &ranges, is_of_plan } } else { When::Loaded };
            let doubt = plausible::scales(&plan, &reading, when);
            desk.enter_meant(ui.ctx(), doubt, vec![if tare { Entry::Tare(reading) } else { Entry::Reading(reading) }]);
        }
        Err(sentence) => desk.misfit(sentence),
    }
}

/// The fields while pieces come off, where anyone wants to read: nothing waits for it.
pub(super) fn left(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let Some(plan) = desk.day().map(|day| day.plan.clone()) else { return };
    let ranges = desk.due_left().to_vec();
    let (texts, pulls) = fields(ui, look, (desk, &mut Row::waiting()), (&plan, &ranges));
    if super::large::button(ui, "Enter what they show now") {
        match reading(&texts, &pulls, &plan) {
            Ok(reading) => {
                let doubt = plausible::scales(&plan, &reading, When::Left(&ranges));
                desk.enter_meant(ui.ctx(), doubt, vec![Entry::Reading(reading)]);
            }
            Err(sentence) => desk.misfit(sentence),
        }
    }
}

/// Names with what was typed: of scales, of straps.
type Typed = Vec<(String, String)>;

fn fields(
    ui: &mut Ui,
    look: &Look,
    (desk, row): (&mut Desk, &mut Row),
    (plan, ranges): (&Plan, &[Option<Range>]),
) -> (Typed, Typed) {
    let (mut texts, mut pulls) = (Vec::new(), Vec::new());
    rows::heads(ui, look, plan);
    for (support, range) in plan.fixture.supports.iter().zip(ranges) {
        if support.scale {
            let text = rows::scale(ui, look, (desk, row), (&support.name, plan), *range);
            texts.push((support.name.clone(), text));
        }
    }
    let force = plan.units.unit(Kind::Force, Grain::Coarse).symbol;
    for strap in &plan.fixture.hold_downs {
        let text = row.optional(ui, desk, [&strap.name, &format!("{force}, if it has a gauge")], 110.0);
        pulls.push((strap.name.clone(), text));
    }
    (texts, pulls)
}

/// What each support's scale should show in the present state.
fn ranges(desk: &Desk, tare: bool) -> Vec<Option<Range>> {
    let Some(day) = desk.day() else { return Vec::new() };
    let run = day.run();
    let course = desk.account().and_then(|account| account.courses.last());
    match (course, &run.tare, tare) {
        (Some(course), Some(taken), false) => {
            course.ranges(&taken.reading, [run.count_to(taken.last_on), run.placed()])
        }
        (Some(_), ..) => desk.account().map_or_else(Vec::new, testday::Account::tare_due),
        // Not worked out yet: the fields are there all the same.
        (None, ..) => vec![None; run.as_done().fixture.supports.len()],
    }
}

fn reading(texts: &[(String, String)], pulls: &[(String, String)], plan: &Plan) -> Result<Reading, String> {
    let mut reading = Reading::default();
    for (name, text) in texts {
        let kg = mass_kg(text, plan.units).map_err(|why| format!("{name}: {why}"))?;
        reading.scales_kg.insert(name.clone(), kg);
    }
    for (name, text) in pulls.iter().filter(|(_, text)| !text.trim().is_empty()) {
        let pull: Force = read(text, plan.units, Grain::Coarse).map_err(|why| format!("{name}: {why}"))?;
        reading.straps_n.insert(name.clone(), pull.si());
    }
    Ok(reading)
}

/// One gauge at a time: an entry is one reading, on the disk before the next one is asked for.
pub(super) fn gauges(ui: &mut Ui, look: &Look, desk: &mut Desk, (gauges, moment): (&[usize], Moment)) {
    let when = match moment {
        Moment::Before => "before loading",
        Moment::Hold(_) | Moment::Between => "under load, from a distance or by camera",
        Moment::After => "after unloading: what remains is permanent set",
    };
    huge(ui, format!("Read the gauges, {when}"));
    ui.add_space(10.0);
    let Some((day, place)) = desk.day().cloned().zip(gauges.first()) else { return };
    gauge(ui, look, desk, (&day, *place, Row::default()));
    if gauges.len() > 1 {
        quiet(ui, look, format!("{} more after this one.", gauges.len() - 1));
    }
}

/// The field of one gauge, by its place in the plan, with where it stops, and what enters it.
pub(super) fn gauge(ui: &mut Ui, look: &Look, desk: &mut Desk, (day, place, mut row): (&Day, usize, Row)) {
    let plan = &day.plan;
    let Some(gauge) = plan.gauges.get(place) else { return };
    let unit = plan.units.unit(Kind::Length, Grain::Fine).symbol;
    let foreseen = Foreseen::of(desk, day, place);
    let text = row.field(ui, desk, [&gauge.name, unit], 110.0);
    if matches!(day.run().stage, Stage::Loading) {
        quiet(ui, look, stops_at(day, place));
        quiet(
            ui,
            look,
            foreseen.map_or_else(|| "Expected deflection: not given.".to_owned(), |due| due.words(plan.units)),
        );
    }
    ui.add_space(8.0);
    let entered = row.entered(ui, desk);
    let pressed = primary(ui, look, "Enter the gauge", (row.act(ui), false, false));
    if !pressed && !entered {
        return;
    }
    match read::<Length>(&text, plan.units, Grain::Fine).map(Quantity::si) {
        Ok(reading_m) => {
            // What is a stop by itself is not questioned first.
            let stops = day.run().stage == Stage::Loading && is_stop(day, place, reading_m);
            let misfit = || {
                let due = foreseen.filter(|_| day.run().stage == Stage::Loading)?;
                due.misfit(&gauge.name, plan.units, reading_m).map(|sentence| Doubt::of(&gauge.name, sentence))
            };
            let strange = || misfit().or_else(|| plausible::gauge(day.run(), plan, place, reading_m));
            let doubt = if stops { None } else { strange() };
            desk.enter_meant(ui.ctx(), doubt, vec![Entry::Gauge { gauge: gauge.name.clone(), reading_m }]);
        }
        Err(why) => desk.misfit(format!("{}: {why}", gauge.name)),
    }
}

/// Whether a reading stops the day by itself; where the gauge was not read before loading, any does.
fn is_stop(day: &Day, gauge: usize, reading_m: f64) -> bool {
    let Some(stop) = GaugeStop::of(&day.plan, gauge) else { return false };
    let before_m = day.run().gauge_m(gauge, Moment::Before);
    before_m.is_none_or(|before_m| (reading_m - before_m).abs() >= stop.gap_m)
}

/// What it showed before loading, and where it stops.
fn stops_at(day: &Day, gauge: usize) -> String {
    let length = |m: f64| Length::m(m).in_field(day.plan.units, Grain::Fine);
    let before_m = day.run().gauge_m(gauge, Moment::Before);
    let before = before_m.map_or_else(String::new, |m| format!("Before loading {}. ", length(m)));
    match (GaugeStop::of(&day.plan, gauge), before_m) {
        (Some(stop), Some(before_m)) => format!(
            "{before}Stop at {} or {}: there the article is down on the catch block “{}”.",
            length(before_m - stop.gap_m),
            length(before_m + stop.gap_m),
            stop.block.name
        ),
        (Some(stop), None) => format!(
            "Not read before loading: how far it has moved is not known, nor whether the article is down on the catch block “{}”. Any reading stops the day.",
            stop.block.name
        ),
        (None, _) => format!("{before}The plan has no catch block: agree on a limit before."),
    }
}
