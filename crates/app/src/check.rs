//! `loadcairn check`: the whole assessment, as lines for people or as JSON.

use crate::failure::Failure;
use crate::terminal::{self, Progress, plain};
use assess::Assessment;
use drafting::cautions::{CAUTION_LINE, CAUTIONS};
use plan::Plan;
use std::path::Path;
use std::process::ExitCode;

pub(crate) fn run((file, remedies): (&Path, bool), json: bool, progress: &Progress) -> Result<ExitCode, Failure> {
    let plan = crate::read_plan(file)?;
    let assessment = crate::assessed(&plan, remedies, progress);
    if json {
        terminal::say(&terminal::plain_json(&assess::report(&plan, &assessment)))?;
    } else {
        terminal::say(&lines(&plan, &assessment))?;
    }
    Ok(if assessment.in_order() { ExitCode::SUCCESS } else { ExitCode::from(1) })
}

/// The findings as lines, worst first, and the line that closes them.
pub(crate) fn lines(plan: &Plan, assessment: &Assessment) -> String {
    let mut text = format!("{} · plan {}\n\n", plain(&plan.title), plan::file::fingerprint(plan));
    for (index, finding) in assessment.findings.iter().enumerate() {
        let explained = plain(&assessment.explained(index));
        text += &format!("{:<14}  {:<20}  {explained}\n", finding.word(), finding.check.heading());
    }
    text += &format!("\n{}\n", assessment.tally().closing());
    text += "Where friction is needed reserves are upper bounds.\n";
    text + &closing()
}

/// What stands under every list of findings.
pub(crate) fn closing() -> String {
    let [.., decides] = CAUTIONS;
    format!("{CAUTION_LINE}\n{decides}\n")
}
