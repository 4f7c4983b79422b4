//! A boxed order between the steps: a hold or a strap, with boxes for what is read there.

use crate::figure::{Align, Weight};
use crate::page::{Book, Role, Style};
use crate::text;

/// A boxed order.
#[derive(Default)]
pub(super) struct Panel {
    /// What is to be done.
    pub(super) title: String,
    /// What else everybody does, at the right of it.
    pub(super) aside: &'static str,
    /// What must be known for it.
    pub(super) lines: Vec<(Style, String)>,
    /// What is read.
    pub(super) fields: Vec<Field>,
    /// What comes then.
    pub(super) then: Option<String>,
}

/// Something that is read or signed.
pub(super) struct Field {
    pub(super) name: String,
    /// What is due there.
    pub(super) due: String,
    /// The unit of what is written; none where words or initials are.
    pub(super) unit: &'static str,
    /// Whether a tick is all.
    pub(super) tick: bool,
}

impl Field {
    /// A figure that is read.
    pub(super) fn read(name: impl Into<String>, due: impl Into<String>, unit: &'static str) -> Self {
        Self { name: name.into(), due: due.into(), unit, tick: false }
    }

    /// Initials, or words.
    pub(super) fn signed(name: impl Into<String>) -> Self {
        Self::read(name, "", "")
    }

    /// A box to tick.
    pub(super) fn ticked(name: impl Into<String>) -> Self {
        Self { tick: true, ..Self::read(name, "", "") }
    }
}

const TITLE: Style = Style { size_pt: 14.0, ..Style::STRONG };
const NAME: Style = Style { bold: true, ..Style::NOTE };
/// Width of the black edge, and the air inside, mm.
const EDGE_MM: f64 = 3.0;
const PAD_MM: f64 = 1.8;
/// Height of a box, mm.
const BOX_MM: f64 = 7.2;
/// How many fields stand side by side, and the air between them, mm.
const ABREAST: usize = 2;
const GAP_MM: f64 = 4.0;
/// Width of a box and of the unit behind it, mm.
const WRITE_MM: [f64; 2] = [21.0, 7.0];
/// Air between words and their box, mm.
const BEFORE_MM: f64 = 1.5;
/// Width of the words before a box for words, mm.
const WORD_MM: f64 = 24.0;
/// Air above and below the panel, mm.
const AROUND_MM: f64 = 1.4;

impl Panel {
    fn inner_mm(book: &Book) -> f64 {
        book.width_mm() - EDGE_MM - 2.0 * PAD_MM
    }

    fn field_mm(book: &Book) -> f64 {
        (Self::inner_mm(book) - GAP_MM * (ABREAST - 1) as f64) / ABREAST as f64
    }

    /// Width of the words beside the box of a field, mm.
    fn words_mm(book: &Book, field: &Field) -> f64 {
        match (field.tick, field.unit.is_empty()) {
            (true, _) => Self::field_mm(book) - BOX_MM,
            (_, true) => WORD_MM,
            _ => Self::field_mm(book) - WRITE_MM[0] - WRITE_MM[1],
        }
    }

    /// Whether name and what is due stand on one line.
    fn is_level(book: &Book, field: &Field) -> bool {
        NAME.width_mm(&field.name) + 2.0 + Style::NOTE.width_mm(&field.due) <= Self::words_mm(book, field) - BEFORE_MM
    }

    /// Height of a row of fields, mm.
    fn row_mm(book: &Book, row: &[Field]) -> f64 {
        let lines = |field: &Field| {
            let room = Self::words_mm(book, field) - BEFORE_MM;
            let count = |text: &str, style: Style| match text.is_empty() {
                true => 0,
                false => text::wrap(text, room, style.size_mm(), style.bold).len(),
            };
            if Self::is_level(book, field) { 1 } else { count(&field.name, NAME) + count(&field.due, Style::NOTE) }
        };
        let most = row.iter().map(lines).max().unwrap_or(0) as f64;
        (NAME.leading_mm() * most).max(BOX_MM) + 1.0
    }

    fn text_mm(book: &Book, (style, text): &(Style, String)) -> f64 {
        style.leading_mm() * text::wrap(text, Self::inner_mm(book), style.size_mm(), style.bold).len() as f64
    }

    /// Its height with the air around it, mm.
    pub(super) fn height_mm(&self, book: &Book) -> f64 {
        let rows: f64 = self.fields.chunks(ABREAST).map(|row| Self::row_mm(book, row)).sum();
        let lines: f64 = self.lines.iter().map(|line| Self::text_mm(book, line)).sum();
        let then = self.then.iter().map(|then| Self::text_mm(book, &(Style::STRONG, then.clone()))).sum::<f64>();
        self.title_mm(book) + lines + rows + then + 2.0 * PAD_MM + 2.0 * AROUND_MM
    }

    fn title_mm(&self, book: &Book) -> f64 {
        let room = Self::inner_mm(book) - Style::BODY.width_mm(self.aside) - GAP_MM;
        TITLE.leading_mm() * text::wrap(&self.title, room, TITLE.size_mm(), true).len() as f64
    }

    /// Sets it at the cursor; there must be room.
    pub(super) fn set(&self, book: &mut Book) {
        let height_mm = self.height_mm(book);
        let (left, right) = (book.left_mm(), book.right_mm());
        let (top, bottom) = (book.cursor_mm + AROUND_MM, book.cursor_mm + height_mm - AROUND_MM);
        book.frame([[left, top], [right, bottom]], Weight::Thick, false);
        book.frame([[left, top], [left + EDGE_MM, bottom]], Weight::Hair, true);
        let x = left + EDGE_MM + PAD_MM;
        let mut y = top + PAD_MM;
        book.text([right - PAD_MM, y + 0.74 * TITLE.leading_mm()], Align::Right, Style::BODY, self.aside);
        let room = Self::inner_mm(book) - Style::BODY.width_mm(self.aside) - GAP_MM;
        book.part(Role::Heading, |book| y = column(book, [x, y], room, (TITLE, &self.title)));
        for (style, line) in &self.lines {
            let room = Self::inner_mm(book);
            book.part(Role::Paragraph, |book| y = column(book, [x, y], room, (*style, line)));
        }
        for row in self.fields.chunks(ABREAST) {
            y = fields(book, [x, y], row);
        }
        if let Some(then) = &self.then {
            let room = Self::inner_mm(book);
            book.part(Role::Paragraph, |book| _ = column(book, [x, y], room, (Style::STRONG, then)));
        }
        book.cursor_mm += height_mm;
    }
}

/// Sets a text in lines of this width from its upper left corner; the height at which it ends.
fn column(book: &mut Book, [x, mut y]: [f64; 2], room: f64, (style, words): (Style, &str)) -> f64 {
    for line in text::wrap(words, room, style.size_mm(), style.bold) {
        book.text([x, y + 0.76 * style.leading_mm()], Align::Left, style, &line);
        y += style.leading_mm();
    }
    y
}

/// Sets a row of fields; the height at which it ends.
fn fields(book: &mut Book, [mut x, y]: [f64; 2], row: &[Field]) -> f64 {
    let height = Panel::row_mm(book, row);
    for field in row {
        let (width, words) = (Panel::field_mm(book), Panel::words_mm(book, field));
        book.part(Role::Paragraph, |book| {
            let below = column(book, [x, y], words - BEFORE_MM, (NAME, &field.name));
            let beside = x + NAME.width_mm(&field.name) + 2.0;
            let at = if Panel::is_level(book, field) { [beside, y] } else { [x, below] };
            if !field.due.is_empty() {
                column(book, at, words - BEFORE_MM, (Style::NOTE, &field.due));
            }
            boxed(book, [x + words, y + 0.4], (width - words, field));
        });
        x += width + GAP_MM;
    }
    y + height
}

fn boxed(book: &mut Book, [x, top]: [f64; 2], (width, field): (f64, &Field)) {
    if field.tick {
        book.frame([[x + 1.0, top + 1.0], [x + BOX_MM - 1.0, top + BOX_MM - 1.0]], Weight::Medium, false);
        return;
    }
    let unit_mm = if field.unit.is_empty() { 0.0 } else { WRITE_MM[1] };
    book.frame([[x, top], [x + width - unit_mm, top + BOX_MM]], Weight::Thin, false);
    book.text([x + width - unit_mm + 1.2, top + 0.66 * BOX_MM], Align::Left, Style::NOTE, field.unit);
}
