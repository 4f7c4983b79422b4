//! The lines of the article's outline as what they stand for, in every flat view: members of timber and metal as faces,
//! skins as sheets, and as plain lines what has no breadth.

use super::projection::View;
use crate::figure::{Figure, Fill, Ink, Light, Pen, Surface, Weight, grown};
use nalgebra::Point3;
use plan::{Line, Plan, Stuff};
use quantity::Quantity;

/// The light on a face that is looked at straight.
pub(super) const FACING: Light = Light(235);

/// A part of the article across its whole breadth, or one of a pair.
struct Member<'a> {
    line: &'a Line,
    points: Vec<[f64; 2]>,
    /// From this buttock line to that one, m.
    across: [f64; 2],
}

/// The article's outline; the farthest part first, so that nearer ones hide it.
pub fn members(plan: &Plan, view: View) -> Figure {
    let mut figure = Figure::default();
    let mut all: Vec<(f64, Member)> = Vec::new();
    for line in &plan.article.outline {
        let points: Vec<[f64; 2]> = line.points.iter().map(|p| p.map(Quantity::si)).collect();
        for across in ranges(line) {
            let member = Member { line, points: points.clone(), across };
            all.push((nearest(plan, view, &member), member));
        }
    }
    all.sort_by(|(a, _), (b, _)| b.total_cmp(a));
    all.iter().for_each(|(_, member)| draw(&mut figure, plan, view, member));
    figure
}

/// How near to the viewer a part comes, m.
fn nearest(plan: &Plan, view: View, member: &Member) -> f64 {
    corners(plan, member).map(|corner| view.depth(corner)).fold(f64::INFINITY, f64::min)
}

fn corners<'a>(plan: &Plan, member: &'a Member) -> impl Iterator<Item = Point3<f64>> + 'a {
    let in_floor = plan.floor_from_article();
    member.across.iter().flat_map(move |y| member.points.iter().map(move |[x, z]| in_floor * Point3::new(*x, *y, *z)))
}

fn draw(figure: &mut Figure, plan: &Plan, view: View, member: &Member) {
    let is_face = member.line.is_closed() && section(&member.points).is_some();
    let line = Pen::solid(Ink::Structure, Weight::Thick);
    match view {
        View::Side => {
            let mut points: Vec<_> =
                corners(plan, member).take(member.points.len()).map(|corner| view.project(corner)).collect();
            if is_face {
                points.pop();
                figure.polygon(points, face(member.line.stuff), Some(EDGE));
            } else {
                figure.line(points, line);
            }
        }
        // Without a breadth nobody knows what is to be seen there.
        View::Front | View::Above if member.line.half_breadth.is_none() => {}
        View::Front | View::Above if is_face => boxed(figure, view, corners(plan, member), face(member.line.stuff)),
        View::Front | View::Above => {
            let sheets = member.points.windows(2).map(|ends| Member { points: ends.to_vec(), ..*member });
            sheets.for_each(|sheet| boxed(figure, view, corners(plan, &sheet), Fill::Tint(Ink::Structure)));
        }
    }
}

const EDGE: Pen = Pen::solid(Ink::Structure, Weight::Thin);

/// The upright rectangle around some points; a sheet that is seen edge on is its edge.
fn boxed(figure: &mut Figure, view: View, points: impl Iterator<Item = Point3<f64>>, fill: Fill) {
    /// Thinner than this a rectangle is a line, m.
    const LEAST_M: f64 = 1e-6;
    let around = points.map(|p| view.project(p)).fold(None, |bounds: Option<[[f64; 2]; 2]>, p| {
        let so_far = bounds.unwrap_or([p, p]);
        Some(grown(so_far, p))
    });
    let Some([low, high]) = around else { return };
    if (0..2).any(|axis| high[axis] - low[axis] < LEAST_M) {
        figure.line(vec![low, high], Pen::solid(Ink::Structure, Weight::Medium));
    } else {
        figure.rectangle(low, high, fill, Some(EDGE));
    }
}

fn face(stuff: Stuff) -> Fill {
    let surface = match stuff {
        Stuff::Metal => Surface::Metal,
        Stuff::Timber => Surface::Timber,
    };
    Fill::Shaded(surface, FACING)
}

/// From which buttock line to which it reaches: one range, or those of a pair, m; along the middle where no breadth is
/// known.
pub(crate) fn ranges(line: &Line) -> Vec<[f64; 2]> {
    let half = line.half_breadth.map_or(0.0, Quantity::si);
    match line.width.map(Quantity::si).filter(|_| line.is_closed()) {
        Some(wide) => vec![[-half, wide - half], [half - wide, half]],
        None => vec![[-half, half]],
    }
}

/// The corners of a closed line once round, counterclockwise with the waterline up; none where it is
/// not convex.
pub(crate) fn section(points: &[[f64; 2]]) -> Option<Vec<[f64; 2]>> {
    let mut corners = points[..points.len().saturating_sub(1)].to_vec();
    let count = corners.len();
    let turn = |corners: &[[f64; 2]], i: usize| {
        let [a, b, c] = [0, 1, 2].map(|k| corners[(i + k) % count]);
        (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
    };
    if (0..count).map(|i| turn(&corners, i)).sum::<f64>() < 0.0 {
        corners.reverse();
    }
    (0..count).all(|i| turn(&corners, i) >= -1e-12).then_some(corners)
}
