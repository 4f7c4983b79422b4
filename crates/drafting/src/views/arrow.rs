//! The head of an arrow that lies in the drawing plane.

/// The head's corners for an open line: barb, tip, barb; a fifth of a turn open, its length in m.
pub(crate) fn barbs(from: [f64; 2], tip: [f64; 2], length_m: f64) -> Vec<[f64; 2]> {
    let (along, across) = (tip[0] - from[0], tip[1] - from[1]);
    let whole = along.hypot(across).max(1e-9);
    let (back, side) = (length_m.min(whole) / whole, 0.4 * length_m.min(whole) / whole);
    let barb = |side: f64| [tip[0] - back * along - side * across, tip[1] - back * across + side * along];
    vec![barb(side), tip, barb(-side)]
}
