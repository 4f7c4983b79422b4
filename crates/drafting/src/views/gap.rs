//! A distance that is too short, with its measure: between the faces, with the clearances taken off, and what is to go in.

use super::View;
use crate::figure::{Align, Anchor, Figure, Ink, Label, Level, Pen, Plate, Weight};
use assess::Gap;
use quantity::{Grain, Length, Quantity, Units};

/// The lines of measure stand apart by this part of the distance, and by so much at the least, m.
const APART: f64 = 0.13;
const LEAST_APART_M: f64 = 0.05;
/// Length of an arrow's head, a part of the distance; and no longer than this, m.
const HEAD: f64 = 0.06;
const LONGEST_HEAD_M: f64 = 0.025;

/// A gap with its lines of measure; nothing where it is seen end on.
pub fn gap(gap: &Gap, units: Units, view: View) -> Figure {
    let mut figure = Figure::default();
    let [faces, ends] = [gap.faces_in_floor, gap.ends_in_floor].map(|pair| pair.map(|point| view.project(point)));
    let along = Along::of(faces);
    if along.length_m < 1e-3 {
        return figure;
    }
    let shown = |m: f64| Length::m(m).shown(units, Grain::Fine);
    let step_m = (APART * along.length_m).max(LEAST_APART_M);
    let free_ends = ends.map(|end| along.place(end));
    let whole_ends = faces.map(|face| along.place(face));
    let Some((lot, needed_m)) = &gap.needed else {
        let whole = Line { ends: whole_ends, beside_m: step_m, told_at: 0.5 };
        along.measure(&mut figure, whole, Ink::Wanted, &shown(gap.between_m()));
        names(&mut figure, gap, &along, view);
        return figure;
    };
    let text = format!("{} free", shown(gap.free_m()));
    let [free, piece, whole] = along.told_at();
    along.measure(&mut figure, Line { ends: free_ends, beside_m: step_m, told_at: free }, Ink::Wanted, &text);
    let middle = f64::midpoint(free_ends[0], free_ends[1]);
    let piece_ends = [middle - needed_m / 2.0, middle + needed_m / 2.0];
    let piece = Line { ends: piece_ends, beside_m: 2.0 * step_m, told_at: piece };
    along.piece(&mut figure, piece, &format!("“{lot}” {}", shown(*needed_m)));
    let whole = Line { ends: whole_ends, beside_m: 3.0 * step_m, told_at: whole };
    along.measure(&mut figure, whole, Ink::Line, &shown(gap.between_m()));
    names(&mut figure, gap, &along, view);
    figure
}

/// The names of both sides, where the view does not write them itself: outside the outermost line of measure.
fn names(figure: &mut Figure, gap: &Gap, along: &Along, view: View) {
    if view == View::Side && gap.needed.is_some() {
        return;
    }
    let is_upright = along.way[1].abs() > along.way[0].abs();
    let ends = gap.faces_in_floor.map(|face| along.place(view.project(face)));
    for (index, (name, at)) in gap.between.iter().zip(ends).enumerate() {
        let is_first = (index == 0) == (along.way[0] + along.way[1] > 0.0);
        let (anchor, shift) = match (is_upright, is_first) {
            (true, true) => (Anchor::BELOW, [0.0, -4.0]),
            (true, false) => (Anchor::ABOVE, [0.0, 4.0]),
            (false, true) => (Anchor { align: Align::Right, level: Level::Middle }, [-6.0, 0.0]),
            (false, false) => (Anchor { align: Align::Left, level: Level::Middle }, [6.0, 0.0]),
        };
        let label = Label::caption(along.point(at, 0.0), name.as_str()).ink(Ink::Clear).anchored(anchor, shift);
        figure.label(label.on(Plate::Halo));
    }
}

/// A line beside a gap: from where to where along it, how far beside it, and at which part of its length its value stands.
#[derive(Clone, Copy)]
struct Line {
    ends: [f64; 2],
    beside_m: f64,
    told_at: f64,
}

/// The direction of a gap in the drawing plane.
struct Along {
    origin: [f64; 2],
    way: [f64; 2],
    length_m: f64,
}

impl Along {
    fn of([from, to]: [[f64; 2]; 2]) -> Self {
        let (across, up) = (to[0] - from[0], to[1] - from[1]);
        let length_m = across.hypot(up);
        let way = [across / length_m.max(1e-9), up / length_m.max(1e-9)];
        Self { origin: from, way, length_m }
    }

    /// Where the values of three lines stand, as parts of their lengths. Beside an upright gap, where words lie across the
    /// lines, one above the other, so that none lies over the next.
    fn told_at(&self) -> [f64; 3] {
        let is_upright = self.way[1].abs() > self.way[0].abs();
        if is_upright { [0.8, 0.5, 0.2] } else { [0.5; 3] }
    }

    /// How far along a point lies, m.
    fn place(&self, at: [f64; 2]) -> f64 {
        (at[0] - self.origin[0]).mul_add(self.way[0], (at[1] - self.origin[1]) * self.way[1])
    }

    /// So far along and so far beside, m: upwards, or to the left of a gap that is upright.
    fn point(&self, along_m: f64, beside_m: f64) -> [f64; 2] {
        let [mut u, mut v] = [-self.way[1], self.way[0]];
        if v < -1e-9 || (v.abs() <= 1e-9 && u > 0.0) {
            [u, v] = [-u, -v];
        }
        [self.origin[0] + along_m * self.way[0] + beside_m * u, self.origin[1] + along_m * self.way[1] + beside_m * v]
    }

    /// A line of measure with its two extension lines, arrows at both ends, and its value.
    fn measure(&self, figure: &mut Figure, line: Line, ink: Ink, text: &str) {
        let Line { ends, beside_m, .. } = line;
        let [from, to] = ends.map(|end| self.point(end, beside_m));
        for end in ends {
            let beyond_m = beside_m + 0.3 * LEAST_APART_M;
            figure.line(vec![self.point(end, 0.0), self.point(end, beyond_m)], Pen::solid(ink, Weight::Thin));
        }
        figure.line(vec![from, to], Pen::solid(ink, Weight::Medium));
        let head_m = (HEAD * self.length_m).min(LONGEST_HEAD_M);
        figure.line(super::barbs(from, to, head_m), Pen::solid(ink, Weight::Medium));
        figure.line(super::barbs(to, from, head_m), Pen::solid(ink, Weight::Medium));
        self.value(figure, line, ink, text);
    }

    /// The piece as it would lie there: a bar of its length, which is longer than its room.
    fn piece(&self, figure: &mut Figure, line: Line, text: &str) {
        let Line { ends, beside_m, .. } = line;
        let half_m = 0.25 * LEAST_APART_M;
        let corner = |end: usize, side: f64| self.point(ends[end], beside_m + side * half_m);
        let corners = vec![corner(0, -1.0), corner(1, -1.0), corner(1, 1.0), corner(0, 1.0)];
        let pen = Some(Pen::dashed(Ink::Wanted, Weight::Medium));
        figure.polygon(corners, crate::figure::Fill::Tint(Ink::Wanted), pen);
        self.value(figure, line, Ink::Wanted, text);
    }

    fn value(&self, figure: &mut Figure, Line { ends: [from, to], beside_m, told_at }: Line, ink: Ink, text: &str) {
        let at = self.point(from + told_at * (to - from), beside_m);
        figure.label(Label::new(at, text).bold().ink(ink).on(Plate::Plain));
    }
}
