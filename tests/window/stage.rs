//! A window without a display, on a demo, with a scripted file picker.

use editor::{Editor, Opening, Surroundings};
use eframe::egui;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use std::path::PathBuf;

/// A window of a usual size.
pub(crate) fn window(opening: Opening, picked: Option<PathBuf>) -> Harness<'static, Editor> {
    window_within(opening, move || Surroundings::scripted(picked.clone()))
}

/// A window of a usual size with these surroundings.
pub(crate) fn window_within(opening: Opening, around: impl Fn() -> Surroundings + 'static) -> Harness<'static, Editor> {
    let mut window = Harness::builder()
        .with_size([1440.0, 900.0])
        .with_max_steps(12)
        .build_eframe(move |creation| Editor::new(creation, opening.clone(), around()));
    window.run();
    window
}

/// The demo's window.
pub(crate) fn demo() -> Harness<'static, Editor> {
    window(Opening::Demo, None)
}

/// Presses a button by its name.
pub(crate) fn press(window: &mut Harness<'static, Editor>, label: &str) {
    window.get_by_label(label).click();
    window.run();
}

/// The text of the plan in the window.
pub(crate) fn text(window: &Harness<'static, Editor>) -> String {
    plan::file::write(window.state().document().plan())
}

/// Where a piece is, bed frame, m.
pub(crate) fn place(window: &Harness<'static, Editor>, step: usize) -> [f64; 2] {
    window.state().document().plan().stack[step].at.map(quantity::Quantity::si)
}

/// The middle of what carries this name on the screen.
pub(crate) fn middle(window: &Harness<'static, Editor>, label: &str) -> eframe::egui::Pos2 {
    window.get_by_label(label).rect().center()
}

/// Waits until the solvers beside the window are done.
pub(crate) fn decided(window: &mut Harness<'static, Editor>) {
    let since = std::time::Instant::now();
    while window.state().assessment().exact.is_none() {
        assert!(since.elapsed().as_secs() < 120, "the solvers beside the window did not finish in two minutes");
        std::thread::sleep(std::time::Duration::from_millis(20));
        window.step();
    }
    window.run();
}

/// A key with what is held down beside it.
pub(crate) fn key(window: &mut Harness<'static, Editor>, modifiers: egui::Modifiers, key: egui::Key) {
    window.key_press_modifiers(modifiers, key);
    window.run();
}

/// A click as a hand makes it: the pointer is there before it presses.
pub(crate) fn click(window: &mut Harness<'static, Editor>, at: egui::Pos2) {
    window.hover_at(at);
    window.run();
    window.drag_at(at);
    window.drop_at(at);
    window.run();
}

/// The view from above as the large one of the Stack page.
pub(crate) fn from_above(window: &mut Harness<'static, Editor>) {
    key(window, egui::Modifiers::NONE, egui::Key::Num4);
}
