//! What the structure bent at a gauge, against what was expected there.

use super::*;

fn pages_of(text: &str) -> (Account, String) {
    let log = day(text, 3.5);
    let account = account(&log);
    (account, texts(&printed(&log)).join(" "))
}

/// By hand: 4.9 mm at 342 kg and 7.4 mm at 513 kg; from one to the other in proportion to the load.
#[test]
fn a_deflection_stands_beside_what_was_expected_with_the_difference_and_whether_it_fits() {
    let given = "allowed_set: \"0.5 mm\", expected_at_limit: \"4.9 mm\", expected_at_ultimate: \"7.4 mm\", expected_within: \"0.6 mm\"";
    let (account, record) = pages_of(&DEMO.replacen("allowed_set: \"0.5 mm\"", given, 1));
    let (number, hold) = (1, account.day.plan.holds.iter().position(|hold| hold.name == "ultimate").expect("a hold"));
    let run = &account.day.runs[number];
    let read = run.gauges.iter().find(|read| read.gauge == 0 && read.moment == Moment::Hold(hold)).expect("read");
    let kg = run.applied_kg(read.last_on);
    let moved_mm = 1e3 * (read.reading_m - run.gauge_m(0, Moment::Before).expect("read before"));
    let left_mm = moved_mm - 1e3 * account.rigid_m(number, read).expect("the supports' stiffness is known");
    let expected_mm = 4.9 + 2.5 * (kg - 342.0) / 171.0;
    let off_mm = left_mm - expected_mm;
    let fits = if off_mm.abs() <= 0.6 { "yes" } else { "no" };
    let row = format!("floor, front hold “ultimate” {kg:.1} {left_mm:.2} {expected_mm:.2} 0.60 {off_mm:.2} {fits}");
    assert!(record.contains(&row), "no {row:?} in {record}");
    let other = "floor, rear hold “ultimate”";
    let after = record.rsplit_once(other).unwrap_or_else(|| panic!("no {other:?} in {record}")).1;
    let after: String = after.chars().take(60).collect();
    assert_eq!(after.matches("not given").count(), 3, "expected, tolerance and fit of the other gauge: {after}");
}

#[test]
fn where_nobody_said_what_was_expected_the_record_says_so() {
    let (_, record) = pages_of(DEMO);
    assert_eq!(record.matches("What was expected: not given.").count(), 2, "once a run: {record}");
    assert!(!record.contains("expected, mm"), "no empty table");
}
