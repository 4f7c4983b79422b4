//! How likely a stack is to miss a check, against the normal distribution.

use crate::bench::{bench, with_ballast, without};
use crate::given::{Says, all_of, found, near};
use assess::{Amount, Reach, State, Where, assess};
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
/// it every second time.
#[test]
fn the_chance_to_miss_is_that_of_the_normal_distribution() {
    let unweighed = with_ballast(&bench(), |lots| lots[0].weighed.clear());
    let rows: [(plan::Plan, State, f64, Says); 3] = [
        (bench(), State::Holds, 0.0005, &["of 100 stacks miss"]),
        (tolerating(0.005), State::Near, 0.0833, &["lateral offset", "leave more room"]),
        (unweighed, State::Near, 0.5005, &["applied load", "weigh the pieces"]),
    ];
    for (plan, state, chance, says) in rows {
        let finding = found(&plan, Reach::Full, "Chance to miss");
        near("chance to miss", finding.value.unwrap().si(), chance, DRAWN, "of all stacks");
        assert_eq!((finding.state, &finding.place), (state, &Where::Stack), "{finding:?}");
        assert_eq!(finding.limit, Some(Amount::Ratio(0.05)), "{finding:?}");
        assert!(says.iter().all(|said| finding.text.contains(said)), "{says:?} in {}", finding.text);
    }
}

#[test]
fn the_chance_to_miss_waits_for_the_draws() {
    let finding = found(&bench(), Reach::ClosedForm, "Chance to miss");
    assert_eq!((finding.state, finding.value), (State::Undecided, None), "{finding:?}");
    let empty = assess(&without(&bench(), &[0, 1, 2]), Reach::Full);
    assert_eq!(all_of(&empty.findings, "Chance to miss"), []);
}

/// Draws are seeded: nothing hangs on the clock.
#[test]
fn the_same_plan_has_the_same_chances() {
    let twice = [(); 2].map(|()| found(&tolerating(0.005), Reach::Full, "Chance to miss"));
    assert_eq!(twice[0], twice[1]);
}
