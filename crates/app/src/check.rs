//! `loadcairn check`: the whole assessment, as lines for people or as JSON.

use crate::failure::Failure;
use crate::terminal::{self, Progress, plain};
use assess::{Assessment, State};
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
        let found = if remedies { format!("\n{}\n", found(&assessment)) } else { String::new() };
        terminal::say(&format!("{}{found}", lines(&plan, &assessment)))?;
    }
    Ok(if assessment.in_order() { ExitCode::SUCCESS } else { ExitCode::from(1) })
}

/// What looking for remedies came to.
fn found(assessment: &Assessment) -> String {
    let asks = assessment.findings.iter().filter(|finding| finding.state >= State::Caution).count();
    let mended = (0..assessment.findings.len()).filter(|index| assessment.remedy(*index).is_some()).count();
    match (asks, mended) {
        (0, _) => "Remedies: no finding asks for one.".to_owned(),
        (_, 0) => "Remedies: moves of one piece or strap were tried on each finding; none mends one.".to_owned(),
        (_, 1) => "Remedies: one finding has a move that mends it; it stands in its line.".to_owned(),
        _ => format!("Remedies: {mended} findings have a move that mends them; it stands in their lines."),
    }
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
