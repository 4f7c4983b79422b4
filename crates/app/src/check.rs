//! `loadcairn check`: the whole assessment, as lines for people or as JSON.

use crate::failure::Failure;
use assess::{Assessment, Reach};
use plan::Plan;
use std::path::Path;
use std::process::ExitCode;

pub(crate) fn run(file: &Path, json: bool) -> Result<ExitCode, Failure> {
    let plan = crate::read_plan(file)?;
    let assessment = assess::assess(&plan, Reach::Full);
    if json {
        print(&assess::report(&plan, &assessment))
    } else {
        print(&lines(&plan, &assessment))
    }
    Ok(if assessment.holds() { ExitCode::SUCCESS } else { ExitCode::from(1) })
}

#[expect(clippy::print_stdout, reason = "what the command is for")]
pub(crate) fn print(text: &str) {
    print!("{text}");
}

/// How many hold only nearly, so that nobody overlooks them.
fn near(assessment: &Assessment) -> String {
    match assessment.findings.iter().filter(|f| f.state == assess::State::Near).count() {
        0 => String::new(),
        1 => ", 1 of them nearly: look at it".to_owned(),
        many => format!(", {many} of them nearly: look at them"),
    }
}

/// How many were held against nothing, since nobody gave a limit for them.
fn not_judged(assessment: &Assessment) -> String {
    match assessment.findings.iter().filter(|f| !f.is_judged()).count() {
        0 => String::new(),
        1 => "; 1 figure was not judged, for no limit is given".to_owned(),
        many => format!("; {many} figures were not judged, for no limits are given"),
    }
}

/// The findings as lines, worst first, and the verdict.
pub(crate) fn lines(plan: &Plan, assessment: &Assessment) -> String {
    let mut text = format!("{} · plan {}\n\n", plan.title, plan::file::fingerprint(plan));
    for (index, finding) in assessment.findings.iter().enumerate() {
        let explained = assessment.explained(index);
        text += &format!("{:<11}  {:<20}  {explained}\n", finding.word(), finding.check);
    }
    let short = assessment.findings.iter().filter(|f| !f.state.is_in_order()).count();
    text += &match short {
        0 => format!(
            "\nEvery check holds{}{}. Where friction is needed, reserves are upper bounds of the true ones.\n",
            near(assessment),
            not_judged(assessment)
        ),
        1 => "\n1 check falls short.\n".to_owned(),
        many => format!("\n{many} checks fall short.\n"),
    };
    text += "An aid, not an approval: local rules and a licensed engineer or inspector decide.\n";
    text
}
