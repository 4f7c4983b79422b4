//! Stacks that the crate lays out, held against the full assessment, exhaustive search and what is
//! published of like rectangles in a rectangle.

mod bench;
mod demos;
mod stays;
