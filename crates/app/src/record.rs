//! `loadcairn record`: the record of a test day from its log.

use crate::failure::Failure;
use crate::target::Target;
use std::path::Path;
use std::process::ExitCode;
use testday::Account;

/// What the name of a record ends in.
const ENDINGS: [&str; 2] = ["pdf", "csv"];

pub(crate) fn run(file: &Path, target: &Target) -> Result<ExitCode, Failure> {
    target.admit(&ENDINGS, file)?;
    let unusable = |why: String| Failure::Log { file: file.to_owned(), why };
    let log = disk::journal::read(file).map_err(|trouble| unusable(trouble.to_string()))?;
    let account = Account::of(&log).map_err(|refused| unusable(refused.to_string()))?;
    let bytes = if target.path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("pdf")) {
        drafting::record::pdf(&log, &account)?
    } else {
        drafting::record::csv(&log, &account).into_bytes()
    };
    target.write(&ENDINGS, file, &bytes)?;
    Ok(ExitCode::SUCCESS)
}
