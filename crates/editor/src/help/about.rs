//! Which version this is, from what it was built, and what it is made of.

use crate::look::{self, Look};
use eframe::egui::Ui;
use std::sync::OnceLock;

/// The commit that it was built from, as the binary told; none where that is not known.
static BUILT_FROM: OnceLock<&'static str> = OnceLock::new();

/// Every part of the binary with its licence, a line each; held to the build by a test.
const PARTS: &str = include_str!("../../../../assets/licences.txt");

const FONTS: &str = "Typefaces: Liberation Sans (SIL Open Font License 1.1), Phosphor Regular (MIT).";

pub(crate) fn built_from(commit: &'static str) {
    // Told once, by the binary as it begins.
    let _ = BUILT_FROM.set(commit);
}

/// `Version 0.2.0, built from commit 1a2b3c4d5e6f.`
fn version() -> String {
    let version = env!("CARGO_PKG_VERSION");
    match BUILT_FROM.get() {
        Some(commit) => format!("Version {version}, built from commit {commit}."),
        None => format!("Version {version}; the commit that it was built from is not known."),
    }
}

pub(super) fn show(ui: &mut Ui, look: &Look) {
    ui.label(look::bold(crate::NAME, look::LARGE));
    ui.label(version());
    ui.label(
        "Its own code is under the MIT licence. An aid, not an approval: local rules and licensed practice decide.",
    );
    ui.label(FONTS);
    ui.add_space(8.0);
    ui.label(look::bold("Parts, with their licences", look::BODY));
    ui.label("Each part is used unchanged under the licence that it names; where there is a choice, any of them.");
    for part in PARTS.lines() {
        ui.label(look::caption(look, part));
    }
}
