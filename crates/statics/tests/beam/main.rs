//! Beams and timber against published formulas, worked cases, a second route and properties. One
//! program, so that it links once.

#![expect(clippy::unwrap_used, reason = "the ways to state a problem are tests too, though not marked as such")]

mod across;
mod cases;
mod elements;
mod ends;
mod formulas;
mod grades;
mod pressed;
mod properties;
mod stated;
mod timber_checks;
