//! The printed record, read back with a reader that is not ours.

mod checklist;
mod days;
mod departures;
#[path = "../drawn/mod.rs"]
mod drawn;
mod expected;
#[path = "../laid/mod.rs"]
mod laid;
mod looked;
#[path = "../read_back/mod.rs"]
mod read_back;
mod straps;

use drafting::record;
use plan::Plan;
use read_back::texts;
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};
use testday::{Account, Course, Deviation, Entry, FORMAT, Log, Moment, Next, Reading, WayBack};

const DEMO: &str = include_str!("../../../../assets/examples/tandem-rear-seat.ron");
const INCHES: &str = include_str!("../../../../assets/examples/side-by-side.ron");

/// A day on a plan, as it might be: scales a little off, gauges in proportion to the load with some
/// set, one bag a little off, and a hold that lasts so long.
fn day(text: &str, held_s: f64) -> Log {
    static KEPT: Mutex<BTreeMap<String, Arc<OnceLock<Log>>>> = Mutex::new(BTreeMap::new());
    // How a stack comes off takes a solver, so that a day is made once for all tests.
    let key = format!("{held_s} {text}");
    let slot = Arc::clone(KEPT.lock().unwrap_or_else(PoisonError::into_inner).entry(key).or_default());
    slot.get_or_init(|| made(text, held_s)).clone()
}

fn made(text: &str, held_s: f64) -> Log {
    let mut plan = plan::file::read(text).expect("an example opens");
    plan.holds.iter_mut().for_each(|hold| hold.unload = hold.name == "limit");
    let mut log = Log::default();
    let add = |log: &mut Log, entry: Entry| {
        let (line, text) = log.next("2026-05-04 09:30:00 UTC", entry);
        log.push(line, &text);
    };
    add(
        &mut log,
        Entry::Started {
            format: FORMAT,
            fingerprint: plan::file::fingerprint(&plan),
            plan: plan::file::write(&plan),
            people: "one who lifts, one who watches".to_owned(),
        },
    );
    let course = Course::of(&plan);
    let mut account = Account::of(&log).expect("a day");
    let mut way_back = WayBack::default();
    loop {
        let next = account.day.next_by(&mut way_back);
        if next == Next::Ended {
            break;
        }
        let entry = answer(&plan, &course, &account, (next, held_s));
        if matches!(entry, Entry::Placed { step: 12 }) && account.day.runs.len() == 1 {
            let note = Entry::Note { text: "the phone of the one who watches fell".to_owned() };
            add(&mut log, note);
            let deviation = Deviation::OtherPlace { step: 12, at_m: [0.122, -0.16], crosswise: false };
            add(&mut log, Entry::Deviation { deviation, why: "2 mm aft, and left there".to_owned() });
        }
        add(&mut log, entry);
        account = account.go_on(testday::Day::of(&log).expect("what was answered fits"));
    }
    add(
        &mut log,
        Entry::Photograph {
            path: "pan-after.jpg".to_owned(),
            sha256: "ab".repeat(32),
            caption: "the pan after it".to_owned(),
        },
    );
    let instead = Some(Box::new(log.lines()[2].entry.clone()));
    add(&mut log, Entry::Correction { of: 3, why: "misread".to_owned(), instead });
    log
}

fn answer(plan: &Plan, course: &Course, account: &Account, (next, held_s): (Next, f64)) -> Entry {
    let run = account.day.run();
    let reading = |placed: usize| {
        let kg = &course.after(placed).expect("it stands").supports_kg;
        let scales = plan.fixture.supports.iter().zip(kg).filter(|(support, _)| support.scale);
        let scales_kg: BTreeMap<_, _> = scales.map(|(s, kg)| (s.name.clone(), kg + 0.1)).collect();
        Reading { scales_kg, ..Reading::default() }
    };
    let hold = |hold: usize| plan.holds[hold].name.clone();
    let strap = |binding: usize| plan.fixture.bindings[binding].name.clone();
    match next {
        Next::Gauges { gauges, moment } => {
            let under = if matches!(moment, Moment::Hold(_)) { 1e-5 * run.on_seat_kg() } else { 0.0001 };
            Entry::Gauge { gauge: plan.gauges[gauges[0]].name.clone(), reading_m: under }
        }
        Next::Tare => Entry::Tare(reading(0)),
        Next::Lift { index } => Entry::Placed { step: run.step_of(index) + 1 },
        Next::Read => Entry::Reading(reading(run.placed())),
        Next::Hold { hold: number } => Entry::HoldBegan { hold: hold(number) },
        Next::Holding { hold: number } => Entry::HoldEnded { hold: hold(number), lasted_s: held_s, unseen_s: 0.0 },
        Next::StrapOn { binding } => Entry::StrapOn { binding: strap(binding), pulls_n: Some([21.0, 23.0]) },
        Next::StrapOff { binding } => Entry::StrapOff { binding: strap(binding) },
        Next::Lean { .. } => Entry::LeanRead { shift_m: [0.001, -0.002] },
        Next::TakeOff { index } => Entry::Unloaded { step: run.step_of(index) + 1 },
        Next::Stopped => Entry::WentOn { why: "nothing was found".to_owned(), ground: None },
        Next::Close | Next::Ended => Entry::Ended { by: "the builder".to_owned() },
    }
}

/// What a log tells takes a solver too: once for all tests.
fn account(log: &Log) -> Account {
    static KEPT: Mutex<BTreeMap<String, Arc<OnceLock<Account>>>> = Mutex::new(BTreeMap::new());
    let key = log.fingerprint().to_owned();
    let slot = Arc::clone(KEPT.lock().unwrap_or_else(PoisonError::into_inner).entry(key).or_default());
    slot.get_or_init(|| Account::of(log).expect("a day")).clone()
}

fn printed(log: &Log) -> Vec<u8> {
    record::pdf(log, &account(log)).expect("a record prints")
}

#[test]
fn the_same_log_prints_the_same_bytes_and_every_page_carries_the_cautions() {
    let log = day(DEMO, 3.4);
    let bytes = printed(&log);
    let again = record::pdf(&log, &Account::of(&log).expect("a day")).expect("a record prints");
    assert!(bytes == again, "two prints differ");
    let pages = texts(&bytes);
    for (index, page) in pages.iter().enumerate() {
        let number = format!("page {} of {}", index + 1, pages.len());
        let due = [drafting::cautions::STRIP, drafting::cautions::DECIDES, "Test record", &number, log.fingerprint()];
        for due in due {
            assert!(page.contains(due), "page {}: no {due:?} in {page}", index + 1);
        }
    }
}

#[test]
fn the_verdict_stands_on_the_first_page_with_its_numbers() {
    let pages = texts(&printed(&day(DEMO, 3.4)));
    let first = &pages[0];
    for due in [
        "Limit load held?",
        "Ultimate load held for 3 s? yes",
        "held 3.4 s",
        "Permanent set after limit within what is allowed? yes",
    ] {
        assert!(first.contains(due), "no {due:?} in {first}");
    }
    let short = texts(&printed(&day(DEMO, 2.9)));
    assert!(short[0].contains("Ultimate load held for 3 s? no"), "{}", short[0]);
    for page in &short {
        assert!(page.contains("ULTIMATE LOAD NOT SHOWN"), "{page}");
    }
}

#[test]
fn every_placement_of_every_run_stands_in_the_record() {
    let log = day(DEMO, 3.4);
    let plan = plan::file::read(DEMO).expect("an example opens");
    let all = texts(&printed(&log)).join(" ");
    for step in 0..plan.steps() {
        // Once a run in which it was put down, and once more in the log.
        let due = format!("{} {}", step + 1, plan.piece_name(step));
        assert!(all.contains(&due), "no {due:?}");
    }
    // As `answer` reads it, at each of the two holds of run 1 and the one of run 2.
    let leans = all.matches("lean 1.0 mm aft and 2.0 mm left").count();
    assert_eq!(leans, plan.holds.len(), "a lean at every hold");
    for due in [
        "How the top of the stack stood",
        "Run 1 of 2",
        "Run 2 of 2",
        "pan-after.jpg",
        "the phone of the one who watches fell",
        "misread",
        "09:30:00",
        "placed at x 122 mm, y -160 mm of the bed, lengthwise",
        "inspector or engineer",
    ] {
        assert!(all.contains(due), "no {due:?}");
    }
}

/// The demo's day up to its second hold, with a settlement of twice what is expected at both.
fn a_soft_day() -> Log {
    let mut log = Log::default();
    let add = |log: &mut Log, entry: Entry| {
        let (line, text) = log.next("2026-05-04 09:30:00 UTC", entry);
        log.push(line, &text);
    };
    for line in day(DEMO, 3.4).lines() {
        if let Entry::LeanRead { .. } = line.entry {
            let run = testday::Day::of(&log).expect("a day").run().clone();
            let sinks_m = assess::expect::sinks_m(run.as_done(), run.placed()).expect("it stands");
            add(&mut log, Entry::SettlementRead { sinks_m: 2.0 * sinks_m });
        }
        add(&mut log, line.entry.clone());
        let leans = log.lines().iter().filter(|line| matches!(line.entry, Entry::LeanRead { .. })).count();
        if leans == 2 {
            break;
        }
    }
    log
}

#[test]
fn settlements_and_what_they_tell_of_the_bags_stand_in_the_record() {
    let log = a_soft_day();
    let account = account(&log);
    let softer = account.softer.as_ref().expect("two holds");
    let all = texts(&printed(&log)).join(" ");
    for (read, due) in account.settlements(0) {
        let due = due.expect("it stands");
        let [from, to] = due.fits_from_to_m(2.0).map(|m| format!("{:.2} mm", 1e3 * m));
        // By hand: twice what is due is beyond a fifth and 3 mm once that is more than 3.75 mm.
        let fits = if due.usual_m > 0.00375 { "no" } else { "yes" };
        let row = format!("sinking {:.2} mm {:.2} mm ({from} to {to}) {fits}", 1e3 * read.sinks_m, 1e3 * due.usual_m);
        assert!(all.contains(&row), "no {row:?} in {all}");
    }
    let told = format!("the bags give {:.2} ± {:.2} times (2 s.d.) as much as planned", softer.factor, softer.within);
    assert!(all.contains(&told), "no {told:?}");
}

#[test]
fn what_gauges_showed_stands_beside_what_they_moved_and_who_closed_the_day_beside_the_time() {
    let log = day(DEMO, 3.4);
    let all = texts(&printed(&log)).join(" ");
    let said = |due: &str| assert!(all.contains(due), "no {due:?} in {all}");
    said("read before read after set");
    said("0.10 mm 0.10 mm 0.00 mm");
    said("by the builder, 2026-05-04 09:30:00 UTC");
    // By hand: what lies there at ultimate, of the pieces' own masses.
    let account = account(&log);
    let greatest = account.verdict.greatest.as_deref().expect("something lay there");
    let plan = &account.day.plan;
    let kg: f64 = plan.stack.iter().map(|place| quantity::Quantity::si(plan.mass_of(place))).sum();
    assert!(greatest.starts_with(&format!("{kg:.1} kg by the pieces, ")), "got {greatest}, want {kg:.1} kg");
    said(greatest);
}

#[test]
fn a_reading_far_off_stands_at_the_edge_of_its_chart_with_its_value() {
    let mut log = day(DEMO, 3.4);
    let number = log.lines().iter().find(|line| matches!(line.entry, Entry::Reading(_))).expect("a reading").number;
    let Entry::Reading(mut slip) = log.lines()[number as usize - 1].entry.clone() else { panic!("a reading") };
    *slip.scales_kg.values_mut().next().expect("a scale") += 90.0;
    let instead = Some(Box::new(Entry::Reading(slip)));
    let (line, text) =
        log.next("2026-05-04 09:30:00 UTC", Entry::Correction { of: number, why: "test".to_owned(), instead });
    log.push(line, &text);
    let account = account(&log);
    let chart = record::residuals(&account, 0, [170.0, 60.0]).expect("scales were read");
    let share = account.judged(0)[0].off_share(0).expect("read");
    assert_eq!(chart.notes, [([1.0, 2.0], format!("front cell {share:+.1}"))]);
    assert!(chart.span[1][1] < 3.0, "the band stays in sight: {:?}", chart.span);
}

#[test]
fn a_load_beside_the_point_is_told_with_its_side_and_never_with_a_sign() {
    let plan = plan::file::read(DEMO).expect("an example opens");
    let all = texts(&printed(&day(DEMO, 3.4))).join(" ");
    assert!(all.contains("of the occupant point where"), "the place is told in words");
    for wrong in ["mm right -", "right -", "aft -", "less what"] {
        assert!(!all.contains(wrong), "{}: {wrong:?}", plan.title);
    }
}

#[test]
fn a_day_that_goes_on_says_that_it_is_not_closed() {
    let mut log = Log::default();
    for line in day(INCHES, 3.4).lines().iter().take(12) {
        let (line, text) = log.next(&line.at, line.entry.clone());
        log.push(line, &text);
    }
    let pages = texts(&printed(&log));
    assert!(pages.iter().all(|page| page.contains("NOT CLOSED")), "{pages:?}");
    assert!(pages[0].contains("not shown"), "{}", pages[0]);
    assert!(!pages[0].contains("3 s? yes"), "{}", pages[0]);
}

#[test]
fn the_table_of_entries_has_a_row_for_every_line_with_its_numbers() {
    let log = day(DEMO, 3.4);
    let text = record::csv(&log, &account(&log));
    let (cautions, table) = text.split_once("\r\n").expect("a line of cautions before the table");
    assert!(cautions.contains(drafting::cautions::CAUTION_LINE), "{cautions}");
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let head: Vec<String> = reader.headers().expect("a head").iter().map(str::to_owned).collect();
    let column = |name: &str| head.iter().position(|h| h == name).unwrap_or_else(|| panic!("no {name} in {head:?}"));
    let rows: Vec<_> = reader.records().map(|row| row.expect("a row")).collect();
    assert_eq!(rows.len(), log.lines().len());
    let (scale, value, kind) = (column("left cell, kg"), column("value"), column("kind"));
    for (row, line) in rows.iter().zip(log.lines()) {
        assert_eq!(row[0], line.number.to_string());
        assert_eq!(&row[kind], line.entry.word());
        match &line.entry {
            Entry::Reading(reading) => assert_eq!(row[scale].parse().ok(), reading.scale_kg("left cell")),
            Entry::Gauge { reading_m, .. } => assert_eq!(row[value].parse().ok(), Some(*reading_m)),
            _ => {}
        }
    }
}

#[test]
fn charts_show_every_gauge_and_every_scale() {
    let log = day(DEMO, 3.4);
    let account = account(&log);
    let plan = &account.day.plan;
    for run in 0..2 {
        let chart = record::deflections(&account, run, [170.0, 60.0]).expect("gauges were read");
        assert_eq!(chart.curves.len(), plan.gauges.len());
        // From nothing over the holds back to nothing.
        let holds = plan.runs()[run].holds.len();
        assert!(chart.curves.iter().all(|curve| curve.points.len() == holds + 2), "{chart:?}");
        assert!(chart.curves[0].points.last().is_some_and(|point| point[1].abs() < 1e-9));
        let chart = record::residuals(&account, run, [170.0, 60.0]).expect("scales were read");
        assert_eq!(chart.curves.len(), 3);
        let worst = chart.curves.iter().flat_map(|c| &c.points).map(|p| p[1].abs()).fold(0.0, f64::max);
        assert!(worst < 1.0, "a day without a fault stays inside: {worst}");
    }
}

/// For looking at: `LOADCAIRN_RECORD=out.pdf cargo test -p drafting --test record looked`.
#[test]
fn a_record_to_be_looked_at_has_more_than_four_pages() {
    let bytes = printed(&day(INCHES, 3.4));
    assert!(texts(&bytes).len() > 4);
    if let Some(path) = std::env::var_os("LOADCAIRN_RECORD") {
        std::fs::write(path, printed(&checklist::with_all(&day(DEMO, 3.4)))).expect("written");
    }
}

#[test]
fn what_the_plan_says_of_an_instrument_stands_where_nobody_entered_it_on_the_day() {
    let mut plan = plan::file::read(DEMO).expect("an example opens");
    let mut cell = plan::Instrument::named("front cell");
    cell.number = "LC-7".to_owned();
    plan.instruments = vec![cell];
    let log = day(&plan::file::write(&plan), 3.4);
    let all = texts(&printed(&log)).join(" ");
    assert!(all.contains("front cell scale LC-7 (plan) not entered not entered"), "{all}");
}
