//! The whole sheet, page by page.

use super::{furniture, layer, summary};
use crate::page::{Book, Page, Paper};
use crate::pdf::{self, PdfError};
use assess::Assessment;
use plan::Plan;

/// The pages of the stacking sheet on a paper.
pub fn pages(plan: &Plan, assessment: &Assessment, paper: Paper) -> Vec<Page> {
    let mut book = Book::new(paper, furniture::MARGINS_MM);
    summary::set(&mut book, plan, assessment);
    let top = assessment.pile.layer.iter().copied().max().unwrap_or(0);
    for number in 1..=top {
        layer::set(&mut book, plan, assessment, number);
    }
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
