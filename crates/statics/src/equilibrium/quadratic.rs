//! The least-energy programme: of all statically admissible forces those with the least energy, by the same method and
//! the same linear systems as the greatest push (`interior`). Source: `mehrotra-1992` (`from memory`; what it returns
//! is checked, so that nothing rests on it).
//!
//! In symbols: forces u in the cones, energy u.Hu/2 + p.u with H diagonal, motion V, speeds s in the cones;
//! A u + c = 0, s = A'V + H u + p, u.s = 0. Each step solves A M A' with M = (W^-2 + H)^-1, three rows a
//! corner (`own derivation`: the Newton step of these equations with the speeds taken out). M is never greater
//! than H^-1, so that the systems stay well conditioned to the end. The energy lies above its least by u.s
//! at most, and no force is farther from the best than the root of 2 u.s / H.

use super::block::{Wrench, add};
use super::cone::{Metric, Part, Scaling, inverse};
use super::factor::Factor;
use super::forces::{Forces, on_bodies};
use super::interior::{Shape, centred, lengths, parting};
use super::motion::Motion;

/// How far towards the surface of the cones a step may go.
const SHY: f64 = 0.99;
/// Balance and speeds are met to this part before forces count.
const BALANCED: f64 = 1e-10;
/// It goes on until the energy is met to this; by the bound above a force might then be off by 1e-6 of the weight.
const CLOSE: f64 = 1e-12;
/// Where rounding stops it before, this will do: as much as the general solver is asked for.
const ENOUGH: f64 = 1e-9;
/// The gap is not driven far below that: beyond, rounding on the surface of the cones stalls it.
const FLOOR: f64 = 0.1;
/// A step shorter than this part is taken anew.
const SHORT: f64 = 0.3;
/// Steps after which it gives up. A dozen or two have done so far.
const STEPS: u32 = 60;

/// What is least: for each corner the softness of the first part and of the level parts, and the price of the first.
pub(super) struct Energy {
    pub(super) softness: Vec<[f64; 2]>,
    pub(super) price: Vec<f64>,
}

impl Energy {
    fn slope(&self, corner: usize, u: &Part) -> Part {
        let [first, level] = self.softness[corner];
        [first * u[0] + self.price[corner], level * u[1], level * u[2]]
    }
}

/// The forces of least energy that balance the group's own loads, and the motion with it. None: the solver stopped
/// short, or there are none.
pub(super) fn least(shape: &Shape, energy: &Energy) -> Option<(Forces, Motion)> {
    let mut state = State::new(shape, energy);
    let mut best = None;
    for _ in 0..STEPS {
        if state.is_met() && state.gap <= best.as_ref().map_or(ENOUGH, |(gap, _)| *gap) {
            best = Some((state.gap, (state.u.clone(), state.motion.clone())));
        }
        if best.as_ref().is_some_and(|(gap, _)| *gap <= CLOSE) || state.step().is_none() {
            break;
        }
    }
    best.map(|(_, found)| found)
}

struct State<'s> {
    shape: &'s Shape<'s>,
    energy: &'s Energy,
    factor: Factor<'s>,
    u: Forces,
    s: Vec<Part>,
    motion: Motion,
    /// What is missing from the balance of forces and from s = A'V + H u + p.
    unbalanced: Vec<Wrench>,
    mismatch: Vec<Part>,
    /// u . s
    gap: f64,
}

/// One direction to go.
struct Leap {
    u: Vec<Part>,
    s: Vec<Part>,
    motion: Motion,
}

impl<'s> State<'s> {
    fn new(shape: &'s Shape<'s>, energy: &'s Energy) -> State<'s> {
        let u = shape.start().clone();
        #[expect(clippy::cast_precision_loss, reason = "a count of corners is far below 2^52")]
        let count = u.len() as f64;
        // The forces to start from are upright: the middle line of the cone.
        let slopes = || u.iter().enumerate().map(|(corner, u)| energy.slope(corner, u)[0]);
        let mean = slopes().map(f64::abs).sum::<f64>() / count;
        let s = slopes().map(|slope| [slope.max(mean), 0.0, 0.0]).collect();
        let motion = vec![[0.0; 6]; shape.group().bodies.len()];
        let (unbalanced, mismatch) = (Vec::new(), Vec::new());
        let mut state =
            State { shape, energy, factor: shape.factor(), u, s, motion, unbalanced, mismatch, gap: f64::INFINITY };
        state.look();
        state
    }

    /// Works out what is missing, afresh from the numbers.
    fn look(&mut self) {
        let group = self.shape.group();
        self.unbalanced = on_bodies(group, &self.u);
        for (missing, load) in self.unbalanced.iter_mut().zip(&group.constant) {
            add(missing, 1.0, load);
            missing.iter_mut().for_each(|part| *part = -*part);
        }
        self.mismatch = parting(group, &self.motion);
        for (corner, (mismatch, (u, s))) in self.mismatch.iter_mut().zip(self.u.iter().zip(&self.s)).enumerate() {
            let slope = self.energy.slope(corner, u);
            (0..3).for_each(|part| mismatch[part] += slope[part] - s[part]);
        }
        self.gap = self.u.iter().zip(&self.s).map(|(u, s)| super::cone::dot(u, s)).sum();
    }

    /// Balance and speeds.
    fn is_met(&self) -> bool {
        let greatest = |worst: f64, part: &f64| worst.max(part.abs());
        let unbalanced = self.unbalanced.iter().flatten().fold(0.0, greatest);
        let mismatch = self.mismatch.iter().flatten().fold(0.0, greatest);
        let fastest = self.s.iter().flatten().fold(1.0, greatest);
        unbalanced <= BALANCED && mismatch <= BALANCED * fastest
    }

    /// Predictor and corrector. None: the numbers are no longer any.
    fn step(&mut self) -> Option<()> {
        let scalings: Vec<Scaling> = self.u.iter().zip(&self.s).map(|(u, s)| Scaling::between(u, s)).collect();
        let metrics: Vec<Metric> = scalings.iter().zip(&self.energy.softness).map(metric).collect();
        self.shape.assemble(&mut self.factor, &metrics);
        let predictor: Vec<Part> = scalings.iter().map(|scaling| scaling.middle.map(|part| -part)).collect();
        let leap = self.leap(&scalings, &metrics, &predictor);
        let [for_u, for_s] = lengths(&scalings, &leap.u, &leap.s, SHY);
        #[expect(clippy::cast_precision_loss, reason = "a count of corners is far below 2^52")]
        let count = self.u.len() as f64;
        let mean = self.gap / count;
        let centre = (mean * (1.0 - for_u.min(for_s).min(1.0)).powi(3)).max((FLOOR * CLOSE / count).min(mean));
        let corrected = centred(&scalings, &leap.u, &leap.s, centre);
        let mut leap = self.leap(&scalings, &metrics, &corrected);
        let mut length = length(&scalings, &leap);
        if length < SHORT {
            // Some corners are far nearer to the surface of their cones than others: away from there first.
            let still = vec![[0.0; 3]; self.u.len()];
            leap = self.leap(&scalings, &metrics, &centred(&scalings, &still, &still, mean));
            length = self::length(&scalings, &leap);
        }
        self.go(&leap, length);
        self.look();
        self.gap.is_finite().then_some(())
    }

    /// Solves one linear step: W^-1 du + W ds = right, and everything that is missing made good.
    fn leap(&self, scalings: &[Scaling], metrics: &[Metric], right: &[Part]) -> Leap {
        let group = self.shape.group();
        let wanted = |((scaling, right), mismatch): ((&Scaling, &Part), &Part)| -> Part {
            let back = scaling.back(right);
            std::array::from_fn(|part| back[part] - mismatch[part])
        };
        let wanted: Vec<Part> = scalings.iter().zip(right).zip(&self.mismatch).map(wanted).collect();
        let mut u: Vec<Part> = metrics.iter().zip(&wanted).map(|(metric, wanted)| times(metric, wanted)).collect();
        let mut side = on_bodies(group, &u);
        side.iter_mut().zip(&self.unbalanced).for_each(|(side, missing)| add(side, -1.0, missing));
        let motion = self.factor.solve(&side);
        let mut s = parting(group, &motion);
        for (corner, (u, s)) in u.iter_mut().zip(&mut s).enumerate() {
            let taken = times(&metrics[corner], s);
            (0..3).for_each(|part| u[part] -= taken[part]);
            let [first, level] = self.energy.softness[corner];
            let softened = [first * u[0], level * u[1], level * u[2]];
            (0..3).for_each(|part| s[part] += softened[part] + self.mismatch[corner][part]);
        }
        Leap { u, s, motion }
    }

    fn go(&mut self, leap: &Leap, length: f64) {
        let advance = |to: &mut Part, step: &Part| (0..3).for_each(|part| to[part] += length * step[part]);
        self.u.iter_mut().zip(&leap.u).for_each(|(u, step)| advance(u, step));
        self.s.iter_mut().zip(&leap.s).for_each(|(s, step)| advance(s, step));
        self.motion.iter_mut().zip(&leap.motion).for_each(|(motion, step)| add(motion, length, step));
    }
}

/// How far a leap may go. One length for forces and speeds: the speeds hang on the forces.
fn length(scalings: &[Scaling], leap: &Leap) -> f64 {
    let [for_u, for_s] = lengths(scalings, &leap.u, &leap.s, SHY);
    (SHY * for_u.min(for_s)).min(1.0)
}

/// (W^-2 + H)^-1 of one corner.
fn metric((scaling, [first, level]): (&Scaling, &[f64; 2])) -> Metric {
    let mut sum = scaling.inverse_square();
    sum[0][0] += first;
    sum[1][1] += level;
    sum[2][2] += level;
    inverse(&sum)
}

fn times(metric: &Metric, part: &Part) -> Part {
    metric.map(|row| super::cone::dot(&row, part))
}
