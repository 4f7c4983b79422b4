//! The first page: what is proved, how it stands, who stands for it.

use super::beside::{self, Framed};
use crate::figure::{Align, Figure, Ink};
use crate::page::{Book, Cell, Column, Style, Table};
use crate::views::{self, Scene, View};
use crate::words::mass;
use assess::{Assessment, Decision, OccupantPoint, Told};
use plan::Plan;
use quantity::{Grain, Length, Mass, Quantity};

pub(super) fn set(book: &mut Book, plan: &Plan, assessment: &Assessment) {
    book.section(&plan.title);
    book.running_head("Summary");
    facts(book, plan, assessment);
    drawings(book, plan, assessment);
    signed(book);
}

/// Height of the fields of who and when, mm.
const SIGNED_MM: f64 = 22.0;

/// Who stands for the test, and when it is.
fn signed(book: &mut Book) {
    book.keep_together(SIGNED_MM);
    let columns = ["planned by", "checked by", "place and date of the test"].map(Column::wide).to_vec();
    book.cursor_mm += 2.0;
    Table { columns, rows: vec![vec![Cell::Write(String::new()); 3]], row_mm: 11.0 }.set(book);
}

/// Names on the left, what they say beside them.
fn facts(book: &mut Book, plan: &Plan, assessment: &Assessment) {
    let columns = vec![Column::fixed("", 27.0, Align::Left), Column::wide("")];
    let row =
        |(name, text): (&str, String)| vec![Cell::Text(name.to_owned(), Style::BODY.ink(Ink::Quiet)), Cell::text(text)];
    let mut lines = vec![("Article", format!("{}, {}", plan.article.name, mass(plan, plan.article.mass.si())))];
    lines.extend(case_lines(plan, assessment));
    lines.push(("Occupant point", target_words(plan, &assessment.closed.occupant)));
    let mut rows: Vec<_> = lines.into_iter().map(row).collect();
    rows.extend(
        results(plan, assessment)
            .into_iter()
            .map(|(name, text)| vec![Cell::Text(name.to_owned(), Style::BODY.ink(Ink::Quiet)), Cell::strong(text)]),
    );
    Table { columns, rows, row_mm: 6.0 }.set_bare(book);
}

fn case_lines(plan: &Plan, assessment: &Assessment) -> Vec<(&'static str, String)> {
    let (Some(case), Some(load)) = (plan.case_in_hand(), assessment.closed.load) else {
        return vec![("Load case", "none is chosen: nothing is proved".to_owned())];
    };
    let (limit, ultimate) = (load.limit.as_mass().si(), load.ultimate.as_mass().si());
    let special = if (case.special_factor - 1.0).abs() < 1e-9 {
        String::new()
    } else {
        format!(" × special factors {}", case.special_factor)
    };
    let sum = format!(
        "limit {} ({} × {}), ultimate {} (limit × {}{special})",
        mass(plan, limit),
        mass(plan, case.occupant_mass.si()),
        case.load_factor,
        mass(plan, ultimate),
        case.safety_factor
    );
    vec![("Load case", format!("{}. {}", case.name, case.basis_in_full(plan.units))), ("Load", sum)]
}

fn target_words(plan: &Plan, occupant: &OccupantPoint) -> String {
    let at: [f64; 3] = occupant.in_article.into();
    let [x, y, z] = at.map(|c| Length::m(c).shown(plan.units, Grain::Coarse));
    let [fore_aft, lateral] = plan.target.tolerance().map(|c| c.shown(plan.units, Grain::Fine));
    let known = occupant.within_m.map(|[fore_aft, _]| {
        format!(", known within ± {} fore and aft", Length::m(fore_aft).shown(plan.units, Grain::Fine))
    });
    format!(
        "station {x}, buttock line {y}, waterline {z} (article frame); ± {fore_aft} fore and aft, ± {lateral} lateral; from {}{}",
        occupant.from,
        known.unwrap_or_default()
    )
}

fn results(plan: &Plan, assessment: &Assessment) -> Vec<(&'static str, String)> {
    let mut lines = vec![("Applied", applied_words(plan, assessment))];
    if let Some(last) = assessment.closed.last() {
        let [fore_aft_m, lateral_m] = assessment.offset_m(assessment.closed.steps.len() - 1).unwrap_or(last.offset_m);
        let fore_aft = views::offset_words(fore_aft_m, 0, plan.units);
        let lateral = views::offset_words(lateral_m, 1, plan.units);
        lines.push(("Offset", format!("fore and aft: {fore_aft}; lateral: {lateral}")));
        if let Some((on_seat, load)) = last.on_seat.zip(assessment.closed.load) {
            lines.push(("With straps", on_seat.words(plan, load.ultimate.as_mass().si())));
        }
    }
    lines.push(("Least reserve", reserve_words(plan, assessment)));
    lines.push(("Verdict", verdict(assessment)));
    lines
}

fn applied_words(plan: &Plan, assessment: &Assessment) -> String {
    let applied = assessment.closed.applied_kg();
    let (kg, doubt) = (mass(plan, applied), assess::plus_minus(assessment.closed.applied_spread_kg, plan.units));
    match assessment.closed.load {
        Some(load) => {
            let due = mass(plan, load.ultimate.as_mass().si());
            format!("{kg} {doubt} of {due} ultimate, {:.1} %", 100.0 * load.fraction(Mass::kg(applied)))
        }
        None => format!("{kg} {doubt}"),
    }
}

/// The least reserve of all steps: as solved, else the closed form. What was not decided is never
/// given as a number.
fn reserve_words(plan: &Plan, assessment: &Assessment) -> String {
    let solved = assessment.exact.as_ref().and_then(|exact| exact.weakest_step());
    let model = match solved.map(|(_, state)| state.by) {
        Some(Told::Soft) => "as its bags give",
        _ => "in the rigid model",
    };
    let leans =
        solved.and_then(|(_, state)| state.leans(plan)).map(|leans| format!("; it {leans}")).unwrap_or_default();
    let closed = || assessment.closed.weakest_step().map(|(step, state)| (step, state.least, " (closed form)"));
    let weakest = solved.map(|(step, state)| (step, state.least, "")).or_else(closed);
    let Some((step, least, how)) = weakest else { return "nothing is placed".to_owned() };
    let place = format!("at step {}", step + 1);
    match least {
        Decision::Decided(reserve) if reserve.multiplier < 0.0 => {
            format!("none: the stack tips over {} by itself {place}", reserve.toward())
        }
        Decision::Decided(reserve) => format!(
            "{model} a level push {} of {:.2} of the weight, {place}{how}, required {:.2}{leans}; an upper bound where friction is needed",
            reserve.toward(),
            reserve.multiplier,
            plan.allow.collapse
        ),
        Decision::NotDecided { .. } => format!("not decided {place}: counts as falling short"),
        Decision::Falls if solved.is_some_and(|(_, state)| state.by == Told::Soft) => {
            format!("none: as its bags give, the stack leans over by itself {place}")
        }
        Decision::Falls => format!("none: the stack falls {place}"),
        Decision::Loose => format!("none: a piece touches nothing {place}"),
        Decision::NotLimited => "not limited by tipping".to_owned(),
    }
}

/// The line that closes every list of findings.
fn verdict(assessment: &Assessment) -> String {
    let closing = assessment.tally().closing();
    if assessment.in_order() { closing } else { format!("DO NOT LOAD. {closing}") }
}

/// The whole fixture on what is left of the page. A long article takes the width, with front and
/// above beneath it; a short one stands beside its front view, at one scale and one height.
fn drawings(book: &mut Book, plan: &Plan, assessment: &Assessment) {
    let scene = Scene::whole(plan, &assessment.closed);
    let mut figures = [views::side(&scene), views::front(&scene), views::above(&scene)];
    let weakest = scene.step.checked_sub(1).and_then(|step| assessment.weakest_layer(step));
    figures[0].over(views::weakest(&scene, weakest, View::Side));
    figures[1].over(views::weakest(&scene, weakest, View::Front));
    let [Some(side), Some(front), Some(above)] = figures.each_ref().map(Figure::bounds) else { return };
    let framed = |index: usize, view, focus, share| Framed {
        caption: CAPTIONS[index],
        view,
        figure: &figures[index],
        focus,
        share,
        below_mm: if view == View::Above { 0.0 } else { BELOW_MM },
    };
    let left = (book.bottom_mm() - book.cursor_mm - 8.0 - SIGNED_MM).clamp(95.0, 150.0);
    book.cursor_mm += 1.0;
    let size = |b: [[f64; 2]; 2]| [b[1][0] - b[0][0], b[1][1] - b[0][1]];
    if size(side)[0] > 2.2 * size(side)[1] {
        beside::set(book, &[framed(0, View::Side, side, 1.0)], 0.54 * left, plan.units);
        let second = [framed(1, View::Front, front, 0.5), framed(2, View::Above, above, 0.5)];
        beside::set(book, &second, 0.46 * left, plan.units);
    } else {
        let (share, height_mm) = beside::level_pair(book.width_mm(), [size(side), size(front)]);
        let heights = [side[0][1].min(front[0][1]), side[1][1].max(front[1][1])];
        let level = |b: [[f64; 2]; 2]| [[b[0][0], heights[0]], [b[1][0], heights[1]]];
        let pair = [framed(0, View::Side, level(side), share), framed(1, View::Front, level(front), 1.0 - share)];
        beside::set(book, &pair, left.min(height_mm + BELOW_MM), plan.units);
    }
}

/// Room under the floor for names and the offset, mm.
const BELOW_MM: f64 = 14.5;

const CAPTIONS: [&str; 3] = [
    "All in place, from the side: aft to the right",
    "From the front, looking aft: its right is on the left",
    "The uppermost layer from above: aft to the right",
];
