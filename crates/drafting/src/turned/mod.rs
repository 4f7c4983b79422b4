//! The turned view: pile, article and fixture as solids, seen from anywhere above the floor, in
//! parallel projection, shaded side by side.
//!
//! In: a state of a plan ([`Scene`]) and how it is looked at ([`Look`]). Out: a figure like any other,
//! which window, sheet and record paint alike, and which piece lies under a point of it. The drawing
//! plane is in metres, right and up as the viewer sees it.

mod bags;
mod dress;
mod floor;
mod pointing;
mod rig;

use crate::figure::Figure;
use crate::solids::{Direction, Facing, Solid, in_order};
use crate::views::Scene;
use assess::{Soft, WeakestLayer};
use dress::What;
use nalgebra::{Point3, Vector3};
use std::collections::BTreeMap;

/// How a state of a plan is looked at.
#[derive(Clone, Copy, Debug)]
pub struct Look<'a> {
    /// From where.
    pub from: Direction,
    /// The step (from 0) of the piece that comes next: teal, and drawn although it is not put down.
    pub next: Option<usize>,
    /// A piece (step from 0) on its way down, and how far it still is above its place, m.
    pub above: Option<(usize, f64)>,
    /// Whether layers stand apart.
    pub spread: Spread,
    /// Which pieces have their numbers on.
    pub numbers: Numbers,
    /// Where and which way the stack would go first.
    pub weakest: Option<WeakestLayer>,
    /// How the bags let the stack lean: then the pieces are drawn as they lean and sink, to an exaggerated scale.
    pub leans: Option<&'a Soft>,
    /// Whether the line of action is shown.
    pub line_of_action: bool,
    /// Whether supports, the next piece and the line of action are named.
    pub words: bool,
    /// Marks from which is measured: what each is called, and where it is, floor frame, m.
    pub marks: &'a [(&'a str, Point3<f64>)],
}

/// Whether layers are drawn apart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spread {
    /// As they lie.
    Together,
    /// One layer and all above it lifted by so much, m.
    Lifted {
        /// The layer.
        layer: usize,
        /// How far, m.
        by_m: f64,
    },
    /// Each layer lifted by so much more than the one beneath it, m.
    Exploded {
        /// How far, m.
        by_m: f64,
    },
}

/// Which pieces have their numbers on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Numbers {
    /// None.
    None,
    /// Those whose top is seen.
    Seen,
    /// Those of the layer in hand whose top is seen.
    OfLayer,
}

impl Default for Look<'_> {
    fn default() -> Self {
        Self {
            from: Direction::HOME,
            next: None,
            above: None,
            spread: Spread::Together,
            numbers: Numbers::None,
            weakest: None,
            leans: None,
            line_of_action: false,
            words: false,
            marks: &[],
        }
    }
}

/// A turned view that is drawn.
#[derive(Clone, Debug)]
pub struct Turned {
    /// What is painted.
    pub figure: Figure,
    faces: Vec<Face>,
}

/// A side as it is painted, and the step (from 0) of its piece; none where it is no piece's.
#[derive(Clone, Debug)]
struct Face {
    step: Option<usize>,
    layer: usize,
    /// Whether it looks up more than aside.
    is_top: bool,
    outline: Vec<[f64; 2]>,
    /// The least box around it.
    around: [[f64; 2]; 2],
}

/// A solid and what it is.
struct Item {
    what: What,
    solid: Solid,
}

/// Draws a state of a plan. A layer in hand is drawn strong, all others pale; nothing above it where
/// the scene hides that. Thumbnail, sheet and window differ by [`Look`] alone.
pub fn turned(scene: &Scene, look: &Look) -> Turned {
    let pieces = bags::pieces(scene, look);
    let mut items: Vec<Item> = rig::items(scene, look.spread);
    let stands = items.len();
    items.extend(pieces);
    let mut figure = floor::floor(scene, look.from, &items[..stands]);
    let (whats, solids): (Vec<What>, Vec<Solid>) = items.into_iter().map(|item| (item.what, item.solid)).unzip();
    let sides = in_order(&solids, look.from, &common(scene), |of| whats[of].lets_through());
    let dresser = dress::Dresser::of(scene, look);
    let mut faces = Vec::with_capacity(sides.len());
    for side in sides {
        let what = whats[side.of];
        dresser.paint(&mut figure, what, &side);
        if !what.lets_through() {
            faces.push(face(scene, what, side));
        }
    }
    let mut turned = Turned { figure, faces };
    pointing::add(&mut turned, scene, look);
    turned
}

fn face(scene: &Scene, what: What, side: Facing) -> Face {
    let step = what.step();
    let first = side.outline.first().copied().unwrap_or_default();
    Face {
        step,
        layer: step.map_or(0, |step| scene.layer_of(step)),
        is_top: side.outward.z > 0.9,
        around: side.outline.iter().fold([first, first], |bounds, p| crate::figure::grown(bounds, *p)),
        outline: side.outline,
    }
}

/// The least box around pile, article, fixture and the arrow to the nose as they are seen from a
/// direction, lower left and upper right, m: what a view that is turned fits into its frame. Layers lie
/// together; the whole stack counts, whatever step is shown.
pub fn reach(scene: &Scene, from: Direction) -> [[f64; 2]; 2] {
    let all = Scene { step: scene.plan.steps(), hide_above: false, ..*scene };
    let items = rig::items(&all, Spread::Together);
    let pieces = all.pieces().filter_map(|step| all.corners(step)).flatten();
    let corners = items.iter().flat_map(|item| item.solid.corners().iter().copied()).chain(pieces);
    let arrow = floor::arrow(&all, from, &items);
    let origin = from.project(all.layout.floor_from_bed * Point3::origin());
    corners.chain(arrow).map(|corner| from.project(corner)).fold([origin, origin], crate::figure::grown)
}

/// Along these axes most things lie: those of the floor, of the article and of the bed.
fn common(scene: &Scene) -> Vec<Vector3<f64>> {
    let turns = [scene.plan.floor_from_article().rotation, scene.layout.floor_from_bed.rotation];
    let mut axes = vec![Vector3::z(), Vector3::x(), Vector3::y()];
    for axis in turns.iter().flat_map(|turn| [turn * Vector3::z(), turn * Vector3::x()]) {
        if !axes.iter().any(|known| known.cross(&axis).norm_squared() < 1e-18) {
            axes.push(axis);
        }
    }
    axes
}

impl Turned {
    /// The step (from 0) of the piece under a point of the drawing plane, m; none beside the pieces, or
    /// where something else covers them. What lets light through does not count.
    pub fn piece_at(&self, point: [f64; 2]) -> Option<usize> {
        self.faces.iter().rev().find(|face| face.holds(point)).and_then(|face| face.step)
    }

    /// What is seen of a piece: the least box around its sides that show, lower left and upper right, m.
    pub fn box_of(&self, step: usize) -> Option<[[f64; 2]; 2]> {
        around(self.faces.iter().filter(|face| face.step == Some(step)))
    }

    /// The same for each piece of which something shows, with its step (from 0), in placing order.
    pub fn boxes(&self) -> BTreeMap<usize, [[f64; 2]; 2]> {
        let mut boxes = BTreeMap::new();
        for face in &self.faces {
            let Some(step) = face.step else { continue };
            let known = boxes.entry(step).or_insert(face.around);
            *known = face.around.into_iter().fold(*known, crate::figure::grown);
        }
        boxes
    }

    /// Where a leader to a layer ends: on the side of the layer that lies farthest to the right.
    pub fn anchor_of_layer(&self, layer: usize) -> Option<[f64; 2]> {
        let of_layer = self.faces.iter().filter(|face| face.step.is_some() && face.layer == layer);
        of_layer
            .map(|face| middle(&face.outline))
            .filter(|at| self.piece_at(*at).is_some())
            .reduce(|a, b| if b[0] > a[0] { b } else { a })
    }

    /// The least box around pile, article and fixture, without floor and labels, lower left and upper
    /// right, m.
    pub fn bounds(&self) -> Option<[[f64; 2]; 2]> {
        around(self.faces.iter())
    }

    /// The pieces whose tops are seen, the nearest first: the step, where the middle of the top lies, and
    /// how wide and high that side is.
    fn tops(&self) -> Vec<(usize, [f64; 2], [f64; 2])> {
        let mut tops = Vec::new();
        for (place, face) in self.faces.iter().enumerate().rev().filter(|(_, face)| face.is_top) {
            let (Some(step), [low, high]) = (face.step, face.around) else { continue };
            let at = middle(&face.outline);
            if !self.faces[place + 1..].iter().any(|nearer| nearer.holds(at)) {
                tops.push((step, at, [high[0] - low[0], high[1] - low[1]]));
            }
        }
        tops
    }
}

fn around<'a>(faces: impl Iterator<Item = &'a Face>) -> Option<[[f64; 2]; 2]> {
    let grown = |bounds, face: &Face| face.around.into_iter().fold(bounds, crate::figure::grown);
    faces.fold(None, |bounds, face| Some(grown(bounds.unwrap_or(face.around), face)))
}

/// The mean of the corners.
fn middle(outline: &[[f64; 2]]) -> [f64; 2] {
    let sum = outline.iter().fold([0.0, 0.0], |sum, p| [sum[0] + p[0], sum[1] + p[1]]);
    #[expect(clippy::cast_precision_loss, reason = "a few corners")]
    let count = outline.len().max(1) as f64;
    sum.map(|s| s / count)
}

impl Face {
    /// Whether it holds a point of the picture; its outline is convex and goes round counterclockwise.
    fn holds(&self, p: [f64; 2]) -> bool {
        let [low, high] = self.around;
        // Most lie elsewhere: asked of the box that costs least.
        let is_within = p[1] >= low[1] && p[1] <= high[1] && p[0] >= low[0] && p[0] <= high[0];
        is_within
            && self
                .outline
                .iter()
                .zip(self.outline.iter().cycle().skip(1))
                .all(|(a, b)| (b[0] - a[0]) * (p[1] - a[1]) >= (b[1] - a[1]) * (p[0] - a[0]))
    }
}
