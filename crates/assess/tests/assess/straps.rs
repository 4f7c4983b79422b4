//! A hold-down strap behind two supports: with the whole load W a distance e ahead of their line and the
//! strap an arm a behind it, T = W e / a whatever its stiffness or preload, and the scales read T
//! more than what stands on them. Moments about the line of supports (`own derivation`), source key
//! `worked-stacks` (`derived`).

use crate::bench::{asking, at, bench, hold_down, scale, with_fixture};
use crate::given::{CLOSED, CONE, GRAVITY, Says, Want, all_of, found, near};
use assess::{Amount, Ask, Check, Reach, State, Where, assess};
use plan::Plan;
use quantity::{Force, Length, Stiffness};

const LINE_M: f64 = 1.3;
const ARM_M: f64 = 2.9;

fn strapped(preload_n: f64) -> Plan {
    with_fixture(&bench(), |fixture| {
        fixture.supports =
            vec![scale("left front scale", [LINE_M, -0.6, 0.0]), scale("right front scale", [LINE_M, 0.6, 0.0])];
        fixture.hold_downs = vec![hold_down(LINE_M + ARM_M, preload_n)];
    })
}

/// Article of 60 kg and so many bags of 25 kg, all at station 1.2 m.
fn pull_n(bags: f64) -> f64 {
    (60.0 + 25.0 * bags) * GRAVITY * (LINE_M - 1.2) / ARM_M
}

#[test]
fn a_hold_down_pulls_what_balance_asks_whatever_its_preload_or_stiffness() {
    for (preload_n, stiffness) in [(0.0, 6e4), (300.0, 6e4), (2000.0, 6e4), (300.0, 5e3), (300.0, 1e6)] {
        let plan = with_fixture(&strapped(preload_n), |fixture| {
            fixture.hold_downs[0].stiffness = Stiffness::n_per_m(stiffness);
        });
        let exact = assess(&plan, Ask::full()).exact.unwrap();
        for (step, bags) in [1.0, 2.0, 3.0].into_iter().enumerate() {
            let what = format!("preload {preload_n} N, {stiffness} N/m, step {}", step + 1);
            let reactions = exact.fixture[step].settled.reactions().unwrap();
            let all_n = (60.0 + 25.0 * bags) * GRAVITY;
            near(&format!("{what}: pull"), reactions.ties[0].tension_n, pull_n(bags), 1e-9 * all_n, "N");
            let sum_kg = reactions.supports.iter().map(|support| support.reading_kg).sum::<f64>();
            let over_n = sum_kg * GRAVITY - all_n;
            near(&format!("{what}: over-reading"), over_n, pull_n(bags), 2e-9 * all_n, "N");
        }
    }
}

/// With a third support under load before, the preload does count: the strap keeps more than
/// balance asks.
#[test]
fn a_preload_counts_where_a_third_support_stood_under_load() {
    let plan = with_fixture(&strapped(2000.0), |fixture| {
        fixture.supports.push(scale("rear stand", [LINE_M + ARM_M, 0.0, 0.0]));
    });
    let exact = assess(&plan, Ask::full()).exact.unwrap();
    let pull = exact.fixture[2].settled.reactions().unwrap().ties[0].tension_n;
    let asked = pull_n(3.0) + 1000.0;
    assert!(pull > asked, "pull: got {pull} N, want more than {asked} N, difference {} N", pull - asked);
}

#[test]
fn a_strap_is_held_against_its_working_load() {
    let working = |n: f64| with_fixture(&strapped(0.0), |f| f.hold_downs[0].working_load = Force::n(n));
    let pull = pull_n(3.0);
    let rows: [(f64, State, Says); 3] = [
        (2500.0, State::Met, &["hold-down", "step 3"]),
        (pull / 0.95, State::Caution, &["hold-down", "step 3"]),
        (pull / 1.05, State::Fails, &["hold-down", "step 3", "Take a stronger strap"]),
    ];
    for (limit, state, says) in rows {
        let place = Where::Step { step: 2, layer: None };
        let (value, allowed) = (Some(Amount::Force(pull)), Some(Amount::Force(limit)));
        let want = Want { check: Check::StrapPull, state, value, limit: allowed, place, says };
        want.meets(&found(&working(limit), Reach::Full, Check::StrapPull), CLOSED);
    }
}

/// The way out of a strap's overload, in the article's own words: which way, and how far from the support.
/// The bench's stack acts at station 1.2 m, its occupant point; the supports stand at 1.3 m, the strap behind
/// them at 4.2 m. `own derivation`: differences of stations.
#[test]
fn a_strap_that_pulls_too_much_tells_which_way_the_stack_goes_and_how_far_from_the_support() {
    let weak = |plan: &Plan| with_fixture(plan, |fixture| fixture.hold_downs[0].working_load = Force::n(20.0));
    let stack = crate::bench::all(&strapped(0.0));
    let moved = |plan: &Plan, by_m: [f64; 2]| crate::bench::moved(plan, &stack, by_m);
    let abreast = with_fixture(&strapped(0.0), |fixture| {
        fixture.supports = vec![scale("front scale", [0.9, 0.2, 0.0]), scale("rear scale", [1.5, 0.2, 0.0])];
        let strap = &mut fixture.hold_downs[0];
        (strap.on_article, strap.on_floor) = (at([1.2, 0.7, 0.45]), at([1.2, 0.7, 0.0]));
    });
    let rows: [(Plan, &str); 4] = [
        (
            strapped(0.0),
            "or set the supports further forward: a stack nearer to the strap would be off the occupant point. The line of action is 100 mm forward of left front scale, its nearest support.",
        ),
        (
            moved(&strapped(0.0), [-0.040, 0.0]),
            "or move the stack 40 mm aft, over the occupant point. The line of action is 140 mm forward of left front scale, its nearest support.",
        ),
        (moved(&strapped(0.0), [0.040, 0.0]), "or set the supports further forward: a stack nearer"),
        (
            moved(&abreast, [0.0, -0.025]),
            "or move the stack 25 mm right, over the occupant point. The line of action is 225 mm left of front scale, its nearest support.",
        ),
    ];
    for (plan, says) in rows {
        let told = found(&weak(&plan), Reach::Full, Check::StrapPull);
        assert_eq!(told.state, State::Fails, "{told:?}");
        assert!(told.text.contains(says), "{}", told.text);
    }
}

/// A strap beside the rear scale, as stiff as it: two springs at station 2.0 m, 1.4 m behind the front
/// scales. Balance: scale N = 3/7 W + T, with everything at station 1.2 m. Springs: N = k u, T = T0 - k u.
/// So T = T0/2 - 3/14 W: the load slackens it, and it pulls most on the bare article. `own derivation`.
#[test]
fn the_pull_before_the_first_piece_counts_too() {
    let plan = with_fixture(&bench(), |fixture| {
        fixture.supports.iter_mut().for_each(|support| support.stiffness = Some(Stiffness::n_per_m(2e6)));
        let strap = hold_down(2.0, 2000.0);
        fixture.hold_downs =
            vec![plan::HoldDown { stiffness: Stiffness::n_per_m(2e6), working_load: Force::n(850.0), ..strap }];
    });
    let pull_n = |mass_kg: f64| 1000.0 - 3.0 / 14.0 * mass_kg * GRAVITY;
    let exact = assess(&plan, Ask::full()).exact.unwrap();
    let loaded_n = exact.fixture[2].settled.reactions().unwrap().ties[0].tension_n;
    near("after the last step", loaded_n, pull_n(135.0), 1e-6, "N");
    let (value, limit) = (Some(Amount::Force(pull_n(60.0))), Some(Amount::Force(850.0)));
    let says = &["before the first piece", "tension it less"];
    let want = Want { check: Check::StrapPull, state: State::Fails, value, limit, place: Where::Fixture, says };
    want.meets(&found(&plan, Reach::Full, Check::StrapPull), CLOSED);
}

/// The same two springs, the strap drawn by gauge to 500 N once the article stood: T0/2 - 3/14 x 60 kg = 500 N, so
/// that with bags T = 500 N - 3/14 of their weight; drawn to 500 N before, it keeps 250 N less 3/14 of all.
/// `own derivation`.
#[test]
fn a_preload_set_after_settling_is_what_the_bare_article_shows() {
    let drawn = |preload_set| {
        with_fixture(&bench(), |fixture| {
            fixture.supports.iter_mut().for_each(|support| support.stiffness = Some(Stiffness::n_per_m(2e6)));
            let strap = plan::HoldDown { stiffness: Stiffness::n_per_m(2e6), ..hold_down(2.0, 500.0) };
            fixture.hold_downs = vec![plan::HoldDown { preload_set, ..strap }];
        })
    };
    let slackened_n = |mass_kg: f64| 3.0 / 14.0 * mass_kg * GRAVITY;
    for (set, at_tare_n) in [(plan::PreloadSet::After, 500.0), (plan::PreloadSet::Before, 250.0 - slackened_n(60.0))] {
        let exact = assess(&drawn(set), Ask::full()).exact.unwrap();
        let tare_n = exact.tare.settled.reactions().unwrap().ties[0].tension_n;
        near(&format!("{set:?}: tare"), tare_n, at_tare_n, 1e-6, "N");
        let expected = exact.expected[0].as_ref().unwrap();
        near(&format!("{set:?}: expected on the gauge"), expected.straps_n[0], at_tare_n, 1e-6, "N");
        let loaded_n = exact.fixture[2].settled.reactions().unwrap().ties[0].tension_n;
        near(&format!("{set:?}: loaded"), loaded_n, (at_tare_n - slackened_n(75.0)).max(0.0), 1e-6, "N");
    }
}

/// Two scales on one line and a strap behind: statics fixes its pull, however and whenever it is drawn.
#[test]
fn no_setting_after_changes_a_pull_that_statics_fixes() {
    let after = with_fixture(&strapped(150.0), |fixture| {
        fixture.hold_downs[0].preload_set = plan::PreloadSet::After;
    });
    let exact = assess(&after, Ask::full()).exact.unwrap();
    near("tare", exact.tare.settled.reactions().unwrap().ties[0].tension_n, pull_n(0.0), 1e-6, "N");
}

/// The bench on two front scales 0.1 m apart with a slack strap under its plumb line. A push to a side turns
/// it about the line from one of them to the rear scale, `arm_m` beside the plumb line: with all 135 kg and
/// the strap's pull against it, and 75 kg pushed 0.665 m up. `own derivation`.
fn side_push(pull_n: f64) -> f64 {
    let arm_m = 0.8 * 0.05 / 1.4_f64.hypot(0.05);
    (135.0 * GRAVITY + pull_n) * arm_m / (75.0 * GRAVITY * 0.665)
}

/// Of 20 kN working load and so many N/m, slack; the plan asks for this push.
fn slack(stiffness: f64, asked: f64) -> Plan {
    with_fixture(&asking(&bench(), 0.1, asked), |fixture| {
        fixture.supports[0].at[1] = Length::m(-0.05);
        fixture.supports[1].at[1] = Length::m(0.05);
        let strap = hold_down(1.2, 0.0);
        fixture.hold_downs =
            vec![plan::HoldDown { stiffness: Stiffness::n_per_m(stiffness), working_load: Force::n(20e3), ..strap }];
    })
}

/// A soft strap pulls stiffness times stretch, long before its working load.
#[test]
fn a_push_that_a_strap_holds_only_after_metres_of_stretch_is_not_told_as_held() {
    near("held by 60 mm of 5 N/mm", side_push(5e3 * 0.06), 0.0948, 1e-4, "of the stack's weight");
    let rows: [(f64, f64, State, Says); 4] = [
        (5e3, 0.10, State::Caution, &["4000 mm", "no more than 60 mm", "a push of 0.09"]),
        (5e3, 0.14, State::Caution, &["4000 mm", "a push of 0.09"]),
        (5e3, 0.20, State::Fails, &["4000 mm", "no more than 250 mm a push of 0.15", "Tension the straps more"]),
        (1e3, 0.10, State::Fails, &["20000 mm", "a push of 0.09"]),
    ];
    for (stiffness, asked, state, says) in rows {
        let findings = assess(&slack(stiffness, asked), Ask::full()).findings;
        let full = all_of(&findings, Check::Footprint).remove(0);
        assert_eq!(full.state, State::Met, "up to the working load it is borne: {full:?}");
        near("up to the working load", full.value.unwrap().si(), side_push(20e3), CONE, "of the stack's weight");
        // The limit holds of a strap stretched by a quarter of a metre.
        let value = Some(Amount::OfWeight(side_push(stiffness * 0.25)));
        let (limit, place) = (Some(Amount::OfWeight(asked)), Where::Fixture);
        let told = all_of(&findings, Check::StrapStretch).remove(0);
        Want { check: Check::StrapStretch, state, value, limit, place, says }.meets(&told, 1e-2);
    }
}

/// 500 N/mm reach 20 kN within 40 mm.
#[test]
fn a_stiff_strap_counts_up_to_its_working_load_without_a_word() {
    let findings = assess(&slack(5e5, 0.10), Ask::full()).findings;
    assert_eq!(all_of(&findings, Check::Footprint)[0].state, State::Met);
    assert_eq!(all_of(&findings, Check::StrapStretch), []);
}

#[test]
fn a_fixture_without_straps_has_no_line_about_them() {
    assert_eq!(all_of(&assess(&bench(), Ask::full()).findings, Check::StrapPull), []);
}

/// A strap ten times as stiff as the rear scale beside it pulls that down as it is drawn: of each newton of drawing an
/// eleventh stays, 1 / (1 + 10). It is drawn all the same until the gauge shows what the plan says. `own derivation`.
#[test]
fn a_strap_that_pulls_its_own_support_down_is_drawn_until_the_gauge_shows_its_preload() {
    let plan = with_fixture(&bench(), |fixture| {
        fixture.supports.iter_mut().for_each(|support| support.stiffness = Some(Stiffness::n_per_m(2e5)));
        let strap = plan::HoldDown { stiffness: Stiffness::n_per_m(2e6), ..hold_down(2.0, 500.0) };
        fixture.hold_downs = vec![plan::HoldDown { preload_set: plan::PreloadSet::After, ..strap }];
    });
    let exact = assess(&plan, Ask::full()).exact.unwrap();
    near("tare", exact.tare.settled.reactions().unwrap().ties[0].tension_n, 500.0, 1e-6, "N");
}
