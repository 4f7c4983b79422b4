//! Bodies at rest: contacts, mass properties, margins.
//!
//! What it is for: boxes are put down one after another on a bed of bearings; this crate says
//! where each comes to rest, where the centroid of the pile stands after every placement, and
//! how great a horizontal push the pile would bear before it tips or slides.
//!
//! In: [`Body`] and [`Bed`], bare SI numbers in the bed frame, and the pose of the bed on the
//! floor. Out: a [`Pile`] (heights, layers, contacts), [`CutMargin`]s and [`Step`]s, and the
//! margins of a [`Footprint`]. All numbers are finite and every mass is at least zero: that is
//! the caller's duty; numbers that break it end as `Loose` or `NotDecided`, never as a margin.
//!
//! What it must never do: know a plan, a file, a window or paper; show a solve that did not
//! decide as a pile that stands; hand out a margin without its frame and direction.
//!
//! Limits of validity: rigid boxes, faces along the bed's axes, contacts that push and rub and
//! never pull. The margins of a cut are necessary conditions: what falls by them falls, what
//! holds by them may still fall in a way that no single cut shows.
//!
//! Start reading at [`settle`], then [`cuts_at`], then [`walk`].

pub mod beam;
mod body;
mod conic;
mod cut;
pub mod equilibrium;
pub mod fixture;
mod footprint;
mod hull;
mod margin;
mod mass;
pub mod occupant;
pub mod recall;
mod rest;
mod section;
pub mod soft;
pub mod spanned;
pub mod spread;
pub mod timber;
mod walk;
pub mod weighing;

pub use body::{Bearing, Bed, Body, Patch};
pub use cut::{CutMargin, cuts, cuts_at};
pub use footprint::Footprint;
pub use margin::{Decision, Reserve, Way};
pub use mass::Masses;
pub use rest::{Beside, Contact, Pile, Under, rest_height_m, settle};
pub use walk::{Step, Trail, walk, walk_and_cuts};
