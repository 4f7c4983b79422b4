//! Dimensions as a tape measure reads them: each value at the end of a thin line from the edge that
//! it measures, all from one datum, so that nothing has to be added up.

use super::{View, catch, fixture, regions, scene::Scene};
use crate::figure::{Align, Anchor, Figure, Fill, Ink, Label, Level, Pen, Plate, Sign, TextSize, Weight};
use nalgebra::Point3;
use quantity::{Grain, Length, Quantity};

/// Room that a value takes, across and up, with the air that it wants.
#[derive(Clone, Copy)]
struct Room([f64; 2]);

impl Room {
    /// In a drawing that fills its frame, whose size is told in m.
    fn in_drawing(size_m: f64) -> Self {
        Self([0.085 * size_m, 0.04 * size_m])
    }

    /// In a drawing of these bounds (m), its dimensions among them, that is fitted into a frame of this size on paper, mm.
    fn on_paper([low, high]: [[f64; 2]; 2], room_mm: [f64; 2]) -> Self {
        let [across, up] = [0, 1].map(|axis| (high[axis] - low[axis]) / room_mm[axis].max(1.0));
        Self(VALUE_MM.map(|mm| mm * across.max(up)))
    }
}

/// A value such as `104.00` in small type, mm.
const VALUE_MM: [f64; 2] = [12.0, 4.2];
/// Length of the shortest line from a drawing to its value, a part of the drawing's size.
const REACH: f64 = 0.03;
/// Values that would touch stand on so many lengths by turns.
const TIERS: usize = 3;

/// One dimension: where it lies on its axis of the drawing and where its line begins on the other
/// one, m, and what is written there.
struct Ordinate {
    at: f64,
    from: f64,
    text: String,
    strong: bool,
}

/// Ordinates above a drawing (along u) and at its left (along v); above it values stand clear of these lines too.
fn ordinates(
    figure: &mut Figure,
    [low, high]: [[f64; 2]; 2],
    [across, up]: [&[Ordinate]; 2],
    (Room(room), lines): (Room, &[f64]),
) {
    let reach = REACH * size_m([low, high]);
    let tiered = apart(tiers(across, room[0], lines), room[0], lines);
    for (tier, one) in &tiered {
        let end = high[1] + reach + 1.25 * room[1] * tier;
        figure.line(vec![[one.at, one.from], [one.at, end]], pen(one));
        let (align, shift) = over(&tiered, (*tier, one), room[0], lines);
        let anchor = Anchor { align, level: Level::Baseline };
        figure.label(label([one.at, end], one, anchor, [shift, 1.5]));
    }
    let tiered = tiers(up, room[1], &[]);
    for (tier, one) in &tiered {
        let end = low[0] - reach - 1.06 * room[0] * tier;
        figure.line(vec![[one.from, one.at], [end, one.at]], pen(one));
        let longer = tiered.iter().filter(|(other, _)| other > tier).map(|(_, other)| other.at);
        let (level, shift) = match beside_lines(longer, one.at, BESIDE * room[1]).0 {
            Align::Centre => (Level::Middle, 0.0),
            // The longer line runs above: the value hangs under its own one.
            Align::Right => (Level::Top, -0.8),
            Align::Left => (Level::Baseline, 1.2),
        };
        let anchor = Anchor { align: Align::Right, level };
        figure.label(label([end, one.at], one, anchor, [-1.5, shift]));
    }
}

/// Where the value of an ordinate stands over the end of its line.
fn over(tiered: &[(f64, &Ordinate)], (tier, one): (f64, &Ordinate), room: f64, lines: &[f64]) -> (Align, f64) {
    let longer = tiered.iter().filter(|(other, _)| *other > tier).map(|(_, other)| other.at);
    beside_lines(longer.chain(lines.iter().copied()), one.at, BESIDE * room)
}

/// Values that lie over one another on a tier, since lines beside them push them there, are taken apart: the later one
/// goes a tier higher.
fn apart<'o>(mut tiered: Vec<(f64, &'o Ordinate)>, room: f64, lines: &[f64]) -> Vec<(f64, &'o Ordinate)> {
    for _ in 0..tiered.len() {
        let reach = |(tier, one): &(f64, &'o Ordinate)| match over(&tiered, (*tier, one), room, lines).0 {
            Align::Centre => [one.at - 0.5 * WIDE * room, one.at + 0.5 * WIDE * room],
            Align::Left => [one.at, one.at + WIDE * room],
            Align::Right => [one.at - WIDE * room, one.at],
        };
        let spans: Vec<_> = tiered.iter().map(reach).collect();
        let meets = |later: usize| {
            (0..later).any(|first| {
                let same = (tiered[first].0 - tiered[later].0).abs() < 0.5;
                same && spans[first][1] > spans[later][0] && spans[later][1] > spans[first][0]
            })
        };
        let Some(later) = (1..tiered.len()).find(|later| meets(*later)) else { break };
        tiered[later].0 += 1.0;
    }
    tiered
}

/// A value itself, a part of the room that it wants.
const WIDE: f64 = 0.88;

/// Half of a value with the air that it wants beside a line, a part of its room.
const BESIDE: f64 = 0.55;

/// Where a value stands so that no longer line beside its own runs through it: over its line, or at the other side.
fn beside_lines(longer: impl Iterator<Item = f64>, at: f64, half_m: f64) -> (Align, f64) {
    let off = longer.map(|line| line - at).filter(|off| off.abs() < half_m);
    match off.min_by(|a, b| a.abs().total_cmp(&b.abs())) {
        Some(off) if off > 0.0 => (Align::Right, -1.5),
        Some(_) => (Align::Left, 1.5),
        None => (Align::Centre, 0.0),
    }
}

fn size_m([low, high]: [[f64; 2]; 2]) -> f64 {
    (high[0] - low[0]).max(high[1] - low[1]).max(0.1)
}

/// Each value with its tier. One that stands aside from a line before it takes the room of the next one.
fn tiers<'o>(ordinates: &'o [Ordinate], crowded_m: f64, lines: &[f64]) -> Vec<(f64, &'o Ordinate)> {
    let mut sorted: Vec<&Ordinate> = ordinates.iter().collect();
    sorted.sort_by(|a, b| a.at.total_cmp(&b.at));
    let aside_m = BESIDE * crowded_m;
    let middle = |at: f64| {
        let is_aside = lines.iter().any(|line| (0.0..aside_m).contains(&(at - line)));
        if is_aside { at + aside_m } else { at }
    };
    let (mut before, mut tier) = (f64::NEG_INFINITY, 0);
    let of = |one: &'o Ordinate| {
        tier = if one.at - before < crowded_m { (tier + 1) % TIERS } else { 0 };
        before = middle(one.at);
        #[expect(clippy::cast_precision_loss, reason = "a count of three")]
        (tier as f64, one)
    };
    sorted.into_iter().map(of).collect()
}

fn pen(one: &Ordinate) -> Pen {
    if one.strong { Pen::chain(Ink::Line, Weight::Thin) } else { Pen::solid(Ink::Quiet, Weight::Hair) }
}

fn label(at: [f64; 2], one: &Ordinate, anchor: Anchor, shift: [f64; 2]) -> Label {
    let label = Label::new(at, one.text.as_str()).size(TextSize::Small).anchored(anchor, shift);
    if one.strong { label.bold() } else { label }
}

/// Keeps one of several at the same place.
fn once(mut ordinates: Vec<Ordinate>) -> Vec<Ordinate> {
    ordinates.sort_by(|a, b| a.at.total_cmp(&b.at).then(b.strong.cmp(&a.strong)));
    ordinates.dedup_by(|a, b| a.text == b.text || (a.at - b.at).abs() < 5e-4);
    ordinates
}

/// From what places are taped.
#[derive(Clone, Copy, Debug)]
pub struct Taping<'a> {
    /// What is written beside the mark.
    pub mark: &'a str,
    /// The mark, bed frame x, m.
    pub front_m: f64,
    /// On which sides of the string it is made: left, right.
    pub sides: [bool; 2],
    /// The string, bed frame y, m.
    pub string_m: f64,
}

/// The layer in hand from above with its front and left edges, from the mark and from the string; in the plan's fine
/// unit of length.
pub fn marked(scene: &Scene, taped: Taping) -> Figure {
    let mut figure = taped_in(scene, taped, 1.0);
    super::nose(&mut figure, View::Above);
    figure
}

/// The same without the arrow to the nose, for a low drawing beside which that stands.
pub fn marked_bare(scene: &Scene, taped: Taping) -> Figure {
    taped_in(scene, taped, LOW)
}

/// So much more of a low drawing than of one that fills its frame a value takes.
const LOW: f64 = 2.3;

fn taped_in(scene: &Scene, taped: Taping, value: f64) -> Figure {
    let plan = scene.plan;
    let mut figure = super::above::in_hand(scene);
    let Some(bounds) = figure.bounds() else { return figure };
    let shown = |m: f64| Length::m(m.abs()).shown_bare(plan.units, Grain::Fine);
    let in_plan = |x: f64, y: f64| View::Above.project(plan.floor_from_bed() * Point3::new(x, y, 0.0));
    let (mut across, mut up) = (Vec::new(), Vec::new());
    for step in scene.pieces().filter(|step| scene.layer == Some(scene.layer_of(*step))) {
        let place = &plan.stack[step];
        let [length, width, _] = plan.extent_of(place).map(Quantity::si);
        let [x, y] = place.at.map(Quantity::si);
        let (front, left) = (x - length / 2.0, y - width / 2.0);
        // From the nearer corner of the piece, so that one sees whose edge it is.
        let corner = [in_plan(front, 0.0)[0], in_plan(0.0, left)[1]];
        across.push(Ordinate { at: corner[0], from: corner[1], text: shown(front - taped.front_m), strong: false });
        up.push(Ordinate { at: corner[1], from: corner[0], text: shown(left - taped.string_m), strong: false });
    }
    // What lies at the mark or at the string needs no figure.
    across.retain(|one| one.text != shown(0.0));
    up.retain(|one| one.text != shown(0.0));
    let datums = [in_plan(taped.front_m, 0.0)[0], in_plan(0.0, taped.string_m)[1]];
    let (across, room) = (once(across), Room::in_drawing(value * size_m(bounds)));
    mark_and_string(&mut figure, bounds, (taped, datums), above_values(&across, bounds, (room, &datums[..1])));
    ordinates(&mut figure, bounds, [&across, &once(up)], (room, &datums[..1]));
    figure
}

/// How far above a drawing a sign stands that lies forward of these lines: clear of the values that do.
fn above_values(across: &[Ordinate], bounds: [[f64; 2]; 2], (Room(room), lines): (Room, &[f64])) -> f64 {
    let (size_m, near_m) = (size_m(bounds), 1.5 * room[0]);
    let is_forward = |one: &Ordinate| lines.iter().any(|line| one.at < *line && line - one.at < near_m);
    if !across.iter().any(is_forward) {
        return 0.5 * OUT * size_m;
    }
    let highest = tiers(across, room[0], lines).into_iter().map(|(tier, _)| tier).fold(0.0, f64::max);
    REACH * size_m + room[1] * (2.4 + 1.25 * highest)
}

/// How far mark and string reach beyond a drawing, a part of its size.
const OUT: f64 = 0.16;

/// The mark on the sides where it is made, on one of them above the values, and the string fore and aft, beyond what
/// covers the bed.
fn mark_and_string(
    figure: &mut Figure,
    [low, high]: [[f64; 2]; 2],
    (taped, [front, centre]): (Taping, [f64; 2]),
    above_m: f64,
) {
    let out = OUT * size_m([low, high]);
    let ends = [[front, low[1] - 0.5 * out], [front, high[1] + above_m]];
    figure.line(ends.to_vec(), Pen::chain(Ink::Line, Weight::Medium));
    // Right is at the top.
    for (end, _) in ends.into_iter().zip(taped.sides).filter(|(_, is_made)| *is_made) {
        // Forward of its line: what is taped from it stands aft. Where the drawing ends with its line it moves a little.
        let label = Label::new(end, taped.mark).bold().size(TextSize::Large).on(Plate::Framed);
        figure.label(label.anchored(Anchor::RIGHT, [-3.0, 0.0]).room(crate::figure::Room::Dodge));
    }
    let string = [[low[0] - 0.3 * out, centre], [high[0] + out, centre]];
    figure.line(string.to_vec(), Pen::chain(Ink::Line, Weight::Medium));
    figure.label(Label::new(string[1], "string").anchored(Anchor::LEFT, [3.0, 0.0]));
}

/// The bare article on its supports with dimensions, floor frame, in the plan's unit of stations:
/// from the side with stations and waterlines, from above with stations and buttock lines. The room
/// on paper (mm) into which it will be fitted tells which values would touch.
pub fn dimensioned(scene: &Scene, view: View, room_mm: [f64; 2]) -> Figure {
    let bare = if view == View::Above { stand(scene) } else { bare_side(scene) };
    let Some(bounds) = bare.bounds() else { return bare };
    let shown = |m: f64| Length::m(m).shown_bare(scene.plan.units, Grain::Coarse);
    let mut across = Vec::new();
    let mut up = Vec::new();
    for at in points(scene) {
        let [u, v] = view.project(at);
        across.push(Ordinate { at: u, from: v, text: shown(u), strong: false });
        up.push(Ordinate { at: v, from: u, text: shown(v), strong: false });
    }
    let (across, up) = (once(across), once(up));
    // Dimensions make the drawing larger, and so its scale on paper smaller: told by what the last one came to.
    let mut figure = bare.clone();
    for _ in 0..3 {
        let room = Room::on_paper(figure.bounds().unwrap_or(bounds), room_mm);
        figure = bare.clone();
        ordinates(&mut figure, bounds, [&across, &up], (room, &[]));
        super::nose(&mut figure, view);
    }
    figure
}

/// What is measured: supports, both ends of straps, tops of catch blocks, the bed's origin; floor frame, m.
fn points(scene: &Scene) -> Vec<Point3<f64>> {
    let plan = scene.plan;
    let supports = plan.fixture.supports.iter().map(|support| plan::point(support.at));
    let straps = plan
        .fixture
        .hold_downs
        .iter()
        .flat_map(|strap| [plan.floor_from_article() * plan::point(strap.on_article), plan::point(strap.on_floor)]);
    let bed = std::iter::once(plan.floor_from_bed() * Point3::origin());
    let blocks = plan.fixture.catch_blocks.iter().map(|block| plan::point(block.at));
    supports.chain(straps).chain(blocks).chain(bed).collect()
}

/// Outline, bearings, supports, straps and the article's centroid from the side.
fn bare_side(scene: &Scene) -> Figure {
    let (mut figure, view) = (Figure::default(), View::Side);
    fixture::hold_downs(&mut figure, scene, view);
    catch::blocks(&mut figure, scene, view);
    regions::outline(&mut figure, scene);
    fixture::supports(&mut figure, scene, view);
    regions::bearings(&mut figure, scene, view);
    fixture::floor(&mut figure, scene, view);
    fixture::names(&mut figure, scene, view);
    catch::names(&mut figure, scene, view);
    article_centroid(&mut figure, scene, view);
    figure
}

fn article_centroid(figure: &mut Figure, scene: &Scene, view: View) {
    let centroid = view.project(scene.plan.floor_from_article() * plan::point(scene.plan.article.centroid));
    figure.sign(centroid, Sign::Centroid, Ink::Is);
    let label = Label::caption(centroid, "article").ink(Ink::Is).anchored(Anchor::LEFT, [8.0, 0.0]);
    figure.label(label.in_margin());
}

/// Footprint, supports, straps, bearings and the article's centroid from above.
fn stand(scene: &Scene) -> Figure {
    let (plan, view) = (scene.plan, View::Above);
    let mut figure = Figure::default();
    let footprint = assess::footprint_m(plan);
    if footprint.len() > 2 {
        figure.polygon(footprint, Fill::Tint(Ink::Structure), Some(Pen::solid(Ink::Line, Weight::Medium)));
    }
    for bearing in &plan.bed.bearings {
        let top = bearing.top.si();
        let corners = scene.box_in_floor((bearing.x.map(Quantity::si), bearing.y.map(Quantity::si), [top, top]));
        figure.polygon(view.outline(&corners).to_vec(), Fill::Ground, Some(Pen::solid(Ink::Structure, Weight::Thin)));
    }
    catch::blocks(&mut figure, scene, view);
    catch::names(&mut figure, scene, view);
    for strap in &plan.fixture.hold_downs {
        let ends = [plan.floor_from_article() * plan::point(strap.on_article), plan::point(strap.on_floor)];
        figure.line(ends.map(|end| view.project(end)).to_vec(), Pen::dashed(Ink::Structure, Weight::Medium));
        let label = Label::caption(view.project(ends[1]), strap.name.as_str()).anchored(Anchor::LEFT, [6.0, 0.0]);
        figure.label(label.in_margin());
    }
    for support in &plan.fixture.supports {
        let at = view.project(plan::point(support.at));
        figure.sign(at, Sign::SupportUp, Ink::Structure);
        let label = Label::new(at, support.name.as_str()).size(TextSize::Small).anchored(Anchor::BELOW, [0.0, -10.0]);
        figure.label(label.in_margin());
    }
    article_centroid(&mut figure, scene, view);
    figure
}
