//! Pages to SVG, one long document in millimetres, the pages beneath one another. `textLength` keeps columns where a viewer
//! substitutes the type.

use crate::figure::Align;
use crate::lower::{Primitive, Stroke};
use crate::page::Page;
use crate::palette::Rgba;
use crate::pdf::overhang;
use std::fmt::Write as _;

/// Between one page and the next, mm.
const GAP_MM: f64 = 8.0;

/// Writes pages as one SVG document.
pub fn write(pages: &[Page]) -> String {
    let width = pages.iter().map(|page| page.width_mm).fold(0.0, f64::max);
    let gaps = GAP_MM * (pages.len().saturating_sub(1) as f64);
    let height = pages.iter().map(|page| page.height_mm).sum::<f64>() + gaps;
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
         viewBox=\"0 0 {width} {height}\" font-family=\"'Liberation Sans', sans-serif\" stroke-linejoin=\"miter\">\n"
    );
    let mut top = 0.0;
    for page in pages {
        let (w, h) = (page.width_mm, page.height_mm);
        // Writing into a String cannot fail.
        let _ = writeln!(
            out,
            "<g transform=\"translate(0 {top})\">\n<rect width=\"{w}\" height=\"{h}\" fill=\"#ffffff\"/>"
        );
        for mark in &page.marks {
            element(&mut out, mark);
        }
        out.push_str("</g>\n");
        top += h + GAP_MM;
    }
    out.push_str("</svg>\n");
    out
}

fn element(out: &mut String, mark: &Primitive) {
    // Writing into a String cannot fail.
    let _ = match mark {
        Primitive::Polygon { points, fill, stroke } => {
            let fill = fill.map_or_else(|| "fill=\"none\"".to_owned(), |c| colour("fill", c));
            writeln!(out, "<polygon points=\"{}\" {fill}{}/>", list(points), stroke.map(pen).unwrap_or_default())
        }
        Primitive::Polyline { points, stroke } => {
            writeln!(out, "<polyline points=\"{}\" fill=\"none\"{}/>", list(points), pen(*stroke))
        }
        Primitive::Text { at, align, size, bold, colour: ink, text } => {
            let left = at[0] - overhang(text, *size, *bold, *align);
            let width = overhang(text, *size, *bold, Align::Right);
            let weight = if *bold { " font-weight=\"bold\"" } else { "" };
            let (fill, y) = (colour("fill", *ink), at[1]);
            writeln!(
                out,
                "<text x=\"{left:.3}\" y=\"{y:.3}\" font-size=\"{size:.3}\" textLength=\"{width:.3}\"{weight} {fill}>{}</text>",
                escaped(text)
            )
        }
    };
}

fn list(points: &[[f32; 2]]) -> String {
    points.iter().map(|[x, y]| format!("{x:.3},{y:.3}")).collect::<Vec<_>>().join(" ")
}

fn colour(name: &str, Rgba { red, green, blue, cover }: Rgba) -> String {
    let opacity =
        if cover == 255 { String::new() } else { format!(" {name}-opacity=\"{:.3}\"", f32::from(cover) / 255.0) };
    format!("{name}=\"#{red:02x}{green:02x}{blue:02x}\"{opacity}")
}

fn pen(stroke: Stroke) -> String {
    let dashes: Vec<String> = stroke.dashes().iter().map(|d| format!("{d:.3}")).collect();
    let dash = if dashes.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{}\"", dashes.join(" ")) };
    format!(" {} stroke-width=\"{:.3}\"{dash}", colour("stroke", stroke.colour), stroke.width)
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
