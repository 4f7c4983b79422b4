//! A strap that holds the tail down: with the whole load W a distance e ahead of the axle and the
//! strap an arm a behind it, T = W e / a whatever its stiffness or preload, and the scales read T
//! more than what stands on them. Moments about the axle line (`own derivation`), source key
//! `worked-stacks` (`derived`).

use crate::bench::{bench, scale, tail_strap, with_fixture};
use crate::given::{CLOSED, GRAVITY, Says, Want, all_of, found, near};
use assess::{Amount, Reach, State, Where, assess};
use plan::Plan;
use quantity::{Force, Stiffness};

const AXLE_M: f64 = 1.3;
const ARM_M: f64 = 2.9;

fn strapped(preload_n: f64) -> Plan {
    with_fixture(&bench(), |fixture| {
        fixture.supports = vec![scale("left scale", [AXLE_M, -0.6, 0.0]), scale("right scale", [AXLE_M, 0.6, 0.0])];
        fixture.hold_downs = vec![tail_strap(AXLE_M + ARM_M, preload_n)];
    })
}

/// Article of 60 kg and so many bags of 25 kg, all at station 1.2 m.
fn pull_n(bags: f64) -> f64 {
    (60.0 + 25.0 * bags) * GRAVITY * (AXLE_M - 1.2) / ARM_M
}

#[test]
fn a_tail_strap_pulls_what_balance_asks_whatever_its_preload_or_stiffness() {
    for (preload_n, stiffness) in [(0.0, 6e4), (300.0, 6e4), (2000.0, 6e4), (300.0, 5e3), (300.0, 1e6)] {
        let plan = with_fixture(&strapped(preload_n), |fixture| {
            fixture.hold_downs[0].stiffness = Stiffness::n_per_m(stiffness);
        });
        let exact = assess(&plan, Reach::Full).exact.unwrap();
        for (step, bags) in [1.0, 2.0, 3.0].into_iter().enumerate() {
            let what = format!("preload {preload_n} N, {stiffness} N/m, step {}", step + 1);
            let reactions = exact.fixture[step].settled.reactions().unwrap();
            let all_n = (60.0 + 25.0 * bags) * GRAVITY;
            near(&format!("{what}: pull"), reactions.ties[0].tension_n, pull_n(bags), 1e-9 * all_n, "N");
            let over_n = reactions.reading_sum_kg() * GRAVITY - all_n;
            near(&format!("{what}: over-reading"), over_n, pull_n(bags), 2e-9 * all_n, "N");
        }
    }
}

/// With a third support under load before, the preload does count: the strap keeps more than
/// balance asks.
#[test]
fn a_preload_counts_where_a_third_support_stood_under_load() {
    let plan = with_fixture(&strapped(2000.0), |fixture| {
        fixture.supports.push(scale("tail stand", [AXLE_M + ARM_M, 0.0, 0.0]));
    });
    let exact = assess(&plan, Reach::Full).exact.unwrap();
    let pull = exact.fixture[2].settled.reactions().unwrap().ties[0].tension_n;
    let asked = pull_n(3.0) + 1000.0;
    assert!(pull > asked, "pull: got {pull} N, want more than {asked} N, difference {} N", pull - asked);
}

#[test]
fn a_strap_is_held_against_its_working_load() {
    let working = |n: f64| with_fixture(&strapped(0.0), |f| f.hold_downs[0].working_load = Force::n(n));
    let pull = pull_n(3.0);
    let rows: [(f64, State, Says); 3] = [
        (3300.0, State::Holds, &["tail", "step 3"]),
        (pull / 0.95, State::Near, &["tail", "step 3"]),
        (pull / 1.05, State::Fails, &["tail", "step 3", "Take a stronger strap"]),
    ];
    for (limit, state, says) in rows {
        let place = Where::Step { step: 2, layer: None };
        let (value, allowed) = (Some(Amount::Force(pull)), Some(Amount::Force(limit)));
        let want = Want { check: "Strap pull", state, value, limit: allowed, place, says };
        want.meets(&found(&working(limit), Reach::Full, "Strap pull"), CLOSED);
    }
}

#[test]
fn a_fixture_without_straps_has_no_line_about_them() {
    assert_eq!(all_of(&assess(&bench(), Reach::Full).findings, "Strap pull"), []);
}
