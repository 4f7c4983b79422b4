//! A tare that is far off what is due. The figures are the plan's own statics with a known error put in by hand.

use crate::bench::{Diary, plan, reading};
use testday::{Account, Entry, Next, Reading, TARE_FAR_KG, TareBeside, TareLikely};

fn due_kg(diary: &Diary) -> Vec<f64> {
    diary.course().after(0).expect("it stands").supports_kg.clone()
}

fn account(diary: &Diary) -> Account {
    Account::of(&diary.log).unwrap_or_else(|error| panic!("{error}"))
}

fn likely(diary: &Diary, read: &Reading) -> Option<TareLikely> {
    TareLikely::of(&plan(), &account(diary).tare_due(), read)
}

#[test]
fn a_scale_that_is_three_kilograms_off_is_named_with_both_numbers_and_one_that_is_less_is_not() {
    let diary = Diary::begin(&plan());
    for (off_kg, named) in [(TARE_FAR_KG, true), (-TARE_FAR_KG, true), (2.9, false), (-2.9, false)] {
        let mut kg = due_kg(&diary);
        kg[1] += off_kg;
        let beside = TareBeside::all(&plan(), &account(&diary).tare_due(), &reading(&plan(), &kg));
        let got: Vec<_> = beside.iter().map(|of| of.support).collect();
        assert_eq!(got, if named { vec![1] } else { vec![] }, "{off_kg} kg off");
        let Some(of) = beside.first() else { continue };
        let words = of.words(&plan(), true);
        let way = if off_kg > 0.0 { "3.0 kg more than the" } else { "3.0 kg less than the" };
        assert!(words.contains(way) && words.ends_with("of the plan"), "{words}");
    }
}

#[test]
fn scales_set_to_zero_exchanged_ones_and_pounds_are_told_as_what_they_are() {
    let diary = Diary::begin(&plan());
    let due = due_kg(&diary);
    let read = |kg: &[f64]| reading(&plan(), kg);
    assert_eq!(likely(&diary, &read(&[0.2, -0.1, 0.0])), Some(TareLikely::SetToZero));
    // 1 lb = 0.45359237 kg, exactly: source key `nist-sp811`, B.8.
    let pounds: Vec<_> = due.iter().map(|kg| kg / 0.453_592_37).collect();
    assert_eq!(likely(&diary, &read(&pounds)), Some(TareLikely::OtherUnit));
    let exchanged = [due[2], due[1], due[0]];
    assert_eq!(likely(&diary, &read(&exchanged)), Some(TareLikely::Exchanged([0, 2])));
    assert_eq!(likely(&diary, &read(&[due[0] + 8.0, due[1], due[2]])), None, "8 kg more on one alone");
}

#[test]
fn the_tare_of_the_second_run_is_held_against_that_of_the_first() {
    // A cradle of 8 kg that the plan does not know stands on the rear scale all day.
    let with_cradle = |mut reading: Reading| {
        *reading.scales_kg.get_mut("rear scale").expect("a scale") += 8.0;
        reading
    };
    let mut diary = Diary::begin(&plan());
    assert!(account(&diary).tare_due_is_of_plan(), "of the first run it is the plan's");
    let tare = with_cradle(diary.as_expected(0));
    diary.add(Entry::Tare(tare.clone())).gauge(0.0);
    for step in 1..=4 {
        let reading = with_cradle(diary.as_expected(step));
        diary.placed(step).add(Entry::Reading(reading));
    }
    diary.held("limit", 4.0).gauge(3.1).take_all_off().gauge(0.2);
    assert_eq!(diary.day().next(), Next::Tare);
    assert!(!account(&diary).tare_due_is_of_plan(), "the second is held against the first");
    let due = account(&diary).tare_due();
    assert_eq!(TareBeside::all(&plan(), &due, &tare), [], "as before");
    let without = diary.as_expected(0);
    assert_eq!(TareBeside::all(&plan(), &due, &without).len(), 1, "the cradle is gone");
    diary.add(Entry::Tare(without));
    let told = account(&diary).reservations();
    let of_run_2 =
        told.iter().any(|text| text.contains("less than the") && text.contains("of the run before in run 2"));
    assert!(of_run_2, "the record tells it: {told:?}");
}

#[test]
fn a_tare_that_was_far_off_is_told_in_the_record_and_one_as_planned_is_not() {
    let mut diary = Diary::begin(&plan());
    let mut kg = due_kg(&diary);
    diary.add(Entry::Tare(reading(&plan(), &kg)));
    assert_eq!(account(&diary).reservations(), Vec::<String>::new());
    kg[0] -= 5.0;
    let mut far = Diary::begin(&plan());
    far.add(Entry::Tare(reading(&plan(), &kg)));
    let told = account(&far).reservations();
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].starts_with("left scale: ") && told[0].contains("5.0 kg less than the"), "{told:?}");
}
