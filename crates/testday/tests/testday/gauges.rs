//! What gauges tell: how far they moved, whether that is as expected, and what is not known because they were not read
//! before loading.

use crate::bench::{self, Diary};
use plan::{CatchBlock, Plan};
use quantity::Length;
use testday::{Account, Day, Entry, Expectation, Ground, Limit, Moment, Next, StopGround, stop_at_once};

fn caught() -> Plan {
    let mut plan = bench::plan();
    let at = [1.8, 0.0, 0.2].map(Length::m);
    plan.fixture.catch_blocks = vec![CatchBlock { name: "under the pan".to_owned(), at, gap: Length::m(0.015) }];
    plan
}

/// The bench with 4 mm at limit and 6 mm at ultimate load expected, 0.5 mm either way.
fn expecting() -> Plan {
    let mut plan = bench::plan();
    let gauge = &mut plan.gauges[0];
    gauge.expected_at_limit = Some(Length::m(0.004));
    gauge.expected_at_ultimate = Some(Length::m(0.006));
    gauge.expected_within = Some(Length::m(0.0005));
    plan
}

fn account(diary: &Diary) -> Account {
    Account::of(&diary.log).unwrap_or_else(|error| panic!("{error}"))
}

/// One bag down with the gauge read, or not, before it.
fn one_on(plan: &Plan, before_mm: Option<f64>) -> Diary {
    let mut diary = Diary::begin(plan);
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare));
    if let Some(mm) = before_mm {
        diary.gauge(mm);
    }
    diary.placed(1).read(1);
    diary
}

#[test]
fn gauges_are_asked_for_before_the_first_piece() {
    let mut diary = Diary::begin(&bench::plan());
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare));
    assert_eq!(diary.day().next(), Next::Gauges { gauges: vec![0], moment: Moment::Before });
    diary.gauge(0.1);
    assert_eq!(diary.day().next(), Next::Lift { index: 0 });
}

/// A gauge that shows 3 mm may have stood at nothing or at 30 mm before.
#[test]
fn a_gauge_that_was_not_read_before_loading_has_not_stood_at_nothing_and_stops_over_a_catch_block() {
    let mut diary = one_on(&caught(), None);
    diary.gauge(3.0);
    let Some(Entry::Stopped { why, ground, .. }) = stop_at_once(None, &diary.day()) else { panic!("it stops") };
    let limits = vec![Limit::DownOnCatch { gauge: "pan".to_owned() }];
    assert_eq!(ground, Some(StopGround::BeyondLimit { limits }));
    assert_eq!(
        why,
        "pan was not read before loading: how far it has moved is not known, nor whether the article is down on the catch block “under the pan”"
    );
    diary.add(Entry::Stopped { why, causes: Vec::new(), ground });
    diary.gauge(0.0);
    for ground in [Ground::Found, Ground::Fits, Ground::Against { name: "A. Builder".to_owned() }] {
        let on = Entry::WentOn { why: "it reads little".to_owned(), ground: Some(ground) };
        let why = Day::admits(&diary.log, &on).expect_err("nobody leads on").to_string();
        assert!(why.contains("no name and no reason leads on"), "{why}");
    }
    let mut read = one_on(&caught(), Some(0.0));
    read.gauge(3.0);
    assert_eq!(stop_at_once(None, &read.day()), None, "3 of 15 mm");
    let mut free = one_on(&bench::plan(), None);
    free.gauge(3.0);
    assert_eq!(stop_at_once(None, &free.day()), None, "there is nothing that it could be down on");
}

/// Until format 3 such a gauge was taken as if it had stood at zero, and reading it again led on.
#[test]
fn an_older_log_that_went_on_past_a_gauge_that_was_not_read_before_loading_opens() {
    let mut diary = one_on(&caught(), None);
    diary.gauge(16.0);
    let limits = vec![Limit::DownOnCatch { gauge: "pan".to_owned() }];
    let ground = Some(StopGround::BeyondLimit { limits });
    diary.add(Entry::Stopped { why: "16 of 15 mm".to_owned(), causes: Vec::new(), ground }).gauge(3.0);
    let on = Entry::WentOn { why: "it was misread".to_owned(), ground: Some(Ground::Found) };
    assert!(Day::admits(&diary.log, &on).is_err(), "today nobody leads on");
    let mut old = diary.of_format(2);
    old.add(on).placed(2);
    assert_eq!(old.day().stopped, None);
}

/// Older logs have such gauges beside stops of other kinds: they keep opening.
#[test]
fn a_stop_of_another_kind_is_released_beside_a_gauge_that_was_not_read_before_loading() {
    let mut diary = one_on(&caught(), None);
    diary.gauge(3.0);
    let limits = vec![Limit::ScaleOver { scale: "left scale".to_owned() }];
    let ground = Some(StopGround::BeyondLimit { limits });
    diary.add(Entry::Stopped { why: "over".to_owned(), causes: Vec::new(), ground });
    diary.read(1);
    diary.add(Entry::WentOn { why: "read again".to_owned(), ground: Some(Ground::Fits) });
    assert_eq!(diary.day().stopped, None);
}

#[test]
fn without_scales_the_second_run_asks_for_its_gauges_before_its_first_piece() {
    let mut plan = bench::plan();
    plan.fixture.supports.iter_mut().for_each(|support| support.scale = false);
    let mut diary = Diary::begin(&plan);
    diary.gauge(0.0);
    for step in 1..=4 {
        diary.placed(step);
    }
    diary.held("limit", 4.0).gauge(3.1).take_all_off().gauge(0.2);
    let day = diary.day();
    let next = day.next();
    assert_eq!(next, Next::Gauges { gauges: vec![0], moment: Moment::Before });
    assert_eq!(day.shown_run(&next), [2, 0]);
    diary.gauge(0.3);
    let day = diary.day();
    assert_eq!((day.runs.len(), day.next()), (2, Next::Lift { index: 0 }));
    assert_eq!(day.runs[0].gauge_m(0, Moment::After), Some(0.2e-3), "the first run keeps its own");
    assert_eq!(day.run().gauge_m(0, Moment::Before), Some(0.3e-3));
}

/// By hand: four bags of 25 kg are limit load, where 4.0 ± 0.5 mm was expected.
#[test]
fn a_deflection_beside_what_was_expected_stops_nothing_and_is_told_to_whoever_reads_the_verdict() {
    for (read_mm, expectation) in [(4.4, Expectation::Met), (4.6, Expectation::Missed), (3.4, Expectation::Missed)] {
        let mut diary = Diary::begin(&expecting());
        let tare = diary.as_expected(0);
        diary.add(Entry::Tare(tare)).gauge(0.0);
        for step in 1..=4 {
            diary.placed(step).read(step);
        }
        diary.held("limit", 4.0).gauge(read_mm);
        assert_eq!(stop_at_once(None, &diary.day()), None, "an expectation is no limit");
        let account = account(&diary);
        let judged = account.deflections(0);
        assert_eq!(judged.len(), 1, "one reading under load");
        assert_eq!(judged[0].expectation(), expectation, "{read_mm} mm");
        let told = account.reservations();
        if expectation == Expectation::Met {
            assert!(told.is_empty(), "{told:?}");
            continue;
        }
        let way = if read_mm > 4.0 { "0.60 mm more" } else { "0.60 mm less" };
        let want = format!(
            "pan: outside what was expected at 1 of 1 reading under load, farthest at “limit” in run 1: bent {read_mm:.2} mm, expected 4.00 mm ± 0.50 mm, {way}."
        );
        assert_eq!(told, [want]);
    }
}

#[test]
fn a_deflection_is_not_known_where_the_gauge_was_not_read_before_loading() {
    let mut diary = one_on(&expecting(), None);
    diary.gauge(1.0);
    let account = account(&diary);
    assert_eq!(account.deflections(0)[0].expectation(), Expectation::NotKnown);
    assert_eq!(account.reservations(), ["pan was not read before loading in run 1: how far it moved is not known."]);
}

#[test]
fn where_nothing_was_expected_nothing_is_told_as_met() {
    let mut diary = one_on(&bench::plan(), Some(0.0));
    diary.gauge(1.0);
    assert_eq!(account(&diary).deflections(0)[0].expectation(), Expectation::NotGiven);
}
