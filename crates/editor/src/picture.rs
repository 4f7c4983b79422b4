//! The page in the window as a picture: laid out once more beside the screen, without a graphics
//! card, at the resolution of a print. Tests hold the same pictures against kept ones.

mod marks;
mod raster;
mod vector;

use crate::look;
use eframe::egui::epaint::ClippedShape;
use eframe::egui::{ColorImage, Context, Id, Pos2, RawInput, Rect, Ui, Vec2, ViewportId};
use raster::Raster;
use std::io;

/// Dots an inch of a picture for print.
pub(crate) const PRINT_DPI: f32 = 300.0;
/// Dots an inch of a picture on the clipboard: sharp in a document, and not too heavy to paste.
pub(crate) const CLIPBOARD_DPI: f32 = 192.0;
/// A point of the window, as toolkits have it: 96 to the inch.
const POINTS_PER_INCH: f32 = 96.0;
/// The page is laid out this often: what is sized by its content settles in the second pass.
const PASSES: usize = 3;
/// Wide enough for every glyph of a page at print resolution, within what the rasteriser takes.
const TEXTURE_SIDE: usize = 2048;

/// A page laid out for a picture.
pub(crate) struct Picture {
    ctx: Context,
    size: Vec2,
    pixels_per_point: f32,
    shapes: Vec<ClippedShape>,
    raster: Raster,
}

impl Picture {
    /// Lays out what `paint` shows on a page of this size (points), beside the window whose theme,
    /// scroll positions and open folds it takes.
    ///
    /// # Errors
    /// More glyphs than the rasteriser has room for, in words.
    pub(crate) fn lay_out(window: &Context, size: Vec2, dpi: f32, paint: impl FnMut(&mut Ui)) -> Result<Self, String> {
        Self::lay_out_marked(window, size, dpi, &[], paint)
    }

    /// As [`Self::lay_out`], with the numbers 1, 2, … beside the controls of these names, as a screen reader is told
    /// them; what has no name gets no number.
    ///
    /// # Errors
    /// The same, and a name that nothing on the page has, with those that there are.
    pub(crate) fn lay_out_marked(
        window: &Context,
        size: Vec2,
        dpi: f32,
        marks: &[&str],
        mut paint: impl FnMut(&mut Ui),
    ) -> Result<Self, String> {
        let ctx = Context::default();
        // What opened in the window fades in by its clock.
        let now = window.input(|input| input.time) + 1.0;
        let memory = window.memory(Clone::clone);
        ctx.memory_mut(|beside| *beside = memory);
        look::dress(&ctx);
        if !marks.is_empty() {
            ctx.enable_accesskit();
        }
        ctx.data_mut(|data| data.insert_temp(mark(), ()));
        let pixels_per_point = dpi / POINTS_PER_INCH;
        let mut places = Vec::new();
        let mut raster = Raster::default();
        let mut shapes = Vec::new();
        for pass in 0..PASSES {
            let mut output = ctx.run_ui(input(size, pixels_per_point, now + pass as f64), |ui| {
                paint(ui);
                marks::paint(ui.ctx(), &places);
            });
            let taken = raster.take(&output.textures_delta);
            output.textures_delta.clear();
            taken.map_err(|e| e.to_string())?;
            shapes = output.shapes;
            if pass == PASSES - 2 {
                places = marks::places(marks, size, output.platform_output.accesskit_update.as_ref())?;
            }
        }
        Ok(Self { ctx, size, pixels_per_point, shapes, raster })
    }

    /// The picture in pixels.
    ///
    /// # Errors
    /// A page larger than the rasteriser takes, in words.
    pub(crate) fn pixels(mut self) -> Result<ColorImage, String> {
        let size = [self.size.x, self.size.y].map(|points| (points * self.pixels_per_point).round() as usize);
        let primitives = self.ctx.tessellate(self.shapes, self.pixels_per_point);
        self.raster.draw(&primitives, size, self.pixels_per_point).map_err(|e| e.to_string())
    }

    /// The picture as an SVG document: lines as lines, text as text.
    pub(crate) fn svg(&self) -> String {
        vector::write(&self.shapes, self.size)
    }
}

fn mark() -> Id {
    Id::unique("laid out for a picture")
}

/// Whether this is no window but a page laid out for a picture: what is kept as triangles is drawn as lines there.
pub(crate) fn is_laid_out(ctx: &Context) -> bool {
    ctx.data(|data| data.get_temp::<()>(mark()).is_some())
}

fn input(size: Vec2, pixels_per_point: f32, time: f64) -> RawInput {
    let mut input = RawInput {
        screen_rect: Some(Rect::from_min_size(Pos2::ZERO, size)),
        max_texture_side: Some(TEXTURE_SIDE),
        time: Some(time),
        ..RawInput::default()
    };
    input.viewports.entry(ViewportId::ROOT).or_default().native_pixels_per_point = Some(pixels_per_point);
    input
}

/// A picture as the bytes of a PNG file that says how large it prints.
///
/// # Errors
/// The encoder's; none on a picture with an area.
pub(crate) fn png(image: &ColorImage, dpi: f32) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    let [width, height] = image.size.map(|side| u32::try_from(side).unwrap_or(u32::MAX));
    let mut encoder = png::Encoder::new(&mut bytes, width, height);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    let per_metre = (dpi / 0.0254).round() as u32;
    encoder.set_pixel_dims(Some(png::PixelDimensions { xppu: per_metre, yppu: per_metre, unit: png::Unit::Meter }));
    let pixels: Vec<u8> = image.pixels.iter().flat_map(|p| [p.r(), p.g(), p.b()]).collect();
    encoder.write_header().and_then(|mut writer| writer.write_image_data(&pixels)).map_err(io::Error::other)?;
    Ok(bytes)
}
