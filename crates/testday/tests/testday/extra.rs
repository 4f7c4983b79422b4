//! Pieces that the plan does not have: put on, or found lying there.

use crate::bench::{Diary, plan, three_on};
use testday::{Added, Day, Deviation, Entry, Next};

fn added(step: usize, after: usize, item: u32) -> Added {
    Added {
        step,
        after,
        lot: "sand bag".to_owned(),
        item,
        weighed_kg: Some(12.5),
        at_m: [0.2, 0.16],
        crosswise: false,
        lies_there: false,
    }
}

fn with(added: Added) -> Entry {
    Entry::Deviation { deviation: Deviation::Added(added), why: "too little load".to_owned() }
}

#[test]
fn an_extra_piece_comes_next_counts_with_its_mass_and_goes_by_a_number_of_its_own() {
    let mut diary = three_on();
    // One more than the lot of 20 has.
    diary.add(with(added(7, 3, 21)));
    let day = diary.day();
    assert_eq!(day.next(), Next::Lift { index: 3 }, "it comes before the fourth bag");
    assert_eq!((day.run().step_of(3) + 1, day.run().placed()), (7, 3));
    assert_eq!(day.run().as_done().piece_name(3), "sand bag 21");
    let refused = |diary: &Diary, entry: Entry| Day::admits(&diary.log, &entry).expect_err("refused").to_string();
    assert_eq!(refused(&diary, Entry::Placed { step: 4 }), "step 7 comes next, not step 4");
    diary.placed(7).read(4).placed(4).read(5);
    let run = diary.day().run().clone();
    // By hand: four bags of 25 kg and one of 12.5 kg.
    assert!((run.on_seat_kg() - 112.5).abs() < 1e-9, "got {} kg, want 112.5 kg", run.on_seat_kg());
    assert_eq!(run.count_to(Some(2)), 3, "readings of before keep their count");
    assert_eq!(diary.day().next(), Next::Hold { hold: 0 }, "limit load is reached with the fourth bag");
    diary.held("limit", 4.0).gauge(3.0).take_all_off().gauge(0.1);
    assert_eq!(diary.day().runs[0].off.len(), 5, "it comes off with the others");
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare));
    assert_eq!(diary.day().run().as_done().steps(), 6, "it counts for its run");
}

#[test]
fn a_piece_found_lying_there_counts_at_once_and_the_last_reading_with_it() {
    let mut diary = three_on();
    let there = Added { lies_there: true, ..added(7, 3, 9) };
    diary.add(with(there));
    let day = diary.day();
    assert_eq!(day.run().placed(), 4);
    assert_eq!(day.run().weighing_now().map(|weighing| weighing.last_on), Some(Some(6)));
    assert_eq!(day.next(), Next::Lift { index: 4 }, "step 4 of the sheet comes next");
    assert_eq!(day.run().step_of(4), 3);
    // Under what was put down since.
    let under = Added { lies_there: true, ..added(8, 1, 10) };
    diary.add(with(under));
    let run = diary.day().run().clone();
    assert_eq!((run.placed(), run.last_on, run.step_of(1)), (5, Some(6), 7));
    diary.placed(4);
    assert_eq!(diary.day().run().placed(), 6);
}

#[test]
fn an_extra_piece_that_cannot_be_is_refused_with_what_would_fit() {
    let mut diary = three_on();
    let refused = |diary: &Diary, added: Added| Day::admits(&diary.log, &with(added)).expect_err("refused").to_string();
    assert_eq!(refused(&diary, added(7, 3, 4)), "sand bag 4 is the piece of step 4: an extra piece is another one");
    assert_eq!(refused(&diary, added(7, 3, 121)), "sand bag 121: a number from 1 to 120 would fit");
    assert_eq!(refused(&diary, added(9, 3, 21)), "the next piece that is added goes by step 7, not 9");
    assert_eq!(refused(&diary, added(7, 9, 21)), "there is no step 9 to put it on after");
    assert_eq!(
        refused(&diary, added(7, 1, 21)),
        "step 1 is under what was put down since: an extra piece goes on after step 3 or a later one"
    );
    let ahead = Added { lies_there: true, ..added(7, 5, 21) };
    assert!(refused(&diary, ahead).starts_with("step 5 is not put down yet"));
    let just_ahead = Added { lies_there: true, ..added(7, 4, 21) };
    assert!(refused(&diary, just_ahead).starts_with("step 4 is not put down yet"));
    assert!(refused(&diary, added(7, 2, 21)).starts_with("step 2 is under what was put down since"));
    let strange = Added { lot: "shot bag".to_owned(), ..added(7, 3, 1) };
    assert!(refused(&diary, strange).starts_with("the plan has no lot “shot bag”"));
    let heavy = Added { weighed_kg: Some(-3.0), ..added(7, 3, 21) };
    assert!(refused(&diary, heavy).contains("weighed mass"));
    diary.add(Entry::Aborted { why: "enough".to_owned() });
    assert_eq!(refused(&diary, added(7, 3, 21)), "pieces come off now: enter a remark");
}

#[test]
fn a_strap_over_the_stack_stays_over_the_same_pieces_when_one_is_added_or_left_out() {
    let mut strapped = plan();
    strapped.fixture.bindings = vec![plan::Binding {
        name: "over the stack".to_owned(),
        anchors: plan::Anchors::Article,
        at: [quantity::Length::m(0.2), quantity::Length::m(0.0)],
        pull: quantity::Force::n(100.0),
        width: plan::Binding::WIDTH,
        after: 4,
    }];
    let mut diary = Diary::begin(&strapped);
    let after = |diary: &Diary| diary.day().run().as_done().fixture.bindings[0].after;
    diary.add(with(added(7, 1, 21)));
    assert_eq!(after(&diary), 5);
    diary.add(with(added(8, 5, 20)));
    assert_eq!(after(&diary), 5, "a piece on top of it changes nothing");
    diary.add(Entry::Deviation { deviation: Deviation::LeftOut { step: 2 }, why: "torn".to_owned() });
    assert_eq!(after(&diary), 4);
}
