//! Stacks that the crate lays out, held against the full assessment, exhaustive search and what is
//! published of like rectangles in a rectangle.

mod bench;
mod bond;
mod changes;
mod demos;
#[path = "../../benches/tasks/draw.rs"]
mod draw;
mod drawn;
mod exhaustive;
mod given;
#[path = "../../benches/tasks/heap.rs"]
mod heap;
mod impossible;
#[path = "../../benches/tasks/novice.rs"]
mod novice;
mod novices;
mod own;
mod seats;
mod stays;
