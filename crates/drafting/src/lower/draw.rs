//! Marks to primitives, one kind after the other; what lies outside the area is dropped, what
//! crosses its edge is cut there.

use super::clip;
use super::hatch::hatched;
use super::label::Labels;
use super::names::Names;
use super::primitive::{Primitive, Stroke, narrow_point};
use super::sign;
use super::viewport::Viewport;
use crate::figure::{Figure, Fill, Ink, Mark, Material, Pen, Shape, Weight};
use crate::palette::{Palette, Rgba};

/// Points between two lines of hatching.
const HATCH_PT: f64 = 4.0;
/// A texture is drawn only in shapes at least this thick, in points.
const TEXTURE_PT: f64 = 3.0;

/// A figure as flat primitives on the device, in the order of painting.
pub fn lower(figure: &Figure, viewport: &Viewport, palette: &Palette) -> Vec<Primitive> {
    lower_beside(figure, viewport, palette, Vec::new())
}

/// The same with rectangles of the device (left, top, right, bottom) that labels keep clear of,
/// because other words are written there.
pub fn lower_beside(figure: &Figure, viewport: &Viewport, palette: &Palette, taken: Vec<[f64; 4]>) -> Vec<Primitive> {
    lowered(figure, viewport, palette, (taken, &[]))
}

/// The same with the names that are meant for it in columns beside what is drawn, with leaders; those that find no
/// room there stay at their points.
pub fn lower_named(figure: &Figure, viewport: &Viewport, palette: &Palette, taken: Vec<[f64; 4]>) -> Vec<Primitive> {
    let names = Names::of(figure, viewport, &taken);
    let taken = taken.into_iter().chain(names.covers()).collect();
    let mut out = lowered(figure, viewport, palette, (taken, &names.marks()));
    names.draw(viewport, palette, &mut out);
    out
}

/// The same, but names that find no room beside what is drawn are left out of it and given back with where they hang
/// on the device: for a window, which tells them under the pointer.
pub fn lower_with_names(
    figure: &Figure,
    viewport: &Viewport,
    palette: &Palette,
    taken: Vec<[f64; 4]>,
) -> (Vec<Primitive>, Vec<Unnamed>) {
    let names = Names::of(figure, viewport, &taken);
    let taken = taken.into_iter().chain(names.covers()).collect();
    let mut out = lowered(figure, viewport, palette, (taken, &names.all_marks()));
    names.draw(viewport, palette, &mut out);
    (out, names.left_over(viewport))
}

/// A name that found no room, and where it hangs on the device.
#[derive(Clone, Debug, PartialEq)]
pub struct Unnamed {
    /// The name.
    pub text: String,
    /// Its point.
    pub at: [f64; 2],
}

/// Without the marks that are drawn elsewhere, by their places.
fn lowered(
    figure: &Figure,
    viewport: &Viewport,
    palette: &Palette,
    (taken, elsewhere): (Vec<[f64; 4]>, &[usize]),
) -> Vec<Primitive> {
    let mut drawing = Drawing { viewport, palette, out: Vec::with_capacity(figure.marks.len() * 2) };
    let mut labels = Labels::of(figure, viewport, taken);
    for (place, mark) in figure.marks.iter().enumerate() {
        match mark {
            _ if elsewhere.contains(&place) => {}
            Mark::Shape(shape) => drawing.shape(shape),
            Mark::Text(label) => labels.set(label, viewport, palette, &mut drawing.out),
            Mark::Sign { at, sign, ink } => drawing.sign(*at, *sign, *ink),
        }
    }
    drawing.out
}

struct Drawing<'a> {
    viewport: &'a Viewport,
    palette: &'a Palette,
    out: Vec<Primitive>,
}

impl Drawing<'_> {
    fn sign(&mut self, at: [f64; 2], what: crate::figure::Sign, ink: Ink) {
        let at = self.viewport.to_device(at);
        if clip::contains(self.viewport.area, at) {
            self.out.extend(sign::sign(what, at, ink, self.viewport.unit_per_pt, self.palette));
        }
    }

    fn stroke(&self, pen: Pen) -> Stroke {
        Stroke::of(pen, self.palette, self.viewport.unit_per_pt)
    }

    fn shape(&mut self, shape: &Shape) {
        let points: Vec<[f64; 2]> = shape.points.iter().map(|p| self.viewport.to_device(*p)).collect();
        let Some(outer) = clip::around(&points).filter(|b| !clip::apart(*b, self.viewport.area)) else { return };
        let whole = clip::inside(outer, self.viewport.area);
        let stroke = shape.pen.map(|p| self.stroke(p));
        let fill = self.palette.fill(shape.fill);
        match (shape.closed, whole) {
            (false, _) => self.open(&points, stroke),
            (true, true) => self.closed(&points, shape.fill, fill, stroke),
            (true, false) => self.cut(points, shape.fill, fill, stroke),
        }
    }

    fn open(&mut self, points: &[[f64; 2]], stroke: Option<Stroke>) {
        let Some(stroke) = stroke else { return };
        for part in clip::polyline(self.viewport.area, points) {
            self.out.push(Primitive::Polyline { points: part.into_iter().map(narrow_point).collect(), stroke });
        }
    }

    fn closed(&mut self, points: &[[f64; 2]], kind: Fill, fill: Option<Rgba>, stroke: Option<Stroke>) {
        let textured = self.textured(points, kind);
        let outline = |fill, stroke| Primitive::Polygon {
            points: points.iter().map(|p| narrow_point(*p)).collect(),
            fill,
            stroke,
        };
        if textured.is_empty() {
            self.out.push(outline(fill, stroke));
            return;
        }
        // The outline comes last, so that it covers the ends of the texture.
        self.out.extend(fill.is_some().then(|| outline(fill, None)));
        self.out.extend(textured);
        self.out.extend(stroke.is_some().then(|| outline(None, stroke)));
    }

    /// A closed shape across the edge of the area: its fill is cut, its outline becomes lines,
    /// for the cut itself is no outline.
    fn cut(&mut self, mut points: Vec<[f64; 2]>, kind: Fill, fill: Option<Rgba>, stroke: Option<Stroke>) {
        if fill.is_some() {
            let kept = clip::convex(self.viewport.area, &points);
            if kept.len() > 2 {
                let points = kept.into_iter().map(narrow_point).collect();
                self.out.push(Primitive::Polygon { points, fill, stroke: None });
            }
        }
        let textured = self.textured(&points, kind);
        self.out.extend(textured);
        points.push(points[0]);
        self.open(&points, stroke);
    }

    fn textured(&self, points: &[[f64; 2]], kind: Fill) -> Vec<Primitive> {
        let (lines, ink) = match kind {
            Fill::Hatch(ink) => (hatched(points, HATCH_PT * self.viewport.unit_per_pt, self.viewport.area), ink),
            Fill::Material(Material::Wood, _) => (self.grain(points), Ink::Quiet),
            Fill::Material(Material::Steel, _) => (self.diagonal(points), Ink::Quiet),
            Fill::None
            | Fill::Ground
            | Fill::Tint(_)
            | Fill::Solid(_)
            | Fill::Shaded(..)
            | Fill::Material(Material::Sand, _) => return Vec::new(),
        };
        let stroke = self.stroke(Pen::solid(ink, Weight::Hair));
        let cut = lines.into_iter().filter_map(|[a, b]| clip::segment(self.viewport.area, a, b));
        cut.map(|l| Primitive::Polyline { points: l.into_iter().map(narrow_point).collect(), stroke }).collect()
    }

    /// Two lines along the longer side of a four-cornered shape.
    fn grain(&self, points: &[[f64; 2]]) -> Vec<[[f64; 2]; 2]> {
        let Some([a, b, c, d]) = self.thick_quadrilateral(points) else { return Vec::new() };
        let between = |p: [f64; 2], q: [f64; 2], t: f64| [p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])];
        let (a, b, c, d) = if length(a, b) >= length(b, c) { (a, b, c, d) } else { (b, c, d, a) };
        [0.3, 0.64].map(|t| [between(a, d, t), between(b, c, t)]).to_vec()
    }

    fn diagonal(&self, points: &[[f64; 2]]) -> Vec<[[f64; 2]; 2]> {
        self.thick_quadrilateral(points).map(|[a, _, c, _]| vec![[a, c]]).unwrap_or_default()
    }

    fn thick_quadrilateral(&self, points: &[[f64; 2]]) -> Option<[[f64; 2]; 4]> {
        let corners: [[f64; 2]; 4] = points.try_into().ok()?;
        let thickness = length(corners[0], corners[1]).min(length(corners[1], corners[2]));
        (thickness >= TEXTURE_PT * self.viewport.unit_per_pt).then_some(corners)
    }
}

fn length(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}
