//! Pages to PDF, tagged and with bookmarks. The same pages give the same bytes: no clock, no random number, a document id
//! that is a hash of the content.

mod tags;

use crate::figure::Align;
use crate::lower::{Primitive, Stroke};
use crate::page::{MM_PER_PT, Page, Role};
use crate::palette::Rgba;
use crate::text;
use krilla::color::rgb;
use krilla::destination::XyzDestination;
use krilla::geom::{Path, PathBuilder, Point, Transform};
use krilla::metadata::Metadata;
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint;
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ContentTag, Identifier, SpanTag};
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Document, SerializeSettings};

/// Why no PDF came of it.
#[derive(Debug, thiserror::Error)]
pub enum PdfError {
    /// A page without area.
    #[error("page {page} measures {width_mm} mm by {height_mm} mm: a page needs a width and a height")]
    PageSize {
        /// Which page, from 1.
        page: usize,
        /// Its width, mm.
        width_mm: f64,
        /// Its height, mm.
        height_mm: f64,
    },
    /// The writer gave up.
    #[error("the PDF writer gave up: {0}")]
    Writer(String),
}

/// Writes pages as one PDF document with a title; fonts are embedded, text stays text.
///
/// # Errors
/// A page without area, or what the writer says.
pub fn write(pages: &[Page], title: &str) -> Result<Vec<u8>, PdfError> {
    let mut document = Document::new_with(SerializeSettings { enable_tagging: true, ..SerializeSettings::default() });
    document.set_metadata(Metadata::new().title(title.to_owned()).language("en".to_owned()));
    let fonts = [text::regular(), text::bold()]
        .map(|bytes| Font::new(bytes.into(), 0).expect("the bundled face is a sound font file"));
    let (mut tags, mut outline) = (tags::Tags::default(), Outline::new());
    for (index, page) in pages.iter().enumerate() {
        tags.take(write_page(&mut document, page, index + 1, &fonts)?);
        for part in &page.parts {
            if let Role::Head(words) = &part.role {
                let top = XyzDestination::new(index, Point::from_xy(0.0, 0.0));
                outline.push_child(OutlineNode::new(words.clone(), top));
            }
        }
    }
    document.set_outline(outline);
    document.set_tag_tree(tags.finish());
    let bytes = document.finish().map_err(|e| PdfError::Writer(format!("{e:?}")))?;
    Ok(without_suspects(bytes))
}

/// The writer says that no tag is suspect. That is what a reader takes for granted (source key `iso-32000`, 14.7.1), and a
/// common one stumbles over the word: it is blanked, at its own length, so that nothing moves.
fn without_suspects(mut bytes: Vec<u8>) -> Vec<u8> {
    const SAID: &[u8] = b"/Suspects false";
    if let Some(at) = bytes.windows(SAID.len()).rposition(|there| there == SAID) {
        bytes[at..at + SAID.len()].fill(b' ');
    }
    bytes
}

/// What each run of marks is, and by what name it goes in the document.
type Tagged<'a> = Vec<(&'a Role, Identifier)>;

fn write_page<'a>(
    document: &mut Document,
    page: &'a Page,
    number: usize,
    fonts: &[Font; 2],
) -> Result<Tagged<'a>, PdfError> {
    let points = |mm: f64| crate::lower::narrow(mm / MM_PER_PT);
    let (width, height) = (points(page.width_mm), points(page.height_mm));
    let bad_size = || PdfError::PageSize { page: number, width_mm: page.width_mm, height_mm: page.height_mm };
    let settings = PageSettings::from_wh(width, height).ok_or_else(bad_size)?;
    let mut sheet = document.start_page_with(settings);
    let mut surface = sheet.surface();
    surface.push_transform(&Transform::from_scale(points(1.0), points(1.0)));
    let tagged = draw_parts(&mut surface, page, fonts);
    surface.pop();
    surface.finish();
    sheet.finish();
    Ok(tagged)
}

/// Draws all marks; those that belong to no part are ornament to a reader who does not see them.
fn draw_parts<'a>(surface: &mut Surface, page: &'a Page, fonts: &[Font; 2]) -> Tagged<'a> {
    let (mut tagged, mut drawn) = (Vec::with_capacity(page.parts.len()), 0);
    for part in &page.parts {
        ornament(surface, page.marks.get(drawn..part.marks.start).unwrap_or_default(), fonts);
        let tag = match part.role {
            Role::Drawing(_) => ContentTag::Other,
            _ => ContentTag::Span(SpanTag::empty()),
        };
        let name = surface.start_tagged(tag);
        page.marks.get(part.marks.clone()).unwrap_or_default().iter().for_each(|mark| draw(surface, mark, fonts));
        surface.end_tagged();
        tagged.push((&part.role, name));
        drawn = part.marks.end;
    }
    ornament(surface, page.marks.get(drawn..).unwrap_or_default(), fonts);
    tagged
}

fn ornament(surface: &mut Surface, marks: &[Primitive], fonts: &[Font; 2]) {
    if marks.is_empty() {
        return;
    }
    surface.start_tagged(ContentTag::Artifact(Artifact::default()));
    marks.iter().for_each(|mark| draw(surface, mark, fonts));
    surface.end_tagged();
}

fn draw(surface: &mut Surface, mark: &Primitive, fonts: &[Font; 2]) {
    match mark {
        Primitive::Polygon { points, fill, stroke } => shape(surface, path(points, true), *fill, *stroke),
        Primitive::Polyline { points, stroke } => shape(surface, path(points, false), None, Some(*stroke)),
        Primitive::Text { at, align, size, bold, colour, text } => {
            surface.set_stroke(None);
            surface.set_fill(Some(paint_of(*colour)));
            let start = Point::from_xy(at[0] - overhang(text, *size, *bold, *align), at[1]);
            surface.draw_glyphs(start, &glyphs(text, *bold), fonts[usize::from(*bold)].clone(), text, *size, false);
        }
    }
}

/// How far a text reaches to the left of its point.
pub(crate) fn overhang(text: &str, size: f32, bold: bool, align: Align) -> f32 {
    let width = crate::lower::narrow(text::width(text, f64::from(size), bold));
    match align {
        Align::Left => 0.0,
        Align::Centre => 0.5 * width,
        Align::Right => width,
    }
}

fn glyphs(text: &str, bold: bool) -> Vec<KrillaGlyph> {
    let set = text::set(text, bold).into_iter();
    set.map(|g| KrillaGlyph::new(GlyphId::new(g.id), g.advance, 0.0, 0.0, 0.0, g.start..g.end, None)).collect()
}

/// Nothing for an outline without extent.
fn path(points: &[[f32; 2]], closed: bool) -> Option<Path> {
    let mut builder = PathBuilder::new();
    let (first, others) = points.split_first()?;
    builder.move_to(first[0], first[1]);
    for p in others {
        builder.line_to(p[0], p[1]);
    }
    if closed {
        builder.close();
    }
    builder.finish()
}

fn shape(surface: &mut Surface, path: Option<Path>, fill: Option<Rgba>, stroke: Option<Stroke>) {
    let Some(path) = path.filter(|_| fill.is_some() || stroke.is_some()) else { return };
    surface.set_fill(fill.map(paint_of));
    surface.set_stroke(stroke.map(stroke_of));
    surface.draw_path(&path);
}

fn paint_of(colour: Rgba) -> paint::Fill {
    paint::Fill { paint: rgb_of(colour).into(), opacity: cover_of(colour), rule: paint::FillRule::EvenOdd }
}

fn stroke_of(stroke: Stroke) -> paint::Stroke {
    let dashes = stroke.dashes();
    paint::Stroke {
        paint: rgb_of(stroke.colour).into(),
        width: stroke.width,
        opacity: cover_of(stroke.colour),
        dash: (!dashes.is_empty()).then_some(paint::StrokeDash { array: dashes, offset: 0.0 }),
        ..paint::Stroke::default()
    }
}

fn rgb_of(colour: Rgba) -> rgb::Color {
    rgb::Color::new(colour.red, colour.green, colour.blue)
}

fn cover_of(colour: Rgba) -> NormalizedF32 {
    NormalizedF32::new(f32::from(colour.cover) / 255.0).expect("a byte over 255 lies between 0 and 1")
}
