//! Rulers along the lower and the left edge of an area, in the plan's units.

use super::projection::View;
use crate::figure::{Align, Anchor, Figure, Ink, Label, Level, Pen, Plate, Room, TextSize, Weight};
use crate::lower::Viewport;
use crate::text;
use quantity::{Grain, Kind, Units};

/// The least distance between two numbers, points.
const APART_PT: f64 = 42.0;
/// Length of a tick, points.
const TICK_PT: f64 = 4.0;

/// Ticks and numbers for what a viewport shows: stations, buttock lines or waterlines. They
/// stand just inside the area's lower and left edges.
pub fn rulers(viewport: &Viewport, view: View, units: Units) -> Figure {
    let mut figure = Figure::default();
    let unit = units.unit(Kind::Length, Grain::Coarse);
    let step = step(APART_PT * viewport.unit_per_pt / viewport.scale / unit.si);
    let low = viewport.to_plane([viewport.area[0], viewport.area[3]]);
    let high = viewport.to_plane([viewport.area[2], viewport.area[1]]);
    let tick_m = TICK_PT * viewport.unit_per_pt / viewport.scale;
    // The ends are left free: half a number there would be cut.
    let end = 12.0 * viewport.unit_per_pt / viewport.scale;
    let [across, up] = names(view);
    let pt = viewport.unit_per_pt / viewport.scale;
    let name = |name: &str| format!("{name}, {}", unit.symbol);
    // The name of the level axis stands at its right end, in place of a number.
    let taken = (text::width(&name(across), TextSize::Small.points(), false) + 10.0) * pt;
    let corner = Label::caption([high[0], low[1]], name(across));
    let anchor = Anchor { align: Align::Right, level: Level::Baseline };
    figure.label(corner.anchored(anchor, [-4.0, TICK_PT + 2.0]).room(Room::Stay));
    for value in marks((low[0] + end) / unit.si, (high[0] - end - taken) / unit.si, step) {
        let u = value * unit.si;
        figure.line(vec![[u, low[1]], [u, low[1] + tick_m]], Pen::solid(Ink::Quiet, Weight::Thin));
        // From the front the aircraft's right, which is positive, lies to the left.
        let shown = if view == View::Front { -value } else { value };
        let label = Label::caption([u, low[1]], number(shown, step)).anchored(Anchor::ABOVE, [0.0, TICK_PT + 2.0]);
        // What is drawn runs on under the numbers.
        figure.label(label.room(Room::Stay).on(Plate::Plain));
    }
    let anchor = Anchor { align: Align::Left, level: Level::Top };
    let head = Label::caption([low[0], high[1]], name(up)).anchored(anchor, [TICK_PT + 2.0, -5.0]);
    figure.label(head.room(Room::Stay));
    for value in marks((low[1] + 1.5 * end) / unit.si, (high[1] - 20.0 * pt) / unit.si, step) {
        let v = value * unit.si;
        figure.line(vec![[low[0], v], [low[0] + tick_m, v]], Pen::solid(Ink::Quiet, Weight::Thin));
        let anchor = Anchor { align: Align::Left, level: Level::Middle };
        let label = Label::caption([low[0], v], number(value, step)).anchored(anchor, [TICK_PT + 2.0, 0.0]);
        figure.label(label.room(Room::Dodge).on(Plate::Plain));
    }
    figure
}

/// A grid behind what is drawn: lines at round lengths, never closer than twelve points.
pub fn grid(viewport: &Viewport, units: Units) -> Figure {
    const APART_PT: f64 = 12.0;
    let mut figure = Figure::default();
    let unit = units.unit(Kind::Length, Grain::Coarse);
    let least = APART_PT * viewport.unit_per_pt / viewport.scale;
    let step = match units {
        Units::Metric => step(least / unit.si) * unit.si,
        // An inch, three, six, a foot; then whole feet.
        Units::InchPound => {
            let inches = [1.0, 3.0, 6.0, 12.0].map(|inch| inch * 0.0254);
            inches.into_iter().find(|inch| *inch >= least).unwrap_or_else(|| step(least / 0.3048) * 0.3048)
        }
    };
    let low = viewport.to_plane([viewport.area[0], viewport.area[3]]);
    let high = viewport.to_plane([viewport.area[2], viewport.area[1]]);
    let pen = Pen::solid(Ink::Quiet, Weight::Hair);
    for k in marks(low[0], high[0], step) {
        figure.line(vec![[k, low[1]], [k, high[1]]], pen);
    }
    for k in marks(low[1], high[1], step) {
        figure.line(vec![[low[0], k], [high[0], k]], pen);
    }
    figure
}

/// The names of the axes: across, and up.
fn names(view: View) -> [&'static str; 2] {
    match view {
        View::Side => ["station", "waterline"],
        View::Front => ["buttock line", "waterline"],
        View::Above => ["station", "buttock line"],
    }
}

/// The least of 1, 2, 5 times a power of ten that is not below `least`.
fn step(least: f64) -> f64 {
    let power = 10_f64.powf(least.max(1e-9).log10().floor());
    [1.0, 2.0, 5.0].into_iter().map(|m| m * power).find(|s| *s >= least).unwrap_or(10.0 * power)
}

/// Multiples of the step between two values, a thousand at the most.
fn marks(low: f64, high: f64, step: f64) -> impl Iterator<Item = f64> {
    let first = (low / step).ceil();
    (0..1000).map(move |i| (first + f64::from(i)) * step).take_while(move |v| *v <= high)
}

fn number(value: f64, step: f64) -> String {
    let decimals = if step >= 1.0 {
        0
    } else if step >= 0.1 {
        1
    } else if step >= 0.01 {
        2
    } else {
        3
    };
    format!("{:.decimals$}", value + 0.0)
}
