//! What the scales should show along the stack as it is being built, tare taken.

use crate::{Reading, stop_factor};
use assess::expect::{self, Band, Expected};
use nalgebra::Point3;
use plan::Plan;
use quantity::{Grain, Kind, Mass, Quantity};

/// Two standard deviations of a scale whose division the plan does not know, as a part of its
/// capacity, and where that is not known either, kg: `common practice, no source`.
const SCALE_SHARE: f64 = 0.001;
const SCALE_KG: f64 = 0.5;
/// So much of its pull may a strap lose between the tare and a reading (webbing creeps, a knot settles), a
/// bound, read as rectangular: `common practice, no source`.
pub(crate) const CREEP_SHARE: f64 = 0.02;

/// What is expected after every placement, and where each piece presses.
#[derive(Clone, Debug)]
pub struct Course {
    expected: Vec<Option<Expected>>,
    places: Vec<Point3<f64>>,
    masses_kg: Vec<f64>,
    names: Vec<Option<String>>,
    assumed_kg: Vec<f64>,
    preloads_n: Vec<f64>,
    factor: f64,
    readings: usize,
    /// A tenth of the plan's unit of mass, kg: as finely as a band is written.
    grain_kg: f64,
}

/// What one scale should show, and within what.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The reading, kg: the tare that was read, and what should have come on since.
    pub reading_kg: f64,
    /// Two standard deviations of it, kg: scale, pieces' masses and places, strap preload.
    pub within_kg: f64,
    /// Beyond this off, kg, loading stops ([`stop_factor`]): rounded up to a tenth of the plan's unit of
    /// mass, so that what is judged is what paper, file and page say.
    pub stop_kg: f64,
}

impl Range {
    /// Whether a reading lets loading go on.
    pub fn fits(&self, reading_kg: f64) -> bool {
        (reading_kg - self.reading_kg).abs() <= self.stop_kg
    }
}

impl Course {
    /// The course of a stack.
    pub fn of(plan: &Plan) -> Self {
        Self::with(plan, expect::expected(plan))
    }

    /// The course of a stack of which is known what to expect after 0, 1, 2, ... placements.
    pub fn with(plan: &Plan, expected: Vec<Option<Expected>>) -> Self {
        let scales = plan.fixture.supports.iter().filter(|support| support.scale).count();
        let readings: usize = plan.runs().iter().map(|run| run.placements(plan) * scales).sum();
        let assumed = |s: &plan::Support| s.capacity.map_or(SCALE_KG, |capacity| SCALE_SHARE * capacity.si());
        Self {
            expected,
            places: expect::places_in_floor(plan),
            masses_kg: plan.stack.iter().map(|place| plan.mass_of(place).si()).collect(),
            names: plan.fixture.supports.iter().map(|s| s.scale.then(|| s.name.clone())).collect(),
            assumed_kg: plan.fixture.supports.iter().map(assumed).collect(),
            preloads_n: plan.fixture.hold_downs.iter().map(|strap| strap.preload.si()).collect(),
            factor: stop_factor(readings),
            readings,
            grain_kg: plan.units.unit(Kind::Mass, Grain::Coarse).si / 10.0,
        }
    }

    /// How many standard deviations a reading may be off before loading stops.
    pub fn stop_factor(&self) -> f64 {
        self.factor
    }

    /// How many readings of scales the whole day takes.
    pub fn readings(&self) -> usize {
        self.readings
    }

    /// What each support's scale should show after so many placements where the tare is the one that the
    /// plan has: the band is the one of the day.
    pub fn planned(&self, placed: usize) -> Vec<Option<Range>> {
        let band = |support: usize| Some((self.scale(support)?.to_owned(), self.band(0, support)?.reading_kg));
        let scales_kg = (0..self.supports()).filter_map(band).collect();
        self.ranges(&Reading { scales_kg, ..Reading::default() }, [0, placed])
    }

    /// What is expected after so many placements, straight from the plan; none where the fixture is
    /// not known to stand.
    pub fn after(&self, placed: usize) -> Option<&Expected> {
        self.expected.get(placed)?.as_ref()
    }

    /// Where a piece presses, floor frame, m, and its mass, kg; by its place in the stack, from 0.
    pub fn piece(&self, index: usize) -> Option<(&Point3<f64>, f64)> {
        self.places.get(index).zip(self.masses_kg.get(index).copied())
    }

    /// Mass of the first so many pieces, kg.
    pub fn applied_kg(&self, placed: usize) -> f64 {
        self.masses_kg.iter().take(placed).sum()
    }

    /// The name of a support, where it is a scale.
    pub fn scale(&self, support: usize) -> Option<&str> {
        self.names.get(support)?.as_deref()
    }

    /// How many supports there are.
    pub fn supports(&self) -> usize {
        self.names.len()
    }

    /// Two standard deviations of a scale by itself at this state, kg.
    pub fn scale_part_kg(&self, placed: usize, support: usize) -> f64 {
        self.scale_part_of(self.band(placed, support), support)
    }

    fn scale_part_of(&self, band: Option<&Band>, support: usize) -> f64 {
        band.and_then(|band| band.of_scale_kg)
            .unwrap_or_else(|| self.assumed_kg.get(support).copied().unwrap_or(SCALE_KG))
    }

    pub(crate) fn band(&self, placed: usize, support: usize) -> Option<&Band> {
        self.after(placed)?.scales.get(support)?.as_ref()
    }

    /// Two standard deviations of the change of a reading between two states, kg. What the pieces
    /// add is independent piece by piece, so that squares subtract, and so is what binding straps add; the
    /// hold-downs are the same ones at both states, so that only the difference of their part counts, and
    /// what they lose by creeping meanwhile.
    pub(crate) fn change_spread_kg(&self, support: usize, placed: [usize; 2]) -> f64 {
        let states = placed.map(|placed| self.after(placed));
        self.spread_between_kg(support, states)
    }

    /// Two standard deviations of what straps lose by creeping, kg, by how the reading answers to preload.
    fn creep_kg(&self, support: usize, now: Option<&Expected>) -> f64 {
        let Some(lever) = now.and_then(|now| now.levers.get(support)) else { return 0.0 };
        let lost = lever.per_preload_n.iter().zip(&self.preloads_n).map(|(per_n, n)| per_n * CREEP_SHARE * n);
        2.0 * lost.map(|kg| kg * kg / 3.0).sum::<f64>().sqrt()
    }

    fn spread_between_kg(&self, support: usize, states: [Option<&Expected>; 2]) -> f64 {
        let bands = states.map(|state| state.and_then(|state| state.scales.get(support)?.as_ref()));
        let [from, to] = bands.map(|band| self.scale_part_of(band, support));
        let scale = from.hypot(to);
        let parts = |band: &Band| [band.of_pieces_kg.hypot(band.of_bindings_kg), band.of_straps_kg];
        let [before, after] = bands.map(|band| band.map_or([0.0; 2], parts));
        let came_on = (after[0] * after[0] - before[0] * before[0]).max(0.0).sqrt();
        scale.hypot(came_on).hypot(after[1] - before[1]).hypot(self.creep_kg(support, states[1]))
    }

    /// What each support's scale should show after so many placements, where the tare was read after
    /// `at_tare` of them; none for what is no scale, was not read then, or is not known.
    pub fn ranges(&self, tare: &Reading, [at_tare, placed]: [usize; 2]) -> Vec<Option<Range>> {
        (0..self.supports()).map(|support| self.range(tare, (support, at_tare), self.after(placed))).collect()
    }

    /// The same while pieces come off: `left` is what is expected of those that still lie there.
    pub fn ranges_left(&self, tare: &Reading, at_tare: usize, left: &Expected) -> Vec<Option<Range>> {
        (0..self.supports()).map(|support| self.range(tare, (support, at_tare), Some(left))).collect()
    }

    fn range(&self, tare: &Reading, (support, at_tare): (usize, usize), now: Option<&Expected>) -> Option<Range> {
        let tare_kg = tare.scale_kg(self.scale(support)?)?;
        let states = [self.after(at_tare)?, now?];
        let [before, after] = states.map(|state| state.scales.get(support).and_then(Option::as_ref));
        let (before, after) = (before?, after?);
        let within_kg = self.spread_between_kg(support, states.map(Some));
        Some(Range {
            reading_kg: tare_kg + after.reading_kg - before.reading_kg,
            within_kg,
            stop_kg: self.rounded_up_kg(0.5 * self.factor * within_kg),
        })
    }

    fn rounded_up_kg(&self, kg: f64) -> f64 {
        // What is a whole number of grains but for rounding stays that.
        (kg / self.grain_kg - 1e-9).ceil() * self.grain_kg
    }

    /// The same before any tare: what an empty fixture should show if article and straps are as
    /// planned. A difference here is what else stands on the scales; it stops nothing.
    pub fn at_tare(&self, placed: usize) -> Vec<Option<Range>> {
        let of = |support: usize| {
            let band = self.band(placed, support)?;
            let scale = self.scale_part_kg(placed, support);
            let within_kg = scale.hypot(band.of_pieces_kg).hypot(band.of_straps_kg).hypot(band.of_bindings_kg);
            Some(Range { reading_kg: band.reading_kg, within_kg, stop_kg: f64::INFINITY })
        };
        (0..self.supports()).map(of).collect()
    }

    /// The masses of the first so many pieces as people read them.
    pub fn applied(&self, placed: usize) -> Mass {
        Mass::kg(self.applied_kg(placed))
    }
}
