//! `loadcairn sheet`: the stacking sheet of a plan.

use crate::failure::Failure;
use assess::Reach;
use std::path::Path;
use std::process::ExitCode;

pub(crate) fn run(file: &Path, output: &Path) -> Result<ExitCode, Failure> {
    let ends_in_pdf = output.extension().is_some_and(|e| e.eq_ignore_ascii_case("pdf"));
    if !ends_in_pdf {
        return Err(Failure::Format { file: output.to_owned() });
    }
    let plan = crate::read_plan(file)?;
    let assessment = assess::assess(&plan, Reach::Full);
    let bytes = drafting::sheet::pdf(&plan, &assessment)?;
    editor::disk::write_whole(output, &bytes).map_err(|source| Failure::Write { file: output.to_owned(), source })?;
    Ok(ExitCode::SUCCESS)
}
