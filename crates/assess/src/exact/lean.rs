//! How far the top of a stack of bags has sunk and leans, as it should be read at a hold, and within what.
//!
//! A plumb mark on the top piece and a tape tell on the day whether the bags give as the plan has them. What is
//! read hangs on three things: how well their modulus is known (two ends of it, solved), how the upper pieces
//! were laid (to fixed marks, or by the piece below), and, each as two standard deviations, the reading itself
//! and where the pieces were put.

use crate::closed::problem::{Problem, first};
use crate::closed::softness::{ASSUMED_PA, BRACKET_PA, SoftFrom, from, pieces};
use nalgebra::Vector3;
use plan::{Form, Lot, Plan, SoftnessFrom};
use quantity::{Length, Pressure, Quantity};
use rayon::prelude::*;
use statics::soft::{self, Moved, Rest, SoftStack};

/// A plumb string is read so well, two standard deviations, m: `common practice, no source`.
const STRING_WITHIN_M: f64 = 0.002;
/// A tape up to the top of a bag is read so well, two standard deviations, m: `common practice, no source`.
pub const TAPE_WITHIN_M: f64 = 0.003;
/// A modulus measured on bags of the lot may be off by this factor either way; one that was taken from elsewhere
/// by the second. `Common practice, no source`; bags of one lot are not alike.
const MEASURED_FACTOR: f64 = 1.2;
const STATED_FACTOR: f64 = 1.5;
/// So far a piece is moved to see what its place does, m: less than any overlap that counts as lying beside.
const TRIAL_M: f64 = 0.001;

/// What is due on the top piece at one state of the stack.
#[derive(Clone, Debug, PartialEq)]
pub struct Lean {
    /// The top piece, by its place in the stack, from 0; of several as high the one laid last.
    pub piece: usize,
    /// Its name.
    pub name: String,
    /// How far a mark at its middle is from where the plan has it, level: aft and right, floor frame.
    pub shift: [Due; 2],
    /// How much lower its middle is than the thicknesses of the pieces add to.
    pub sinks: Due,
    /// How the softness of the bags is known, of several the worst.
    pub from: SoftFrom,
}

/// A length that is to be read, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Due {
    /// At the usual softness, each piece laid straight on the one below.
    pub usual_m: f64,
    /// What it may be, lowest and highest: the bags as stiff and as soft as they may be, and, of a shift, pieces
    /// laid to fixed marks.
    pub between_m: [f64; 2],
    /// Two standard deviations of the reading.
    pub of_reading_m: f64,
    /// Two standard deviations of what the pieces' places make of it.
    pub of_places_m: f64,
}

impl Due {
    /// Two standard deviations of what comes on top of `between_m`, all parts together (source key `jcgm-100`).
    pub fn within_m(&self) -> f64 {
        self.of_reading_m.hypot(self.of_places_m)
    }

    /// Lowest and highest reading that fits where a reading may be off by so many standard deviations, m.
    pub fn fits_from_to_m(&self, deviations: f64) -> [f64; 2] {
        let more_m = 0.5 * deviations * self.within_m();
        [self.between_m[0] - more_m, self.between_m[1] + more_m]
    }

    /// What is read at the usual softness, and at others that it may be.
    fn of(usual_m: f64, others_m: impl Iterator<Item = f64>) -> Self {
        let between_m = others_m.fold([usual_m; 2], |[low, high], other| [low.min(other), high.max(other)]);
        Self { usual_m, between_m, of_reading_m: 0.0, of_places_m: 0.0 }
    }
}

/// What is due on the top piece after so many placements; none where nothing gives, or where the stack is not
/// known to stand as its bags give. It takes a solver.
///
/// Softest and stiffest as far as the stack stands so: where it does not, the band is the narrower for it. What
/// masses that were not weighed add is left out: it is a small part of the lean. Source: `own derivation`, with
/// the figures named at their constants.
pub fn lean(plan: &Plan, placed: usize) -> Option<Lean> {
    let part = first(plan, placed);
    let from = from(&part)?;
    let usual = At::rest(&part, placed)?;
    let piece = top(&usual.problem, &part)?;
    let ends = End::BOTH.iter().filter_map(|end| At::rest(&at_end(&part, *end), placed));
    let ends: Vec<Vector3<f64>> = ends.map(|at| at.in_floor(piece)).collect();
    let now = usual.in_floor(piece);
    // To fixed marks, what the pile leaned with this piece just laid is taken out.
    let laid = At::rest(&first(plan, piece + 1), piece + 1).map(|at| at.in_floor(piece));
    let to_marks = now - laid.unwrap_or_else(Vector3::zeros);
    let places_m = by_places(&part, (piece, usual.amplification()));
    let shift = |axis: usize| Due {
        of_reading_m: STRING_WITHIN_M,
        of_places_m: places_m[axis],
        ..Due::of(now[axis], ends.iter().chain([&to_marks]).map(|shift| shift[axis]))
    };
    let sinks = Due { of_reading_m: TAPE_WITHIN_M, ..Due::of(-now.z, ends.iter().map(|shift| -shift.z)) };
    Some(Lean { piece, name: part.piece_name(piece), shift: [shift(0), shift(1)], sinks, from })
}

/// How much lower the top piece's middle should be after so many placements, m: `sinks.usual_m` of [`lean`]
/// without its band.
pub fn sinks_m(plan: &Plan, placed: usize) -> Option<f64> {
    let part = first(plan, placed);
    from(&part)?;
    let usual = At::rest(&part, placed)?;
    Some(-usual.in_floor(top(&usual.problem, &part)?).z)
}

/// The plan with all its bags this many times as soft, as measured on the stack itself. Bags of which nothing was
/// known are taken so many times as soft as their usual modulus.
pub fn softened(plan: &Plan, factor: f64) -> Plan {
    with_moduli(plan, |lot| (SoftnessFrom::Measured, modulus_pa(lot) / factor))
}

/// The softest or the stiffest that bags may be.
#[derive(Clone, Copy, PartialEq)]
enum End {
    Softest,
    Stiffest,
}

impl End {
    const BOTH: [End; 2] = [End::Softest, End::Stiffest];

    fn modulus_pa(self, lot: &Lot) -> f64 {
        let factor = match lot.softness.as_ref().map(|softness| softness.from) {
            Some(SoftnessFrom::Measured) => MEASURED_FACTOR,
            Some(SoftnessFrom::Stated) => STATED_FACTOR,
            None if self == End::Softest => return BRACKET_PA[0],
            None => return BRACKET_PA[1],
        };
        if self == End::Softest { modulus_pa(lot) / factor } else { modulus_pa(lot) * factor }
    }
}

fn at_end(plan: &Plan, end: End) -> Plan {
    with_moduli(plan, |lot| (SoftnessFrom::Stated, end.modulus_pa(lot)))
}

fn modulus_pa(lot: &Lot) -> f64 {
    lot.softness.as_ref().map_or(ASSUMED_PA, |softness| softness.modulus.si())
}

fn with_moduli(plan: &Plan, of: impl Fn(&Lot) -> (SoftnessFrom, f64)) -> Plan {
    let mut plan = plan.clone();
    for lot in plan.ballast.iter_mut().filter(|lot| lot.form == Form::Bag) {
        let (from, modulus_pa) = of(lot);
        let known = lot.softness.take().unwrap_or_else(unknown);
        // What was read of one bag belongs to the modulus that it gave.
        let modulus = Pressure::pa(modulus_pa);
        lot.softness = Some(plan::Softness { modulus, from, readings: Vec::new(), ..known });
    }
    plan
}

/// Bags of which nothing is known, with their usual rim and shear.
fn unknown() -> plan::Softness {
    plan::Softness {
        modulus: Pressure::pa(ASSUMED_PA),
        rim: None,
        shear_ratio: plan::Softness::SHEAR_RATIO,
        creep_per_decade: plan::Softness::CREEP_PER_DECADE,
        from: SoftnessFrom::Stated,
        source: String::new(),
        readings: Vec::new(),
        flat: None,
    }
}

/// A stack at rest as its bags give.
struct At {
    problem: Problem,
    rest: Rest,
    moved: Vec<Moved>,
}

impl At {
    /// None where it is not known to stand.
    fn rest(plan: &Plan, placed: usize) -> Option<Self> {
        let problem = Problem::of(plan);
        let pieces = pieces(plan, ASSUMED_PA);
        let solved = soft::at_rest(&SoftStack::new(problem.whole_stack(), &pieces), placed);
        let rest = *solved.end.rest()?;
        Some(Self { problem, rest, moved: solved.moved })
    }

    fn in_floor(&self, piece: usize) -> Vector3<f64> {
        shift_in_floor(&self.problem, self.moved.get(piece))
    }

    /// By how much a lean grows by feeding on itself: L/(L - 1).
    fn amplification(&self) -> f64 {
        self.rest.amplification
    }
}

fn shift_in_floor(problem: &Problem, moved: Option<&Moved>) -> Vector3<f64> {
    let shift_in_bed = moved.map_or_else(Vector3::zeros, |moved| Vector3::from(moved.shift_m));
    problem.floor_from_bed.rotation * shift_in_bed
}

/// The piece whose top is highest above the bed, within what counts as one height; of several the one laid last.
fn top(problem: &Problem, plan: &Plan) -> Option<usize> {
    let top_m = |piece: usize| problem.pile.underside_m[piece] + problem.bodies[piece].extent_m[2];
    let pieces = 0..problem.bodies.len();
    let highest_m = pieces.clone().map(top_m).fold(f64::NEG_INFINITY, f64::max);
    pieces.rev().find(|piece| top_m(*piece) >= highest_m - plan.bed.touch.si())
}

/// Two standard deviations of where the mark is, aft and right, floor frame, m, by where the pieces were put: each
/// is moved a little, the stack solved to the first order, and what comes of it grown by the lean that feeds on
/// itself. The places are independent, so that their squares add (source key `jcgm-100`); the mark goes along with
/// its own piece. Source: `own derivation`.
fn by_places(plan: &Plan, (top, amplification): (usize, f64)) -> [f64; 2] {
    let Some(straight) = mark_m(plan, top) else { return [0.0; 2] };
    let trials: Vec<(usize, usize)> = (0..plan.steps()).flat_map(|piece| [(piece, 0), (piece, 1)]).collect();
    let squares = trials.into_par_iter().filter_map(|(piece, axis)| {
        let mut moved = plan.clone();
        moved.stack[piece].at[axis] = moved.stack[piece].at[axis] + Length::m(TRIAL_M);
        let [lean, place] = mark_m(&moved, top)?;
        let per_m = (amplification * (lean - straight[0]) + (place - straight[1])) / TRIAL_M;
        Some([per_m.x * per_m.x, per_m.y * per_m.y])
    });
    let sum = squares.reduce(|| [0.0; 2], |a, b| [a[0] + b[0], a[1] + b[1]]);
    sum.map(|square| plan.allow.placement_scatter.si() * square.sqrt())
}

/// The shift of a piece to the first order, and where it was put, floor frame, m.
fn mark_m(plan: &Plan, piece: usize) -> Option<[Vector3<f64>; 2]> {
    let problem = Problem::of(plan);
    let pieces = pieces(plan, ASSUMED_PA);
    let moved = soft::at_rest_first_order(&SoftStack::new(problem.whole_stack(), &pieces), plan.steps())?;
    let put = problem.floor_from_bed * problem.pile.centre(&problem.bodies, piece);
    Some([shift_in_floor(&problem, moved.get(piece)), put.coords])
}
