//! How a stack of bags leans and sinks, read at the holds: what it asks, what it stops, what it changes.

use crate::bench::{self, Diary, refused};
use plan::{Hold, Place, Plan, Softness, SoftnessFrom, Turn};
use quantity::{Length, Pressure};
use testday::{Account, Entry, Ground, Limit, Log, Next, Outlook, Softer, StopGround, as_judged, stop_due};

/// Six bags on one another, holds after three, four and six. By the plan they bear 1.3 times their weight and stand;
/// 1.5 times as soft they would fall with the sixth.
fn column() -> Plan {
    let mut plan = bench::plan();
    plan.ballast[0].softness = Some(Softness {
        modulus: Pressure::pa(0.115e6),
        rim: Some(Length::m(0.0)),
        shear_ratio: Softness::SHEAR_RATIO,
        creep_per_decade: Softness::CREEP_PER_DECADE,
        from: SoftnessFrom::Measured,
        source: String::new(),
        readings: Vec::new(),
        flat: None,
    });
    let at = [Length::m(0.2), Length::m(0.0)];
    let place = |item| Place { lot: "sand bag".to_owned(), item, at, turn: Turn::Lengthwise, locked: false };
    plan.stack = (1..=6).map(place).collect();
    plan.holds = vec![Hold::at("half", 0.5), Hold::at("limit", 0.6666), Hold::at("ultimate", 1.0)];
    plan
}

fn account(diary: &Diary) -> Account {
    Account::of(&diary.log).unwrap_or_else(|error| panic!("{error}"))
}

fn due(diary: &Diary) -> Option<Entry> {
    let account = account(diary);
    let outlook = Outlook::of(&account.day);
    stop_due(&account, Some(&outlook), &account.day.next(), &[])
}

fn against() -> Entry {
    let ground = Some(Ground::Against { name: "A. Builder".to_owned() });
    Entry::WentOn { why: "it will hold".to_owned(), ground }
}

fn begun(plan: &Plan) -> Diary {
    let mut diary = Diary::begin(plan);
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).gauge(0.0);
    diary
}

impl Diary {
    fn up_to(&mut self, placed: std::ops::RangeInclusive<usize>) -> &mut Self {
        for step in placed {
            self.placed(step).read(step);
        }
        self
    }

    fn leans(&mut self, millimetres: [f64; 2]) -> &mut Self {
        self.add(Entry::LeanRead { shift_m: millimetres.map(|mm| 1e-3 * mm) })
    }

    fn sunk(&mut self, m: f64) -> &mut Self {
        self.add(Entry::SettlementRead { sinks_m: m })
    }
}

/// The first hold is over, its gauge read.
fn at_half() -> Diary {
    let mut diary = begun(&column());
    diary.up_to(1..=3).held("half", 3.0).gauge(1.0);
    diary
}

#[test]
fn a_stack_of_bags_is_asked_how_it_leans_at_every_hold() {
    let mut diary = at_half();
    assert_eq!(diary.day().next(), Next::Lean { hold: 0 });
    let due = account(&diary).top_due().cloned().expect("it is due");
    assert_eq!((due.piece, due.name.as_str()), (2, "sand bag 3"));
    diary.straight();
    assert_eq!(diary.day().next(), Next::Lift { index: 3 });
    diary.up_to(4..=4).held("limit", 3.0).gauge(1.5);
    assert_eq!(diary.day().next(), Next::Lean { hold: 1 });
}

#[test]
fn a_stack_without_bags_is_not_asked_and_may_still_be_read() {
    let mut plan = column();
    plan.ballast[0].form = plan::Form::Solid;
    plan.ballast[0].softness = None;
    let mut diary = begun(&plan);
    diary.up_to(1..=3).held("half", 3.0).gauge(1.0);
    assert_eq!(diary.day().next(), Next::Lift { index: 3 });
    diary.leans([3.0, 0.0]);
    let account = account(&diary);
    let judged = account.lean_now().expect("it was read");
    assert!(judged.due.is_none() && judged.fits(), "nothing gives, so that nothing is due");
    assert_eq!(due(&diary), None);
    diary.leans([16.0, 0.0]);
    assert!(due(&diary).is_some(), "the limit holds all the same");
}

/// Logs of before the lean was asked for go on as they did.
#[test]
fn a_day_of_format_1_is_not_asked_for_the_lean() {
    let old = at_half().of_format(1);
    assert_eq!(old.day().next(), Next::Lift { index: 3 });
}

/// A straight column leans nowhere by the plan: what fits is the string, 2 mm, and the places, 10 mm and a little,
/// as far as six readings of a day may be off.
#[test]
fn a_lean_beyond_its_band_stops_once_and_may_be_signed_for() {
    let mut plan = column();
    plan.allow.lean = Length::m(0.06);
    let mut diary = begun(&plan);
    diary.up_to(1..=3).held("half", 3.0).gauge(1.0).leans([9.0, -9.0]);
    let fits = account(&diary).lean_now().and_then(|judged| judged.fits_from_to_m()).expect("it is due");
    assert_eq!(due(&diary), None, "{fits:?}");
    let [from_m, to_m] = fits[1];
    assert!(from_m < -0.010 && from_m > -0.025 && (from_m + to_m).abs() < 1e-9, "{fits:?}");
    diary.leans([9.0, 1e3 * from_m - 0.1]);
    let stop = due(&diary).expect("it is beyond");
    let Entry::Stopped { why, ground: Some(StopGround::Lean), .. } = &stop else { panic!("{stop:?}") };
    assert!(why.starts_with("the lean does not fit: sand bag 3 is 9.0 mm aft and "), "{why}");
    assert!(why.contains(" left of its place, where "), "{why}");
    diary.add(stop);
    assert_eq!(diary.day().next(), Next::Stopped);
    diary.add(against());
    assert_eq!(due(&diary), None, "it was signed for");
    diary.leans([9.0, -0.1]);
    assert_eq!(due(&diary), None, "and read again it fits");
}

#[test]
fn a_lean_beyond_what_is_allowed_stops_and_no_name_leads_on() {
    let mut diary = at_half();
    diary.leans([9.0, -12.0]);
    assert_eq!(due(&diary), None, "15 mm are 15 mm");
    diary.leans([9.1, -12.0]);
    let stop = due(&diary).expect("beyond 15 mm");
    let Entry::Stopped { why, ground: Some(StopGround::BeyondLimit { limits }), .. } = &stop else {
        panic!("{stop:?}")
    };
    assert_eq!(limits, &[Limit::LeansTooFar]);
    assert!(why.contains("the top piece is 15.1 mm from its place, allowed 15.0 mm"), "{why}");
    diary.add(stop);
    let found = || Entry::WentOn { why: "nothing".to_owned(), ground: Some(Ground::Found) };
    assert!(refused(&diary, against()).contains("no name and no reason leads on"));
    assert!(refused(&diary, found()).contains("no name and no reason leads on"));
    let strike = Entry::Correction { of: diary.log.lines().len() as u64, why: "no".to_owned(), instead: None };
    assert!(refused(&diary, strike).contains("cannot be corrected"), "nor is the stop struck out");
    diary.leans([9.0, -1.0]);
    diary.add(found());
    assert_eq!(diary.day().stopped, None, "read again it is within");
}

#[test]
fn a_lean_that_was_misread_is_put_right_by_a_line_of_its_own() {
    let mut diary = at_half();
    diary.leans([4.0, 0.0]);
    let of = diary.log.lines().len() as u64;
    let instead = Some(Box::new(Entry::LeanRead { shift_m: [0.016, 0.0] }));
    diary.add(Entry::Correction { of, why: "misread".to_owned(), instead });
    assert!(matches!(due(&diary), Some(Entry::Stopped { ground: Some(StopGround::BeyondLimit { .. }), .. })));
}

#[test]
fn lean_and_settlement_are_read_while_pieces_come_on() {
    let diary = begun(&column());
    let early = [Entry::LeanRead { shift_m: [0.0; 2] }, Entry::SettlementRead { sinks_m: 0.0 }];
    for entry in early {
        assert!(refused(&diary, entry).contains("while pieces come on"));
    }
    let endless = Entry::LeanRead { shift_m: [f64::NAN, 0.0] };
    assert!(refused(&at_half(), endless).contains("not a finite number"));
}

/// What three and four bags of 25 kg, 0.45 x 0.30 x 0.10 m and 0.115 MPa sink, the middle of the top one: W t n^2 /
/// (2 E A) (source key `elastic-bar`), and so many times that.
fn sinking_m(bags: f64, times: f64) -> f64 {
    let (weight_n, area_m2) = (25.0 * quantity::STANDARD_GRAVITY_M_S2, 0.45 * 0.30);
    times * weight_n * 0.10 * bags * bags / (2.0 * 0.115e6 * area_m2)
}

/// Two holds read, with bags so many times as soft as the plan has them.
fn two_holds(times: f64) -> Diary {
    let mut diary = at_half();
    diary.sunk(sinking_m(3.0, times)).straight();
    diary.up_to(4..=4).held("limit", 3.0).gauge(1.5).sunk(sinking_m(4.0, times)).straight();
    diary
}

#[test]
fn two_settlements_of_bags_half_as_soft_again_find_it_and_what_lies_ahead_is_judged_so() {
    let mut diary = at_half();
    diary.sunk(sinking_m(3.0, 1.5)).straight();
    assert_eq!(Softer::of(&diary.day()), None, "one hold tells nothing");
    assert!(Outlook::of(&diary.day()).passed(6).is_empty(), "by the plan it stands");
    let mut diary = two_holds(1.5);
    let softer = Softer::of(&diary.day()).expect("two holds");
    assert!((softer.factor - 1.5).abs() < 1e-3, "got {}, want 1.5", softer.factor);
    // By hand: 1.5 mm by the root of the sum of squares of what such bags sink.
    let root_m = sinking_m(3.0, 1.5).hypot(sinking_m(4.0, 1.5));
    let within = 2.0 * 1.5 * 0.0015 / root_m;
    assert!((softer.within - within).abs() < 1e-3, "got {}, want {within}", softer.within);
    assert!(softer.counts());
    let judged = as_judged(&diary.day());
    let modulus = judged.ballast[0].softness.as_ref().expect("soft").modulus;
    assert!((quantity::Quantity::si(modulus) - 0.115e6 / 1.5).abs() < 100.0, "{modulus:?}");
    assert_eq!(diary.day().run().as_done(), &column(), "the stack as done stays as planned");
    let outlook = Outlook::of(&diary.day());
    assert!(outlook.is_of(&diary.day()));
    assert!(outlook.passed(5).is_empty(), "five bags stand: {:?}", outlook.passed(5));
    let limits: Vec<_> = outlook.passed(6).into_iter().map(|passed| passed.limit.clone()).collect();
    assert!(matches!(limits[..], [Limit::StackFalls | Limit::StackNotDecided]), "{limits:?}");
    assert_eq!(due(&diary), None, "the fifth bag may come on");
    diary.up_to(5..=5);
    let stop = due(&diary).expect("the sixth must not be lifted");
    let Entry::Stopped { why, ground: Some(StopGround::MustNotLoad { .. }), .. } = &stop else { panic!("{stop:?}") };
    assert!(why.ends_with("with the bags 1.50 times as soft as planned, as the settlements show"), "{why}");
    diary.add(stop);
    assert!(refused(&diary, against()).contains("no name and no reason leads on"));
}

#[test]
fn an_outlook_of_before_the_settlements_is_not_the_one_of_after() {
    let (before, after) = (at_half().day(), two_holds(1.5).day());
    assert!(!Outlook::of(&before).is_of(&after));
}

/// The thickness in the plan is that of a settled bag, so that a tape can miss some: what reassures is not taken.
#[test]
fn bags_that_seem_stiffer_than_planned_change_nothing() {
    let diary = two_holds(0.6);
    let softer = Softer::of(&diary.day()).expect("two holds");
    assert!((softer.factor - 0.6).abs() < 1e-3 && !softer.counts(), "{softer:?}");
    assert_eq!(as_judged(&diary.day()), column());
    assert!(softer.words(&diary.day()).contains("changes no check"), "{}", softer.words(&diary.day()));
}

#[test]
fn settlements_that_gainsay_one_another_change_nothing() {
    let mut diary = at_half();
    diary.sunk(3.0 * sinking_m(3.0, 1.0)).straight();
    diary.up_to(4..=4).held("limit", 3.0).gauge(1.5).sunk(sinking_m(4.0, 1.0)).straight();
    let softer = Softer::of(&diary.day()).expect("two holds");
    assert!(softer.factor > 1.0 && !softer.is_known() && !softer.counts(), "{softer:?}");
    assert_eq!(as_judged(&diary.day()), column());
    assert!(softer.words(&diary.day()).contains("not known well enough"));
}

/// Known to a third only, and yet above one beyond doubt: what is not well known counts where it falls short.
#[test]
fn bags_that_are_softer_beyond_doubt_count_though_nobody_knows_by_how_much() {
    let mut diary = at_half();
    diary.sunk(2.5 * sinking_m(3.0, 1.0)).straight();
    diary.up_to(4..=4).held("limit", 3.0).gauge(1.5).sunk(1.8 * sinking_m(4.0, 1.0)).straight();
    let softer = Softer::of(&diary.day()).expect("two holds");
    assert!(!softer.is_known() && softer.factor - softer.within > 1.0 && softer.counts(), "{softer:?}");
}

#[test]
fn a_settlement_that_is_read_again_counts_once() {
    let mut diary = two_holds(1.5);
    diary.sunk(sinking_m(4.0, 1.2));
    let read: Vec<_> = Softer::of(&diary.day()).expect("two holds").read.iter().map(|read| read.hold).collect();
    assert_eq!(read, [0, 1]);
}

/// A reading is held against what was known when it was taken: bags found softer widen what fits later, not before.
#[test]
fn a_lean_is_held_against_the_bags_as_they_were_known_then() {
    let mut plan = column();
    for (place, x) in plan.stack.iter_mut().zip([0.0, 0.01, 0.0, 0.01, 0.0, 0.01]) {
        place.at[0] = Length::m(0.2 + x);
    }
    let mut diary = begun(&plan);
    let sunk = |placed: usize| 1.3 * assess::expect::sinks_m(&plan, placed).expect("it stands");
    diary.up_to(1..=3).held("half", 3.0).gauge(1.0).sunk(sunk(3)).straight();
    diary.up_to(4..=4).held("limit", 3.0).gauge(1.5).straight().sunk(sunk(4)).straight();
    let account = account(&diary);
    let sinks: Vec<_> = account.leans(0).iter().map(|judged| judged.due.expect("due").sinks.usual_m).collect();
    assert!((sinks[2] / sinks[1] - 1.3).abs() < 0.02, "{sinks:?}");
    let settled = account.settlements(0);
    assert!((settled[1].0.sinks_m - sunk(4)).abs() < 1e-12);
    let due_m = settled[1].1.expect("due").usual_m;
    assert!((due_m - sunk(4) / 1.3).abs() < 1e-9, "held against the plan: {due_m}");
}

/// A day of bags of 0.3 MPa that gave 1.2 times as much, read at three holds, as this program wrote it in format 2. The
/// file is kept: what is read of it must not change.
#[test]
fn a_kept_log_of_format_2_tells_its_leans_and_settlements() {
    let log = Log::read(include_str!("../../../../tests/files/v2-lean-and-settlement.testday")).expect("sound");
    let account = Account::of(&log).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(account.day.format, 2);
    let leans: Vec<_> = account.leans(0).iter().map(|judged| (judged.read.shift_m, judged.fits())).collect();
    assert_eq!(leans, [([0.001, -0.001], true), ([0.002, -0.001], true), ([0.003, -0.002], true)]);
    let sunk: Vec<f64> = account.settlements(0).iter().map(|(read, _)| read.sinks_m).collect();
    assert_eq!(sunk, [0.0033, 0.0058, 0.0131]);
    let softer = Softer::of(&account.day).expect("three holds");
    assert!((softer.factor - 1.2).abs() < 0.05 && softer.counts(), "{softer:?}");
    let testday::Verdict { limit, ultimate, .. } = account.verdict;
    assert_eq!([limit.word(), ultimate.word()], ["yes", "yes"]);
}

/// One truth: what is said to fit never goes beyond what stops.
#[test]
fn no_reading_is_said_to_fit_that_is_beyond_what_is_allowed() {
    let mut plan = column();
    plan.allow.lean = Length::m(0.008);
    let mut diary = begun(&plan);
    diary.up_to(1..=3).held("half", 3.0).gauge(1.0).leans([1.0, 0.0]);
    let fits = account(&diary).lean_now().and_then(|judged| judged.fits_from_to_m()).expect("it is due");
    assert_eq!(fits, [[-0.008, 0.008]; 2], "the places alone would allow more than 10 mm");
    assert_eq!(
        account(&diary).top_due_words().as_deref(),
        Some("8 mm forward to 8 mm aft and 8 mm left to 8 mm right")
    );
}
