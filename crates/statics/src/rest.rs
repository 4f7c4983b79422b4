//! The rest rule: bodies fall in the order in which they are put down, each onto the highest
//! thing under its footprint. Geometry only; whether a body stays where it came down is the
//! business of the margins.

use crate::body::{Bed, Body, Patch};
use nalgebra::Point3;

/// Heights that differ by less than this are one height, m: sums of the same thicknesses in
/// another order differ in the last bits.
pub(crate) const ONE_HEIGHT_M: f64 = 1e-9;

/// What a body rests on, by its place in the list of bearings or bodies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Under {
    /// A bearing of the bed.
    Bearing(usize),
    /// A body that was put down earlier.
    Body(usize),
}

/// Where one body rests on another or on a bearing.
#[derive(Debug, Clone, PartialEq)]
pub struct Contact {
    /// The body that rests.
    pub upper: usize,
    /// What it rests on.
    pub lower: Under,
    /// The rectangle that both share, bed frame.
    pub patch: Patch,
    /// Height of the contact plane along the bed's z, m, bed frame: the underside of the upper body.
    pub plane_m: f64,
    /// How far the top of the lower one lies below that plane, m: what has to give before they meet.
    pub gap_m: f64,
    /// Coefficient of friction: the smaller of the two.
    pub friction: f64,
}

/// A bag that lies beside a body which it overlaps by a little.
#[derive(Debug, Clone, PartialEq)]
pub struct Beside {
    /// The bag.
    pub body: usize,
    /// The body beside which it lies.
    pub neighbour: usize,
    /// By how much they overlap in plan, m, the shorter way.
    pub overlap_m: f64,
}

/// The bodies at rest. Every list follows the order of placing.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Pile {
    /// Height of each body's underside along the bed's z, m, bed frame.
    pub underside_m: Vec<f64>,
    /// Layer of each body: 1 + the deepest layer of what it rests on.
    pub layer: Vec<usize>,
    /// All contacts, in order of the upper body.
    pub contacts: Vec<Contact>,
    /// Bags that lie beside what would otherwise have carried or stopped them.
    pub beside: Vec<Beside>,
    /// Bodies with nothing under them; they are shown at height 0 in layer 1.
    pub hanging: Vec<usize>,
}

impl Pile {
    /// The centre of a body, bed frame, m.
    pub fn centre(&self, bodies: &[Body], body: usize) -> Point3<f64> {
        let Body { centre_m: [x, y], extent_m, .. } = &bodies[body];
        Point3::new(*x, *y, self.underside_m[body] + 0.5 * extent_m[2])
    }

    /// The layer of what lies under a contact; bearings are layer 0.
    pub fn layer_under(&self, contact: &Contact) -> usize {
        match contact.lower {
            Under::Bearing(_) => 0,
            Under::Body(body) => self.layer[body],
        }
    }
}

/// Puts the bodies down, one after another in the order of the slice.
///
/// A body comes to rest on the highest top under its footprint; every top at most `touch` below
/// that and under the footprint is a contact, where neither of the two is a bag at most `touch_hard`. A bag passes a body which it overlaps by less than
/// `beside` either way. Source: `own derivation` (rigid boxes dropped along the bed's z; what
/// settles in between is left to the two lengths).
pub fn settle(bed: &Bed, bodies: &[Body]) -> Pile {
    let mut settling = Settling::new(bed);
    bodies.iter().for_each(|body| settling.put(body));
    settling.pile
}

/// How high one more body would come to rest on those that lie there, each with the height of its
/// underside: the height of its own underside along the bed's z, m, bed frame; 0 where nothing is under it.
///
/// The rule of [`settle`], for a body whose place is still being chosen: `passes_m` is by how much it
/// may overlap any other, bag or not, and still pass it, where that is more than the bed lets a bag pass.
pub fn rest_height_m(bed: &Bed, lying: &[(Body, f64)], body: &Body, passes_m: f64) -> f64 {
    let (footprint, passes_m) = (body.footprint(), squeeze_m(bed, body).max(passes_m));
    let bears = |patch: Patch| footprint.overlap(&patch).is_some();
    let bearings = bed.bearings.iter().filter(|bearing| bears(bearing.patch())).map(|bearing| bearing.top_m);
    let carries = |other: &Body| footprint.overlap(&other.footprint()).is_some_and(|patch| patch.width_m() >= passes_m);
    let bodies = lying.iter().filter(|(other, _)| carries(other)).map(|(other, at_m)| at_m + other.extent_m[2]);
    bearings.chain(bodies).reduce(f64::max).unwrap_or(0.0)
}

/// What a body overlaps by less than this it passes, m.
fn squeeze_m(bed: &Bed, body: &Body) -> f64 {
    if body.soft { bed.beside_m - ONE_HEIGHT_M } else { 0.0 }
}

/// A top that lies under the footprint of the falling body.
struct Found {
    lower: Under,
    patch: Patch,
    top_m: f64,
    friction: f64,
    soft: bool,
}

/// What later bodies need to know of one that lies.
struct Lying {
    footprint: Patch,
    top_m: f64,
    friction: f64,
    soft: bool,
}

/// The state while bodies are put down one by one.
struct Settling<'a> {
    bed: &'a Bed,
    bearings: Vec<Patch>,
    lying: Vec<Lying>,
    /// Those that lie, the lowest top first: most of a stack lies too deep to matter to one more.
    by_top: Vec<usize>,
    /// Kept only to spare their storage, as are those passed.
    under: Vec<Found>,
    passed: Vec<Beside>,
    pile: Pile,
}

impl<'a> Settling<'a> {
    fn new(bed: &'a Bed) -> Self {
        let bearings = bed.bearings.iter().map(|bearing| bearing.patch()).collect();
        Settling {
            bed,
            bearings,
            lying: Vec::new(),
            by_top: Vec::new(),
            under: Vec::new(),
            passed: Vec::new(),
            pile: Pile::default(),
        }
    }

    fn put(&mut self, body: &Body) {
        let footprint = body.footprint();
        self.look_at_bearings(&footprint);
        self.look_at_bodies(body, &footprint);
        let highest_m = self.under.iter().map(|found| found.top_m).reduce(f64::max);
        let below = |touch_m: f64| highest_m.map_or(f64::NEG_INFINITY, |highest| highest - touch_m - ONE_HEIGHT_M);
        let reach_m = below(self.bed.touch_m);
        self.keep_neighbours(reach_m);
        let hard_reach_m = if body.soft { reach_m } else { below(self.bed.touch_hard_m) };
        self.rest(body, highest_m.unwrap_or(0.0), [reach_m, hard_reach_m]);
        let top_m = highest_m.unwrap_or(0.0) + body.extent_m[2];
        let place = self.by_top.partition_point(|other| self.lying[*other].top_m <= top_m);
        self.by_top.insert(place, self.lying.len());
        self.lying.push(Lying { footprint, top_m, friction: body.friction, soft: body.soft });
    }

    fn look_at_bearings(&mut self, footprint: &Patch) {
        for (index, (bearing, patch)) in self.bed.bearings.iter().zip(&self.bearings).enumerate() {
            if let Some(patch) = footprint.overlap(patch) {
                let (lower, top_m, friction) = (Under::Bearing(index), bearing.top_m, bearing.friction);
                self.under.push(Found { lower, patch, top_m, friction, soft: false });
            }
        }
    }

    /// From the highest top down, until the next one is out of reach of what was found; what was
    /// found then stands in the order of placing.
    fn look_at_bodies(&mut self, body: &Body, footprint: &Patch) {
        let squeeze_m = squeeze_m(self.bed, body);
        let mut highest_m = self.under.iter().map(|found| found.top_m).fold(f64::NEG_INFINITY, f64::max);
        let reach_m = self.bed.touch_m.max(self.bed.touch_hard_m) + ONE_HEIGHT_M;
        for &index in self.by_top.iter().rev() {
            let lower = &self.lying[index];
            if lower.top_m < highest_m - reach_m {
                break;
            }
            let Some(patch) = footprint.overlap(&lower.footprint) else { continue };
            let overlap_m = patch.width_m();
            if overlap_m < squeeze_m {
                self.passed.push(Beside { body: self.lying.len(), neighbour: index, overlap_m });
            } else {
                let Lying { top_m, friction, soft, .. } = *lower;
                highest_m = highest_m.max(top_m);
                self.under.push(Found { lower: Under::Body(index), patch, top_m, friction, soft });
            }
        }
        self.under.sort_by_key(|found| found.lower);
        self.passed.sort_by_key(|passed| passed.neighbour);
    }

    /// A neighbour that ends below the reach of the body would have made no difference.
    fn keep_neighbours(&mut self, reach_m: f64) {
        let lying = &self.lying;
        self.pile.beside.extend(self.passed.drain(..).filter(|beside| lying[beside.neighbour].top_m >= reach_m));
    }

    /// `reach_m`: how low a bag's top may lie, and a hard one's.
    fn rest(&mut self, body: &Body, plane_m: f64, [soft_m, hard_m]: [f64; 2]) {
        let (upper, first) = (self.lying.len(), self.pile.contacts.len());
        let in_reach = |found: &Found| found.top_m >= if found.soft { soft_m } else { hard_m };
        for found in self.under.drain(..).filter(in_reach) {
            let Found { lower, patch, top_m, .. } = found;
            let (gap_m, friction) = ((plane_m - top_m).max(0.0), found.friction.min(body.friction));
            self.pile.contacts.push(Contact { upper, lower, patch, plane_m, gap_m, friction });
        }
        let deepest = self.pile.contacts[first..].iter().map(|contact| self.pile.layer_under(contact)).max();
        if deepest.is_none() {
            self.pile.hanging.push(upper);
        }
        self.pile.layer.push(1 + deepest.unwrap_or(0));
        self.pile.underside_m.push(plane_m);
    }
}
