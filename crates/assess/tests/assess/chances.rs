//! How likely a stack is to miss a check, against the normal distribution.

use crate::bench::{bench, with_ballast, without};
use crate::given::{Says, all_of, found, near};
use assess::{Amount, Ask, Check, Reach, State, Where, assess};
use plan::Edit;
use plan::edit::Part;

/// Four deviations of a share of one half among the 20 000 stacks that are drawn: 4 x 0.5 / sqrt(20 000).
const DRAWN: f64 = 0.0142;

/// The bench with another lateral tolerance.
fn tolerating(lateral_m: f64) -> plan::Plan {
    let plan = bench();
    let tolerance = [plan.target.tolerance()[0], quantity::Length::m(lateral_m)];
    let target = plan.target.clone().with_tolerance(tolerance);
    crate::bench::after(&plan, &Edit::set(Part::Target(target), "target"))
}

/// Bags are put down 10 mm off, read as two deviations: three make a deviation of 5 mm / sqrt(3) of the
/// centroid. Two-sided tails of the normal distribution (`from memory`): 10 mm are 3.46 deviations, 5 mm
/// 1.73, of which 0.0833 lie beyond. Masses that reach below the ultimate load as often as above miss
/// it every second time. Above one in twenty is a caution, above the plan's one in five a failure.
#[test]
fn the_chance_to_miss_is_that_of_the_normal_distribution() {
    let unweighed = with_ballast(&bench(), |lots| lots[0].weighed.clear());
    let rows: [(plan::Plan, State, f64, Says); 3] = [
        (bench(), State::Met, 0.0005, &["of 100 stacks miss"]),
        (tolerating(0.005), State::Caution, 0.0833, &["lateral offset", "leave more room"]),
        (unweighed, State::Fails, 0.5005, &["applied load", "weigh the pieces"]),
    ];
    for (plan, state, chance, says) in rows {
        let finding = found(&plan, Reach::Full, Check::ChanceToMiss);
        near("chance to miss", finding.value.unwrap().si(), chance, DRAWN, "of all stacks");
        assert_eq!((finding.state, &finding.place), (state, &Where::Stack), "{finding:?}");
        assert_eq!(finding.limit, Some(Amount::Ratio(0.20)), "{finding:?}");
        assert!(says.iter().all(|said| finding.text.contains(said)), "{says:?} in {}", finding.text);
    }
}

#[test]
fn the_chance_to_miss_waits_for_the_draws() {
    let finding = found(&bench(), Reach::ClosedForm, Check::ChanceToMiss);
    assert_eq!((finding.state, finding.value), (State::Undecided, None), "{finding:?}");
    let empty = assess(&without(&bench(), &[0, 1, 2]), Ask::full());
    assert_eq!(all_of(&empty.findings, Check::ChanceToMiss), []);
}

/// Draws are seeded: nothing hangs on the clock.
#[test]
fn the_same_plan_has_the_same_chances() {
    let twice = [(); 2].map(|()| found(&tolerating(0.005), Reach::Full, Check::ChanceToMiss));
    assert_eq!(twice[0], twice[1]);
}

/// Three weighed bags of 24 kg never reach 75 kg: 100 of 100 miss, which nobody may call a caution.
#[test]
fn a_stack_that_always_misses_a_check_fails_and_the_plan_says_how_much_is_allowed() {
    let plan = with_ballast(&bench(), |lots| {
        lots[0].weighed = (1..=8).map(|item| (item, quantity::Mass::kg(24.0))).collect();
    });
    let always = found(&plan, Reach::Full, Check::ChanceToMiss);
    assert_eq!((always.state, always.value), (State::Fails, Some(Amount::Ratio(1.0))), "{always:?}");
    let mut strict = tolerating(0.005);
    assert_eq!(found(&strict, Reach::Full, Check::ChanceToMiss).state, State::Caution);
    strict.allow.chance = 0.06;
    assert_eq!(found(&strict, Reach::Full, Check::ChanceToMiss).state, State::Fails);
}

/// Three lots of one bag each, known to 1 kg: drawn alike within a lot or each by itself, the bags are the same three
/// drawings. 76 kg against the 75 kg due are 1 / (0.5 x sqrt 3) = 1.155 deviations to spare: 0.1241 of the normal
/// distribution lie beyond (`from memory`).
#[test]
fn lots_of_one_bag_each_are_off_each_by_itself_even_where_a_lot_is_off_alike() {
    let mut plan = bench();
    let lot = |name: &str| plan::Lot {
        mass_tolerance: quantity::Mass::kg(1.0),
        mass: quantity::Mass::kg(76.0 / 3.0),
        weighed: std::collections::BTreeMap::new(),
        ..crate::bench::lot(name, plan::Form::Solid, [0.50, 0.33, 0.11], 25.0)
    };
    plan.ballast = ["one", "two", "three"].map(lot).to_vec();
    plan.stack = ["one", "two", "three"].map(|name| crate::bench::place(name, 1, [0.2, 0.0])).to_vec();
    assert_eq!(plan::faults(&plan), []);
    let chances = assess(&plan, Ask::full()).exact.and_then(|exact| exact.chances).expect("drawn");
    for (what, outcome) in [("each by itself", &chances.independent), ("alike within a lot", &chances.alike)] {
        near(what, outcome.failures.load.share(), 0.1241, DRAWN, "of all stacks");
    }
}
