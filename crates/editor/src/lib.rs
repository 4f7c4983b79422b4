//! The window: pages along the job, a drawing to place pieces on, forms over the plan.
//!
//! In: a plan file, or the demo. Out: edits through the plan's one door, files where the user says
//! so. This crate must never compute mechanics (it shows an [`assess::Assessment`]), never change
//! a plan but by a [`plan::Edit`], and never solve anything heavy in the frame callback: what is
//! heavy runs in [`worker`]. Start reading at [`Editor`], then [`document`] and [`pages`].

pub mod dialogs;
pub mod disk;
pub mod document;
mod editor;
mod fields;
mod intent;
mod look;
mod menu;
mod messages;
pub mod pages;
mod paint;
mod picture;
mod settings;
mod shown;
mod signs;
pub mod worker;

pub use editor::{Editor, Opening};

/// What the window is called before a plan's name.
pub const NAME: &str = "Loadcairn";

/// The demo plans in the binary: title for menus, and file text.
pub const DEMOS: [(&str, &str); 3] = [
    ("Single seat, tube seat (metric)", include_str!("../../../assets/examples/single-seat.ron")),
    ("Side by side, panel seat (inch-pound)", include_str!("../../../assets/examples/side-by-side.ron")),
    ("Four faults to find (metric)", include_str!("../../../assets/examples/four-faults.ron")),
];

/// Opens the window and stays until it is closed.
///
/// # Errors
/// Where there is no display, or no OpenGL on it.
pub fn run(opening: Opening) -> eframe::Result {
    let viewport = eframe::egui::ViewportBuilder::default()
        .with_app_id("loadcairn")
        .with_title(NAME)
        .with_inner_size([1440.0, 900.0])
        .with_min_inner_size([1000.0, 640.0])
        .with_drag_and_drop(true);
    let options = eframe::NativeOptions { viewport, ..Default::default() };
    eframe::run_native("loadcairn", options, Box::new(|creation| Ok(Box::new(Editor::new(creation, opening)))))
}
