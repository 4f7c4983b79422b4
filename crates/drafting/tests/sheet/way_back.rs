//! What comes off, in what order, and nothing more after ultimate.

use super::*;

/// The last step of a run (from 0): that of its last hold, or of the whole stack where it is never reached.
fn last_step(plan: &Plan, run: &plan::Run) -> usize {
    run.holds.last().and_then(|hold| hold.step).unwrap_or(plan.steps() - 1)
}

/// The pages of unloading, in one text.
fn unloading(pages: &[String]) -> String {
    pages.iter().filter(|page| page.starts_with("Unloading")).cloned().collect::<Vec<_>>().join(" ")
}

#[test]
fn the_way_back_names_every_piece_once_for_each_run_that_puts_it_on() {
    for (name, text) in EXAMPLES {
        let plan = plan_of(text);
        let back = unloading(&texts(&printed(&plan)));
        // Runs that come off alike share a row, with a box each: which lines are a run's is said over the tables.
        let rows: usize = (0..plan.steps()).map(|step| rows_of(&back, &plan, step).len()).sum();
        let runs = plan.runs();
        let told: usize = (0..runs.len()).map(|run| lines_of(&back, run, rows).len()).sum();
        let want: usize = runs.iter().map(|run| last_step(&plan, run) + 1).sum();
        assert_eq!(told, want, "{name}: got {told} lines of all runs, want {want} in {back}");
        for (number, run) in runs.iter().enumerate() {
            let lines = lines_of(&back, number, rows);
            for step in 0..=last_step(&plan, run) {
                let got = rows_of(&back, &plan, step).iter().filter(|line| lines.contains(line)).count();
                assert_eq!(got, 1, "{name}, run {}: got {got} rows of step {}, want 1 in {back}", number + 1, step + 1);
            }
        }
    }
}

/// The numbers of the lines on which a step comes off.
fn rows_of(back: &str, plan: &Plan, step: usize) -> Vec<usize> {
    let row = format!(" {} {} ", plan.piece_name(step), step + 1);
    let before = back.match_indices(&row).map(|(at, _)| &back[..at]);
    before.filter_map(|before| before.rsplit(' ').next()?.parse().ok()).collect()
}

/// Which lines are those of a run (from 0), by the sentence over the tables; all where there is one run.
fn lines_of(back: &str, run: usize, rows: usize) -> Vec<usize> {
    let head = format!("After run {}: lines ", run + 1);
    let Some((_, told)) = back.split_once(&head) else { return (1..=rows).collect() };
    let told = told.split_once('.').expect("a sentence").0;
    let ends = |part: &str| {
        let (from, to) = part.split_once(" to ").expect("from one line to another");
        from.parse::<usize>().expect("a line")..=to.parse::<usize>().expect("a line")
    };
    told.split(", then ").flat_map(ends).collect()
}

/// What is left may lie off the occupant point either way, and what pushes it pushes the fixture too: the annex tells the
/// worst of a run with its line, the table for a spreadsheet tells all.
#[test]
fn the_way_back_tells_the_worst_offset_and_the_least_push_that_the_fixture_bears() {
    let plan = plan_of(EXAMPLES[0].1);
    let assessment = solved(&plan);
    let pages = texts(&printed(&plan));
    let annex = pages.iter().find(|page| page.contains("While it comes off")).expect("a table in the annex");
    let told = annex.split_once("While it comes off").expect("just found").1;
    let table = sheet::csv(&plan, &assessment);
    let left = &assessment.exact.as_ref().expect("solved").unloading.left;
    let side = |m: f64, [positive, negative]: [&str; 2]| {
        let mm = (1e3 * m).abs();
        // Rounded to nothing it lies to no side.
        if mm < 0.5 { "0 mm".to_owned() } else { format!("{mm:.0} mm {}", if m > 0.0 { positive } else { negative }) }
    };
    let farthest = left.iter().map(|left| left.offset_m).max_by(|a, b| a[0].hypot(a[1]).total_cmp(&b[0].hypot(b[1])));
    let [aft, right] = farthest.expect("pieces come off");
    let due = format!("{}, {}", side(aft, ["aft", "forward"]), side(right, ["right", "left"]));
    assert!(told.contains(&due), "{due} is not in {told}");
    let pushes = left.iter().map(|left| left.push.reserve().expect("decided").multiplier);
    let least = format!("{:.2} ", pushes.clone().fold(f64::INFINITY, f64::min));
    assert!(told.contains(&least), "a push of {least} is not in {told}");
    for push in pushes {
        assert!(table.contains(&format!("{push:.4}")), "a push of {push:.4} is not in the table for a spreadsheet");
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
    assert!(last(&first) > last("Unloading Nobody reaches"), "{first} comes off first, in the same table");
    let (_, rest) = after.split_once("from outside the fall zone, out of its line").expect("from where it is released");
    let next = rest.find(&second).unwrap_or_else(|| panic!("no {second} after the release"));
    assert!(next < 8, "{second} comes off next: {rest:.200}");
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

/// In the tandem's first list, where names leave room for it, each row has the reserve of what is left after it; every list
/// has its least over it. Neither is told as more than it is.
#[test]
fn what_is_left_after_a_removal_stands_with_its_reserve_and_the_least_over_its_list() {
    let plan = plan_of(EXAMPLES[0].1);
    let assessment = solved(&plan);
    let back = unloading(&texts(&printed(&plan)));
    let exact = assessment.exact.as_ref().expect("solved");
    let run = plan.runs().swap_remove(0);
    let way = exact.way_back(run.placements(&plan)).expect("a way back");
    let mut least = f64::INFINITY;
    for (number, step) in way.order.iter().enumerate().take(20) {
        let left = &way.left[number];
        let begins = format!("{} {} {} ", number + 1, plan.piece_name(*step), step + 1);
        let (_, row) = back.split_once(&begins).unwrap_or_else(|| panic!("no {begins:?} in {back}"));
        let (stays, row) = row.split_once(' ').expect("what stays, then the reserve");
        let stays: f64 = stays.parse().expect("a mass");
        assert!(
            (stays - left.applied_kg).abs() <= 0.0501,
            "line {}: got {stays} kg, want {}",
            number + 1,
            left.applied_kg
        );
        let bounds = left.reserve.at_least.filter(|_| left.reserve.is_bound());
        let want = bounds.unwrap_or_else(|| left.reserve.least.reserve().expect("a push").multiplier);
        let told = row.strip_prefix("≥ ").filter(|_| bounds.is_some()).unwrap_or(row);
        let told: f64 = told.split(' ').next().and_then(|word| word.parse().ok()).expect("a reserve");
        assert!(told <= want + 0.005 && told > want - 0.0101, "line {}: got {told}, want {want:.4}", number + 1);
        least = least.min(want);
    }
    let over = format!("After run 1: least reserve {:.2} or more, after line ", (100.0 * least).floor() / 100.0);
    assert!(back.contains(&over), "no {over:?} in {back}");
    assert_eq!(back.matches(": least reserve ").count(), 3, "over each list: {back}");
}
