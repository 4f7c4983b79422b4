//! Where a command writes to.

use crate::failure::Failure;
use disk::Output;
use std::path::Path;

/// A file that a command was told to write.
pub(crate) struct Target<'a> {
    /// Where.
    pub(crate) path: &'a Path,
    /// Whether it may replace a file.
    pub(crate) force: bool,
}

impl Target<'_> {
    /// Whether the command may write there; asked before the work. It never writes over what it reads.
    pub(crate) fn admit(&self, endings: &[&str], input: &Path) -> Result<(), Failure> {
        match (Output { path: self.path, endings, inputs: &[input] }).admit() {
            Err(disk::Refusal::Exists) if self.force => Ok(()),
            admitted => admitted.map_err(|why| self.refused(why)),
        }
    }

    pub(crate) fn write(&self, endings: &[&str], input: &Path, bytes: &[u8]) -> Result<(), Failure> {
        let output = Output { path: self.path, endings, inputs: &[input] };
        output.write(bytes, self.force).map_err(|why| self.refused(why))
    }

    fn refused(&self, why: disk::Refusal) -> Failure {
        match why {
            disk::Refusal::Exists => Failure::Exists { file: self.path.to_owned() },
            why => Failure::Refused { file: self.path.to_owned(), why },
        }
    }
}
