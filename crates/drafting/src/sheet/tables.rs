//! What follows the steps in the table for a spreadsheet: holds, gauges, the way back.

use super::steps::in_unit;
use crate::words::unit_of_place;
use assess::Assessment;
use plan::Plan;
use quantity::{Grain, Kind, Quantity};

/// The lines of the three tables, each with its head; no line is longer than eleven fields.
pub(super) fn after_the_steps(plan: &Plan, assessment: &Assessment) -> Vec<Vec<String>> {
    let mut lines = holds(plan, assessment);
    lines.extend(gauges(plan));
    lines.extend(way_back(plan, assessment));
    lines
}

fn head<const N: usize>(words: [String; N]) -> Vec<String> {
    words.to_vec()
}

fn kg(plan: &Plan, kg: f64) -> String {
    in_unit(kg, plan.units.unit(Kind::Mass, Grain::Coarse).si, 3)
}

fn holds(plan: &Plan, assessment: &Assessment) -> Vec<Vec<String>> {
    if plan.holds.is_empty() {
        return Vec::new();
    }
    let mass = plan.units.unit(Kind::Mass, Grain::Coarse).symbol;
    let mut lines = vec![head([
        "hold".to_owned(),
        "run".to_owned(),
        "after step".to_owned(),
        format!("due ({mass})"),
        format!("applied ({mass})"),
        "planned time (s)".to_owned(),
        "least time (s)".to_owned(),
        "then unload".to_owned(),
    ])];
    for (run, held) in
        plan.runs().iter().enumerate().flat_map(|(run, of)| of.holds.iter().map(move |held| (run, *held)))
    {
        let hold = &plan.holds[held.hold];
        let due = assessment.closed.load.map(|load| kg(plan, load.ultimate.as_mass().si() * hold.at));
        let state = held.step.and_then(|step| assessment.closed.steps.get(step));
        lines.push(vec![
            hold.name.clone(),
            (run + 1).to_string(),
            held.step.map_or_else(String::new, |step| (step + 1).to_string()),
            due.unwrap_or_default(),
            state.map_or_else(String::new, |state| kg(plan, state.applied_kg)),
            format!("{}", hold.planned_time().si()),
            format!("{}", testday::due_s(hold.at)),
            if hold.unload { "yes" } else { "no" }.to_owned(),
        ]);
    }
    lines
}

fn gauges(plan: &Plan) -> Vec<Vec<String>> {
    if plan.gauges.is_empty() {
        return Vec::new();
    }
    let (place, fine) = (plan.units.unit(Kind::Length, Grain::Coarse), plan.units.unit(Kind::Length, Grain::Fine));
    let axis = |what: &str| format!("{what} ({}, article frame)", unit_of_place(plan));
    let mut lines = vec![head([
        "gauge".to_owned(),
        axis("station"),
        axis("buttock line"),
        axis("waterline"),
        format!("allowed set ({})", fine.symbol),
    ])];
    lines.extend(plan.gauges.iter().map(|gauge| {
        let at = gauge.at.map(|c| in_unit(c.si(), place.si, 4));
        let set = in_unit(gauge.allowed_set.si(), fine.si, 3);
        std::iter::once(gauge.name.clone()).chain(at).chain([set]).collect()
    }));
    lines
}

fn way_back(plan: &Plan, assessment: &Assessment) -> Vec<Vec<String>> {
    let (mass, fine) = (plan.units.unit(Kind::Mass, Grain::Coarse), plan.units.unit(Kind::Length, Grain::Fine));
    let mut lines = vec![head([
        "off".to_owned(),
        "lot".to_owned(),
        "item".to_owned(),
        "after run".to_owned(),
        "its step".to_owned(),
        format!("left ({})", mass.symbol),
        format!("line of action aft of the occupant point ({})", fine.symbol),
        format!("line of action right of the occupant point ({})", fine.symbol),
        "reserve of what is left (level push by weight)".to_owned(),
        "push of the fixture (by weight)".to_owned(),
        "strap to release before".to_owned(),
    ])];
    for (run, of) in plan.runs().iter().enumerate() {
        let Some(way) = assessment.exact.as_ref().and_then(|exact| exact.way_back(of.placements(plan))) else {
            continue;
        };
        let releases = way.releases(plan);
        for (number, step) in way.order.iter().enumerate() {
            let (place, left) = (&plan.stack[*step], way.left.get(number));
            let told = |of: &dyn Fn(&assess::unload::Left) -> String| left.map_or_else(String::new, of);
            let straps = releases.iter().filter(|release| release.before == number);
            let straps: Vec<&str> = straps
                .filter_map(|release| plan.fixture.bindings.get(release.binding))
                .map(|s| s.name.as_str())
                .collect();
            lines.push(vec![
                (number + 1).to_string(),
                place.lot.clone(),
                place.item.to_string(),
                (run + 1).to_string(),
                (step + 1).to_string(),
                kg(plan, left.map_or(0.0, |left| left.applied_kg)),
                told(&|left| in_unit(left.offset_m[0], fine.si, 2)),
                told(&|left| in_unit(left.offset_m[1], fine.si, 2)),
                told(&|left| reserve(left)),
                told(&|left| left.push.reserve().map_or_else(String::new, |push| format!("{:.4}", push.multiplier))),
                straps.join("; "),
            ]);
        }
    }
    lines
}

/// That of rigid pieces alone is not the reserve where bags may give way before.
fn reserve(left: &assess::unload::Left) -> String {
    let known = left.reserve.least.reserve().filter(|_| !left.reserve.is_bound());
    known.map_or_else(String::new, |reserve| format!("{:.4}", reserve.multiplier))
}
