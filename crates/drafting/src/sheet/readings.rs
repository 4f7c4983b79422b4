//! What scales and straps should show after each step.

use crate::words::{critical_factor, expected, gives};
use assess::Assessment;
use assess::expect::{Expected, strap_within_n};
use plan::Plan;
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
        "“Leans”: the bags give way first. “At most”: solved with rigid pieces alone. Least critical load factor \
         {} (step {}), required {:.1}.",
        critical_factor(least),
        step + 1,
        plan.allow.critical
    ))
}
