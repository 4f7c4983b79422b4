//! The whole sheet, page by page.

use super::readings::Due;
use super::steps::csv;
use super::{closing, furniture, hold, layer, lots, rig, title, unloading, verdicts};
use crate::page::{Book, Page, Paper};
use crate::pdf::{self, PdfError};
use crate::svg as drawing;
use assess::Assessment;
use plan::Plan;

/// The pages of the stacking sheet on a paper.
pub fn pages(plan: &Plan, assessment: &Assessment, paper: Paper) -> Vec<Page> {
    let mut book = Book::new(paper, furniture::MARGINS_MM);
    title::set(&mut book, plan, assessment);
    verdicts::set(&mut book, plan, assessment);
    // The ballast fills up the page of the checks, or the one that the fixture leaves half empty.
    let follows_checks = lots::fits(&book, plan, assessment);
    if follows_checks {
        lots::set(&mut book, plan, assessment);
    }
    rig::set(&mut book, plan, assessment);
    if !follows_checks {
        lots::set(&mut book, plan, assessment);
    }
    let top = assessment.closed.pile.layer.iter().copied().max().unwrap_or(0);
    let due = Due::of(plan, assessment);
    for number in 1..=top {
        layer::set(&mut book, plan, assessment, (&due, number));
    }
    hold::set(&mut book, plan, assessment, &due);
    unloading::set(&mut book, plan, assessment);
    closing::set(&mut book, plan, assessment);
    furniture::furnished(book.finish(), plan, assessment)
}

/// The stacking sheet as PDF, on the paper that goes with the plan's units. The same plan and
/// assessment give the same bytes.
///
/// # Errors
/// What the PDF writer says.
pub fn pdf(plan: &Plan, assessment: &Assessment) -> Result<Vec<u8>, PdfError> {
    pdf::write(&pages(plan, assessment, Paper::usual(plan.units)), &plan.title)
}

/// How the sheet is written to a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// Pages to print.
    Pdf,
    /// One long drawing, the pages beneath one another.
    Svg,
    /// The steps alone, for a spreadsheet.
    Csv,
}

impl Format {
    /// What a file name may end in.
    pub const ENDINGS: [&str; 3] = ["pdf", "svg", "csv"];

    /// The format that goes with a file name's ending, whatever its case.
    pub fn of_ending(ending: &str) -> Option<Self> {
        let formats = [Format::Pdf, Format::Svg, Format::Csv];
        Self::ENDINGS
            .iter()
            .zip(formats)
            .find(|(known, _)| ending.eq_ignore_ascii_case(known))
            .map(|(_, format)| format)
    }

    /// The sheet as the bytes of a file.
    ///
    /// # Errors
    /// What the PDF writer says.
    pub fn write(self, plan: &Plan, assessment: &Assessment) -> Result<Vec<u8>, PdfError> {
        match self {
            Format::Pdf => pdf(plan, assessment),
            Format::Svg => Ok(svg(plan, assessment).into_bytes()),
            Format::Csv => Ok(csv(plan, assessment).into_bytes()),
        }
    }
}

/// The stacking sheet as one long SVG document, its pages beneath one another, on the paper that goes
/// with the plan's units.
pub fn svg(plan: &Plan, assessment: &Assessment) -> String {
    drawing::write(&pages(plan, assessment, Paper::usual(plan.units)))
}
