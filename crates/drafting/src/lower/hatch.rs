//! Hatching: slanted lines at a fixed spacing, cut at the outline of any polygon, concave ones
//! included.

use super::clip::{self, Area};

/// Lines that rise to the right at 45 degrees (device, y downwards), `spacing` apart, inside a
/// polygon and an area. The lines hang on the polygon's first corner, so that they move with it.
///
/// On such a line x + y is constant. Each edge of the polygon that a line crosses gives a
/// crossing; sorted, they are the ends of the inner stretches by turns (even-odd rule; an edge
/// owns its lower end only, so that a corner counts once: `own derivation`).
pub fn hatched(points: &[[f64; 2]], spacing: f64, area: [f64; 4]) -> Vec<[[f64; 2]; 2]> {
    let Some(outer) = clip::around(points).filter(|b| !clip::apart(*b, area)) else { return Vec::new() };
    let step = spacing.max(1e-6) * std::f64::consts::SQRT_2;
    let (first, last) = rows(points, outer, area, step);
    let mut lines = Vec::new();
    for row in first..=last {
        let sum = points[0][0] + points[0][1] + (f64::from(row) + 0.5) * step;
        stretches(points, sum, area, &mut lines);
    }
    lines
}

/// Numbers of the first and the last row that can cross both polygon and area.
#[expect(clippy::cast_possible_truncation, reason = "a float cast saturates, and the rows are then cut to 4000")]
fn rows(points: &[[f64; 2]], outer: Area, area: Area, step: f64) -> (i32, i32) {
    let low = (outer[0].max(area[0])) + (outer[1].max(area[1]));
    let high = (outer[2].min(area[2])) + (outer[3].min(area[3]));
    let origin = points[0][0] + points[0][1];
    let first = ((low - origin) / step - 0.5).floor() as i32;
    let last = ((high - origin) / step - 0.5).ceil() as i32;
    (first, last.min(first.saturating_add(4000)))
}

fn stretches(points: &[[f64; 2]], sum: f64, area: Area, lines: &mut Vec<[[f64; 2]; 2]>) {
    let mut crossings: Vec<f64> =
        (0..points.len()).filter_map(|i| crossing(points[i], points[(i + 1) % points.len()], sum)).collect();
    crossings.sort_by(f64::total_cmp);
    for pair in crossings.chunks_exact(2) {
        lines.extend(clip::segment(area, [pair[0], sum - pair[0]], [pair[1], sum - pair[1]]));
    }
}

/// The x at which an edge crosses the line x + y = sum.
fn crossing(a: [f64; 2], b: [f64; 2], sum: f64) -> Option<f64> {
    let (at_a, at_b) = (a[0] + a[1] - sum, b[0] + b[1] - sum);
    if (at_a < 0.0) == (at_b < 0.0) {
        return None;
    }
    Some(a[0] + at_a / (at_a - at_b) * (b[0] - a[0]))
}
