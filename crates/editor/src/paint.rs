//! Flat primitives of a drawing onto egui's painter: the same figures that the sheet prints.

use drafting::figure::Align;
use drafting::lower::{Primitive, Stroke};
use drafting::palette::Rgba;
use eframe::egui::epaint::RectShape;
use eframe::egui::{self, Align2, Color32, FontFamily, FontId, Painter, Pos2, Shape};

/// Points of type in a point of the window: a drawing's text is read at the size of captions.
pub(crate) const UNIT_PER_PT: f64 = 1.47;

/// The family under which the bold face is known.
pub(crate) const BOLD: &str = "bold";

/// Paints primitives in their order; their device units are egui's points.
pub(crate) fn primitives(painter: &Painter, primitives: Vec<Primitive>) {
    painter.extend(shapes(painter, primitives));
}

/// What [`primitives`] paints.
pub(crate) fn shapes(painter: &Painter, primitives: Vec<Primitive>) -> Vec<Shape> {
    let mut shapes = Vec::with_capacity(primitives.len());
    for primitive in primitives {
        match primitive {
            Primitive::Polygon { points, fill, stroke } => polygon(&mut shapes, points, fill, stroke),
            Primitive::Polyline { points, stroke } => polyline(&mut shapes, points, &stroke),
            Primitive::Text { at, align, size, bold, colour, text } => {
                let font = FontId::new(size, if bold { bold_family() } else { FontFamily::Proportional });
                let galley = painter.layout_no_wrap(text, font, color(colour));
                // The primitive names a point on the baseline; egui hangs text by its corner.
                let ascent = galley.rows.first().and_then(|r| r.glyphs.first()).map_or(size * 0.8, |g| g.pos.y);
                let anchor = match align {
                    Align::Left => Align2::LEFT_TOP,
                    Align::Centre => Align2::CENTER_TOP,
                    Align::Right => Align2::RIGHT_TOP,
                };
                let rect = anchor.anchor_size(Pos2::new(at[0], at[1] - ascent), galley.size());
                if !galley.is_empty() {
                    shapes.push(Shape::galley(rect.min, galley, color(colour)));
                }
            }
        }
    }
    shapes
}

pub(crate) fn bold_family() -> FontFamily {
    FontFamily::Name(BOLD.into())
}

pub(crate) fn color(colour: Rgba) -> Color32 {
    Color32::from_rgba_unmultiplied(colour.red, colour.green, colour.blue, colour.cover)
}

fn positions(points: Vec<[f32; 2]>) -> Vec<Pos2> {
    points.into_iter().map(Pos2::from).collect()
}

fn pen(stroke: &Stroke) -> egui::Stroke {
    egui::Stroke::new(stroke.width, color(stroke.colour))
}

fn polygon(shapes: &mut Vec<Shape>, points: Vec<[f32; 2]>, fill: Option<Rgba>, stroke: Option<Stroke>) {
    let points = positions(points);
    let dashed = stroke.filter(|s| !s.dash_pt.is_empty());
    let plain = stroke.filter(|s| s.dash_pt.is_empty()).map_or(egui::Stroke::NONE, |s| pen(&s));
    if let Some(rect) = upright(&points) {
        let fill = fill.map_or(Color32::TRANSPARENT, color);
        // A rectangle is some ten times cheaper to tessellate than a polygon.
        shapes.push(RectShape::new(rect, 0.0, fill, plain, egui::StrokeKind::Middle).into());
    } else if let Some(fill) = fill.filter(|_| is_sharp(&points)) {
        shapes.push(unsoftened(&points, color(fill)));
        // Edge by edge: where two edges join at a sharp corner, their mitre would run out as well.
        let ends = points.iter().zip(points.iter().cycle().skip(1));
        shapes.extend(ends.filter(|_| plain.width > 0.0).map(|(a, b)| Shape::line_segment([*a, *b], plain)));
    } else if let Some(fill) = fill {
        shapes.push(Shape::convex_polygon(points.clone(), color(fill), plain));
    } else if dashed.is_none() {
        shapes.push(Shape::closed_line(points.clone(), plain));
    }
    if let (Some(stroke), Some(first)) = (dashed, points.first().copied()) {
        let mut ring = points;
        ring.push(first);
        shapes.extend(dashes(&ring, &stroke));
    }
}

/// Whether a corner is so sharp that its softened edge would run out into a spike.
fn is_sharp(points: &[Pos2]) -> bool {
    const COSINE: f32 = -0.965;
    let count = points.len();
    let along = |i: usize| points[(i + 1) % count] - points[i % count];
    let turns_back = |i: usize| along(i).dot(along(i + 1)) < COSINE * along(i).length() * along(i + 1).length();
    // Corners that nearly coincide have no direction of their own.
    (0..count).any(|i| along(i).length() < 0.05 || turns_back(i))
}

/// A convex outline filled up to its edge and no further.
fn unsoftened(points: &[Pos2], fill: Color32) -> Shape {
    let mut mesh = egui::Mesh::default();
    points.iter().for_each(|point| mesh.colored_vertex(*point, fill));
    for (second, third) in (1_u32..).zip(2..).take(points.len().saturating_sub(2)) {
        mesh.add_triangle(0, second, third);
    }
    Shape::mesh(mesh)
}

/// The rectangle, where four corners make one that stands upright.
fn upright(points: &[Pos2]) -> Option<egui::Rect> {
    let [a, b, c, d] = points else { return None };
    let same = |p: f32, q: f32| (p - q).abs() < 1e-3;
    let level_first = same(a.y, b.y) && same(b.x, c.x) && same(c.y, d.y) && same(d.x, a.x);
    let level_second = same(a.x, b.x) && same(b.y, c.y) && same(c.x, d.x) && same(d.y, a.y);
    (level_first || level_second).then(|| egui::Rect::from_two_pos(*a, *c))
}

fn polyline(shapes: &mut Vec<Shape>, points: Vec<[f32; 2]>, stroke: &Stroke) {
    let points = positions(points);
    if stroke.dash_pt.is_empty() {
        shapes.push(Shape::line(points, pen(stroke)));
    } else {
        shapes.extend(dashes(&points, stroke));
    }
}

fn dashes(points: &[Pos2], stroke: &Stroke) -> Vec<Shape> {
    let lengths = stroke.dashes();
    let (dash, gap): (Vec<f32>, Vec<f32>) = lengths.chunks_exact(2).map(|pair| (pair[0], pair[1])).unzip();
    Shape::dashed_line_with_offset(points, pen(stroke), &dash, &gap, 0.0)
}
