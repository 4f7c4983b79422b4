//! If something goes wrong: who calls, in what order, what nobody does; and all cautions in full.

use crate::cautions::CAUTIONS;
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::heading;

/// `common practice, no source`. None of these leads anybody to a loaded article.
const ORDER: [(&str, &str); 7] = [
    ("STOP", "Whoever sees it shouts STOP. Nobody asks why."),
    ("OUT", "Everybody goes out of the fall zone at once, hands empty, the way they came."),
    ("NEVER", "Never reach in, never catch or steady, never go under or beside the load, not even for somebody."),
    ("COUNT", "The one in charge counts the people and keeps everybody out."),
    (
        "CALL",
        "Somebody hurt: the one who watches calls the number below, says where, how many, and whether a load hangs or lies on somebody.",
    ),
    (
        "HELP",
        "First aid only for those who are clear of the load. Where somebody is caught, the rescue service decides how.",
    ),
    (
        "LEAVE",
        "Leave load, scales and straps as they are. Write the time, take pictures from where you stand, then read no more.",
    ),
];

const STEP: Style = Style { size_pt: 13.0, ..Style::STRONG };

pub(super) fn set(book: &mut Book) {
    book.section_on("Emergency", "Hang this page where everybody sees it; fill it in before the first piece");
    let columns = vec![Column::fixed("", 8.0, Align::Right), Column::fixed("", 24.0, Align::Left), Column::wide("")];
    let row = |(index, (word, what)): (usize, (&str, &str))| {
        vec![Cell::Text((index + 1).to_string(), STEP), Cell::Text(word.to_owned(), STEP), Cell::text(what)]
    };
    let rows = ORDER.into_iter().enumerate().map(row).collect();
    Table { columns, rows, row_mm: 11.0 }.set_bare(book);
    heading(book, "Who is called", 40.0);
    numbers().set(book);
    heading(book, "Cautions", 60.0);
    for caution in CAUTIONS {
        book.paragraph(Style::BODY, &format!("– {caution}"));
    }
}

fn numbers() -> Table {
    let columns = vec![Column::fixed("who", 56.0, Align::Left), Column::wide("number"), Column::wide("name, or where")];
    let row = |who: &str| vec![Cell::strong(who), Cell::Write(String::new()), Cell::Write(String::new())];
    let rows = ["rescue service", "first aider on the spot", "this place: address, which door", "owner of the hangar"];
    Table { columns, rows: rows.map(row).to_vec(), row_mm: 10.0 }
}
