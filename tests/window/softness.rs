//! How bags give on the screen: the hangar test typed and taken over, the leaning stack, what the head says of it.

use crate::files::asset;
use crate::forms::type_into;
use crate::stage::{decided, demo, key, press, window};
use editor::{Editor, Opening};
use eframe::egui::accesskit::{Role, Toggled};
use eframe::egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use plan::{Lot, SoftnessFrom};
use quantity::{Length, Quantity};

type Window = Harness<'static, Editor>;

fn lot(window: &Window) -> Lot {
    window.state().document().plan().ballast[0].clone()
}

/// The Ballast page of the demo, with bags of the worked example of which nobody knows how they give.
fn unmeasured() -> Window {
    let text = std::fs::read_to_string(asset("assets/examples/tandem-rear-seat.ron")).expect("the demo");
    let mut plan = plan::file::read(&text).expect("the demo is a plan");
    plan.ballast[0].softness = None;
    plan.ballast[0].size = [0.50, 0.33, 0.11].map(Length::m);
    let folder = tempfile::tempdir().expect("a test folder");
    let path = folder.path().join("unmeasured.ron");
    std::fs::write(&path, plan::file::write(&plan)).expect("written");
    let mut window = window(Opening::File(path), None);
    press(&mut window, "Ballast");
    window
}

fn choose(window: &mut Window, word: &str) {
    press(window, "shot bag how it gives");
    press(window, word);
}

/// By hand: 0.006 x 0.165 / (250 x 9.80665) = 4.04e-7 m3/N; 0.11 / 4.04e-7 = 0.27 MPa; 6.6 / 6.0 = 1.1.
#[test]
fn a_hangar_test_is_typed_shown_with_its_arithmetic_and_taken_over_in_one_undo_step() {
    let mut window = unmeasured();
    choose(&mut window, "measured");
    assert!(window.query_by_label_contains("1. Lay one bag on the floor").is_some(), "the steps stand there at first");
    for (field, typed) in [
        ("mass added", "250 kg"),
        ("sinking after 60 s", "6 mm"),
        ("sinking after 600 s", "6.6 mm"),
        ("flat length", "500 mm"),
        ("flat width", "330 mm"),
    ] {
        type_into(&mut window, &format!("shot bag {field}"), typed);
    }
    assert!(window.query_by_label("modulus = thickness / c = 110 mm / c = 0.27 MPa").is_some(), "the arithmetic");
    assert!(lot(&window).softness.is_none(), "the plan has nothing yet");
    press(&mut window, "Take it over");
    let got = lot(&window).softness.expect("taken over");
    let (modulus, want) = (got.modulus.si(), 0.11 * 250.0 * 9.80665 / (0.006 * 0.165));
    assert!((modulus - want).abs() < 1.0, "got {modulus} Pa, want {want} Pa, difference {} Pa", modulus - want);
    assert!((got.creep_per_decade - 0.1).abs() < 1e-9, "got creep {}, want 0.1", got.creep_per_decade);
    assert_eq!((got.from, got.readings.len(), got.rim.map(Quantity::si)), (SoftnessFrom::Measured, 2, Some(0.0)));
    assert_eq!(window.state().document().undo_name(), Some("change softness of shot bag"));
    assert!(window.query_by_label_contains("In force: modulus 0.27 MPa").is_some(), "told as in force");
    key(&mut window, Modifiers::COMMAND, Key::Z);
    assert!(lot(&window).softness.is_none(), "one undo takes it back");
}

#[test]
fn readings_that_cannot_be_are_refused_with_a_sentence_and_cannot_be_taken_over() {
    let mut window = unmeasured();
    choose(&mut window, "measured");
    for (field, typed) in [
        ("mass added", "250 kg"),
        ("sinking after 60 s", "6 mm"),
        ("sinking after 600 s", "5 mm"),
        ("flat length", "500 mm"),
        ("flat width", "330 mm"),
    ] {
        type_into(&mut window, &format!("shot bag {field}"), typed);
    }
    let sentence = "The board stands higher later than after 60 s: read both heights again.";
    assert!(window.query_by_label(sentence).is_some(), "what is wrong is told");
    window.get_by_label("Take it over").click_accesskit();
    window.run();
    assert!(lot(&window).softness.is_none(), "nothing is taken over");
}

#[test]
fn a_stated_modulus_begins_as_soft_as_a_bag_may_be_and_is_typed_with_its_unit() {
    let mut window = unmeasured();
    choose(&mut window, "stated");
    let got = lot(&window).softness.expect("stated");
    assert_eq!((got.modulus.si(), got.from), (0.1e6, SoftnessFrom::Stated));
    type_into(&mut window, "shot bag softness modulus", "0.45 MPa");
    let got = lot(&window).softness.expect("stated").modulus.si();
    assert!((got - 0.45e6).abs() < 1e-3, "got {got} Pa, want 0.45e6 Pa");
    type_into(&mut window, "shot bag source of the modulus", "letter of the maker");
    assert_eq!(lot(&window).softness.expect("stated").source, "letter of the maker");
    choose(&mut window, "not measured");
    assert!(lot(&window).softness.is_none(), "given up");
}

#[test]
fn a_lot_that_becomes_boards_gives_no_more() {
    let mut window = demo();
    press(&mut window, "Ballast");
    assert!(lot(&window).softness.is_some(), "the demo's bags were measured");
    press(&mut window, "shot bag form");
    press(&mut window, "solid");
    assert_eq!((lot(&window).form, lot(&window).softness), (plan::Form::Solid, None));
}

/// The picture itself is held by the tests of drawings.
#[test]
fn the_lean_is_drawn_on_demand_by_key_and_put_away_by_its_button() {
    let mut window = demo();
    let is_drawn = |window: &Window| lean(window).accesskit_node().toggled() == Some(Toggled::True);
    assert!(!is_drawn(&window), "not before it is asked for");
    key(&mut window, Modifiers::NONE, Key::B);
    assert!(is_drawn(&window), "B draws it");
    lean(&window).click();
    window.run();
    assert!(!is_drawn(&window), "the button puts it away");
}

/// The button; a check has the same heading.
fn lean<'w>(window: &'w Window) -> egui_kittest::Node<'w> {
    window.get_by_role_and_label(Role::Button, "Lean")
}

/// The demo's bags were measured: the last steps are pushed as the bags give.
#[test]
fn the_head_tells_the_critical_load_factor_under_the_pointer_and_what_is_a_bound() {
    let mut window = demo();
    decided(&mut window);
    window.get_by_label_contains("Least reserve of all steps").hover();
    window.run();
    assert!(window.query_by_label_contains("Critical load factor ").is_some(), "told under the pointer");
    let exact = window.state().assessment().exact.clone().expect("decided");
    let plan = window.state().document().plan().clone();
    let step = (0..plan.steps()).find(|step| drafting::sheet::is_bound(&plan, &exact, *step)).expect("some are bounds");
    for _ in step + 1..exact.reserves.len() {
        key(&mut window, Modifiers::NONE, Key::PageUp);
    }
    let words = drafting::sheet::bounded(&exact.reserves[step]);
    assert!(window.query_by_label(&words).is_some(), "step {} is told as {words:?}", step + 1);
}

#[test]
fn allowances_of_the_soft_stack_and_times_of_holds_are_typed_where_the_others_are() {
    let mut window = demo();
    press(&mut window, "Load case");
    type_into(&mut window, "allowed critical load factor", "4");
    type_into(&mut window, "allowed lean", "12 mm");
    type_into(&mut window, "hold 1 time", "5 min");
    let plan = window.state().document().plan();
    let got = (plan.allow.critical, plan.allow.lean.si(), plan.holds[0].time.map(Quantity::si));
    assert_eq!(got, (4.0, 0.012, Some(300.0)));
}

#[test]
fn a_catch_block_is_added_named_and_given_its_gap() {
    let mut window = demo();
    press(&mut window, "Fixture");
    press(&mut window, "Add catch block");
    assert_eq!(window.state().document().undo_name(), Some("add catch block 1"));
    let count = window.state().document().plan().fixture.catch_blocks.len();
    type_into(&mut window, &format!("catch block {count} gap"), "12 mm");
    type_into(&mut window, &format!("catch block {count} at x"), "2.2 m");
    let block = window.state().document().plan().fixture.catch_blocks[count - 1].clone();
    assert_eq!((block.gap.si(), block.at[0].si()), (0.012, 2.2));
    for view in ["side", "front", "above"] {
        let name = format!("catch block 1 from {}{view}", if view == "above" { "" } else { "the " });
        assert!(window.query_by_label(&name).is_some(), "a handle {name}");
    }
}
