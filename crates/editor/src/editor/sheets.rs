//! The sheet to a file and to the printer.

use super::window::Editor;
use crate::printing::{Printed, Printing};
use drafting::sheet::{Format, SheetFile};
use eframe::egui::Context;
use std::path::Path;

impl Editor {
    /// The whole sheet, or the pages from one to another, counted from 1.
    pub(super) fn save_sheet_to(&mut self, path: &Path, pages: Option<[usize; 2]>) {
        let ending = path.extension().and_then(|ending| ending.to_str()).unwrap_or_default();
        // The ending was looked at when the path was taken.
        let format = Format::of_ending(ending).unwrap_or(Format::Pdf);
        let written = self.sheet_as(format, pages);
        let written = written.and_then(|files| files.iter().try_for_each(|file| write_sheet(path, file)));
        match written {
            Ok(()) if pages.is_some() => self.messages.done(format!("Pages saved as {}", path.display())),
            Ok(()) => {
                self.printed = Some(self.document.plan().clone());
                self.messages.done(format!("Sheet saved as {}", path.display()));
            }
            Err(why) => self.messages.trouble(format!("{}: {why}", path.display())),
        }
    }

    /// The files of the sheet, or of some of its pages, as the plan stands.
    fn sheet_as(&self, format: Format, pages: Option<[usize; 2]>) -> Result<Vec<SheetFile>, String> {
        let plan = self.document.plan();
        // Solving here would freeze the window: the sheet is made from what was solved beside it.
        let solved = self.shown.assessment.exact.is_some() && self.shown.plan == *plan;
        if !solved && self.worker.is_some() {
            return Err("the checks are still being solved: ask for the sheet when they are done".to_owned());
        }
        let alone = (!solved).then(|| assess::assess(plan, assess::Ask::full()));
        let assessment = alone.as_ref().unwrap_or(&self.shown.assessment);
        let written = match pages {
            None => format.write(plan, assessment),
            Some(pages) => format.write_pages(plan, assessment, pages),
        };
        written.map_err(|e| e.to_string())
    }

    /// The whole sheet to the printer, or the pages from one to another, counted from 1.
    pub(super) fn print_sheet(&mut self, ctx: &Context, pages: Option<[usize; 2]>) {
        match self.sheet_as(Format::Pdf, pages) {
            Ok(files) => {
                let pdf = files.into_iter().flat_map(|file| file.bytes).collect();
                let title = format!("{} - sheet", self.document.name());
                let printing = Printing::begin(&*self.printer, &title, pdf, ctx);
                let whole = pages.is_none().then(|| self.document.plan().clone());
                self.printing = Some((printing, whole));
            }
            Err(why) => self.messages.trouble(format!("The sheet is not printed: {why}")),
        }
    }

    /// Says what became of the sheet that was sent to the printer.
    pub(super) fn follow_printing(&mut self) {
        let Some(ended) = self.printing.as_ref().and_then(|(printing, _)| printing.ended()) else { return };
        let whole = self.printing.take().and_then(|(_, plan)| plan);
        if let (Ok(_), Some(plan)) = (&ended, whole) {
            self.printed = Some(plan);
        }
        match ended {
            Ok(Printed::Sent(said)) if said.is_empty() => self.messages.done("The sheet went to the printer"),
            Ok(Printed::Sent(said)) => self.messages.done(format!("The sheet went to the printer: {said}")),
            Ok(Printed::Opened) => {
                self.messages.done("No printer takes it: the sheet is open in the PDF viewer, print it from there");
            }
            Err(why) => self.messages.trouble(format!("The sheet is not printed: {why}")),
        }
    }
}

/// Writes a file of the sheet. The name of the whole was asked for; a page's own name was not, and replaces nothing.
fn write_sheet(path: &Path, file: &SheetFile) -> Result<(), String> {
    let Some(page) = file.page else { return disk::write_whole(path, &file.bytes).map_err(|e| e.to_string()) };
    let page = disk::paged(path, page);
    let output = disk::Output { path: &page, endings: &[], inputs: &[] };
    output.write(&file.bytes, false).map_err(|why| format!("{}: {why}", page.display()))
}
