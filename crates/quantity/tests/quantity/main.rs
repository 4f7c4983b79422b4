//! What is typed, what is written, what is shown, and how frames are turned.

mod exact;
mod frames;
mod near;
mod showing;
mod stable;
mod typing;
