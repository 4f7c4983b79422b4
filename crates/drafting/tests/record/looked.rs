//! How the pages of records are laid out: those of the three demos' days, and of days on drawn plans.

use super::{account, days, drawn, laid};
use drafting::page::Paper;
use drafting::{pdf, record};
use lopdf::{Document, Object};
use plan::Plan;
use quantity::Quantity;
use testday::{Account, Entry, FORMAT, Log, Reading, StopGround};

/// For looking at: `LOADCAIRN_RECORDS=FOLDER cargo test --workspace --test record records_of`.
#[test]
fn records_of_the_demos_days_are_laid_out_well_on_both_papers() {
    let both = [(Paper::A4, "a4"), (Paper::Letter, "letter")];
    let printed = |(name, log): &(&str, Log)| {
        let account = account(log);
        both.map(|(paper, of)| (format!("{name}-{of}"), record::pages(log, &account, paper)))
    };
    let all: Vec<_> = days::all().iter().flat_map(printed).collect();
    if let Some(folder) = std::env::var_os("LOADCAIRN_RECORDS") {
        for (name, pages) in &all {
            let path = std::path::Path::new(&folder).join(name).with_extension("pdf");
            std::fs::write(path, pdf::write(pages, name).expect("a record prints")).expect("written");
        }
    }
    all.iter().for_each(|(name, pages)| laid::well(pages, name));
}

/// A day on a plan without a solver: what is read is made up, and after so many pieces a hold is tried, a word is said, and
/// the test is given up.
fn made_up(plan: &Plan, pieces: usize) -> Log {
    let mut log = Log::default();
    let add = |log: &mut Log, entry: Entry| {
        let (line, text) = log.next("2026-05-04 09:30:00 UTC", entry);
        log.push(line, &text);
    };
    let (fingerprint, text) = (plan::file::fingerprint(plan), plan::file::write(plan));
    let people = "two who lift, one who watches, one who reads from a distance, the inspector of the club".to_owned();
    add(&mut log, Entry::Started { format: FORMAT, fingerprint, plan: text, people });
    let reading = |kg: f64| {
        let scales = plan.fixture.supports.iter().filter(|support| support.scale);
        Reading { scales_kg: scales.map(|support| (support.name.clone(), 12.3 + kg)).collect(), ..Reading::default() }
    };
    add(&mut log, Entry::Tare(reading(0.0)));
    for gauge in plan.gauges.iter().skip(1) {
        add(&mut log, Entry::Gauge { gauge: gauge.name.clone(), reading_m: 0.001 });
    }
    let mut kg = 0.0;
    for step in 0..plan.steps().min(pieces) {
        kg += plan.mass_of(&plan.stack[step]).si() / 3.0;
        add(&mut log, Entry::Placed { step: step + 1 });
        add(&mut log, Entry::Reading(reading(kg)));
    }
    for gauge in &plan.gauges {
        add(&mut log, Entry::Gauge { gauge: gauge.name.clone(), reading_m: 0.0042 });
    }
    let why = "a noise that nobody could place, from the rear of the fixture or from the wall behind it".to_owned();
    add(&mut log, Entry::Stopped { why: why.clone(), causes: Vec::new(), ground: Some(StopGround::ByHand) });
    add(&mut log, Entry::Note { text: "w".repeat(90) });
    add(&mut log, Entry::Aborted { why });
    for step in (0..plan.steps().min(pieces)).rev() {
        add(&mut log, Entry::Unloaded { step: step + 1 });
    }
    add(&mut log, Entry::Ended { by: "the builder".to_owned() });
    log
}

/// Of drawn plan after drawn plan up to so many pieces.
fn drawn_days(numbers: impl Iterator<Item = u32>, pieces: usize) {
    for number in numbers {
        let plan = drawn::plan(number);
        let log = made_up(&plan, pieces);
        let account = Account::of(&log).expect("a day");
        laid::well(&record::pages(&log, &account, Paper::usual(plan.units)), &format!("day on plan {number}"));
    }
}

/// In every run a few plans of few pieces; with `LOADCAIRN_TEST_ROUNDS`, as `.ci/long` has it, fifty of up to two hundred.
#[test]
fn records_of_days_on_drawn_plans_are_laid_out_well() {
    match std::env::var("LOADCAIRN_TEST_ROUNDS") {
        Ok(_) => drawn_days(0..50, 200),
        Err(_) => drawn_days([1, 2, 9, 13, 21, 31].into_iter(), 8),
    }
}

/// What a reader who does not see the pages needs (source key `iso-32000`, 14.7 to 14.9): tags, title, language, bookmarks
/// for each part in its order, each drawing in words, heads of columns as such.
#[test]
fn a_record_is_tagged_with_its_title_language_and_bookmarks_and_each_drawing_is_told_in_words() {
    let (_, log) = &days::all()[0];
    let account = account(log);
    let bytes = record::pdf(log, &account).expect("a record prints");
    let document = Document::load_mem(&bytes).expect("a PDF that another reader opens");
    let catalog = document.catalog().expect("a catalogue");
    for key in ["StructTreeRoot", "MarkInfo", "Outlines", "Lang"] {
        assert!(catalog.has(key.as_bytes()), "no {key} in the catalogue");
    }
    assert_eq!(catalog.get(b"Lang").and_then(lopdf::decode_text_string).expect("a language"), "en");
    let info = document.trailer.get(b"Info").and_then(Object::as_reference).expect("document information");
    let info = document.get_dictionary(info).expect("document information");
    let title = info.get(b"Title").and_then(lopdf::decode_text_string).expect("a title");
    assert_eq!(title, format!("Test record: {}", account.day.plan.title));
    let outlines = catalog.get(b"Outlines").and_then(Object::as_reference).expect("bookmarks");
    let mut next = document.get_dictionary(outlines).and_then(|o| o.get(b"First")).and_then(Object::as_reference).ok();
    let mut bookmarks = Vec::new();
    while let Some(of) = next.and_then(|id| document.get_dictionary(id).ok()) {
        bookmarks.push(of.get(b"Title").and_then(lopdf::decode_text_string).expect("words"));
        next = of.get(b"Next").and_then(Object::as_reference).ok();
    }
    for (part, bookmark) in bookmarks[1..].iter().enumerate() {
        assert!(bookmark.starts_with(&format!("{} ", part + 2)), "part {}: {bookmark:?} in {bookmarks:?}", part + 2);
    }
    assert_eq!(bookmarks.len(), 9, "{bookmarks:?}");
    let elements = || document.objects.values().filter_map(|object| object.as_dict().ok());
    let of_kind = |kind: &'static [u8]| {
        elements().filter(move |e| e.get(b"S").and_then(Object::as_name).is_ok_and(|name| name == kind))
    };
    assert!(of_kind(b"Figure").count() >= 5, "fixture, stack twice, charts");
    assert!(of_kind(b"Figure").all(|drawing| drawing.has(b"Alt")), "each drawing is told in words");
    assert!(of_kind(b"TH").count() > 30 && of_kind(b"H2").count() > 10, "heads of columns, headings");
}
