//! How the stack leans and the article moves at a hold: what is expected, and room for what is read.

use crate::words::tenth;
use assess::{Assessment, Rest, SoftFrom};
use plan::Plan;
use quantity::frame::side;
use quantity::{Grain, Kind, Length, Quantity};
use testday::LeanPlanned;

/// What moves, what is due, and the unit of what is read: a line for each thing that is known to move after a step
/// (from 0); none where nothing is known.
pub(super) fn due_rows(
    plan: &Plan,
    assessment: &Assessment,
    (step, due): (usize, Option<&LeanPlanned>),
) -> Vec<(String, String, &'static str)> {
    let tape = plan.units.unit(Kind::Length, Grain::Fine).symbol;
    let stack = stack(plan, assessment, (step, due)).into_iter();
    let [sinks, turns] = [tape, "deg"].map(|unit| move |(what, due): (String, String)| (what, due, unit));
    let mut rows: Vec<_> = stack.map(sinks).collect();
    if let Some([sunk, turned]) = article(plan, assessment, step) {
        rows.extend([sinks(sunk), turns(turned)]);
    }
    rows
}

/// How the bags' softness is known that the figures at the holds rest on, and how a lean is read; none where nothing
/// gives.
pub(super) fn sentence(assessment: &Assessment) -> Option<String> {
    let from = match assessment.exact.as_ref()?.soft.as_ref()?.from {
        SoftFrom::Measured => "as the bags were measured",
        SoftFrom::Stated => "at a softness that is stated, not measured",
        SoftFrom::Assumed => "at 0.3 MPa, for nobody measured the bags; what fits goes from 1 MPa to 0.1 MPa",
    };
    Some(format!(
        "Lean of the pile: what the holds tell of lean and sinking is expected {from}. Hang a plumb string before loading. The top mark is \
         at the middle of the piece that a hold names; read it from a distance or by camera."
    ))
}

/// Where the lean is read at the hold after a step (from 0), and when a reading of it stops the day.
pub(super) fn stop(plan: &Plan, assessment: &Assessment, (step, due): (usize, Option<&LeanPlanned>)) -> Option<String> {
    let (_, rest) = leaning(assessment, step)?;
    let name = due.map_or_else(|| plan.piece_name(rest.leaning), |planned| planned.due.name.clone());
    let most = tenth(plan, plan.allow.lean.si());
    Some(format!("Top mark: middle of {name}. Stop where a reading does not fit or the mark moved more than {most}."))
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
        return vec![most(), ("stack sank into its bags".to_owned(), tenth(plan, rest.settlement_m))];
    };
    let whole = |m: f64| Length::m(m).shown(plan.units, Grain::Fine);
    let way = |axis: usize| {
        let usual_m = due.shift[axis].usual_m;
        let to = |m: f64, words: String| format!("{words} {}", side(axis, m));
        let [from_m, to_m] = fits_from_to_m[axis];
        let usual = to(usual_m, tenth(plan, usual_m.abs()));
        let fits = format!("{} to {}", to(from_m, whole(from_m.abs())), to(to_m, whole(to_m.abs())));
        let what = ["fore and aft", "lateral"][axis];
        (format!("top mark moved {what}"), format!("{usual}; anything from {fits} fits"))
    };
    let [from, to] = due.sinks.fits_from_to_m(2.0).map(whole);
    let sinks = format!("{}; anything from {from} to {to} fits", tenth(plan, due.sinks.usual_m));
    vec![way(0), way(1), ("top mark sank".to_owned(), sinks)]
}

/// Since the article stood there bare.
fn article(plan: &Plan, assessment: &Assessment, step: usize) -> Option<[(String, String); 2]> {
    let moved = assessment.exact.as_ref()?.article_moved(step)?;
    let sinks_m = moved.sink_m(&assessment.closed.target_in_floor);
    let turns = |rad: f64, [positive, negative]: [&str; 2]| {
        let told = |rad: f64| format!("{:.2} deg", rad.to_degrees());
        let (size, none) = (told(rad.abs()), told(0.0));
        // What is shown as zero turns neither way.
        if size == none { none } else { format!("{size} {}", if rad > 0.0 { positive } else { negative }) }
    };
    let pitches = turns(moved.pitch_rad(), ["nose up", "nose down"]);
    let rolls = turns(moved.roll_rad(), ["left side down", "right side down"]);
    Some([
        ("article sank at the occupant point".to_owned(), tenth(plan, sinks_m)),
        ("article pitched; rolled".to_owned(), format!("{pitches}; {rolls}")),
    ])
}
