//! What stays, what follows and what is told while something is in hand on the Stack page.

use crate::stage::{click, demo, key, middle, place, press, window};
use editor::{Editor, Opening};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Modifiers, Pos2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use plan::Plan;
use quantity::Quantity;

type Window = Harness<'static, Editor>;

fn plan(window: &Window) -> Plan {
    window.state().document().plan().clone()
}

/// A window on the demo with the first so many pieces of its stack.
fn with_first(pieces: usize) -> Window {
    let mut plan = plan::file::read(editor::DEMOS[0].1).expect("the demo is a plan");
    plan.stack.truncate(pieces);
    opened(&plan)
}

fn opened(plan: &Plan) -> Window {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("plan.ron");
    std::fs::write(&path, plan::file::write(plan)).expect("written");
    window(Opening::File(path), None)
}

/// Low and high ends of a piece along an axis of the bed, m.
fn ends(plan: &Plan, step: usize, axis: usize) -> [f64; 2] {
    let place = &plan.stack[step];
    let half = plan.extent_of(place)[axis].si() / 2.0;
    [place.at[axis].si() - half, place.at[axis].si() + half]
}

#[test]
fn the_head_says_for_which_state_its_four_numbers_stand() {
    // A plan that nobody worked out before: what is told until it is solved is looked at first.
    let mut plan = plan::file::read(editor::DEMOS[0].1).expect("the demo is a plan");
    plan.title = "told before it is solved".to_owned();
    let mut window = opened(&plan);
    let told = |window: &Window, states: [&str; 4]| {
        for state in states {
            assert!(window.query_all_by_label_contains(state).next().is_some(), "“{state}” is not told");
        }
    };
    told(&window, ["Applied at the end", "Offset at the end", "Least reserve of all steps", "at the end"]);
    key(&mut window, Modifiers::NONE, Key::Home);
    told(&window, ["Applied before step 1", "Offset before step 1", "Reserve before step 1", "all before step 1"]);
    assert!(window.query_by_label("0.0 kg").is_some(), "nothing is applied before the first step");
    key(&mut window, Modifiers::NONE, Key::PageDown);
    told(&window, ["Applied after step 1", "Offset after step 1", "Reserve after step 1", "all after step 1"]);
    crate::stage::decided(&mut window);
    told(&window, ["Scales after step 1", "Reserve after step 1", "Applied after step 1", "least of all: step"]);
    key(&mut window, Modifiers::NONE, Key::Home);
    told(&window, ["Scales before step 1", "Reserve before step 1", "nothing placed", "kg at the end"]);
}

#[test]
fn at_a_hold_below_limit_the_head_says_what_is_allowed_there_and_why() {
    let plan = plan::file::read(editor::DEMOS[0].1).expect("the demo is a plan");
    let mut window = opened(&plan);
    crate::stage::decided(&mut window);
    let step = window.state().assessment().closed.hold_steps[0].expect("the first hold is reached");
    key(&mut window, Modifiers::NONE, Key::Home);
    for _ in 0..=step {
        key(&mut window, Modifiers::NONE, Key::PageDown);
    }
    let told = "allowed 30 mm, 20 mm: twice, below limit";
    assert!(window.query_all_by_label_contains(told).next().is_some(), "“{told}” is not told");
}

#[test]
fn a_scale_without_a_capacity_is_told_as_one_that_has_no_limit() {
    let mut plan = plan::file::read(editor::DEMOS[0].1).expect("the demo is a plan");
    plan.fixture.supports[0].capacity = None;
    let mut window = opened(&plan);
    crate::stage::decided(&mut window);
    let told = |words: &str| window.query_all_by_label_contains(words).next().is_some();
    assert!(told("no limit given") && told("of 500.0 kg"), "of one no limit is given, of the others 500 kg");
}

#[test]
fn the_scale_stays_while_pieces_are_placed_until_one_lies_beyond_the_view() {
    let mut window = with_first(13);
    let name = plan(&window).piece_name(0);
    let width = |window: &Window| window.get_by_label(&name).rect().width();
    let before = width(&window);
    press(&mut window, "Place shot bag");
    let side = window.get_by_label("From the side").rect();
    let at = Pos2::new(middle(&window, &name).x, side.center().y);
    let mut changes = 0;
    let mut last = before;
    for index in 0_u8..14 {
        // A little to the side each time, so that the click is no rest on the piece just placed.
        click(&mut window, at + vec2(f32::from(index % 2) * 12.0, 0.0));
        window.hover_at(at + vec2(30.0, 0.0));
        window.run();
        let now = width(&window);
        if (now - last).abs() > 0.5 {
            changes += 1;
            assert!(now < last, "the drawing goes back to show more: got {now} pt, was {last} pt");
        }
        last = now;
        let top = plan(&window).piece_name(13 + usize::from(index));
        let seen = window.query_all_by_role_and_label(Role::ListBoxOption, &top).next();
        assert!(seen.is_some_and(|piece| side.intersects(piece.rect())), "what was placed is in view: {top}");
    }
    assert_eq!(plan(&window).steps(), 27, "all were placed");
    assert!(changes <= 3, "14 layers of bags made the drawing jump {changes} times");
    assert!(changes >= 1, "0.7 m of bags were never beyond the view: the test tests nothing");
}

#[test]
fn a_bag_that_is_let_go_near_its_neighbour_lies_against_it() {
    let mut window = with_first(8);
    crate::stage::from_above(&mut window);
    let before = plan(&window);
    press(&mut window, "Place shot bag");
    // Beside the bag that lies there, a few points off its face: the grid alone would leave a gap.
    let bag = window.get_by_label(&format!("{} from above", before.piece_name(7))).rect();
    for off in [-5.0, -2.0, 3.0, 6.0] {
        click(&mut window, bag.center() + vec2(-bag.width() - off, 2.0));
        let after = plan(&window);
        let gap = ends(&after, 7, 0)[0] - ends(&after, 8, 0)[1];
        assert!(gap.abs() < 1e-9, "{off} points off the face: got a gap of {gap} m, want 0 m, difference {gap} m");
        let level = |step: usize| window.state().assessment().closed.pile.underside_m[step];
        assert!((level(8) - level(7)).abs() < 1e-9, "they lie at one height: {} m, {} m", level(8), level(7));
        key(&mut window, Modifiers::COMMAND, Key::Z);
        window.hover_at(bag.center() - vec2(0.0, 90.0));
        window.run();
    }
}

#[test]
fn undo_keeps_the_lot_in_hand_and_what_is_still_selected() {
    let mut window = demo();
    crate::stage::from_above(&mut window);
    let before = plan(&window);
    let count = before.steps();
    press(&mut window, &format!("{} from above", before.piece_name(count - 1)));
    key(&mut window, Modifiers::NONE, Key::ArrowRight);
    let moved = plan(&window);
    key(&mut window, Modifiers::COMMAND, Key::Z);
    assert_eq!(plan(&window), before, "taken back");
    key(&mut window, Modifiers::NONE, Key::ArrowRight);
    assert_eq!(plan(&window), moved, "the same piece is still selected");
    press(&mut window, "Place shot bag");
    let at = middle(&window, "From above");
    click(&mut window, at);
    assert_eq!(plan(&window).steps(), count + 1);
    key(&mut window, Modifiers::COMMAND, Key::Z);
    assert_eq!(plan(&window).steps(), count);
    click(&mut window, at + vec2(14.0, 0.0));
    assert_eq!(plan(&window).steps(), count + 1, "the lot was still in hand");
    key(&mut window, Modifiers::COMMAND, Key::Z);
    key(&mut window, Modifiers::COMMAND, Key::Y);
    assert_eq!(plan(&window).steps(), count + 1, "and redo does it again");
}

#[test]
fn escape_closes_an_open_menu_and_leaves_the_selection_alone() {
    let mut window = demo();
    crate::stage::from_above(&mut window);
    let before = plan(&window);
    let last = before.steps() - 1;
    press(&mut window, &format!("{} from above", before.piece_name(last)));
    press(&mut window, "View");
    assert!(window.query_by_label_contains("Fit the drawing").is_some(), "open");
    key(&mut window, Modifiers::NONE, Key::Escape);
    assert!(window.query_by_label_contains("Fit the drawing").is_none(), "closed");
    key(&mut window, Modifiers::NONE, Key::ArrowRight);
    assert!(place(&window, last)[0] > before.stack[last].at[0].si(), "the piece is still selected");
}

#[test]
fn the_fields_follow_a_piece_that_is_dragged_and_its_layer_stays_in_view() {
    let mut window = demo();
    crate::stage::from_above(&mut window);
    let before = plan(&window);
    let count = before.steps();
    let name = |step: usize| format!("{} from above", before.piece_name(step));
    press(&mut window, &name(count - 1));
    let told = |window: &Window| window.get_by_label("place x").accesskit_node().value();
    let (at_rest, from) = (told(&window), middle(&window, &name(count - 1)));
    window.drag_at(from);
    window.hover_at(from + vec2(30.0, 0.0));
    window.run();
    assert_ne!(told(&window), at_rest, "the field follows while the button is down");
    // Off the stack altogether: the rest of the top layer is still what is looked at.
    window.hover_at(from + vec2(330.0, 0.0));
    window.run();
    assert_eq!(window.state().assessment().closed.pile.layer[count - 1], 1, "it would lie beside the stack");
    for other in [count - 2, count - 3] {
        assert!(window.query_by_label(&name(other)).is_some(), "{} is out of sight", name(other));
    }
    window.drop_at(from + vec2(330.0, 0.0));
    window.run();
}

#[test]
fn half_a_stack_is_told_in_one_quiet_line() {
    let mut window = with_first(13);
    crate::stage::decided(&mut window);
    assert!(window.query_by_label_contains("Still to come: ").is_some(), "what is lacking is told");
    for check in ["Applied load: fails", "Offset lateral: fails", "Offset fore and aft: fails"] {
        assert!(window.query_by_label(check).is_none(), "{check} is noise by now");
    }
    window.get_by_label_contains("Still to come: ").click();
    window.run();
    assert!(window.query_by_label("Applied load: fails").is_some(), "opened, the line lists it");
}

#[test]
fn columns_without_bond_are_hinted_at_and_selected_by_a_click() {
    let mut window = with_first(8);
    crate::stage::from_above(&mut window);
    assert!(window.query_by_label_contains("Not in bond").is_none(), "one bag is no column");
    press(&mut window, "Place shot bag");
    let at = window.get_by_label(&format!("{} from above", plan(&window).piece_name(7))).rect().center();
    for _ in 0..2 {
        click(&mut window, at);
        window.hover_at(at - vec2(0.0, 90.0));
        window.run();
    }
    key(&mut window, Modifiers::NONE, Key::Escape);
    // The hint comes last: below what can be seen, so it is chosen as a screen reader would.
    window.get_by_label_contains("1 column is not in bond with its neighbours, up to 4 pieces high").click_accesskit();
    window.run();
    assert!(window.query_by_label("Selected: 4").is_some(), "the plate and its three bags are selected");
}

#[test]
fn a_lot_comes_to_hand_as_its_last_piece_was_put_down() {
    let mut window = with_first(8);
    crate::stage::from_above(&mut window);
    press(&mut window, "Place shot bag");
    key(&mut window, Modifiers::NONE, Key::T);
    let at = middle(&window, "From above");
    click(&mut window, at);
    let turned = plan(&window).stack[8].turn;
    assert_ne!(turned, plan(&window).stack[7].turn, "T turned it");
    key(&mut window, Modifiers::NONE, Key::Escape);
    press(&mut window, "Place shot bag");
    click(&mut window, at + vec2(0.0, 40.0));
    assert_eq!(plan(&window).stack[9].turn, turned, "taken up again, it lies as the last one");
}

/// Whoever looks for what stops the sheet finds it on top, in whichever group it is.
#[test]
fn groups_with_a_failure_stand_before_those_with_cautions_alone() {
    let plan = plan::file::read(editor::DEMOS[2].1).expect("the demo is a plan");
    let mut window = opened(&plan);
    crate::stage::decided(&mut window);
    window.set_size(vec2(1440.0, 6000.0));
    window.run();
    let tops = |ending: &str| {
        let of = |group: assess::Group| {
            let name = format!("{}: ", group.heading());
            let line = window.query_all_by_label_contains(&name).find(|node| {
                node.accesskit_node().label().is_some_and(|label| label.contains(ending) && node.rect().left() > 900.0)
            });
            line.map(|node| node.rect().top())
        };
        assess::Group::ALL.into_iter().filter_map(of).collect::<Vec<_>>()
    };
    let failing = tops("failure");
    let lowest = failing.iter().copied().fold(f32::MIN, f32::max);
    let others: Vec<f32> = tops("met").into_iter().filter(|top| !failing.contains(top)).collect();
    assert!(!failing.is_empty() && !others.is_empty(), "failing {failing:?}, others {others:?}");
    let in_fixed_order = failing.windows(2).all(|pair| pair[0] < pair[1]);
    assert!(in_fixed_order, "among themselves they keep their order: {failing:?}");
    assert!(others.iter().all(|top| *top > lowest), "failing {failing:?}, others {others:?}");
}
