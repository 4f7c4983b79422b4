//! What must be so of any pile. Source: `own derivation` (the equations have no other scale than those of
//! weight and length, no handedness, and no knowledge of what is placed later).

use crate::given::{Settled, panel, solid};
use proptest::prelude::*;
use statics::equilibrium::{Effort, Shortcut, Shortcuts, Stack, StepEquilibrium, every_step, every_step_with};
use statics::{Body, settle};

/// Alike within what two solves may differ by.
const ALIKE: f64 = 2.5e-6;

fn any_body() -> impl Strategy<Value = Body> {
    (-0.12..0.12f64, -0.12..0.12f64, any::<bool>(), 5.0..40.0f64, 0.3..0.8f64).prop_map(
        |(x, y, turned, mass, friction)| {
            let size = if turned { [0.5, 0.33, 0.11] } else { [0.33, 0.5, 0.11] };
            solid([x, y], size, mass, friction)
        },
    )
}

fn any_pile() -> impl Strategy<Value = Vec<Body>> {
    proptest::collection::vec(any_body(), 1..6)
}

fn settled(bodies: &[Body]) -> Settled {
    Settled::new(&panel(0.6), bodies.to_vec())
}

/// The same end, and the same number where there is one. At the brink either verdict is right.
fn alike(what: &str, got: &StepEquilibrium, want: &StepEquilibrium) -> Result<(), TestCaseError> {
    let numbers = [got, want].map(|verdict| verdict.least.reserve().map_or(0.0, |reserve| reserve.multiplier));
    let difference = numbers[0] - numbers[1];
    let brink = numbers.iter().all(|number| *number < ALIKE);
    let ends = std::mem::discriminant(&got.least) == std::mem::discriminant(&want.least) || brink;
    prop_assert!(
        ends && difference.abs() <= ALIKE,
        "{what}: got {:?}, want {:?}, difference {difference:e} of weight",
        got.least,
        want.least
    );
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn a_verdict_depends_on_its_own_pieces_alone(bodies in any_pile(), more in any_pile()) {
        let before = settled(&bodies).every_step();
        let after = settled(&[bodies.clone(), more].concat()).every_step();
        prop_assert_eq!(&after[..bodies.len()], &before[..], "the first {} steps", bodies.len());
    }

    #[test]
    fn leaving_out_a_shortcut_changes_no_verdict(bodies in any_pile(), more in any_pile()) {
        let pile = settled(&[bodies, more].concat());
        let (want, _) = every_step_with(&pile.stack(), Shortcuts::ALL);
        prop_assert_eq!(&want, &pile.every_step(), "the verdicts of every step");
        let without = Shortcut::ALL.map(|shortcut| Shortcuts::ALL.without(shortcut));
        for shortcuts in without.into_iter().chain([Shortcuts::NONE]) {
            let (got, _) = every_step_with(&pile.stack(), shortcuts);
            for (got, want) in got.iter().zip(&want) {
                alike(&format!("step {}, with {shortcuts:?}", want.step), got, want)?;
            }
        }
    }

    #[test]
    fn scaling_all_masses_changes_no_multiplier(bodies in any_pile(), factor in 0.001..1000.0f64) {
        let heavier: Vec<Body> = bodies.iter().map(|b| Body { mass_kg: factor * b.mass_kg, ..b.clone() }).collect();
        alike("masses", &settled(&heavier).least(), &settled(&bodies).least())?;
    }

    #[test]
    fn scaling_all_lengths_changes_no_multiplier(bodies in any_pile(), factor in 0.2..5.0f64) {
        let longer = |b: &Body| {
            let (centre_m, extent_m) = (b.centre_m.map(|x| factor * x), b.extent_m.map(|x| factor * x));
            Body { centre_m, extent_m, ..b.clone() }
        };
        let mut bed = panel(0.6);
        bed.touch_m *= factor;
        bed.touch_hard_m *= factor;
        let longer = Settled::new(&bed, bodies.iter().map(longer).collect());
        alike("lengths", &longer.least(), &settled(&bodies).least())?;
    }

    #[test]
    fn stronger_friction_never_lowers_the_multiplier(bodies in any_pile(), more in 0.0..0.5f64, turn in 0.0..360.0f64) {
        let rougher: Vec<Body> = bodies.iter().map(|b| Body { friction: b.friction + more, ..b.clone() }).collect();
        let rougher = Settled::new(&panel(0.6 + more), rougher).along(turn);
        let smoother = settled(&bodies).along(turn);
        let number = |verdict: &StepEquilibrium| verdict.least.reserve().map_or(-1.0, |reserve| reserve.multiplier);
        let difference = number(&rougher) - number(&smoother);
        prop_assert!(difference >= -ALIKE, "rougher {:?}, smoother {:?}, difference {difference:e} of weight", rougher.least, smoother.least);
    }

    #[test]
    fn a_mirrored_pile_has_the_mirrored_multipliers(bodies in any_pile(), turn in 0.0..360.0f64, slope in -0.1..0.1f64) {
        let mirrored = |b: &Body| Body { centre_m: [b.centre_m[0], -b.centre_m[1]], ..b.clone() };
        let mirrored = settled(&bodies.iter().map(mirrored).collect::<Vec<_>>()).sloped(slope);
        alike("mirror", &mirrored.along(-turn), &settled(&bodies).sloped(slope).along(turn))?;
    }

    #[test]
    fn every_step_says_what_one_question_says(bodies in any_pile()) {
        let pile = settled(&bodies);
        alike("last step", pile.every_step().last().unwrap(), &pile.least())?;
    }

    #[test]
    fn nothing_panics_on_odd_numbers(
        numbers in proptest::collection::vec((-1.0..1.0f64, 0.0..1.5f64, 0.0..50.0f64, 0.0..1.2f64), 1..5),
        slope in -1.4..1.4f64,
    ) {
        let body = |&(x, length, mass, friction): &(f64, f64, f64, f64)| solid([x, 0.1 * x], [length, 0.3, 0.1], mass, friction);
        let pile = settled(&numbers.iter().map(body).collect::<Vec<_>>()).sloped(slope);
        let verdicts = pile.every_step();
        prop_assert_eq!(verdicts.len(), numbers.len(), "steps");
        for verdict in verdicts {
            if let Some(reserve) = verdict.least.reserve() {
                prop_assert!(reserve.multiplier.is_finite() && reserve.multiplier >= 0.0, "{verdict:?}");
            }
        }
    }
}

#[test]
fn one_thread_and_two_give_the_same_numbers_bit_by_bit() {
    let bag = |k: u32| {
        let size = if (k / 2).is_multiple_of(2) { [0.5, 0.33, 0.11] } else { [0.33, 0.5, 0.11] };
        let at = if (k / 2).is_multiple_of(2) {
            [0.0, 0.34 * f64::from(k % 2)]
        } else {
            [0.34 * f64::from(k % 2) - 0.17, 0.17]
        };
        solid(at, size, 24.0 + 0.1 * f64::from(k), 0.5)
    };
    let bodies: Vec<Body> = (0..22).map(bag).collect();
    let pile = settle(&panel(0.5), &bodies);
    let pose = nalgebra::Isometry3::identity();
    let stack = Stack { floor_from_bed: &pose, bodies: &bodies, pile: &pile, dead: &[] };
    let on = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| every_step(&stack, Effort::FULL, &|_| true))
    };
    let (one, two) = (on(1), on(2));
    for (one, two) in one.iter().zip(&two) {
        let bits = |verdict: &StepEquilibrium| verdict.least.reserve().map(|reserve| reserve.multiplier.to_bits());
        assert_eq!(bits(one), bits(two), "step {}: one thread {:?}, two {:?}", one.step, one.least, two.least);
        assert_eq!(one, two, "step {}", one.step);
    }
}
