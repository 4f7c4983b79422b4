//! Units, frames and signs, parsing and printing of quantities.
//!
//! In: text as a person types it (`60 lb`, `4 ft 2 in`, `4' 2"`, `27,2 kg`). Out: SI numbers that know
//! their kind, and text in the plan's units. This crate must never know what a quantity is
//! *for*: no plan, no pieces, no mechanics. Start reading at [`kinds`], then [`frame`].

pub mod frame;
pub mod kinds;
mod number;
mod parse;
pub mod unit;
mod write;

pub use kinds::{Angle, Force, Length, Mass, Pressure, Quantity, Stiffness, Time};
pub use number::{NotANumber, number};
pub use parse::NotAQuantity;
pub use unit::{Grain, Kind, Unit, Units};
pub use write::{number_at_rest, number_in_field};

/// Standard acceleration of free fall, m/s2, exactly (ISO 80000-3:2019, item 3-11.1; `from memory`,
/// the same figure as in the 3rd CGPM's resolution of 1901).
pub const STANDARD_GRAVITY_M_S2: f64 = 9.806_65;
