//! Every piece rests; bags lie beside one another.

use crate::bench::{added, bench, place, put, rigid, without};
use crate::given::{CLOSED, Says, Want, all_of, found};
use assess::{Amount, Ask, Check, Reach, State, Where, assess};
use plan::Plan;

#[test]
fn pieces_with_nothing_under_them_are_named() {
    let plan = bench();
    let astray = put(&plan, 2, [2.0, 0.0]);
    let both = put(&astray, 1, [-2.0, 0.0]);
    let rows: [(Plan, State, Vec<usize>, Says); 3] = [
        (plan, State::Met, vec![], &["Every piece rests"]),
        (astray, State::Fails, vec![2], &["sand bag 3 has nothing under it", "Move it over a bearing"]),
        (both, State::Fails, vec![1, 2], &["sand bag 2 and 1 more have nothing", "Move it over a bearing"]),
    ];
    for (plan, state, hanging, says) in rows {
        let value = Some(Amount::Count(hanging.len()));
        let (limit, place) = (Some(Amount::Count(0)), Where::Pieces(hanging));
        let want = Want { check: Check::EveryPieceRests, state, value, limit, place, says };
        want.meets(&found(&plan, Reach::ClosedForm, Check::EveryPieceRests), CLOSED);
    }
}

/// Two bags of 0.33 m abreast, 0.327 m apart: they overlap by 3 mm, and 5 mm count as beside.
fn abreast() -> Plan {
    let one = put(&without(&bench(), &[1, 2]), 0, [0.2, -0.165]);
    added(&one, vec![place("sand bag", 2, [0.2, 0.162])])
}

#[test]
fn bags_that_overlap_by_millimetres_lie_beside_one_another_and_it_is_said() {
    let want = Want {
        check: Check::BagsSideBySide,
        state: State::Caution,
        value: Some(Amount::Distance(0.003)),
        limit: Some(Amount::Distance(0.005)),
        place: Where::Pieces(vec![1]),
        says: &["sand bag 2 overlaps sand bag 1 by 3", "Move them apart"],
    };
    let plan = abreast();
    want.meets(&found(&plan, Reach::ClosedForm, want.check), CLOSED);
    let layers: Vec<_> = assess(&plan, Ask::closed()).closed.steps.iter().map(|step| step.layer).collect();
    assert_eq!(layers, [1, 1], "both bags lie on the tubes");
}

#[test]
fn solid_pieces_do_not_squeeze() {
    let plan = rigid(&abreast());
    let assessment = assess(&plan, Ask::closed());
    assert_eq!(all_of(&assessment.findings, Check::BagsSideBySide), []);
    let layers: Vec<_> = assessment.closed.steps.iter().map(|step| step.layer).collect();
    assert_eq!(layers, [1, 2], "the second plate lies on the first");
}

#[test]
fn bags_apart_leave_nothing_to_say() {
    let assessment = assess(&bench(), Ask::closed());
    assert_eq!(all_of(&assessment.findings, Check::BagsSideBySide), []);
}

/// A bag of 0.50 by 0.33 m may hang over by a third of its extent, 0.167 and 0.11 m: `common practice, no source`.
#[test]
fn a_bag_that_hangs_over_an_edge_by_more_than_a_third_is_named() {
    let (none, one): (&[usize], &[usize]) = (&[], &[2]);
    let rows: [([f64; 2], &[usize], f64, Says); 5] = [
        ([0.36, 0.0], none, 0.0, &[]),
        ([0.38, 0.0], one, 0.18, &["sand bag 3 hangs over", "180 mm", "fore and aft", "inward"]),
        ([0.02, 0.0], one, 0.18, &["180 mm", "fore and aft"]),
        ([0.2, 0.105], none, 0.0, &[]),
        ([0.2, -0.12], one, 0.12, &["120 mm", "across"]),
    ];
    for (place, over, by_m, says) in rows {
        let plan = put(&bench(), 2, place);
        let findings = all_of(&assess(&plan, Ask::closed()).findings, Check::OverTheEdge);
        assert_eq!(findings.len(), over.len(), "{place:?}: {findings:?}");
        for finding in &findings {
            let want = Want {
                check: Check::OverTheEdge,
                state: State::Caution,
                value: Some(Amount::Distance(by_m)),
                limit: None,
                place: Where::Pieces(over.to_vec()),
                says,
            };
            want.meets(finding, CLOSED);
        }
    }
    let stiff = rigid(&put(&bench(), 2, [0.38, 0.0]));
    assert_eq!(all_of(&assess(&stiff, Ask::closed()).findings, Check::OverTheEdge), [], "a plate does not droop");
}

/// What carries a bag may lie apart: it spans it. And all that hang over are told, the worst by name.
#[test]
fn the_bag_that_hangs_over_farthest_is_named_and_the_others_are_counted() {
    let base = without(&bench(), &[1, 2]);
    assert_eq!(all_of(&assess(&base, Ask::closed()).findings, Check::OverTheEdge), [], "it spans two rails");
    let plan = added(&base, vec![place("sand bag", 2, [0.37, 0.0]), place("sand bag", 3, [0.55, 0.0])]);
    let want = Want {
        check: Check::OverTheEdge,
        state: State::Caution,
        value: Some(Amount::Distance(0.18)),
        limit: None,
        place: Where::Pieces(vec![2, 1]),
        says: &["sand bag 3 hangs over", "one bag more"],
    };
    want.meets(&found(&plan, Reach::ClosedForm, want.check), CLOSED);
}
