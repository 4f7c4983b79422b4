//! `loadcairn completions` and `loadcairn manual`: what the command line's own definition tells to shells and to `man`.

use crate::failure::Failure;
use crate::terminal;
use clap::CommandFactory;
use clap_complete::Shell;
use std::path::Path;
use std::process::ExitCode;

/// The manual page, section 1; with a folder that one and a page for each subcommand, as files there.
pub(crate) fn manual<Line: CommandFactory>(folder: Option<&Path>) -> Result<ExitCode, Failure> {
    if let Some(folder) = folder {
        let written = clap_mangen::generate_to(Line::command(), folder);
        written.map_err(|source| Failure::Manual { folder: folder.to_owned(), source })?;
        return Ok(ExitCode::SUCCESS);
    }
    let mut page = Vec::new();
    clap_mangen::Man::new(Line::command()).render(&mut page).map_err(|source| Failure::Output { source })?;
    tell(&page)
}

/// What a shell completes.
pub(crate) fn completions<Line: CommandFactory>(shell: Shell) -> Result<ExitCode, Failure> {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Line::command(), "loadcairn", &mut script);
    tell(&script)
}

fn tell(bytes: &[u8]) -> Result<ExitCode, Failure> {
    terminal::say(&String::from_utf8_lossy(bytes))?;
    Ok(ExitCode::SUCCESS)
}
