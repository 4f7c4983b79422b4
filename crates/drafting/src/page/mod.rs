//! Pages of paper: sizes, running text, tables that split, figures in a frame.

mod book;
mod paper;
mod table;

pub use book::{Book, Style};
pub(crate) use book::{CORNER_MM, line};
pub use paper::{MM_PER_PT, Page, Paper, Part, Role};
pub use table::{Cell, Column, Table};
