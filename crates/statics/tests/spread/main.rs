//! Uncertainty: first order against the worked case, drawing against first order, and properties of
//! the draws. One program, so that it links once.

#![expect(clippy::unwrap_used, reason = "the readers of the cases are tests too, though not marked as such")]

mod cases;
mod chances;
mod draws;
mod given;
mod margins;
mod properties;
