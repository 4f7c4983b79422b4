//! How the stack leans and the article moves at a hold: what is expected, and room for what is read.

use crate::figure::Align;
use crate::page::{Cell, Column, Table};
use crate::words::tenth;
use assess::{Assessment, Rest, SoftFrom};
use plan::Plan;
use quantity::frame::side;
use quantity::{Grain, Length, Quantity};
use testday::{LeanPlanned, lean_planned};

/// What is due on the top piece after a step (from 0); none where that is not known, or nothing was solved. It takes a
/// solver.
pub(super) fn due(plan: &Plan, assessment: &Assessment, step: usize) -> Option<LeanPlanned> {
    leaning(assessment, step).and_then(|_| lean_planned(plan, step + 1))
}

/// A row for each thing that is known to move after a step (from 0); no row where nothing is known.
pub(super) fn table(plan: &Plan, assessment: &Assessment, (step, due): (usize, Option<&LeanPlanned>)) -> Table {
    let columns = vec![
        Column::wide("lean and movement"),
        Column::fixed("expected", 80.0, Align::Right),
        Column::fixed("read", 34.0, Align::Left),
    ];
    let rows = stack(plan, assessment, (step, due)).into_iter().chain(article(plan, assessment, step));
    let row = |(what, due): (String, String)| vec![Cell::strong(what), Cell::text(due), Cell::Write(String::new())];
    Table { columns, rows: rows.map(row).collect(), row_mm: 7.0 }
}

/// How the bags' softness is known that these figures rest on, and how a lean is read.
pub(super) fn sentence(
    plan: &Plan,
    assessment: &Assessment,
    (step, due): (usize, Option<&LeanPlanned>),
) -> Option<String> {
    let (from, rest) = leaning(assessment, step)?;
    let name = due.map_or_else(|| plan.piece_name(rest.leaning), |planned| planned.due.name.clone());
    let from = match from {
        SoftFrom::Measured => "as the bags were measured",
        SoftFrom::Stated => "at a softness that is stated, not measured",
        SoftFrom::Assumed => "at 0.3 MPa, for nobody measured the bags; what fits goes from 1 MPa to 0.1 MPa",
    };
    Some(format!(
        "Expected {from}. Hang a plumb string before loading; read a mark at the middle of {name} from a distance or by \
         camera. Stop and stay clear where a reading does not fit, or where the lean is more than {} in all.",
        tenth(plan, plan.allow.lean.si())
    ))
}

fn leaning(assessment: &Assessment, step: usize) -> Option<(SoftFrom, &Rest)> {
    let soft = assessment.exact.as_ref()?.soft.as_ref()?;
    Some((soft.from, soft.usual.steps.get(step)?.end.rest()?))
}

/// Where a mark on the top piece should be, and what fits; where that is not known, how far it leans at the most.
fn stack(plan: &Plan, assessment: &Assessment, (step, due): (usize, Option<&LeanPlanned>)) -> Vec<(String, String)> {
    let Some((_, rest)) = leaning(assessment, step) else { return Vec::new() };
    let most = || (format!("{} leans, to any side", plan.piece_name(rest.leaning)), tenth(plan, rest.lean_m));
    let Some(LeanPlanned { due, fits_from_to_m }) = due else {
        return vec![most(), ("the stack sinks into its bags".to_owned(), tenth(plan, rest.settlement_m))];
    };
    let whole = |m: f64| Length::m(m).shown(plan.units, Grain::Fine);
    let way = |axis: usize| {
        let usual_m = due.shift[axis].usual_m;
        let to = |m: f64, words: String| format!("{words} {}", side(axis, m));
        let [from_m, to_m] = fits_from_to_m[axis];
        let usual = to(usual_m, tenth(plan, usual_m.abs()));
        let fits = format!("{} to {}", to(from_m, whole(from_m.abs())), to(to_m, whole(to_m.abs())));
        let what = ["fore and aft", "lateral"][axis];
        (format!("mark on {} off its place, {what}", due.name), format!("{usual}; {fits} fits"))
    };
    let [from, to] = due.sinks.fits_from_to_m(2.0).map(whole);
    let sinks = format!("{} lower; {from} to {to} fits", tenth(plan, due.sinks.usual_m));
    vec![way(0), way(1), (format!("top of {}", due.name), sinks)]
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
    let pitches = turns(moved.pitch_rad(), ["nose up", "nose down"]);
    let rolls = turns(moved.roll_rad(), ["left side down", "right side down"]);
    vec![
        ("the article sinks at the occupant point".to_owned(), tenth(plan, sinks_m)),
        ("the article pitches; rolls".to_owned(), format!("{pitches}; {rolls}")),
    ]
}
