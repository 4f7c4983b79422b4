//! `loadcairn sheet`: the stacking sheet of a plan.

use crate::failure::Failure;
use crate::target::Target;
use crate::terminal::Progress;
use drafting::sheet::Format;
use std::path::Path;
use std::process::ExitCode;

pub(crate) fn run(file: &Path, target: &Target, progress: &Progress) -> Result<ExitCode, Failure> {
    target.admit(&Format::ENDINGS, file)?;
    let ending = target.path.extension().and_then(|ending| ending.to_str()).unwrap_or_default();
    // The ending was looked at just now.
    let format = Format::of_ending(ending).unwrap_or(Format::Pdf);
    let plan = crate::read_plan(file)?;
    let assessment = crate::assessed(&plan, false, progress);
    for sheet in format.write(&plan, &assessment)? {
        let paged = sheet.page.map(|page| disk::paged(target.path, page));
        let target = Target { path: paged.as_deref().unwrap_or(target.path), force: target.force };
        target.write(&Format::ENDINGS, file, &sheet.bytes)?;
    }
    Ok(ExitCode::SUCCESS)
}
