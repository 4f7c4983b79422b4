//! Signs of fixed size, drawn from polygons and lines. State is told by shape, never by colour
//! alone.

use super::primitive::{Primitive, Stroke, narrow_point};
use crate::figure::{Ink, Pen, Sign, Weight};
use crate::palette::{Palette, Rgba};
use std::f64::consts::TAU;

/// A sign as primitives.
pub fn sign(sign: Sign, at: [f64; 2], ink: Ink, unit_per_pt: f64, palette: &Palette) -> Vec<Primitive> {
    let brush = Brush { at, unit: unit_per_pt, ink, palette };
    match sign {
        Sign::Centroid => brush.centroid(),
        Sign::OccupantPoint => brush.occupant_point(),
        Sign::ArrowDown => vec![brush.filled(&[[-3.2, -8.0], [3.2, -8.0], [0.0, 0.0]])],
        Sign::SupportUp => vec![brush.outlined(&[[0.0, 0.0], [5.0, 8.0], [-5.0, 8.0]], Weight::Medium)],
        Sign::Holds => vec![brush.outlined(&arc(3.6, 0.0, 1.0, 20), Weight::Thick)],
        Sign::Near => vec![brush.outlined(&[[0.0, -4.2], [4.6, 3.6], [-4.6, 3.6]], Weight::Medium)],
        Sign::Fails => brush.crossed_square(),
        Sign::Undecided => brush.broken_ring(),
        Sign::NoLimit => vec![brush.filled(&[[-3.2, -0.7], [3.2, -0.7], [3.2, 0.7], [-3.2, 0.7]])],
        Sign::Dot => vec![brush.filled(&arc(1.1, 0.0, 1.0, 8))],
        Sign::TickBox => vec![brush.outlined(&[[-5.0, -5.0], [5.0, -5.0], [5.0, 5.0], [-5.0, 5.0]], Weight::Medium)],
    }
}

/// Points of an arc about the origin, in turns from the right, a whole turn closed on itself.
fn arc(radius: f64, from: f64, to: f64, count: u32) -> Vec<[f64; 2]> {
    let last = if (to - from).abs() >= 1.0 { count } else { count - 1 };
    (0..count)
        .map(|i| (from + (to - from) * f64::from(i) / f64::from(last)) * TAU)
        .map(|a| [radius * a.cos(), radius * a.sin()])
        .collect()
}

struct Brush<'a> {
    at: [f64; 2],
    unit: f64,
    ink: Ink,
    palette: &'a Palette,
}

impl Brush<'_> {
    fn placed(&self, points: &[[f64; 2]]) -> Vec<[f32; 2]> {
        points.iter().map(|p| narrow_point([self.at[0] + p[0] * self.unit, self.at[1] + p[1] * self.unit])).collect()
    }

    fn stroke(&self, weight: Weight) -> Stroke {
        Stroke::of(Pen::solid(self.ink, weight), self.palette, self.unit)
    }

    fn shape(&self, points: &[[f64; 2]], fill: Option<Rgba>, weight: Option<Weight>) -> Primitive {
        Primitive::Polygon { points: self.placed(points), fill, stroke: weight.map(|w| self.stroke(w)) }
    }

    fn filled(&self, points: &[[f64; 2]]) -> Primitive {
        self.shape(points, Some(self.palette.ink(self.ink)), None)
    }

    fn outlined(&self, points: &[[f64; 2]], weight: Weight) -> Primitive {
        self.shape(points, Some(self.palette.ground), Some(weight))
    }

    fn line(&self, points: &[[f64; 2]], weight: Weight) -> Primitive {
        Primitive::Polyline { points: self.placed(points), stroke: self.stroke(weight) }
    }

    fn centroid(&self) -> Vec<Primitive> {
        let quarter = |from: f64| {
            let mut points = arc(4.4, from, from + 0.25, 7);
            points.push([0.0, 0.0]);
            self.filled(&points)
        };
        vec![self.outlined(&arc(4.4, 0.0, 1.0, 24), Weight::Medium), quarter(0.0), quarter(0.5)]
    }

    fn occupant_point(&self) -> Vec<Primitive> {
        vec![
            self.shape(&arc(5.6, 0.0, 1.0, 24), None, Some(Weight::Medium)),
            self.line(&[[-8.5, 0.0], [8.5, 0.0]], Weight::Thin),
            self.line(&[[0.0, -8.5], [0.0, 8.5]], Weight::Thin),
        ]
    }

    fn crossed_square(&self) -> Vec<Primitive> {
        vec![
            self.outlined(&[[-3.8, -3.8], [3.8, -3.8], [3.8, 3.8], [-3.8, 3.8]], Weight::Medium),
            self.line(&[[-3.8, -3.8], [3.8, 3.8]], Weight::Medium),
            self.line(&[[-3.8, 3.8], [3.8, -3.8]], Weight::Medium),
        ]
    }

    fn broken_ring(&self) -> Vec<Primitive> {
        (0..4).map(|i| f64::from(i) / 4.0).map(|t| self.line(&arc(3.6, t, t + 0.15, 5), Weight::Thick)).collect()
    }
}
