//! Shear, moment and deflection along a beam, as polynomials between the places where a load
//! begins, ends or stands.
//!
//! V' = -q, M' = V, EI w'' = -M, q and w down positive, M sagging positive (source key
//! `beam-theory`). Each quantity is the integral of the one before, so they are exact for loads
//! that change evenly, and the greatest values lie at breaks or where the next one is zero.

use crate::beam::polynomial::Polynomial;
use crate::beam::{Extreme, Load};

/// Shear, moment and deflection at every place of a beam.
#[derive(Debug, Clone, PartialEq)]
pub struct Diagram {
    pieces: Vec<Piece>,
    length_m: f64,
    left_over_n: f64,
}

/// One stretch without a break; polynomials in the distance from its left end.
#[derive(Debug, Clone, PartialEq)]
struct Piece {
    from_m: f64,
    length_m: f64,
    shear: Polynomial,
    moment: Polynomial,
    slope: Polynomial,
    deflection: Polynomial,
}

impl Piece {
    /// The stretch after another one ended with these values.
    fn after(start: [f64; 4], [from_m, to_m]: [f64; 2], intensity: [f64; 2], rigidity_n_m2: f64) -> Piece {
        let [shear_n, moment_n_m, slope, deflection_m] = start;
        let length_m = to_m - from_m;
        let load = Polynomial([-intensity[0], -(intensity[1] - intensity[0]) / length_m, 0.0, 0.0, 0.0, 0.0]);
        let shear = load.integral(shear_n);
        let moment = shear.integral(moment_n_m);
        let slope = moment.scaled(-1.0 / rigidity_n_m2).integral(slope);
        Piece { from_m, length_m, shear, moment, slope, deflection: slope.integral(deflection_m) }
    }

    fn end(&self) -> [f64; 4] {
        [self.shear, self.moment, self.slope, self.deflection].map(|quantity| quantity.at(self.length_m))
    }

    /// Both ends and the zeros of a quantity's derivative, from the left end of the piece.
    fn candidates(&self, derivative: &Polynomial) -> Vec<f64> {
        let mut places = vec![0.0];
        places.extend(derivative.zeros(self.length_m));
        places.push(self.length_m);
        places
    }
}

impl Diagram {
    /// Of a beam with everything that presses on it, down positive, that lies at its left end by
    /// this slope and deflection.
    pub(super) fn of(length_m: f64, rigidity_n_m2: f64, down: &[Load]) -> Diagram {
        Diagram::from_left(length_m, rigidity_n_m2, down, [0.0; 2])
    }

    /// The same from this shear and moment at the left end.
    pub(super) fn from_left(length_m: f64, rigidity_n_m2: f64, down: &[Load], start: [f64; 2]) -> Diagram {
        let breaks = breaks(length_m, down);
        let mut pieces: Vec<Piece> = Vec::with_capacity(breaks.len());
        let mut state = [start[0] - points_at(down, 0.0), start[1], 0.0, 0.0];
        for pair in breaks.windows(2) {
            let piece = Piece::after(state, [pair[0], pair[1]], intensity(down, pair[0], pair[1]), rigidity_n_m2);
            state = piece.end();
            state[0] -= points_at(down, pair[1]);
            pieces.push(piece);
        }
        Diagram { pieces, length_m, left_over_n: state[0] }
    }

    /// The same beam moved as a whole: sunk at its left end by this much and turned by this slope.
    pub(super) fn moved(mut self, deflection_m: f64, slope: f64) -> Diagram {
        for piece in &mut self.pieces {
            piece.deflection.0[0] += deflection_m + slope * piece.from_m;
            piece.deflection.0[1] += slope;
            piece.slope.0[0] += slope;
        }
        self
    }

    /// What is left over at the right end: up less down, N, and the same for moments about the
    /// right end, N m.
    pub(super) fn left_over(&self) -> [f64; 2] {
        [self.left_over_n, self.pieces.last().map_or(0.0, |piece| piece.end()[1])]
    }

    /// Shear just right of a place (m from the left end), N.
    pub fn shear_n(&self, at_m: f64) -> f64 {
        self.read(at_m, |piece| &piece.shear)
    }

    /// Moment at a place (m from the left end), N m, sagging positive.
    pub fn moment_n_m(&self, at_m: f64) -> f64 {
        self.read(at_m, |piece| &piece.moment)
    }

    /// Slope of the deflection at a place (m from the left end), down to the right positive, no unit.
    pub fn slope(&self, at_m: f64) -> f64 {
        self.read(at_m, |piece| &piece.slope)
    }

    /// Deflection at a place (m from the left end), m, down positive.
    pub fn deflection_m(&self, at_m: f64) -> f64 {
        self.read(at_m, |piece| &piece.deflection)
    }

    /// The length of the beam, m.
    pub fn length_m(&self) -> f64 {
        self.length_m
    }

    fn read(&self, at_m: f64, quantity: impl Fn(&Piece) -> &Polynomial) -> f64 {
        let index = self.pieces.partition_point(|piece| piece.from_m <= at_m).max(1) - 1;
        self.pieces.get(index).map_or(0.0, |piece| quantity(piece).at(at_m - piece.from_m))
    }

    pub(super) fn greatest_shear(&self) -> Extreme {
        // V' = -q, evenly changing: its zero lies where the quadratic turns.
        self.greatest(|piece| (piece.shear, piece.shear.derivative()))
    }

    /// The greatest that the moment may be, where it is known but for this much either way, N m.
    pub(super) fn greatest_moment(&self, within_n_m: f64) -> Extreme {
        let [more, less] = [within_n_m, -within_n_m].map(|by| {
            self.greatest(|piece| {
                let mut moment = piece.moment;
                moment.0[0] += by;
                (moment, piece.shear)
            })
        });
        if less.value.abs() > more.value.abs() * (1.0 + 1e-9) { less } else { more }
    }

    pub(super) fn greatest_deflection(&self) -> Extreme {
        self.greatest(|piece| (piece.deflection, piece.slope))
    }

    /// Farthest from zero; of equal ones (to a billionth) the first.
    fn greatest(&self, quantity: impl Fn(&Piece) -> (Polynomial, Polynomial)) -> Extreme {
        let at_ends = self.pieces.iter().map(|piece| quantity(piece).0.at_ends(piece.length_m)).fold(0.0, f64::max);
        let mut worst = Extreme { value: 0.0, at_m: 0.0 };
        for piece in &self.pieces {
            let (value, derivative) = quantity(piece);
            // Most pieces cannot hold the greatest within: their derivative's zeros need not be found.
            let may_hold_it = value.at_most(piece.length_m) >= at_ends * (1.0 - 1e-6);
            let places = if may_hold_it { piece.candidates(&derivative) } else { vec![0.0, piece.length_m] };
            for place in places {
                let here = value.at(place);
                if here.abs() > worst.value.abs() * (1.0 + 1e-9) {
                    worst = Extreme { value: here, at_m: piece.from_m + place };
                }
            }
        }
        worst
    }
}

/// Both ends of the beam and of every load, rising.
fn breaks(length_m: f64, down: &[Load]) -> Vec<f64> {
    let mut places: Vec<f64> = down.iter().flat_map(Load::ends_m).chain([0.0, length_m]).collect();
    places.sort_by(f64::total_cmp);
    places.dedup_by(|a, b| *a <= *b);
    places
}

/// The point loads that stand at a break, N down.
fn points_at(down: &[Load], place_m: f64) -> f64 {
    let here = |load: &Load| match *load {
        // The very same number, not one close by: the break was made from it.
        Load::Point { at_m, force_n } if (at_m - place_m).abs() <= 0.0 => Some(force_n),
        _ => None,
    };
    down.iter().filter_map(here).sum()
}

/// What presses along a piece, N/m down, at both its ends.
fn intensity(down: &[Load], from_m: f64, to_m: f64) -> [f64; 2] {
    let mut sum = [0.0, 0.0];
    for load in down {
        let Load::Line { from_m: left_m, to_m: right_m, at_from_n_per_m, at_to_n_per_m } = *load else { continue };
        if left_m <= from_m && right_m >= to_m {
            let at = |place_m: f64| {
                at_from_n_per_m + (at_to_n_per_m - at_from_n_per_m) * (place_m - left_m) / (right_m - left_m)
            };
            sum[0] += at(from_m);
            sum[1] += at(to_m);
        }
    }
    sum
}
