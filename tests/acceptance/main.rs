//! Published numbers, held against the program's own crates.
//!
//! The numbers are data (`cases/*.ron`): source, place, inputs as printed, answers as printed.
//! An answer may differ by half of its last printed digit, unless a reason for more stands beside
//! it. A recalled answer (`Memory`) never decides: there the program is held against the same
//! arithmetic in whole numbers, by another route, and the recalled figure is only told.

#![expect(clippy::print_stdout, reason = "a run with --nocapture lists every figure with its source")]

mod figure;
mod figures;
mod ledger;
mod load_cases;
mod rules;
mod units;
mod weighing;
