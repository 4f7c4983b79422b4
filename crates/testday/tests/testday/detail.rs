//! What the report says beside what was loaded; and bags that lose mass.

use crate::bench::{Diary, limit_run, plan, whole_day};
use testday::{
    Account, Answer, Day, Deviation, Device, Entry, Field, Inspection, Item, Log, LookedAfter, Reading, Said,
};

fn says(field: Field, text: &str) -> Entry {
    Entry::Detail { field, says: Said::Text(text.to_owned()) }
}

fn of_scale(item: Item, kg: f64) -> Entry {
    let field = Field::Instrument { device: Device::Scale("left scale".to_owned()), item };
    Entry::Detail { field, says: Said::Number(kg) }
}

fn refused(diary: &Diary, entry: &Entry) -> String {
    Day::admits(&diary.log, entry).expect_err("refused").to_string()
}

#[test]
fn a_detail_is_said_once_before_during_or_after_and_put_right_by_a_correction() {
    let mut diary = whole_day(3.5);
    diary.add(says(Field::Serial, "S/N 007"));
    let line = diary.log.lines().last().expect("a line").number;
    let sentence = refused(&diary, &says(Field::Serial, "S/N 008"));
    assert_eq!(sentence, format!("line {line} says it already (Serial number of the article): correct that line"));
    let instead = Some(Box::new(says(Field::Drawing, "12 issue C")));
    let other = Entry::Correction { of: line, why: "misread".to_owned(), instead };
    assert!(refused(&diary, &other).ends_with("what holds instead must be about the same"));
    let instead = Some(Box::new(says(Field::Serial, "S/N 008")));
    diary.add(Entry::Correction { of: line, why: "misread".to_owned(), instead });
    assert_eq!(diary.day().detail(&Field::Serial), Some(&Said::Text("S/N 008".to_owned())));
    // Before the first piece as well, and nothing of the day is another one by it.
    let mut early = Diary::begin(&plan());
    let next = early.day().next();
    early.add(says(Field::Place, "hangar 2")).add(of_scale(Item::CheckPut, 20.0));
    assert_eq!(early.day().next(), next);
}

#[test]
fn what_cannot_be_said_is_refused_with_what_fits() {
    let diary = Diary::begin(&plan());
    let humid = Entry::Detail { field: Field::Humidity, says: Said::Number(140.0) };
    assert_eq!(refused(&diary, &humid), "relative humidity is from 0 to 100 %");
    assert_eq!(refused(&diary, &says(Field::Temperature, "warm")), "Temperature: type a number");
    assert_eq!(
        refused(&diary, &says(Field::Serial, " ")),
        "Serial number of the article: type what the report is to say"
    );
    let unknown = Field::Instrument { device: Device::Gauge("left scale".to_owned()), item: Item::Range };
    assert_eq!(refused(&diary, &says(unknown, "500 kg")), "“left scale” is no instrument of the plan");
    let found = Inspection { after: LookedAfter::Limit, place: "welds".to_owned(), found: None, by: " ".to_owned() };
    assert!(refused(&diary, &Entry::Inspected(found)).starts_with("an inspection says which parts were inspected"));
}

/// The bench's scales have a division of 0.2 kg: a zero that nobody bounded may move by that, and not by more.
#[test]
fn a_zero_is_judged_by_what_was_entered_else_by_one_division_else_by_nothing() {
    let device = Device::Scale("left scale".to_owned());
    let back = |after: f64, within: Option<f64>, mut of: plan::Plan| {
        of.gauges.clear();
        let mut diary = Diary::begin(&of);
        diary.add(of_scale(Item::ZeroBefore, 0.1)).add(of_scale(Item::ZeroAfter, after));
        within.map(|kg| diary.add(of_scale(Item::ZeroWithin, kg)).log.lines().len());
        diary.day().zero_return(&device).expect("read before and after").is_back()
    };
    assert_eq!(back(0.3, None, plan()), Some(true));
    assert_eq!(back(-0.11, None, plan()), Some(false));
    assert_eq!(back(0.3, Some(0.1), plan()), Some(false));
    let mut unknown = plan();
    unknown.fixture.supports[0].division = None;
    assert_eq!(back(0.1, None, unknown), None, "what nobody bounded is not decided");
    let mut half = Diary::begin(&plan());
    half.add(of_scale(Item::ZeroBefore, 0.0));
    assert_eq!(half.day().zero_return(&device), None);
}

/// Bag 2 loses 1.5 kg after the hold at limit: by hand, of the bench's bags of 25 kg.
#[test]
fn a_bag_that_bursts_counts_from_then_on_and_what_was_held_before_stays() {
    let mut diary = limit_run();
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).gauge(0.2);
    for step in 1..=4 {
        diary.placed(step).read(step);
    }
    diary.held("limit", 4.0);
    let loss = |lost_kg: f64| Entry::Deviation {
        deviation: Deviation::LostMass { step: 2, lost_kg },
        why: "a seam tore".to_owned(),
    };
    let never = Entry::Deviation { deviation: Deviation::LostMass { step: 5, lost_kg: 1.0 }, why: "torn".to_owned() };
    assert_eq!(refused(&diary, &never), "step 5 is not on the seat: it cannot lose mass there");
    assert!(refused(&diary, &loss(25.0)).contains("can lose more than nothing and less than that"));
    diary.add(loss(1.5));
    let now: Reading = diary.as_expected(4);
    diary.add(Entry::Reading(now));
    let account = Account::of(&diary.log).expect("a day");
    let (run, held) = (account.day.run(), &account.day.run().holds[0]);
    let got = [run.on_seat_kg(), run.applied_then_kg(held.last_on, held.line)];
    assert!((got[0] - 98.5).abs() < 1e-9 && (got[1] - 100.0).abs() < 1e-9, "got {got:?} kg, want [98.5, 100.0]");
    let judged = account.judged(1);
    assert!(judged.iter().all(|judged| judged.fits()), "each is held against what lay there then");
    let masses: Vec<f64> = judged.iter().map(|judged| judged.applied_kg).collect();
    assert_eq!(masses, [25.0, 50.0, 75.0, 100.0, 98.5]);
    let Answer::Yes(why) = &account.verdict.limit else { panic!("{:?}", account.verdict.limit) };
    assert!(why.contains("none weighed"), "what is left of a bag that was never weighed is not weighed: {why}");
}

#[test]
fn a_bag_that_burst_stays_lighter_in_the_next_run() {
    let mut diary = Diary::begin(&plan());
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).gauge(0.0);
    (1..=4).for_each(|step| {
        diary.placed(step);
    });
    let deviation = Deviation::LostMass { step: 2, lost_kg: 1.5 };
    diary.add(Entry::Deviation { deviation, why: "a seam tore".to_owned() });
    // The hold comes a bag later: four of them do not make limit load any more.
    diary.placed(5).read(5).held("limit", 4.0).gauge(3.1).take_all_off().gauge(0.2);
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare));
    (1..=6).for_each(|step| {
        diary.placed(step);
    });
    diary.held("ultimate", 3.5);
    let verdict = Account::of(&diary.log).expect("a day").verdict;
    let Answer::No(why) = &verdict.ultimate else { panic!("{:?}", verdict.ultimate) };
    assert!(why.contains("148.5 kg") && why.contains("less than ultimate load was on the seat"), "{why}");
}

/// A day with everything that a report asks for and a bag that burst, as this program wrote it in format 2, which is
/// frozen. The file is kept: what is read of it must not change.
#[test]
fn a_kept_log_of_format_2_tells_its_details() {
    let log = Log::read(include_str!("../../../../tests/files/v2-report-details.testday")).expect("sound");
    let account = Account::of(&log).unwrap_or_else(|error| panic!("{error}"));
    let day = &account.day;
    assert_eq!(day.format, 2);
    assert_eq!(day.detail(&Field::Serial), Some(&Said::Text("S/N 008".to_owned())), "as it was put right");
    assert_eq!(day.detail(&Field::Temperature), Some(&Said::Number(18.5)));
    let zero = day.zero_return(&Device::Scale("left scale".to_owned())).expect("read before and after");
    assert!((zero.moved - 0.1).abs() < 1e-12 && zero.is_back() == Some(true), "{zero:?}");
    assert_eq!(day.instrument(&Device::Gauge("pan".to_owned()), Item::Range), Some(&Said::Text("10 mm".to_owned())));
    let found: Vec<_> = day.inspections.iter().map(|(_, seen)| (seen.after, seen.found.as_deref())).collect();
    assert_eq!(found, [(LookedAfter::Limit, None), (LookedAfter::GivenUp, Some("one rivet loose"))]);
    assert!((day.run().on_seat_kg()).abs() < 1e-9 && day.run().losses().count() == 1);
    let caption = |line: &testday::Line| match &line.entry {
        Entry::Photograph { caption, .. } => Some(caption.clone()),
        _ => None,
    };
    assert_eq!(log.lines().iter().filter_map(caption).collect::<Vec<_>>(), ["the pan after limit"]);
    let verdict = &account.verdict;
    assert_eq!([verdict.limit.word(), verdict.ultimate.word(), verdict.set.word()], ["yes", "no", "yes"]);
}

#[test]
fn details_are_written_as_lines_and_read_back() {
    let mut diary = limit_run();
    let photograph = |caption: &str| Entry::Photograph {
        path: "a.jpg".to_owned(),
        sha256: "ab".repeat(32),
        caption: caption.to_owned(),
    };
    let inspection =
        Inspection { after: LookedAfter::Limit, place: "welds".to_owned(), found: None, by: "A. Builder".to_owned() };
    diary.add(says(Field::Paragraph, "23.305")).add(of_scale(Item::ZeroBefore, 0.1)).add(photograph("the pan"));
    diary.add(photograph("")).add(Entry::Inspected(inspection));
    let read = Log::read(&diary.text).expect("sound");
    assert_eq!(read.lines(), diary.log.lines());
    assert_eq!(diary.text.matches("caption").count(), 1, "no caption is not written");
}
