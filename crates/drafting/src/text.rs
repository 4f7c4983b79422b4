//! The bundled type: its bytes, the widths of lines, wrapping.
//!
//! One script, left to right, without kerning: window and paper use the same face and the same
//! advances, so boxes and text agree. A character that the face lacks is shown as a question
//! mark rather than dropped: a reader must see that something is missing.

use flate2::read::ZlibDecoder;
use skrifa::instance::{LocationRef, Size};
use skrifa::metrics::GlyphMetrics;
use skrifa::{FontRef, GlyphId, MetadataProvider};
use std::io::Read;
use std::sync::OnceLock;

/// What stands for a character that the face lacks.
const STAND_IN: char = '?';

/// The bytes of the regular face.
pub fn regular() -> &'static [u8] {
    static FACE: OnceLock<Vec<u8>> = OnceLock::new();
    FACE.get_or_init(|| unpacked(include_bytes!(concat!(env!("OUT_DIR"), "/LiberationSans-Regular"))))
}

/// The bytes of the bold face.
pub fn bold() -> &'static [u8] {
    static FACE: OnceLock<Vec<u8>> = OnceLock::new();
    FACE.get_or_init(|| unpacked(include_bytes!(concat!(env!("OUT_DIR"), "/LiberationSans-Bold"))))
}

fn unpacked(packed: &[u8]) -> Vec<u8> {
    let mut bytes = Vec::new();
    ZlibDecoder::new(packed).read_to_end(&mut bytes).expect("the build packed a whole face");
    bytes
}

/// A character as it is set: the bytes of the text that it stands for, its glyph, its advance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Glyph {
    pub(crate) start: usize,
    pub(crate) end: usize,
    pub(crate) id: u32,
    /// In ems.
    pub(crate) advance: f32,
}

struct Face {
    font: FontRef<'static>,
    metrics: GlyphMetrics<'static>,
    ascii: Vec<(u32, f32)>,
    capital_height: f32,
}

fn face(bold_face: bool) -> &'static Face {
    static REGULAR: OnceLock<Face> = OnceLock::new();
    static BOLD: OnceLock<Face> = OnceLock::new();
    if bold_face { BOLD.get_or_init(|| Face::load(bold())) } else { REGULAR.get_or_init(|| Face::load(regular())) }
}

impl Face {
    fn load(bytes: &'static [u8]) -> Self {
        let font = FontRef::new(bytes).expect("the bundled face is a sound font file");
        let metrics = font.glyph_metrics(Size::new(1.0), LocationRef::default());
        let capital_height = font.metrics(Size::new(1.0), LocationRef::default()).cap_height.unwrap_or(0.7);
        let mut face = Self { font, metrics, ascii: Vec::new(), capital_height };
        face.ascii = (0..128_u8).map(|code| face.look_up(char::from(code))).collect();
        face
    }

    /// Glyph and advance of a character, those of the stand-in for one that is missing.
    fn look_up(&self, character: char) -> (u32, f32) {
        let map = self.font.charmap();
        let id = map.map(character).or_else(|| map.map(STAND_IN)).unwrap_or(GlyphId::NOTDEF);
        (id.to_u32(), self.metrics.advance_width(id).unwrap_or(0.0))
    }

    fn glyph(&self, character: char) -> (u32, f32) {
        self.ascii.get(character as usize).copied().unwrap_or_else(|| self.look_up(character))
    }
}

/// The text as it is set: every character that the face lacks, control characters among them,
/// replaced by a question mark; line breaks and tabs by a space.
pub fn printable(text: &str, bold: bool) -> String {
    printed(text, bold).collect()
}

fn printed(text: &str, bold: bool) -> impl Iterator<Item = char> {
    let map = face(bold).font.charmap();
    text.chars().map(move |c| match c {
        '\n' | '\t' | '\r' => ' ',
        c if c.is_control() || map.map(c).is_none() => STAND_IN,
        c => c,
    })
}

/// Glyphs of a text that [`printable`] has been over.
pub(crate) fn set(text: &str, bold: bool) -> Vec<Glyph> {
    let face = face(bold);
    text.char_indices()
        .map(|(start, c)| {
            let (id, advance) = face.glyph(c);
            Glyph { start, end: start + c.len_utf8(), id, advance }
        })
        .collect()
}

/// The width of a text, in the unit of `size`.
pub fn width(text: &str, size: f64, bold: bool) -> f64 {
    let face = face(bold);
    text.chars().map(|c| f64::from(face.glyph(c).1)).sum::<f64>() * size
}

/// The height of a capital letter, in the unit of `size`.
pub fn capital_height(size: f64, bold: bool) -> f64 {
    f64::from(face(bold).capital_height) * size
}

/// Breaks a text into lines no wider than `room` (same unit as `size`): at spaces, and inside a
/// word only where the word alone is wider.
pub fn wrap(text: &str, room: f64, size: f64, bold: bool) -> Vec<String> {
    let text = printable(text, bold);
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in words(&text) {
        let longer = if line.is_empty() { word.clone() } else { format!("{line} {word}") };
        if width(&longer, size, bold) <= room {
            line = longer;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        line = broken_word(&word, &mut lines, |part| width(part, size, bold) <= room);
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// What stands in a text for a space at which no line ends.
pub(crate) const NO_BREAK: char = '\u{a0}';

/// The words of a text; a number keeps its sign and its unit beside it.
fn words(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    let parts = text.split(|c: char| c.is_whitespace() && c != NO_BREAK).filter(|part| !part.is_empty());
    for word in parts.map(|part| part.replace(NO_BREAK, " ")) {
        let word = word.as_str();
        match words.last_mut() {
            Some(last) if stays_with(last, word) => {
                last.push(' ');
                last.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
    }
    words
}

fn stays_with(before: &str, word: &str) -> bool {
    let unit = word.trim_end_matches([',', ';', '.', ')', ':']);
    let is_unit = unit == "%" || quantity::unit::by_symbol(unit).is_some();
    matches!(before, "±" | "“" | "–") || (is_unit && before.ends_with(|c: char| c.is_ascii_digit()))
}

/// Puts whole lines of a long word into `lines` and hands back the rest.
fn broken_word(word: &str, lines: &mut Vec<String>, fits: impl Fn(&str) -> bool) -> String {
    let mut part = String::new();
    for character in word.chars() {
        part.push(character);
        if !fits(&part) && part.chars().count() > 1 {
            part.pop();
            lines.push(std::mem::replace(&mut part, character.to_string()));
        }
    }
    part
}

/// The text, cut with an ellipsis where it is wider than `room`. What comes after the room is not looked
/// at: a title stands on every page, however long it is.
pub fn cut(text: &str, room: f64, size: f64, bold: bool) -> String {
    let (face, ellipsis) = (face(bold), width("…", size, bold));
    let (mut kept, mut advance, mut with_ellipsis) = (String::new(), 0.0, 0);
    for c in printed(text, bold) {
        advance += f64::from(face.glyph(c).1);
        if advance * size > room {
            kept.truncate(with_ellipsis);
            kept.truncate(kept.trim_end().len());
            kept.push('…');
            return kept;
        }
        kept.push(c);
        if advance * size + ellipsis <= room {
            with_ellipsis = kept.len();
        }
    }
    kept
}
