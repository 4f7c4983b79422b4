//! The chance that a check fails, against the normal distribution (`own derivation`).

use crate::given::{Stack, block, near, panel, scatter};
use statics::spread::{Chance, Limits};

/// Probability of a standard normal value above 1, `from memory`; the second route is the count of
/// draws itself.
const ABOVE_ONE: f64 = 0.158_655;
const DRAWS: usize = 40_000;

/// Of the share that fails, of 1.
fn standard_error(chance: Chance) -> f64 {
    let draws = f64::from(u32::try_from(DRAWS).unwrap());
    (chance.share() * (1.0 - chance.share()) / draws).sqrt()
}

#[test]
fn each_check_fails_as_often_as_its_normal_distribution_says() {
    let bodies = vec![block([0.0, 0.0], [0.5, 0.33, 0.11], 100.0)];
    let stack = Stack::new(panel(), bodies, scatter(1, 2.0, 0.01));
    // One deviation short of the mean mass; offsets beyond one deviation either way.
    let limits = Limits { ultimate_kg: 98.0, fore_aft_m: 0.01, lateral_m: 0.01, tip: 0.0 };
    let got = stack.drawn(&limits, DRAWS, 2).failures;
    let within = |chance: Chance, want: f64| {
        near("share", chance.share(), want, 5.0 * standard_error(chance), "of 1");
        assert!(chance.at_most() > chance.share(), "at most {} of {}", chance.at_most(), chance.share());
    };
    within(got.load, ABOVE_ONE);
    within(got.fore_aft, 2.0 * ABOVE_ONE);
    within(got.lateral, 2.0 * ABOVE_ONE);
    within(got.any, 1.0 - (1.0 - ABOVE_ONE) * (1.0 - 2.0 * ABOVE_ONE).powi(2));
    assert_eq!(got.tip.unwrap().fails, 0, "draws that tip");
}

#[test]
fn a_check_that_never_failed_is_not_said_to_be_certain() {
    let never = Chance { fails: 0, draws: 100_000 };
    near("share", never.share(), 0.0, 0.0, "of 1");
    // Score interval with no failure: z^2/(n + z^2), z = 1.644854 (`own derivation` from the formula).
    near("at most", never.at_most(), 2.705_543 / 100_002.705_543, 1e-10, "of 1");
    let always = Chance { fails: 50, draws: 50 };
    near("at most", always.at_most(), 1.0, 1e-12, "of 1");
}

#[test]
fn a_lot_that_is_off_alike_fails_together() {
    // Twenty bags of 25 kg, deviation 0.4 kg, ultimate 1 % short of the sum: independent errors all
    // but never add up to 5 kg (deviation 1.8 kg), common ones do so in 1 of 4 (deviation 8 kg).
    let bodies: Vec<_> = (0..20_u32).map(|k| block([0.6 * f64::from(k), 0.0], [0.5, 0.33, 0.11], 25.0)).collect();
    let alone = Stack::new(wide_panel(), bodies, scatter(20, 0.4, 0.0));
    let limits = Limits { ultimate_kg: 495.0, ..crate::given::WIDE };
    let independent = alone.drawn(&limits, DRAWS, 2).failures.load;
    near("independent", independent.share(), 0.002_6, 5.0 * standard_error(independent), "of 1");
    let mut together = alone;
    together.scatter.common_share = 1.0;
    let common = together.drawn(&limits, DRAWS, 2).failures.load;
    near("common", common.share(), 0.265_99, 5.0 * standard_error(common), "of 1");
}

fn wide_panel() -> statics::Bed {
    let mut bed = panel();
    bed.bearings[0].x_m = [-20.0, 20.0];
    bed
}
