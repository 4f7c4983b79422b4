//! The holds: what is read while the load stays, and for how long it stays, boxed after the step.

use super::known::{Known, Section};
use super::motion;
use super::panel::{Field, Panel};
use crate::page::Style;
use crate::words::{bare_deflection, mass};
use assess::load::Load;
use assess::{Beside, foreseen};
use plan::{Gauge, Hold, HoldStep, Plan};
use quantity::{Grain, Kind, Mass, Quantity};

/// The holds that are due after a step (from 0), in the order of the runs.
pub(super) fn after(known: &Known, step: usize) -> Vec<Panel> {
    let runs = known.runs.iter().enumerate();
    let holds = runs.flat_map(|(run, holds)| holds.holds.iter().map(move |held| (run, held)));
    holds.filter(|(_, held)| held.step == Some(step)).map(|(run, held)| panel(known, (run, held, step))).collect()
}

/// Those that the stack never reaches.
pub(super) fn unreached(known: &Known) -> Vec<Panel> {
    let holds = known.runs.iter().flat_map(|run| &run.holds).filter(|held| held.step.is_none());
    let panel = |held: &HoldStep| Panel {
        title: format!("HOLD “{}”: not reached", known.plan.holds[held.hold].name),
        lines: vec![(Style::BODY, "This stack does not reach the load of this hold.".to_owned())],
        ..Panel::default()
    };
    holds.map(panel).collect()
}

fn panel(known: &Known, (run, held, step): (usize, &HoldStep, usize)) -> Panel {
    let (plan, assessment) = (known.plan, known.assessment);
    let hold = &plan.holds[held.hold];
    let of_run = if known.runs.len() == 1 { String::new() } else { format!("Run {}: ", run + 1) };
    let applied = assessment.closed.steps.get(step).map_or(0.0, |state| state.applied_kg);
    let mut lines = vec![(Style::BODY, load_words(known, hold, step))];
    lines.extend(place_words(known, hold, step));
    lines.extend(strap_words(known, hold, step));
    lines.extend(motion::stop(plan, assessment, (step, known.lean(step))).map(|words| (Style::NOTE, words)));
    Panel {
        title: format!("{of_run}HOLD “{}” after step {}: {} on the seat", hold.name, step + 1, mass(plan, applied)),
        aside: "everybody back",
        lines,
        fields: fields(known, hold, step),
        then: then(known, (run, hold, step)),
    }
}

fn fields(known: &Known, hold: &Hold, step: usize) -> Vec<Field> {
    let plan = known.plan;
    let tape = plan.units.unit(Kind::Length, Grain::Fine).symbol;
    let due_s = testday::due_s(hold.at);
    let least = if due_s > 0.0 { format!("{due_s} s or more") } else { planned(plan, hold) };
    let mut fields = vec![Field::read("held", least, "s")];
    fields
        .extend(plan.gauges.iter().map(|gauge| Field::read(gauge.name.as_str(), gauge_due(known, gauge, step), tape)));
    let moves = motion::due_rows(plan, known.assessment, (step, known.lean(step)));
    fields.extend(moves.into_iter().map(|(what, due, unit)| Field::read(what, due, unit)));
    fields.push(Field::signed("initials of both"));
    fields.push(Field::signed("heard, seen"));
    fields
}

/// How far a gauge should have moved since it was read before loading: what the structure bends, and what the article
/// sinks there as far as that is known.
fn gauge_due(known: &Known, gauge: &Gauge, step: usize) -> String {
    let (plan, assessment) = (known.plan, known.assessment);
    let applied_kg = assessment.closed.steps.get(step).map_or(0.0, |state| state.applied_kg);
    let Some(due) = foreseen(plan, gauge, applied_kg) else { return "expected: not given".to_owned() };
    let moved = assessment.exact.as_ref().and_then(|exact| exact.article_moved(step));
    let sinks_m = moved.map(|moved| moved.sink_m(&plan::point(gauge.at)));
    let within = due.within_m.map_or_else(String::new, |m| format!(" ± {}", bare_deflection(plan, m)));
    let told = bare_deflection(plan, due.bends_m + sinks_m.unwrap_or_default());
    match sinks_m {
        Some(m) => format!("moved {told}{within}, sinking {} of it", bare_deflection(plan, m)),
        None => format!("moved {told}{within}, sinking not known"),
    }
}

fn planned(plan: &Plan, hold: &Hold) -> String {
    format!("planned {}", hold.planned_time().at_rest(plan.units, Grain::Coarse))
}

fn load_words(known: &Known, hold: &Hold, step: usize) -> String {
    let plan = known.plan;
    let applied = known.assessment.closed.steps.get(step).map_or(0.0, |state| state.applied_kg);
    let of = known.assessment.closed.load.map(|load| {
        let due = mass(plan, due_kg(&load, hold));
        let there = mass(plan, applied);
        format!("{due} due, {there} on the seat: {:.1} % of ultimate. ", 100.0 * load.fraction(Mass::kg(applied)))
    });
    let planned = hold.time.map(|time| format!("Planned: {}. ", time.at_rest(plan.units, Grain::Coarse)));
    format!("{}{}Read from a distance or by camera.", of.unwrap_or_default(), planned.unwrap_or_default())
}

/// What comes after the hold: all off, or nothing more.
fn then(known: &Known, (run, hold, step): (usize, &Hold, usize)) -> Option<String> {
    // Each run comes off in its own order: which of the tables, and from where on they stand.
    let which = if known.runs.len() > 1 { format!(" after run {}", run + 1) } else { String::new() };
    let page = match known.page(Section::Unloading) {
        page if which.is_empty() || page.is_empty() => page,
        page => format!(" (tables from{})", page.trim_start_matches(',')),
    };
    let last_of_run = known.runs.get(run).is_some_and(|run| run.holds.last().is_some_and(|h| h.step == Some(step)));
    let nothing_more = (step + 1..known.plan.steps()).all(|later| known.is_barred(later));
    if hold.unload {
        return Some(format!("Take all off: Unloading{which}{page}. Then read the gauges."));
    }
    (last_of_run && nothing_more).then(|| format!("Nothing more is put on. Take all off: Unloading{which}{page}."))
}

/// What is due at a hold. A fraction that people write for limit load, as 0.667, is limit load.
fn due_kg(load: &Load, hold: &Hold) -> f64 {
    let [limit, ultimate] = [load.limit.as_mass(), load.ultimate.as_mass()].map(Quantity::si);
    let by_fraction = ultimate * hold.at;
    if (by_fraction - limit).abs() < 0.5e-3 * ultimate { limit } else { by_fraction }
}

/// Where the load acts that is held there, if that is not where it must act.
fn place_words(known: &Known, hold: &Hold, step: usize) -> Option<(Style, String)> {
    let (plan, assessment) = (known.plan, known.assessment);
    let state = assessment.closed.steps.get(step)?;
    let offset_m = assessment.offset_m(step).unwrap_or(state.offset_m);
    let [fore_aft, lateral] = Beside::both(offset_m, plan.tolerance_at(hold).map(Quantity::si));
    let said = format!(
        "By the plan the line of action is {}, and {}.",
        fore_aft.words(plan.units, "the occupant point"),
        lateral.words(plan.units, "it")
    );
    let fits = fore_aft.fits() && lateral.fits();
    (!fits).then(|| (Style::STRONG, format!("{said} This hold does not prove the load where it must act.")))
}

/// What presses the seat there with the straps that are on.
fn strap_words(known: &Known, hold: &Hold, step: usize) -> Option<(Style, String)> {
    let on_seat = known.assessment.closed.steps.get(step)?.on_seat?;
    let ultimate_kg = known.assessment.closed.load?.ultimate.as_mass().si();
    let beside = Beside::both(on_seat.offset_m, known.plan.tolerance_at(hold).map(Quantity::si));
    let style = if beside.iter().all(Beside::fits) { Style::NOTE } else { Style::STRONG };
    Some((style, format!("{}.", on_seat.words(known.plan, ultimate_kg))))
}
