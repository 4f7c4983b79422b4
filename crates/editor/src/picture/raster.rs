//! egui's triangles into pixels, by a rasteriser whose answer is the same on every machine.
//!
//! The rasteriser takes a surface of at most [`TILE`]; a larger page is drawn tile by tile.

use dream_soft_render::{ClipRect, Color, Error, Mesh, SoftwareRenderer, TextureId, Vertex};
use eframe::egui::epaint::{ClippedPrimitive, Primitive};
use eframe::egui::{self, Color32, ColorImage, TexturesDelta};
use std::collections::HashMap;

/// The largest surface at once, pixels.
const TILE: [usize; 2] = [1280, 720];

/// The rasteriser with egui's textures in it.
#[derive(Default)]
pub(super) struct Raster {
    renderer: SoftwareRenderer,
    textures: HashMap<egui::TextureId, TextureId>,
}

impl Raster {
    /// Takes new and changed textures.
    ///
    /// # Errors
    /// The rasteriser's: a texture beyond its budget.
    pub(super) fn take(&mut self, delta: &TexturesDelta) -> Result<(), Error> {
        #[expect(clippy::iter_over_hash_type, reason = "each texture is taken by itself: the order changes nothing")]
        for (id, changes) in &delta.set {
            for change in changes {
                let egui::ImageData::Color(image) = &change.image;
                let [width, height] = image.size;
                let bytes: Vec<u8> = image.pixels.iter().flat_map(Color32::to_array).collect();
                match (change.pos, self.textures.get(id)) {
                    (Some([x, y]), Some(known)) => {
                        self.renderer.update_texture(*known, x, y, width, height, &bytes)?;
                    }
                    (_, known) => {
                        if let Some(old) = known {
                            self.renderer.free_texture(*old)?;
                        }
                        self.textures.insert(*id, self.renderer.create_texture(width, height, &bytes)?);
                    }
                }
            }
        }
        Ok(())
    }

    /// Draws a page of this size in pixels. What uses a texture that was not taken is left out.
    ///
    /// # Errors
    /// The rasteriser's; none for what egui makes.
    pub(super) fn draw(
        &mut self,
        page: &[ClippedPrimitive],
        size: [usize; 2],
        pixels_per_point: f32,
    ) -> Result<ColorImage, Error> {
        let mut picture = ColorImage::filled(size, Color32::BLACK);
        for top in (0..size[1]).step_by(TILE[1]) {
            for left in (0..size[0]).step_by(TILE[0]) {
                let tile = Tile { left, top, width: TILE[0].min(size[0] - left), height: TILE[1].min(size[1] - top) };
                self.draw_tile(page, &tile, pixels_per_point)?;
                tile.copy(&self.renderer.surface().pixels, &mut picture);
            }
        }
        Ok(picture)
    }

    fn draw_tile(&mut self, page: &[ClippedPrimitive], tile: &Tile, scale: f32) -> Result<(), Error> {
        let mut frame = self.renderer.begin_frame(tile.width, tile.height)?;
        frame.clear(Color::BLACK);
        for ClippedPrimitive { clip_rect, primitive } in page {
            let Primitive::Mesh(mesh) = primitive else { continue };
            let Some(texture) = self.textures.get(&mesh.texture_id) else { continue };
            let clip = tile.clip(*clip_rect, scale);
            if clip.min_x >= clip.max_x || clip.min_y >= clip.max_y {
                continue;
            }
            let vertices: Vec<Vertex> = mesh.vertices.iter().map(|v| tile.vertex(v, scale)).collect();
            let indices = drawable(&mesh.indices, &vertices);
            let vertices: Vec<Vertex> =
                vertices.into_iter().map(|v| if finite(&v) { v } else { Vertex::default() }).collect();
            frame.mesh(Mesh { vertices: &vertices, indices: &indices, texture: Some(*texture) }, clip)?;
        }
        Ok(())
    }
}

/// A line of no length has no direction, and egui's soft edge of it no place: a graphics card draws
/// nothing there, this rasteriser refuses.
fn drawable(indices: &[u32], vertices: &[Vertex]) -> Vec<u32> {
    let known = |i: &u32| vertices.get(*i as usize).is_some_and(finite);
    indices.chunks_exact(3).filter(|corners| corners.iter().all(known)).flatten().copied().collect()
}

fn finite(vertex: &Vertex) -> bool {
    vertex.pos.iter().chain(&vertex.uv).all(|value| value.is_finite())
}

/// A part of the page, pixels.
struct Tile {
    left: usize,
    top: usize,
    width: usize,
    height: usize,
}

impl Tile {
    fn vertex(&self, vertex: &egui::epaint::Vertex, scale: f32) -> Vertex {
        let at = [vertex.pos.x * scale - self.left as f32, vertex.pos.y * scale - self.top as f32];
        let [r, g, b, a] = vertex.color.to_array();
        Vertex::new(at, [vertex.uv.x, vertex.uv.y], Color::from_rgba_premultiplied(r, g, b, a))
    }

    fn clip(&self, rect: egui::Rect, scale: f32) -> ClipRect {
        let within =
            |value: f32, from: usize, most: usize| (value * scale - from as f32).round().clamp(0.0, most as f32) as u32;
        ClipRect::new(
            within(rect.min.x, self.left, self.width),
            within(rect.min.y, self.top, self.height),
            within(rect.max.x, self.left, self.width),
            within(rect.max.y, self.top, self.height),
        )
    }

    fn copy(&self, rgba: &[u8], picture: &mut ColorImage) {
        for (row, line) in rgba.chunks_exact(4 * self.width).enumerate() {
            let start = (self.top + row) * picture.size[0] + self.left;
            let into = picture.pixels.iter_mut().skip(start);
            for (pixel, bytes) in into.zip(line.chunks_exact(4)) {
                *pixel = Color32::from_rgb(bytes[0], bytes[1], bytes[2]);
            }
        }
    }
}
