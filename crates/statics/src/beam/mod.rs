//! Straight beams: shear, moment, stress and deflection of a board, along and across.
//!
//! Model: a straight bar of one rectangular section, small deflections, plane sections stay plane
//! (EI w'''' = q; source key `beam-theory`). What it leaves out, and on which side that errs:
//! - shear adds to the deflection (source key `wood-handbook-8`), so the true one is larger: by
//!   15 (d/L)^2 of it for an evenly loaded span of softwood, 5 % at L/d = 18 (`own derivation` from
//!   E/G near 16, `from memory`). Stresses do not depend on it where supports are two;
//! - a load is spread over its contact as the given forces say, though a stiff weight on a sagging
//!   board stands on its ends: the true moment is then smaller;
//! - forces between the pieces of a stack are one choice among many where more than statics would
//!   be needed to know them, and the moment of a board is as uncertain as they are;
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
