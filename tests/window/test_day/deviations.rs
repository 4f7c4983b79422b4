//! What is done otherwise than planned: another place, another piece, a piece more.

use super::day::{Window, begun, down, emptied, expected, go, lines, next, open, says, settled, weigh};
use crate::forms::type_into;
use crate::stage::press;
use egui_kittest::kittest::Queryable;
use testday::{Course, Deviation, Entry, Next, StopGround};

#[test]
fn a_deviation_with_which_the_stack_would_fall_is_told_and_stops_the_day_before_that_piece() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    emptied(&mut window);
    go(&mut window, "Placed");
    let there = expected(&window, 1);
    weigh(&mut window, &there);
    assert_eq!(next(&window), Next::Lift { index: 1 });
    open(&mut window, "Deviation from the plan");
    // The second board is to lie far off the bed, where nothing is under it.
    for (field, text) in
        [("Step", "2"), ("Why", "the rib is in the way"), ("Centre, x of the bed", "3"), ("Centre, y of the bed", "0")]
    {
        type_into(&mut window, &format!("{field} entry"), text);
    }
    go(&mut window, "Another place");
    settled(&mut window);
    let says = |window: &Window, text: &str| window.query_by_label_contains(text).is_some();
    assert!(says(&window, "checks fall short."), "what falls short is in view");
    assert_eq!(next(&window), Next::Stopped);
    let name = window.state().day().expect("a day").plan.piece_name(1);
    let why = format!("the stack as done would not stand with {name} on it (step 2 of the sheet)");
    assert!(
        matches!(lines(&path).last(), Some(Entry::Stopped { why: said, ground: Some(StopGround::MustNotLoad { .. }), .. }) if said.contains(&why)),
        "{:?}",
        lines(&path)
    );
    assert!(says(&window, "Do not put the next piece on."));
    assert!(window.query_by_label("Continue").is_none(), "a remark alone leads nowhere");
    assert!(window.query_by_label("Continue against the stop").is_none(), "nor does a name");
}

#[test]
fn a_deviation_of_a_piece_that_others_lie_on_is_asked_about_and_the_step_in_hand_is_filled_in() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    emptied(&mut window);
    for placed in 1..=2 {
        go(&mut window, "Placed");
        let there = expected(&window, placed);
        weigh(&mut window, &there);
    }
    open(&mut window, "Deviation from the plan");
    assert_eq!(window.get_by_label("Step entry").value().as_deref(), Some("2"), "the step in hand");
    let largest = window.state().day().expect("a day").plan.ballast.iter().max_by_key(|lot| lot.count).cloned();
    let largest = largest.expect("lots");
    let example = format!("such as “{} {}”", largest.name, largest.count);
    assert!(window.query_by_label_contains(&example).is_some(), "no “{example}”: a piece that there is");
    type_into(&mut window, "Step entry", "1");
    type_into(&mut window, "Why entry", "another board was taken");
    type_into(&mut window, "Piece in place entry", "filler board 6");
    let before = lines(&path).len();
    press(&mut window, "Another piece");
    window.run();
    assert_eq!(lines(&path).len(), before, "it is asked first");
    assert!(window.query_by_label_contains("Step 1 is under what was put down since").is_some());
    press(&mut window, "Another piece");
    assert_eq!(lines(&path).len(), before, "the same button does not answer");
    go(&mut window, "It is so");
    assert!(matches!(lines(&path).last(), Some(Entry::Deviation { .. })), "{:?}", lines(&path).last());
}

#[test]
fn a_piece_more_comes_next_and_what_the_scales_should_show_counts_with_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = down(&path, 1);
    open(&mut window, "Add an extra piece");
    assert_eq!(window.get_by_label("After step entry").value().as_deref(), Some("1"), "the step in hand");
    for (field, text) in [("Extra piece", "filler board 7"), ("It weighs", "3,4"), ("Why it is added", "to fill a gap")]
    {
        type_into(&mut window, &format!("{field} entry"), text);
    }
    go(&mut window, "Put it on");
    let step = window.state().day().expect("a day").plan.steps() + 1;
    assert_eq!(next(&window), Next::Lift { index: 1 });
    assert!(says(&window, &format!("Step {step}: lift filler board 7")));
    assert!(says(&window, "it is not on the sheet"));
    assert!(says(&window, "It weighs 3.4 kg"));
    go(&mut window, "Placed");
    assert!(matches!(lines(&path).last(), Some(Entry::Placed { step: put }) if *put == step), "{:?}", lines(&path));
    let run = window.state().day().expect("a day").run().clone();
    let due = Course::of(run.as_done()).after(2).expect("it stands").supports_kg.clone();
    // The tare was entered with one decimal.
    let tare = expected(&window, 0)[0];
    let shows = due[0] - tare + (10.0 * tare).round() / 10.0;
    assert!(says(&window, &format!("should show {shows:.1} kg")), "{shows}");
    weigh(&mut window, &due);
    assert_eq!(next(&window), Next::Lift { index: 2 });
    assert!(says(&window, "Step 2: lift"));
}

#[test]
fn a_piece_more_with_which_the_stack_would_fall_stops_the_day_and_is_left_out_by_one_press() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = down(&path, 1);
    open(&mut window, "Add an extra piece");
    let far = [("Extra piece", "shot bag 43"), ("x of its centre", "3"), ("y of its centre", "0")];
    for (field, text) in far.into_iter().chain([("Why it is added", "to try it")]) {
        type_into(&mut window, &format!("{field} entry"), text);
    }
    go(&mut window, "Put it on");
    settled(&mut window);
    assert_eq!(next(&window), Next::Stopped);
    let step = window.state().day().expect("a day").plan.steps() + 1;
    assert!(says(&window, &format!("with shot bag 43 on it (step {step}, not on the sheet)")));
    go(&mut window, "Leave shot bag 43 out");
    let out = |entry: &Entry| matches!(entry, Entry::Deviation { deviation: Deviation::LeftOut { .. }, .. });
    assert!(lines(&path).last().is_some_and(out), "{:?}", lines(&path).last());
    type_into(&mut window, "What was found entry", "it is back on the pallet");
    settled(&mut window);
    assert_eq!(next(&window), Next::Lift { index: 1 });
    assert!(says(&window, "Step 2: lift"));
}
