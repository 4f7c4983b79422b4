//! What boards and bearings bear before the last step: a stack may end well after it was too much.

use crate::bench::{added, with_ballast, with_bed};
use crate::boards::planked;
use crate::given::{GRAVITY, found, near};
use assess::{Ask, Check, Exact, Reach, State, Where, assess};
use plan::{Anchors, Binding, Plan};
use quantity::{Force, Length, Mass};

/// A plank of 4 kg over rails from 0 m to 0.05 m and from 0.95 m to 1.0 m, its middle at 0.5 m, long enough
/// for bags beyond both; bags of these masses are put at these places in turn.
fn loaded(bags: &[(f64, f64)]) -> Plan {
    let bare = planked(25.0);
    let bare = Plan { stack: bare.stack[..1].to_vec(), ..bare };
    let plan = with_ballast(&bare, |lots| {
        lots[1].size[0] = Length::m(2.4);
        lots[0].weighed = (1..).zip(bags).map(|(item, (mass_kg, _))| (item, Mass::kg(*mass_kg))).collect();
    });
    let place = |(item, (_, at_m)): (u32, &(f64, f64))| crate::bench::place("sand bag", item, [*at_m, 0.0]);
    added(&plan, (1..).zip(bags).map(place).collect())
}

fn exact(plan: &Plan) -> Exact {
    assess(plan, Ask::full()).exact.expect("solved")
}

/// By moments about a point of the rear rail, for every place of the two forces within their rails, N.
fn front_between_n(bags: &[(f64, f64)]) -> [f64; 2] {
    let front = |rear_m: f64, front_m: f64| {
        let moment: f64 = bags.iter().chain(&[(4.0, 0.5)]).map(|(mass_kg, at_m)| mass_kg * (rear_m - at_m)).sum();
        GRAVITY * moment / (rear_m - front_m)
    };
    let all = [front(0.95, 0.0), front(0.95, 0.05), front(1.0, 0.0), front(1.0, 0.05)];
    [all.into_iter().fold(f64::INFINITY, f64::min), all.into_iter().fold(0.0, f64::max)]
}

fn between(what: &str, got: f64, [low, high]: [f64; 2]) {
    let off = (low - got).max(got - high).max(0.0);
    assert!(off == 0.0, "{what}: got {got} N, want {low} N to {high} N, difference {off} N");
}

/// The second bag, beyond the rear rail, takes load off the front one.
const BALANCED: [(f64, f64); 2] = [(25.0, -0.05), (25.0, 1.2)];

fn with_front_allowed(n: f64) -> Plan {
    with_bed(&loaded(&BALANCED), |bed| bed.bearings[0].allowable = Some(Force::n(n)))
}

/// Source key `rigid-block-statics` (`memory`).
#[test]
fn a_bearing_that_a_counterweight_relieves_is_judged_before_it_is_there() {
    let (on_the_way, last) = (front_between_n(&BALANCED[..1]), front_between_n(&BALANCED));
    assert!(on_the_way[0] > 270.0 && last[1] < 241.0, "{on_the_way:?} N, then {last:?} N");
    // At 200 N the last state fails too, by less: the worst is told.
    for (allowed_n, state) in [(200.0, State::Fails), (270.0, State::Fails), (300.0, State::Caution)] {
        let plan = with_front_allowed(allowed_n);
        let told = crate::given::all_of(&assess(&plan, Ask::full()).findings, Check::Bearings);
        let told = told.into_iter().find(|finding| finding.text.contains("front rail")).expect("of the front rail");
        assert_eq!((told.state, &told.place), (state, &Where::Step { step: 1, layer: None }), "{told:?}");
        assert!(told.text.contains("after step 2"), "{}", told.text);
        between("after step 2", told.value.unwrap().si(), on_the_way);
        between("with all pieces, as the report has it", exact(&plan).bearings[0].force_n.unwrap(), last);
    }
}

#[test]
fn a_bearing_that_always_holds_is_told_with_all_pieces_placed() {
    // At 500 N the states on the way are looked at (54 kg in all), at 900 N none is.
    for allowed_n in [500.0, 900.0] {
        let told = crate::given::all_of(&assess(&with_front_allowed(allowed_n), Ask::full()).findings, Check::Bearings);
        let told = told.into_iter().find(|finding| finding.text.contains("front rail")).expect("of the front rail");
        assert_eq!((told.state, &told.place), (State::Met, &Where::Stack), "{told:?}");
        between("told", told.value.unwrap().si(), front_between_n(&BALANCED));
    }
}

/// Half of bag and plank at 0.475 m less the bag's own arm of 0.125 m and the plank's of 0.6 m; then a bag
/// beyond each rail takes 0.85 m - 0.475 m of its weight off. Source key `beam-theory` (`memory`).
#[test]
fn a_board_that_counterweights_relieve_is_judged_before_they_are_there() {
    let [middle_kg, side_kg] = [120.0, 20.0];
    let plan = loaded(&[(middle_kg, 0.5), (side_kg, -0.35), (side_kg, 1.35)]);
    let moment_n_m = 0.5 * GRAVITY * (middle_kg * (0.475 - 0.125) + 4.0 * (0.475 - 0.6));
    let relief_n_m = GRAVITY * side_kg * (0.85 - 0.475);
    let last = exact(&plan).boards[0].bent.expect("solved");
    near("with all pieces", last.moment_n_m.abs(), moment_n_m - relief_n_m, 1e-2, "N m");
    let told = found(&plan, Reach::Full, Check::Boards);
    assert_eq!(told.state, State::Fails, "{told:?}");
    assert!(told.text.contains("plank 1 after step 2"), "{}", told.text);
    let want_pa = moment_n_m / (0.19 * 0.018 * 0.018 / 6.0);
    near("bending", told.value.unwrap().si(), want_pa, 1e-4 * want_pa, "Pa");
}

/// 50 kg in all press less than nine tenths of what is allowed: a proof that no state needs a look.
#[test]
fn states_that_cannot_come_near_are_not_looked_at() {
    let bags = crate::bench::bench();
    assert!(exact(&bags).on_the_way.is_empty(), "1 kN allowed, 75 kg in all");
    let tight = with_bed(&bags, |bed| bed.bearings[0].allowable = Some(Force::n(380.0)));
    let looked: Vec<usize> = exact(&tight).on_the_way.iter().map(|borne| borne.step).collect();
    assert_eq!(looked, [1, 0], "490 N after step 2 come near 380 N");
}

/// Three bags of 25 kg and a strap that presses 400 N, put on after this step; a bearing near what it may carry
/// from 630 N on. After step 2 weights press 490 N, with the strap 890 N (by hand).
fn strapped_after(step: u32) -> Vec<usize> {
    let mut plan = with_bed(&crate::bench::bench(), |bed| {
        bed.bearings.iter_mut().for_each(|bearing| bearing.allowable = Some(Force::n(700.0)));
    });
    plan.fixture.bindings = vec![Binding {
        name: "over".to_owned(),
        anchors: Anchors::Article,
        at: [0.2, 0.0].map(Length::m),
        pull: Force::n(200.0),
        width: Binding::WIDTH,
        after: step,
    }];
    assert_eq!(plan::faults(&plan), []);
    exact(&plan).on_the_way.iter().map(|borne| borne.step).collect()
}

#[test]
fn a_binding_strap_presses_from_the_step_after_which_it_is_put_on() {
    assert_eq!(strapped_after(2), [1, 0], "890 N after step 2 come near 700 N");
    assert!(strapped_after(3).is_empty(), "490 N after step 2 do not");
}

/// Where nobody says what the bearings may carry, a board alone is reason enough to look.
#[test]
fn states_before_a_board_is_relieved_are_looked_at_whatever_the_bearings_may_carry() {
    let plan = with_bed(&loaded(&[(120.0, 0.5), (20.0, -0.35), (20.0, 1.35)]), |bed| {
        bed.bearings.iter_mut().for_each(|bearing| bearing.allowable = None);
    });
    let mut looked: Vec<usize> = exact(&plan).on_the_way.iter().map(|borne| borne.step).collect();
    looked.sort_unstable();
    assert!(looked.contains(&1) && looked.contains(&2), "{looked:?}");
}

/// The front rail bears 270 N to 292 N after step 2 and less than 241 N in the end, by moments as above.
#[test]
fn who_sorts_out_stacks_hears_of_the_step_before_the_end_that_is_not_borne() {
    let answer = |allowed_n: f64| assess::overloaded_on_the_way(&with_front_allowed(allowed_n), &|| true);
    assert_eq!(answer(265.0), Some(1), "after step 2, from 0");
    assert_eq!(answer(500.0), None, "borne on the whole way up");
    let relieved = loaded(&[(120.0, 0.5), (20.0, -0.35), (20.0, 1.35)]);
    assert!(
        assess::overloaded_on_the_way(&relieved, &|| true).is_some(),
        "the board bends too far under the first bag"
    );
}
