//! Files on the disk: what was shown as taken or saved is there, whatever happens to the process, the
//! disk or the file.

mod begun;
mod given;
mod kills;
mod lost;
mod outputs;
mod written;
