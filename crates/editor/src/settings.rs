//! What is kept between runs, in the system's own place; deleting it harms nothing.

use eframe::egui::ThemePreference;
use serde::{Deserialize, Serialize};
use std::path::{Path, PathBuf};

const KEY: &str = "settings";
const RECENT: usize = 8;

/// Recent plans and the theme.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Settings {
    /// Plans that were opened or saved, the last one first.
    pub(crate) recent: Vec<PathBuf>,
    /// Light, dark, or the system's.
    pub(crate) theme: ThemePreference,
}

impl Settings {
    pub(crate) fn load(storage: Option<&dyn eframe::Storage>) -> Self {
        storage.and_then(|s| eframe::get_value(s, KEY)).unwrap_or_default()
    }

    pub(crate) fn store(&self, storage: &mut dyn eframe::Storage) {
        eframe::set_value(storage, KEY, self);
    }

    /// Moves a plan to the head of the recent ones.
    pub(crate) fn remember(&mut self, path: &Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        self.recent.retain(|p| *p != path);
        self.recent.insert(0, path);
        self.recent.truncate(RECENT);
    }
}
