//! The floor under it all: its grid, the footprint, which way the nose points.

use super::Item;
use crate::figure::{Anchor, Figure, Fill, Ink, Label, Light, Pen, Surface, TextSize, Weight};
use crate::solids::Direction;
use crate::views::Scene;
use nalgebra::Point3;

/// A square of the floor, m.
const SQUARE_M: f64 = 0.25;
/// How far the floor reaches beyond what stands on it, m.
const BEYOND_M: f64 = 0.22;
/// The arrow to the nose: its length, the width of its shaft, the length and width of its head, m.
const ARROW_M: [f64; 4] = [0.34, 0.035, 0.13, 0.11];

/// The floor. It is drawn first: all that stands on it covers it.
pub(super) fn floor(scene: &Scene, from: Direction, stands: &[Item]) -> Figure {
    let mut figure = Figure::default();
    let ground = Ground { from, z: scene.floor_m() };
    let stands = reach(scene, stands);
    let whole = |value: f64| value / SQUARE_M;
    let low = stands[0].map(|v| whole(v - BEYOND_M).floor() * SQUARE_M);
    let high = stands[1].map(|v| whole(v + BEYOND_M).ceil() * SQUARE_M);
    let corners = [[low[0], low[1]], [high[0], low[1]], [high[0], high[1]], [low[0], high[1]]];
    figure.polygon(ground.points(&corners), Fill::Shaded(Surface::Floor, Light(255)), None);
    ground.grid(&mut figure, low, high);
    ground.footprint(&mut figure, scene);
    ground.nose(&mut figure, tip_and_tail(from, stands));
    figure
}

/// From where to where things stand, m.
fn reach(scene: &Scene, stands: &[Item]) -> [[f64; 2]; 2] {
    let corners = stands.iter().flat_map(|item| item.solid.corners()).map(|corner| [corner.x, corner.y]);
    let origin = scene.layout.floor_from_bed * Point3::origin();
    corners.fold([[origin.x, origin.y]; 2], crate::figure::grown)
}

/// Tip and tail of the arrow: beside what stands, on the side of the viewer, at its forward end; m.
fn tip_and_tail(from: Direction, [low, high]: [[f64; 2]; 2]) -> [[f64; 2]; 2] {
    let [length, .., wide] = ARROW_M;
    let y = if from.toward().y < 0.0 { low[1] - wide } else { high[1] + wide };
    [[low[0], y], [low[0] + length, y]]
}

/// The ends of the arrow to the nose, floor frame, m.
pub(super) fn arrow(scene: &Scene, from: Direction, stands: &[Item]) -> [Point3<f64>; 2] {
    tip_and_tail(from, reach(scene, stands)).map(|[x, y]| Point3::new(x, y, scene.floor_m()))
}

struct Ground {
    from: Direction,
    z: f64,
}

impl Ground {
    fn at(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        self.from.project(Point3::new(x, y, self.z))
    }

    fn points(&self, points: &[[f64; 2]]) -> Vec<[f64; 2]> {
        points.iter().map(|p| self.at(*p)).collect()
    }

    fn grid(&self, figure: &mut Figure, low: [f64; 2], high: [f64; 2]) {
        let pen = Pen::solid(Ink::Grid, Weight::Thin);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a floor has some dozen squares")]
        let lines = |axis: usize| ((high[axis] - low[axis]) / SQUARE_M).round().clamp(0.0, 200.0) as u32;
        for line in 0..=lines(0) {
            let x = low[0] + f64::from(line) * SQUARE_M;
            figure.line(self.points(&[[x, low[1]], [x, high[1]]]), pen);
        }
        for line in 0..=lines(1) {
            let y = low[1] + f64::from(line) * SQUARE_M;
            figure.line(self.points(&[[low[0], y], [high[0], y]]), pen);
        }
    }

    /// The hull of the supports: the article goes over where its plumb line leaves it.
    fn footprint(&self, figure: &mut Figure, scene: &Scene) {
        let corners = assess::footprint_m(scene.plan);
        if corners.len() > 2 {
            figure.polygon(self.points(&corners), Fill::Tint(Ink::Is), Some(Pen::dashed(Ink::Is, Weight::Medium)));
        }
    }

    fn nose(&self, figure: &mut Figure, [tip, tail]: [[f64; 2]; 2]) {
        let [_, shaft, head, wide] = ARROW_M;
        let black = Fill::Solid(Ink::Line);
        let ([x, y], half) = (tip, 0.5 * shaft);
        let bar = [[x + head, y - half], [tail[0], y - half], [tail[0], y + half], [x + head, y + half]];
        figure.polygon(self.points(&bar), black, None);
        let point = [tip, [x + head, y - 0.5 * wide], [x + head, y + 0.5 * wide]];
        figure.polygon(self.points(&point), black, None);
        // Behind the tail, on whichever side of it that is seen.
        let (at, before) = (self.at(tail), self.at([tail[0] - 0.1, y]));
        let to_right = at[0] >= before[0];
        let (anchor, shift) = if to_right { (Anchor::LEFT, 6.0) } else { (Anchor::RIGHT, -6.0) };
        figure.label(Label::new(at, "NOSE").bold().size(TextSize::Body).anchored(anchor, [shift, 0.0]));
    }
}
