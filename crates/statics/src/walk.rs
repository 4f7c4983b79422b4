//! The whole way up: after every placement the margins of every cut, from running sums, so that
//! a placement touches only the cuts below the body that was put down.

mod trail;

pub use trail::Trail;

use crate::body::Body;
use crate::cut::CutMargin;
use crate::margin::Decision;
use crate::mass::Masses;
use crate::rest::Pile;
use crate::section::{Placed, Section};
use nalgebra::{Isometry3, Point3, Vector3};
use std::ops::Range;

/// The pile after one more placement.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Mass put down so far, kg.
    pub mass_kg: f64,
    /// Centroid of all put down so far, m, floor frame. While they weigh nothing, the mean of their
    /// centres: a place to draw, not a centroid.
    pub centroid_in_floor: Point3<f64>,
    /// What governs among the cuts.
    pub least: Decision,
    /// The layer of the governing cut.
    pub layer: usize,
    /// The edge distance of that cut, m, floor frame, positive inside.
    pub least_edge_m: f64,
    /// The least edge distance over all cuts, m, floor frame, positive inside.
    pub edge_m: f64,
}

/// The pile after every placement, in order. Limits and sources as for [`crate::cuts_at`].
///
/// The reserve is not monotone: a pile that ends balanced may fall on the way, so every step counts.
pub fn walk(floor_from_bed: &Isometry3<f64>, bodies: &[Body], pile: &Pile) -> Vec<Step> {
    let placed = Placed::new(floor_from_bed, bodies, pile);
    Walk::new(&placed).go()
}

/// What [`walk`] and [`crate::cuts`] give, at the price of the walk alone.
pub fn walk_and_cuts(floor_from_bed: &Isometry3<f64>, bodies: &[Body], pile: &Pile) -> (Vec<Step>, Vec<CutMargin>) {
    let placed = Placed::new(floor_from_bed, bodies, pile);
    let mut walk = Walk::new(&placed);
    (walk.go(), walk.margins())
}

/// What one cut came to when it was last touched.
#[derive(Clone)]
struct Standing {
    edge_m: f64,
    least: Decision,
    /// Of `least`: every step compares those of all cuts.
    rank: (u8, f64),
}

/// What governs among some of the cuts.
#[derive(Clone, Copy)]
struct Governing {
    least: Decision,
    rank: (u8, f64),
    layer: usize,
    /// The edge distance of that cut, and the least of all, m.
    least_edge_m: f64,
    edge_m: f64,
}

impl Governing {
    fn none() -> Governing {
        let (least, infinite) = (Decision::NotLimited, f64::INFINITY);
        Governing { least, rank: least.rank(), layer: 1, least_edge_m: infinite, edge_m: infinite }
    }

    /// Of these and of cuts further up; of equals the lower one.
    fn or_above(self, above: &Governing) -> Governing {
        let edge_m = self.edge_m.min(above.edge_m);
        Governing { edge_m, ..if above.rank < self.rank { *above } else { self } }
    }
}

/// The running state.
pub(crate) struct Walk<'a> {
    placed: &'a Placed<'a>,
    sections: Vec<Section>,
    standing: Vec<Option<Standing>>,
    next_contact: usize,
    next_hanging: usize,
    /// Only so many cuts from below are looked at.
    cuts: usize,
}

impl<'a> Walk<'a> {
    fn new(placed: &'a Placed<'a>) -> Self {
        let (sections, standing) = (Vec::new(), Vec::new());
        Walk { placed, sections, standing, next_contact: 0, next_hanging: 0, cuts: usize::MAX }
    }

    fn go(&mut self) -> Vec<Step> {
        (0..self.placed.bodies.len()).map(|body| self.put(body)).collect()
    }

    /// Puts the next body down and looks at the cuts that it changes.
    fn put(&mut self, body: usize) -> Step {
        self.place(body);
        self.look(self.placed.pile.layer[body]);
        self.step(body, &self.governing(0..self.standing.len()))
    }

    /// The margins of the cuts as they now stand, with what was decided when they last changed.
    fn margins(&self) -> Vec<CutMargin> {
        let cuts = self.sections.iter().zip(&self.standing).enumerate();
        let margin = |(below, (section, standing)): (usize, (&Section, &Option<Standing>))| {
            let closed = section.closed(self.placed)?;
            let least = standing.as_ref()?.least;
            Some(CutMargin::new(below + 1, section, closed, least))
        };
        cuts.filter_map(margin).collect()
    }

    /// The cuts when the first `step` bodies lie, lowest layer first.
    pub(crate) fn sections_at(placed: &Placed, step: usize) -> Vec<Section> {
        let mut walk = Walk::new(placed);
        (0..step.min(placed.bodies.len())).for_each(|body| walk.place(body));
        walk.sections.iter_mut().for_each(Section::wrap);
        walk.sections
    }

    fn place(&mut self, body: usize) {
        let layer = self.placed.pile.layer[body].min(self.cuts);
        let layers = self.sections.len().max(layer);
        self.sections.resize_with(layers, Section::default);
        self.standing.resize(layers, None);
        let Placed { bodies, pile, .. } = self.placed;
        let centre = self.placed.floor_from_bed * pile.centre(bodies, body);
        for section in &mut self.sections[..layer] {
            section.carry(bodies[body].mass_kg, &centre);
        }
        self.cross(body, layer);
        if self.placed.pile.hanging.get(self.next_hanging) == Some(&body) {
            self.next_hanging += 1;
            self.sections[0].loosen();
        }
    }

    /// A contact crosses every cut between the layers of its two bodies.
    fn cross(&mut self, body: usize, layer: usize) {
        let pile = self.placed.pile;
        while let Some(contact) = pile.contacts.get(self.next_contact).filter(|contact| contact.upper == body) {
            for section in &mut self.sections[pile.layer_under(contact).min(layer)..layer] {
                section.cross(self.placed, contact);
            }
            self.next_contact += 1;
        }
    }

    /// Looks again at the cuts up to a layer; those above it have not changed.
    fn look(&mut self, layer: usize) {
        for (section, standing) in self.sections.iter_mut().zip(&mut self.standing).take(layer) {
            section.wrap();
            *standing = section.closed(self.placed).map(|closed| {
                let least = section.least(&closed);
                Standing { edge_m: closed.edge_m, least, rank: least.rank() }
            });
        }
    }

    /// What governs among these cuts, counted from below.
    fn governing(&self, cuts: Range<usize>) -> Governing {
        let (mut governing, mut at) = (Governing::none(), None);
        for (below, standing) in self.standing.iter().enumerate().take(cuts.end).skip(cuts.start) {
            let Some(standing) = standing else { continue };
            governing.edge_m = governing.edge_m.min(standing.edge_m);
            if standing.rank < governing.rank {
                (governing.rank, at) = (standing.rank, Some((below, standing)));
            }
        }
        match at {
            None => governing,
            Some((below, Standing { edge_m, least, .. })) => {
                Governing { least: *least, layer: below + 1, least_edge_m: *edge_m, ..governing }
            }
        }
    }

    fn step(&self, body: usize, governing: &Governing) -> Step {
        let Governing { least, layer, least_edge_m, edge_m, .. } = *governing;
        let Masses { mass_kg, centroid } = self.sections[0].masses().unwrap_or_else(|| self.weightless(body));
        Step { mass_kg, centroid_in_floor: centroid, least, layer, least_edge_m, edge_m }
    }

    fn weightless(&self, last: usize) -> Masses {
        let Placed { bodies, pile, .. } = self.placed;
        let sum: Vector3<f64> = (0..=last).map(|body| pile.centre(bodies, body).coords).sum();
        #[expect(clippy::cast_precision_loss, reason = "a count of bodies is far below 2^52")]
        let count = (last + 1) as f64;
        Masses { mass_kg: 0.0, centroid: self.placed.floor_from_bed * Point3::from(sum / count) }
    }
}
