//! What is painted of a solid.

use super::direction::Axes;
use super::solid::Solid;
use nalgebra::Vector3;

/// A side that faces the viewer, or a part of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Facing {
    /// Which of the solids it belongs to.
    pub of: usize,
    /// The unit vector out of it, floor frame; towards the viewer for a sheet.
    pub outward: Vector3<f64>,
    /// Its corners in the picture, m, counterclockwise; convex.
    pub outline: Vec<[f64; 2]>,
    /// Whether the edge from each corner to the next is an edge of the solid: others are cuts, which
    /// are not drawn.
    pub edges: Vec<bool>,
}

/// The sides that face the viewer, the farthest first. Their corners lie in one list: of a pile most sides are hidden,
/// and what is left out should cost no list of its own.
#[derive(Default)]
pub(super) struct Sides {
    all: Vec<One>,
    corners: Vec<[f64; 2]>,
    edges: Vec<bool>,
}

struct One {
    of: usize,
    outward: Vector3<f64>,
    /// Where its corners begin; they go on to where those of the next one begin.
    first: usize,
}

impl Sides {
    /// Adds those of a solid, or of a part of one, as they are seen along these axes.
    pub(super) fn add(&mut self, solid: &Solid, of: usize, axes: &Axes) {
        for side in solid.sides.iter() {
            let Some(outward) = solid.outward(side) else { continue };
            let along = outward.dot(&axes.toward);
            let turned = solid.is_sheet() && along < 0.0;
            // Edge on there is nothing to see.
            if along.abs() < 1e-6 || (along < 0.0 && !turned) {
                continue;
            }
            let first = self.corners.len();
            self.all.push(One { of, outward: if turned { -outward } else { outward }, first });
            self.corners.extend(side.around.iter().map(|i| axes.project(solid.corners[*i])));
            self.edges.extend_from_slice(&side.edges);
            if turned {
                self.corners[first..].reverse();
                // Edge i led from i to the next; now it leads to it from there.
                self.edges[first..].reverse();
                self.edges[first..].rotate_left(1);
            }
        }
    }

    /// The corners of all of them.
    pub(super) fn corners(&self) -> &[[f64; 2]] {
        &self.corners
    }

    /// The sides solid by solid, or part by part, the nearest first.
    pub(super) fn by_solid(&self) -> impl Iterator<Item = SidesOf<'_>> {
        let mut end = self.corners.len();
        self.all.chunk_by(|a, b| a.of == b.of).rev().map(move |all| {
            let of = SidesOf { sides: self, all, end };
            end = all[0].first;
            of
        })
    }
}

/// The sides of a solid, or of a part of it, that face the viewer.
pub(super) struct SidesOf<'a> {
    sides: &'a Sides,
    all: &'a [One],
    /// Where their corners end.
    end: usize,
}

impl SidesOf<'_> {
    /// Which of the solids it is.
    pub(super) fn of(&self) -> usize {
        self.all[0].of
    }

    /// The corners of all its sides.
    pub(super) fn corners(&self) -> &[[f64; 2]] {
        &self.sides.corners[self.all[0].first..self.end]
    }

    /// Adds those of its sides whose outline shows, the last one first.
    pub(super) fn take(&self, mut shows: impl FnMut(&[[f64; 2]]) -> bool, taken: &mut Vec<Facing>) {
        let mut end = self.end;
        for One { of, outward, first } in self.all.iter().rev() {
            let outline = &self.sides.corners[*first..end];
            if shows(outline) {
                let edges = self.sides.edges[*first..end].to_vec();
                taken.push(Facing { of: *of, outward: *outward, outline: outline.to_vec(), edges });
            }
            end = *first;
        }
    }
}
