//! Where labels come to lie: anchored, and out of each other's way.

use super::clip::{self, Area};
use super::primitive::{Primitive, Stroke, narrow, narrow_point};
use super::viewport::Viewport;
use crate::figure::{Align, Dash, Figure, Ink, Label, Level, Mark, Pen, Plate, Room, Sign, Weight};
use crate::palette::{Palette, Rgba};
use crate::text;

/// Labels set so far, as rectangles on the device, and what is painted over them later.
#[derive(Default)]
pub(super) struct Labels {
    taken: Vec<Area>,
    covered: Vec<Area>,
    /// Those of them that are signs: names keep off these too.
    signs: Vec<Area>,
}

/// Half the size of a sign as labels see it, points.
const SIGN_PT: f64 = 7.0;
/// Half the breadth of a plumb line or a centreline with the air that a number wants, points.
const CHAIN_PT: f64 = 1.5;

struct Setting {
    text: String,
    size: f64,
    width: f64,
    capital: f64,
    baseline: [f64; 2],
}

impl Labels {
    /// Labels of a figure: numbers in pieces make way for its signs and for plumb lines, which are
    /// painted over them. Those that stay where they are have their places from the start.
    pub(super) fn of(figure: &Figure, viewport: &Viewport, taken: Vec<Area>) -> Self {
        let about = |[x, y]: [f64; 2], half: f64| [x - half, y - half, x + half, y + half];
        let sign = |mark: &Mark| match mark {
            Mark::Sign { at, sign: Sign::Centroid | Sign::OccupantPoint, .. } => {
                Some(about(viewport.to_device(*at), SIGN_PT * viewport.unit_per_pt))
            }
            _ => None,
        };
        let chain = |mark: &Mark| match mark {
            Mark::Shape(shape) if !shape.closed && shape.pen.is_some_and(|pen| pen.dash == Dash::Chain) => {
                let points: Vec<[f64; 2]> = shape.points.iter().map(|p| viewport.to_device(*p)).collect();
                let [left, top, right, bottom] = clip::around(&points)?;
                let half = CHAIN_PT * viewport.unit_per_pt;
                Some([left - half, top - half, right + half, bottom + half])
            }
            _ => None,
        };
        let signs: Vec<Area> = figure.marks.iter().filter_map(sign).collect();
        let covered = signs.iter().copied().chain(figure.marks.iter().filter_map(chain)).collect();
        let stays = |mark: &Mark| match mark {
            Mark::Text(label) if label.room == Room::Stay => {
                let at = viewport.to_device(label.at);
                Some(setting(label, at, viewport.unit_per_pt).covers(label.anchor.align))
            }
            _ => None,
        };
        let taken = taken.into_iter().chain(figure.marks.iter().filter_map(stays)).collect();
        Self { taken, covered, signs }
    }

    /// The label with its plate; nothing where it finds no room or lies outside the area.
    pub(super) fn set(&mut self, label: &Label, viewport: &Viewport, palette: &Palette, out: &mut Vec<Primitive>) {
        let at = viewport.to_device(label.at);
        // What hangs on a point out of sight names nothing that is seen.
        if clip::apart([at[0], at[1], at[0], at[1]], widened(viewport)) {
            return;
        }
        let mut setting = setting(label, at, viewport.unit_per_pt);
        if self.fits(label, &mut setting, viewport).is_none() {
            return;
        }
        let covers = setting.covers(label.anchor.align);
        // The frame of a plate reaches beyond its text.
        let frame = if label.plate == Plate::Framed { 4.0 * viewport.unit_per_pt } else { 0.0 };
        self.taken.push([covers[0] - frame, covers[1] - frame, covers[2] + frame, covers[3] + frame]);
        out.extend(plate(label.plate, covers, viewport.unit_per_pt, palette));
        out.push(Primitive::Text {
            at: narrow_point(setting.baseline),
            align: label.anchor.align,
            size: narrow(setting.size),
            bold: label.bold,
            colour: palette.ink(label.ink),
            text: setting.text,
        });
    }

    fn fits(&self, label: &Label, setting: &mut Setting, viewport: &Viewport) -> Option<()> {
        let align = label.anchor.align;
        let gap = 3.0 * viewport.unit_per_pt;
        let free = |setting: &Setting| {
            let [left, top, right, bottom] = setting.covers(align);
            let apart = |taken: &Area| clip::apart(*taken, [left - gap, top, right + gap, bottom]);
            clip::inside([left, top, right, bottom], viewport.area) && self.taken.iter().all(apart)
        };
        match label.room {
            Room::Stay => clip::inside(setting.covers(align), viewport.area).then_some(()),
            Room::Within(box_m) => {
                let size = box_m.map(|side| side * viewport.scale);
                self.within(setting, &Cell { size, align, pad: 4.0 * viewport.unit_per_pt }, free)
            }
            Room::Dodge | Room::Margin => {
                setting.push_inside(align, viewport.area);
                let (home, level) = (setting.baseline, label.anchor.level);
                let off_signs = |setting: &Setting| self.signs.iter().all(|s| clip::apart(*s, setting.covers(align)));
                dodge(setting, level, |setting| off_signs(setting) && free(setting)).or_else(|| {
                    setting.baseline = home;
                    dodge(setting, level, free)
                })
            }
        }
    }
}

/// The box in which a text lies.
struct Cell {
    /// Across and down, device units.
    size: [f64; 2],
    align: Align,
    /// What is left free within it, device units.
    pad: f64,
}

/// Shifts of a number within its box, parts of the play that it has there, the middle first.
const PLACES: [f64; 5] = [0.0, -0.5, 0.5, -1.0, 1.0];

/// A number that does not fit its box is set smaller, down to where it can just be read.
const SIZES: [f64; 3] = [1.0, 0.86, 0.74];

impl Labels {
    /// Puts a text where its box lets it be seen: off signs and plumb lines if it can, else in the
    /// middle; nowhere where the box is too small or another label lies there.
    fn within(&self, setting: &mut Setting, cell: &Cell, free: impl Fn(&Setting) -> bool) -> Option<()> {
        let size = setting.size;
        let mut covered = None;
        for part in SIZES {
            setting.resize(part * size);
            let play =
                [cell.size[0] - cell.pad - setting.width, cell.size[1] - cell.pad - setting.capital].map(|p| 0.5 * p);
            // Most numbers are settled here: a stack of thousands has thousands of them in every frame.
            if play[0] < 0.0 || play[1] < 0.0 || !free(setting) {
                continue;
            }
            if self.shift_into_sight(setting, cell, play, &free) {
                return Some(());
            }
            covered.get_or_insert(part);
        }
        setting.resize(covered? * size);
        Some(())
    }

    /// Whether a text that fits its box lies clear of signs and plumb lines, there or shifted.
    fn shift_into_sight(
        &self,
        setting: &mut Setting,
        cell: &Cell,
        play: [f64; 2],
        free: &impl Fn(&Setting) -> bool,
    ) -> bool {
        let seen = |setting: &Setting| self.covered.iter().all(|c| clip::apart(*c, setting.covers(cell.align)));
        if seen(setting) {
            return true;
        }
        let home = setting.baseline;
        let along = if cell.size[0] >= cell.size[1] { 0 } else { 1 };
        let shifted = |axis: usize, part: f64| {
            let mut at = home;
            at[axis] += part * play[axis];
            at
        };
        let places =
            PLACES.map(|part| shifted(along, part)).into_iter().chain(PLACES.map(|part| shifted(1 - along, part)));
        for place in places {
            setting.baseline = place;
            if free(setting) && seen(setting) {
                return true;
            }
        }
        setting.baseline = home;
        false
    }
}

/// The area and a hair: a point on its edge lies in it, whatever the last bit says.
fn widened(viewport: &Viewport) -> Area {
    let [left, top, right, bottom] = viewport.area;
    let hair = 0.01 * viewport.unit_per_pt;
    [left - hair, top - hair, right + hair, bottom + hair]
}

fn plate(plate: Plate, covers: Area, unit: f64, palette: &Palette) -> Option<Primitive> {
    let (pad, stroke) = match plate {
        Plate::None => return None,
        Plate::Plain => (1.0, None),
        Plate::Halo => return Some(halo(covers, [2.0 * unit, unit], palette.ground)),
        // No higher than it must be: the edges of thin pieces stay whole.
        Plate::Tint(material, strength) => {
            return Some(halo(covers, [2.0 * unit, 0.4 * unit], palette.material(material, strength)));
        }
        Plate::Framed => (2.0, Some(Stroke::of(Pen::solid(Ink::Line, Weight::Thin), palette, unit))),
    };
    let [left, top, right, bottom] = covers;
    // Descenders hardly matter to a plate, digits have none.
    let (pad, bottom) = (pad * unit, if plate == Plate::Framed { bottom - pad * unit } else { bottom });
    let corners =
        [[left - pad, top - pad], [right + pad, top - pad], [right + pad, bottom + pad], [left - pad, bottom + pad]];
    Some(Primitive::Polygon { points: corners.map(narrow_point).to_vec(), fill: Some(palette.ground), stroke })
}

/// An octagon of this colour that lets a little through.
fn halo([left, top, right, bottom]: Area, [beside, over]: [f64; 2], colour: Rgba) -> Primitive {
    const COVER: u8 = 205;
    // What hangs below the line counts for little: digits have none.
    let bottom = bottom - 0.12 * (bottom - top);
    let [left, top, right, bottom] = [left - beside, top - over, right + beside, bottom + over];
    let cut = (0.3 * (bottom - top)).min(0.3 * (right - left));
    let corners = [
        [left + cut, top],
        [right - cut, top],
        [right, top + cut],
        [right, bottom - cut],
        [right - cut, bottom],
        [left + cut, bottom],
        [left, bottom - cut],
        [left, top + cut],
    ];
    let fill = Some(colour.with_cover(COVER));
    Primitive::Polygon { points: corners.map(narrow_point).to_vec(), fill, stroke: None }
}

/// Moves a setting by whole lines until it is free, first away from the point that it hangs on.
fn dodge(setting: &mut Setting, level: Level, free: impl Fn(&Setting) -> bool) -> Option<()> {
    let home = setting.baseline[1];
    // What hangs under a floor would lie on what stands there if it went up.
    let (line, order) = match level {
        Level::Top => (1.25 * setting.size, [0.0, 1.0, 2.0, 3.0, -1.0, 4.0, -2.0, -3.0]),
        _ => (-1.25 * setting.size, [0.0, 1.0, 2.0, -1.0, 3.0, -2.0, 4.0, -3.0]),
    };
    for lines in order {
        setting.baseline[1] = home + lines * line;
        if free(setting) {
            return Some(());
        }
    }
    None
}

fn setting(label: &Label, at: [f64; 2], unit: f64) -> Setting {
    let text = text::printable(&label.text, label.bold);
    let size = label.size.points() * unit;
    let capital = text::capital_height(size, label.bold);
    let drop = match label.anchor.level {
        Level::Baseline => 0.0,
        Level::Middle => 0.5 * capital,
        Level::Top => capital,
    };
    let baseline = [at[0] + label.shift_pt[0] * unit, at[1] - label.shift_pt[1] * unit + drop];
    Setting { width: text::width(&text, size, label.bold), text, size, capital, baseline }
}

impl Setting {
    /// Sets the text in another size, its middle where it was.
    fn resize(&mut self, size: f64) {
        let part = size / self.size;
        self.baseline[1] -= 0.5 * self.capital * (1.0 - part);
        (self.size, self.width, self.capital) = (size, part * self.width, part * self.capital);
    }

    /// Moves the text sideways into the area, where it is narrow enough.
    fn push_inside(&mut self, align: Align, area: Area) {
        let [left, _, right, _] = self.covers(align);
        self.baseline[0] += (area[0] - left).max(0.0) - (right - area[2]).max(0.0);
    }

    /// The rectangle of the text: capitals, and what hangs below the line.
    fn covers(&self, align: Align) -> Area {
        let left = match align {
            Align::Left => self.baseline[0],
            Align::Centre => self.baseline[0] - 0.5 * self.width,
            Align::Right => self.baseline[0] - self.width,
        };
        [left, self.baseline[1] - self.capital, left + self.width, self.baseline[1] + 0.2 * self.size]
    }
}
