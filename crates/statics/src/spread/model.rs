//! What is asked, and what is worked out once before anything is drawn.

use super::cut::Cut;
use super::random::Random;
use crate::body::{Bed, Body, Patch};
use crate::rest::{Contact, Pile, Under};
use nalgebra::{Isometry3, Point3};

/// How well one piece's mass is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Doubt {
    /// Standard deviation of the mass, kg: half of a plus-minus tolerance.
    pub mass_sd_kg: f64,
    /// Which lot it comes from, by its place in the list of lots: only pieces of one lot share an error.
    pub lot: usize,
}

/// How well masses and places are known.
#[derive(Debug, Clone, PartialEq)]
pub struct Scatter {
    /// One for each body, in their order.
    pub doubts: Vec<Doubt>,
    /// Standard deviation of each piece's place along each of the bed's two axes, m.
    pub placement_sd_m: f64,
    /// The share of each mass's variance that is common to its lot: 0 independent, 1 all of a lot
    /// off alike.
    pub common_share: f64,
}

/// A pile and its scatter.
#[derive(Debug, Clone, Copy)]
pub struct Question<'a> {
    /// Pose of the bed on the floor.
    pub floor_from_bed: &'a Isometry3<f64>,
    /// The bed on which the pile stands.
    pub bed: &'a Bed,
    /// The bodies as planned.
    pub bodies: &'a [Body],
    /// Where they came to rest.
    pub pile: &'a Pile,
    /// The target in plan, m, floor frame.
    pub target_in_floor: [f64; 2],
    /// How well all this is known.
    pub scatter: &'a Scatter,
}

/// One drawn stack: where it is, and how hard it may be pushed.
#[derive(Debug, Clone, Copy)]
pub(super) struct Drawn {
    pub(super) mass_kg: f64,
    /// Line of action minus target, m, floor frame.
    pub(super) offset_m: [f64; 2],
    /// The least tip multiplier over all cuts.
    pub(super) tip: f64,
}

/// Everything that does not change from draw to draw.
pub(super) struct Model<'a> {
    question: Question<'a>,
    centres: Vec<Point3<f64>>,
    cuts: Vec<Cut<'a>>,
    lots: usize,
    own: f64,
    common: f64,
}

/// Places and masses of one draw, and its sums; kept to spare their storage.
#[derive(Default)]
pub(super) struct Room {
    /// How far each body lies from its planned place along the bed's axes, m.
    moves: Vec<[f64; 2]>,
    lots: Vec<f64>,
    /// Mass, and moments of mass about the bed's origin, of each layer and all above it.
    above: Vec<[f64; 4]>,
    corners: Vec<Point3<f64>>,
}

impl<'a> Model<'a> {
    /// None if there is nothing that weighs, or a number that cannot be used.
    pub(super) fn new(question: Question<'a>) -> Option<Model<'a>> {
        let Question { bodies, pile, scatter, .. } = question;
        let shares = (0.0..=1.0).contains(&scatter.common_share);
        let known = |deviation: f64| deviation >= 0.0 && deviation.is_finite();
        let deviations = scatter.doubts.iter().all(|doubt| known(doubt.mass_sd_kg)) && known(scatter.placement_sd_m);
        let mass_kg: f64 = bodies.iter().map(|body| body.mass_kg).sum();
        let complete = scatter.doubts.len() == bodies.len() && pile.layer.len() == bodies.len();
        if !(shares && deviations && complete && mass_kg > 0.0 && mass_kg.is_finite()) {
            return None;
        }
        let layers = pile.layer.iter().copied().max().unwrap_or(0);
        Some(Model {
            question,
            centres: (0..bodies.len()).map(|body| pile.centre(bodies, body)).collect(),
            cuts: (1..=layers).map(|layer| Cut::new(&question, layer)).collect(),
            lots: scatter.doubts.iter().map(|doubt| doubt.lot + 1).max().unwrap_or(0),
            own: (1.0 - scatter.common_share).sqrt(),
            common: scatter.common_share.sqrt(),
        })
    }

    /// A tip margin exists: nothing hangs in the air.
    pub(super) fn has_margins(&self) -> bool {
        self.question.pile.hanging.is_empty()
    }

    pub(super) fn draw(&self, random: &mut Random, room: &mut Room) -> Drawn {
        self.scatter(random, room);
        room.gather();
        let [mass_kg, ..] = room.above[0];
        let centroid = self.question.floor_from_bed * centroid(&room.above[0]);
        let target = self.question.target_in_floor;
        let offset_m = [centroid.x - target[0], centroid.y - target[1]];
        Drawn { mass_kg, offset_m, tip: if self.has_margins() { self.least_tip(room) } else { f64::NEG_INFINITY } }
    }

    /// Draws masses and places, and sums them up layer by layer.
    fn scatter(&self, random: &mut Random, room: &mut Room) {
        let Question { bodies, pile, scatter, .. } = &self.question;
        room.lots.clear();
        room.lots.extend((0..self.lots).map(|_| if self.common > 0.0 { random.normal() } else { 0.0 }));
        room.moves.clear();
        room.above.clear();
        room.above.resize(self.cuts.len(), [0.0; 4]);
        for (index, doubt) in scatter.doubts.iter().enumerate() {
            let mut mass_kg = bodies[index].mass_kg;
            if doubt.mass_sd_kg > 0.0 {
                let off = self.own * random.normal() + self.common * room.lots[doubt.lot];
                mass_kg = (mass_kg + doubt.mass_sd_kg * off).max(0.0);
            }
            let way = match scatter.placement_sd_m {
                none if none <= 0.0 => [0.0; 2],
                deviation => [deviation * random.normal(), deviation * random.normal()],
            };
            let centre = &self.centres[index];
            let sum = &mut room.above[pile.layer[index] - 1];
            sum[0] += mass_kg;
            sum[1] += mass_kg * (centre.x + way[0]);
            sum[2] += mass_kg * (centre.y + way[1]);
            sum[3] += mass_kg * centre.z;
            room.moves.push(way);
        }
    }

    fn least_tip(&self, room: &mut Room) -> f64 {
        let mut least = f64::INFINITY;
        for (cut, above) in self.cuts.iter().zip(&room.above) {
            if above[0] > 0.0 {
                let centroid = self.question.floor_from_bed * centroid(above);
                let tip = cut.tip(&self.question, &centroid, &room.moves, &mut room.corners);
                least = least.min(tip);
            }
        }
        least
    }
}

impl Room {
    /// From sums of each layer to sums of each layer and all above.
    fn gather(&mut self) {
        for layer in (1..self.above.len()).rev() {
            let [upper, lower] = [self.above[layer], self.above[layer - 1]];
            self.above[layer - 1] = std::array::from_fn(|part| upper[part] + lower[part]);
        }
    }
}

fn centroid([mass_kg, x, y, z]: &[f64; 4]) -> Point3<f64> {
    Point3::new(x / mass_kg, y / mass_kg, z / mass_kg)
}

/// The rectangle that a contact has left when both its sides have moved; none if they part.
pub(super) fn moved_patch(contact: &Contact, sides: &[Patch; 2], moves: &[[f64; 2]]) -> Option<Patch> {
    let still = [0.0; 2];
    let under = match contact.lower {
        Under::Bearing(_) => &still,
        Under::Body(body) => &moves[body],
    };
    let over = &moves[contact.upper];
    let x_m = [
        (sides[0].x_m[0] + over[0]).max(sides[1].x_m[0] + under[0]),
        (sides[0].x_m[1] + over[0]).min(sides[1].x_m[1] + under[0]),
    ];
    let y_m = [
        (sides[0].y_m[0] + over[1]).max(sides[1].y_m[0] + under[1]),
        (sides[0].y_m[1] + over[1]).min(sides[1].y_m[1] + under[1]),
    ];
    (x_m[1] > x_m[0] && y_m[1] > y_m[0]).then_some(Patch { x_m, y_m })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Each side goes with its own body: the overlap ends at the nearer edge of either. Read off a drawing.
    #[test]
    fn a_contact_is_what_both_moved_faces_share() {
        let face = |x_m: [f64; 2], y_m: [f64; 2]| Patch { x_m, y_m };
        let sides = [face([0.0, 0.5], [0.0, 0.3]), face([0.1, 0.6], [-0.1, 0.3])];
        let patch = sides[0].overlap(&sides[1]).unwrap();
        let contact = Contact { upper: 1, lower: Under::Body(0), patch, plane_m: 0.1, gap_m: 0.0, friction: 0.5 };
        let moves = [[0.02, -0.05], [-0.03, 0.04]];
        let got = moved_patch(&contact, &sides, &moves).unwrap();
        // Upper: x -0.03 to 0.47, y 0.04 to 0.34. Lower: x 0.12 to 0.62, y -0.15 to 0.25.
        for (got, want) in [(got.x_m[0], 0.12), (got.x_m[1], 0.47), (got.y_m[0], 0.04), (got.y_m[1], 0.25)] {
            assert!((got - want).abs() < 1e-12, "got {got} m, want {want} m");
        }
        let apart = [[0.5, 0.0], [-0.5, 0.0]];
        assert_eq!(moved_patch(&contact, &sides, &apart), None, "faces that part share nothing");
        let onto = moved_patch(&contact, &sides, &[[0.0, 0.1], [0.0, -0.1]]).unwrap();
        assert!((onto.y_m[1] - 0.2).abs() < 1e-12, "the upper one ends first: got {} m, want 0.2 m", onto.y_m[1]);
    }
}
