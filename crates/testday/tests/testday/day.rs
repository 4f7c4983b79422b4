//! Where the day stands, entry by entry.

use crate::bench::{Diary, limit_run, plan, three_on, whole_day};
use testday::{Account, Course, Day, Deviation, Entry, Ground, Moment, Next, Reading, Stage, StopGround, WayBack};

#[test]
fn the_day_asks_for_one_thing_after_another() {
    let mut diary = Diary::begin(&plan());
    assert_eq!(diary.day().next(), Next::Tare);
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare));
    assert_eq!(diary.day().next(), Next::Gauges { gauges: vec![0], moment: Moment::Before });
    diary.gauge(0.0);
    for step in 1..=4 {
        assert_eq!(diary.day().next(), Next::Lift { index: step - 1 });
        diary.placed(step);
        assert_eq!(diary.day().next(), Next::Read);
        diary.read(step);
    }
    assert_eq!(diary.day().next(), Next::Hold { hold: 0 });
    diary.add(Entry::HoldBegan { hold: "limit".to_owned() });
    assert_eq!(diary.day().next(), Next::Holding { hold: 0 });
    diary.add(Entry::HoldEnded { hold: "limit".to_owned(), lasted_s: 3.5, unseen_s: 0.0 });
    assert_eq!(diary.day().next(), Next::Gauges { gauges: vec![0], moment: Moment::Hold(0) });
    diary.gauge(3.0);
    assert_eq!(diary.day().next(), Next::Lean { hold: 0 });
    diary.straight();
    assert!(matches!(diary.day().next(), Next::TakeOff { .. }), "limit is followed by an unloading");
    diary.take_all_off();
    assert_eq!(diary.day().next(), Next::Gauges { gauges: vec![0], moment: Moment::After });
    diary.gauge(0.1);
    assert_eq!(diary.day().next(), Next::Tare, "the second run begins with its own tare");
}

#[test]
fn a_whole_day_ends_with_both_runs_done() {
    let diary = whole_day(4.0);
    let day = diary.day();
    assert_eq!(day.next(), Next::Ended);
    assert_eq!(day.run_of(), [2, 2]);
    assert!(day.runs.iter().all(|run| run.stage == Stage::Done && run.on_seat().is_empty()));
    assert_eq!(day.runs[0].off.len(), 4);
    assert_eq!(day.runs[1].off.len(), 6);
    let more = Entry::Placed { step: 1 };
    let why = Day::admits(&diary.log, &more).expect_err("the day is over").to_string();
    assert_eq!(why, "the day is over: only notes, photographs, report details, inspections and corrections can follow");
}

#[test]
fn nothing_is_put_on_out_of_turn_or_while_the_day_is_stopped() {
    let mut diary = Diary::begin(&plan());
    let refused = |diary: &Diary, entry: Entry| Day::admits(&diary.log, &entry).expect_err("refused").to_string();
    assert_eq!(refused(&diary, Entry::Placed { step: 2 }), "step 1 comes next, not step 2");
    diary.placed(1).add(Entry::Stopped {
        why: "a noise".to_owned(),
        causes: Vec::new(),
        ground: Some(StopGround::ByHand),
    });
    assert_eq!(diary.day().next(), Next::Stopped);
    assert_eq!(refused(&diary, Entry::Placed { step: 2 }), "the day is stopped (a noise): enter first what was found");
    diary.add(Entry::WentOn { why: "a bag settled".to_owned(), ground: Some(Ground::Found) }).placed(2);
    let strange = Reading { scales_kg: [("front scale".to_owned(), 1.0)].into(), ..Reading::default() };
    assert_eq!(refused(&diary, Entry::Reading(strange)), "“front scale” is no scale or strap of the plan");
    assert_eq!(
        refused(&diary, Entry::Ended { by: String::new() }),
        "pieces are on the seat: take them off before the day ends"
    );
}

#[test]
fn given_up_what_lies_on_the_seat_comes_off_from_the_top() {
    let mut diary = Diary::begin(&plan());
    for step in 1..=5 {
        diary.placed(step);
    }
    diary.add(Entry::Aborted { why: "the pan buckled".to_owned() });
    let day = diary.day();
    assert_eq!(day.next(), Next::TakeOff { index: 4 }, "the fifth bag lies on the others");
    diary.take_all_off();
    assert_eq!(diary.day().next(), Next::Gauges { gauges: vec![0], moment: Moment::After });
    diary.gauge(9.0);
    assert_eq!(diary.day().next(), Next::Close, "no second run after giving up");
    let why = Day::admits(&diary.log, &Entry::Placed { step: 1 }).expect_err("given up").to_string();
    assert_eq!(why, "pieces come off now: nothing can be put on");
}

#[test]
fn a_hold_that_nobody_watched_to_its_end_begins_anew() {
    let mut diary = Diary::begin(&plan());
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).gauge(0.0);
    for step in 1..=4 {
        diary.placed(step).read(step);
    }
    diary.add(Entry::HoldBegan { hold: "limit".to_owned() }).add(Entry::Resumed);
    assert_eq!(diary.day().next(), Next::Hold { hold: 0 });
}

#[test]
fn another_piece_changes_places_and_stays_for_the_rest_of_the_day() {
    let mut diary = Diary::begin(&plan());
    let deviation = Deviation::OtherPiece { step: 2, lot: "sand bag".to_owned(), item: 5 };
    diary.add(Entry::Deviation { deviation, why: "bag 2 was torn".to_owned() });
    let day = diary.day();
    let items: Vec<u32> = day.run().as_done().stack.iter().map(|place| place.item).collect();
    assert_eq!(items, [1, 5, 3, 4, 2, 6]);
    assert_eq!(day.plan.stack[1].item, 2, "the plan as tested stays as it is");
    for step in 1..=4 {
        diary.placed(step);
    }
    diary.take_all_off().gauge(0.0);
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare));
    let items: Vec<u32> = diary.day().run().as_done().stack.iter().map(|place| place.item).collect();
    assert_eq!(items, [1, 5, 3, 4, 2, 6], "in the second run too");
}

#[test]
fn a_piece_found_missing_is_taken_out_of_what_was_placed() {
    let mut diary = Diary::begin(&plan());
    for step in 1..=3 {
        diary.placed(step);
    }
    diary.add(Entry::Deviation { deviation: Deviation::LeftOut { step: 3 }, why: "it lay on the pallet".to_owned() });
    let day = diary.day();
    assert_eq!(day.run().placed(), 2);
    assert_eq!(day.run().last_on, Some(1));
    assert_eq!(day.run().step_of(2), 3, "step 4 of the plan comes next");
    diary.placed(4);
    assert_eq!(diary.day().run().placed(), 3);
    let again = Entry::Deviation { deviation: Deviation::LeftOut { step: 3 }, why: String::new() };
    let why = Day::admits(&diary.log, &again).expect_err("it is out already").to_string();
    assert_eq!(why, "step 3 is not in the stack as it is done");
}

#[test]
fn a_correction_counts_in_the_place_of_the_line_that_it_names() {
    let mut diary = Diary::begin(&plan());
    let mut tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare.clone()));
    tare.scales_kg.insert("left scale".to_owned(), 55.0);
    let instead = Some(Box::new(Entry::Tare(tare)));
    diary.add(Entry::Correction { of: 2, why: "misread".to_owned(), instead });
    assert_eq!(diary.day().run().tare.as_ref().and_then(|t| t.reading.scale_kg("left scale")), Some(55.0));
    diary.placed(1).placed(2);
    diary.add(Entry::Correction { of: 5, why: "not put down yet".to_owned(), instead: None });
    assert_eq!(diary.day().run().placed(), 1);
    assert_eq!(diary.log.lines().len(), 6, "nothing is taken out of the log");
}

#[test]
fn a_correction_that_would_make_the_day_impossible_is_refused() {
    let mut diary = limit_run();
    let first = diary.log.lines().iter().find(|line| matches!(line.entry, Entry::Placed { step: 1 })).expect("placed");
    let (first, number) = (first.clone(), diary.log.lines().len() as u64 + 1);
    let strike = Entry::Correction { of: first.number, why: String::new(), instead: None };
    let why = Day::admits(&diary.log, &strike).expect_err("others lie on it").to_string();
    assert!(why.contains("scales are read while pieces are on the seat"), "{why}");
    let ahead = Entry::Correction { of: number + 5, why: String::new(), instead: None };
    let why = Day::admits(&diary.log, &ahead).expect_err("no such line").to_string();
    assert_eq!(why, "a correction names an earlier line, and there is no such line");
    let other = Entry::Correction { of: first.number, why: String::new(), instead: Some(Box::new(Entry::Resumed)) };
    let why = Day::admits(&diary.log, &other).expect_err("another kind").to_string();
    assert!(why.contains("must be of the same kind"), "{why}");
    let started = Entry::Correction { of: 1, why: String::new(), instead: None };
    assert!(Day::admits(&diary.log, &started).is_err());
    diary.add(Entry::Note { text: "still sound".to_owned() });
    diary.day();
}

#[test]
fn a_log_with_another_plan_than_its_fingerprint_is_refused() {
    let (mut one, mut log) = (plan(), testday::Log::default());
    let fingerprint = plan::file::fingerprint(&one);
    one.title = "another".to_owned();
    let entry =
        Entry::Started { format: testday::FORMAT, fingerprint, plan: plan::file::write(&one), people: String::new() };
    let (line, text) = log.next("", entry);
    log.push(line, &text);
    let why = Day::of(&log).expect_err("not that plan").to_string();
    assert_eq!(why, "the plan in the first line is not the one that its fingerprint stands for");
}

#[test]
fn after_a_stop_one_goes_on_upon_a_ground_only() {
    let mut diary = Diary::begin(&plan());
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).gauge(0.0);
    diary.placed(1).read(1).add(Entry::Stopped {
        why: "a reading does not fit".to_owned(),
        causes: Vec::new(),
        ground: Some(StopGround::ByHand),
    });
    let refused = |diary: &Diary, entry: Entry| Day::admits(&diary.log, &entry).expect_err("refused").to_string();
    let went_on = |why: &str, ground: Ground| Entry::WentOn { why: why.to_owned(), ground: Some(ground) };
    let nameless = Ground::Against { name: " ".to_owned() };
    assert!(refused(&diary, went_on("it drifts", nameless)).contains("type the name"));
    assert!(refused(&diary, went_on(" ", Ground::Fits)).contains("what was found"));
    // A mended cause is shown by another reading before anything else goes on.
    diary.add(went_on("put there", Ground::Cause { cause: "sand bag 1 is missing".to_owned() }));
    assert_eq!(diary.day().next(), Next::Read);
    diary.read(1);
    assert_eq!(diary.day().next(), Next::Lift { index: 1 });
    assert!(refused(&diary, went_on("nothing", Ground::Found)).contains("there is no stop"));
}

#[test]
fn logs_of_before_grounds_and_causes_were_kept_read_the_same() {
    let old = r#"{"WentOn":{"why":"a bag settled"}}"#;
    let entry: Entry = serde_json::from_str(old).expect("an old line");
    assert_eq!(entry, Entry::WentOn { why: "a bag settled".to_owned(), ground: None });
    assert_eq!(serde_json::to_string(&entry).expect("text"), old);
    let old = r#"{"Stopped":{"why":"a noise"}}"#;
    let entry: Entry = serde_json::from_str(old).expect("an old line");
    assert_eq!(serde_json::to_string(&entry).expect("text"), old);
}

/// The sheet of the same plan has the same order: after its last step and after the limit run.
#[test]
fn pieces_come_off_in_the_order_of_the_sheet() {
    // Both left ones first, beside one another, so that side to side is not the way up backwards.
    let mut plan = plan();
    for step in [2, 3] {
        plan.stack[step].at[0] = quantity::Length::m(0.5);
    }
    plan.stack.swap(1, 2);
    let sheet = assess::assess(&plan, assess::Ask::full()).exact.expect("solved");
    let mut diary = Diary::begin(&plan);
    for (run, last) in [(0, 4), (1, 6)] {
        let tare = diary.as_expected(0);
        diary.add(Entry::Tare(tare)).gauge(0.0);
        for step in 1..=last {
            diary.placed(step).read(step);
        }
        diary.held(&plan.holds[run].name, 3.5).gauge(1.0).take_all_off().gauge(0.1);
        let order = &sheet.way_back(last).expect("a run ends there").order;
        assert_eq!(&diary.day().runs[run].off, order, "run {run}");
        assert!(!order.iter().rev().is_sorted(), "side to side: {order:?}");
    }
}

#[test]
fn nothing_comes_off_while_the_day_is_stopped() {
    let mut diary = Diary::begin(&plan());
    diary.placed(1).placed(2).add(Entry::Aborted { why: "a weld cracked".to_owned() });
    diary.add(Entry::Unloaded { step: 2 }).add(Entry::Stopped {
        why: "a noise".to_owned(),
        causes: Vec::new(),
        ground: Some(StopGround::ByHand),
    });
    assert_eq!(diary.day().next(), Next::Stopped);
    let why = Day::admits(&diary.log, &Entry::Unloaded { step: 1 }).expect_err("refused").to_string();
    assert!(why.contains("the day is stopped (a noise)"), "{why}");
}

#[test]
fn a_missing_last_piece_that_is_left_out_takes_its_reading_along() {
    let mut diary = three_on();
    diary.add(Entry::Deviation { deviation: Deviation::LeftOut { step: 3 }, why: "it is torn".to_owned() });
    let run = diary.day().run().clone();
    assert_eq!(run.last_on, Some(1));
    assert_eq!(run.weighing_now().map(|weighing| weighing.last_on), Some(Some(1)));
}

#[test]
fn a_reading_while_pieces_come_off_is_held_against_what_is_left() {
    let mut diary = three_on();
    diary.placed(4).read(4).add(Entry::Aborted { why: "a noise".to_owned() });
    let account = |diary: &Diary| Account::of(&diary.log).unwrap_or_else(|error| panic!("{error}"));
    let Next::TakeOff { index } = diary.day().next() else { panic!("something comes off") };
    let step = diary.day().run().step_of(index) + 1;
    diary.add(Entry::Unloaded { step });
    let left = diary.day().run().plan_left(1);
    assert_eq!(left.steps(), 3);
    // The same three bags as a stack of their own: what a plan of them expects.
    let alone = Course::of(&left);
    let due = account(&diary).due_left();
    for (range, want) in due.iter().zip(&alone.after(3).expect("it stands").supports_kg) {
        let got = range.expect("a scale").reading_kg;
        assert!((got - want).abs() < 1e-9, "got {got} kg, want {want} kg, off {}", got - want);
    }
    let mut reading = crate::bench::reading(&left, &alone.after(3).expect("it stands").supports_kg);
    diary.add(Entry::Reading(reading.clone()));
    assert!(account(&diary).judged_left_now().expect("read now").fits());
    *reading.scales_kg.get_mut("left scale").expect("a scale") += 12.0;
    diary.add(Entry::Reading(reading));
    let misread = account(&diary);
    let judged = misread.judged_left_now().expect("read now");
    assert_eq!(judged.misfits().collect::<Vec<_>>(), [0]);
    assert_eq!((judged.placed, judged.weighing.off), (3, 1));
    assert!(matches!(diary.day().next(), Next::TakeOff { .. }), "it is told, and what is in place still comes off");
    assert_eq!(diary.day().run().weighings.len(), 4, "readings of the way up stay as they are");
    diary.take_all_off();
    let empty = diary.as_expected(0);
    diary.add(Entry::Reading(empty));
    let back = account(&diary);
    let judged = back.judged_left_now().expect("read now");
    assert!(judged.fits() && judged.placed == 0, "the empty seat shows its tare again");
}

#[test]
fn pieces_that_came_off_bottom_first_did_not_come_off_as_planned() {
    let mut diary = three_on();
    diary.placed(4).placed(5).add(Entry::Aborted { why: "a noise".to_owned() });
    let mut planned = Diary { log: diary.log.clone(), text: String::new() };
    planned.take_all_off();
    let run = planned.day().runs[0].clone();
    assert_eq!((run.first_off_otherwise(&mut WayBack::default()), run.took_from_under()), (None, false));
    (1..=5).for_each(|step| {
        diary.add(Entry::Unloaded { step });
    });
    let run = diary.day().runs[0].clone();
    assert_eq!(run.first_off_otherwise(&mut WayBack::default()), Some((Some(4), 0)), "the fifth bag was due");
    assert!(run.took_from_under(), "the fifth bag lay on the others");
}
