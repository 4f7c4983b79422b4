//! The window: pages along the job, a drawing to place pieces on, forms over the plan.
//!
//! In: a plan file, or the demo. Out: edits through the plan's one door, files where the user says
//! so. This crate must never compute mechanics (it shows an [`assess::Assessment`]), never change
//! a plan but by a [`plan::Edit`], and never solve anything heavy in the frame callback: what is
//! heavy runs in [`worker`]. Start reading at [`Editor`], then [`document`] and [`pages`].

mod arranger;
mod cautions;
pub mod clock;
mod commands;
mod demos;
pub mod dialogs;
pub mod document;
mod editor;
mod fields;
mod freed;
mod guide;
mod help;
mod icons;
mod intent;
mod lately;
mod look;
mod menu;
mod messages;
pub mod pages;
mod paint;
mod picture;
pub mod printing;
mod settings;
mod shown;
mod signs;
pub mod worker;

pub use demos::DEMOS;
pub use disk::journal;
pub use editor::{Editor, NAME, Opening, Surroundings};

/// What the desktop and the folder of settings know the program by.
const APP_ID: &str = "loadcairn";

/// The icon of the window: 128 by 128 points.
const ICON: &[u8] = include_bytes!("../../../assets/desktop/loadcairn-128.png");

/// Opens the window and stays until it is closed; `commit`: what the program was built from, where that is known.
///
/// # Errors
/// Where there is no display, or no OpenGL on it.
pub fn run(opening: Opening, commit: Option<&'static str>) -> eframe::Result {
    if let Some(commit) = commit {
        help::built_from(commit);
    }
    let folder = eframe::storage_dir(APP_ID);
    let viewport = eframe::egui::ViewportBuilder::default()
        .with_app_id(APP_ID)
        .with_title(NAME)
        .with_inner_size(settings::Settings::load(folder.as_deref()).window)
        .with_min_inner_size([1000.0, 640.0])
        .with_drag_and_drop(true)
        .with_icon(icon());
    let options = eframe::NativeOptions { viewport, persist_window: false, ..Default::default() };
    let around =
        Surroundings { picker: Box::new(dialogs::Native), printer: Box::new(printing::System::default()), folder };
    eframe::run_native(APP_ID, options, Box::new(|creation| Ok(Box::new(Editor::new(creation, opening, around)))))
}

/// An icon that cannot be read is none: the window opens all the same.
fn icon() -> eframe::egui::IconData {
    eframe::icon_data::from_png_bytes(ICON).unwrap_or_default()
}
