//! Applied load, direction of the load, weighed pieces.

use crate::bench::{all, bench, degrees, with_article, with_ballast, with_case, without};
use crate::given::{CLOSED, Says, Want, all_of, found, near};
use assess::{Amount, Reach, State, Where, assess};
use plan::Plan;
use quantity::{Mass, Quantity};

/// Source key `load-case-arithmetic` (`derived`): 12.5 kg x 4.0 x 1.5 = 75 kg, three bags of 25 kg.
#[test]
fn applied_load_is_held_against_occupant_times_factors() {
    let plan = bench();
    let unweighed = with_ballast(&plan, |lots| lots[0].weighed.clear());
    let rows: [(Plan, State, f64, f64, Says); 6] = [
        (plan.clone(), State::Holds, 75.0, 75.0, &["75", "ultimate"]),
        // Tolerances of 0.5 kg in quadrature reach below: 75 - 0.87 kg.
        (unweighed, State::Near, 75.0, 75.0, &["tolerance", "Weigh the pieces"]),
        // 75 of 70.5 kg is 6 % more than is due.
        (with_case(&plan, |case| case.occupant_mass = Mass::kg(11.75)), State::Near, 75.0, 70.5, &["Take pieces off"]),
        // 75 of 59.4 kg is 26 % more.
        (
            with_case(&plan, |case| case.occupant_mass = Mass::kg(9.9)),
            State::Fails,
            75.0,
            59.4,
            &["126 %", "may be spent", "Take pieces off"],
        ),
        (without(&plan, &[2]), State::Fails, 50.0, 75.0, &["25", "lacking", "Place more ballast"]),
        (without(&plan, &all(&plan)), State::Fails, 0.0, 75.0, &["75", "lacking", "Place more ballast"]),
    ];
    for (plan, state, applied, due, says) in rows {
        let (value, limit) = (Some(Amount::Mass(applied)), Some(Amount::Mass(due)));
        let want = Want { check: "Applied load", state, value, limit, place: Where::Stack, says };
        want.meets(&found(&plan, Reach::ClosedForm, "Applied load"), CLOSED);
    }
}

/// A special factor multiplies once more. Source key `load-case-arithmetic` (`derived`): 12.5 kg x 4.0 x 1.5 x 1.15.
#[test]
fn special_factors_raise_the_ultimate_load_and_not_the_limit_load() {
    let plan = with_case(&bench(), |case| case.special_factor = 1.15);
    let load = assess(&plan, Reach::ClosedForm).load.unwrap();
    near("limit", load.limit.as_mass().si(), 50.0, CLOSED, "kg");
    near("ultimate", load.ultimate.as_mass().si(), 86.25, CLOSED, "kg");
}

/// Tolerances are two standard deviations of independent masses: they add in quadrature
/// (`common practice, no source`).
#[test]
fn tolerances_of_unweighed_pieces_add_in_quadrature() {
    let plan = with_ballast(&bench(), |lots| lots[0].weighed.retain(|item, _| *item != 2));
    near("one", assess(&plan, Reach::ClosedForm).applied_spread_kg, 0.5, CLOSED, "kg");
    let plan = with_ballast(&bench(), |lots| lots[0].weighed.clear());
    near("three", assess(&plan, Reach::ClosedForm).applied_spread_kg, 0.5 * 3.0_f64.sqrt(), CLOSED, "kg");
}

#[test]
fn pieces_that_were_not_weighed_are_named_with_what_they_cost() {
    let plan = bench();
    let want = Want {
        check: "Pieces weighed",
        state: State::Holds,
        value: Some(Amount::Count(0)),
        limit: Some(Amount::Count(0)),
        place: Where::Pieces(vec![]),
        says: &["Every placed piece was weighed"],
    };
    want.meets(&found(&plan, Reach::ClosedForm, "Pieces weighed"), CLOSED);
    let some = with_ballast(&plan, |lots| lots[0].weighed.retain(|item, _| *item == 2));
    let want = Want {
        state: State::Near,
        value: Some(Amount::Count(2)),
        place: Where::Pieces(vec![0, 2]),
        says: &["2 of 3", "kg", "Weigh them"],
        ..want
    };
    want.meets(&found(&some, Reach::ClosedForm, "Pieces weighed"), CLOSED);
}

/// Nose-up by p, gravity leans aft by p in the article (frames of the program: right-handed about
/// +y), so a load that leans forward by d wants a pitch of -d.
#[test]
fn the_pitch_must_bring_gravity_along_the_load() {
    let plan = bench();
    let pitched = |by: f64| with_article(&plan, |article| article.pitch = degrees(by));
    let leaning = |plan: &Plan, by: f64| with_case(plan, |case| case.direction = degrees(by));
    let rows: [(Plan, State, f64, f64, Says); 6] = [
        (plan.clone(), State::Holds, 0.0, 0.0, &["pitched"]),
        (pitched(0.9), State::Holds, 0.9, 0.0, &["pitched"]),
        (pitched(-2.0), State::Near, -2.0, 0.0, &["2", "Pitch the article"]),
        (pitched(6.0), State::Fails, 6.0, 0.0, &["6", "Pitch the article"]),
        (leaning(&pitched(-10.0), 10.0), State::Holds, -10.0, -10.0, &["pitched"]),
        (leaning(&pitched(10.0), 10.0), State::Fails, 10.0, -10.0, &["Pitch the article"]),
    ];
    for (plan, state, is, due, says) in rows {
        let angle = |by: f64| Some(Amount::Angle(by.to_radians()));
        let want =
            Want { check: "Load direction", state, value: angle(is), limit: angle(due), place: Where::LoadCase, says };
        want.meets(&found(&plan, Reach::ClosedForm, "Load direction"), CLOSED);
    }
}

/// Source key `cfr-23-303`: the factor of safety is 1.5. Another one is told, and the load does not cite the rule.
#[test]
fn a_factor_of_safety_that_is_not_the_rules_is_near_and_the_load_cites_no_rule() {
    let (of_rule, own) = (Some("source key `cfr-23-303`"), Some("the plan's `load_case`"));
    let cites = |plan: &Plan| Some(found(plan, Reach::ClosedForm, "Applied load").source);
    assert_eq!(cites(&bench()), of_rule);
    assert_eq!(all_of(&assess(&bench(), Reach::ClosedForm).findings, "Factor of safety"), []);
    for (factor, says) in [(0.8, "less than limit load"), (1.2, "less is proved"), (2.0, "tried harder")] {
        let plan = with_case(&bench(), |case| case.safety_factor = factor);
        let finding = found(&plan, Reach::ClosedForm, "Factor of safety");
        assert_eq!(finding.state, State::Near, "{}", finding.text);
        assert!(finding.text.contains(says) && finding.text.contains("1.5"), "{factor}: {}", finding.text);
        assert_eq!(cites(&plan), own, "{factor}");
    }
}
