//! The occupant point: joints pulled and turned, ways chosen and set side by side.

use crate::forms::type_into;
use crate::stage::{demo, middle, press, text, window};
use editor::{Editor, Opening};
use eframe::egui::{Key, Modifiers, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use plan::{Plan, Posture, Target};
use quantity::Quantity;

/// The window where the occupant point is chosen, on the demo with the posture that it keeps put in force.
fn page() -> Harness<'static, Editor> {
    let mut plan = plan::file::read(editor::DEMOS[0].1).expect("the demo is a plan");
    std::mem::swap(&mut plan.target, &mut plan.other_targets[0]);
    let folder = tempfile::tempdir().expect("a test folder");
    let path = folder.path().join("posture.ron");
    std::fs::write(&path, plan::file::write(&plan)).expect("written");
    let mut window = window(Opening::File(path), None);
    window.set_size(vec2(1600.0, 1500.0));
    press(&mut window, "Load case");
    press(&mut window, "Where it must act");
    window
}

fn plan(window: &Harness<'static, Editor>) -> Plan {
    window.state().document().plan().clone()
}

fn posture(plan: &Plan) -> Posture {
    let Target::Posture(posture) = &plan.target else { panic!("a posture, got {:?}", plan.target) };
    posture.clone()
}

fn point_mm(plan: &Plan) -> [f64; 3] {
    let at: [f64; 3] = assess::occupant_point(plan).in_article.into();
    at.map(|m| 1e3 * m)
}

fn choose(window: &mut Harness<'static, Editor>, choice: &str, word: &str) {
    press(window, choice);
    press(window, word);
}

#[test]
fn the_back_pulled_aft_by_the_shoulder_moves_the_point_aft_in_one_step_of_undo() {
    let mut window = page();
    let before = plan(&window);
    let from = middle(&window, "recline handle");
    window.drag_at(from);
    window.hover_at(from + vec2(12.0, 2.0));
    window.run();
    window.hover_at(from + vec2(40.0, 6.0));
    window.run();
    assert!(plan(&window) == before, "the plan changes only when the joint is let go");
    window.drop_at(from + vec2(40.0, 6.0));
    window.run();
    let after = plan(&window);
    let [was, is] = [&before, &after].map(|plan| posture(plan).recline.si().to_degrees());
    assert!(is > was + 2.0, "recline: got {is:.1} deg, was {was:.1} deg");
    let moved = point_mm(&after)[0] - point_mm(&before)[0];
    assert!(moved > 5.0, "more recline moves the point aft: moved {moved:.1} mm");
    assert_eq!(window.state().document().undo_name(), Some("change recline of the occupant"));
    window.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    window.run();
    assert!(plan(&window) == before, "one undo takes the whole pull back");
}

#[test]
fn a_joint_stays_under_the_pointer_that_pulls_it() {
    let mut window = page();
    for name in ["knee handle", "elbow handle", "arm handle"] {
        let from = middle(&window, name);
        window.drag_at(from);
        window.hover_at(from + vec2(6.0, -14.0));
        window.run();
        let (held, pointer) = (middle(&window, name), from + vec2(6.0, -14.0));
        // Only its angle is free, so that it may come to lie along its link from the pointer.
        assert!((held - pointer).length() < 16.0, "{name}: {held:?} for {pointer:?}");
        window.key_press(Key::Escape);
        window.run();
        window.drop_at(pointer);
        window.run();
    }
    assert!(!window.state().document().is_dirty(), "Escape puts every joint back");
}

#[test]
fn arrow_keys_turn_the_joint_that_has_the_focus_by_a_degree_and_shift_by_ten() {
    let mut window = page();
    let knee = |window: &Harness<'static, Editor>| posture(&plan(window)).knee.si().to_degrees();
    let before = knee(&window);
    window.get_by_label("knee handle").focus();
    window.run();
    window.key_press(Key::ArrowUp);
    window.run();
    let once = knee(&window);
    assert!((once - before - 1.0).abs() < 1e-9, "got {once} deg, want {} deg", before + 1.0);
    window.get_by_label("knee handle").focus();
    window.run();
    window.key_press_modifiers(Modifiers::SHIFT, Key::ArrowLeft);
    window.run();
    let thence = knee(&window);
    assert!((thence - once + 10.0).abs() < 1e-9, "got {thence} deg, want {} deg", once - 10.0);
}

#[test]
fn a_typed_angle_moves_the_point_and_one_that_nobody_sits_in_stays_in_its_field() {
    let mut window = page();
    let before = plan(&window);
    type_into(&mut window, "recline", "25 deg");
    let after = plan(&window);
    assert!(point_mm(&after)[0] > point_mm(&before)[0] + 10.0, "further back, further aft");
    type_into(&mut window, "knee angle", "200 deg");
    assert!(plan(&window) == after, "the last good value stays in force");
    let sentence = "the knee angle of the target is 200 deg: it must lie between 20 deg and 180 deg";
    assert!(window.query_by_label(sentence).is_some(), "the sentence stands under the field");
}

#[test]
fn another_way_begins_where_the_point_is_and_keeps_the_old_one_beside_it() {
    let mut window = page();
    let before = plan(&window);
    choose(&mut window, "way to the occupant point", "a document");
    let after = plan(&window);
    let off = point_mm(&after)[0] - point_mm(&before)[0];
    assert!(off.abs() < 1e-6, "the point stays: moved {off} mm");
    assert_eq!(after.other_targets.last(), Some(&before.target));
    let finding = window.state().assessment().findings.iter().find(|f| f.check == assess::Check::OccupantPoint);
    assert_eq!(finding.map(|f| f.state), Some(assess::State::Undecided), "no document is named yet");
    type_into(&mut window, "load point document", "seat drawing 12, sheet 3");
    let finding = window.state().assessment().findings.iter().find(|f| f.check == assess::Check::OccupantPoint);
    assert_eq!(finding.map(|f| f.state), Some(assess::State::Met));
    choose(&mut window, "way to the occupant point", "the occupant's posture");
    assert_eq!(plan(&window).target, before.target, "the posture comes back as it was");
}

#[test]
fn ways_stand_side_by_side_and_one_is_put_in_force_by_its_button() {
    let mut window = page();
    press(&mut window, "Keep a copy");
    let kept = plan(&window).other_targets.len();
    type_into(&mut window, "recline", "30 deg");
    let changed = plan(&window);
    let letter = char::from(b'A' + u8::try_from(kept - 1).expect("few ways"));
    press(&mut window, &format!("Use occupant point {letter}"));
    let after = plan(&window);
    assert_eq!(after.target, changed.other_targets[kept - 1]);
    assert_eq!(after.other_targets[kept - 1], changed.target, "they changed places");
    press(&mut window, &format!("Remove occupant point {letter}"));
    assert_eq!(plan(&window).other_targets.len(), kept - 1);
}

#[test]
fn a_weighing_is_summed_on_the_page() {
    let mut window = page();
    let kinds: Vec<_> = plan(&window).other_targets.iter().map(Target::kind).collect();
    assert!(kinds.contains(&"weighing"), "the demo keeps a weighing beside its posture: {kinds:?}");
    choose(&mut window, "way to the occupant point", "two weighings");
    type_into(&mut window, "scale 1 with", "161 kg");
    let plan = plan(&window);
    let Target::Weighed(weighed) = &plan.target else { panic!("a weighing") };
    let mass = weighed.occupant_mass().shown(plan.units, quantity::Grain::Coarse);
    assert!(window.query_all_by_label(&mass).next().is_some(), "{mass} stands on the page");
    // The sum by the definition of a centroid, beside the one of the program.
    let more = |s: &plan::WeighingScale| s.with.si() - s.without.si();
    let moments: f64 = weighed.scales.iter().map(|s| more(s) * s.at[0].si()).sum();
    let station = quantity::Length::m(moments / weighed.scales.iter().map(more).sum::<f64>());
    let shown = station.shown(plan.units, quantity::Grain::Coarse);
    assert!(window.query_all_by_label(&shown).next().is_some(), "station {shown} stands on the page");
}

#[test]
fn legs_on_the_floor_are_told_in_words_and_move_the_point() {
    let mut window = page();
    let before = plan(&window);
    choose(&mut window, "lower legs", "floor and pedals");
    let after = plan(&window);
    assert!(
        point_mm(&after)[0] > point_mm(&before)[0] + 20.0,
        "without lower legs and feet the rest lies further \
        aft"
    );
    assert_ne!(text(&window), plan::file::write(&before));
    let told = window.query_all_by_label_contains("do not count: floor and pedals carry them").next();
    assert!(told.is_some(), "the page says so");
}

#[test]
fn in_a_plan_that_says_no_point_yet_the_occupant_sits_down_at_the_end_of_the_bed() {
    let mut window = demo();
    window.key_press_modifiers(Modifiers::COMMAND, Key::N);
    window.run();
    press(&mut window, "Fixture");
    press(&mut window, "Bed");
    for (field, text) in [("bed origin x", "1.43"), ("bed origin y", "0"), ("bed origin z", "0,6")] {
        type_into(&mut window, field, text);
    }
    press(&mut window, "Add bearing");
    for (field, text) in [("bearing 1 x to", "0.41"), ("bearing 1 x from", "0.37")] {
        type_into(&mut window, field, text);
    }
    press(&mut window, "Load case");
    press(&mut window, "Where it must act");
    choose(&mut window, "way to the occupant point", "the occupant's posture");
    let seat = posture(&plan(&window)).seat_reference.map(Quantity::si);
    // By hand: the bed's origin and the bearing's aft end, 1.43 m + 0.41 m.
    for (axis, want) in [1.84, 0.0, 0.6].into_iter().enumerate() {
        let off = seat[axis] - want;
        assert!(off.abs() < 1e-9, "axis {axis}: got {} m, want {want} m, off {off} m", seat[axis]);
    }
}
