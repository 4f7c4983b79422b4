//! Snapping: a piece's edges and centre to edges and centres of other pieces, bearings and the
//! centreline. Own arithmetic on four numbers a piece; nothing here knows the screen.

use super::hand::Guide;
use plan::Plan;
use quantity::{Length, Quantity, Units};

/// Lines to which a piece may snap, along the bed's x and along its y, m.
#[derive(Clone, Debug, Default)]
pub(super) struct Lines([Vec<f64>; 2]);

/// The lines that the bed and the first so many pieces offer, but for those that move.
pub(super) fn lines(plan: &Plan, placed: usize, moving: &[usize]) -> Lines {
    let mut lines = Lines::default();
    for bearing in &plan.bed.bearings {
        lines.add(0, bearing.x.map(Quantity::si));
        lines.add(1, bearing.y.map(Quantity::si));
    }
    for (step, place) in plan.stack.iter().take(placed).enumerate().filter(|(step, _)| !moving.contains(step)) {
        debug_assert!(step < plan.steps());
        let extent = plan.extent_of(place).map(Quantity::si);
        for axis in [0, 1] {
            let (at, half) = (place.at[axis].si(), extent[axis] / 2.0);
            lines.add(axis, [at - half, at + half]);
        }
    }
    lines.0[1].push(-plan.bed.origin[1].si());
    let target = plan.article_from_bed().inverse() * assess::occupant_point(plan).in_article;
    lines.0[0].push(target.x);
    lines.0[1].push(target.y);
    lines
}

impl Lines {
    /// Both ends of a range and its middle.
    fn add(&mut self, axis: usize, [low, high]: [f64; 2]) {
        self.0[axis].extend([low, f64::midpoint(low, high), high]);
    }
}

/// The step of the grid to which what does not snap is rounded: 5 mm or a quarter inch.
pub(super) fn grid_m(units: Units) -> Length {
    match units {
        Units::Metric => Length::m(0.005),
        Units::InchPound => Length::m(0.0254 / 4.0),
    }
}

/// The place nearest to the wanted one (centre, m) at which an edge or the centre lies on a line
/// within reach, along each axis that moves; else the nearest place on the grid.
pub(super) fn snap(
    lines: &Lines,
    wanted: [f64; 2],
    extent: [f64; 3],
    (moves, reach_m, grid): ([bool; 2], f64, Length),
) -> ([f64; 2], Vec<Guide>) {
    let (mut at, mut guides) = (wanted, Vec::new());
    for axis in [0, 1] {
        if !moves[axis] {
            continue;
        }
        let half = extent[axis] / 2.0;
        let candidates = lines.0[axis].iter().flat_map(|line| [-half, 0.0, half].map(|part| (*line, line - part)));
        let nearest = candidates.min_by(|a, b| (a.1 - wanted[axis]).abs().total_cmp(&(b.1 - wanted[axis]).abs()));
        match nearest {
            Some((line, place)) if (place - wanted[axis]).abs() <= reach_m => {
                at[axis] = place;
                guides.push(Guide { axis, at: line });
            }
            _ if reach_m > 0.0 => at[axis] = (wanted[axis] / grid.si()).round() * grid.si(),
            _ => at[axis] = (wanted[axis] * 1000.0).round() / 1000.0,
        }
    }
    (at, guides)
}
