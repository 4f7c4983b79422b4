//! SVG: pages of the sheet as a document, and the one writer of elements, for pages and for the
//! picture of the window alike.

mod pages;
mod writer;

pub use pages::write;
pub use writer::{Dress, Frame, Sheet, Svg, Words};
