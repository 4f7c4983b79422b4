//! The tip margin of one cut of a drawn stack: all at or above a layer, against the contacts that
//! cross into it, both where the draw has moved them.
//!
//! The contacts are the planned ones. Each keeps its height; its rectangle is that which both moved
//! sides have in common, and if they part it is gone. While none of those at the corners of the
//! planned hull is gone, the edges between those corners are taken, moved as they are: the true
//! hull of what is left holds them all, so the margin errs low, never high. Otherwise the hull is
//! found anew. What a piece that was not meant to touch might carry is left out: low again. What is
//! not seen is that a piece laid onto its neighbour by mistake rests on another height: the rest
//! rule and its findings speak of that.

use super::model::{Question, moved_patch};
use crate::body::Patch;
use crate::hull::Hull;
use crate::rest::{Contact, Under};
use nalgebra::{Isometry3, Point3, Vector3};

/// Corners nearer than this are the same corner of a hull, m.
const SAME_M: f64 = 1e-9;

/// A contact that crosses the cut, with the rectangles of the body above and of what is below.
struct Crossing<'a> {
    contact: &'a Contact,
    sides: [Patch; 2],
}

/// The contacts of one cut.
pub(super) struct Cut<'a> {
    crossings: Vec<Crossing<'a>>,
    /// The corners of the planned hull in its order.
    corners: Vec<Corner>,
    /// The bed's x and y in the floor frame.
    axes: [Vector3<f64>; 2],
}

/// A corner of the planned hull.
struct Corner {
    /// Which contact, and which of its corners.
    crossing: usize,
    corner: usize,
    /// Where the bed's z at the height of the contact's plane comes to, floor frame, m.
    above: Point3<f64>,
}

impl<'a> Cut<'a> {
    pub(super) fn new(question: &Question<'a>, layer: usize) -> Cut<'a> {
        let pile = question.pile;
        let crosses = |contact: &&Contact| pile.layer[contact.upper] >= layer && pile.layer_under(contact) < layer;
        let crossings: Vec<Crossing> =
            pile.contacts.iter().filter(crosses).map(|c| Crossing::new(question, c)).collect();
        let planned =
            |crossing: &Crossing| in_floor(question.floor_from_bed, &crossing.contact.patch, crossing.contact);
        let points: Vec<[Point3<f64>; 4]> = crossings.iter().map(planned).collect();
        let flat: Vec<Point3<f64>> = points.iter().flatten().copied().collect();
        let hull = Hull::of(&flat);
        let place = |corner: &Point3<f64>| flat.iter().position(|p| (p - corner).norm() < SAME_M);
        let corner = |index: usize| {
            let (crossing, corner) = (index / 4, index % 4);
            let plane_m = crossings[crossing].contact.plane_m;
            Corner { crossing, corner, above: question.floor_from_bed * Point3::new(0.0, 0.0, plane_m) }
        };
        let corners = hull.corners().iter().filter_map(place).map(corner).collect();
        let axes = [Vector3::x(), Vector3::y()].map(|axis| question.floor_from_bed * axis);
        Cut { crossings, corners, axes }
    }

    /// The least tip multiplier, the centroid of all above given.
    pub(super) fn tip(
        &self,
        question: &Question,
        centroid: &Point3<f64>,
        moves: &[[f64; 2]],
        room: &mut Vec<Point3<f64>>,
    ) -> f64 {
        room.clear();
        for Corner { crossing, corner, above } in &self.corners {
            let Crossing { contact, sides } = &self.crossings[*crossing];
            let Some(patch) = moved_patch(contact, sides, moves) else {
                return self.tip_anew(question, centroid, moves);
            };
            let [x, y] = patch.corners()[*corner];
            room.push(above + self.axes[0] * x + self.axes[1] * y);
        }
        if room.len() < 3 { self.tip_anew(question, centroid, moves) } else { over_edges(room, centroid) }
    }

    fn tip_anew(&self, question: &Question, centroid: &Point3<f64>, moves: &[[f64; 2]]) -> f64 {
        let left = self.crossings.iter().filter_map(|Crossing { contact, sides }| {
            moved_patch(contact, sides, moves).map(|patch| in_floor(question.floor_from_bed, &patch, contact))
        });
        let points: Vec<Point3<f64>> = left.flatten().collect();
        Hull::of(&points).weakest(centroid, centroid).multiplier
    }
}

impl<'a> Crossing<'a> {
    fn new(question: &Question<'a>, contact: &'a Contact) -> Crossing<'a> {
        let upper = question.bodies[contact.upper].footprint();
        let lower = match contact.lower {
            Under::Body(body) => question.bodies[body].footprint(),
            Under::Bearing(bearing) => question.bed.bearings[bearing].patch(),
        };
        Crossing { contact, sides: [upper, lower] }
    }
}

fn in_floor(floor_from_bed: &Isometry3<f64>, patch: &Patch, contact: &Contact) -> [Point3<f64>; 4] {
    patch.corners().map(|[x, y]| floor_from_bed * Point3::new(x, y, contact.plane_m))
}

/// The least over the edges of a ring of corners, counter-clockwise: distance of the centroid from
/// the edge's line in plan over its height above that line, as at the hull.
fn over_edges(corners: &[Point3<f64>], centroid: &Point3<f64>) -> f64 {
    let last = corners.last().copied();
    let before = last.iter().chain(corners);
    before.zip(corners).map(|(a, b)| over_edge(a, b, centroid)).fold(f64::INFINITY, f64::min)
}

fn over_edge(a: &Point3<f64>, b: &Point3<f64>, centroid: &Point3<f64>) -> f64 {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let (cx, cy) = (centroid.x - a.x, centroid.y - a.y);
    let square = dx * dx + dy * dy;
    if square <= SAME_M * SAME_M {
        return f64::INFINITY;
    }
    let inside = (dx * cy - dy * cx) / square.sqrt();
    let over = centroid.z - a.z - (b.z - a.z) * (cx * dx + cy * dy) / square;
    match inside {
        _ if over > 0.0 => inside / over,
        inside if inside >= 0.0 => f64::INFINITY,
        _ => f64::NEG_INFINITY,
    }
}
