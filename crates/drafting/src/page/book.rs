//! Pages that fill from the top: a cursor, page breaks, heads that go on overleaf.

use super::paper::{MM_PER_PT, Page, Paper, Part, Role};
use crate::figure::{Align, Figure, Ink, Pen, Sign, Weight};
use crate::lower::{self, Primitive, Stroke, Viewport};
use crate::palette::Palette;
use crate::text;

/// How a text on paper is set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Style {
    /// Size of the type, points.
    pub size_pt: f64,
    /// Whether it is bold.
    pub bold: bool,
    /// Its colour.
    pub ink: Ink,
}

impl Style {
    /// Notes and captions.
    pub const SMALL: Self = Self { size_pt: 9.0, bold: false, ink: Ink::Quiet };
    /// Notes that count.
    pub const NOTE: Self = Self { size_pt: 9.0, bold: false, ink: Ink::Line };
    /// Running text and rows.
    pub const BODY: Self = Self { size_pt: 11.0, bold: false, ink: Ink::Line };
    /// Names of things, numbers that count.
    pub const STRONG: Self = Self { size_pt: 11.0, bold: true, ink: Ink::Line };
    /// Figures that are read at arm's length.
    pub const FIGURE: Self = Self { size_pt: 12.0, bold: true, ink: Ink::Line };
    /// The number of a step.
    pub const STEP: Self = Self { size_pt: 18.0, bold: true, ink: Ink::Line };
    /// Heads of pages.
    pub const HEAD: Self = Self { size_pt: 20.0, bold: true, ink: Ink::Line };

    /// The same in another colour.
    pub const fn ink(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }

    /// Size of the type, mm.
    pub fn size_mm(self) -> f64 {
        self.size_pt * MM_PER_PT
    }

    /// From one baseline to the next, mm.
    pub fn leading_mm(self) -> f64 {
        1.22 * self.size_mm()
    }

    /// The width of a text, mm.
    pub fn width_mm(self, text: &str) -> f64 {
        text::width(text, self.size_mm(), self.bold)
    }
}

/// Width of what is printed in the upper right corner of each page, mm.
pub(crate) const CORNER_MM: f64 = 62.0;

/// Pages in the making.
pub struct Book {
    paper: Paper,
    palette: Palette,
    pages: Vec<Page>,
    head: String,
    under: String,
    tables: usize,
    margins_mm: [f64; 4],
    /// Where the next thing goes, mm from the top of the page.
    pub cursor_mm: f64,
}

impl Book {
    /// An empty book. Margins: left, top, right, bottom, mm; header and footer lie outside them.
    pub fn new(paper: Paper, margins_mm: [f64; 4]) -> Self {
        let palette = Palette::print();
        Self {
            paper,
            palette,
            pages: Vec::new(),
            head: String::new(),
            under: String::new(),
            tables: 0,
            margins_mm,
            cursor_mm: 0.0,
        }
    }

    /// Starts a page with a head, which is repeated where what follows runs on overleaf.
    pub fn section(&mut self, head: &str) {
        self.section_on(head, "");
    }

    /// The same with a line under the head that says more of it.
    pub fn section_on(&mut self, head: &str, under: &str) {
        head.clone_into(&mut self.head);
        under.clone_into(&mut self.under);
        self.open_page(head, Role::Head(head.to_owned()));
    }

    /// Starts a section under what went before, where so much height (mm) is left for it; whether it was.
    pub fn begin_under(&mut self, head: &str, under: &str, least_mm: f64) -> bool {
        const AIR_MM: f64 = 5.0;
        const HEAD: Style = Style { size_pt: 16.0, ..Style::HEAD };
        if self.pages.is_empty() || self.cursor_mm + AIR_MM + HEAD.leading_mm() + least_mm > self.bottom_mm() {
            return false;
        }
        head.clone_into(&mut self.head);
        under.clone_into(&mut self.under);
        self.cursor_mm += AIR_MM;
        let width_mm = self.width_mm();
        self.part(Role::Head(head.to_owned()), |book| book.lines(HEAD, head, width_mm));
        if !under.is_empty() {
            self.part(Role::Paragraph, |book| book.lines(Style::BODY, under, width_mm));
        }
        self.cursor_mm += 1.2;
        let y = self.cursor_mm;
        self.rule([self.left_mm(), y], [self.right_mm(), y], Pen::solid(Ink::Line, Weight::Thick));
        self.cursor_mm += 1.4;
        true
    }

    /// What stands over the page where the section runs on, where that is not its own head.
    pub fn running_head(&mut self, head: &str) {
        head.clone_into(&mut self.head);
    }

    /// Starts the next page of the section.
    pub fn overleaf(&mut self) {
        let head = format!("{} · continued", self.head);
        self.open_page(&head, Role::RunningHead);
    }

    /// The number of the page in hand, from 1.
    pub fn page_number(&self) -> usize {
        self.pages.len()
    }

    /// How many heads stand on a page, by its number from 1.
    pub fn heads_on(&self, page: usize) -> usize {
        let parts = page.checked_sub(1).and_then(|index| self.pages.get(index)).map_or(&[][..], |page| &page.parts);
        parts.iter().filter(|part| matches!(part.role, Role::Head(_))).count()
    }

    /// Head and what stands under it keep clear of what is printed in the upper right corner.
    fn open_page(&mut self, head: &str, role: Role) {
        self.pages.push(self.paper.blank());
        self.cursor_mm = self.margins_mm[1];
        let room_mm = self.width_mm() - CORNER_MM;
        self.part(role, |book| book.lines(Style::HEAD, head, room_mm));
        if !self.under.is_empty() {
            let (under, width_mm) = (self.under.clone(), self.width_mm());
            self.part(Role::Paragraph, |book| book.lines(Style::BODY, &under, width_mm));
        }
        self.cursor_mm += 2.0;
        let y = self.cursor_mm;
        self.rule([self.left_mm(), y], [self.right_mm(), y], Pen::solid(Ink::Line, Weight::Thick));
        self.cursor_mm += 2.4;
    }

    /// Marks what is set meanwhile, on one page, as belonging together.
    pub fn part(&mut self, role: Role, set: impl FnOnce(&mut Self)) {
        let page = self.pages.len();
        let from = self.pages.last().map_or(0, |page| page.marks.len());
        set(self);
        let to = self.pages.last().map_or(0, |page| page.marks.len());
        let same_page = page == self.page_number();
        if let Some(last) = self.pages.last_mut().filter(|_| same_page && to > from) {
            last.parts.push(Part { role, marks: from..to });
        }
    }

    /// The number of a table that begins.
    pub(super) fn next_table(&mut self) -> usize {
        self.tables += 1;
        self.tables
    }

    /// Goes on overleaf unless so much height (mm) is left.
    pub fn keep_together(&mut self, height_mm: f64) {
        if self.pages.is_empty() || self.cursor_mm + height_mm > self.bottom_mm() {
            self.overleaf();
        }
    }

    /// Sets something between other edges, left and right, mm.
    pub(crate) fn within<T>(&mut self, [left, right]: [f64; 2], set: impl FnOnce(&mut Self) -> T) -> T {
        let margins_mm = self.margins_mm;
        (self.margins_mm[0], self.margins_mm[2]) = (left, self.paper.size_mm()[0] - right);
        let told = set(self);
        self.margins_mm = margins_mm;
        told
    }

    /// The left edge of the text, mm.
    pub fn left_mm(&self) -> f64 {
        self.margins_mm[0]
    }

    /// The right edge of the text, mm.
    pub fn right_mm(&self) -> f64 {
        self.paper.size_mm()[0] - self.margins_mm[2]
    }

    /// The width of the text, mm.
    pub fn width_mm(&self) -> f64 {
        self.right_mm() - self.left_mm()
    }

    /// The lower edge of the text, mm.
    pub fn bottom_mm(&self) -> f64 {
        self.paper.size_mm()[1] - self.margins_mm[3]
    }

    /// Sets a paragraph over the whole width.
    pub fn paragraph(&mut self, style: Style, text: &str) {
        let width_mm = self.width_mm();
        self.part(Role::Paragraph, |book| book.lines(style, text, width_mm));
    }

    /// Sets a text in lines of this width.
    pub(crate) fn lines(&mut self, style: Style, text: &str, width_mm: f64) {
        for line in text::wrap(text, width_mm, style.size_mm(), style.bold) {
            self.cursor_mm += style.leading_mm();
            let at = [self.left_mm(), self.cursor_mm - 0.28 * style.size_mm()];
            self.text(at, Align::Left, style, &line);
        }
    }

    /// The height of a paragraph over the whole width, mm.
    pub fn paragraph_mm(&self, style: Style, text: &str) -> f64 {
        style.leading_mm() * text::wrap(text, self.width_mm(), style.size_mm(), style.bold).len() as f64
    }

    /// Sets one line at a point on its baseline, mm.
    pub fn text(&mut self, at: [f64; 2], align: Align, style: Style, text: &str) {
        let mark = line(at, align, style, text, &self.palette);
        self.push(mark);
    }

    /// Draws a straight line, mm.
    pub fn rule(&mut self, from: [f64; 2], to: [f64; 2], pen: Pen) {
        let stroke = Stroke::of(pen, &self.palette, MM_PER_PT);
        self.push(Primitive::Polyline { points: vec![lower::narrow_point(from), lower::narrow_point(to)], stroke });
    }

    /// Puts a sign at a point, mm.
    pub fn sign(&mut self, at: [f64; 2], sign: Sign, ink: Ink) {
        for mark in lower::sign(sign, at, ink, MM_PER_PT, &self.palette) {
            self.push(mark);
        }
    }

    /// Draws an upright box, mm; filled black where that is asked.
    pub fn frame(&mut self, [low, high]: [[f64; 2]; 2], weight: Weight, filled: bool) {
        let points = [low, [high[0], low[1]], high, [low[0], high[1]]].map(lower::narrow_point).to_vec();
        let stroke = Stroke::of(Pen::solid(Ink::Line, weight), &self.palette, MM_PER_PT);
        let fill = filled.then(|| self.palette.ink(Ink::Line));
        self.push(Primitive::Polygon { points, fill, stroke: Some(stroke) });
    }

    /// Draws a figure into the area of a viewport, mm.
    pub fn figure(&mut self, figure: &Figure, viewport: &Viewport) {
        for mark in lower::lower(figure, viewport, &self.palette) {
            self.push(mark);
        }
    }

    /// The same with the names that are meant for it in columns beside what is drawn, clear of these rectangles, mm.
    pub fn figure_named(&mut self, figure: &Figure, viewport: &Viewport, taken: Vec<[f64; 4]>) {
        for mark in lower::lower_named(figure, viewport, &self.palette, taken) {
            self.push(mark);
        }
    }

    fn push(&mut self, mark: Primitive) {
        if self.pages.is_empty() {
            self.pages.push(self.paper.blank());
        }
        self.pages.last_mut().expect("a page was just put there").marks.push(mark);
    }

    /// The finished pages.
    pub fn finish(self) -> Vec<Page> {
        self.pages
    }
}

/// One line of text as a primitive, mm.
pub(crate) fn line(at: [f64; 2], align: Align, style: Style, text: &str, palette: &Palette) -> Primitive {
    Primitive::Text {
        at: lower::narrow_point(at),
        align,
        size: lower::narrow(style.size_mm()),
        bold: style.bold,
        colour: palette.ink(style.ink),
        text: text::printable(text, style.bold),
    }
}
