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
