//! The names of a figure that go into columns beside what is drawn.

use super::clip;
use super::draw::Unnamed;
use super::primitive::{Primitive, Stroke, narrow, narrow_point};
use super::viewport::Viewport;
use crate::figure::{Align, Figure, Ink, Label, Mark, Pen, Room, Sign, Weight};
use crate::margin::{self, Area, Named, Placed};
use crate::palette::Palette;
use crate::text;

/// Open lines longer than this part of the area are floors, plumb lines and axes: columns may lie on them.
const LONG: f64 = 0.7;

/// Names in columns.
pub(super) struct Names<'a> {
    labels: Vec<Shared<'a>>,
    placed: Vec<Placed>,
}

/// A name, or one for several neighbours of a kind.
struct Shared<'a> {
    /// The places of their labels among the marks.
    places: Vec<usize>,
    /// The first of them.
    label: &'a Label,
    text: String,
}

/// Points that are no farther apart than this are neighbours, in points of type.
const NEIGHBOURS_PT: f64 = 7.0;

/// Names with one for neighbours of a kind: alike but for one part, at one place.
fn shared<'a>(labels: Vec<(usize, &'a Label)>, viewport: &Viewport) -> Vec<Shared<'a>> {
    let mut all: Vec<Shared> = Vec::new();
    let apart = |a: &Label, b: &Label| {
        let [[ax, ay], [bx, by]] = [a.at, b.at].map(|at| viewport.to_device(at));
        (ax - bx).hypot(ay - by) / viewport.unit_per_pt
    };
    for (place, label) in labels {
        let joined = all.iter_mut().find_map(|known| {
            let alike = (known.label.ink, known.label.bold) == (label.ink, label.bold);
            let near = alike && apart(known.label, label) <= NEIGHBOURS_PT;
            let text = near.then(|| one_for_both(&known.text, &label.text)).flatten()?;
            Some((known, text))
        });
        match joined {
            Some((known, text)) => {
                known.places.push(place);
                known.text = text;
            }
            None => all.push(Shared { places: vec![place], label, text: label.text.clone() }),
        }
    }
    all
}

/// `left cell` and `right cell` are `left, right cell`; none where nothing of the names is alike, or all of it.
fn one_for_both(one: &str, other: &str) -> Option<String> {
    let [one, other]: [Vec<&str>; 2] = [one, other].map(|text| text.split(' ').collect());
    let alike = |pair: &(&&str, &&str)| pair.0 == pair.1;
    let before = one.iter().zip(&other).take_while(alike).count();
    let most = one.len().min(other.len()) - before;
    let after = one.iter().rev().zip(other.iter().rev()).take(most).take_while(alike).count();
    let [own, others] = [&one, &other].map(|words| words[before..words.len() - after].join(" "));
    if before + after == 0 || own.is_empty() || others.is_empty() {
        return None;
    }
    let words = [one[..before].join(" "), format!("{own}, {others}"), one[one.len() - after..].join(" ")];
    Some(words.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" "))
}

impl<'a> Names<'a> {
    /// Those that find room beside what is written already (`taken`).
    pub(super) fn of(figure: &'a Figure, viewport: &Viewport, taken: &[Area]) -> Self {
        let of_margin = |(place, mark): (usize, &'a Mark)| match mark {
            Mark::Text(label) if label.room == Room::Margin => Some((place, label)),
            _ => None,
        };
        let inside = |label: &Label| clip::contains(viewport.area, viewport.to_device(label.at));
        let labels: Vec<_> =
            figure.marks.iter().enumerate().filter_map(of_margin).filter(|(_, label)| inside(label)).collect();
        let labels = shared(labels, viewport);
        let Some(drawn) = drawn(figure, viewport) else { return Self { labels, placed: Vec::new() } };
        let unit = viewport.unit_per_pt;
        let line = labels.iter().map(|Shared { label, .. }| label.size.points() * unit).fold(unit, f64::max);
        let area = free(viewport, taken);
        let named = |Shared { label, text, .. }: &Shared| Named {
            at: viewport.to_device(label.at),
            wide: text::width(&text::printable(text, label.bold), label.size.points() * unit, label.bold),
            first: label.bold,
        };
        let named: Vec<_> = labels.iter().map(named).collect();
        let placed = margin::placed(&named, &margin::Room { area, drawn, line });
        Self { labels, placed }
    }

    /// The marks that are drawn here, by their places.
    pub(super) fn marks(&self) -> Vec<usize> {
        self.placed.iter().flat_map(|placed| self.labels[placed.named].places.iter().copied()).collect()
    }

    /// The marks of all names, whether they found room or not.
    pub(super) fn all_marks(&self) -> Vec<usize> {
        self.labels.iter().flat_map(|shared| shared.places.iter().copied()).collect()
    }

    /// Those that found none.
    pub(super) fn left_over(&self, viewport: &Viewport) -> Vec<Unnamed> {
        let has_room = |index: &usize| self.placed.iter().any(|placed| placed.named == *index);
        let left = (0..self.labels.len()).filter(|index| !has_room(index)).map(|index| &self.labels[index]);
        left.map(|shared| Unnamed { text: shared.text.clone(), at: viewport.to_device(shared.label.at) }).collect()
    }

    /// What other labels keep clear of.
    pub(super) fn covers(&self) -> impl Iterator<Item = Area> + '_ {
        self.placed.iter().map(|placed| placed.text)
    }

    pub(super) fn draw(&self, viewport: &Viewport, palette: &Palette, out: &mut Vec<Primitive>) {
        let unit = viewport.unit_per_pt;
        for placed in &self.placed {
            let Shared { label, text, .. } = &self.labels[placed.named];
            let stroke = Stroke::of(Pen::solid(Ink::Quiet, Weight::Thin), palette, unit);
            // The leader ends short of the text.
            let [at, end] = placed.leader;
            let short = if placed.left { 3.0 * unit } else { -3.0 * unit };
            let points = [at, [end[0] + short, end[1]]].map(narrow_point).to_vec();
            out.push(Primitive::Polyline { points, stroke });
            out.extend(super::sign::sign(Sign::Dot, at, Ink::Quiet, unit, palette));
            let size = label.size.points() * unit;
            let drop = 0.5 * text::capital_height(size, label.bold);
            out.push(Primitive::Text {
                at: narrow_point([end[0], end[1] + drop]),
                align: if placed.left { Align::Right } else { Align::Left },
                size: narrow(size),
                bold: label.bold,
                colour: palette.ink(label.ink),
                text: text::printable(text, label.bold),
            });
        }
    }
}

/// The area without what is written along its upper and its left edge.
fn free(viewport: &Viewport, taken: &[Area]) -> Area {
    let [left, top, right, bottom] = viewport.area;
    let middle = [f64::midpoint(left, right), f64::midpoint(top, bottom)];
    let is_column = |taken: &&Area| taken[3] - taken[1] > taken[2] - taken[0];
    let from = |axis: usize, columns: bool, edge: f64| {
        let kept = taken.iter().filter(|taken| is_column(taken) == columns).map(|taken| taken[axis + 2]);
        kept.filter(|end| *end < middle[axis]).fold(edge, f64::max)
    };
    let pad = 4.0 * viewport.unit_per_pt;
    [from(0, true, left) + pad, from(1, false, top) + pad, right - pad, bottom - pad]
}

/// The box of what is drawn within the area, long open lines left out.
fn drawn(figure: &Figure, viewport: &Viewport) -> Option<Area> {
    let long = LONG * (viewport.area[2] - viewport.area[0]);
    let box_of = |mark: &Mark| match mark {
        Mark::Shape(shape) => {
            let points: Vec<_> = shape.points.iter().map(|point| viewport.to_device(*point)).collect();
            clip::around(&points).filter(|around| shape.closed || around[2] - around[0] < long)
        }
        Mark::Text(label) if label.room == Room::Margin => {
            let [x, y] = viewport.to_device(label.at);
            Some([x, y, x, y])
        }
        Mark::Text(_) | Mark::Sign { .. } => None,
    };
    let [left, top, right, bottom] = viewport.area;
    let seen = |around: &Area| !clip::apart(*around, viewport.area);
    let cut = |a: Area| [a[0].max(left), a[1].max(top), a[2].min(right), a[3].min(bottom)];
    let join = |a: Area, b: Area| [a[0].min(b[0]), a[1].min(b[1]), a[2].max(b[2]), a[3].max(b[3])];
    figure.marks.iter().filter_map(box_of).filter(seen).map(cut).reduce(join)
}

#[cfg(test)]
mod tests {
    use super::one_for_both;

    #[test]
    fn neighbours_of_one_kind_share_what_is_alike_in_their_names() {
        let both = |one, other| one_for_both(one, other);
        assert_eq!(both("left cell", "right cell").as_deref(), Some("left, right cell"));
        assert_eq!(both("under the left beam", "under the right beam").as_deref(), Some("under the left, right beam"));
        assert_eq!(both("left, middle cell", "right cell").as_deref(), Some("left, middle, right cell"));
        for (one, other) in [("mark A", "occupant point"), ("cell", "cell"), ("cell", "cell 2")] {
            assert_eq!(both(one, other), None, "{one}, {other}");
        }
    }
}
