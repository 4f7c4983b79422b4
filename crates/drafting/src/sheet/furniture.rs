//! What stands on every page: title and fingerprint, the verdict where it is not clean, the
//! cautions, page x of y.

use crate::cautions::{DECIDES, STRIP};
use crate::figure::{Align, Ink, Pen, Weight};
use crate::lower::{Primitive, Stroke, narrow_point};
use crate::page::{CORNER_MM, MM_PER_PT, Page, Style, line};
use crate::palette::Palette;
use crate::text;
use assess::Assessment;
use plan::Plan;

/// Left, top, right, bottom; the left one is wide enough to be filed.
pub(crate) const MARGINS_MM: [f64; 4] = [18.0, 12.2, 13.0, 25.4];

const CAUTION: Style = Style { bold: true, ..Style::NOTE };
const WARNING: Style = Style { size_pt: 13.0, ..Style::STRONG };

/// What the furniture of a document says.
pub(crate) struct Imprint {
    /// Which document it is.
    pub(crate) document: &'static str,
    /// What it is about.
    pub(crate) title: String,
    /// By what it is matched to its files, a line each.
    pub(crate) fingerprints: Vec<String>,
    /// What every page must say first, if anything.
    pub(crate) warning: Option<String>,
}

/// The pages of a sheet with header, cautions and numbers.
pub(super) fn furnished(pages: Vec<Page>, plan: &Plan, assessment: &Assessment) -> Vec<Page> {
    let imprint = Imprint {
        document: "Stacking sheet",
        title: plan.title.clone(),
        fingerprints: vec![format!("plan {}", plan::file::fingerprint(plan))],
        warning: warning(assessment),
    };
    furnish(pages, &imprint)
}

/// The pages of any document with header, cautions and numbers.
pub(crate) fn furnish(mut pages: Vec<Page>, imprint: &Imprint) -> Vec<Page> {
    let count = pages.len();
    for (index, page) in pages.iter_mut().enumerate() {
        let mut furniture = Furniture { palette: Palette::print(), page };
        furniture.header(imprint);
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
        1 => Some("DO NOT LOAD: 1 check falls short, see the last pages".to_owned()),
        many => Some(format!("DO NOT LOAD: {many} checks fall short, see the last pages")),
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

    /// What the document is about in the corner, and what every page must say first across all of it.
    fn header(&mut self, imprint: &Imprint) {
        let room = CORNER_MM - 4.0;
        let title = text::cut(&imprint.title, room, Style::NOTE.size_mm(), false);
        // Two lines stand beside a head of one; a third one begins right under the banner, clear of the rule.
        let first = if imprint.fingerprints.len() > 1 { 13.8 } else { 15.6 };
        self.text([self.right(), first], Align::Right, Style::NOTE, &title);
        for (index, fingerprint) in imprint.fingerprints.iter().enumerate() {
            let base = first + Style::NOTE.leading_mm() * (index + 1) as f64;
            self.text([self.right(), base], Align::Right, Style::NOTE, fingerprint);
        }
        if let Some(warning) = &imprint.warning {
            self.crossed_out();
            self.banner(warning);
        }
    }

    /// White on black from edge to edge of the text, also where there is no colour.
    fn banner(&mut self, warning: &str) {
        let corners = [[self.left(), 4.2], [self.right(), 4.2], [self.right(), 11.2], [self.left(), 11.2]];
        let points = corners.map(narrow_point).to_vec();
        let black = self.palette.ink(Ink::Line);
        self.page.marks.push(Primitive::Polygon { points, fill: Some(black), stroke: None });
        let middle = 0.5 * (self.left() + self.right());
        let room = self.right() - self.left() - 6.0;
        let warning = text::cut(warning, room, WARNING.size_mm(), true);
        let mut mark = line([middle, 9.4], Align::Centre, WARNING, &warning, &self.palette);
        if let Primitive::Text { colour, .. } = &mut mark {
            *colour = self.palette.ground;
        }
        self.page.marks.push(mark);
    }

    /// Two lines from corner to corner, thin enough to read through.
    fn crossed_out(&mut self) {
        let (top, bottom) = (11.2, self.page.height_mm - MARGINS_MM[3]);
        let pen = Stroke::of(Pen::solid(Ink::Line, Weight::Thick), &self.palette, 1.6 * MM_PER_PT);
        let stroke = Stroke { colour: pen.colour.with_cover(56), ..pen };
        for ends in [[[self.left(), top], [self.right(), bottom]], [[self.right(), top], [self.left(), bottom]]] {
            self.page.marks.push(Primitive::Polyline { points: ends.map(narrow_point).to_vec(), stroke });
        }
    }

    /// A box with a heavy edge, and who decides under it.
    fn cautions(&mut self) {
        let room = self.right() - self.left() - 4.0;
        let lines = text::wrap(STRIP, room, CAUTION.size_mm(), CAUTION.bold);
        let (leading, bottom) = (1.18 * CAUTION.size_mm(), self.page.height_mm - 10.5);
        let top = bottom - leading * lines.len() as f64 - 2.0;
        let corners = [[self.left(), top], [self.right(), top], [self.right(), bottom], [self.left(), bottom]];
        let stroke = Stroke::of(Pen::solid(Ink::Line, Weight::Thick), &self.palette, MM_PER_PT);
        let points = corners.map(narrow_point).to_vec();
        self.page.marks.push(Primitive::Polygon { points, fill: None, stroke: Some(stroke) });
        for (index, words) in lines.iter().enumerate() {
            let base = top + 1.0 + leading * (index as f64 + 0.78);
            self.text([self.left() + 2.0, base], Align::Left, CAUTION, words);
        }
    }

    fn footer(&mut self, imprint: &Imprint, number: &str) {
        let y = self.page.height_mm - 6.3;
        let words = format!("{} · {DECIDES}", imprint.document);
        self.text([self.left(), y], Align::Left, Style::NOTE, &words);
        self.text([self.right(), y], Align::Right, Style::STRONG, number);
    }
}
