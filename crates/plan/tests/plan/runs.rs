//! Runs: limit and ultimate as loadings of their own, and where each hold falls.

use crate::WRITTEN;
use plan::file::{read, write};
use plan::{Hold, Plan, Run};
use quantity::{Length, Quantity, Units};

/// The written plan, with pieces enough for its load.
fn loaded() -> Plan {
    let mut plan = read(WRITTEN).unwrap_or_else(|error| panic!("{error}"));
    let ultimate_kg = ultimate_kg(&plan);
    let lot = plan.ballast.iter().find(|lot| lot.mass.si() > 10.0).expect("a lot of bags").name.clone();
    let lot = plan.ballast.iter_mut().find(|other| other.name == lot).expect("the lot");
    lot.weighed.clear();
    lot.mass = quantity::Mass::kg(ultimate_kg / 12.0);
    lot.count = 12;
    let name = lot.name.clone();
    let pattern = plan.stack[0].clone();
    plan.stack = (1..=12).map(|item| plan::Place { lot: name.clone(), item, ..pattern.clone() }).collect();
    plan
}

fn ultimate_kg(plan: &Plan) -> f64 {
    let case = plan.case_in_hand().expect("a case is in hand");
    plan::LimitLoad::of(case).ultimate(case).as_mass().si()
}

fn hold(name: &str, at: f64, unload: bool) -> Hold {
    Hold { unload, ..Hold::at(name, at) }
}

fn steps(runs: &[Run]) -> Vec<Vec<Option<usize>>> {
    runs.iter().map(|run| run.holds.iter().map(|hold| hold.step).collect()).collect()
}

#[test]
fn without_an_unloading_the_day_is_one_run() {
    let mut plan = loaded();
    plan.holds = vec![hold("limit", 2.0 / 3.0, false), hold("ultimate", 1.0, false)];
    let runs = plan.runs();
    // Twelve pieces of a twelfth each: two thirds are reached with the eighth.
    assert_eq!(steps(&runs), [[Some(7), Some(11)]]);
    assert_eq!(runs[0].placements(&plan), 12);
}

#[test]
fn an_unloading_begins_a_run_that_starts_with_the_first_piece() {
    let mut plan = loaded();
    plan.holds = vec![
        hold("half", 0.5, false),
        hold("limit", 2.0 / 3.0, true),
        hold("again", 0.5, false),
        hold("all", 1.0, true),
    ];
    let runs = plan.runs();
    assert_eq!(steps(&runs), [[Some(5), Some(7)], [Some(5), Some(11)]]);
    assert_eq!(runs.iter().map(|run| run.placements(&plan)).collect::<Vec<_>>(), [8, 12]);
    assert_eq!(runs[1].holds[0].hold, 2, "holds are named by their place in the plan");
}

#[test]
fn a_load_that_the_stack_never_reaches_has_no_step() {
    let mut plan = loaded();
    plan.stack.truncate(6);
    plan.holds = vec![hold("half", 0.5, true), hold("all", 1.0, true)];
    let runs = plan.runs();
    assert_eq!(steps(&runs), [[Some(5)], [None]]);
    assert_eq!(runs[1].placements(&plan), 6, "what there is gets placed");
    plan.case = "none of them".to_owned();
    assert_eq!(steps(&plan.runs()), [[None], [None]]);
}

#[test]
fn a_plan_without_holds_is_one_run_of_all_pieces() {
    let mut plan = loaded();
    plan.holds.clear();
    assert_eq!(plan.runs(), [Run { holds: Vec::new() }]);
    assert_eq!(plan.runs()[0].placements(&plan), 12);
}

#[test]
fn an_unloading_is_written_only_where_there_is_one() {
    let mut plan = loaded();
    assert!(!write(&plan).contains("unload"), "old files keep their bytes");
    plan.holds[1].unload = true;
    let text = write(&plan);
    assert!(text.contains("Hold(name: \"limit\", at: 0.667, unload: true)"), "{text}");
    assert_eq!(read(&text).map(|plan| plan.holds), Ok(plan.holds));
}

#[test]
fn a_hold_below_limit_load_may_lie_twice_as_far_off_unless_it_says_otherwise() {
    let mut plan = Plan::blank(Units::Metric);
    let usual = plan.target.tolerance().map(Quantity::si);
    let of = |plan: &Plan, hold: &Hold| plan.tolerance_at(hold).map(Quantity::si);
    // Limit load is 1 / 1.5 of ultimate; people write 0.667 for it, or 0.66.
    for (at, times) in
        [(0.333, 2.0), (0.60, 2.0), (0.65, 2.0), (0.66, 1.0), (0.666, 1.0), (0.667, 1.0), (0.8, 1.0), (1.0, 1.0)]
    {
        let got = of(&plan, &Hold::at("hold", at));
        for axis in 0..2 {
            let want = usual[axis] * times;
            assert!((got[axis] - want).abs() < 1e-12, "at {at}: got {} m, want {want} m", got[axis]);
        }
    }
    let own = [Length::m(0.004), Length::m(0.003)];
    let hold = Hold { tolerance: Some(own), ..Hold::at("half limit", 0.333) };
    assert_eq!(plan.tolerance_at(&hold), own);
    // A load that is given as ultimate knows no limit load below it.
    plan.load_cases[0].safety_factor = 1.0;
    for (at, times) in [(0.98, 2.0), (1.0, 1.0)] {
        let (got, want) = (of(&plan, &Hold::at("hold", at))[0], times * usual[0]);
        assert!((got - want).abs() < 1e-12, "at {at}: got {got} m, want {want} m");
    }
}
