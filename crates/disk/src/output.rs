//! Where an output may go: its name ends as its kind does, it is none of the files that were read, it is
//! no log, and it replaces nothing unless that is wanted.

use crate::place::{behind_links, folder_of, same_file};
use crate::whole::is_log;
use crate::{Unwritten, write_new, write_whole};
use std::path::{Path, PathBuf};

/// The name of a page's own file: `sheet-02.svg` for the second page of `sheet.svg`.
pub fn paged(path: &Path, page: usize) -> PathBuf {
    let mut name = path.file_stem().unwrap_or_default().to_owned();
    name.push(format!("-{page:02}"));
    let mut paged = path.with_file_name(name);
    if let Some(ending) = path.extension() {
        // What a stem has of dots stays: the ending is put behind it, not in its place.
        let mut whole = paged.into_os_string();
        whole.push(".");
        whole.push(ending);
        paged = whole.into();
    }
    paged
}

/// A file that is going to be written.
#[derive(Clone, Copy, Debug)]
pub struct Output<'a> {
    /// Where.
    pub path: &'a Path,
    /// What its name may end in; nothing where any ending does.
    pub endings: &'a [&'a str],
    /// What was read for it.
    pub inputs: &'a [&'a Path],
}

/// Why an output may not go there, in words that say what would fit.
#[derive(Debug, thiserror::Error)]
pub enum Refusal {
    /// Its name ends otherwise.
    #[error("the name must end in .{}", due.join(" or ."))]
    Ending {
        /// What fits.
        due: Vec<String>,
    },
    /// It was read for this.
    #[error("this is the file that is read; take another name for what is written")]
    Input,
    /// Something is there that may be replaced, if that is wanted.
    #[error("there is a file of this name already")]
    Exists,
    /// It cannot be written there.
    #[error("{0}")]
    Unwritten(#[from] Unwritten),
}

impl Output<'_> {
    /// Whether it may be written; asked before the work that it takes.
    ///
    /// # Errors
    /// What stands in the way; [`Refusal::Exists`] is the only one that somebody may wave through.
    pub fn admit(&self) -> Result<(), Refusal> {
        let ends = |ending: &&&str| self.path.extension().is_some_and(|e| e.eq_ignore_ascii_case(ending));
        if !self.endings.is_empty() && !self.endings.iter().any(|ending| ends(&ending)) {
            return Err(Refusal::Ending { due: self.endings.iter().map(|ending| (*ending).to_owned()).collect() });
        }
        if self.inputs.iter().any(|input| same_file(input, self.path)) {
            return Err(Refusal::Input);
        }
        let target = behind_links(self.path).map_err(Unwritten::from)?;
        if is_log(&target) {
            return Err(Unwritten::Log.into());
        }
        if !folder_of(&target).is_dir() {
            return Err(Unwritten::NoFolder.into());
        }
        match crate::place::old(&target)? {
            Some(_) => Err(Refusal::Exists),
            None => Ok(()),
        }
    }

    /// Writes it, over what is there only where that is wanted.
    ///
    /// # Errors
    /// As [`Output::admit`]; what was there is then as it was.
    pub fn write(&self, bytes: &[u8], replace: bool) -> Result<(), Refusal> {
        match self.admit() {
            Err(Refusal::Exists) if replace => Ok(write_whole(self.path, bytes)?),
            Err(refusal) => Err(refusal),
            // A link that leads to nothing yet is written through.
            Ok(()) if self.path.is_symlink() => Ok(write_whole(self.path, bytes)?),
            Ok(()) => match write_new(self.path, bytes) {
                Err(Unwritten::Exists) if !replace => Err(Refusal::Exists),
                Err(Unwritten::Exists) => Ok(write_whole(self.path, bytes)?),
                written => Ok(written?),
            },
        }
    }
}
