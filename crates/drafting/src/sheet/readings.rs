//! What scales and straps should show after each step of a layer, with room for what they do show.

use crate::figure::Align;
use crate::page::{Cell, Column, Style, Table};
use crate::words::{bare_mass, critical_factor, expected, gives, reserve_after, unit_of_force, unit_of_mass};
use assess::Assessment;
use assess::expect::{Expected, strap_within_n};
use plan::{Plan, Support};
use quantity::{Force, Grain, Quantity};
use testday::{Course, FALSE_STOP_CHANCE};

/// What is known of the readings of a plan: with the band that stops loading on the day.
pub(super) struct Due(Option<Course>);

impl Due {
    pub(super) fn of(plan: &Plan, assessment: &Assessment) -> Self {
        Self(assessment.exact.as_ref().map(|exact| Course::with(plan, exact.expected.clone())))
    }

    /// What the band means, in one sentence; none without scales.
    pub(super) fn sentence(&self) -> Option<String> {
        let readings = self.0.as_ref().map(Course::readings).filter(|readings| *readings > 0)?;
        #[expect(clippy::cast_precision_loss, reason = "readings are few")]
        let outside = FALSE_STOP_CHANCE / readings as f64;
        Some(format!(
            "± is the stop band, the same as on the Test day page: stop where a scale is farther off. {:.2} of 100 \
             faultless readings lie within it; at most {:.0} of 100 faultless days is stopped by it. Where the tare \
             was not as expected, add the difference to each line.",
            // Never rounded up to all of them.
            (1e4 * (1.0 - outside)).floor() / 100.0,
            100.0 * FALSE_STOP_CHANCE
        ))
    }

    /// What a scale should show after so many placements; `?` where that is not known.
    pub(super) fn reading(&self, plan: &Plan, placed: usize, support: usize) -> String {
        let range = self.0.as_ref().and_then(|course| course.planned(placed).get(support).copied().flatten());
        range.map_or_else(|| "?".to_owned(), |range| expected(plan, range.reading_kg, range.stop_kg))
    }

    /// The same in kg, with the band.
    pub(super) fn reading_kg(&self, placed: usize, support: usize) -> Option<[f64; 2]> {
        let range = self.0.as_ref()?.planned(placed).get(support).copied().flatten()?;
        Some([range.reading_kg, range.stop_kg])
    }

    /// The pull of a strap, N.
    pub(super) fn pull_n(&self, placed: usize, strap: usize) -> Option<f64> {
        self.state(placed)?.straps_n.get(strap).copied()
    }

    fn state(&self, placed: usize) -> Option<&Expected> {
        self.0.as_ref()?.after(placed)
    }

    /// What a strap should pull, in the plan's unit of force, and two standard deviations of it.
    pub(super) fn pull(&self, plan: &Plan, placed: usize, strap: usize) -> String {
        let bare = |n: f64| Force::n(n).shown_bare(plan.units, Grain::Coarse);
        let pull = self.state(placed).and_then(|state| state.straps_n.get(strap));
        let within = plan.fixture.hold_downs.get(strap).map(strap_within_n);
        match pull.zip(within) {
            Some((pull, within)) => format!("{} ± {}", bare(*pull), bare(within)),
            None => "?".to_owned(),
        }
    }
}

/// How many times their weight the steps of a layer would bear before they lean over, at the least; none where
/// nothing gives, or where that is not worked out.
pub(super) fn critical_words(plan: &Plan, assessment: &Assessment, steps: &[usize]) -> Option<String> {
    let soft = assessment.exact.as_ref()?.soft.as_ref()?;
    let factors = steps
        .iter()
        .filter(|step| gives(plan, **step))
        .filter_map(|step| Some((step, soft.usual.steps.get(*step)?.end.critical()?)));
    let (step, least) = factors.filter(|(_, factor)| factor.is_finite()).min_by(|a, b| a.1.total_cmp(&b.1))?;
    Some(format!(
        "“Leans”: the bags give way first. “At most”: solved with rigid pieces alone. Least critical load factor here \
         {} (step {}), required {:.1}.",
        critical_factor(least),
        step + 1,
        plan.allow.critical
    ))
}

/// The table for these steps.
pub(super) fn table(plan: &Plan, assessment: &Assessment, (due, steps): (&Due, &[usize])) -> Table {
    let (unit, force) = (unit_of_mass(plan), unit_of_force(plan));
    let mut columns = vec![
        Column::fixed("after step", 14.0, Align::Right),
        Column::fixed(format!("applied, {unit}"), 18.0, Align::Right),
        Column::fixed("reserve, of weight", 25.0, Align::Left),
    ];
    columns.extend(scales(plan).map(|(_, support)| Column::wide(format!("{}, {unit}", support.name))));
    columns.extend(plan.fixture.hold_downs.iter().map(|strap| Column::wide(format!("{}, {force}", strap.name))));
    Table { columns, rows: steps.iter().map(|step| row(plan, assessment, due, *step)).collect(), row_mm: 7.0 }
}

fn scales(plan: &Plan) -> impl Iterator<Item = (usize, &Support)> {
    plan.fixture.supports.iter().enumerate().filter(|(_, support)| support.scale)
}

fn row(plan: &Plan, assessment: &Assessment, due: &Due, step: usize) -> Vec<Cell> {
    let applied = assessment.closed.steps.get(step).map_or_else(|| "–".to_owned(), |s| bare_mass(plan, s.applied_kg));
    let exact = assessment.exact.as_ref();
    let least = exact.and_then(|exact| reserve_after(plan, exact, step)).unwrap_or_else(|| "not decided".to_owned());
    let number = Style { size_pt: 12.0, ..Style::STRONG };
    let mut row = vec![Cell::Text((step + 1).to_string(), number), Cell::strong(applied), Cell::text(least)];
    row.extend(scales(plan).map(|(index, _)| Cell::Write(due.reading(plan, step + 1, index))));
    row.extend((0..plan.fixture.hold_downs.len()).map(|index| Cell::Write(due.pull(plan, step + 1, index))));
    row
}
