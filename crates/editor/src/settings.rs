//! What is kept between runs, in the system's own place; deleting or damaging it harms nothing.

use eframe::egui::ThemePreference;
use quantity::Units;
use serde::{Deserialize, Serialize};
use std::path::{Path, PathBuf};

const FILE: &str = "settings.ron";
const RECENT: usize = 8;
/// The interface's scale, per cent, least and most.
pub(crate) const SCALES: [u32; 9] = [75, 90, 100, 110, 125, 140, 150, 175, 200];

/// How much of a photograph is seen, per cent, least and most.
pub(crate) const OPACITY: [u32; 2] = [10, 100];

/// Recent plans, and how the window is liked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Settings {
    /// Plans that were opened or saved, the last one first.
    pub(crate) recent: Vec<PathBuf>,
    /// Light, dark, or the system's.
    pub(crate) theme: ThemePreference,
    /// How large the interface is drawn, per cent: one of [`SCALES`].
    pub(crate) scale: u32,
    /// Whether a new plan is metric; else it is in inches and pounds.
    pub(crate) metric: bool,
    /// How much of a photograph is seen under the side view, per cent.
    pub(crate) opacity: u32,
    /// The window's size, points.
    pub(crate) window: [f32; 2],
    /// The log of the last test day: offered again as long as that day is not over.
    pub(crate) day: Option<PathBuf>,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            recent: Vec::new(),
            theme: ThemePreference::System,
            scale: 100,
            metric: true,
            opacity: 60,
            window: [1440.0, 900.0],
            day: None,
        }
    }
}

impl Settings {
    /// As they were kept in this folder; as they come, where nothing usable is there.
    pub(crate) fn load(folder: Option<&Path>) -> Self {
        let text = folder.and_then(|folder| disk::read(&folder.join(FILE)).ok());
        let kept: Self = text.and_then(|text| ron::from_str(&text).ok()).unwrap_or_default();
        kept.within_reason()
    }

    /// A damaged file may say anything: no window of no size, no letters too small to read.
    fn within_reason(mut self) -> Self {
        let default = Self::default();
        if !SCALES.contains(&self.scale) {
            self.scale = default.scale;
        }
        if !(OPACITY[0]..=OPACITY[1]).contains(&self.opacity) {
            self.opacity = default.opacity;
        }
        if !self.window.iter().all(|side| (500.0..20_000.0).contains(side)) {
            self.window = default.window;
        }
        self.recent.truncate(RECENT);
        self
    }

    /// Keeps them in this folder. That they could not be kept is no reason to stop anybody's work.
    pub(crate) fn store(&self, folder: Option<&Path>) {
        let Some(folder) = folder else { return };
        let pretty = ron::ser::PrettyConfig::default();
        let Ok(text) = ron::ser::to_string_pretty(self, pretty) else { return };
        let _ = std::fs::create_dir_all(folder);
        let _ = disk::write_whole(&folder.join(FILE), text.as_bytes());
    }

    /// Moves a plan to the head of the recent ones.
    pub(crate) fn remember(&mut self, path: &Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        self.recent.retain(|p| *p != path);
        self.recent.insert(0, path);
        self.recent.truncate(RECENT);
    }

    /// The units of a new plan.
    pub(crate) fn units(&self) -> Units {
        if self.metric { Units::Metric } else { Units::InchPound }
    }

    /// The next larger or smaller scale; the same at the end of the list.
    pub(crate) fn next_scale(&self, larger: bool) -> u32 {
        let mut others = SCALES.into_iter().filter(|s| if larger { *s > self.scale } else { *s < self.scale });
        let next = if larger { others.next() } else { others.next_back() };
        next.unwrap_or(self.scale)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_kept_is_read_again() {
        let folder = tempfile::tempdir().expect("a test folder");
        let mut settings = Settings { scale: 125, metric: false, opacity: 35, ..Settings::default() };
        settings.remember(Path::new("/plans/seat.ron"));
        settings.store(Some(folder.path()));
        assert_eq!(Settings::load(Some(folder.path())), settings);
    }

    #[test]
    fn missing_and_damaged_settings_are_as_they_come() {
        let folder = tempfile::tempdir().expect("a test folder");
        assert_eq!(Settings::load(Some(folder.path())), Settings::default(), "no file");
        for damage in [
            "",
            "(",
            "(scale: 100000, opacity: 0, window: (0.0, -3.0))",
            "(theme: Purple)",
            "\u{0}\u{1}",
            "(unknown: 3)",
        ] {
            std::fs::write(folder.path().join(FILE), damage).expect("the test folder can be written");
            let loaded = Settings::load(Some(folder.path()));
            let read = (loaded.scale, loaded.opacity, loaded.window);
            assert_eq!(read, (100, 60, [1440.0, 900.0]), "from {damage:?}");
        }
    }

    #[test]
    fn the_scale_ends_at_its_ends() {
        let at = |scale| Settings { scale, ..Settings::default() };
        assert_eq!((at(200).next_scale(true), at(75).next_scale(false)), (200, 75));
        assert_eq!((at(100).next_scale(true), at(100).next_scale(false)), (110, 90));
    }
}
