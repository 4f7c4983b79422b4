//! Where a piece goes, in words and in numbers from named datums.

use assess::Closed;
use nalgebra::Point3;
use plan::{Plan, Turn};
use quantity::frame::side;
use quantity::{Grain, Length, Quantity};

/// How far beside the bed mark A is drawn, m.
const BESIDE_M: f64 = 0.05;

/// From where places are measured on the bed.
#[derive(Clone, Debug, PartialEq)]
pub struct Datums {
    /// The bearing whose front edge is the fore-aft datum, in words.
    pub front: String,
    /// That edge, bed frame x, m.
    pub front_m: f64,
    /// The datum across, in words: the bed's y = 0.
    pub across: &'static str,
}

impl Datums {
    /// The front edge of the foremost bearing, and the centreline.
    pub fn of(plan: &Plan) -> Self {
        let foremost = plan.bed.bearings.iter().min_by(|a, b| a.x[0].si().total_cmp(&b.x[0].si()));
        let (front, front_m) = match foremost {
            Some(bearing) => (format!("the front edge of “{}”", bearing.name), bearing.x[0].si()),
            None => ("the bed's origin".to_owned(), 0.0),
        };
        let on_axis = plan.bed.origin[1].si().abs() < 5e-4;
        let across = if on_axis { "the centreline" } else { "the seat's centreline" };
        Self { front, front_m, across }
    }

    /// Where mark A is on both sides of the bed, floor frame, m.
    pub fn marks(&self, plan: &Plan) -> [Point3<f64>; 2] {
        let sides = plan.bed.bearings.iter().flat_map(|bearing| bearing.y.map(Quantity::si));
        let [left, right] = sides.fold([-0.1, 0.1], |[low, high]: [f64; 2], y| [low.min(y), high.max(y)]);
        [left - BESIDE_M, right + BESIDE_M].map(|y| plan.floor_from_bed() * Point3::new(self.front_m, y, 0.0))
    }

    /// How mark and string are made before the first piece, where no piece will cover them.
    pub fn made(&self) -> String {
        format!(
            "Mark A: level with {}, on both sides of the bed, where no piece will cover it. String: over {}, nail to \
             nail, above what will lie there or off it fore and aft.",
            self.front, self.across
        )
    }

    /// What each page says of them, with how closely pieces must be put down.
    pub fn short(&self, plan: &Plan) -> String {
        let scatter = plan.allow.placement_scatter.shown(plan.units, Grain::Fine);
        format!(
            "Front edge from A (level with {}), left edge from the string ({}), along the bed, within ± {scatter}; left \
             and right as seated. Stop where a scale is farther off than ±.",
            self.front, self.across
        )
    }
}

/// Where the piece of a step goes, for a table whose sentence names the datums: how it lies and in
/// which row, its front edge, its left edge; numbers in the plan's fine unit of length.
pub(super) fn place_cells(plan: &Plan, layout: &Closed, step: usize) -> [String; 3] {
    let place = &plan.stack[step];
    let [length, width, _] = plan.extent_of(place).map(Quantity::si);
    let [x, y] = place.at.map(Quantity::si);
    let lies = if place.turn == Turn::Lengthwise { "Lengthwise" } else { "Crosswise" };
    let fore = x - length / 2.0 - Datums::of(plan).front_m;
    let row = row_words(plan, layout, step, &|rank, of| format!(", {} of {of}", short_ordinal(rank)));
    [format!("{lies}{row}"), taped(plan, fore, (0, "at A")), taped(plan, y - width / 2.0, (1, "at string"))]
}

/// `143 aft`; another word where that is shown as zero.
fn taped(plan: &Plan, m: f64, (axis, zero): (usize, &str)) -> String {
    let shown = |m: f64| Length::m(m).shown_bare(plan.units, Grain::Fine);
    if shown(m.abs()) == shown(0.0) {
        return zero.to_owned();
    }
    format!("{} {}", shown(m.abs()), side(axis, m))
}

/// Where the piece of a step goes: how it lies, which row and which place in it, and its front
/// and left edges from the datums, in the plan's units.
pub fn place_words(plan: &Plan, layout: &Closed, step: usize) -> String {
    let place = &plan.stack[step];
    let datums = Datums::of(plan);
    let [length, width, _] = plan.extent_of(place).map(Quantity::si);
    let [x, y] = place.at.map(Quantity::si);
    let lies = if place.turn == Turn::Lengthwise { "Lengthwise" } else { "Crosswise" };
    let fore = distance(plan, x - length / 2.0 - datums.front_m, (0, "flush with"));
    let across = distance(plan, y - width / 2.0, (1, "on"));
    let row = row_words(plan, layout, step, &|rank, of| format!(", {} of {of} from the front", ordinal(rank)));
    format!("{lies}{row}. Front edge {fore} {}; left edge {across} {}.", datums.front, datums.across)
}

/// `143 mm aft of`; another word where that is shown as zero.
fn distance(plan: &Plan, m: f64, (axis, zero): (usize, &str)) -> String {
    let shown = |m: f64| Length::m(m).shown_taped(plan.units);
    if shown(m.abs()) == shown(0.0) {
        return zero.to_owned();
    }
    format!("{} {} of", shown(m.abs()), side(axis, m))
}

/// `, left row, second of 3 from the front`; the rank is told as asked.
fn row_words(plan: &Plan, layout: &Closed, step: usize, rank_words: &dyn Fn(usize, usize) -> String) -> String {
    let layer = &layout.pile.layer;
    let alike: Vec<usize> = (0..plan.steps()).filter(|i| layer.get(*i) == layer.get(step)).collect();
    let rows = rows(plan, &alike);
    let Some(row) = rows.iter().position(|r| r.contains(&step)) else { return String::new() };
    let mut words = named_row(row, rows.len());
    let mut along = rows[row].clone();
    along.sort_by(|a, b| plan.stack[*a].at[0].si().total_cmp(&plan.stack[*b].at[0].si()));
    if along.len() > 1
        && let Some(rank) = along.iter().position(|i| *i == step)
    {
        words.push_str(&rank_words(rank + 1, along.len()));
    }
    words
}

fn named_row(row: usize, count: usize) -> String {
    match (row, count) {
        (_, 1) => String::new(),
        (0, 2 | 3) => ", left row".to_owned(),
        (1, 2) | (2, 3) => ", right row".to_owned(),
        (1, 3) => ", middle row".to_owned(),
        _ => format!(", row {} of {count} from the left", row + 1),
    }
}

/// Pieces of a layer by rows from left to right: a new row begins where a centre lies further
/// than 0.4 of the narrower piece's width from the one before.
fn rows(plan: &Plan, steps: &[usize]) -> Vec<Vec<usize>> {
    let centre = |i: &usize| plan.stack[*i].at[1].si();
    let width = |i: &usize| plan.extent_of(&plan.stack[*i])[1].si();
    let mut ordered = steps.to_vec();
    ordered.sort_by(|a, b| centre(a).total_cmp(&centre(b)).then(a.cmp(b)));
    let mut rows: Vec<Vec<usize>> = Vec::new();
    for step in ordered {
        let joins = rows
            .last()
            .and_then(|row| row.last())
            .is_some_and(|before| centre(&step) - centre(before) <= 0.4 * width(&step).min(width(before)));
        match rows.last_mut() {
            Some(row) if joins => row.push(step),
            _ => rows.push(vec![step]),
        }
    }
    rows
}

/// `2nd`.
fn short_ordinal(number: usize) -> String {
    let ending = match (number % 10, number % 100) {
        (1, teen) if teen != 11 => "st",
        (2, teen) if teen != 12 => "nd",
        (3, teen) if teen != 13 => "rd",
        _ => "th",
    };
    format!("{number}{ending}")
}

fn ordinal(number: usize) -> String {
    const WORDS: [&str; 10] =
        ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"];
    WORDS.get(number - 1).map_or_else(|| format!("number {number}"), |w| (*w).to_owned())
}

/// Where the piece of a step is taped.
#[derive(Clone, Debug, PartialEq)]
pub struct Taped {
    /// How it lies, and which row and place in it.
    pub lies: String,
    /// Front edge, left edge: what is measured from where, and how far.
    pub edges: [[String; 2]; 2],
}

/// Where the piece of a step is taped, each figure by itself.
pub fn taped_place(plan: &Plan, layout: &Closed, step: usize) -> Taped {
    let datums = Datums::of(plan);
    let [lies, ..] = place_cells(plan, layout, step);
    let place = &plan.stack[step];
    let [length, width, _] = plan.extent_of(place).map(Quantity::si);
    let [x, y] = place.at.map(Quantity::si);
    let shown = |m: f64, axis: usize, zero: &str| {
        let shown = |m: f64| Length::m(m).shown_taped(plan.units);
        if shown(m.abs()) == shown(0.0) { zero.to_owned() } else { format!("{} {}", shown(m.abs()), side(axis, m)) }
    };
    Taped {
        lies,
        edges: [
            [format!("front edge from {}", datums.front), shown(x - length / 2.0 - datums.front_m, 0, "flush")],
            [format!("left edge from {}", datums.across), shown(y - width / 2.0, 1, "on it")],
        ],
    }
}
