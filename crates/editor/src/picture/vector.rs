//! What egui painted as an SVG document. Lengths are the window's points, 96 to the inch, which
//! is what a pixel is in SVG.

use crate::paint;
use drafting::lower;
use drafting::palette::Rgba;
use drafting::svg::{Dress, Frame, Sheet, Svg, Words};
use eframe::egui::epaint::{
    CircleShape, ClippedShape, ColorMode, CubicBezierShape, EllipseShape, Mesh, PathShape, PathStroke,
    QuadraticBezierShape, RectShape, Shape, StrokeKind, TextShape,
};
use eframe::egui::{Color32, FontFamily, Pos2, Rect, Stroke, Vec2};

/// Writes shapes in their order, each within its clip.
pub(super) fn write(shapes: &[ClippedShape], size: Vec2) -> String {
    let mut svg = Svg::begin(&Sheet { size: [size.x, size.y].map(f64::from), unit: "", join: "round" });
    let page = Rect::from_min_size(Pos2::ZERO, size);
    for ClippedShape { clip_rect, shape, .. } in shapes {
        let clip = clip_rect.intersect(page);
        if clip.is_positive() {
            svg.clipped(frame(clip), |svg| element(svg, shape));
        }
    }
    svg.end()
}

fn element(svg: &mut Svg, shape: &Shape) {
    match shape {
        Shape::Noop | Shape::Callback(_) => {}
        Shape::Vec(shapes) => shapes.iter().for_each(|s| element(svg, s)),
        Shape::Circle(CircleShape { center, radius, fill, stroke }) => {
            svg.ellipse((*center).into(), [*radius; 2], dress(*fill, *stroke));
        }
        Shape::Ellipse(EllipseShape { center, radius, fill, stroke, .. }) => {
            svg.ellipse((*center).into(), (*radius).into(), dress(*fill, *stroke));
        }
        Shape::LineSegment { points, stroke } => {
            svg.polyline(&points.map(Into::into), dress(Color32::TRANSPARENT, *stroke));
        }
        Shape::Path(PathShape { points, closed, fill, stroke }) => path(svg, points, *closed, *fill, stroke),
        Shape::Rect(rect) => rectangle(svg, rect),
        Shape::Text(text) => lines(svg, text),
        Shape::Mesh(mesh) => triangles(svg, mesh),
        Shape::QuadraticBezier(curve @ QuadraticBezierShape { closed, fill, stroke, .. }) => {
            path(svg, &curve.flatten(None), *closed, *fill, stroke);
        }
        Shape::CubicBezier(curve @ CubicBezierShape { closed, fill, stroke, .. }) => {
            path(svg, &curve.flatten(None), *closed, *fill, stroke);
        }
        // A band has a width of its own at every point; nothing in the window paints one.
        Shape::Band(_) => {}
    }
}

fn path(svg: &mut Svg, points: &[Pos2], closed: bool, fill: Color32, stroke: &PathStroke) {
    let colour = if let ColorMode::Solid(colour) = stroke.color { colour } else { Color32::TRANSPARENT };
    let dress = dress(fill, Stroke::new(stroke.width, colour));
    let points: Vec<[f32; 2]> = points.iter().map(|p| [p.x, p.y]).collect();
    if closed { svg.polygon(&points, dress) } else { svg.polyline(&points, dress) }
}

fn rectangle(svg: &mut Svg, shape: &RectShape) {
    if shape.brush.is_some() {
        return;
    }
    let half = shape.stroke.width / 2.0;
    let rect = match shape.stroke_kind {
        StrokeKind::Inside => shape.rect.shrink(half),
        StrokeKind::Middle => shape.rect,
        StrokeKind::Outside => shape.rect.expand(half),
    };
    if !rect.is_negative() {
        let radius = f32::from(shape.corner_radius.nw);
        svg.rectangle(frame(rect), radius, dress(shape.fill, shape.stroke));
    }
}

fn frame(rect: Rect) -> Frame {
    Frame { at: rect.min.into(), size: rect.size().into() }
}

/// Plain triangles; what is textured (a photograph) has no place in a drawing of lines.
fn triangles(svg: &mut Svg, mesh: &Mesh) {
    for corners in mesh.indices.chunks_exact(3) {
        let corner = |i: u32| mesh.vertices.get(i as usize);
        let (Some(a), Some(b), Some(c)) = (corner(corners[0]), corner(corners[1]), corner(corners[2])) else {
            continue;
        };
        svg.polygon(&[a.pos, b.pos, c.pos].map(Into::into), dress(a.color, Stroke::NONE));
    }
}

/// A text, run by run of one format: one row may hold several.
fn lines(svg: &mut Svg, shape: &TextShape) {
    let galley = &shape.galley;
    let sections = &galley.job.sections;
    let mut byte = 0;
    for row in &galley.rows {
        let mut run = Run::default();
        for glyph in &row.row.glyphs {
            let section = sections.iter().position(|s| s.byte_range.start.0 <= byte && byte < s.byte_range.end.0);
            byte += glyph.chr.len_utf8();
            if section != run.section && !run.text.is_empty() {
                run.write(svg, shape, row.pos);
                run = Run::default();
            }
            if run.text.is_empty() {
                (run.from, run.section) = (glyph.pos, section);
            }
            run.text.push(glyph.chr);
            run.to = glyph.pos.x + glyph.advance_width;
        }
        if row.ends_with_newline {
            byte += 1;
        }
        run.write(svg, shape, row.pos);
    }
}

#[derive(Default)]
struct Run {
    section: Option<usize>,
    from: Pos2,
    to: f32,
    text: String,
}

impl Run {
    fn write(&self, svg: &mut Svg, shape: &TextShape, row: Pos2) {
        let Some(section) = self.section.and_then(|i| shape.galley.job.sections.get(i)) else { return };
        if self.text.trim().is_empty() {
            return;
        }
        let colour = shape.override_text_color.unwrap_or(section.format.color);
        let colour = if colour == Color32::PLACEHOLDER { shape.fallback_color } else { colour };
        let font = &section.format.font_id;
        svg.text(&Words {
            at: (shape.pos + row.to_vec2() + self.from.to_vec2()).into(),
            size: font.size,
            width: self.to - self.from.x,
            bold: font.family == paint::bold_family(),
            mono: font.family == FontFamily::Monospace,
            colour: plain(colour.gamma_multiply(shape.opacity_factor)),
            turn: (shape.angle.abs() > 0.0).then(|| (shape.angle.to_degrees(), shape.pos.into())),
            text: &self.text,
        });
    }
}

fn dress(fill: Color32, stroke: Stroke) -> Dress {
    let drawn = stroke.width > 0.0 && stroke.color.a() > 0;
    let (width, colour) = (stroke.width, plain(stroke.color));
    Dress {
        fill: (fill.a() > 0).then(|| plain(fill)),
        stroke: drawn.then_some(lower::Stroke { width, colour, dash_pt: &[], unit_per_pt: 1.0 }),
    }
}

fn plain(colour: Color32) -> Rgba {
    let [red, green, blue, cover] = colour.to_srgba_unmultiplied();
    Rgba { red, green, blue, cover }
}
