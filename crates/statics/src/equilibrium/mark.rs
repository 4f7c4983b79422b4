//! The mark of each state of a stack: of all that its solve reads, and of nothing that is put down later.

use super::group::Stack;
use super::pull::DeadPull;
use crate::body::{Body, Patch};
use crate::recall::{Mark, Marker};
use crate::rest::{Contact, Pile, Under};

impl Stack<'_> {
    /// One for each number of placements, from 0 on.
    pub fn marks(&self) -> Vec<Mark> {
        self.marks_with(Marker::default(), |_, _| ())
    }

    /// The mark of the whole, after what `marker` has taken down.
    pub fn mark_after(&self, marker: Marker) -> Mark {
        let marks = self.marks_with(marker, |_, _| ());
        *marks.last().expect("the state before the first piece has one too")
    }

    /// One for each number of placements after what `marker` has taken down, with more of each piece.
    pub(crate) fn marks_with(&self, mut marker: Marker, more: impl Fn(&mut Marker, usize)) -> Vec<Mark> {
        let Stack { floor_from_bed, bodies, .. } = self;
        marker.reals(floor_from_bed.rotation.coords.as_slice());
        marker.reals(floor_from_bed.translation.vector.as_slice());
        let placements = 0..=bodies.len();
        let after = |step: usize| {
            if let Some(body) = step.checked_sub(1) {
                self.take_down(&mut marker, body);
                more(&mut marker, body);
            }
            self.dead.iter().enumerate().filter(|(_, pull)| pull.after == step).for_each(|(at, pull)| {
                marker.count(at);
                pull.take_down(&mut marker);
            });
            marker.mark()
        };
        placements.map(after).collect()
    }

    /// A piece, how it rests, and what it rests on.
    fn take_down(&self, marker: &mut Marker, body: usize) {
        let Body { centre_m, extent_m, mass_kg, friction, soft } = &self.bodies[body];
        marker.reals(centre_m);
        marker.reals(extent_m);
        marker.reals(&[*mass_kg, *friction]);
        marker.flag(*soft);
        // What a bag lies beside is told and not solved.
        let Pile { underside_m, layer, contacts: _, beside: _, hanging } = self.pile;
        marker.reals(&[underside_m[body]]);
        marker.count(layer[body]);
        marker.flag(hanging.contains(&body));
        let contacts = &self.contacts(body + 1)[self.contacts(body).len()..];
        marker.count(contacts.len());
        contacts.iter().for_each(|contact| contact.take_down(marker));
    }
}

impl Contact {
    fn take_down(&self, marker: &mut Marker) {
        let Contact { upper, lower, patch: Patch { x_m, y_m }, plane_m, gap_m, friction } = self;
        let (is_body, under) = match lower {
            Under::Bearing(bearing) => (false, bearing),
            Under::Body(body) => (true, body),
        };
        marker.count(*upper);
        marker.flag(is_body);
        marker.count(*under);
        marker.reals(x_m);
        marker.reals(y_m);
        marker.reals(&[*plane_m, *gap_m, *friction]);
    }
}

impl DeadPull {
    fn take_down(&self, marker: &mut Marker) {
        let DeadPull { at_in_bed_m, width_m, force_n, after } = self;
        marker.reals(at_in_bed_m);
        marker.reals(&[*width_m, *force_n]);
        marker.count(*after);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use nalgebra::Isometry3;

    /// Four boxes, one on the other, with a strap from the third on.
    #[derive(Clone)]
    struct Given {
        pose: Isometry3<f64>,
        bodies: Vec<Body>,
        pile: Pile,
        dead: Vec<DeadPull>,
    }

    impl Given {
        fn new() -> Given {
            let of = |k: usize| k as f64;
            let body = |k: usize| Body {
                centre_m: [0.01 * of(k), 0.0],
                extent_m: [0.4, 0.3, 0.1],
                mass_kg: 10.0 + of(k),
                friction: 0.5,
                soft: false,
            };
            let contact = |k: usize| Contact {
                upper: k,
                lower: if k == 0 { Under::Bearing(0) } else { Under::Body(k - 1) },
                patch: Patch { x_m: [-0.2, 0.2], y_m: [-0.15, 0.15] },
                plane_m: 0.1 * of(k),
                gap_m: 0.0,
                friction: 0.5,
            };
            let pile = Pile {
                underside_m: (0..4).map(|k| 0.1 * of(k)).collect(),
                layer: (1..=4).collect(),
                contacts: (0..4).map(contact).collect(),
                ..Pile::default()
            };
            let dead = vec![DeadPull { at_in_bed_m: [0.0; 2], width_m: 0.05, force_n: 100.0, after: 3 }];
            Given { pose: Isometry3::identity(), bodies: (0..4).map(body).collect(), pile, dead }
        }

        fn marks(&self) -> Vec<Mark> {
            let Given { pose, bodies, pile, dead } = self;
            Stack { floor_from_bed: pose, bodies, pile, dead }.marks()
        }
    }

    /// What is changed, the first state that it changes, and how.
    type Change = (&'static str, usize, fn(&mut Given));

    const CHANGES: [Change; 20] = [
        ("pose", 0, |given| given.pose.translation.x += 1e-3),
        ("tilt", 0, |given| given.pose.rotation = nalgebra::UnitQuaternion::from_euler_angles(1e-9, 0.0, 0.0)),
        ("place", 2, |given| given.bodies[1].centre_m[1] += 1e-9),
        ("extent", 2, |given| given.bodies[1].extent_m[2] += 1e-9),
        ("mass", 2, |given| given.bodies[1].mass_kg += 1e-9),
        ("friction of a piece", 2, |given| given.bodies[1].friction += 1e-9),
        ("bag", 2, |given| given.bodies[1].soft = true),
        ("height", 2, |given| given.pile.underside_m[1] += 1e-9),
        ("layer", 2, |given| given.pile.layer[1] += 1),
        ("hanging", 2, |given| given.pile.hanging.push(1)),
        ("a contact less", 2, |given| given.pile.contacts.retain(|contact| contact.upper != 1)),
        ("what it lies on", 2, |given| given.pile.contacts[1].lower = Under::Bearing(0)),
        ("patch", 2, |given| given.pile.contacts[1].patch.x_m[0] += 1e-9),
        ("other side of the patch", 2, |given| given.pile.contacts[1].patch.y_m[1] += 1e-9),
        ("plane", 2, |given| given.pile.contacts[1].plane_m += 1e-9),
        ("gap", 2, |given| given.pile.contacts[1].gap_m += 1e-9),
        ("friction of a contact", 2, |given| given.pile.contacts[1].friction += 1e-9),
        ("pull", 3, |given| given.dead[0].force_n += 1e-9),
        ("web", 3, |given| given.dead[0].width_m += 1e-9),
        ("where the web lies", 3, |given| given.dead[0].at_in_bed_m[1] += 1e-9),
    ];

    #[test]
    fn every_number_changes_the_marks_from_its_state_on_and_none_before() {
        let given = Given::new();
        let before = given.marks();
        assert_eq!(before, given.marks(), "the same stack");
        for (what, first, change) in CHANGES {
            let mut changed = given.clone();
            change(&mut changed);
            for (step, (mark, was)) in changed.marks().iter().zip(&before).enumerate() {
                assert_eq!(mark == was, step < first, "{what}, after {step} placements");
            }
        }
    }

    #[test]
    fn a_strap_that_comes_on_later_changes_the_marks_from_the_sooner_state_on() {
        let given = Given::new();
        let mut later = given.clone();
        later.dead[0].after = 4;
        let same: Vec<bool> = later.marks().iter().zip(given.marks()).map(|(mark, was)| *mark == was).collect();
        assert_eq!(same, [true, true, true, false, false], "after 0 to 4 placements");
    }
}
