//! Charts as figures: curves over two axes, in millimetres of paper.

use crate::figure::{Anchor, Dash, Figure, Fill, Ink, Label, Pen, Sign, Weight};

/// Room for the numbers left of and below the axes, mm.
const LEFT_MM: f64 = 14.0;
const BELOW_MM: f64 = 10.0;
const ABOVE_MM: f64 = 6.0;
const RIGHT_MM: f64 = 30.0;

/// A chart.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Chart {
    /// Width and height, mm, all round.
    pub size_mm: [f64; 2],
    /// What the axes show, units included: across, up.
    pub axes: [String; 2],
    /// The least and the greatest value that must be seen on each axis.
    pub span: [[f64; 2]; 2],
    /// The curves.
    pub curves: Vec<Curve>,
    /// Words beside points, in the axes' units: what a curve cannot show.
    pub notes: Vec<([f64; 2], String)>,
    /// Level lines: limits, with their names.
    pub limits: Vec<(String, f64)>,
}

/// A curve with its name; curves are told apart by pattern, not by colour.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// Its name.
    pub name: String,
    /// Its points in the axes' units, in the order in which they are joined.
    pub points: Vec<[f64; 2]>,
}

impl Chart {
    /// The chart as a figure whose plane is in millimetres of paper, from 0 to `size_mm`.
    pub fn figure(&self) -> Figure {
        let mut figure = Figure::default();
        // The corners, so that the figure's bounds are the chart's whatever it shows.
        figure.rectangle([0.0, 0.0], self.size_mm, Fill::None, None);
        let [across, up] = [0, 1].map(|axis| self.marks(axis));
        for x in &across {
            let at = self.place([*x, self.span[1][0]]);
            figure.line(vec![at, [at[0], at[1] - 1.2]], Pen::solid(Ink::Quiet, Weight::Hair));
            let text = Label::caption(at, told(*x, &across));
            figure.label(text.anchored(Anchor::BELOW, [0.0, -5.0]));
        }
        for y in &up {
            let [left, right] = [0, 1].map(|end| self.place([self.span[0][end], *y]));
            figure.line(vec![left, right], Pen::solid(Ink::Quiet, Weight::Hair));
            figure.label(Label::caption(left, told(*y, &up)).anchored(Anchor::RIGHT, [-4.0, 0.0]));
        }
        self.frame(&mut figure);
        for (name, value) in &self.limits {
            let [left, right] = [0, 1].map(|end| self.place([self.span[0][end], *value]));
            figure.line(vec![left, right], Pen::dashed(Ink::Wanted, Weight::Thin));
            let text = Label::caption(right, name.as_str()).ink(Ink::Wanted);
            figure.label(text.anchored(Anchor::LEFT, [3.0, 0.0]).dodging());
        }
        for (number, curve) in self.curves.iter().enumerate() {
            self.curve(&mut figure, number, curve);
        }
        for (at, words) in &self.notes {
            let text = Label::caption(self.place(*at), words.as_str()).ink(Ink::Wanted);
            figure.label(text.anchored(Anchor::LEFT, [4.0, 0.0]).dodging());
        }
        figure
    }

    fn frame(&self, figure: &mut Figure) {
        let [[left, right], [low, high]] = self.span;
        let corner = self.place([left, low]);
        figure.line(vec![corner, self.place([right, low])], Pen::solid(Ink::Line, Weight::Thin));
        figure.line(vec![corner, self.place([left, high])], Pen::solid(Ink::Line, Weight::Thin));
        let under = [self.place([right, low])[0], 2.3];
        figure.label(Label::caption(under, self.axes[0].as_str()).anchored(Anchor::RIGHT, [0.0, 0.0]));
        let over = [0.0, self.size_mm[1] - 2.3];
        figure.label(Label::caption(over, self.axes[1].as_str()).anchored(Anchor::LEFT, [0.0, 0.0]));
    }

    fn curve(&self, figure: &mut Figure, number: usize, curve: &Curve) {
        let dash = [Dash::Solid, Dash::Dashed, Dash::Chain][number % 3];
        let points: Vec<_> = curve.points.iter().map(|point| self.place(*point)).collect();
        for point in &points {
            figure.sign(*point, Sign::Dot, Ink::Is);
        }
        // At its far end across, which is not its last point where the load came off again.
        if let Some(far) = points.iter().copied().reduce(|far, point| if point[0] >= far[0] { point } else { far }) {
            let text = Label::caption(far, curve.name.as_str()).ink(Ink::Is);
            figure.label(text.anchored(Anchor::LEFT, [4.0, 0.0]).dodging());
        }
        if points.len() > 1 {
            figure.line(points, Pen { ink: Ink::Is, weight: Weight::Medium, dash });
        }
    }

    /// Where a value lies, mm.
    fn place(&self, value: [f64; 2]) -> [f64; 2] {
        let [width, height] = [self.size_mm[0] - LEFT_MM - RIGHT_MM, self.size_mm[1] - BELOW_MM - ABOVE_MM];
        let part = |axis: usize| {
            let [low, high] = self.span[axis];
            if high > low { (value[axis] - low) / (high - low) } else { 0.0 }
        };
        [LEFT_MM + width * part(0), BELOW_MM + height * part(1)]
    }

    /// Three to seven round marks.
    fn marks(&self, axis: usize) -> Vec<f64> {
        let [low, high] = self.span[axis];
        let rough = (high - low) / 4.0;
        if !rough.is_finite() || rough <= 0.0 {
            return Vec::new();
        }
        let power = 10_f64.powf(rough.log10().floor());
        let step = [1.0, 2.0, 5.0, 10.0].map(|m| m * power).into_iter().find(|step| *step >= rough).unwrap_or(rough);
        let first = (low / step - 1e-9).ceil();
        let marks = (0..9_u32).map(|i| (first + f64::from(i)) * step);
        marks.take_while(|mark| *mark <= high + 1e-9 * step).collect()
    }
}

/// With as many decimals as tell the marks apart.
fn told(value: f64, marks: &[f64]) -> String {
    let step = marks.windows(2).map(|pair| pair[1] - pair[0]).fold(f64::INFINITY, f64::min);
    let decimals = if step >= 1.0 || !step.is_finite() {
        0
    } else if step >= 0.1 {
        1
    } else {
        2
    };
    format!("{:.decimals$}", value + 0.0)
}
