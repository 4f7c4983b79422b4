//! The whole record, page by page.

use super::{annex, front, holds, identity, inspection, instruments, loading, setup};
use crate::page::{Book, Page, Paper};
use crate::pdf::{self, PdfError};
use crate::sheet::furniture::{self, Imprint};
use testday::{Account, Answer, Log};

/// The pages of the record on a paper.
pub fn pages(log: &Log, account: &Account, paper: Paper) -> Vec<Page> {
    let mut book = Book::new(paper, furniture::MARGINS_MM);
    front::set(&mut book, log, account);
    identity::set(&mut book, account);
    setup::set(&mut book, log, account);
    instruments::set(&mut book, account);
    loading::on(&mut book, log, account);
    holds::set(&mut book, account);
    loading::off(&mut book, account);
    inspection::set(&mut book, account);
    annex::set(&mut book, log, account);
    furniture::furnish(book.finish(), &imprint(log, account))
}

/// The record as PDF, on the paper that goes with the plan's units. The same log gives the same bytes.
///
/// # Errors
/// What the PDF writer says.
pub fn pdf(log: &Log, account: &Account) -> Result<Vec<u8>, PdfError> {
    let plan = &account.day.plan;
    pdf::write(&pages(log, account, Paper::usual(plan.units)), &format!("Test record: {}", plan.title))
}

fn imprint(log: &Log, account: &Account) -> Imprint {
    let ultimate = match account.verdict.ultimate {
        Answer::Yes(_) => None,
        Answer::Beside(_) => Some("ULTIMATE LOAD HELD, BUT NOT AS PLANNED, see the verdict"),
        Answer::No(_) | Answer::NotShown(_) => Some("ULTIMATE LOAD NOT SHOWN, see the verdict"),
    };
    let day = &account.day;
    Imprint {
        document: "Test record",
        title: day.plan.title.clone(),
        fingerprints: vec![format!("plan {}", day.fingerprint), format!("log {}", log.fingerprint())],
        warning: match &day.ended {
            None => Some("NOT CLOSED: the day was not ended in this log".to_owned()),
            Some(_) => ultimate.map(str::to_owned),
        },
    }
}
