//! The page as a picture: into a file, onto the clipboard, and for tests that look at it.

use super::window::Editor;
use crate::help;
use crate::look::Look;
use crate::pages::stack;
use crate::picture::{self, CLIPBOARD_DPI, PRINT_DPI, Picture};
use eframe::egui::{ColorImage, Context, Ui, Vec2};
use std::path::Path;

/// Dots an inch of a picture of the help: as on a screen.
const HELP_DPI: f32 = 96.0;

impl Editor {
    /// The page that is shown, as large as given (points) and with its theme, in pixels.
    ///
    /// # Errors
    /// A page larger than the rasteriser takes.
    pub fn picture(&mut self, ctx: &Context, size: Vec2, dpi: f32) -> Result<ColorImage, String> {
        self.laid_out(ctx, size, dpi)?.pixels()
    }

    /// The picture of a page of the help, by the name of its file: the page that is shown, as large as given (points),
    /// with a number beside each control that a step of the help names.
    ///
    /// # Errors
    /// A page larger than the rasteriser takes, a name that no page of the help has, or a control that is not shown.
    pub fn help_picture(&mut self, ctx: &Context, size: Vec2, file: &str) -> Result<ColorImage, String> {
        let marks = help::marks(file).ok_or_else(|| format!("no page of the help is called {file}"))?;
        let paint = |ui: &mut Ui| {
            let look = Look::of(ui.ctx());
            self.head_and_page(ui, &look);
            self.show_arranging(&ui.ctx().clone(), &look);
        };
        Picture::lay_out_marked(ctx, size, HELP_DPI, &marks, paint)?.pixels()
    }

    fn laid_out(&mut self, ctx: &Context, size: Vec2, dpi: f32) -> Result<Picture, String> {
        Picture::lay_out(ctx, size, dpi, |ui| {
            let look = Look::of(ui.ctx());
            self.head_and_page(ui, &look);
        })
    }

    pub(super) fn copy_picture(&mut self, ctx: &Context) {
        let size = ctx.content_rect().size();
        match self.picture(ctx, size, CLIPBOARD_DPI) {
            Ok(image) => {
                ctx.copy_image(image);
                self.messages.done("A picture of the page is on the clipboard");
            }
            Err(why) => self.messages.trouble(format!("The page could not be drawn as a picture: {why}")),
        }
    }

    pub(super) fn save_picture_to(&mut self, ctx: &Context, path: &Path) {
        let size = ctx.content_rect().size();
        let laid = self.laid_out(ctx, size, PRINT_DPI);
        self.write_picture(laid, path);
    }

    /// The turned view by itself, with title and numbers: ten inches by seven and a half.
    pub(super) fn save_turned_to(&mut self, ctx: &Context, path: &Path) {
        const SIZE: Vec2 = Vec2::new(960.0, 720.0);
        let laid = Picture::lay_out(ctx, SIZE, PRINT_DPI, |ui| {
            let look = Look::of(ui.ctx());
            self.on_table(&ui.ctx().clone(), &look, |table| stack::plate(ui, table));
        });
        self.write_picture(laid, path);
    }

    fn write_picture(&mut self, laid: Result<Picture, String>, path: &Path) {
        let lines = path.extension().is_some_and(|e| e.eq_ignore_ascii_case("svg"));
        let bytes = laid.and_then(|laid| {
            if lines {
                return Ok(laid.svg().into_bytes());
            }
            picture::png(&laid.pixels()?, PRINT_DPI).map_err(|e| e.to_string())
        });
        match bytes.and_then(|bytes| disk::write_whole(path, &bytes).map_err(|e| e.to_string())) {
            Ok(()) => self.messages.done(format!("Picture saved as {}", path.display())),
            Err(why) => self.messages.trouble(format!("{}: {why}", path.display())),
        }
    }
}
