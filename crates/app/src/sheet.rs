//! `loadcairn sheet`: the stacking sheet of a plan.

use crate::failure::Failure;
use assess::Reach;
use drafting::sheet::Format;
use std::path::Path;
use std::process::ExitCode;

pub(crate) fn run(file: &Path, output: &Path) -> Result<ExitCode, Failure> {
    let ending = output.extension().and_then(|ending| ending.to_str()).unwrap_or_default();
    let Some(format) = Format::of_ending(ending) else {
        return Err(Failure::Format { file: output.to_owned() });
    };
    let plan = crate::read_plan(file)?;
    let assessment = assess::assess(&plan, Reach::Full);
    let bytes = format.write(&plan, &assessment)?;
    editor::disk::write_whole(output, &bytes).map_err(|source| Failure::Write { file: output.to_owned(), source })?;
    Ok(ExitCode::SUCCESS)
}
