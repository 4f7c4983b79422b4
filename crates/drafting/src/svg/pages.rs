//! Pages to SVG, one long document in millimetres, the pages beneath one another.

use super::writer::{Dress, Frame, Sheet, Svg, Words};
use crate::figure::Align;
use crate::lower::{Primitive, narrow};
use crate::page::Page;
use crate::palette::Rgba;
use crate::pdf::overhang;

/// Between one page and the next, mm.
const GAP_MM: f64 = 8.0;

/// Writes pages as one SVG document.
pub fn write(pages: &[Page]) -> String {
    let width = pages.iter().map(|page| page.width_mm).fold(0.0, f64::max);
    let gaps = GAP_MM * (pages.len().saturating_sub(1) as f64);
    let height = pages.iter().map(|page| page.height_mm).sum::<f64>() + gaps;
    let mut svg = Svg::begin(&Sheet { size: [width, height], unit: "mm", join: "miter" });
    let mut top = 0.0;
    for page in pages {
        svg.lower(top, |svg| {
            let size = [page.width_mm, page.height_mm].map(narrow);
            let white = Dress { fill: Some(Rgba::opaque(0x00ff_ffff)), stroke: None };
            svg.rectangle(Frame { at: [0.0; 2], size }, 0.0, white);
            page.marks.iter().for_each(|mark| element(svg, mark));
        });
        top += page.height_mm + GAP_MM;
    }
    svg.end()
}

fn element(svg: &mut Svg, mark: &Primitive) {
    match mark {
        Primitive::Polygon { points, fill, stroke } => svg.polygon(points, Dress { fill: *fill, stroke: *stroke }),
        Primitive::Polyline { points, stroke } => svg.polyline(points, Dress { fill: None, stroke: Some(*stroke) }),
        Primitive::Text { at, align, size, bold, colour, text } => svg.text(&Words {
            at: [at[0] - overhang(text, *size, *bold, *align), at[1]],
            size: *size,
            width: overhang(text, *size, *bold, Align::Right),
            bold: *bold,
            mono: false,
            colour: *colour,
            turn: None,
            text,
        }),
    }
}
