//! Pieces that give: how far a stack of bags sinks, tilts and leans, how many times its weight it would bear
//! before it leans over by itself, and how great a push it bears while it gives.
//!
//! # The model
//! Rigid pieces on beds of springs that push and do not pull (`joint`): every contact, less the rims of the
//! bags beside it, is such a bed, its stiffness that of half the piece below and half the piece above in a
//! row. Equilibrium in the deformed state, turns to the second order. Integrals over the pressed part of a bed
//! are exact (`polygon`). Newton's steps with moving edges (`newton`), one 6 x 6 block a piece (`factor`), in the
//! order of elimination of the rigid solver.
//!
//! # How a question ends
//! Stands: every piece balanced to a billionth of the weight, and the balance stable. Leans over: balanced, but
//! not stable. Loose: a piece with no bed. Not decided: no balance was found, neither at once nor with the
//! weight brought on in tenths. That counts as falling: a stack beyond its limit ends so.
//!
//! # What it leaves out, and on which side that errs
//! - Neighbours that touch hold one another up sideways: not counted. Safe side.
//! - All loads at once: a bag that is placed to fixed marks on a pile that leans already shifts less. Safe side.
//! - First loading throughout; a pile that was pressed before gives less. Safe side.
//! - Pressure gathers at the middle of a bag: the rim covers a part of that. Unsafe side.
//! - Sand that runs inside the bag, bulging, uneven bags. Unsafe side.
//! - Shear without slip: the rigid solver says where friction ends. Unsafe side.
//! - Boards are rigid, the seat too unless its give is told. Unsafe side.
//! - The critical load factor is no reserve: a stack with 10 can have lost half its tip margin.
//!
//! Start reading at [`at_rest`], then [`every_step`], then [`push_limit`].

mod blow;
mod bound;
mod critical;
mod factor;
mod flat;
mod given;
mod joint;
mod model;
mod newton;
mod onward;
mod polygon;
mod push;
mod reach;
mod softness;
mod state;
mod steps;

pub use blow::{Blow, in_a_row, stiffness_under};
pub use bound::{Rocking, bound, rocking_limit};
pub use flat::flats;
pub use given::{STIFFEST_N_PER_M3, SoftAnswers, SoftStack};
pub use push::{PushEnd, SoftPush, push_along, push_limit};
pub use softness::{READING_S, SHEAR_RATIO, Softness, creep, creep_from_readings, passes_until};
pub use state::{BedForce, Moved, Rest, SoftEnd, Solved, at_rest, at_rest_first_order, at_rest_in_parts};
pub use steps::{PushStep, SoftStep, bears, every_step, moved, push_limits, stiffnesses_under, weakest};
