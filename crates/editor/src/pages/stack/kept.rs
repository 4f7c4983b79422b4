//! Thumbnails as they were painted last: triangles, so that a frame in which nothing of them changes costs
//! next to nothing.

use super::sight::Sight;
use super::table::Table;
use drafting::palette::Palette;
use drafting::solids::Direction;
use eframe::egui::epaint::{ClippedShape, Primitive};
use eframe::egui::{Mesh, Painter, Rect, Shape};
use std::sync::Arc;

/// Above so many pieces thumbnails stand still while something is dragged: a drag has 4 ms a frame.
const STILL: usize = 150;

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
struct State {
    /// Of the plan, gestures left out.
    revision: u64,
    placed: usize,
    selected: Vec<usize>,
    leans: bool,
    /// Where the turned view is seen from.
    from: Option<Direction>,
}

impl State {
    fn of(table: &Table, sight: Sight) -> Self {
        Self {
            revision: table.shown.revision(),
            placed: table.hand.placed(),
            selected: table.hand.selected.clone(),
            leans: table.hand.leans,
            from: sight.flat().is_none().then_some(table.hand.turning.from),
        }
    }
}

/// Paints the thumbnail of a view; `shapes` are asked for where what was painted last is no longer right.
pub(super) fn paint(
    painter: &Painter,
    table: &mut Table,
    (sight, rect): (Sight, Rect),
    shapes: impl FnOnce(&mut Table) -> Vec<Shape>,
) {
    let pixels_per_point = painter.ctx().pixels_per_point();
    let place = Place { rect, pixels_per_point, palette: table.look.palette };
    let (state, changes) = (State::of(table, sight), table.shown.changes());
    let stands_still = table.hand.gesture.is_some() && table.shown.plan.steps() > STILL;
    let last = table.hand.thumbs.0[sight as usize].as_ref();
    let is_right =
        |last: &&Thumb| last.place == place && last.state == state && (stands_still || last.changes == changes);
    let known = last.filter(is_right).map(|last| Arc::clone(&last.mesh));
    let mesh = known.unwrap_or_else(|| {
        let mesh = Arc::new(triangles(painter, shapes(table)));
        table.hand.thumbs.0[sight as usize] = Some(Thumb { place, state, changes, mesh: Arc::clone(&mesh) });
        mesh
    });
    painter.add(Shape::Mesh(mesh));
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
