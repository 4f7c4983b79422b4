//! The Test day page, by the names that the user reads.

mod begin;
mod day;
mod deviations;
mod entries;
mod holds;
mod stops;
mod unloading;
