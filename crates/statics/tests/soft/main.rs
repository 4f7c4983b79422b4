//! Stacks of pieces that give against textbook formulas, worked cases, the rigid answers and properties.
//! One program, so that it links once.

#![expect(clippy::unwrap_used, reason = "the readers of the cases are tests too, though not marked as such")]

mod blocks;
mod blows;
mod cases;
mod columns;
mod ends;
mod given;
mod properties;
#[expect(dead_code, reason = "the list of rigid stacks is for the other programs")]
#[path = "../cases/reader.rs"]
mod reader;
mod routes;
mod stiff;
mod times;
