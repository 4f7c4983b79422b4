//! Where labels come to lie: anchored, and out of each other's way.

use super::clip::{self, Area};
use super::primitive::{Primitive, Stroke, narrow, narrow_point};
use super::viewport::Viewport;
use crate::figure::{Align, Ink, Label, Level, Pen, Plate, Room, Weight};
use crate::palette::Palette;
use crate::text;

/// Labels set so far, as rectangles on the device.
#[derive(Default)]
pub(super) struct Labels {
    taken: Vec<Area>,
}

struct Setting {
    text: String,
    size: f64,
    width: f64,
    capital: f64,
    baseline: [f64; 2],
}

impl Labels {
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
        self.taken.push(covers);
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
            Room::Within([width, height]) => {
                let pad = 4.0 * viewport.unit_per_pt;
                let roomy =
                    setting.width + pad <= width * viewport.scale && setting.capital + pad <= height * viewport.scale;
                (roomy && free(setting)).then_some(())
            }
            Room::Dodge => {
                setting.push_inside(align, viewport.area);
                dodge(setting, label.anchor.level, free)
            }
        }
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
        Plate::Framed => (2.0, Some(Stroke::of(Pen::solid(Ink::Line, Weight::Thin), palette, unit))),
    };
    let [left, top, right, bottom] = covers;
    // Descenders hardly matter to a plate, digits have none.
    let (pad, bottom) = (pad * unit, if plate == Plate::Framed { bottom - pad * unit } else { bottom });
    let corners =
        [[left - pad, top - pad], [right + pad, top - pad], [right + pad, bottom + pad], [left - pad, bottom + pad]];
    Some(Primitive::Polygon { points: corners.map(narrow_point).to_vec(), fill: Some(palette.ground), stroke })
}

/// Moves a setting by whole lines until it is free, first away from the point that it hangs on.
fn dodge(setting: &mut Setting, level: Level, free: impl Fn(&Setting) -> bool) -> Option<()> {
    let home = setting.baseline[1];
    let line = setting.size * if level == Level::Top { 1.25 } else { -1.25 };
    for lines in [0.0, 1.0, 2.0, -1.0, 3.0, -2.0, 4.0, -3.0] {
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
