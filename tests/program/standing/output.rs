//! Whatever is entered is either refused in one sentence, or goes through assessment, report and sheet without a
//! panic and without a number that is none. Overflow checks are on in what the tests run.

use super::drawn::{changes, plan};
use super::promise::keeps_its_promise;
use super::{hold, rounds};
use drafting::sheet::Format;
use plan::Plan;
use plan::file::{read, write};
use proptest::prelude::*;

fn refused(plan: &Plan) {
    // Text alone may change by being written: what is refused there is refused here as well, or is in order.
    if let Err(unreadable) = read(&write(plan)) {
        let told = unreadable.to_string();
        assert!(!told.contains('\n') && told.len() < 2000, "{told}");
    }
}

fn goes_through(plan: &Plan) {
    let text = write(plan);
    let again = read(&text).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(write(&again), text, "a second write gives the same bytes");
    // What is read back is what is assessed by everyone who opens the file.
    let assessment = assess::assess(&again, assess::Ask::full());
    let report = assess::report(&again, &assessment);
    let told: serde_json::Value = serde_json::from_str(&report).expect("the report is JSON");
    keeps_its_promise(&again, &told);
    for finding in &assessment.findings {
        let words = [finding.text.as_str(), &finding.rests_on()].join(" ");
        let odd = ["NaN", "inf ", "-0 ", "-0.0 ", "{", "}"].into_iter().find(|odd| words.contains(odd));
        assert!(odd.is_none(), "{odd:?} in {words}");
        assert!(finding.value.is_none_or(|value| !value.si().is_nan()), "{finding:?}");
    }
    for ending in Format::ENDINGS {
        let format = Format::of_ending(ending).expect("one of them");
        let files = format.write(&again, &assessment).unwrap_or_else(|error| panic!("{ending}: {error}"));
        for file in &files {
            assert!(file.bytes.len() > 500, "{ending}: got {} bytes", file.bytes.len());
            if ending == "csv" {
                is_a_table(&file.bytes);
            }
        }
        assert!(files == format.write(&again, &assessment).expect("as before"), "{ending}: the same bytes twice");
    }
}

/// Rows of one length, and no cell that a spreadsheet would reckon.
fn is_a_table(bytes: &[u8]) {
    let rows = csv::ReaderBuilder::new().has_headers(false).from_reader(bytes).into_records();
    let rows: Vec<_> = rows.map(|row| row.unwrap_or_else(|error| panic!("{error}"))).collect();
    assert!(rows.len() > 2, "got {} rows", rows.len());
    for cell in rows.iter().flatten() {
        let is_number = cell.parse::<f64>().is_ok_and(f64::is_finite);
        assert!(is_number || !cell.trim_start().starts_with(['=', '+', '-', '@']), "{cell:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: rounds(10), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn whatever_is_entered_is_refused_or_goes_through(base in 0_usize..3, drawn in changes()) {
        let plan = plan(base, &drawn);
        let look = if plan::faults(&plan).is_empty() { goes_through } else { refused };
        hold("goes-through", &plan, look);
    }
}
