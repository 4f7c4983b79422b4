//! The way up walked again for nearly the same pile: what was put down before the first difference
//! need not be looked at again, nor what lies above all that differs. In a drag that is most of a stack, frame after
//! frame.

use super::{Governing, Standing, Step, Walk};
use crate::body::Body;
use crate::cut::CutMargin;
use crate::rest::{Contact, Pile};
use crate::section::{Placed, Section};
use nalgebra::Isometry3;

/// The way as it was walked last.
#[derive(Clone, Default)]
pub struct Trail {
    floor_from_bed: Isometry3<f64>,
    bodies: Vec<Body>,
    pile: Pile,
    steps: Vec<Step>,
    halt: Option<Halt>,
    upper: Option<Upper>,
}

/// The sums on the way, before a body that differed once: the next pile is likely to differ there.
#[derive(Clone)]
struct Halt {
    placed: usize,
    sections: Vec<Section>,
    standing: Vec<Option<Standing>>,
    next_contact: usize,
    next_hanging: usize,
}

/// The cuts above all that differed once, at every step: a body that is moved changes nothing above what rests on it.
#[derive(Clone)]
struct Upper {
    /// So many cuts lie below.
    above: usize,
    /// The first step (from 0) that is told of.
    first: usize,
    governing: Vec<Governing>,
    margins: Vec<CutMargin>,
}

impl Trail {
    /// The very answer of [`crate::walk_and_cuts`], found from where this pile differs from the last
    /// one.
    pub fn walk_and_cuts(
        &mut self,
        floor_from_bed: &Isometry3<f64>,
        bodies: &[Body],
        pile: &Pile,
    ) -> (Vec<Step>, Vec<CutMargin>) {
        let known = self.floor_from_bed == *floor_from_bed;
        let alike = if known { self.alike(bodies, pile) } else { 0 };
        let touched = self.touched(bodies, pile).filter(|_| known);
        let placed = Placed::new(floor_from_bed, bodies, pile);
        let mut walk = Walk::new(&placed);
        let halt = self.halt.as_ref().filter(|halt| halt.placed <= alike);
        let mut steps = halt.map_or_else(Vec::new, |halt| self.steps[..halt.placed].to_vec());
        // A halt beyond what is alike tells of bodies that have moved since: another one takes its place.
        let halts_anew = alike < bodies.len() && self.halt.as_ref().is_none_or(|halt| halt.placed != alike);
        let upper = self.upper.take().filter(|upper| {
            !halts_anew && upper.first <= steps.len() && touched.is_some_and(|touched| touched <= upper.above)
        });
        walk.cuts = upper.as_ref().map_or(usize::MAX, |upper| upper.above);
        if let Some(halt) = halt {
            walk.go_on_from(halt);
        }
        let margins = match upper {
            Some(upper) => {
                let margins = walk.go_below(&upper, &mut steps);
                self.upper = Some(upper);
                margins
            }
            None => self.go_anew(&mut walk, &mut steps, (alike, touched)),
        };
        self.floor_from_bed = *floor_from_bed;
        (self.bodies, self.pile, self.steps) = (bodies.to_vec(), pile.clone(), steps.clone());
        (steps, margins)
    }

    /// Over all cuts; what lies above all that differed is kept for the next time.
    fn go_anew(
        &mut self,
        walk: &mut Walk,
        steps: &mut Vec<Step>,
        (alike, touched): (usize, Option<usize>),
    ) -> Vec<CutMargin> {
        let (first, above) = (steps.len(), touched.unwrap_or(usize::MAX));
        let mut governing = Vec::new();
        for body in first..walk.placed.bodies.len() {
            if body == alike && self.halt.as_ref().is_none_or(|halt| halt.placed != alike) {
                self.halt = Some(walk.halt(body));
            }
            walk.place(body);
            walk.look(walk.placed.pile.layer[body]);
            let upper = walk.governing(above..usize::MAX);
            steps.push(walk.step(body, &walk.governing(0..above).or_above(&upper)));
            governing.push(upper);
        }
        let margins = walk.margins();
        let is_above = |margin: &&CutMargin| margin.layer > above;
        let upper = || margins.iter().filter(is_above).cloned().collect();
        self.upper = touched.map(|above| Upper { above, first, governing, margins: upper() });
        margins
    }

    /// Below how many cuts all lies that differs from the last time; none where the steps are not the same in number.
    fn touched(&self, bodies: &[Body], pile: &Pile) -> Option<usize> {
        if bodies.len() != self.bodies.len() || pile.hanging != self.pile.hanging {
            return None;
        }
        let (mut now, mut before) = (pile.contacts.as_slice(), self.pile.contacts.as_slice());
        let mut touched = 1;
        for body in 0..bodies.len() {
            let same_contacts = taken(&mut now, body) == taken(&mut before, body);
            if !same_contacts || self.differs(bodies, pile, body) {
                touched = touched.max(pile.layer[body]).max(self.pile.layer[body]);
            }
        }
        Some(touched)
    }

    fn differs(&self, bodies: &[Body], pile: &Pile, body: usize) -> bool {
        bodies[body] != self.bodies[body]
            || pile.layer[body] != self.pile.layer[body]
            || pile.underside_m[body].total_cmp(&self.pile.underside_m[body]).is_ne()
    }

    /// How many bodies lie as they did, from the first on.
    fn alike(&self, bodies: &[Body], pile: &Pile) -> usize {
        let common = bodies.len().min(self.bodies.len());
        let body = (0..common).find(|body| self.differs(bodies, pile, *body)).unwrap_or(common);
        let contact = first_difference(&pile.contacts, &self.pile.contacts, |contact| contact.upper);
        let hanging = first_difference(&pile.hanging, &self.pile.hanging, |hanging| *hanging);
        body.min(contact).min(hanging)
    }
}

/// The contacts of the next body, which are taken off the list.
fn taken<'c>(contacts: &mut &'c [Contact], upper: usize) -> &'c [Contact] {
    let count = contacts.iter().take_while(|contact| contact.upper == upper).count();
    let (own, rest) = contacts.split_at(count);
    *contacts = rest;
    own
}

/// The body at which two lists in the order of placing part.
fn first_difference<T: PartialEq>(one: &[T], other: &[T], body: impl Fn(&T) -> usize) -> usize {
    let parts = one.iter().zip(other).position(|(a, b)| a != b).unwrap_or(one.len().min(other.len()));
    let of = |list: &[T]| list.get(parts).map_or(usize::MAX, &body);
    of(one).min(of(other))
}

impl Walk<'_> {
    fn halt(&self, placed: usize) -> Halt {
        let (sections, standing) = (self.sections.clone(), self.standing.clone());
        Halt { placed, sections, standing, next_contact: self.next_contact, next_hanging: self.next_hanging }
    }

    /// The rest of the way over the lower cuts alone.
    fn go_below(&mut self, upper: &Upper, steps: &mut Vec<Step>) -> Vec<CutMargin> {
        for body in steps.len()..self.placed.bodies.len() {
            self.place(body);
            self.look(self.placed.pile.layer[body]);
            let lower = self.governing(0..upper.above);
            steps.push(self.step(body, &lower.or_above(&upper.governing[body - upper.first])));
        }
        let mut margins = self.margins();
        margins.extend(upper.margins.iter().cloned());
        margins
    }

    fn go_on_from(&mut self, halt: &Halt) {
        let cuts = self.cuts.min(halt.sections.len());
        (self.sections, self.standing) = (halt.sections[..cuts].to_vec(), halt.standing[..cuts].to_vec());
        (self.next_contact, self.next_hanging) = (halt.next_contact, halt.next_hanging);
    }
}
