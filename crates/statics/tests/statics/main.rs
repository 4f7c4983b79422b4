//! Statics against worked stacks, published overhangs, hand statics and properties. One program,
//! so that it links once.

#![expect(clippy::unwrap_used, reason = "the readers of the cases are tests too, though not marked as such")]

mod blocks;
mod cases;
mod ends;
mod footprints;
mod given;
mod overhang;
mod properties;
#[path = "../cases/reader.rs"]
mod reader;
mod resting;
mod two_heights;
mod weighings;
