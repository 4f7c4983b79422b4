//! How the stack leans and the article moves at a hold: what is expected, and room for what is read.

use crate::figure::Align;
use crate::page::{Cell, Column, Table};
use crate::words::tenth;
use assess::{Assessment, Rest, SoftFrom};
use plan::Plan;
use quantity::Quantity;

/// A row for each thing that is known to move after a step (from 0); no row where nothing is known.
pub(super) fn table(plan: &Plan, assessment: &Assessment, step: usize) -> Table {
    let columns = vec![
        Column::wide("lean and movement"),
        Column::fixed("expected", 46.0, Align::Right),
        Column::fixed("read", 50.0, Align::Left),
    ];
    let rows = stack(plan, assessment, step).into_iter().chain(article(plan, assessment, step));
    let row = |(what, due): (String, String)| vec![Cell::strong(what), Cell::text(due), Cell::Write(String::new())];
    Table { columns, rows: rows.map(row).collect(), row_mm: 8.0 }
}

/// How the bags' softness is known that these figures rest on, and how a lean is read.
pub(super) fn sentence(plan: &Plan, assessment: &Assessment, step: usize) -> Option<String> {
    let (from, rest) = leaning(assessment, step)?;
    let from = match from {
        SoftFrom::Measured => "as the bags were measured",
        SoftFrom::Stated => "at a softness that is stated, not measured",
        SoftFrom::Assumed => "at 0.3 MPa, for nobody measured the bags: at 0.1 MPa it is three times as much, or more",
    };
    Some(format!(
        "Lean and sinking are expected {from}. Hang a plumb string before loading and read the lean of {} at a mark on \
         it, fore and aft and lateral, from a distance or by camera. Where it leans farther than is allowed, {}, stop \
         and stay clear.",
        plan.piece_name(rest.leaning),
        tenth(plan, plan.allow.lean.si())
    ))
}

fn leaning(assessment: &Assessment, step: usize) -> Option<(SoftFrom, &Rest)> {
    let soft = assessment.exact.as_ref()?.soft.as_ref()?;
    Some((soft.from, soft.usual.steps.get(step)?.end.rest()?))
}

fn stack(plan: &Plan, assessment: &Assessment, step: usize) -> Vec<(String, String)> {
    let Some((_, rest)) = leaning(assessment, step) else { return Vec::new() };
    vec![
        (format!("{} leans, to any side", plan.piece_name(rest.leaning)), tenth(plan, rest.lean_m)),
        ("the stack sinks into its bags".to_owned(), tenth(plan, rest.settlement_m)),
    ]
}

/// Since the article stood there bare.
fn article(plan: &Plan, assessment: &Assessment, step: usize) -> Vec<(String, String)> {
    let Some(moved) = assessment.exact.as_ref().and_then(|exact| exact.article_moved(step)) else { return Vec::new() };
    let sinks_m = moved.sink_m(&assessment.closed.target_in_floor);
    let turns = |rad: f64, [positive, negative]: [&str; 2]| {
        let told = |rad: f64| format!("{:.2} deg", rad.to_degrees());
        let (size, none) = (told(rad.abs()), told(0.0));
        // What is shown as zero turns neither way.
        if size == none { none } else { format!("{size} {}", if rad > 0.0 { positive } else { negative }) }
    };
    vec![
        ("the article sinks at the occupant point".to_owned(), tenth(plan, sinks_m)),
        ("the article pitches".to_owned(), turns(moved.pitch_rad(), ["nose up", "nose down"])),
        ("the article rolls".to_owned(), turns(moved.roll_rad(), ["left side down", "right side down"])),
    ]
}
