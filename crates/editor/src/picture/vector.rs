//! What egui painted as an SVG document. Lengths are the window's points, 96 to the inch, which
//! is what a pixel is in SVG. `textLength` keeps columns where a viewer substitutes the type.

use crate::paint;
use eframe::egui::epaint::{
    CircleShape, ClippedShape, ColorMode, EllipseShape, Mesh, PathShape, RectShape, Shape, StrokeKind, TextShape,
};
use eframe::egui::{Color32, FontFamily, Pos2, Rect, Stroke, Vec2};
use std::fmt::Write as _;

/// Writes shapes in their order, each within its clip.
pub(super) fn write(shapes: &[ClippedShape], size: Vec2) -> String {
    let (w, h) = (size.x, size.y);
    let mut svg = Svg {
        out: format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}\" height=\"{h}\" viewBox=\"0 0 {w} {h}\" \
             font-family=\"'Liberation Sans', sans-serif\" stroke-linejoin=\"round\">\n"
        ),
        clips: Vec::new(),
    };
    let page = Rect::from_min_size(Pos2::ZERO, size);
    for ClippedShape { clip_rect, shape, .. } in shapes {
        let clip = clip_rect.intersect(page);
        if !clip.is_positive() {
            continue;
        }
        let mut inside = String::new();
        element(&mut inside, shape);
        if !inside.is_empty() {
            svg.clipped(clip, &inside);
        }
    }
    svg.out.push_str("</svg>\n");
    svg.out
}

struct Svg {
    out: String,
    clips: Vec<Rect>,
}

impl Svg {
    fn clipped(&mut self, clip: Rect, inside: &str) {
        let known = self.clips.iter().position(|c| *c == clip);
        let index = known.unwrap_or_else(|| {
            self.clips.push(clip);
            let index = self.clips.len() - 1;
            put(&mut self.out, format_args!("<clipPath id=\"c{index}\"><rect {}/></clipPath>\n", frame(clip)));
            index
        });
        put(&mut self.out, format_args!("<g clip-path=\"url(#c{index})\">{inside}</g>\n"));
    }
}

fn put(out: &mut String, text: std::fmt::Arguments) {
    // Writing into a String cannot fail.
    let _ = out.write_fmt(text);
}

fn element(out: &mut String, shape: &Shape) {
    match shape {
        Shape::Noop | Shape::Callback(_) => {}
        Shape::Vec(shapes) => shapes.iter().for_each(|s| element(out, s)),
        Shape::Circle(CircleShape { center, radius, fill, stroke }) => {
            ellipse(out, *center, Vec2::splat(*radius), (*fill, *stroke));
        }
        Shape::Ellipse(EllipseShape { center, radius, fill, stroke, .. }) => {
            ellipse(out, *center, *radius, (*fill, *stroke));
        }
        Shape::LineSegment { points, stroke } => path(out, points, false, (Color32::TRANSPARENT, *stroke)),
        Shape::Path(PathShape { points, closed, fill, stroke }) => {
            let colour = if let ColorMode::Solid(colour) = stroke.color { colour } else { Color32::TRANSPARENT };
            path(out, points, *closed, (*fill, Stroke::new(stroke.width, colour)));
        }
        Shape::Rect(rect) => rectangle(out, rect),
        Shape::Text(text) => lines(out, text),
        Shape::Mesh(mesh) => triangles(out, mesh),
        Shape::QuadraticBezier(curve) => {
            let stroke = Stroke::new(curve.stroke.width, solid(&curve.stroke.color));
            path(out, &curve.flatten(None), curve.closed, (curve.fill, stroke));
        }
        Shape::CubicBezier(curve) => {
            let stroke = Stroke::new(curve.stroke.width, solid(&curve.stroke.color));
            path(out, &curve.flatten(None), curve.closed, (curve.fill, stroke));
        }
        // A band has a width of its own at every point; nothing in the window paints one.
        Shape::Band(_) => {}
    }
}

fn solid(mode: &ColorMode) -> Color32 {
    if let ColorMode::Solid(colour) = mode { *colour } else { Color32::TRANSPARENT }
}

fn ellipse(out: &mut String, centre: Pos2, radius: Vec2, (fill, stroke): (Color32, Stroke)) {
    let (x, y, rx, ry) = (centre.x, centre.y, radius.x, radius.y);
    put(
        out,
        format_args!("<ellipse cx=\"{x:.2}\" cy=\"{y:.2}\" rx=\"{rx:.2}\" ry=\"{ry:.2}\"{}/>", dress(fill, stroke)),
    );
}

fn path(out: &mut String, points: &[Pos2], closed: bool, (fill, stroke): (Color32, Stroke)) {
    let list: Vec<String> = points.iter().map(|p| format!("{:.2},{:.2}", p.x, p.y)).collect();
    let name = if closed { "polygon" } else { "polyline" };
    put(out, format_args!("<{name} points=\"{}\"{}/>", list.join(" "), dress(fill, stroke)));
}

fn rectangle(out: &mut String, shape: &RectShape) {
    if shape.brush.is_some() {
        return;
    }
    let half = shape.stroke.width / 2.0;
    let rect = match shape.stroke_kind {
        StrokeKind::Inside => shape.rect.shrink(half),
        StrokeKind::Middle => shape.rect,
        StrokeKind::Outside => shape.rect.expand(half),
    };
    if rect.is_negative() {
        return;
    }
    let corner = match shape.corner_radius.nw {
        0 => String::new(),
        radius => format!(" rx=\"{radius}\""),
    };
    put(out, format_args!("<rect {}{corner}{}/>", frame(rect), dress(shape.fill, shape.stroke)));
}

fn frame(rect: Rect) -> String {
    let (x, y, w, h) = (rect.min.x, rect.min.y, rect.width(), rect.height());
    format!("x=\"{x:.2}\" y=\"{y:.2}\" width=\"{w:.2}\" height=\"{h:.2}\"")
}

/// Plain triangles; what is textured (a photograph) has no place in a drawing of lines.
fn triangles(out: &mut String, mesh: &Mesh) {
    for corners in mesh.indices.chunks_exact(3) {
        let corner = |i: u32| mesh.vertices.get(i as usize);
        let (Some(a), Some(b), Some(c)) = (corner(corners[0]), corner(corners[1]), corner(corners[2])) else {
            continue;
        };
        path(out, &[a.pos, b.pos, c.pos], true, (a.color, Stroke::NONE));
    }
}

/// A text, run by run of one format: one row may hold several.
fn lines(out: &mut String, shape: &TextShape) {
    let galley = &shape.galley;
    let sections = &galley.job.sections;
    let mut byte = 0;
    for row in &galley.rows {
        let mut run = Run::default();
        for glyph in &row.row.glyphs {
            let section = sections.iter().position(|s| s.byte_range.start.0 <= byte && byte < s.byte_range.end.0);
            byte += glyph.chr.len_utf8();
            if section != run.section && !run.text.is_empty() {
                run.write(out, shape, row.pos);
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
        run.write(out, shape, row.pos);
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
    fn write(&self, out: &mut String, shape: &TextShape, row: Pos2) {
        let Some(section) = self.section.and_then(|i| shape.galley.job.sections.get(i)) else { return };
        if self.text.trim().is_empty() {
            return;
        }
        let colour = shape.override_text_color.unwrap_or(section.format.color);
        let colour = if colour == Color32::PLACEHOLDER { shape.fallback_color } else { colour };
        let font = &section.format.font_id;
        let bold = if font.family == paint::bold_family() { " font-weight=\"bold\"" } else { "" };
        let mono = if font.family == FontFamily::Monospace { " font-family=\"monospace\"" } else { "" };
        let at = shape.pos + row.to_vec2() + self.from.to_vec2();
        let turn = match shape.angle {
            0.0 => String::new(),
            angle => format!(" transform=\"rotate({:.2} {:.2} {:.2})\"", angle.to_degrees(), shape.pos.x, shape.pos.y),
        };
        let (x, y, size, width) = (at.x, at.y, font.size, self.to - self.from.x);
        put(
            out,
            format_args!(
                "<text x=\"{x:.2}\" y=\"{y:.2}\" font-size=\"{size}\" textLength=\"{width:.2}\"{bold}{mono}{}{turn} \
                 xml:space=\"preserve\">{}</text>",
                colour_of("fill", colour.gamma_multiply(shape.opacity_factor)),
                escaped(&self.text)
            ),
        );
    }
}

fn dress(fill: Color32, stroke: Stroke) -> String {
    let fill = if fill.a() == 0 { " fill=\"none\"".to_owned() } else { colour_of("fill", fill) };
    if stroke.width <= 0.0 || stroke.color.a() == 0 {
        return fill;
    }
    format!("{fill}{} stroke-width=\"{:.2}\"", colour_of("stroke", stroke.color), stroke.width)
}

fn colour_of(name: &str, colour: Color32) -> String {
    let [r, g, b, a] = colour.to_srgba_unmultiplied();
    let opacity = if a == 255 { String::new() } else { format!(" {name}-opacity=\"{:.3}\"", f32::from(a) / 255.0) };
    format!(" {name}=\"#{r:02x}{g:02x}{b:02x}\"{opacity}")
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
