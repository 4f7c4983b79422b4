//! What published rules ask of a test report, and where the record has it. Each row is tried twice: with everything
//! entered the record tells it, and with nothing entered it says so.

use super::{DEMO, day, texts};
use drafting::record;
use testday::{Account, Device, Entry, Field, Inspection, Item, Log, LookedAfter, Said};

/// A requirement: who asks for it, what, and the words by which the record answers: with all entered, and with nothing.
struct Asked {
    source: &'static str,
    what: &'static str,
    answered: &'static [&'static str],
    missing: &'static str,
}

const fn asked(
    source: &'static str,
    what: &'static str,
    answered: &'static [&'static str],
    missing: &'static str,
) -> Asked {
    Asked { source, what, answered, missing }
}

/// Source key `iso-17025` (7.8.2.1 a to p, 7.8.6.2), source key `cfr-23-305`, source key `cfr-23-307`. Where nothing can be missing, the same
/// words stand twice.
const CHECKLIST: [Asked; 30] = [
    asked("iso-17025, 7.8.2.1 a", "a title", &["Test record"], "Test record"),
    asked(
        "iso-17025, 7.8.2.1 b",
        "who tests, with the address",
        &["Workshop and address Own workshop, Mill Lane 3"],
        "Workshop and address not entered",
    ),
    asked("iso-17025, 7.8.2.1 c", "where it was done", &["Place hangar 2, west door"], "Place not entered"),
    asked("iso-17025, 7.8.2.1 d", "which pages belong to it", &["page 2 of"], "page 2 of"),
    asked("iso-17025, 7.8.2.1 d", "its end", &["End of the test record."], "End of the test record."),
    asked("iso-17025, 7.8.2.1 e", "for whom", &["Tested for the builders' group"], "Tested for not entered"),
    asked(
        "iso-17025, 7.8.2.1 f",
        "the method",
        &["Method: dead weight on the seat"],
        "Method: dead weight on the seat",
    ),
    asked(
        "iso-17025, 7.8.2.1 g",
        "which item",
        &["Serial number of the article S/N 007", "Drawing and issue 12-100 issue C"],
        "Serial number of the article not entered",
    ),
    asked(
        "iso-17025, 7.8.2.1 g",
        "its condition",
        &["Condition before the test new, no damage seen"],
        "Condition before the test not entered",
    ),
    asked("iso-17025, 7.8.2.1 i", "when", &["begun 2026-05-04 09:30:00 UTC"], "begun 2026-05-04 09:30:00 UTC"),
    asked("iso-17025, 7.8.2.1 j", "date of issue", &["date of issue"], "date of issue"),
    asked(
        "iso-17025, 7.8.2.1 l",
        "only the item tested",
        &["relate only to the article"],
        "relate only to the article",
    ),
    asked("iso-17025, 7.8.2.1 m", "results with units", &["ended at lasted, s", "read, mm"], "read, mm"),
    asked(
        "iso-17025, 7.8.2.1 n",
        "deviations from the method",
        &["Where the day was not as planned", "2 mm aft, and left there"],
        "Where the day was not as planned",
    ),
    asked("iso-17025, 7.8.2.1 o", "who authorizes it", &["inspector or engineer"], "inspector or engineer"),
    asked(
        "iso-17025, 7.8.2.1 p",
        "results of others",
        &["nothing in it comes from others"],
        "nothing in it comes from others",
    ),
    asked(
        "iso-17025, 7.8.6.2 b",
        "what is claimed",
        &["Paragraph claimed 23.305, 23.307"],
        "Paragraph claimed not entered",
    ),
    asked(
        "iso-17025, 7.8.6.2 b",
        "its reservations",
        &["Reservations spar carry-through shown elsewhere"],
        "Reservations not entered",
    ),
    asked("iso-17025, 7.8.6.2 c", "the rule of decision", &["Yes: the pieces were the load"], "Not shown is never yes"),
    asked("iso-17025, edition 2005, 5.10.3.1 a", "temperature", &["Temperature 18.5 °C"], "Temperature not entered"),
    asked(
        "iso-17025, edition 2005, 5.10.3.1 a",
        "humidity",
        &["Relative humidity 61 %"],
        "Relative humidity not entered",
    ),
    asked("iso-17025, edition 2005, 5.10.3.1 c", "uncertainty of what was measured", &["± 2 s.d."], "± 2 s.d."),
    asked(
        "common practice, no source",
        "instruments: number, range, calibration",
        &["left cell scale LC-4 0 to 500 kg 2027-01-31"],
        "left cell scale not entered not entered not entered",
    ),
    asked(
        "common practice, no source",
        "check mass, zero before and after, and whether it came back",
        &["left cell 20.0 kg 20.1 kg 0.1 kg 0.2 kg 0.1 kg 0.2 kg yes"],
        "left cell not entered not entered not entered not entered – – not known",
    ),
    asked(
        "cfr-23-305 (a)",
        "limit load without permanent deformation",
        &["Permanent set after limit within what is allowed? yes"],
        "Permanent set after limit within what is allowed?",
    ),
    asked(
        "cfr-23-305 (b)",
        "ultimate load for three seconds",
        &["Ultimate load held for 3 s? yes"],
        "Ultimate load held for 3 s?",
    ),
    asked(
        "cfr-23-305 (b)",
        "without failure: what the inspection found",
        &[
            "limit load carry-through welds nothing found A. Builder",
            "ultimate load seat pan one rivet loose A. Builder",
        ],
        "8 Inspection not entered",
    ),
    asked(
        "cfr-23-307 (a)",
        "which load condition, and which not",
        &["Not covered side, unsymmetric and harness loads"],
        "Not covered not entered",
    ),
    asked(
        "cfr-23-307 (a)",
        "that each condition is shown for itself",
        &["nothing of any other"],
        "nothing of any other",
    ),
    asked(
        "common practice, no source",
        "conformity of the article, and who signed it",
        &["Deviations from the drawing doubler at frame 4", "Conformity signed by B. Inspector"],
        "Conformity signed by not entered",
    ),
];

/// Whoever looks after the report enters all that it asks for.
pub(super) fn with_all(log: &Log) -> Log {
    let text = |field: Field, text: &str| Entry::Detail { field, says: Said::Text(text.to_owned()) };
    let number = |field: Field, number: f64| Entry::Detail { field, says: Said::Number(number) };
    let device = |item: Item| Field::Instrument { device: Device::Scale("left cell".to_owned()), item };
    let looked = |after, place: &str, found: Option<&str>| {
        let (place, by) = (place.to_owned(), "A. Builder".to_owned());
        Entry::Inspected(Inspection { after, place, found: found.map(str::to_owned), by })
    };
    let entries = [
        text(Field::Serial, "S/N 007"),
        text(Field::Drawing, "12-100 issue C"),
        text(Field::DrawingDeviations, "doubler at frame 4"),
        text(Field::Condition, "new, no damage seen"),
        text(Field::ConformityBy, "B. Inspector"),
        text(Field::Paragraph, "23.305, 23.307"),
        text(Field::Reservations, "spar carry-through shown elsewhere"),
        text(Field::NotCovered, "side, unsymmetric and harness loads"),
        text(Field::TestedFor, "the builders' group"),
        text(Field::Workshop, "Own workshop, Mill Lane 3"),
        text(Field::Place, "hangar 2, west door"),
        text(Field::AuthorityNumber, "X-1"),
        number(Field::Temperature, 18.5),
        number(Field::Humidity, 61.0),
        text(device(Item::Number), "LC-4"),
        text(device(Item::Range), "0 to 500 kg"),
        text(device(Item::CalibratedUntil), "2027-01-31"),
        number(device(Item::CheckPut), 20.0),
        number(device(Item::CheckShown), 20.1),
        number(device(Item::ZeroBefore), 0.1),
        number(device(Item::ZeroAfter), 0.2),
        number(device(Item::ZeroWithin), 0.2),
        looked(LookedAfter::Ultimate, "seat pan", Some("one rivet loose")),
        looked(LookedAfter::Limit, "carry-through welds", None),
    ];
    let mut with = log.clone();
    for entry in entries {
        let (line, text) = with.next("2026-05-04 09:30:00 UTC", entry);
        with.push(line, &text);
    }
    with
}

/// The record without its list of all lines, which would tell anything that was entered.
fn without_lines(log: &Log) -> String {
    let pdf = record::pdf(log, &Account::of(log).expect("a day")).expect("a record prints");
    let all = texts(&pdf).join(" ");
    let (before, lines) = all.split_once("Every line of the log").expect("the annex");
    let (_, after) = lines.split_once("Signatures").expect("the signatures");
    format!("{before} {after}")
}

#[test]
fn the_record_has_what_published_rules_ask_of_a_test_report() {
    let log = day(DEMO, 3.4);
    let [whole, bare] = [with_all(&log), log].map(|log| without_lines(&log));
    for Asked { source, what, answered, missing } in CHECKLIST {
        for words in answered {
            assert!(whole.contains(words), "{source}, {what}: no {words:?} in {whole}");
        }
        assert!(bare.contains(missing), "{source}, {what}: no {missing:?} in {bare}");
        // What can be missing is told in one of the two ways and never in both: a row that would pass on any record proves
        // nothing.
        if missing.contains("not entered") || missing.contains("not known") {
            assert!(!whole.contains(missing), "{source}, {what}: entered, and yet {missing:?} in {whole}");
            for words in answered {
                assert!(!bare.contains(words), "{source}, {what}: not entered, and yet {words:?} in {bare}");
            }
        }
    }
}

/// Rows whose words stand on every record are held against records that lack the thing: a day that is not over has no
/// verdict but *not shown*, and each figure of a hold stands under its unit.
#[test]
fn rows_of_the_checklist_that_nothing_can_miss_are_told_by_the_day_itself() {
    let log = day(DEMO, 3.4);
    let mut begun = Log::default();
    for line in log.lines().iter().take(12) {
        let (line, text) = begun.next(&line.at, line.entry.clone());
        begun.push(line, &text);
    }
    let [whole, begun] = [log, begun].map(|log| without_lines(&log));
    for words in [
        "Permanent set after limit within what is allowed? yes",
        "Ultimate load held for 3 s? yes",
        "2 mm aft, and left there",
        // The hold's figures: lasted, not seen, due, pieces, of limit, of ultimate, by the scales, two standard deviations.
        "ultimate 09:30:00 3.4 0.0 3 515.8 150.8 100.5 ",
    ] {
        assert!(whole.contains(words), "no {words:?} in {whole}");
        assert!(!begun.contains(words), "{words:?} on the record of a day that has just begun: {begun}");
    }
}

#[test]
fn parts_of_the_record_stand_in_their_order() {
    let all = without_lines(&day(DEMO, 3.4));
    let parts = [
        "1 Verdict",
        "Stops, their likely causes",
        "2 Article and claim",
        "3 Set-up",
        "4 Instruments",
        "5 Loading, a row a step",
        "6 Holds and gauges",
        "7 Unloading as read",
        "8 Inspection",
        "9 Annex",
        "Plan, log and checksums",
    ];
    let mut rest = all.as_str();
    for part in parts {
        let (_, after) = rest.split_once(part).unwrap_or_else(|| panic!("no {part:?} after what went before"));
        rest = after;
    }
}
