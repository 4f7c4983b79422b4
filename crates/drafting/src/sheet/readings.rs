//! What scales and straps should show after each step of a layer, with room for what they do show.

use crate::figure::Align;
use crate::page::{Cell, Column, Style, Table};
use crate::words::{bare_mass, expected, force, reserve, unit_of_mass};
use assess::Assessment;
use assess::expect::Expected;
use plan::{Plan, Support};

/// The table for these steps.
pub(super) fn table(plan: &Plan, assessment: &Assessment, steps: &[usize]) -> Table {
    let unit = unit_of_mass(plan);
    let mut columns = vec![
        Column::fixed("after step", 14.0, Align::Right),
        Column::fixed(format!("applied, {unit}"), 18.0, Align::Right),
        Column::fixed("reserve", 22.0, Align::Left),
    ];
    columns.extend(scales(plan).map(|(_, support)| Column::wide(format!("{}, {unit}", support.name))));
    columns.extend(plan.fixture.hold_downs.iter().map(|strap| Column::wide(strap.name.as_str())));
    Table { columns, rows: steps.iter().map(|step| row(plan, assessment, *step)).collect(), row_mm: 7.0 }
}

fn scales(plan: &Plan) -> impl Iterator<Item = (usize, &Support)> {
    plan.fixture.supports.iter().enumerate().filter(|(_, support)| support.scale)
}

fn row(plan: &Plan, assessment: &Assessment, step: usize) -> Vec<Cell> {
    let applied = assessment.steps.get(step).map_or_else(|| "–".to_owned(), |s| bare_mass(plan, s.applied_kg));
    let exact = assessment.exact.as_ref();
    let least = exact.and_then(|e| e.steps.get(step)).map_or_else(|| "not decided".to_owned(), |s| reserve(s.least));
    let state = exact.and_then(|e| e.expected.get(step + 1)?.as_ref());
    let number = Style { size_pt: 12.0, ..Style::STRONG };
    let mut row = vec![Cell::Text((step + 1).to_string(), number), Cell::strong(applied), Cell::text(least)];
    row.extend(scales(plan).map(|(index, _)| Cell::Write(reading(plan, state, index))));
    row.extend((0..plan.fixture.hold_downs.len()).map(|index| Cell::Write(pull(plan, state, index))));
    row
}

/// What a scale should show; `?` where that is not known.
pub(super) fn reading(plan: &Plan, state: Option<&Expected>, index: usize) -> String {
    let band = state.and_then(|state| *state.scales.get(index)?);
    band.map_or_else(|| "?".to_owned(), |band| expected(plan, &band))
}

pub(super) fn pull(plan: &Plan, state: Option<&Expected>, index: usize) -> String {
    state.and_then(|state| state.straps_n.get(index)).map_or_else(|| "?".to_owned(), |n| force(plan, *n))
}
