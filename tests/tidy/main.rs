//! The house rules that a machine can watch: which way dependencies point, between crates and inside
//! `assess`; what a crate forbids itself; where things lie; which sources are named; and what no committed file
//! may name.

mod arrows;
mod files;
mod licences;
mod places;
mod promises;
mod sources;
mod strata;
