//! An SVG document, element by element: how numbers, colours, lines and texts are written. Lengths
//! are in the document's unit, y downwards, to three decimals. `textLength` keeps columns where a
//! viewer substitutes the type.

use crate::lower::Stroke;
use crate::palette::Rgba;
use std::fmt::{Arguments, Write as _};

/// What a document is written on.
#[derive(Clone, Copy, Debug)]
pub struct Sheet {
    /// Width and height, in the unit.
    pub size: [f64; 2],
    /// The unit as SVG names it: `mm`; empty for points of a screen, 96 to the inch.
    pub unit: &'static str,
    /// How lines meet at a corner, as SVG names it: `miter`, `round`.
    pub join: &'static str,
}

/// An upright rectangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Its upper left corner.
    pub at: [f32; 2],
    /// Width and height.
    pub size: [f32; 2],
}

/// What fills an outline, and what draws it.
#[derive(Clone, Copy, Debug, Default)]
pub struct Dress {
    /// What fills it.
    pub fill: Option<Rgba>,
    /// What draws it.
    pub stroke: Option<Stroke>,
}

/// A line of text.
#[derive(Clone, Copy, Debug)]
pub struct Words<'a> {
    /// Where its baseline begins.
    pub at: [f32; 2],
    /// The size of the type (its em).
    pub size: f32,
    /// How wide it is set.
    pub width: f32,
    /// Whether it is set bold.
    pub bold: bool,
    /// Whether every character of it is as wide as the other.
    pub mono: bool,
    /// Its colour.
    pub colour: Rgba,
    /// By how much it is turned clockwise, deg, and about which point; none where it is level.
    pub turn: Option<(f32, [f32; 2])>,
    /// What it says.
    pub text: &'a str,
}

/// A document that is being written.
#[derive(Debug)]
pub struct Svg {
    out: String,
    /// What was clipped to so far, in the order of their names.
    clips: Vec<Frame>,
}

impl Svg {
    /// An empty document.
    pub fn begin(sheet: &Sheet) -> Self {
        let Sheet { size: [w, h], unit, join } = sheet;
        let out = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}{unit}\" height=\"{h}{unit}\" \
             viewBox=\"0 0 {w} {h}\" font-family=\"'Liberation Sans', sans-serif\" stroke-linejoin=\"{join}\" stroke=\"none\">\n"
        );
        Self { out, clips: Vec::new() }
    }

    /// The document's text.
    pub fn end(mut self) -> String {
        self.out.push_str("</svg>\n");
        self.out
    }

    /// Writes what stands lower on the sheet by so much.
    pub fn lower(&mut self, by: f64, inside: impl FnOnce(&mut Self)) {
        self.put(format_args!("<g transform=\"translate(0 {by})\">\n"));
        inside(self);
        self.out.push_str("</g>\n");
    }

    /// Writes what is cut off beyond a frame; nothing where that is nothing.
    pub fn clipped(&mut self, to: Frame, inside: impl FnOnce(&mut Self)) {
        let index = self.clip(to);
        let before = self.out.len();
        self.put(format_args!("<g clip-path=\"url(#c{index})\">\n"));
        let begun = self.out.len();
        inside(self);
        if self.out.len() == begun {
            self.out.truncate(before);
        } else {
            self.out.push_str("</g>\n");
        }
    }

    /// The number of a clip; told to the document where it is new.
    fn clip(&mut self, to: Frame) -> usize {
        if let Some(known) = self.clips.iter().position(|clip| *clip == to) {
            return known;
        }
        let index = self.clips.len();
        self.clips.push(to);
        self.put(format_args!("<clipPath id=\"c{index}\"><rect {}/></clipPath>\n", frame(to)));
        index
    }

    /// A closed outline.
    pub fn polygon(&mut self, points: &[[f32; 2]], dress: Dress) {
        self.put(format_args!("<polygon points=\"{}\"{}/>\n", list(points), dressed(dress)));
    }

    /// An open line.
    pub fn polyline(&mut self, points: &[[f32; 2]], dress: Dress) {
        self.put(format_args!("<polyline points=\"{}\"{}/>\n", list(points), dressed(dress)));
    }

    /// An upright rectangle, with corners of this radius.
    pub fn rectangle(&mut self, at: Frame, radius: f32, dress: Dress) {
        let corner = if radius > 0.0 { format!(" rx=\"{radius:.3}\"") } else { String::new() };
        self.put(format_args!("<rect {}{corner}{}/>\n", frame(at), dressed(dress)));
    }

    /// An upright ellipse; its radii across and up.
    pub fn ellipse(&mut self, [x, y]: [f32; 2], [rx, ry]: [f32; 2], dress: Dress) {
        let dress = dressed(dress);
        self.put(format_args!("<ellipse cx=\"{x:.3}\" cy=\"{y:.3}\" rx=\"{rx:.3}\" ry=\"{ry:.3}\"{dress}/>\n"));
    }

    /// A line of text.
    pub fn text(&mut self, words: &Words) {
        let Words { at: [x, y], size, width, colour, .. } = *words;
        let bold = if words.bold { " font-weight=\"bold\"" } else { "" };
        let mono = if words.mono { " font-family=\"monospace\"" } else { "" };
        let turn = words
            .turn
            .map_or_else(String::new, |(deg, [x, y])| format!(" transform=\"rotate({deg:.3} {x:.3} {y:.3})\""));
        self.put(format_args!(
            "<text x=\"{x:.3}\" y=\"{y:.3}\" font-size=\"{size:.3}\" textLength=\"{width:.3}\"{bold}{mono}{}{turn} \
             xml:space=\"preserve\">{}</text>\n",
            painted("fill", colour),
            escaped(words.text)
        ));
    }

    fn put(&mut self, text: Arguments) {
        // Writing into a String cannot fail.
        let _ = self.out.write_fmt(text);
    }
}

fn frame(Frame { at: [x, y], size: [w, h] }: Frame) -> String {
    format!("x=\"{x:.3}\" y=\"{y:.3}\" width=\"{w:.3}\" height=\"{h:.3}\"")
}

fn list(points: &[[f32; 2]]) -> String {
    points.iter().map(|[x, y]| format!("{x:.3},{y:.3}")).collect::<Vec<_>>().join(" ")
}

fn dressed(Dress { fill, stroke }: Dress) -> String {
    let fill = fill.map_or_else(|| " fill=\"none\"".to_owned(), |colour| painted("fill", colour));
    format!("{fill}{}", stroke.map_or_else(String::new, pen))
}

fn pen(stroke: Stroke) -> String {
    let dashes: Vec<String> = stroke.dashes().iter().map(|d| format!("{d:.3}")).collect();
    let dash = if dashes.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{}\"", dashes.join(" ")) };
    format!("{} stroke-width=\"{:.3}\"{dash}", painted("stroke", stroke.colour), stroke.width)
}

fn painted(name: &str, Rgba { red, green, blue, cover }: Rgba) -> String {
    let opacity =
        if cover == 255 { String::new() } else { format!(" {name}-opacity=\"{:.3}\"", f32::from(cover) / 255.0) };
    format!(" {name}=\"#{red:02x}{green:02x}{blue:02x}\"{opacity}")
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn written(add: impl FnOnce(&mut Svg)) -> String {
        let mut svg = Svg::begin(&Sheet { size: [10.0, 20.0], unit: "mm", join: "miter" });
        add(&mut svg);
        svg.end()
    }

    #[test]
    fn what_has_nothing_in_it_is_not_written_and_a_clip_is_named_once() {
        let frame = Frame { at: [1.0, 2.0], size: [3.0, 4.0] };
        assert!(!written(|svg| svg.clipped(frame, |_| {})).contains("<g "), "an empty group");
        let line = |svg: &mut Svg| svg.polyline(&[[0.0, 0.0], [1.0, 1.0]], Dress::default());
        let twice = written(|svg| (0..2).for_each(|_| svg.clipped(frame, line)));
        assert_eq!(twice.matches("<clipPath").count(), 1, "{twice}");
        assert_eq!(twice.matches("clip-path=\"url(#c0)\"").count(), 2, "{twice}");
    }

    #[test]
    fn a_text_is_escaped_and_a_colour_that_lets_through_says_how_much_it_covers() {
        let colour = Rgba::opaque(0x000b_6e69).with_cover(51);
        let words = Words {
            at: [0.0; 2],
            size: 3.0,
            width: 9.0,
            bold: false,
            mono: false,
            colour,
            turn: Some((90.0, [1.0, 2.0])),
            text: "a < b & c",
        };
        let text = written(|svg| svg.text(&words));
        for part in
            [">a &lt; b &amp; c</text>", "fill=\"#0b6e69\" fill-opacity=\"0.200\"", "rotate(90.000 1.000 2.000)"]
        {
            assert!(text.contains(part), "{part} is not in {text}");
        }
    }
}
