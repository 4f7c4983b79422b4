//! Lines and regions drawn on the Fixture page, corner by corner, by pointer and typed.

use crate::fixture_page::{Window, drag, key, on_fixture, plan, undo_name};
use crate::stage::{click, middle, press};
use eframe::egui::{Event, Key, Pos2, vec2};
use egui_kittest::kittest::Queryable;
use quantity::Quantity;

/// Three clicks in the side view, well away from every handle.
fn draw_three_corners(window: &mut Window) -> [Pos2; 3] {
    let view = window.get_by_label("From the side").rect();
    let at = |x: f32, y: f32| view.min + vec2(x * view.width(), y * view.height());
    let corners = [at(0.45, 0.08), at(0.55, 0.08), at(0.55, 0.16)];
    for corner in corners {
        click(window, corner);
    }
    corners
}

#[test]
fn a_line_is_drawn_corner_by_corner_and_changed() {
    let mut window = on_fixture();
    let count = plan(&window).article.outline.len();
    press(&mut window, "Draw outline line");
    draw_three_corners(&mut window);
    assert_eq!(plan(&window).article.outline.len(), count, "a line that is being drawn is not in the plan yet");
    key(&mut window, Key::Enter);
    assert_eq!(plan(&window).article.outline[count].points.len(), 3);
    assert_eq!(undo_name(&window).as_deref(), Some("draw line 1"));
    let before = plan(&window).article.outline[count].points[1].map(Quantity::si);
    let from = middle(&window, "line 1 corner 2 from the side");
    drag(&mut window, from, vec2(20.0, 0.0));
    let after = plan(&window).article.outline[count].points[1].map(Quantity::si);
    assert!(after[0] > before[0] + 0.01, "aft is right: got {} m, was {} m", after[0], before[0]);
    press(&mut window, "Insert corner");
    assert_eq!(plan(&window).article.outline[count].points.len(), 4);
    key(&mut window, Key::Delete);
    assert_eq!(plan(&window).article.outline[count].points.len(), 3);
    assert_eq!(undo_name(&window).as_deref(), Some("delete a corner of line 1"));
}

#[test]
fn a_line_that_is_dropped_leaves_nothing_and_one_corner_makes_none() {
    let mut window = on_fixture();
    let before = plan(&window).clone();
    press(&mut window, "Draw outline line");
    draw_three_corners(&mut window);
    key(&mut window, Key::Escape);
    press(&mut window, "Draw keep-clear region");
    let view = window.get_by_label("From the side").rect();
    click(&mut window, view.min + vec2(0.5 * view.width(), 0.1 * view.height()));
    key(&mut window, Key::Enter);
    assert_eq!(plan(&window), &before);
    let sentence = "A region needs at least 3 corners: draw it again, clicking each of them";
    assert!(window.query_by_label(sentence).is_some(), "the window says what is missing");
}

#[test]
fn a_region_is_drawn_and_its_side_is_dragged_from_the_front() {
    let mut window = on_fixture();
    let count = plan(&window).article.keep_clear.len();
    press(&mut window, "Draw keep-clear region");
    draw_three_corners(&mut window);
    key(&mut window, Key::Enter);
    assert_eq!(plan(&window).article.keep_clear.len(), count + 1);
    let from = middle(&window, "region 1 right edge from the front");
    drag(&mut window, from, vec2(-30.0, 0.0));
    let right = plan(&window).article.keep_clear[count].y[1].si();
    assert!(right > 0.06, "the aircraft's right is on the left: got {right} m, was 0.05 m");
}

#[test]
fn a_region_drawn_from_the_side_does_not_count_until_both_its_edges_are_entered() {
    let mut window = on_fixture();
    let count = plan(&window).article.keep_clear.len();
    let known = |window: &Window| plan(window).article.keep_clear[count].y_known;
    let undecided = |window: &Window| {
        let findings = &window.state().assessment().findings;
        findings.iter().any(|f| f.state == assess::State::Undecided && f.text.contains("“region 1” reaches across"))
    };
    press(&mut window, "Draw keep-clear region");
    draw_three_corners(&mut window);
    key(&mut window, Key::Enter);
    assert_eq!((known(&window), undecided(&window)), ([false, false], true), "drawn from the side alone");
    let from = middle(&window, "region 1 right edge from the front");
    drag(&mut window, from, vec2(-30.0, 0.0));
    assert_eq!((known(&window), undecided(&window)), ([false, true], true), "one edge is still as it was drawn");
    let from = middle(&window, "region 1 left edge from the front");
    drag(&mut window, from, vec2(30.0, 0.0));
    assert_eq!((known(&window), undecided(&window)), ([true, true], false), "both were put where they are");
}

#[test]
fn a_corner_is_typed_by_length_and_angle_from_the_last_one() {
    let mut window = on_fixture();
    let count = plan(&window).article.outline.len();
    press(&mut window, "Draw outline line");
    for [(one, first), (other, second)] in [
        [("station of the first corner", "2 m"), ("waterline of the first corner", "0.4 m")],
        [("length to the next corner", "0.5 m"), ("angle to the next corner", "90 deg")],
    ] {
        for (field, text) in [(one, first), (other, second)] {
            window.get_by_label(field).click();
            window.run();
            window.event(Event::Text(text.to_owned()));
            window.run();
        }
        key(&mut window, Key::Tab);
        press(&mut window, "Add corner");
    }
    press(&mut window, "End the line");
    let points: Vec<[f64; 2]> =
        plan(&window).article.outline[count].points.iter().map(|p| p.map(Quantity::si)).collect();
    for (got, want) in points.concat().into_iter().zip([2.0, 0.4, 2.0, 0.9]) {
        assert!((got - want).abs() < 1e-9, "got {got} m, want {want} m, difference {} m", got - want);
    }
}
