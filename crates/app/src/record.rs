//! `loadcairn record`: the record of a test day from its log.

use crate::failure::Failure;
use std::path::Path;
use std::process::ExitCode;
use testday::Account;

pub(crate) fn run(file: &Path, output: &Path) -> Result<ExitCode, Failure> {
    let ends_in = |ending: &str| output.extension().is_some_and(|e| e.eq_ignore_ascii_case(ending));
    if !ends_in("pdf") && !ends_in("csv") {
        return Err(Failure::RecordFormat { file: output.to_owned() });
    }
    let unusable = |why: String| Failure::Log { file: file.to_owned(), why };
    let log = editor::journal::read(file).map_err(|trouble| unusable(trouble.to_string()))?;
    let account = Account::of(&log).map_err(|refused| unusable(refused.to_string()))?;
    let bytes = if ends_in("pdf") {
        drafting::record::pdf(&log, &account)?
    } else {
        drafting::record::csv(&log, &account).into_bytes()
    };
    editor::disk::write_whole(output, &bytes).map_err(|source| Failure::Write { file: output.to_owned(), source })?;
    Ok(ExitCode::SUCCESS)
}
