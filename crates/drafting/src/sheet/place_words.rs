//! Where a piece goes, in words and in numbers from named datums.

use assess::Closed;
use nalgebra::Point3;
use plan::{Mark, Plan, Turn};
use quantity::frame::side;
use quantity::{Grain, Length, Quantity};

/// How far beside the bed mark A is drawn, m.
const BESIDE_M: f64 = 0.05;

/// From where places are measured on the bed: the first mark of the plan and its string. What the plan leaves out
/// is found by the seat itself: the front edge of the foremost bearing, the bed's axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Datums {
    /// What is written beside the mark: `A`.
    pub mark: String,
    /// The fore-aft datum in words.
    pub front: String,
    /// The same, bed frame x, m.
    pub front_m: f64,
    /// The datum across in words.
    pub across: String,
    /// The same, bed frame y, m.
    pub across_m: f64,
    /// Whether the plan has a string of its own.
    has_string: bool,
    /// How the mark is made; how the string is drawn.
    made: [String; 2],
    /// Where the plan has its marks, bed frame, m; none: beside the bed, level with the datum.
    marked: Vec<(String, Point3<f64>)>,
}

/// The name of a mark that the plan does not have.
const UNNAMED: &str = "A";

impl Datums {
    /// The plan's own, else those of the seat.
    pub fn of(plan: &Plan) -> Self {
        let marked: Vec<_> = plan.bed.marks.iter().map(|mark| (mark.name.clone(), plan::point(mark.at))).collect();
        let (mark, front, front_m, mark_made) = match plan.bed.marks.first() {
            Some(mark) => by_mark(plan, mark),
            None => by_bearing(plan),
        };
        let (across, across_m, string_made) = by_string(plan);
        let has_string = plan.bed.string.is_some();
        Self { mark, front, front_m, across, across_m, has_string, made: [mark_made, string_made], marked }
    }

    /// Where the marks are, floor frame, m, with what is written there: those of the plan, else two, level with
    /// the datum, one on each side of the bed.
    pub fn marks(&self, plan: &Plan) -> Vec<(String, Point3<f64>)> {
        let in_floor = |(name, at): (String, Point3<f64>)| (name, plan.floor_from_bed() * at);
        if !self.marked.is_empty() {
            return self.marked.iter().cloned().map(in_floor).collect();
        }
        let sides = plan.bed.bearings.iter().flat_map(|bearing| bearing.y.map(Quantity::si));
        let [left, right] = sides.fold([-0.1, 0.1], |[low, high]: [f64; 2], y| [low.min(y), high.max(y)]);
        let beside = [left - BESIDE_M, right + BESIDE_M];
        beside.map(|y| in_floor((self.mark.clone(), Point3::new(self.front_m, y, 0.0)))).to_vec()
    }

    /// On which sides of the string the mark is made from which places are told: left, right.
    pub(super) fn sides(&self) -> [bool; 2] {
        if self.marked.is_empty() {
            return [true; 2];
        }
        let here = |at: &Point3<f64>| (at.x - self.front_m).abs() < 5e-4;
        let across = || self.marked.iter().filter(|(_, at)| here(at)).map(|(_, at)| at.y - self.across_m);
        [across().any(|y| y <= 0.0), across().any(|y| y > 0.0)]
    }

    /// The marks by their places fore and aft, bed frame x, m, the one from which places are told first; of several
    /// at one place the first.
    pub fn along(&self) -> impl Iterator<Item = (&str, f64)> {
        let own = (self.mark.as_str(), self.front_m);
        let others = self.marked.iter().map(|(mark, at)| (mark.as_str(), at.x));
        [own].into_iter().chain(others.filter(move |(_, at_m)| (at_m - own.1).abs() > 5e-4))
    }

    /// How mark and string are made before the first piece, where no piece will cover them.
    pub fn made(&self) -> String {
        self.made.join(" ")
    }

    /// What each page says of them, with how closely pieces must be put down.
    pub fn short(&self, plan: &Plan) -> String {
        let scatter = plan.allow.placement_scatter.shown(plan.units, Grain::Fine);
        format!(
            "Front edge from {}, left edge from the string, within ± {scatter}. Stop where a scale is farther off than ±.",
            self.mark,
        )
    }

    /// What is measured from across: the string where the plan has one.
    pub(super) fn string_words(&self) -> &str {
        if self.has_string { "the string" } else { &self.across }
    }
}

/// Name, datum in words, bed frame x (m), and how it is made.
fn by_mark(plan: &Plan, mark: &Mark) -> (String, String, f64, String) {
    let [x, y, z] = mark.at;
    let [fore, side] = [distance(plan, x.si(), (0, "level with")), distance(plan, y.si(), (1, "on"))];
    let made = format!(
        "Mark {}: {fore} the bed's origin, {side} the bed's axis, {} above the bed, along the bed; where no piece will \
         cover it.",
        mark.name,
        z.shown_taped(plan.units)
    );
    (mark.name.clone(), format!("mark {}", mark.name), x.si(), made)
}

/// The same where the plan has no mark: the front edge of the foremost bearing.
fn by_bearing(plan: &Plan) -> (String, String, f64, String) {
    let foremost = plan.bed.bearings.iter().min_by(|a, b| a.x[0].si().total_cmp(&b.x[0].si()));
    let (front, front_m) = match foremost {
        Some(bearing) => (format!("the front edge of “{}”", bearing.name), bearing.x[0].si()),
        None => ("the bed's origin".to_owned(), 0.0),
    };
    let made = format!("Mark {UNNAMED}: level with {front}, on both sides of the bed, where no piece will cover it.");
    (UNNAMED.to_owned(), front, front_m, made)
}

/// Datum across in words, bed frame y (m), and how the string is drawn.
fn by_string(plan: &Plan) -> (String, f64, String) {
    let on_axis = plan.bed.origin[1].si().abs() < 5e-4;
    let axis = if on_axis { "the centreline" } else { "the seat's centreline" };
    let Some(string) = &plan.bed.string else {
        let made = format!("String: over {axis}, nail to nail, above what will lie there or off it fore and aft.");
        return (axis.to_owned(), 0.0, made);
    };
    let side = distance(plan, string.y.si(), (1, "over"));
    let [from, to] = string.x.map(|x| distance(plan, x.si(), (0, "level with")));
    let made = format!(
        "String: {side} {axis}, nail to nail, from {from} to {to} the bed's origin, above what will lie there or off it."
    );
    let across = if side == "over" { axis.to_owned() } else { format!("{side} {axis}") };
    (across, string.y.si(), made)
}

/// Where the piece of a step goes, for a table whose sentence names the datums: how it lies and in
/// which row, its front edge, its left edge; numbers in the plan's fine unit of length.
pub(super) fn place_cells(plan: &Plan, layout: &Closed, step: usize) -> [String; 3] {
    let place = &plan.stack[step];
    let [length, width, _] = plan.extent_of(place).map(Quantity::si);
    let [x, y] = place.at.map(Quantity::si);
    let lies = if place.turn == Turn::Lengthwise { "Lengthwise" } else { "Crosswise" };
    let datums = Datums::of(plan);
    let [fore, across] = [x - length / 2.0 - datums.front_m, y - width / 2.0 - datums.across_m];
    let row = row_words(plan, layout, step, &|rank, of| format!(", {} of {of}", short_ordinal(rank)));
    let at_mark = format!("at {}", datums.mark);
    [format!("{lies}{row}"), taped(plan, fore, (0, &at_mark)), taped(plan, across, (1, "at string"))]
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
    let across = distance(plan, y - width / 2.0 - datums.across_m, (1, "on"));
    let row = row_words(plan, layout, step, &|rank, of| format!(", {} of {of} from the front", ordinal(rank)));
    format!("{lies}{row}. Front edge {fore} mark {}; left edge {across} the string.", datums.mark)
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
            [format!("front edge from mark {}", datums.mark), shown(x - length / 2.0 - datums.front_m, 0, "flush")],
            ["left edge from the string".to_owned(), shown(y - width / 2.0 - datums.across_m, 1, "on it")],
        ],
    }
}

#[cfg(test)]
mod tests {
    use super::Datums;
    use plan::Mark;
    use quantity::Length;

    #[test]
    fn a_mark_is_lettered_on_the_side_where_it_is_made() {
        let text = include_str!("../../../../assets/examples/side-by-side.ron");
        let mut plan = plan::file::read(text).unwrap_or_else(|error| panic!("{error}"));
        plan.bed.string = None;
        let mark = |y_m: f64| Mark { name: "A".to_owned(), at: [0.1, y_m, 0.0].map(Length::m) };
        for (marks, sides) in [
            (vec![], [true, true]),
            (vec![mark(-0.4)], [true, false]),
            (vec![mark(0.4)], [false, true]),
            (vec![mark(-0.4), mark(0.4)], [true, true]),
        ] {
            plan.bed.marks = marks;
            assert_eq!(Datums::of(&plan).sides(), sides, "{:?}", plan.bed.marks);
        }
    }
}
