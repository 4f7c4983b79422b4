//! The Test day page, by the names that the user reads.

mod about;
mod at_once;
mod begin;
pub(crate) mod day;
mod details;
mod deviations;
mod entries;
mod holds;
mod stop_key;
mod stops;
mod strap;
mod unloading;
