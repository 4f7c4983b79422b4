//! What the plan file reads, writes and refuses, and what makes a plan unusable.

mod added;
mod cases;
mod damaged;
mod draw;
mod edits;
mod guide;
mod kept;
mod load_direction;
mod near;
mod positions;
mod ready;
mod refused;
mod rules;
mod runs;
mod stable;
mod start;
mod targets;
mod weighing;
mod weighings;
mod written;

/// A plan file exactly as the program writes it.
const WRITTEN: &str = include_str!("written.ron");
/// A plan file as a person types it.
const TYPED: &str = include_str!("../../../../tests/files/v1-inch-pound.ron");
