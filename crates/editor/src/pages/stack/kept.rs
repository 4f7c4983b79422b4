//! Thumbnails as they were painted last: triangles, so that a frame in which nothing of them changes costs
//! next to nothing.

use super::sight::Sight;
use drafting::palette::Palette;
use drafting::solids::Direction;
use eframe::egui::epaint::{ClippedShape, Primitive};
use eframe::egui::{Mesh, Painter, Rect, Shape};
use std::sync::Arc;

/// What was painted last of each view.
#[derive(Clone, Debug, Default)]
pub(crate) struct Thumbs([Option<Thumb>; 4]);

#[derive(Clone, Debug)]
struct Thumb {
    place: Place,
    state: State,
    /// How often the plan, the gesture in hand included, or what is known of it had changed.
    changes: u64,
    mesh: Arc<Mesh>,
}

/// Where and in which colours.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Place {
    rect: Rect,
    pixels_per_point: f32,
    palette: Palette,
}

/// Of what.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct State {
    /// Of the plan, gestures left out.
    pub(super) revision: u64,
    pub(super) placed: usize,
    pub(super) selected: Vec<usize>,
    pub(super) leans: bool,
    /// Where the turned view is seen from.
    pub(super) from: Option<Direction>,
}

/// What is to be seen in a thumbnail now.
pub(super) struct Now {
    pub(super) palette: Palette,
    pub(super) state: State,
    /// How often the plan, the gesture in hand included, or what is known of it had changed.
    pub(super) changes: u64,
    /// Whether what was painted last may stay while only that has changed.
    pub(super) stands_still: bool,
}

impl Thumbs {
    /// Paints the thumbnail of a view; `shapes` are asked for where what was painted last is no longer right.
    pub(super) fn paint(
        &mut self,
        painter: &Painter,
        (sight, rect): (Sight, Rect),
        now: Now,
        shapes: impl FnOnce() -> Vec<Shape>,
    ) {
        let pixels_per_point = painter.ctx().pixels_per_point();
        let place = Place { rect, pixels_per_point, palette: now.palette };
        let is_right = |last: &&Thumb| {
            let same = last.place == place && last.state == now.state;
            same && (now.stands_still || last.changes == now.changes)
        };
        let kept = &mut self.0[sight as usize];
        let known = kept.as_ref().filter(is_right).map(|last| Arc::clone(&last.mesh));
        let mesh = known.unwrap_or_else(|| {
            let mesh = Arc::new(triangles(painter, shapes()));
            *kept = Some(Thumb { place, state: now.state, changes: now.changes, mesh: Arc::clone(&mesh) });
            mesh
        });
        painter.add(Shape::Mesh(mesh));
    }
}

/// Words are left out: their places in the texture of glyphs do not last.
fn triangles(painter: &Painter, shapes: Vec<Shape>) -> Mesh {
    let clip_rect = painter.clip_rect();
    let drawn = shapes.into_iter().filter(|shape| !matches!(shape, Shape::Text(_)));
    let clipped = drawn.map(|shape| ClippedShape::new(clip_rect, shape)).collect();
    let mut all = Mesh::default();
    for part in painter.ctx().tessellate(clipped, painter.ctx().pixels_per_point()) {
        if let Primitive::Mesh(mesh) = part.primitive {
            all.append(mesh);
        }
    }
    all
}
