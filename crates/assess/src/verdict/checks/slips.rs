//! Figures that can be typed but are not meant: the number or its unit is a slip, or it makes an answer
//! meaningless. Nothing in the mechanics forbids them, so each has a range in the table. Where a figure beyond
//! its range could let a stack pass that does not hold, it fails; elsewhere it is a caution.

mod row;
mod table;

use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::{Form, Lot, Plan};
use quantity::{Grain, Length, Mass, Quantity, STANDARD_GRAVITY_M_S2 as GRAVITY};
use row::Row;

/// Beyond this a support gives too much: on half a metre from the middle it turns the article by more than three
/// degrees, so that lever arms and the direction of the load are no longer those of the drawing, and the gap over
/// the catch blocks is used up. `own derivation` (0.03 m / 0.5 m), the bound itself `common practice, no source`.
const SINKS_M: f64 = 0.030;
/// Lighter than foam, heavier than any metal that is stacked, kg/m3: `common practice, no source`.
const DENSITY_KG_M3: [f64; 2] = [15.0, 20_000.0];
/// A weighed piece that differs from its lot by more than this factor is another kind of piece, or a slip:
/// `common practice, no source`.
const ALIKE: f64 = 2.0;

struct Slip {
    decides: bool,
    place: Where,
    text: String,
    sources: &'static [Source],
}

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let figures = table::TABLE.iter().filter_map(|row| beyond(plan, row));
    let tolerances = plan.ballast.iter().filter_map(|lot| tolerance(plan, lot));
    let masses = plan.ballast.iter().filter_map(|lot| density(plan, lot));
    let weighed = plan.ballast.iter().filter_map(|lot| weighed(plan, lot));
    let slips = figures.chain(tolerances).chain(masses).chain(weighed).chain(sinks(plan, assessment));
    slips.map(finding).collect()
}

/// The first figure of a line that is not within its range, and how many more there are.
fn beyond(plan: &Plan, row: &Row) -> Option<Slip> {
    let [low, high] = row.fits;
    // What was typed as the bound, in any unit, is within it.
    let hair = 1e-9 * (high - low);
    let fits = |si: f64| (low - hair..=high + hair).contains(&si);
    let mut out = row.of.figures(plan).into_iter().filter(|(_, si)| !fits(*si));
    let (index, si) = out.next()?;
    let more = match out.count() {
        0 => String::new(),
        more => format!(" (and {more} more)"),
    };
    let words = |si: f64| row.unit.words(si, plan.units);
    let range = if low.abs() > 0.0 { format!("{} to {} fits", words(low), words(high)) } else { most(&words(high)) };
    let (called, whose, reason) = (row.called, row.of.whose(plan, index), row.reason);
    let text = format!("The {called}{whose} is {}{more}: {range}. {reason}", words(si));
    Some(Slip { decides: row.decides, place: row.of.place(index), text, sources: row.sources })
}

fn most(high: &str) -> String {
    format!("at most {high} fits")
}

/// A mass that may as well be none: the bands of all readings are as wide, and so is the load.
fn tolerance(plan: &Plan, lot: &Lot) -> Option<Slip> {
    let [tolerance, mass] = [lot.mass_tolerance, lot.mass].map(|mass| Amount::Mass(mass.si()));
    let text = format!(
        "The mass of lot “{}” is {} ± {}: that is no known mass at all. Check the tolerance and its unit, or weigh \
         the pieces.",
        lot.name,
        mass.shown(plan.units),
        tolerance.shown(plan.units)
    );
    let slip = tolerance.si() > 0.0 && tolerance.si() >= mass.si();
    slip.then_some(Slip { decides: true, place: Where::Stack, text, sources: Source::PRACTICE })
}

/// Heavier than its kind can be, the load is not what the plan says.
fn density(plan: &Plan, lot: &Lot) -> Option<Slip> {
    let [low, high] = DENSITY_KG_M3;
    let density = lot.mass.si() / lot.size.map(Quantity::si).iter().product::<f64>();
    let (than, too_heavy) = match density {
        d if d > high => ("heavier than any metal", true),
        d if d < low && lot.mass.si() > 0.0 => ("lighter than foam", false),
        _ => return None,
    };
    let kind = if lot.form == Form::Bag { "A bag" } else { "A piece" };
    let text = format!("{kind} of lot “{}” is {than} of its size. Check size and mass, and their units.", lot.name);
    Some(Slip {
        decides: too_heavy && is_placed(plan, lot, None),
        place: Where::Stack,
        text,
        sources: Source::PRACTICE,
    })
}

/// Whether any piece of a lot, or this one, is in the stack.
fn is_placed(plan: &Plan, lot: &Lot, item: Option<u32>) -> bool {
    plan.stack.iter().any(|place| place.lot == lot.name && item.is_none_or(|item| place.item == item))
}

/// The first weighed piece that is not of its lot's kind, one in the stack before others: that one is load which is not there.
fn weighed(plan: &Plan, lot: &Lot) -> Option<Slip> {
    let nominal_kg = lot.mass.si();
    let alike = |mass: &Mass| mass.si() <= ALIKE * nominal_kg && mass.si() * ALIKE >= nominal_kg;
    let unlike = || lot.weighed.iter().filter(|(_, mass)| !alike(mass));
    let placed = unlike().find(|(item, _)| is_placed(plan, lot, Some(**item)));
    let (item, mass) = placed.or_else(|| unlike().next())?;
    let [mass, nominal] = [*mass, lot.mass].map(|mass| mass.shown(plan.units, Grain::Coarse));
    let text = format!(
        "{} {item} was weighed at {mass} where its lot has {nominal}. Weigh it again, or make it a lot of its own.",
        lot.name
    );
    Some(Slip { decides: placed.is_some(), place: Where::Stack, text, sources: Source::PRACTICE })
}

/// The support that gives most under article and stack, where its stiffness is entered.
fn sinks(plan: &Plan, assessment: &Assessment) -> Option<Slip> {
    let exact = assessment.exact.as_ref()?;
    let loaded = exact.settled().filter_map(|(_, settled)| settled.reactions());
    let each = loaded.flat_map(|reactions| plan.fixture.supports.iter().zip(&reactions.supports));
    let sunk = each.filter_map(|(support, force)| {
        Some((support, force.reading_kg * GRAVITY / support.stiffness.filter(|k| k.si() > 0.0)?.si()))
    });
    let (support, most_m) = sunk.max_by(|one, other| one.1.total_cmp(&other.1)).filter(|(_, m)| *m > SINKS_M)?;
    let [sinks, may] = [most_m, SINKS_M].map(|m| Length::m(m).shown(plan.units, Grain::Fine));
    let text = format!(
        "Support “{}” sinks {sinks} under its load, where {may} is the most: lever arms and load direction are no \
         longer those of the drawing. Check its stiffness and the unit, or set the article on something stiffer.",
        support.name
    );
    Some(Slip { decides: true, place: Where::Fixture, text, sources: Source::PRACTICE })
}

fn finding(slip: Slip) -> Finding {
    Finding {
        check: Check::UnlikelyFigures,
        state: if slip.decides { State::Fails } else { State::Caution },
        value: None,
        limit: None,
        place: slip.place,
        text: slip.text,
        sources: slip.sources,
    }
}

#[cfg(test)]
mod tests {
    use super::table::TABLE;

    #[test]
    fn every_line_of_the_table_has_a_range_and_a_reason() {
        for row in TABLE {
            assert!(row.fits[0] < row.fits[1], "{}: {:?}", row.called, row.fits);
            assert!(row.reason.ends_with('.') && !row.sources.is_empty(), "{}", row.called);
        }
    }
}
