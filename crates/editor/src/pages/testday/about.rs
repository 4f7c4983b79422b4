//! A remark or a photograph of one piece: asked for by a right click on it, or of the last one by a button. The entry's
//! own words name the piece.

use super::desk::{Asked, CAPTION, Desk};
use super::held::Part;
use drafting::views::Scene;
use eframe::egui::{Pos2, Response};

/// Where a remark is typed.
pub(super) const REMARK: &str = "Remark";

/// What somebody wants to say of a piece, and how that piece is called.
pub(super) enum Said {
    /// Words.
    Remark(String),
    /// A picture.
    Photograph(String),
}

/// What is asked for in the menu of the piece at the pointer.
pub(super) fn asked(response: &Response, scene: &Scene, at: impl Fn(Pos2) -> Option<usize>) -> Option<Said> {
    // Without a day there is no log to say it in.
    scene.numbers?;
    let id = response.id.with("piece");
    if response.secondary_clicked() {
        let piece = response.interact_pointer_pos().and_then(at);
        response.ctx.data_mut(|data| data.insert_temp(id, piece));
    }
    let piece = response.ctx.data(|data| data.get_temp::<Option<usize>>(id)).flatten()?;
    let called = called(scene, piece)?;
    let mut said = None;
    response.context_menu(|ui| {
        ui.set_min_width(230.0);
        if ui.button(format!("Remark on step {}", scene.number(piece))).clicked() {
            said = Some(Said::Remark(called.clone()));
            ui.close();
        }
        if ui.button(format!("Photograph of step {}…", scene.number(piece))).clicked() {
            said = Some(Said::Photograph(called.clone()));
            ui.close();
        }
    });
    said
}

/// As in `Piece 12 (shot bag 10, layer 3)`.
fn called(scene: &Scene, piece: usize) -> Option<String> {
    scene.plan.stack.get(piece)?;
    let (number, name) = (scene.number(piece), scene.plan.piece_name(piece));
    Some(format!("Piece {number} ({name}, layer {})", scene.layer_of(piece)))
}

impl Desk {
    /// Begins what is said of a piece: its words are typed on, its photograph is looked for.
    pub(super) fn say_of(&mut self, said: Said) {
        self.side.open = Some(Part::Remark);
        match said {
            Said::Remark(piece) => drop(self.typed.insert(REMARK.to_owned(), format!("{piece}: "))),
            Said::Photograph(piece) => {
                self.typed.insert(CAPTION.to_owned(), piece);
                self.ask(Asked::Photograph);
            }
        }
    }

    /// How the piece that was put down last is called; none where nothing lies there.
    pub(super) fn last_piece(&self) -> Option<String> {
        let run = self.day()?.run();
        let scene = Scene { numbers: Some(run.steps()), ..Scene::whole(run.as_done(), self.layout()?) };
        called(&scene, run.placed().checked_sub(1)?)
    }
}
