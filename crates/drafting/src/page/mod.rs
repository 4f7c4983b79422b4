//! Pages of paper: sizes, running text, tables that split, figures in a frame.

mod book;
mod paper;
mod table;

pub(crate) use book::line;
pub use book::{Book, Style};
pub use paper::{MM_PER_PT, Page, Paper};
pub use table::{Cell, Column, Table};
