//! The equilibrium of whole stacks against published stacks, worked cases, a second solver and
//! properties. One program, so that it links once.

#![expect(clippy::unwrap_used, reason = "the readers of the cases are tests too, though not marked as such")]

mod blocks;
mod cases;
mod given;
mod overhang;
mod properties;
#[path = "../cases/reader.rs"]
mod reader;
mod second_solver;
mod shares;
mod simplex;
mod spanned;
mod split;
mod straps;
mod tall;
mod tilts;
mod trouble;
mod webs;
