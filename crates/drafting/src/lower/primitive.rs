//! Flat primitives: device units, y downwards, nothing left to decide.

use crate::figure::{Align, Dash, Pen};
use crate::palette::{Palette, Rgba};

/// One thing to paint.
#[derive(Clone, Debug, PartialEq)]
pub enum Primitive {
    /// A closed outline; convex where it is filled.
    Polygon {
        /// Its corners.
        points: Vec<[f32; 2]>,
        /// What fills it.
        fill: Option<Rgba>,
        /// What draws its outline.
        stroke: Option<Stroke>,
    },
    /// An open line.
    Polyline {
        /// Its corners.
        points: Vec<[f32; 2]>,
        /// What draws it.
        stroke: Stroke,
    },
    /// A line of text.
    Text {
        /// The point on the baseline.
        at: [f32; 2],
        /// Which part of the text lies on that point.
        align: Align,
        /// The size of the type (its em) in device units.
        size: f32,
        /// Whether it is set bold.
        bold: bool,
        /// Its colour.
        colour: Rgba,
        /// What it says; every character of it stands in the bundled face.
        text: String,
    },
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Its thickness in device units.
    pub width: f32,
    /// Its colour.
    pub colour: Rgba,
    /// Lengths of dash and gap by turns, in points; empty for an unbroken line.
    pub dash_pt: &'static [f32],
    /// Device units in a point.
    pub unit_per_pt: f32,
}

impl Stroke {
    /// The stroke of a pen.
    pub fn of(pen: Pen, palette: &Palette, unit_per_pt: f64) -> Self {
        let dash_pt: &'static [f32] = match pen.dash {
            Dash::Solid => &[],
            Dash::Dashed => &[4.0, 2.5],
            Dash::Chain => &[9.0, 2.5, 1.5, 2.5],
        };
        Self {
            width: narrow(pen.weight.points() * unit_per_pt),
            colour: palette.ink(pen.ink),
            dash_pt,
            unit_per_pt: narrow(unit_per_pt),
        }
    }

    /// Lengths of dash and gap by turns, in device units.
    pub fn dashes(&self) -> Vec<f32> {
        self.dash_pt.iter().map(|d| d * self.unit_per_pt).collect()
    }
}

/// A device coordinate: what is drawn needs no more than single precision.
#[expect(clippy::cast_possible_truncation, reason = "device coordinates lie within the area, far below 2^24")]
pub(crate) fn narrow(value: f64) -> f32 {
    value as f32
}

/// A device point in single precision.
pub(crate) fn narrow_point([x, y]: [f64; 2]) -> [f32; 2] {
    [narrow(x), narrow(y)]
}
