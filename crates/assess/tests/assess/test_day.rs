//! What the plan of the day must have so that the day can show what it is for.

use crate::bench::bench;
use crate::given::found;
use assess::{Amount, Check, Reach, State};
use plan::{Gauge, Hold, Plan};
use quantity::Length;

/// Three bags of 25 kg, 75 kg ultimate and 50 kg limit, a gauge with an allowed set.
fn gauged() -> Plan {
    let mut plan = bench();
    let at = [0.0, 0.0, 0.0].map(Length::m);
    plan.gauges = vec![Gauge::at("pan", at, Length::m(0.0005))];
    plan.holds = vec![Hold::at("limit", 0.667), Hold::at("ultimate", 1.0)];
    plan
}

/// Source: `cfr-23-305`, 14 CFR 23.305(a).
#[test]
fn allowed_sets_without_an_unloading_after_limit_are_a_caution() {
    let mut plan = gauged();
    let finding = found(&plan, Reach::ClosedForm, Check::SetShown);
    assert_eq!(finding.state, State::Caution);
    assert!(finding.text.contains("nothing is taken off after limit load"), "{}", finding.text);
    plan.holds[0].unload = true;
    assert_eq!(found(&plan, Reach::ClosedForm, Check::SetShown).state, State::Met);
    plan.holds[0].at = 0.5;
    assert_eq!(found(&plan, Reach::ClosedForm, Check::SetShown).state, State::Caution, "half of ultimate is not limit");
    // The last hold of the day is followed by an unloading anyway.
    plan.holds = vec![Hold::at("limit", 0.667)];
    assert_eq!(found(&plan, Reach::ClosedForm, Check::SetShown).state, State::Met);
}

#[test]
fn a_piece_after_ultimate_load_fails_and_is_to_be_left_out() {
    let mut plan = gauged();
    let met = found(&plan, Reach::ClosedForm, Check::AfterUltimate);
    assert_eq!((met.state, met.value), (State::Met, Some(Amount::Count(0))));
    let case = &mut plan.load_cases[0];
    // 50 kg ultimate: the second bag reaches it.
    case.load_factor *= 2.0 / 3.0;
    let finding = found(&plan, Reach::ClosedForm, Check::AfterUltimate);
    assert_eq!((finding.state, finding.value), (State::Fails, Some(Amount::Count(1))));
    assert!(finding.text.starts_with("Ultimate load is reached after step 2; "), "{}", finding.text);
    assert!(finding.text.ends_with("step 3 would still be put on. Leave it out."), "{}", finding.text);
}

/// Nobody goes to a seat that carries ultimate load, so no strap may be planned for then.
#[test]
fn a_binding_strap_put_on_after_ultimate_load_is_a_caution_and_is_tensioned_from_outside() {
    let mut plan = bench();
    let (anchors, width, at) = (plan::Anchors::Article, plan::Binding::WIDTH, plan.stack[0].at);
    let pull = quantity::Force::n(20.0);
    // 75 kg are due; the bench's three bags of 25 kg reach them with the third.
    for (after, state) in [(3, State::Caution), (2, State::Met)] {
        plan.fixture.bindings = vec![plan::Binding { name: "lashing".to_owned(), anchors, at, pull, width, after }];
        let finding = found(&plan, Reach::ClosedForm, Check::AfterUltimate);
        assert_eq!(finding.state, state, "after {after}: {}", finding.text);
        assert_eq!(finding.text.contains("out of the fall zone"), state == State::Caution, "{}", finding.text);
    }
}
