//! What hands do on the Stack page, each gesture by name and by pointer.

use crate::stage::{click, demo, from_above, key, middle, place, press, text, window};
use editor::{Editor, Opening};
use eframe::egui::{Event, Key, Modifiers, OutputCommand, Pos2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use plan::Plan;

pub(crate) type Window = Harness<'static, Editor>;

pub(crate) fn plan(window: &Window) -> Plan {
    window.state().document().plan().clone()
}

pub(crate) fn steps(window: &Window) -> usize {
    window.state().document().plan().steps()
}

/// Selects a piece of the uppermost layer by its name in the view from above, with others if asked.
pub(crate) fn select(window: &mut Window, step: usize, with_others: bool) {
    from_above(window);
    let name = format!("{} from above", plan(window).piece_name(step));
    let modifiers = if with_others { Modifiers::SHIFT } else { Modifiers::NONE };
    window.get_by_label(&name).click_modifiers(modifiers);
    window.run();
}

/// What the window put on the clipboard.
fn copied(window: &Window) -> Option<String> {
    window.output().platform_output.commands.iter().find_map(|command| match command {
        OutputCommand::CopyText(text) => Some(text.clone()),
        _ => None,
    })
}

/// Selects the two last pieces and the one before them.
fn last_three(window: &mut Window) -> Vec<usize> {
    let count = steps(window);
    let three = vec![count - 1, count - 2, count - 3];
    for (index, step) in three.iter().enumerate() {
        select(window, *step, index > 0);
    }
    three
}

#[test]
fn a_placed_piece_is_selected_and_keys_act_on_it_while_the_next_hangs_on_the_pointer() {
    let mut window = demo();
    from_above(&mut window);
    let before = steps(&window);
    press(&mut window, "Place shot bag");
    let at = window.get_by_label("From above").rect().center() + vec2(11.0, 3.0);
    click(&mut window, at);
    assert_eq!(steps(&window), before + 1, "placed");
    let lay = place(&window, before);
    key(&mut window, Modifiers::NONE, Key::ArrowRight);
    let moved = place(&window, before)[0] - lay[0];
    assert!((moved - 0.005).abs() < 1e-12, "got {moved} m, want 0.005 m, difference {} m", moved - 0.005);
    let turn = plan(&window).stack[before].turn;
    key(&mut window, Modifiers::NONE, Key::R);
    assert_eq!(plan(&window).stack[before].turn, turn.other(), "R turns what was placed");
    // The next one: T turns it before it is placed, a second click places it.
    key(&mut window, Modifiers::NONE, Key::T);
    click(&mut window, at + vec2(30.0, 0.0));
    assert_eq!(steps(&window), before + 2, "the lot is still in hand");
    assert_eq!(plan(&window).stack[before + 1].turn, turn.other(), "T turned what was in hand");
    key(&mut window, Modifiers::NONE, Key::Escape);
    click(&mut window, at - vec2(0.0, 60.0));
    assert_eq!(steps(&window), before + 2, "one Esc puts it back");
}

#[test]
fn two_clicks_at_one_place_put_two_pieces_on_one_another() {
    let mut window = demo();
    from_above(&mut window);
    let before = steps(&window);
    press(&mut window, "Place shot bag");
    let at = window.get_by_label("From above").rect().center();
    click(&mut window, at);
    click(&mut window, at);
    assert_eq!(steps(&window), before + 2);
    let undersides = &window.state().assessment().closed.pile.underside_m;
    assert!(undersides[before + 1] > undersides[before], "the second lies on the first: {undersides:?}");
}

#[test]
fn shift_and_a_drag_over_the_ground_select_what_lies_within() {
    let mut window = demo();
    let count = steps(&window);
    let view = window.get_by_label("From the side").rect();
    let from = view.left_top() + vec2(4.0, 30.0);
    window.event(Event::PointerMoved(from));
    window.run();
    let button = |pos: Pos2, pressed: bool| Event::PointerButton {
        pos,
        button: eframe::egui::PointerButton::Primary,
        pressed,
        modifiers: Modifiers::SHIFT,
    };
    window.event(Event::ModifiersChanged(Modifiers::SHIFT));
    window.event(button(from, true));
    window.run();
    for to in [view.center(), view.right_bottom() - vec2(4.0, 40.0)] {
        window.event(Event::PointerMoved(to));
        window.run();
    }
    window.event(button(view.right_bottom() - vec2(4.0, 40.0), false));
    window.run();
    window.event(Event::ModifiersChanged(Modifiers::NONE));
    key(&mut window, Modifiers::NONE, Key::Delete);
    assert_eq!(steps(&window), 0, "all {count} pieces lay within the band and are taken off in one step");
    key(&mut window, Modifiers::COMMAND, Key::Z);
    assert_eq!(steps(&window), count, "and one undo brings them back");
}

#[test]
fn the_selected_pieces_line_up_by_the_align_menu() {
    let mut window = demo();
    let three = last_three(&mut window);
    window.get_by_label("Align").click();
    window.run();
    press(&mut window, "Right edges");
    let plan = plan(&window);
    let edge = |step: &usize| {
        let half = quantity::Quantity::si(plan.extent_of(&plan.stack[*step])[1]) / 2.0;
        quantity::Quantity::si(plan.stack[*step].at[1]) + half
    };
    for step in &three {
        let (got, want) = (edge(step), edge(&three[0]));
        assert!(
            (got - want).abs() < 1e-12,
            "step {}: got {got} m, want {want} m, difference {} m",
            step + 1,
            got - want
        );
    }
    let undo = window.state().document().undo_name().map(str::to_owned).unwrap_or_default();
    assert!(undo.starts_with("right edges: "), "got undo “{undo}”");
}

#[test]
fn a_layer_is_copied_up_onto_itself() {
    let mut window = demo();
    let before = plan(&window);
    // The first layer has boards, of which none are left: the bags' layer in the middle is taken.
    let layers = window.state().assessment().closed.pile.layer.clone();
    let top = layers.iter().copied().max().unwrap_or_default();
    let of_top: Vec<usize> = (0..before.steps()).filter(|s| layers[*s] == top).collect();
    let left = before.left_of(before.lot_of(&before.stack[of_top[0]])) as usize;
    select(&mut window, of_top[0], false);
    key(&mut window, Modifiers::NONE, Key::U);
    let after = plan(&window);
    let added = after.steps() - before.steps();
    assert_eq!(added, of_top.len().min(left), "as many as are left of the lot");
    for (copy, step) in (before.steps()..after.steps()).zip(&of_top) {
        assert_eq!(after.stack[copy].at, before.stack[*step].at, "at the same place");
    }
    assert!(window.state().document().undo_name().is_some_and(|name| name.starts_with("copy a layer up")));
}

#[test]
fn pieces_are_copied_as_the_text_of_a_plan_and_pasted_into_another_window() {
    let mut from = demo();
    let three = last_three(&mut from);
    from.event(Event::Copy);
    from.step();
    let text = copied(&from).expect("something was copied");
    let carried = plan::file::read(&text).expect("the clipboard holds a plan");
    assert_eq!(carried.steps(), three.len());

    let mut to = window(Opening::File(crate::files::asset("assets/examples/side-by-side.ron")), None);
    let before = plan(&to);
    to.event(Event::Paste(text));
    to.run();
    let after = plan(&to);
    assert_eq!(after.steps(), before.steps() + three.len());
    assert_eq!(after.ballast.len(), before.ballast.len() + 1, "their lot came along");
    assert!(to.state().document().undo_name().is_some_and(|name| name.starts_with("paste ")));
    key(&mut to, Modifiers::NONE, Key::Delete);
    assert_eq!(plan(&to).steps(), before.steps(), "what was pasted is selected");
}

#[test]
fn a_text_on_the_clipboard_that_is_no_plan_changes_nothing_and_is_told() {
    let mut window = demo();
    let before = text(&window);
    window.event(Event::Paste("three bags, please".to_owned()));
    window.run();
    assert_eq!(text(&window), before);
    assert!(window.query_by_label_contains("The clipboard holds no text of a plan").is_some());
}

#[test]
fn a_line_of_the_list_is_dragged_to_another_step() {
    let mut window = demo();
    let before = plan(&window);
    let layer = window.state().assessment().closed.pile.layer[8];
    press(&mut window, &format!("Layer {layer}: steps 8–13"));
    let label = format!("Step 9: {}, layer {layer}", before.piece_name(8));
    let from = middle(&window, &label);
    window.hover_at(from);
    window.run();
    window.drag_at(from);
    window.hover_at(from + vec2(0.0, 10.0));
    window.run();
    window.hover_at(from + vec2(0.0, 48.0));
    window.run();
    window.drop_at(from + vec2(0.0, 48.0));
    window.run();
    let after = plan(&window);
    assert_eq!(after.stack[10], before.stack[8], "two lines of 24 points further down");
    assert_eq!(window.state().document().undo_name(), Some(format!("place {} later", before.piece_name(8)).as_str()));
}

#[test]
fn several_pieces_go_one_step_earlier_together() {
    let mut window = demo();
    let before = plan(&window);
    let count = before.steps();
    last_three(&mut window);
    key(&mut window, Modifiers::NONE, Key::OpenBracket);
    let after = plan(&window);
    assert_eq!(after.stack[count - 1], before.stack[count - 4], "the one before them comes last now");
    assert_eq!(after.stack[count - 4..count - 1], before.stack[count - 3..]);
}

#[test]
fn an_empty_plan_says_how_to_begin_and_offers_the_demos() {
    let mut window = demo();
    key(&mut window, Modifiers::COMMAND, Key::N);
    assert!(window.query_by_label("An empty plan").is_some());
    press(&mut window, &format!("Open the demo: {}", editor::DEMOS[1].0));
    assert_eq!(window.state().document().plan().title, plan::file::read(editor::DEMOS[1].1).expect("a demo").title);
}

#[test]
fn a_remedy_is_made_by_its_button_and_taken_back_by_undo() {
    let mut window = window(Opening::File(crate::files::asset("assets/examples/four-faults.ron")), None);
    let solved = (0..6000).any(|_| {
        std::thread::sleep(std::time::Duration::from_millis(20));
        window.step();
        // They come after the checks.
        !window.state().assessment().remedies.is_empty()
    });
    assert!(solved, "remedies are tried");
    window.run();
    let before = text(&window);
    let index = window.state().assessment().findings.iter().position(|f| f.check == assess::Check::OffsetLateral);
    let words = window.state().assessment().remedy(index.expect("a finding")).expect("a remedy").words.clone();
    window.get_by_label(&words).click_accesskit();
    window.run();
    assert_ne!(text(&window), before, "the plan changed");
    assert!(window.query_by_label("Offset lateral: fails").is_none(), "and the check is in order");
    key(&mut window, Modifiers::COMMAND, Key::Z);
    assert_eq!(text(&window), before, "undo takes it back");
}
