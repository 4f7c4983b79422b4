//! Straight beams: shear, moment, stress and deflection of a board, along and across.
//!
//! Model: a straight bar of one rectangular section, small deflections, plane sections stay plane
//! (EI w'''' = q; source key `beam-theory`). What it leaves out, and on which side that errs:
//! - shear adds to the deflection, so the true one is larger: by 16 (d/L)^2 of it for an evenly
//!   loaded span of softwood, 5 % at L/d = 18 (`own derivation` from E/G near 16, `from memory`);
//! - a load counts over its whole contact, though the board bends away under a stiff weight and
//!   the weight then stands on its ends; in a span that makes the true moment smaller, beyond a
//!   support larger;
//! - creep and moisture are left out: deflections are those of the first minutes, in dry wood.
//!
//! Start reading at [`bend`] and [`bend_given`], then [`Board`].

mod board;
mod cross_section;
mod diagram;
mod end;
mod given;
mod hold;
mod load;
mod misstated;
mod polynomial;
mod strips;
mod supported;

pub use board::{Board, FaceContact};
pub use cross_section::CrossSection;
pub use diagram::Diagram;
pub use end::{Bending, Closing, Datum, End, Extreme};
pub use given::{Pressed, bend_given};
pub use load::Load;
pub use misstated::Misstated;
pub use strips::Across;
pub use supported::{Beam, Support, bend};
