//! What stops the day by itself, and what nobody can sign away.

use crate::bench::{self, Diary, refused};
use plan::{CatchBlock, Plan};
use quantity::{Length, Mass};
use testday::{
    Account, Day, Deviation, Entry, Ground, Limit, Log, Next, Outlook, Passed, StopGround, diagnose, limits_passed,
    limits_read, stop_at_once, stop_due,
};

/// The bench with its bags so far apart that the last two lie on four, and none hangs over.
fn plan() -> Plan {
    let mut plan = bench::plan();
    for (place, x) in plan.stack.iter_mut().zip([0.0, 0.0, 0.46, 0.46, 0.23, 0.23]) {
        place.at[0] = Length::m(x);
    }
    plan
}

fn account(diary: &Diary) -> Account {
    Account::of(&diary.log).unwrap_or_else(|error| panic!("{error}"))
}

fn due(diary: &Diary) -> Option<Entry> {
    let account = account(diary);
    let outlook = Outlook::of(&account.day);
    let next = account.day.next();
    stop_due(&account, Some(&outlook), &next, &[])
}

fn against() -> Entry {
    let ground = Some(Ground::Against { name: "A. Builder".to_owned() });
    Entry::WentOn { why: "it will hold".to_owned(), ground }
}

fn found() -> Entry {
    Entry::WentOn { why: "nothing".to_owned(), ground: Some(Ground::Found) }
}

/// One bag down, and the left scale shows so much more than it should.
fn one_on(more_kg: f64) -> Diary {
    let mut diary = Diary::begin(&plan());
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).gauge(0.0);
    diary.placed(1);
    let mut reading = diary.as_expected(1);
    *reading.scales_kg.get_mut("left scale").expect("a scale") += more_kg;
    diary.add(Entry::Reading(reading));
    diary
}

#[test]
fn a_reading_that_fits_stops_nothing() {
    assert_eq!(due(&one_on(0.0)), None);
}

#[test]
fn a_reading_that_does_not_fit_stops_once_and_may_be_signed_for() {
    let mut diary = one_on(3.0);
    let stop = due(&diary).expect("it does not fit");
    let Entry::Stopped { ground: Some(StopGround::Reading { scales }), .. } = &stop else { panic!("{stop:?}") };
    assert_eq!(scales, &["left scale"]);
    diary.add(stop);
    assert_eq!(due(&diary), None, "it is stopped");
    diary.add(against());
    assert_eq!(due(&diary), None, "it was signed for");
}

#[test]
fn a_reading_far_beyond_its_band_is_signed_for_by_nobody_and_only_read_again_or_put_right() {
    let mut diary = one_on(20.0);
    let band_kg = account(&diary).judged_now().expect("read").ranges[0].expect("a scale").stop_kg;
    assert!(20.0 > 10.0 * band_kg, "ten times a band of {band_kg} kg");
    let stop = due(&diary).expect("it does not fit");
    assert!(matches!(stop, Entry::Stopped { ground: Some(StopGround::FarOff { .. }), .. }), "{stop:?}");
    diary.add(stop);
    let released =
        Entry::WentOn { why: "looked".to_owned(), ground: Some(Ground::Released { name: "A. Builder".to_owned() }) };
    for way in [against(), found(), released, Entry::WentOn { why: "so".to_owned(), ground: None }] {
        assert!(refused(&diary, way).contains("no name and no reason leads on"));
    }
    // A cause leads to another reading, and the same reading to the same stop.
    let ground = Some(Ground::Cause { cause: "left scale was entered wrong".to_owned() });
    diary.add(Entry::WentOn { why: "read again".to_owned(), ground });
    assert_eq!(diary.day().next(), Next::Read);
    let mut same = diary.as_expected(1);
    *same.scales_kg.get_mut("left scale").expect("a scale") += 20.0;
    diary.add(Entry::Reading(same));
    let again = due(&diary).expect("it still does not fit");
    assert!(matches!(again, Entry::Stopped { ground: Some(StopGround::FarOff { .. }), .. }), "{again:?}");
    diary.add(again).read(1);
    diary.add(Entry::WentOn { why: "a boot stood on it".to_owned(), ground: Some(Ground::Fits) });
    assert_eq!(diary.day().stopped, None);
}

#[test]
fn from_a_stop_by_hand_the_day_goes_on_by_name_only() {
    let mut diary = one_on(0.0);
    diary.add(Entry::Stopped {
        why: "stopped by hand".to_owned(),
        causes: Vec::new(),
        ground: Some(StopGround::ByHand),
    });
    let released = |name: &str| Entry::WentOn {
        why: "a dog barked".to_owned(),
        ground: Some(Ground::Released { name: name.to_owned() }),
    };
    assert!(refused(&diary, released("  ")).contains("type the name"));
    diary.add(released("A. Builder"));
    assert_eq!(diary.day().stopped, None);
}

#[test]
fn a_day_given_up_before_the_first_piece_asks_for_no_set_and_closes() {
    let mut diary = Diary::begin(&plan());
    diary.add(Entry::Aborted { why: "the wrong plan".to_owned() });
    assert_eq!(diary.day().next(), Next::Close);
}

/// What was left out of the order of a log: the same sentence, typed by a person, is no stop by a reading.
#[test]
fn a_stop_by_hand_with_the_words_of_another_one_answers_no_reading() {
    let mut diary = one_on(3.0);
    let why = "a reading does not fit: left scale".to_owned();
    diary.add(Entry::Stopped { why, causes: Vec::new(), ground: Some(StopGround::ByHand) }).add(found());
    assert!(matches!(due(&diary), Some(Entry::Stopped { ground: Some(StopGround::Reading { .. }), .. })));
}

#[test]
fn a_scale_beyond_its_capacity_stops_and_no_name_leads_on() {
    let mut diary = one_on(600.0);
    let stop = due(&diary).expect("beyond its capacity");
    let Entry::Stopped { why, ground: Some(StopGround::BeyondLimit { limits }), .. } = &stop else {
        panic!("{stop:?}")
    };
    assert_eq!(limits, &[Limit::ScaleOver { scale: "left scale".to_owned() }]);
    assert!(why.contains("capacity 500.0 kg"), "{why}");
    diary.add(stop);
    assert!(refused(&diary, against()).contains("no name and no reason leads on"));
    assert!(refused(&diary, found()).contains("no name and no reason leads on"));
    let strike = Entry::Correction { of: diary.log.lines().len() as u64, why: "no".to_owned(), instead: None };
    assert!(refused(&diary, strike).contains("cannot be corrected"), "nor is the stop struck out");
    // Taken off and read again.
    diary.read(1);
    diary.add(found());
    assert_eq!(diary.day().stopped, None);
}

#[test]
fn an_article_that_lifts_off_a_scale_stops_and_no_name_leads_on() {
    let mut diary = one_on(0.0);
    diary.placed(2);
    let mut reading = diary.as_expected(2);
    reading.scales_kg.insert("rear scale".to_owned(), 0.0);
    diary.add(Entry::Reading(reading));
    let stop = due(&diary).expect("it lifts off");
    let Entry::Stopped { ground: Some(StopGround::BeyondLimit { limits }), .. } = &stop else { panic!("{stop:?}") };
    assert_eq!(limits, &[Limit::LiftsOff { support: "rear scale".to_owned() }]);
    diary.add(stop);
    assert!(refused(&diary, against()).contains("no name and no reason leads on"));
    diary.add(Entry::Aborted { why: "it lifts off".to_owned() });
    assert!(matches!(diary.day().next(), Next::TakeOff { .. }), "what is in place can always come off");
}

#[test]
fn a_strap_beyond_its_working_load_and_a_scale_at_its_capacity_are_told_apart() {
    let mut reading = Diary::begin(&plan()).as_expected(1);
    reading.straps_n.insert("hold-down".to_owned(), 3000.0);
    reading.scales_kg.insert("left scale".to_owned(), 500.0);
    assert_eq!(limits_read(&plan(), None, &reading), [], "at the limit is not beyond it");
    reading.straps_n.insert("hold-down".to_owned(), 3000.1);
    assert_eq!(limits_read(&plan(), None, &reading), [Limit::StrapOver { strap: "hold-down".to_owned() }]);
}

/// The second bag far off the first one and high: it has nothing under it.
fn off_the_bed() -> Entry {
    let deviation = Deviation::OtherPlace { step: 2, at_m: [3.0, 0.0], crosswise: false };
    Entry::Deviation { deviation, why: "a tube is in the way".to_owned() }
}

#[test]
fn a_piece_with_which_the_stack_falls_is_never_lifted_by_name() {
    let mut diary = one_on(0.0);
    diary.add(off_the_bed());
    for time in 1..=2 {
        let stop = due(&diary).expect("it falls");
        let Entry::Stopped { why, ground: Some(StopGround::MustNotLoad { passed }), .. } = &stop else {
            panic!("{stop:?}")
        };
        assert!(passed.contains(&Passed { limit: Limit::StackFalls, placed: 2 }), "{passed:?}");
        assert!(why.contains("the stack as done would not stand with sand bag 2 on it (step 2 of the sheet)"), "{why}");
        diary.add(stop);
        assert!(refused(&diary, against()).contains("no name and no reason leads on"), "time {time}");
        assert!(refused(&diary, found()).contains("no name and no reason leads on"), "time {time}");
        if time == 1 {
            // Another place that is no better: it stops again.
            let deviation = Deviation::OtherPlace { step: 2, at_m: [-3.0, 0.0], crosswise: false };
            diary.add(Entry::Deviation { deviation, why: "the other way".to_owned() }).add(found());
        }
    }
    diary.add(Entry::Deviation { deviation: Deviation::LeftOut { step: 2 }, why: "left out".to_owned() }).add(found());
    assert_eq!(due(&diary), None);
    assert_eq!(diary.day().next(), Next::Lift { index: 1 });
}

#[test]
fn what_was_not_solved_is_a_limit_passed() {
    let closed = assess::assess(&plan(), assess::Ask::closed());
    assert_eq!(limits_passed(&plan(), &closed), [Passed { limit: Limit::StackNotDecided, placed: 0 }]);
    let solved = assess::assess(&plan(), assess::Ask::full());
    assert_eq!(limits_passed(&plan(), &solved), []);
}

#[test]
fn a_plan_beyond_a_capacity_or_a_working_load_passes_a_limit() {
    let mut weak = plan();
    weak.fixture.supports[0].capacity = Some(Mass::kg(60.0));
    weak.fixture.hold_downs[0].working_load = quantity::Force::n(500.0);
    let solved = assess::assess(&weak, assess::Ask::full());
    let limits: Vec<_> = limits_passed(&weak, &solved).into_iter().map(|passed| passed.limit).collect();
    assert!(limits.contains(&Limit::ScaleOver { scale: "left scale".to_owned() }), "{limits:?}");
    assert!(limits.contains(&Limit::StrapOver { strap: "hold-down".to_owned() }), "{limits:?}");
}

#[test]
fn a_plan_whose_article_goes_over_or_lifts_off_passes_a_limit() {
    let mut front = plan();
    front.fixture.hold_downs.clear();
    // All three supports behind the load: it goes over them.
    front.fixture.supports.iter_mut().for_each(|support| support.at[0] = support.at[0] + Length::m(1.5));
    let solved = assess::assess(&front, assess::Ask::full());
    let limits = limits_passed(&front, &solved);
    assert!(limits.iter().any(|passed| passed.limit == Limit::ArticleGoesOver), "{limits:?}");
}

#[test]
fn checks_that_fell_short_are_answered_for_before_the_first_piece_with_a_reason() {
    let although = |why: &str| Entry::LoadedAlthough { checks: vec!["Bag friction".to_owned()], why: why.to_owned() };
    let mut diary = Diary::begin(&plan());
    assert!(refused(&diary, although(" ")).contains("say who answers for it"));
    diary.add(although("A. Builder: measured 0.6"));
    let day = diary.day();
    let (checks, why) = day.although.as_ref().expect("kept");
    assert_eq!((checks.len(), why.as_str()), (1, "A. Builder: measured 0.6"));
    diary.placed(1);
    assert!(refused(&diary, although("late")).contains("before the first piece"));
}

#[test]
fn a_log_of_a_format_to_come_is_refused() {
    let mut log = testday::Log::default();
    let plan = plan();
    let (line, text) = log.next(
        "",
        Entry::Started {
            format: testday::FORMAT + 1,
            fingerprint: plan::file::fingerprint(&plan),
            plan: plan::file::write(&plan),
            people: String::new(),
        },
    );
    log.push(line, &text);
    let why = Day::of(&log).expect_err("a later format").to_string();
    assert_eq!(why, "the log has format 4 and this program reads formats 1 to 3");
}

#[test]
fn the_second_run_is_shown_as_the_second_with_nothing_on_it() {
    let diary = crate::bench::limit_run();
    let day = diary.day();
    assert_eq!(day.next(), Next::Tare);
    assert_eq!((day.run_of(), day.shown_run(&day.next())), ([1, 2], [2, 0]));
    let account = account(&diary);
    let due = account.tare_due();
    let empty = diary.course().after(0).expect("it stands").supports_kg.clone();
    for (range, want) in due.iter().zip(empty) {
        let got = range.expect("a scale").reading_kg;
        assert!((got - want).abs() < 1e-9, "tare of the second run: got {got} kg, want {want} kg");
    }
}

/// Whoever lays a piece sees where the stack has less reserve than is required: after the step, and nowhere else.
#[test]
fn the_outlook_names_the_steps_whose_reserve_is_below_the_required_one() {
    let day = bench::limit_run_of(&plan()).day();
    let stack = day.run().as_done().clone();
    let assessment = assess::assess(&stack, assess::Ask::checks());
    let exact = assessment.exact.as_ref().expect("solved");
    let least = |step: usize| exact.steps[step].least.reserve().map_or(f64::INFINITY, |reserve| reserve.multiplier);
    let weakest = (0..stack.steps()).map(least).fold(f64::INFINITY, f64::min);
    let mut asking = stack.clone();
    asking.allow.collapse = weakest + 1e-6;
    let outlook = Outlook::new(asking, &assessment);
    for step in 0..stack.steps() {
        let weak = outlook.weak_reserve(step + 1).is_some();
        assert_eq!(weak, least(step) < weakest + 1e-6, "step {}", step + 1);
    }
    assert!(outlook.weak_reserve(0).is_none(), "nothing lies there");
}

/// What is known of a day when its last line is entered, and the day with it.
fn last_line_of(diary: &Diary) -> (Account, Day) {
    let mut before = Log::default();
    let lines = diary.log.lines();
    for line in &lines[..lines.len() - 1] {
        before.push(line.clone(), "");
    }
    (Account::of(&before).unwrap_or_else(|error| panic!("{error}")), diary.day())
}

#[test]
fn a_reading_that_does_not_fit_stops_as_soon_as_it_is_entered_with_the_same_words_as_later() {
    let mut capacity = one_on(600.0);
    for diary in [&mut one_on(3.0), &mut capacity] {
        let (known, day) = last_line_of(diary);
        let at_once = stop_at_once(Some(&known), &day);
        assert!(at_once.is_some(), "it stops");
        let (account, causes) = (account(diary), diagnose(day.run(), &diary.course()));
        assert_eq!(at_once, stop_due(&account, None, &day.next(), &causes));
        diary.add(at_once.expect("it stops"));
        let (known, day) = last_line_of(diary);
        assert_eq!(stop_at_once(Some(&known), &day), None, "once");
    }
    let (known, day) = last_line_of(&one_on(0.0));
    assert_eq!(stop_at_once(Some(&known), &day), None, "what fits stops nothing");
    assert!(stop_at_once(None, &one_on(600.0).day()).is_some(), "a limit needs nothing known");
}

/// By hand: 15 mm of gap over the nearer block; the farther one, with less, is not under this gauge.
#[test]
fn a_gauge_that_moved_as_far_as_the_catch_block_under_it_stops_and_no_name_leads_on() {
    let block = |name: &str, x_m: f64, gap_m: f64| CatchBlock {
        name: name.to_owned(),
        at: [x_m, 0.0, 0.2].map(Length::m),
        gap: Length::m(gap_m),
    };
    let mut plan = plan();
    plan.fixture.catch_blocks = vec![block("under the pan", 1.8, 0.015), block("under the tail", 4.6, 0.002)];
    let mut diary = Diary::begin(&plan);
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).gauge(1.0);
    diary.placed(1).read(1).gauge(15.9);
    assert_eq!(due(&diary), None, "14.9 mm are less than 15");
    diary.gauge(-14.0);
    let stop = due(&diary).expect("15 mm, upward");
    let Entry::Stopped { why, ground: Some(StopGround::BeyondLimit { limits }), .. } = &stop else {
        panic!("{stop:?}")
    };
    assert_eq!(limits, &[Limit::DownOnCatch { gauge: "pan".to_owned() }]);
    assert!(why.contains("pan moved 15.0 mm") && why.contains("“under the pan”"), "{why}");
    diary.add(stop);
    assert!(refused(&diary, against()).contains("no name and no reason leads on"));
    diary.gauge(3.0);
    diary.add(found());
    assert_eq!(diary.day().stopped, None, "read again it is within");
}
