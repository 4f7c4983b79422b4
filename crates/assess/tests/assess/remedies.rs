//! What is told to mend a finding does mend it.

use crate::bench::{after, bench, moved, put, stick, with_article, without};
use crate::given::{CLOSED, all_of, near};
use assess::{Ask, Assessment, Check, Reach, Remedy, State, assess};
use plan::{Edit, Plan};

const EXAMPLE: &str = include_str!("../../../../assets/examples/four-faults.ron");

fn remedy_of(assessment: &Assessment, check: Check) -> Option<Remedy> {
    let index = assessment.findings.iter().position(|f| f.check == check && f.state == State::Fails)?;
    assessment.remedy(index).cloned()
}

fn told(plan: &Plan, check: Check) -> Remedy {
    let assessment = assess(plan, Ask { remedies: true, ..Ask::full() });
    remedy_of(&assessment, check).unwrap_or_else(|| panic!("{check:?}: no remedy among {:#?}", assessment.findings))
}

/// Makes the edit and looks again: the check is in order.
fn is_mended(plan: &Plan, check: Check, remedy: &Remedy) {
    let mended = assess(&after(plan, &remedy.edit), Ask::full());
    for finding in all_of(&mended.findings, check) {
        assert!(!finding.state.falls_short(), "after “{}”: {finding:?}", remedy.words);
    }
}

/// One bag of three moves the centroid by a third of its way: 18 mm take 54 mm of the top bag.
/// Source: `own derivation`, the definition of the centre of mass.
#[test]
fn a_stack_that_is_off_is_brought_back_by_its_top_layer() {
    let plan = moved(&bench(), &[0, 1, 2], [0.018, 0.0]);
    let remedy = told(&plan, Check::OffsetForeAndAft);
    assert_eq!(remedy.words, "Move layer 3 forward by 54 mm");
    let Edit::Move { steps, by } = &remedy.edit else { panic!("{remedy:?}") };
    assert_eq!(steps, &[2]);
    near("the way", quantity::Quantity::si(by[0]), -0.054, CLOSED, "m");
    is_mended(&plan, Check::OffsetForeAndAft, &remedy);
}

#[test]
fn a_bag_at_the_brink_is_moved_back_over_what_carries_it() {
    let plan = put(&without(&bench(), &[2]), 1, [0.2 + 0.25 - 0.002, 0.0]);
    // Its own target, so that the offset does not matter here.
    let plan = with_target_under(&plan);
    let remedy = told(&plan, Check::TipMargin);
    assert!(remedy.words.starts_with("Move sand bag 2 forward by "), "{}", remedy.words);
    is_mended(&plan, Check::TipMargin, &remedy);
    is_mended(&plan, Check::CollapseReserve, &remedy);
}

fn with_target_under(plan: &Plan) -> Plan {
    let tolerance = crate::bench::at([1.0, 1.0]);
    let target = plan.target.clone().with_tolerance(tolerance);
    after(plan, &Edit::set(plan::edit::Part::Target(target), "occupant point"))
}

/// 15 mm are lacking, and hands put a piece down within 10 mm.
#[test]
fn bags_at_the_stick_are_moved_away_from_it_as_far_as_it_takes() {
    let plan = with_target_under(&with_article(&bench(), |article| article.keep_clear = vec![stick(0.95 - 0.010)]));
    let remedy = told(&plan, Check::KeepClear);
    assert_eq!(remedy.words, "Move sand bag 1 and 2 more aft by 25 mm");
    is_mended(&plan, Check::KeepClear, &remedy);
}

#[test]
fn the_load_that_is_lacking_is_told_in_pieces_that_are_left() {
    let finding = crate::given::found(&without(&bench(), &[2]), Reach::ClosedForm, Check::AppliedLoad);
    assert!(finding.text.contains("1 more of sand bag"), "{}", finding.text);
}

/// What leans out is moved back beyond the scatter of hands, and the solved reserve bears it out.
#[test]
fn a_remedy_says_what_it_mends_and_what_stays_and_leaves_no_weak_stack_behind() {
    let plan = plan::file::read(EXAMPLE).expect("an example opens");
    let assessment = assess(&plan, Ask { remedies: true, ..Ask::full() });
    for check in [Check::CollapseReserve] {
        let remedy = remedy_of(&assessment, check).unwrap_or_else(|| panic!("{check:?}: no remedy"));
        assert!(remedy.mends.contains(&Check::CollapseReserve), "{remedy:?}");
        assert!(remedy.leaves.contains(&Check::AppliedLoad), "{remedy:?}");
        let mended = assess(&after(&plan, &remedy.edit), Ask::checks());
        let short = mended.findings.iter().filter(|finding| finding.state.falls_short());
        let mut short: Vec<Check> = short.map(|finding| finding.check).collect();
        short.sort_unstable();
        short.dedup();
        assert_eq!(remedy.leaves, short, "{check:?}: what falls short after “{}”", remedy.words);
        for part in ["Tried with every check", "This fixes", "fall short as before"] {
            assert!(remedy.sentence().contains(part), "{part}: {}", remedy.sentence());
        }
    }
}

#[test]
fn every_remedy_of_the_faulty_example_mends_what_it_is_told_for() {
    let plan = plan::file::read(EXAMPLE).expect("an example opens");
    let assessment = assess(&plan, Ask { remedies: true, ..Ask::full() });
    let mut count = 0;
    for (index, finding) in assessment.findings.iter().enumerate() {
        if let Some(remedy) = assessment.remedy(index) {
            count += 1;
            is_mended(&plan, finding.check, remedy);
        }
    }
    assert!(count >= 1, "got {count} remedies, want at least 1");
}

#[test]
fn what_holds_has_no_remedy_and_closed_forms_tell_none() {
    let holds = assess(&bench(), Ask { remedies: true, ..Ask::full() });
    assert!(holds.remedies.iter().all(Option::is_none), "{:?}", holds.remedies);
    let off = moved(&bench(), &[0, 1, 2], [0.018, 0.0]);
    assert!(assess(&off, Ask::closed()).remedies.is_empty(), "worked out beside the window only");
}

/// 50 kg ultimate: the second bag of 25 kg reaches them, so the third is left out.
#[test]
fn a_piece_after_ultimate_load_is_left_out() {
    let mut plan = bench();
    plan.load_cases[0].load_factor *= 2.0 / 3.0;
    let remedy = told(&plan, Check::AfterUltimate);
    assert_eq!(remedy.words, "Leave out sand bag 3");
    assert_eq!(remedy.edit, Edit::Remove { steps: vec![2] });
    is_mended(&plan, Check::AfterUltimate, &remedy);
}
