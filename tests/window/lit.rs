//! What a pointer that only hovers makes seen.

use crate::stage::{decided, demo, press};
use eframe::egui::{Shape, vec2};
use egui_kittest::kittest::{NodeT, Queryable};

/// Rings as wide as those round pieces that a finding speaks of.
fn rings(window: &egui_kittest::Harness<'static, editor::Editor>) -> usize {
    let is_ring =
        |shape: &Shape| matches!(shape, Shape::Path(path) if path.closed && (path.stroke.width - 2.5).abs() < 1e-6);
    window.output().shapes.iter().filter(|clipped| is_ring(&clipped.shape)).count()
}

#[test]
fn a_finding_under_the_pointer_rings_the_pieces_of_which_it_speaks() {
    let mut window = demo();
    decided(&mut window);
    assert_eq!(rings(&window), 0, "nothing is pointed at");
    let finding = window.get_by_label_contains("Lifting by hand: caution").rect();
    window.hover_at(finding.left_top() + vec2(40.0, 12.0));
    window.run();
    assert!(rings(&window) > 0, "its pieces have rings");
    window.hover_at(eframe::egui::pos2(5.0, 5.0));
    window.run();
    assert_eq!(rings(&window), 0, "the pointer has gone");
}

#[test]
fn the_fixture_is_seen_in_the_round_without_its_stack_and_turns() {
    let mut window = demo();
    press(&mut window, "Fixture");
    press(&mut window, "Turned");
    let before = window.get_by_label_contains("Fixture turned, ");
    let (name, at) = (before.accesskit_node().label().unwrap_or_default(), before.rect().center());
    window.hover_at(at);
    window.run();
    window.drag_at(at);
    window.run();
    window.hover_at(at + vec2(160.0, 0.0));
    window.run();
    window.drop_at(at + vec2(160.0, 0.0));
    window.run();
    let after = window.get_by_label_contains("Fixture turned, ").accesskit_node().label().unwrap_or_default();
    assert_ne!(name, after, "a drag turns it");
}
