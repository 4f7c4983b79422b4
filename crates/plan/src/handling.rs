//! How pieces are lifted onto the stack by hand: what the caution on manual handling asks for.

use quantity::{Angle, Length};

/// How long hands go on lifting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spell {
    /// Up to one hour, then as long a rest.
    OneHour,
    /// Up to two hours, then a rest of a third of that.
    TwoHours,
    /// Up to eight hours with the usual breaks.
    EightHours,
}

/// How well hands hold a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grip {
    /// Handles or cut-outs that fit the hand.
    Good,
    /// Fingers flexed by a right angle under it.
    Fair,
    /// Bags that sag, edges, gloves.
    Poor,
}

/// How pieces are lifted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Handling {
    /// Level distance from between the ankles to between the hands.
    pub reach: Length,
    /// Height of the hands above the floor where a piece is taken up.
    pub pick_up: Length,
    /// How far to the side of straight ahead the piece is, with the feet where they stand.
    pub twist: Angle,
    /// Lifts a minute.
    pub lifts_per_minute: f64,
    /// How long.
    pub spell: Spell,
    /// How well the hands hold.
    pub grip: Grip,
    /// How many lift together, below the layer from which two do.
    pub people: u32,
    /// From this layer on two people lift together; none: as many throughout.
    pub two_people_from_layer: Option<u32>,
}

impl Handling {
    /// How many lift a piece of this layer together (layers from 1).
    pub fn people_at(&self, layer: u32) -> u32 {
        let two = self.two_people_from_layer.is_some_and(|from| layer >= from);
        if two { self.people.max(2) } else { self.people }
    }
}

/// As format 1 has them where a file leaves them out: a bag from the floor, held away from the body
/// over a seat's edge, one a minute, in gloves (`common practice, no source`). Frozen: a file that
/// leaves them out means these.
impl Default for Handling {
    fn default() -> Self {
        Self {
            reach: Length::m(0.45),
            pick_up: Length::m(0.15),
            // To the last bit what `30 deg` is read as.
            twist: Angle::rad(30.0 * (std::f64::consts::PI / 180.0)),
            lifts_per_minute: 1.0,
            spell: Spell::OneHour,
            grip: Grip::Poor,
            people: 1,
            two_people_from_layer: None,
        }
    }
}
