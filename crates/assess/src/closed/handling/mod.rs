//! Manual handling: what one pair of hands should lift, after the revised NIOSH lifting equation
//! (source key `niosh-94-110`), for the pieces as they go onto the stack.
//!
//! It is a caution beside the ballast, not a check of the plan: it says nothing on whether the load
//! is proved or the stack stands, and a bag of 25 kg is beyond the equation's load constant however
//! it is lifted. So it never makes a plan fail; it stands where bags are chosen, with its inputs.
//!
//! DEPARTURE: the manual leaves out loads whose centre of mass shifts (a loosely filled bag does),
//! lifting in the cold and lifting by two people. [`LIMITS`] says so wherever a result is shown; a
//! result is a guide to how much too heavy a lift is, and errs to the light side there.

mod equation;
mod piece;

pub use equation::{Lift, Multiplier, Recommended, frequency_multiplier, recommended};
pub use piece::{Advice, Heaviest, PieceLift, heaviest, heaviest_and_highest, lifts};

/// What must be told beside every result.
pub const LIMITS: &str = "The equation is for steady loads, two hands, firm footing and a warm room. A loosely filled bag, cold and gloves are outside of it, and it is for one person: with two it is told as half the load at best. Take it as the best case.";

/// Above this lifting index some people are at an increased risk of harm to the back (p. 20 of the
/// manual).
pub const SOME_AT_RISK: f64 = 1.0;
/// Above this one nearly all are (p. 20, told there as the view of some experts).
pub const NEARLY_ALL_AT_RISK: f64 = 3.0;
