//! Pieces put in line with each other, or spread evenly: plain geometry in the bed frame.

use crate::Plan;
use quantity::{Length, Quantity};

/// How pieces are put in line. Forward and aft are along the bed's x, left and right along its y.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// Forward edges to that of the foremost piece.
    ForwardEdges,
    /// Aft edges to that of the aftmost piece.
    AftEdges,
    /// Left edges to that of the leftmost piece.
    LeftEdges,
    /// Right edges to that of the rightmost piece.
    RightEdges,
    /// Centres to the middle between the foremost and the aftmost edge.
    CentresForeAndAft,
    /// Centres to the middle between the leftmost and the rightmost edge.
    CentresAcross,
    /// Equal gaps fore and aft; the outermost pieces stay.
    SpreadForeAndAft,
    /// Equal gaps across; the outermost pieces stay.
    SpreadAcross,
}

impl Align {
    /// All of them, in the order of a menu.
    pub const ALL: [Align; 8] = [
        Align::ForwardEdges,
        Align::AftEdges,
        Align::CentresForeAndAft,
        Align::LeftEdges,
        Align::RightEdges,
        Align::CentresAcross,
        Align::SpreadForeAndAft,
        Align::SpreadAcross,
    ];

    /// What a button says.
    pub fn words(self) -> &'static str {
        match self {
            Align::ForwardEdges => "forward edges",
            Align::AftEdges => "aft edges",
            Align::LeftEdges => "left edges",
            Align::RightEdges => "right edges",
            Align::CentresForeAndAft => "centres fore and aft",
            Align::CentresAcross => "centres across",
            Align::SpreadForeAndAft => "spread fore and aft",
            Align::SpreadAcross => "spread across",
        }
    }

    /// How many pieces it takes to make a difference.
    pub fn least(self) -> usize {
        if self.spreads() { 3 } else { 2 }
    }

    fn spreads(self) -> bool {
        matches!(self, Align::SpreadForeAndAft | Align::SpreadAcross)
    }

    /// The axis of the bed along which pieces move: 0 = x, 1 = y.
    fn axis(self) -> usize {
        match self {
            Align::ForwardEdges | Align::AftEdges | Align::CentresForeAndAft | Align::SpreadForeAndAft => 0,
            Align::LeftEdges | Align::RightEdges | Align::CentresAcross | Align::SpreadAcross => 1,
        }
    }

    /// Puts the pieces of these steps in line.
    pub(crate) fn change(self, plan: &mut Plan, steps: &[usize]) {
        let axis = self.axis();
        let mut spans: Vec<Span> = steps.iter().filter_map(|step| Span::of(plan, *step, axis)).collect();
        if spans.len() < self.least() {
            return;
        }
        if self.spreads() {
            spread(&mut spans);
        } else {
            self.line_up(&mut spans);
        }
        for span in spans {
            if let Some(place) = plan.stack.get_mut(span.step) {
                place.at[axis] = Length::m(span.middle_m);
            }
        }
    }

    fn line_up(self, spans: &mut [Span]) {
        let low = spans.iter().map(Span::low_m).fold(f64::INFINITY, f64::min);
        let high = spans.iter().map(Span::high_m).fold(f64::NEG_INFINITY, f64::max);
        for span in spans {
            span.middle_m = match self {
                Align::ForwardEdges | Align::LeftEdges => low + span.half_m,
                Align::AftEdges | Align::RightEdges => high - span.half_m,
                _ => f64::midpoint(low, high),
            };
        }
    }
}

/// A piece along one axis.
struct Span {
    step: usize,
    middle_m: f64,
    half_m: f64,
}

impl Span {
    fn of(plan: &Plan, step: usize, axis: usize) -> Option<Self> {
        let place = plan.stack.get(step)?;
        Some(Self { step, middle_m: place.at[axis].si(), half_m: plan.extent_of(place)[axis].si() / 2.0 })
    }

    fn low_m(&self) -> f64 {
        self.middle_m - self.half_m
    }

    fn high_m(&self) -> f64 {
        self.middle_m + self.half_m
    }
}

/// Equal gaps between neighbours, which may be negative where pieces overlap.
fn spread(spans: &mut [Span]) {
    spans.sort_by(|a, b| a.middle_m.total_cmp(&b.middle_m).then(a.step.cmp(&b.step)));
    let (Some(first), Some(last)) = (spans.first(), spans.last()) else { return };
    let (from, to, last_step) = (first.low_m(), last.high_m(), last.step);
    let filled: f64 = spans.iter().map(|s| 2.0 * s.half_m).sum();
    #[expect(clippy::cast_precision_loss, reason = "a count of pieces is far below 2^52")]
    let gap = (to - from - filled) / (spans.len() - 1) as f64;
    let mut low = from;
    for span in spans.iter_mut().skip_while(|s| s.step == last_step) {
        let width = 2.0 * span.half_m;
        if span.step != last_step {
            span.middle_m = low + span.half_m;
        }
        low += width + gap;
    }
}
