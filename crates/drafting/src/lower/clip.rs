//! Cutting lines and convex polygons at the edge of the area.

/// A rectangle: left, top, right, bottom.
pub(crate) type Area = [f64; 4];

pub(crate) fn contains(area: Area, [x, y]: [f64; 2]) -> bool {
    x >= area[0] && x <= area[2] && y >= area[1] && y <= area[3]
}

/// The least rectangle around some points; none for no points or ones that are not finite.
pub(crate) fn around(points: &[[f64; 2]]) -> Option<Area> {
    let start = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
    let all = points.iter().fold(start, |a, p| [a[0].min(p[0]), a[1].min(p[1]), a[2].max(p[0]), a[3].max(p[1])]);
    let sound = points.iter().flatten().all(|c| c.is_finite());
    (sound && !points.is_empty()).then_some(all)
}

pub(crate) fn apart(a: Area, b: Area) -> bool {
    a[0] > b[2] || a[2] < b[0] || a[1] > b[3] || a[3] < b[1]
}

pub(crate) fn inside(inner: Area, outer: Area) -> bool {
    inner[0] >= outer[0] && inner[1] >= outer[1] && inner[2] <= outer[2] && inner[3] <= outer[3]
}

/// The part of a straight line that lies in the area. Each edge narrows the interval of the
/// line's parameter in turn (`own derivation`).
pub(crate) fn segment(area: Area, a: [f64; 2], b: [f64; 2]) -> Option<[[f64; 2]; 2]> {
    let along = [b[0] - a[0], b[1] - a[1]];
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for axis in 0..2 {
        let (low, high) = (area[axis], area[axis + 2]);
        if along[axis].abs() < 1e-12 {
            if a[axis] < low || a[axis] > high {
                return None;
            }
            continue;
        }
        let (t0, t1) = ((low - a[axis]) / along[axis], (high - a[axis]) / along[axis]);
        from = from.max(t0.min(t1));
        to = to.min(t0.max(t1));
    }
    let at = |t: f64| [a[0] + t * along[0], a[1] + t * along[1]];
    (from < to).then(|| [at(from), at(to)])
}

/// The parts of a polyline that lie in the area, joined where they meet.
pub(crate) fn polyline(area: Area, points: &[[f64; 2]]) -> Vec<Vec<[f64; 2]>> {
    let mut parts: Vec<Vec<[f64; 2]>> = Vec::new();
    for pair in points.windows(2) {
        let Some([a, b]) = segment(area, pair[0], pair[1]) else { continue };
        match parts.last_mut() {
            Some(part) if part.last().is_some_and(|end| near(*end, a)) => part.push(b),
            _ => parts.push(vec![a, b]),
        }
    }
    parts
}

fn near(a: [f64; 2], b: [f64; 2]) -> bool {
    (a[0] - b[0]).abs() < 1e-9 && (a[1] - b[1]).abs() < 1e-9
}

/// A convex polygon cut at the four edges of the area, one after the other.
pub(crate) fn convex(area: Area, points: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let cut = half_plane(points, 0, area[0], 1.0);
    let cut = half_plane(&cut, 0, area[2], -1.0);
    let cut = half_plane(&cut, 1, area[1], 1.0);
    half_plane(&cut, 1, area[3], -1.0)
}

/// What of a polygon lies on the side `sign` of a line across an axis.
fn half_plane(points: &[[f64; 2]], axis: usize, edge: f64, sign: f64) -> Vec<[f64; 2]> {
    let mut kept = Vec::with_capacity(points.len() + 2);
    for (i, &a) in points.iter().enumerate() {
        let b = points[(i + 1) % points.len()];
        let (depth_a, depth_b) = (sign * (a[axis] - edge), sign * (b[axis] - edge));
        if depth_a >= 0.0 {
            kept.push(a);
        }
        if (depth_a >= 0.0) != (depth_b >= 0.0) {
            let t = depth_a / (depth_a - depth_b);
            kept.push([a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]);
        }
    }
    kept
}
