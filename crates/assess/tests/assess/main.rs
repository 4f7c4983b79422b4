//! The whole way from a plan to findings and report, held against statics by hand, worked cases and
//! properties. One program, so that it links once.

#![expect(
    clippy::unwrap_used,
    reason = "the readers of plans, cases and reports are tests too, though not marked as such"
)]

mod basis;
mod bench;
mod bindings;
mod boards;
mod bond;
mod bounds;
mod certainty;
mod chances;
mod clear;
mod drawn;
mod expect;
mod fixture;
mod frames;
mod friction;
mod given;
mod handling;
mod holds;
mod lean;
mod load;
mod missing_numbers;
mod occupant;
mod offset;
mod on_the_way;
mod progress;
mod properties;
mod push_curve;
mod random;
mod recall;
mod remedies;
mod report;
mod reserve;
mod resting;
mod slips;
mod soft;
mod standing;
mod straps;
mod sunk;
mod test_day;
mod undecided;
mod unload;
mod weighing;
mod worked;
