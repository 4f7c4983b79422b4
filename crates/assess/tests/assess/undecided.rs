//! What was not decided is never shown as safe.

use crate::bench::{bench, lot, put, rigid, with_ballast, with_fixture, without};
use crate::given::{all_of, found};
use assess::{Ask, Assessment, Check, Effort, Reach, State, assess, report};
use plan::Form;

/// What takes a solver.
const SOLVED: [Check; 6] = [
    Check::EveryStepStands,
    Check::CollapseReserve,
    Check::ArticleStands,
    Check::Scales,
    Check::Bearings,
    Check::ChanceToMiss,
];

#[test]
fn the_bench_is_met_in_every_check_of_the_stack_once_it_is_solved() {
    let assessment = assess(&bench(), Ask::full());
    let other: Vec<_> = assessment.findings.iter().filter(|f| f.state != State::Met).map(|f| f.check).collect();
    let want = [Check::SetDownHard, Check::CatchBlocks, Check::Lifting];
    assert_eq!(
        other, want,
        "bags of 25 kg are heavy, nothing catches them, and blows are told: {:#?}",
        assessment.findings
    );
    assert!(assessment.in_order() && !assessment.is_undecided());
}

#[test]
fn closed_forms_alone_leave_undecided_what_takes_a_solver_and_do_not_hold() {
    let assessment = assess(&bench(), Ask::closed());
    for check in SOLVED {
        for finding in all_of(&assessment.findings, check) {
            assert_eq!((finding.state, finding.value), (State::Undecided, None), "{finding:?}");
        }
        assert_eq!(all_of(&assessment.findings, check).len(), 1, "{check:?}");
    }
    assert!(assessment.is_undecided());
    assert!(!assessment.in_order(), "closed forms alone are not enough");
}

#[test]
fn boards_wait_for_the_solver_too() {
    let planked = with_ballast(&rigid(&bench()), |lots| lots[0].form = Form::Board);
    assert_eq!(found(&planked, Reach::ClosedForm, Check::Boards).state, State::Undecided);
    let more = with_ballast(&bench(), |lots| lots.push(lot("plank", Form::Board, [1.0, 0.19, 0.04], 4.0)));
    assert_eq!(all_of(&assess(&more, Ask::closed()).findings, Check::Boards), [], "no board is placed");
}

#[test]
fn the_states_have_their_words_and_what_is_undecided_falls_short() {
    let words = [
        (State::Met, "met", "met", false),
        (State::NoLimit, "no limit given", "no-limit", false),
        (State::Caution, "caution", "caution", false),
        (State::Undecided, "not decided", "undecided", true),
        (State::Fails, "fails", "fails", true),
    ];
    for (state, word, key, falls_short) in words {
        assert_eq!((state.word(), state.key()), (word, key));
        assert_eq!(state.falls_short(), falls_short, "{word}");
    }
    assert!(words.is_sorted_by_key(|row| row.0), "from good to bad");
}

#[test]
fn findings_come_worst_first() {
    let plans = [bench(), put(&bench(), 2, [0.23, 0.012]), with_fixture(&bench(), |f| f.supports.clear())];
    for plan in plans {
        for reach in [Reach::ClosedForm, Reach::Full] {
            let Assessment { findings, .. } = assess(&plan, Ask::to(reach));
            let states: Vec<_> = findings.iter().map(|f| f.state).collect();
            assert!(states.is_sorted_by(|a, b| a >= b), "{states:?}");
        }
    }
}

#[test]
fn an_empty_stack_does_not_hold() {
    let empty = without(&bench(), &[0, 1, 2]);
    for reach in [Reach::ClosedForm, Reach::Full] {
        let assessment = assess(&empty, Ask::to(reach));
        assert!(!assessment.in_order(), "{:?}", assessment.findings);
        assert!(assessment.closed.last().is_none() && assessment.closed.layers.is_empty());
    }
}

/// No steps at all: whatever has no proof by hand stays open.
const NONE: Effort = Effort { own: 0, general: 0 };

/// A demo: boards bridge its bags, and its weakest directions take a solver.
fn solved_only() -> plan::Plan {
    plan::file::read(include_str!("../../../../assets/examples/side-by-side.ron")).unwrap()
}

#[test]
fn a_solver_that_stops_short_leaves_the_check_undecided_in_findings_and_report() {
    let plan = solved_only();
    let (whole, short) = (assess(&plan, Ask::full()), assess(&plan, Ask { effort: NONE, ..Ask::full() }));
    let exact = whole.exact.as_ref().unwrap();
    assert!(exact.steps.iter().all(|step| step.stands == Some(true)), "the stack stands: {:?}", exact.steps);
    let open = short.exact.as_ref().unwrap().steps.iter().filter(|step| step.least.reserve().is_none()).count();
    let unproved = short.exact.as_ref().unwrap().steps.iter().filter(|step| step.stands.is_none()).count();
    assert!(open > 0 && unproved > 0, "{open} reserves and {unproved} steps are open without a solver");
    assert_eq!(all_of(&short.findings, Check::EveryStepStands)[0].state, State::Undecided);
    let reserve = all_of(&short.findings, Check::CollapseReserve).remove(0);
    assert_eq!((reserve.state, reserve.value), (State::Undecided, None), "{reserve:?}");
    assert!(reserve.text.contains("was not decided; count it as none"), "{}", reserve.text);
    assert!(!short.in_order(), "what is not decided does not hold");

    let told: serde_json::Value = serde_json::from_str(&report(&plan, &short)).unwrap();
    assert_eq!(told["in_order"], false);
    let fails = |f: &&serde_json::Value| f["check"] == Check::CollapseReserve.heading() && f["state"] == "undecided";
    assert_eq!(told["findings"].as_array().unwrap().iter().filter(fails).count(), 1, "{told:#}");
    let multipliers = told["steps"].as_array().unwrap().iter().filter(|step| step["collapse"]["multiplier"].is_null());
    assert_eq!(multipliers.count(), open, "every undecided reserve is null in the report");
    let stands = told["steps"].as_array().unwrap().iter().filter(|step| step["stands"].is_null());
    assert_eq!(stands.count(), unproved, "every undecided step is null in the report");
}
