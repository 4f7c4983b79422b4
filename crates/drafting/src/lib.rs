//! Figures as plain data, and the sheet that is printed from them.
//!
//! In: a plan and its assessment. Out: figures (side, front, above) that the window's canvas
//! paints and the sheet prints, so that they cannot disagree; the same turned, as shaded solids; the stacking sheet as PDF or SVG.
//! This crate must never work out mechanics, open files or read the clock: what it prints, it
//! was given. Start reading at [`figure`], then [`views`], then [`sheet`].

pub mod cautions;
mod cell;
pub mod chart;
pub mod figure;
pub mod lower;
pub mod margin;
pub mod page;
pub mod palette;
pub mod pdf;
pub mod record;
pub mod sheet;
pub mod solids;
pub mod svg;
pub mod text;
pub mod turned;
pub mod views;
mod words;
