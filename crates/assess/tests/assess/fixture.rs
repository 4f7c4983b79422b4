//! The fixture under article and stack: footprint, lift-off, scales.

use crate::bench::{asking, bench, hold_down, scale, with_article, with_fixture, without};
use crate::given::{CLOSED, CONE, Says, Want, all_of, found, near};
use assess::{Amount, Ask, Check, Reach, State, Where, assess};
use plan::Plan;
use quantity::{Length, Mass};

/// Distance of station 1.2 m from the slanting side of the triangle (0.6, 0.6), (2.0, 0):
/// 0.8 x 0.6 / sqrt(1.4^2 + 0.6^2).
fn edge_m() -> f64 {
    0.8 * 0.6 / 1.4_f64.hypot(0.6)
}

/// W d / (W_stack h): all 135 kg, of which the stack is 75 kg with its centroid 0.665 m up.
fn push() -> f64 {
    135.0 / 75.0 * edge_m() / 0.665
}

/// One rigid body over its edge. Source key `rigid-block-statics` (`memory`).
#[test]
fn the_footprint_bears_a_push_of_the_whole_weight_over_the_height_of_the_stack() {
    near("the push by hand", push(), 0.852_998, 1e-6, "of the stack's weight");
    let asked = |asked: f64| asking(&bench(), 0.1, asked);
    let rows: [(Plan, State, f64, Says); 3] = [
        (asked(0.10), State::Met, 0.10, &["step 3", "315", "inside the footprint", "0.85"]),
        (asked(0.80), State::Caution, 0.80, &["step 3", "0.85", "0.80"]),
        (asked(0.90), State::Fails, 0.90, &["step 3", "0.85", "Set the supports wider"]),
    ];
    for (plan, state, limit, says) in rows {
        for (reach, tolerance) in [(Reach::ClosedForm, CLOSED), (Reach::Full, CONE)] {
            let (value, limit) = (Some(Amount::OfWeight(push())), Some(Amount::OfWeight(limit)));
            let place = Where::Step { step: 2, layer: None };
            let told = found(&plan, reach, Check::Footprint);
            assert!(!told.text.contains("working load"), "the bench has no strap: {}", told.text);
            Want { check: Check::Footprint, state, value, limit, place, says }.meets(&told, tolerance);
        }
    }
}

#[test]
fn each_step_has_its_distance_from_the_footprints_edge() {
    for (k, step) in assess(&bench(), Ask::closed()).closed.steps.iter().enumerate() {
        near(&format!("edge after step {}", k + 1), step.fixture.edge_m.unwrap(), edge_m(), CLOSED, "m");
    }
}

fn nobody(plan: &Plan) -> Plan {
    with_fixture(plan, |fixture| fixture.supports.clear())
}

/// All supports ahead of the plumb line.
pub(crate) fn ahead(plan: &Plan) -> Plan {
    with_fixture(plan, |fixture| fixture.supports[2] = scale("nose scale", [0.3, 0.0, 0.0]))
}

#[test]
fn a_plumb_line_outside_the_footprint_falls_and_says_so() {
    for reach in [Reach::ClosedForm, Reach::Full] {
        let outside = found(&ahead(&bench()), reach, Check::Footprint);
        assert_eq!(outside.state, State::Fails, "{outside:?}");
        assert!(outside.text.contains("outside the footprint"), "{}", outside.text);
        assert!(outside.text.contains("Set supports further out"), "{}", outside.text);
        let none = found(&nobody(&bench()), reach, Check::Footprint);
        assert_eq!(none.state, State::Fails, "{none:?}");
        assert_eq!(none.value, None, "{none:?}");
    }
    let none = found(&nobody(&bench()), Reach::ClosedForm, Check::Footprint);
    assert!(none.text.contains("Add them on the Fixture page"), "{}", none.text);
}

/// Two scales on a line behind the plumb line, a strap behind them.
fn strapped() -> Plan {
    with_fixture(&bench(), |fixture| {
        fixture.supports =
            vec![scale("left front scale", [1.3, -0.6, 0.0]), scale("right front scale", [1.3, 0.6, 0.0])];
        fixture.hold_downs = vec![hold_down(4.2, 300.0)];
    })
}

#[test]
fn where_only_straps_hold_the_footprint_is_undecided_until_it_is_solved() {
    let waits = found(&strapped(), Reach::ClosedForm, Check::Footprint);
    assert_eq!(waits.state, State::Undecided, "{waits:?}");
    assert!(waits.text.contains("only the straps"), "{}", waits.text);
    let solved = found(&strapped(), Reach::Full, Check::Footprint);
    assert_eq!(solved.state, State::Met, "{solved:?}");
}

/// Three legs carry by moments alone. Stack and article at station 1.2 m between 0.6 and 2.0 m: the
/// rear carries 3/7 of 135 kg. Source key `rigid-block-statics` (`memory`).
#[test]
fn the_most_loaded_scale_is_held_against_its_capacity() {
    let rear_kg = 135.0 * 0.6 / 1.4;
    let rear = |kg: f64| with_fixture(&bench(), |fixture| fixture.supports[2].capacity = Some(Mass::kg(kg)));
    let rows: [(Plan, State, f64, Says); 3] = [
        (bench(), State::Met, 300.0, &["rear scale", "step 3", "57.9"]),
        (rear(60.0), State::Caution, 60.0, &["rear scale", "57.9"]),
        (rear(50.0), State::Fails, 50.0, &["rear scale", "57.9", "Take a stronger scale"]),
    ];
    for (plan, state, capacity, says) in rows {
        let (value, limit) = (Some(Amount::Mass(rear_kg)), Some(Amount::Mass(capacity)));
        let place = Where::Step { step: 2, layer: None };
        let want = Want { check: Check::Scales, state, value, limit, place, says };
        want.meets(&found(&plan, Reach::Full, Check::Scales), CLOSED);
    }
}

#[test]
fn scales_without_a_capacity_are_undecided_and_supports_that_are_no_scales_have_no_limit() {
    let plan = with_fixture(&bench(), |fixture| fixture.supports.iter_mut().for_each(|s| s.capacity = None));
    let (value, limit, place) = (None, None, Where::Fixture);
    let says = &["left front scale, right front scale, rear scale have no capacity", "not known", "Fixture page"];
    let want = Want { check: Check::Scales, state: State::Undecided, value, limit, place, says };
    want.meets(&found(&plan, Reach::Full, Check::Scales), CLOSED);
    assert!(!assess(&plan, Ask::full()).in_order(), "what is not known falls short");
    let blocks = with_fixture(&plan, |fixture| fixture.supports.iter_mut().for_each(|s| s.scale = false));
    assert_eq!(found(&blocks, Reach::Full, Check::Scales).state, State::NoLimit);
    let one = with_fixture(&bench(), |fixture| fixture.supports[1].capacity = None);
    let states: Vec<_> = all_of(&assess(&one, Ask::full()).findings, Check::Scales).iter().map(|f| f.state).collect();
    assert_eq!(states, [State::Undecided, State::Met], "one of three without");
}

/// A stand behind from which the load ahead of the two scales lifts the article, with a strap
/// beside it.
fn lifting() -> Plan {
    with_fixture(&strapped(), |fixture| {
        fixture.supports.push(scale("rear stand", [3.0, 0.0, 0.0]));
        fixture.hold_downs[0] = hold_down(4.2, 0.0);
    })
}

#[test]
fn an_article_that_lifts_or_goes_over_is_told_from_one_that_stands() {
    let at = |step: usize| Where::Step { step, layer: None };
    let rows: [(Plan, State, Where, Says); 4] = [
        (bench(), State::Met, at(2), &["the article alone", "after every step", "every support stays loaded"]),
        (lifting(), State::Fails, Where::Fixture, &["Before the first piece", "lifts off"]),
        (
            ahead(&bench()),
            State::Fails,
            Where::Fixture,
            &["Before the first piece", "tips over", "Set supports further out"],
        ),
        (nobody(&bench()), State::Fails, Where::Fixture, &["no supports", "Add them on the Fixture page"]),
    ];
    for (plan, state, place, says) in rows {
        let want = Want { check: Check::ArticleStands, state, value: None, limit: None, place, says };
        want.meets(&found(&plan, Reach::Full, Check::ArticleStands), CLOSED);
    }
}

/// The bench's article alone with its centroid at this station: 0.6 m is the line of the two front scales.
fn bare_at(x_m: f64) -> Plan {
    with_article(&bench(), |article| article.centroid[0] = Length::m(x_m))
}

/// 60 kg ahead of the scales' line by 0.1 m go over, though 135 kg with the stack at 1.2 m lie behind it by
/// (75 x 0.6 - 60 x 0.1) / 135 = 0.289 m. Moments by hand, source key `rigid-block-statics` (`memory`).
#[test]
fn an_article_that_goes_over_by_itself_is_told_though_the_stack_would_hold_it_down() {
    let plan = bare_at(0.5);
    let loaded_m = assess(&plan, Ask::closed()).closed.steps[2].fixture.edge_m.unwrap();
    near("edge with the stack", loaded_m, (75.0 * 0.6 - 60.0 * 0.1) / 135.0, CLOSED, "m");
    for reach in [Reach::ClosedForm, Reach::Full] {
        let told = found(&plan, reach, Check::BareArticle);
        assert_eq!((told.state, &told.place), (State::Fails, &Where::Fixture), "{told:?}");
        assert!(told.text.contains("Before the first piece, and again when the last is off"), "{}", told.text);
        assert!(told.text.contains("100 mm outside"), "{}", told.text);
    }
    let stands = found(&plan, Reach::Full, Check::ArticleStands);
    assert_eq!((stands.state, &stands.place), (State::Fails, &Where::Fixture), "{stands:?}");
    let scales = found(&plan, Reach::Full, Check::Scales);
    assert_eq!(scales.state, State::Undecided, "{scales:?}");
}

/// W d / (W h) of the article alone: 0.02 m inside at 0.5 m height is 0.04 of its weight.
#[test]
fn an_article_that_a_small_push_turns_over_by_itself_fails() {
    let plan = bare_at(0.62);
    for (reach, tolerance) in [(Reach::ClosedForm, CLOSED), (Reach::Full, CONE)] {
        let told = found(&plan, reach, Check::BareArticle);
        assert_eq!(told.state, State::Fails, "{told:?}");
        near("its push", told.value.unwrap().si(), 0.02 / 0.5, tolerance, "of its own weight");
    }
    assert_eq!(found(&bench(), Reach::Full, Check::BareArticle).state, State::Met);
}

#[test]
fn a_plan_without_pieces_asks_nothing_of_the_fixture() {
    let empty = without(&bench(), &[0, 1, 2]);
    for reach in [Reach::ClosedForm, Reach::Full] {
        let checks: Vec<_> = assess(&empty, Ask::to(reach)).findings.iter().map(|f| f.check).collect();
        for check in [Check::Footprint, Check::BareArticle, Check::StrapStretch, Check::Scales, Check::ArticleStands] {
            assert!(!checks.contains(&check), "{check:?} in {checks:?}");
        }
    }
}
