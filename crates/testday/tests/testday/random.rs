//! Random plans, and days on them as they might be: masses, places, scales and straps each off by
//! what they may be off.

use crate::bench::{plan, reading};
use plan::{Place, Plan, Turn};
use quantity::{Force, Length, Mass, Quantity};
use statics::fixture::scale_tolerance_kg;
use testday::Reading;

/// A generator of our own, so that the days are the same everywhere (the finalizer of splitmix64, from
/// memory).
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15))
    }

    pub(crate) fn unit(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    pub(crate) fn below(&mut self, end: usize) -> usize {
        ((self.unit() * end as f64) as usize).min(end - 1)
    }

    /// Normal about 0 with deviation 1 (the sum of twelve, from memory).
    pub(crate) fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.unit()).sum::<f64>() - 6.0
    }
}

/// A plan of 6 to 9 bags with one plank among them, on a fixture of its own.
pub(crate) fn random_plan(dice: &mut Dice) -> Plan {
    let mut plan = plan();
    plan.holds.truncate(1);
    plan.holds[0].at = 1.0;
    plan.holds[0].unload = false;
    plan.ballast[0].mass = Mass::kg(dice.between(18.0, 28.0).round());
    plan.fixture.hold_downs[0].preload = Force::n(dice.between(500.0, 1200.0).round());
    let half = dice.between(0.55, 0.85);
    plan.fixture.supports[0].at[1] = Length::m(-half);
    plan.fixture.supports[1].at[1] = Length::m(half);
    plan.article.mass = Mass::kg(dice.between(55.0, 90.0).round());
    let count = 6 + dice.below(4);
    let plank = dice.below(count);
    plan.stack = (0..count)
        .map(|index| {
            let side = if dice.unit() < 0.5 { -1.0 } else { 1.0 };
            Place {
                lot: if index == plank { "plank" } else { "sand bag" }.to_owned(),
                item: u32::try_from(index).expect("few") % 6
                    + if index == plank { 1 } else { 1 + 7 * u32::from(index > 5) },
                at: [dice.between(-0.1, 0.6), side * dice.between(0.12, 0.3)].map(Length::m),
                turn: Turn::Lengthwise,
                locked: false,
            }
        })
        .collect();
    assert_eq!(plan::faults(&plan), []);
    plan
}

/// How things really are on a day: within what the plan allows.
pub(crate) struct Truth {
    pub(crate) plan: Plan,
    /// By what part of its tolerance each scale is off.
    scales: Vec<f64>,
}

impl Truth {
    pub(crate) fn of(plan: &Plan, dice: &mut Dice) -> Self {
        let mut real = plan.clone();
        let scatter_m = plan.allow.placement_scatter.si() / 2.0;
        for lot in &mut real.ballast {
            for item in 1..=lot.count {
                let off = dice.normal() * lot.mass_tolerance.si() / 2.0;
                lot.weighed.entry(item).or_insert(lot.mass + Mass::kg(off));
            }
        }
        for place in &mut real.stack {
            place.at = place.at.map(|at| at + Length::m(scatter_m * dice.normal()));
        }
        for strap in &mut real.fixture.hold_downs {
            strap.preload = strap.preload * dice.between(0.8, 1.2);
        }
        let scales = real.fixture.supports.iter().map(|_| dice.between(-1.0, 1.0)).collect();
        Self { plan: real, scales }
    }

    /// What the scales show, each within its tolerance and in whole divisions.
    pub(crate) fn shown(&self, supports_kg: &[f64]) -> Vec<f64> {
        let supports = self.plan.fixture.supports.iter().zip(supports_kg).zip(&self.scales);
        supports
            .map(|((support, kg), off)| {
                let division = support.division.map_or(0.2, Quantity::si);
                let tolerance = scale_tolerance_kg(division, *kg).expect("a division") - division / 2.0;
                ((kg + off * tolerance) / division).round() * division
            })
            .collect()
    }

    /// What the scales show after each placement of a stack as it really is, none placed first.
    pub(crate) fn after_each(&self, real: &Plan) -> Vec<Vec<f64>> {
        let expected = assess::expect::expected(real);
        expected.into_iter().map(|state| self.shown(&state.expect("the fixture stands").supports_kg)).collect()
    }

    pub(crate) fn reading(&self, shown: &[f64]) -> Reading {
        reading(&self.plan, shown)
    }
}
