//! The steps as a table of comma-separated values, for those who go on with a spreadsheet.

use super::place_words::Datums;
use super::readings::Due;
use super::tables;
use crate::cautions::caution_row;
use crate::cell::cell;
use crate::words::is_bound;
use assess::{Assessment, Exact};
use plan::{Plan, Turn};
use quantity::{Grain, Kind, Quantity};

/// One line a step after the cautions and a head that names units and frames; then holds, gauges and the way back, each
/// under a head of its own. Decimal points, RFC 4180. Numbers stand in the plan's units. What is not known is left empty.
pub fn csv(plan: &Plan, assessment: &Assessment) -> String {
    let mut table = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    let due = Due::of(plan, assessment);
    let lines = (0..plan.steps()).map(|step| line(plan, assessment, &due, step));
    let head = head(plan);
    let fields = head.len();
    for line in [verdict(plan, assessment, head.len()), caution_row(head.len()), head, tare(plan, &due)]
        .into_iter()
        .chain(lines)
        .chain(tables::after_the_steps(plan, assessment).into_iter().map(|line| padded(line, fields)))
    {
        table
            .write_record(line.iter().map(|text| cell(text)))
            .expect("memory takes every line, and all are of one length");
    }
    let bytes = table.into_inner().expect("memory takes every line");
    String::from_utf8(bytes).expect("made of strings")
}

/// A line of another table, as long as those of the steps.
fn padded(mut line: Vec<String>, fields: usize) -> Vec<String> {
    line.resize(fields, String::new());
    line
}

/// What the table is of, and the verdict where the plan is not in order: before everything else.
fn verdict(plan: &Plan, assessment: &Assessment, fields: usize) -> Vec<String> {
    let verdict = super::furniture::warning(assessment).unwrap_or_else(|| assessment.tally().closing());
    let mut row = vec![format!("{verdict} {}", plan.title), format!("plan {}", plan::file::fingerprint(plan))];
    row.resize(fields.max(2), String::new());
    row
}

fn head(plan: &Plan) -> Vec<String> {
    let symbol = |kind, grain| plan.units.unit(kind, grain).symbol;
    let (mass, tape, force) =
        (symbol(Kind::Mass, Grain::Coarse), symbol(Kind::Length, Grain::Fine), symbol(Kind::Force, Grain::Coarse));
    let datums = Datums::of(plan);
    let mut head = vec![
        "step".to_owned(),
        "lot".to_owned(),
        "item".to_owned(),
        "layer".to_owned(),
        "turn".to_owned(),
        format!("front edge aft of {} ({tape})", datums.front),
        format!("left edge right of {} ({tape})", datums.string_words()),
        format!("mass ({mass})"),
        format!("applied ({mass})"),
        "least reserve (level push by weight)".to_owned(),
        "toward (deg in plan, 0 aft, 90 right)".to_owned(),
    ];
    for support in plan.fixture.supports.iter().filter(|s| s.scale) {
        head.push(format!("{} should read ({mass})", support.name));
        head.push(format!("{} stop beyond ± ({mass})", support.name));
    }
    head.extend(plan.fixture.hold_downs.iter().map(|strap| format!("{} should pull ({force})", strap.name)));
    head.push("hold".to_owned());
    head
}

/// Step 0: what the scales should show before the first piece. It stops nothing, and has no band.
fn tare(plan: &Plan, due: &Due) -> Vec<String> {
    let mut line = vec![String::new(); 11];
    (line[0], line[1]) = ("0".to_owned(), "tare, before the first piece".to_owned());
    line[8] = in_unit(0.0, 1.0, 3);
    line.extend(expected(plan, due, 0));
    line.push(String::new());
    line
}

fn line(plan: &Plan, assessment: &Assessment, due: &Due, step: usize) -> Vec<String> {
    let place = &plan.stack[step];
    let [length, width, _] = plan.extent_of(place).map(Quantity::si);
    let [x, y] = place.at.map(Quantity::si);
    let mass = |kg: f64| in_unit(kg, plan.units.unit(Kind::Mass, Grain::Coarse).si, 3);
    let tape = |m: f64| in_unit(m, plan.units.unit(Kind::Length, Grain::Fine).si, 2);
    let applied = assessment.closed.steps.get(step).map_or_else(String::new, |s| mass(s.applied_kg));
    // That of rigid pieces is not the reserve where bags may give way before.
    let known = |exact: &Exact| exact.reserves.get(step).copied().filter(|_| !is_bound(plan, exact, step));
    let least = assessment.exact.as_ref().and_then(known).and_then(|state| state.least.reserve());
    let datums = Datums::of(plan);
    let turn = if place.turn == Turn::Lengthwise { "lengthwise" } else { "crosswise" };
    let mut line = vec![
        (step + 1).to_string(),
        place.lot.clone(),
        place.item.to_string(),
        assessment.closed.pile.layer.get(step).map_or_else(String::new, ToString::to_string),
        turn.to_owned(),
        tape(x - length / 2.0 - datums.front_m),
        tape(y - width / 2.0 - datums.across_m),
        mass(plan.mass_of(place).si()),
        applied,
        least.map_or_else(String::new, |l| format!("{:.4}", l.multiplier)),
        least.map_or_else(String::new, |l| format!("{:.1}", l.direction_rad.to_degrees())),
    ];
    line.extend(expected(plan, due, step + 1));
    let holds = plan.holds.iter().zip(&assessment.closed.hold_steps).filter(|(_, at)| **at == Some(step));
    line.push(holds.map(|(hold, _)| hold.name.clone()).collect::<Vec<_>>().join("; "));
    line
}

fn expected(plan: &Plan, due: &Due, placed: usize) -> Vec<String> {
    let (mass, force) = (plan.units.unit(Kind::Mass, Grain::Coarse).si, plan.units.unit(Kind::Force, Grain::Coarse).si);
    let mut fields = Vec::new();
    for (index, _) in plan.fixture.supports.iter().enumerate().filter(|(_, s)| s.scale) {
        let known = due.reading_kg(placed, index);
        fields.push(known.map_or_else(String::new, |[reading, _]| in_unit(reading, mass, 3)));
        let stop = known.filter(|_| placed > 0);
        fields.push(stop.map_or_else(String::new, |[_, stop]| in_unit(stop, mass, 3)));
    }
    for index in 0..plan.fixture.hold_downs.len() {
        let pull = due.pull_n(placed, index);
        fields.push(pull.map_or_else(String::new, |n| in_unit(n, force, 1)));
    }
    fields
}

pub(super) fn in_unit(si: f64, unit_si: f64, decimals: usize) -> String {
    format!("{:.decimals$}", si / unit_si + 0.0)
}
