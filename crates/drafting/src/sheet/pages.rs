//! The whole sheet, page by page.

use super::known::{Known, Places, Section};
use super::steps::csv;
use super::{closing, emergency, front, furniture, instruments, layer, level, lots, rig, unloading, verdicts};
use crate::page::{Book, Page, Paper};
use crate::pdf::{self, PdfError};
use crate::svg as drawing;
use assess::Assessment;
use plan::Plan;

/// The pages of the stacking sheet on a paper.
pub fn pages(plan: &Plan, assessment: &Assessment, paper: Paper) -> Vec<Page> {
    let mut known = Known::of(plan, assessment);
    // Pages tell of each other: once to find out where they are, without drawings, and once more in full.
    known.places = Some(composed(&known, paper).1);
    furniture::furnished(composed(&known, paper).0, plan, assessment)
}

/// All pages, and which parts of the sheet lie where.
fn composed(known: &Known, paper: Paper) -> (Vec<Page>, Places) {
    let (plan, assessment) = (known.plan, known.assessment);
    let mut book = Book::new(paper, furniture::MARGINS_MM);
    let mut places = Places::default();
    front::set(&mut book, known);
    let mut part = |book: &mut Book, section: Section, set: &dyn Fn(&mut Book)| {
        let (page, heads) = (book.page_number(), book.heads_on(book.page_number()));
        set(book);
        // A part may begin under the one before it.
        let first = if book.heads_on(page) > heads { page } else { page + 1 };
        places.note(section, [first, book.page_number()]);
    };
    part(&mut book, Section::Prepare, &|book| {
        let are_marks_told = rig::set(book, known);
        level::set(book, known, are_marks_told);
        instruments::set(book, known);
    });
    part(&mut book, Section::Ballast, &|book| lots::set(book, plan, assessment));
    part(&mut book, Section::Layers, &|book| {
        (1..=known.top_layer()).for_each(|number| layer::set(book, known, number))
    });
    part(&mut book, Section::Unloading, &|book| unloading::set(book, known));
    part(&mut book, Section::Emergency, &|book| emergency::set(book));
    part(&mut book, Section::Afterwards, &|book| closing::set(book, known));
    part(&mut book, Section::Engineer, &|book| verdicts::set(book, known));
    (book.finish(), places)
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
    /// Drawings, one a page.
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

    /// Some pages of the sheet, from one to another, counted from 1; they keep their numbers. The steps alone have no
    /// pages and are written whole.
    ///
    /// # Errors
    /// What the PDF writer says.
    pub fn write_pages(
        self,
        plan: &Plan,
        assessment: &Assessment,
        [from, to]: [usize; 2],
    ) -> Result<Vec<SheetFile>, PdfError> {
        let pages = || pages(plan, assessment, Paper::usual(plan.units)).into_iter().enumerate();
        let wanted = |(index, _): &(usize, Page)| (from..=to).contains(&(index + 1));
        match self {
            Format::Csv => self.write(plan, assessment),
            Format::Pdf => {
                let pages: Vec<Page> = pages().filter(wanted).map(|(_, page)| page).collect();
                Ok(vec![SheetFile { page: None, bytes: pdf::write(&pages, &plan.title)? }])
            }
            Format::Svg => {
                let file = |(index, page)| {
                    let bytes = drawing::write(std::slice::from_ref(&page)).into_bytes();
                    SheetFile { page: Some(index + 1), bytes }
                };
                Ok(pages().filter(wanted).map(file).collect())
            }
        }
    }

    /// The sheet as the bytes of its files: one, or one a page where a format has no pages.
    ///
    /// # Errors
    /// What the PDF writer says.
    pub fn write(self, plan: &Plan, assessment: &Assessment) -> Result<Vec<SheetFile>, PdfError> {
        let whole = |bytes| vec![SheetFile { page: None, bytes }];
        match self {
            Format::Pdf => pdf(plan, assessment).map(whole),
            Format::Csv => Ok(whole(csv(plan, assessment).into_bytes())),
            Format::Svg => {
                let paged =
                    |(index, text): (usize, String)| SheetFile { page: Some(index + 1), bytes: text.into_bytes() };
                Ok(svg(plan, assessment).into_iter().enumerate().map(paged).collect())
            }
        }
    }
}

/// A file of the sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetFile {
    /// Which page it is, from 1, where each page has a file of its own.
    pub page: Option<usize>,
    /// What is written.
    pub bytes: Vec<u8>,
}

/// The stacking sheet as SVG documents, one a page, on the paper that goes with the plan's units.
pub fn svg(plan: &Plan, assessment: &Assessment) -> Vec<String> {
    let pages = pages(plan, assessment, Paper::usual(plan.units));
    pages.iter().map(|page| drawing::write(std::slice::from_ref(page))).collect()
}
