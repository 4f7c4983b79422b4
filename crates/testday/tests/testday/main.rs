//! The test day: log, fold, ledger, holds, causes; simulated days with a known fault.

mod bench;
mod causes;
mod course;
mod day;
mod detail;
mod drawn;
mod edges;
mod extra;
mod gauges;
mod hold;
mod lean;
mod ledger;
mod log;
mod near;
mod random;
mod stops;
mod tare;
mod verdict;
