//! Holds and runs on the sheet: boxes for what is read, and each hold whole after its step.

use super::*;

#[test]
fn limit_and_ultimate_as_runs_have_their_boxes_holds_and_ways_back() {
    let mut plan = plan_of(EXAMPLES[0].1);
    let limit = plan.holds.iter().position(|hold| hold.name == "limit").expect("the demo stops at limit");
    plan.holds[limit].unload = true;
    plan.holds.truncate(limit + 1);
    plan.holds.push(plan::Hold::at("ultimate", 1.0));
    let pages = texts(&printed(&plan));
    for due in [
        "Run 1: HOLD “limit”",
        "Run 2: HOLD “ultimate”",
        "Unloading after run",
        "Take all off: Unloading after run 1 (tables from page ",
    ] {
        assert!(pages.iter().any(|p| p.contains(due)), "no {due:?}");
    }
    // A line with a box for each run that puts the piece on.
    let boxes = |page: &drafting::page::Page| {
        let boxed = |mark: &&drafting::lower::Primitive| matches!(mark, drafting::lower::Primitive::Polygon { fill: None, points, .. } if is_reading_box(points));
        page.marks.iter().filter(boxed).count()
    };
    let pages = sheet::pages(&plan, &solved(&plan), Paper::A4);
    let got: usize = pages.iter().map(boxes).sum();
    let scales = plan.fixture.supports.iter().filter(|support| support.scale).count();
    let placed: usize = plan.runs().iter().map(|run| run.placements(&plan)).sum();
    assert_eq!(got, scales * placed, "a box for each scale after each piece of each run");
}

/// Whether an outline is a box for what a scale shows: 7.0 mm high alone, 5.9 mm among several, and wide enough to write
/// in.
fn is_reading_box(points: &[[f32; 2]]) -> bool {
    let [a, .., c, _] = points else { return false };
    let high = c[1] - a[1];
    ((high - 7.0).abs() < 0.01 || (high - 5.9).abs() < 0.01) && c[0] - a[0] > 10.0
}

#[test]
fn what_is_read_at_a_hold_stands_on_one_page_after_its_step() {
    for (name, text) in EXAMPLES {
        for plan in [plan_of(text), in_inches(text)] {
            let pages = texts(&printed(&plan));
            let count = |page: &str, words: &str| page.matches(words).count();
            let begun: usize = pages.iter().map(|page| count(page, "” after step")).sum();
            let held: usize = plan.runs().iter().flat_map(|run| &run.holds).filter(|hold| hold.step.is_some()).count();
            assert_eq!(begun, held, "{name}: a box for each hold that is reached");
            for page in &pages {
                let [heads, ends] = ["” after step", "initials of both"].map(|words| count(page, words));
                assert_eq!(heads, ends, "{name}: a hold is torn: {page}");
            }
            for hold in plan.runs().iter().flat_map(|run| &run.holds) {
                let Some(step) = hold.step else { continue };
                let title = format!("HOLD “{}” after step {}:", plan.holds[hold.hold].name, step + 1);
                let page = pages.iter().find(|page| page.contains(&title)).expect("the hold's box");
                let row = format!("{} {} ", step + 1, plan.piece_name(step));
                assert!(page.find(&row) < page.find(&title), "{name}: {title} does not follow its step in {page}");
                for gauge in &plan.gauges {
                    assert!(page.contains(&gauge.name), "{name}: no {} at {title}", gauge.name);
                }
            }
        }
    }
}

/// What a gauge should show is what the structure bends, given, and what the article sinks there, which the report has; in
/// proportion to the load. By hand: 4.9 mm at 342 kg and 7.4 mm at 513 kg.
#[test]
fn what_a_gauge_should_show_stands_beside_it_at_every_hold_and_where_nobody_gave_it_that_is_said() {
    let mut plan = plan_of(EXAMPLES[0].1);
    let holds = plan.holds.len();
    let untold = texts(&printed(&plan)).join(" ");
    assert_eq!(occurrences(&untold, "expected: not given"), holds * plan.gauges.len(), "at each hold for each gauge");
    let mm = |mm: f64| Some(quantity::Length::m(1e-3 * mm));
    let gauge = &mut plan.gauges[0];
    (gauge.expected_at_limit, gauge.expected_at_ultimate, gauge.expected_within) = (mm(4.9), mm(7.4), mm(0.6));
    let assessment = solved(&plan);
    let told = texts(&printed(&plan)).join(" ");
    assert_eq!(occurrences(&told, "expected: not given"), holds * (plan.gauges.len() - 1), "the others are not given");
    for step in assessment.closed.hold_steps.iter().copied().flatten() {
        let kg = assessment.closed.steps[step].applied_kg;
        let bends_mm = if kg <= 342.0 { 4.9 * kg / 342.0 } else { 4.9 + 2.5 * (kg - 342.0) / 171.0 };
        let moved = assessment.exact.as_ref().expect("solved").article_moved(step).expect("it stands");
        let sinks_mm = 1e3 * moved.sink_m(&plan::point(plan.gauges[0].at));
        let due = format!("moved {:.2} ± 0.60, sinking {sinks_mm:.2} of it", bends_mm + sinks_mm);
        assert!(told.contains(&due), "no {due:?} after step {}", step + 1);
    }
}
