//! What stands on every page: title and fingerprint, the verdict where it is not clean, the
//! cautions, page x of y.

use crate::cautions::CAUTIONS;
use crate::figure::{Align, Ink, Pen, Weight};
use crate::lower::{Primitive, Stroke, narrow_point};
use crate::page::{MM_PER_PT, Page, Style, line};
use crate::palette::Palette;
use crate::text;
use assess::Assessment;
use plan::Plan;

/// Left, top, right, bottom; the left one is wide enough to be filed.
pub(crate) const MARGINS_MM: [f64; 4] = [18.0, 24.0, 13.0, 48.0];

const CAUTION: Style = Style { size_pt: 9.0, bold: false, ink: Ink::Line };

/// What the furniture of a document says.
pub(crate) struct Imprint {
    /// Which document it is.
    pub(crate) document: &'static str,
    /// What it is about.
    pub(crate) title: String,
    /// By what it is matched to its file.
    pub(crate) fingerprint: String,
    /// What every page must say first, if anything.
    pub(crate) warning: Option<String>,
}

/// The pages of a sheet with header, cautions and numbers.
pub(super) fn furnished(pages: Vec<Page>, plan: &Plan, assessment: &Assessment) -> Vec<Page> {
    let imprint = Imprint {
        document: "Loadcairn stacking sheet",
        title: plan.title.clone(),
        fingerprint: format!("plan {}", plan::file::fingerprint(plan)),
        warning: warning(assessment),
    };
    furnish(pages, &imprint)
}

/// The pages of any document with header, cautions and numbers.
pub(crate) fn furnish(mut pages: Vec<Page>, imprint: &Imprint) -> Vec<Page> {
    let count = pages.len();
    for (index, page) in pages.iter_mut().enumerate() {
        let mut furniture = Furniture { palette: Palette::print(), page };
        furniture.header(&imprint.title, &imprint.fingerprint, imprint.warning.as_deref());
        furniture.cautions();
        furniture.footer(imprint, &format!("page {} of {count}", index + 1));
    }
    pages
}

/// What every page says of a plan that is not in order.
pub(super) fn warning(assessment: &Assessment) -> Option<String> {
    let short = assessment.tally().short();
    match short {
        0 => None,
        1 => Some("DO NOT LOAD: 1 check falls short, see the findings".to_owned()),
        many => Some(format!("DO NOT LOAD: {many} checks fall short, see the findings")),
    }
}

struct Furniture<'a> {
    palette: Palette,
    page: &'a mut Page,
}

impl Furniture<'_> {
    fn left(&self) -> f64 {
        MARGINS_MM[0]
    }

    fn right(&self) -> f64 {
        self.page.width_mm - MARGINS_MM[2]
    }

    fn text(&mut self, at: [f64; 2], align: Align, style: Style, text: &str) {
        let mark = line(at, align, style, text, &self.palette);
        self.page.marks.push(mark);
    }

    fn rule(&mut self, y: f64, weight: Weight) {
        let points = [[self.left(), y], [self.right(), y]].map(narrow_point).to_vec();
        let stroke = Stroke::of(Pen::solid(Ink::Line, weight), &self.palette, MM_PER_PT);
        self.page.marks.push(Primitive::Polyline { points, stroke });
    }

    fn header(&mut self, title: &str, fingerprint: &str, warning: Option<&str>) {
        let note = Style { bold: warning.is_some(), ..Style::SMALL };
        let note = if warning.is_some() { Style { size_pt: 10.0, ..note.ink(Ink::Wanted) } } else { note };
        let right = warning.unwrap_or(fingerprint);
        let room = self.right() - self.left() - note.width_mm(right) - 6.0;
        let title = text::cut(title, room, Style::STRONG.size_mm(), true);
        self.text([self.left(), 16.0], Align::Left, Style::STRONG, &title);
        self.text([self.right(), 16.0], Align::Right, note, right);
        self.rule(18.5, Weight::Thick);
    }

    /// A box with a heavy edge: the short cautions two abreast, who decides across both columns.
    fn cautions(&mut self) {
        let (top, bottom) = (self.page.height_mm - 45.0, self.page.height_mm - 13.5);
        let corners = [[self.left(), top], [self.right(), top], [self.right(), bottom], [self.left(), bottom]];
        let stroke = Stroke::of(Pen::solid(Ink::Line, Weight::Thick), &self.palette, MM_PER_PT);
        let points = corners.map(narrow_point).to_vec();
        self.page.marks.push(Primitive::Polygon { points, fill: None, stroke: Some(stroke) });
        let leading = CAUTION.leading_mm();
        let half = 0.5 * (self.right() - self.left());
        let [short @ .., decides] = &CAUTIONS;
        let rows = short.len().div_ceil(2);
        for (i, caution) in short.iter().enumerate() {
            let (column, row) = ((i / rows) as f64, (i % rows) as f64);
            self.caution([self.left() + 3.0 + column * half, top + leading * (row + 1.1)], half - 6.0, caution);
        }
        self.caution([self.left() + 3.0, top + leading * (rows as f64 + 1.1)], 2.0 * half - 6.0, decides);
    }

    /// Sets a caution.
    fn caution(&mut self, [x, mut base]: [f64; 2], room: f64, caution: &str) {
        self.text([x, base], Align::Left, CAUTION, "–");
        for line in text::wrap(caution, room - 3.0, CAUTION.size_mm(), CAUTION.bold) {
            self.text([x + 3.0, base], Align::Left, CAUTION, &line);
            base += CAUTION.leading_mm();
        }
    }

    fn footer(&mut self, imprint: &Imprint, number: &str) {
        let y = self.page.height_mm - 8.5;
        self.text([self.left(), y], Align::Left, Style::SMALL, imprint.document);
        self.text([0.5 * (self.left() + self.right()), y], Align::Centre, Style::SMALL, &imprint.fingerprint);
        self.text([self.right(), y], Align::Right, Style { size_pt: 10.0, ..Style::STRONG }, number);
    }
}
