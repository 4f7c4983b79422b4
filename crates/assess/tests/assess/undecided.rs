//! What was not decided is never shown as safe.

use crate::bench::{bench, lot, put, with_ballast, with_fixture, without};
use crate::given::{all_of, found};
use assess::{Assessment, Effort, Reach, State, assess, decided, decided_within, report};
use plan::Form;

/// What takes a solver, by the names of the checks.
const SOLVED: [&str; 6] =
    ["Every step stands", "Collapse reserve", "Article stands", "Scales", "Bearings", "Chance to miss"];

#[test]
fn the_bench_holds_in_every_check_once_it_is_solved() {
    let assessment = assess(&bench(), Reach::Full);
    let short: Vec<_> = assessment.findings.iter().filter(|f| f.state != State::Holds).collect();
    assert!(short.is_empty(), "{short:#?}");
    assert!(assessment.holds() && !assessment.is_undecided());
}

#[test]
fn closed_forms_alone_leave_undecided_what_takes_a_solver_and_do_not_hold() {
    let assessment = assess(&bench(), Reach::ClosedForm);
    for check in SOLVED {
        for finding in all_of(&assessment.findings, check) {
            assert_eq!((finding.state, finding.value), (State::Undecided, None), "{finding:?}");
        }
        assert_eq!(all_of(&assessment.findings, check).len(), 1, "{check}");
    }
    assert!(assessment.is_undecided());
    assert!(!assessment.holds(), "closed forms alone are not enough");
}

#[test]
fn boards_wait_for_the_solver_too() {
    let planked = with_ballast(&bench(), |lots| lots[0].form = Form::Board);
    assert_eq!(found(&planked, Reach::ClosedForm, "Boards").state, State::Undecided);
    let more = with_ballast(&bench(), |lots| lots.push(lot("plank", Form::Board, [1.0, 0.19, 0.04], 4.0)));
    assert_eq!(all_of(&assess(&more, Reach::ClosedForm).findings, "Boards"), [], "no board is placed");
}

#[test]
fn an_undecided_check_reads_fails_in_the_report_and_not_decided_elsewhere() {
    assert_eq!(State::Undecided.word_in_report(), "fails");
    assert_eq!(State::Undecided.word(), "not decided");
    assert!(!State::Undecided.is_in_order());
}

#[test]
fn findings_come_worst_first() {
    let plans = [bench(), put(&bench(), 2, [0.23, 0.012]), with_fixture(&bench(), |f| f.supports.clear())];
    for plan in plans {
        for reach in [Reach::ClosedForm, Reach::Full] {
            let Assessment { findings, .. } = assess(&plan, reach);
            let states: Vec<_> = findings.iter().map(|f| f.state).collect();
            assert!(states.is_sorted_by(|a, b| a >= b), "{states:?}");
        }
    }
}

#[test]
fn an_empty_stack_does_not_hold() {
    let empty = without(&bench(), &[0, 1, 2]);
    for reach in [Reach::ClosedForm, Reach::Full] {
        let assessment = assess(&empty, reach);
        assert!(!assessment.holds(), "{:?}", assessment.findings);
        assert!(assessment.last().is_none() && assessment.layers.is_empty());
    }
}

/// No steps at all: whatever has no proof by hand stays open.
const NONE: Effort = Effort { own: 0, general: 0 };

/// A demo: boards bridge its bags, and its weakest directions take a solver.
fn solved_only() -> plan::Plan {
    plan::file::read(include_str!("../../../../assets/examples/side-by-side.ron")).unwrap()
}

#[test]
fn a_solver_that_stops_short_fails_the_check_in_findings_and_report() {
    let plan = solved_only();
    let (whole, short) = (decided(&plan, &|_| true).unwrap(), decided_within(&plan, NONE, &|_| true).unwrap());
    let exact = whole.exact.as_ref().unwrap();
    assert!(exact.steps.iter().all(|step| step.stands == Some(true)), "the stack stands: {:?}", exact.steps);
    let open = short.exact.as_ref().unwrap().steps.iter().filter(|step| step.least.reserve().is_none()).count();
    let unproved = short.exact.as_ref().unwrap().steps.iter().filter(|step| step.stands.is_none()).count();
    assert!(open > 0 && unproved > 0, "{open} reserves and {unproved} steps are open without a solver");
    assert_eq!(all_of(&short.findings, "Every step stands")[0].state, State::Undecided);
    let reserve = all_of(&short.findings, "Collapse reserve").remove(0);
    assert_eq!((reserve.state, reserve.value), (State::Undecided, None), "{reserve:?}");
    assert!(reserve.text.contains("was not decided; take it for none"), "{}", reserve.text);
    assert!(!short.holds(), "what is not decided does not hold");

    let told: serde_json::Value = serde_json::from_str(&report(&plan, &short)).unwrap();
    assert_eq!(told["holds"], false);
    let fails = |f: &&serde_json::Value| f["check"] == "Collapse reserve" && f["state"] == "fails";
    assert_eq!(told["findings"].as_array().unwrap().iter().filter(fails).count(), 1, "{told:#}");
    let multipliers = told["steps"].as_array().unwrap().iter().filter(|step| step["collapse"]["multiplier"].is_null());
    assert_eq!(multipliers.count(), open, "every undecided reserve is null in the report");
    let stands = told["steps"].as_array().unwrap().iter().filter(|step| step["stands"].is_null());
    assert_eq!(stands.count(), unproved, "every undecided step is null in the report");
}
