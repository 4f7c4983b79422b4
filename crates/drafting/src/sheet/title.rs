//! What is proved and how it stands, in words: for the front page and for the engineer.

use crate::views;
use crate::words::mass;
use assess::{Assessment, Decision, OccupantPoint, Told};
use plan::Plan;
use quantity::{Grain, Length, Mass, Quantity};

/// What the front page tells, name and words.
pub(super) fn facts(plan: &Plan, assessment: &Assessment) -> Vec<(&'static str, String)> {
    let mut lines = vec![("Article", format!("{}, {}", plan.article.name, mass(plan, plan.article.mass.si())))];
    lines.extend(case_lines(plan, assessment));
    lines.extend(results(plan, assessment));
    lines
}

/// Where the load must act.
pub(super) fn occupant_point(plan: &Plan, assessment: &Assessment) -> String {
    target_words(plan, &assessment.closed.occupant)
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
    let mut lines = vec![("Stack", applied_words(plan, assessment))];
    if let Some(last) = assessment.closed.last() {
        let [fore_aft_m, lateral_m] = assessment.offset_m(assessment.closed.steps.len() - 1).unwrap_or(last.offset_m);
        let fore_aft = views::offset_words(fore_aft_m, 0, plan.units);
        let lateral = views::offset_words(lateral_m, 1, plan.units);
        lines.push(("Acts", format!("fore and aft: {fore_aft}; lateral: {lateral}")));
        if let Some((on_seat, load)) = last.on_seat.zip(assessment.closed.load) {
            lines.push(("With straps", on_seat.words(plan, load.ultimate.as_mass().si())));
        }
    }
    lines.push(("Stands", reserve_words(plan, assessment)));
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
pub(super) fn verdict(assessment: &Assessment) -> String {
    let closing = assessment.tally().closing();
    if assessment.in_order() { closing } else { format!("DO NOT LOAD. {closing}") }
}
