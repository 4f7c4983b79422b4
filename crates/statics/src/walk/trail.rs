//! The way up walked again for nearly the same pile: what was put down before the first difference
//! need not be looked at again. In a drag that is most of a stack, frame after frame.

use super::{Standing, Step, Walk};
use crate::body::Body;
use crate::cut::CutMargin;
use crate::rest::Pile;
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
        let placed = Placed::new(floor_from_bed, bodies, pile);
        let mut walk = Walk::new(&placed);
        let mut steps = Vec::with_capacity(bodies.len());
        if let Some(halt) = self.halt.as_ref().filter(|halt| halt.placed <= alike) {
            steps.extend_from_slice(&self.steps[..halt.placed]);
            walk.go_on_from(halt);
        }
        for body in steps.len()..bodies.len() {
            if body == alike && self.halt.as_ref().is_none_or(|halt| halt.placed != alike) {
                self.halt = Some(walk.halt(body));
            }
            steps.push(walk.put(body));
        }
        let margins = walk.margins();
        self.floor_from_bed = *floor_from_bed;
        (self.bodies, self.pile, self.steps) = (bodies.to_vec(), pile.clone(), steps.clone());
        (steps, margins)
    }

    /// How many bodies lie as they did, from the first on.
    fn alike(&self, bodies: &[Body], pile: &Pile) -> usize {
        let differs = |body: &usize| {
            bodies[*body] != self.bodies[*body]
                || pile.layer[*body] != self.pile.layer[*body]
                || pile.underside_m[*body].total_cmp(&self.pile.underside_m[*body]).is_ne()
        };
        let common = bodies.len().min(self.bodies.len());
        let body = (0..common).find(differs).unwrap_or(common);
        let contact = first_difference(&pile.contacts, &self.pile.contacts, |contact| contact.upper);
        let hanging = first_difference(&pile.hanging, &self.pile.hanging, |hanging| *hanging);
        body.min(contact).min(hanging)
    }
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

    fn go_on_from(&mut self, halt: &Halt) {
        (self.sections, self.standing) = (halt.sections.clone(), halt.standing.clone());
        (self.next_contact, self.next_hanging) = (halt.next_contact, halt.next_hanging);
    }
}
