//! What comes off, in what order, and nothing more after ultimate.

use super::*;

/// The last step of a run (from 0): that of its last hold, or of the whole stack where it is never reached.
fn last_step(plan: &Plan, run: &plan::Run) -> usize {
    run.holds.last().and_then(|hold| hold.step).unwrap_or(plan.steps() - 1)
}

#[test]
fn the_way_back_names_every_piece_once_a_run() {
    for (name, text) in EXAMPLES {
        let plan = plan_of(text);
        let pages = texts(&printed(&plan));
        let back: String = pages.iter().filter(|p| p.contains("push, fixture")).cloned().collect::<Vec<_>>().join(" ");
        // Runs that come off in one order share a row, with a box each.
        let shared = back.contains("Unloading after runs 1 and 2");
        for step in 0..plan.steps() {
            let row = format!("{} {} ", plan.piece_name(step), step + 1);
            let got = occurrences(&back, &row);
            let runs = plan.runs().iter().filter(|run| last_step(&plan, run) >= step).count();
            let want = if shared { runs.min(1) } else { runs };
            assert_eq!(got, want, "{name}: got {got} rows {row:?}, want {want} in {back}");
        }
    }
}

/// What is left may lie off the occupant point either way, and what pushes it pushes the fixture too.
#[test]
fn the_way_back_tells_both_offsets_and_the_push_that_the_fixture_bears() {
    let plan = plan_of(EXAMPLES[0].1);
    let assessment = solved(&plan);
    let pages = texts(&printed(&plan)).join(" ");
    assert!(pages.contains("push, fixture"), "the column's head");
    for left in &assessment.exact.as_ref().expect("solved").unloading.left {
        let fore_aft_mm = left.offset_m[0] * 1e3;
        let side = if fore_aft_mm > 0.0 { "aft" } else { "forward" };
        // Rounded to nothing it lies to no side.
        let due =
            if fore_aft_mm.abs() < 0.5 { "0 mm".to_owned() } else { format!("{:.0} mm {side}", fore_aft_mm.abs()) };
        assert!(pages.contains(&due), "{} kg left: {due} is not on the sheet", left.applied_kg);
        let push = left.push.reserve().expect("decided").multiplier;
        assert!(pages.contains(&format!("{push:.2}")), "{} kg left: a push of {push:.2}", left.applied_kg);
    }
}

#[test]
fn a_binding_strap_is_released_on_the_sheet_before_the_piece_that_it_went_on_after() {
    let mut plan = plan_of(EXAMPLES[0].1);
    let at = plan.stack.last().expect("pieces").at;
    let after = u32::try_from(plan.steps()).expect("a count") - 1;
    let (anchors, width, pull) = (plan::Anchors::Article, plan::Binding::WIDTH, quantity::Force::n(50.0));
    plan.fixture.bindings = vec![plan::Binding { name: "lashing".to_owned(), anchors, at, pull, width, after }];
    let text = texts(&printed(&plan)).join(" ");
    let release = text.find("release strap “lashing”").unwrap_or_else(|| panic!("no release in {text}"));
    let (before, after) = text.split_at(release);
    let last = |words: &str| before.rfind(words).unwrap_or_else(|| panic!("no {words:?} before the release"));
    let (first, second) = (plan.piece_name(plan.steps() - 1), plan.piece_name(plan.steps() - 2));
    assert!(last(&first) > last("push, fixture"), "{first} comes off first, in the same table");
    let next = after.find(&second).unwrap_or_else(|| panic!("no {second} after the release"));
    assert!(next < 60, "{second} comes off next: {}", &after[..200.min(after.len())]);
}

/// The demo's case at nine tenths: ultimate load is reached before the last pieces.
#[test]
fn the_sheet_orders_no_piece_after_ultimate_load() {
    let mut plan = plan_of(EXAMPLES[0].1);
    let words = "DO NOT PLACE: ultimate load is on already";
    assert!(!texts(&printed(&plan)).join(" ").contains(words), "nothing comes after ultimate in the demo");
    plan.load_cases[0].load_factor *= 0.9;
    let late = solved(&plan);
    let late = late.findings.iter().find(|finding| finding.check == assess::Check::AfterUltimate).expect("a finding");
    let assess::Where::Pieces(steps) = &late.place else { panic!("{late:?}") };
    assert!(!steps.is_empty(), "{}", late.text);
    assert_eq!(occurrences(&texts(&printed(&plan)).join(" "), words), steps.len(), "a row for each of {steps:?}");
}
