//! The turned view: turned by hand and by key, picked, played, saved.

use crate::stage::{click, decided, demo, key, press, window};
use editor::{Editor, Opening};
use eframe::egui::accesskit::{Role, Toggled};
use eframe::egui::{Event, Key, Modifiers, PointerButton, Pos2, Shape, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

fn turned() -> Harness<'static, Editor> {
    let mut window = demo();
    key(&mut window, Modifiers::NONE, Key::Num1);
    window
}

/// Where the view is, and what it is called.
fn view(window: &Harness<'static, Editor>) -> (Pos2, String) {
    let node = window.get_by(|node| {
        node.role() == Role::Canvas && node.label().is_some_and(|label| label.starts_with("Turned view"))
    });
    (node.rect().center(), node.accesskit_node().label().unwrap_or_default())
}

#[test]
fn the_turned_view_tells_from_where_it_is_seen_and_goes_by_corners() {
    let mut window = turned();
    assert_eq!(view(&window).1, "Turned view, from the left front, 25° above");
    for (pressed, words) in [
        (Key::Period, "from the left rear"),
        (Key::Period, "from the right rear"),
        (Key::Comma, "from the left rear"),
        (Key::Comma, "from the left front"),
        (Key::Comma, "from the right front"),
    ] {
        key(&mut window, Modifiers::NONE, pressed);
        assert_eq!(view(&window).1, format!("Turned view, {words}, 25° above"));
    }
}

#[test]
fn a_drag_turns_it_and_moves_no_piece_and_a_double_click_brings_it_home() {
    let mut window = turned();
    let before = window.state().document().plan().clone();
    let (middle, _) = view(&window);
    window.drag_at(middle);
    window.hover_at(middle + vec2(-90.0, 0.0));
    window.run();
    window.hover_at(middle + vec2(-180.0, 40.0));
    window.drop_at(middle + vec2(-180.0, 40.0));
    window.run();
    let words = view(&window).1;
    assert_ne!(words, "Turned view, from the left front, 25° above");
    assert!(window.state().document().plan() == &before && window.state().document().undo_name().is_none());
    let beside = middle - vec2(0.0, 150.0);
    window.hover_at(beside);
    window.run();
    // Both clicks in one frame: frames of the harness are too far apart for a double click.
    let press = |pressed| Event::PointerButton {
        pos: beside,
        button: PointerButton::Primary,
        pressed,
        modifiers: Modifiers::NONE,
    };
    window.input_mut().events.extend([press(true), press(false), press(true), press(false)]);
    window.run();
    assert_eq!(view(&window).1, "Turned view, from the left front, 25° above");
}

#[test]
fn a_click_selects_the_piece_that_is_seen_there() {
    let mut window = turned();
    let plan = window.state().document().plan().clone();
    // The last piece lies on top, nothing covers it.
    let name = format!("{} turned", plan.piece_name(plan.steps() - 1));
    let at = window.get_by_label(&name).rect().center();
    click(&mut window, at);
    let chosen = |window: &Harness<'static, Editor>| {
        let mut names: Vec<String> = Vec::new();
        for step in 0..plan.steps() {
            let name = format!("{} turned", plan.piece_name(step));
            let node = window.query_by_label(&name);
            if node.is_some_and(|node| node.accesskit_node().toggled() == Some(Toggled::True)) {
                names.push(name);
            }
        }
        names
    };
    assert_eq!(chosen(&window), [name]);
    let corner = view(&window).0 - vec2(250.0, 200.0);
    click(&mut window, corner);
    assert!(chosen(&window).is_empty(), "a click beside the pile selects nothing");
}

#[test]
fn the_space_bar_plays_from_the_start_and_stops() {
    let mut window = turned();
    // While it plays the window never comes to rest: frames are taken one by one.
    window.key_press(Key::Space);
    window.run_steps(2);
    assert!(window.query_by_label("Pause").is_some(), "it plays");
    let seen = |window: &Harness<'static, Editor>| {
        window.get_all_by(|node| node.label().is_some_and(|label| label.ends_with(" turned"))).count()
    };
    let few = seen(&window);
    window.run_steps(20);
    assert!(seen(&window) > few, "pieces are put down: {few} at first, then {}", seen(&window));
    window.key_press(Key::Space);
    window.run_steps(3);
    assert!(window.query_by_label("Play").is_some(), "it stops");
    assert!(few < 12, "it begins with an empty seat: {few} pieces");
}

#[test]
fn its_picture_is_saved_by_itself() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("pile.png");
    let mut window = window(Opening::Demo, Some(path.clone()));
    key(&mut window, Modifiers::NONE, Key::Num1);
    press(&mut window, "Save picture of the turned view");
    let bytes = std::fs::read(&path).expect("the picture is there");
    let mut reader = png::Decoder::new(std::io::Cursor::new(bytes)).read_info().expect("a PNG");
    let info = reader.info();
    // Ten inches by seven and a half at 300 dots an inch.
    assert_eq!([info.width, info.height], [3000, 2250]);
    let mut pixels = vec![0; reader.output_buffer_size().expect("its size")];
    reader.next_frame(&mut pixels).expect("it decodes");
    let wood = pixels.chunks_exact(3).filter(|rgb| rgb[0] > rgb[2].saturating_add(60)).count();
    assert!(wood > 20_000, "only {wood} dots are as brown as boards");
}

/// The corners that the thumbnails paint, bit by bit: they alone are triangles before the window is painted.
fn thumbnails(window: &Harness<'static, Editor>) -> Vec<Vec<[u32; 2]>> {
    let mut found = Vec::new();
    for clipped in &window.output().shapes {
        if let Shape::Mesh(mesh) = &clipped.shape
            && mesh.vertices.len() > 100
        {
            found.push(mesh.vertices.iter().map(|corner| [corner.pos.x, corner.pos.y].map(f32::to_bits)).collect());
        }
    }
    found
}

#[test]
fn thumbnails_follow_every_change_of_the_plan_and_of_the_step() {
    let mut window = demo();
    // What was solved comes back with undo; what is solved meanwhile would be drawn in one of both alone.
    decided(&mut window);
    let plan = window.state().document().plan();
    let last = plan.piece_name(plan.steps() - 1);
    press(&mut window, &last);
    let before = thumbnails(&window);
    assert_eq!(before.len(), 3, "three views are small");
    window.step();
    assert_eq!(thumbnails(&window), before, "nothing has changed");
    key(&mut window, Modifiers::NONE, Key::ArrowUp);
    let moved = thumbnails(&window);
    assert!(before.iter().zip(&moved).all(|(a, b)| a != b), "a piece that was moved is moved in all of them");
    key(&mut window, Modifiers::COMMAND, Key::Z);
    assert_eq!(thumbnails(&window), before, "undo draws what was drawn");
    key(&mut window, Modifiers::NONE, Key::PageUp);
    assert_ne!(thumbnails(&window), before, "another step is shown");
}
