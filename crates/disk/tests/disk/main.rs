//! Files on the disk: what was shown as taken or saved is there, whatever happens to the process, the
//! disk or the file.

mod begun;
mod full;
mod given;
mod kills;
mod lost;
mod outputs;
mod together;
mod written;
