//! The photograph under the Fixture page's side view: chosen from a file, its path kept from the
//! folder of the plan, so that both can be moved together.

use super::window::Editor;
use crate::pages::fixture::path_from;
use plan::edit::Part;
use plan::{Article, Edit, Picture};
use quantity::{Angle, Length};
use std::path::{Path, PathBuf};

/// What a photograph's file name may end in.
pub(crate) const ENDINGS: [&str; 3] = ["png", "jpg", "jpeg"];

impl Editor {
    /// The folder in which the plan lies; none before it is saved.
    pub(super) fn folder(&self) -> Option<PathBuf> {
        self.document.path().and_then(Path::parent).map(Path::to_owned)
    }

    /// Takes a photograph under the side view: where the one before lay, else across what is seen.
    pub(super) fn take_photograph(&mut self, file: &Path) {
        let Some(folder) = self.folder() else {
            return self.messages.trouble(
                "Save the plan first: the path of the photograph is kept relative to the folder of the plan, and \
                 the plan has no file yet",
            );
        };
        let plan = self.document.plan();
        let centre = plan.floor_from_article().inverse() * self.rig.camera.centre();
        let fresh = || Picture {
            path: String::new(),
            at: [centre.x, centre.z].map(|m| Length::m((m * 100.0).round() / 100.0)),
            width: Length::m(4.0),
            turn: Angle::rad(0.0),
        };
        let before = plan.article.picture.clone().unwrap_or_else(fresh);
        let picture = Picture { path: path_from(&folder, file), ..before };
        let article = Article { picture: Some(picture), ..plan.article.clone() };
        self.rig.shelf.forget();
        self.make(vec![Edit::draw(Part::Article(article), "put a photograph behind the side view")]);
    }

    /// Before the plan is saved into another folder: the photograph's path from there.
    pub(super) fn lead_to_photograph(&mut self, saved_as: &Path) {
        let (Some(from), Some(to)) = (self.folder(), saved_as.parent()) else { return };
        let article = &self.document.plan().article;
        let Some(picture) = article.picture.clone().filter(|_| from != to) else { return };
        let path = path_from(to, &from.join(&picture.path));
        let article = Article { picture: Some(Picture { path, ..picture }), ..article.clone() };
        self.make(vec![Edit::draw(Part::Article(article), "keep the path to the photograph")]);
    }
}
