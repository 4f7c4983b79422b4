//! What the user can have done, stated once: menu, keys, hints and help read the same table.

mod command;
mod keys;
mod row;
mod table;

pub(crate) use command::Command;
pub(crate) use row::{Part, Stated};
pub(crate) use table::{InHand, Known, OnFixture, OnStack, OnWindow, Tracing};
