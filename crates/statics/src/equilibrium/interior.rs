//! The programme itself: the greatest push along one direction that some set of corner forces can
//! balance. An interior-point method with the scaling of the cone and a predictor and corrector.
//! Source: `mehrotra-1992` (`from memory`; what it returns is checked, so that nothing rests on it).
//!
//! In symbols: forces u in the cones, push lambda, motion V, parting speeds s in the cones;
//! A u + lambda a + c = 0, s = A'V, a.V = 1. For any such pair the push is at most -c.V, and
//! the difference is u.s (`own derivation`, at the motion). Each step solves A W2 A' for the motion.

use super::block::{Block, NO_BLOCK, Wrench, add, dot, moved};
use super::cone::{self, Metric, Part, Scaling};
use super::factor::{Factor, Pattern, Seat};
use super::forces::{Forces, on_bodies};
use super::group::{Facing, Group, Joint};
use super::motion::{Motion, at_corners};

/// How far towards the skin of the cones a step may go.
const SHY: f64 = 0.99;
/// Balance is met to this part of the weight before the solver is content.
const BALANCED: f64 = 1e-8;
/// Push from below and from above are this close together.
const CLOSE: f64 = 3e-7;

/// Work of the weight, on a motion on which a unit push does one, that is a fall beyond doubt.
const FALLING: f64 = 1e-3;
/// From this gap on each leap is made good for what rounding left of it.
const FINE: f64 = 1e-2;
/// How often.
const REFINED: u32 = 2;
/// The gap is not driven far below what is asked: beyond, rounding eats the balance.
const FLOOR: f64 = 0.5;
/// Steps that may pass without a better state before the solver gives up.
const PATIENCE: u32 = 8;

/// Where the solver stopped. It promises nothing: see the checks.
pub(super) struct Stop {
    pub(super) forces: Forces,
    pub(super) multiplier: f64,
    pub(super) motion: Motion,
    /// Up to one it is content: what it misses, in parts of what may be missed.
    score: f64,
}

/// What is alike for all directions of one group.
pub(super) struct Shape<'g> {
    group: &'g Group,
    pattern: Pattern,
    seats: Vec<Option<Seat>>,
    start: Forces,
}

impl<'g> Shape<'g> {
    /// `start`: forces well within the cones, best near a balance without push.
    pub(super) fn new(group: &'g Group, start: Forces) -> Shape<'g> {
        let pairs = group.joints.iter().filter_map(|joint| joint.lower.map(|lower| (joint.upper, lower)));
        let pattern = Pattern::new(group.bodies.len(), pairs);
        let seat = |joint: &Joint| joint.lower.map(|lower| pattern.seat(joint.upper, lower));
        let seats = group.joints.iter().map(seat).collect();
        Shape { group, pattern, seats, start }
    }

    pub(super) fn group(&self) -> &'g Group {
        self.group
    }

    pub(super) fn start(&self) -> &Forces {
        &self.start
    }

    /// A system to be filled.
    pub(super) fn factor(&self) -> Factor<'_> {
        Factor::new(&self.pattern)
    }

    /// Fills in and factors A M A', with a metric for each corner: W2 for the greatest push.
    pub(super) fn assemble(&self, factor: &mut Factor, metrics: &[Metric]) {
        factor.clear();
        for ((joint, seat), metrics) in self.group.joints.iter().zip(&self.seats).zip(metrics.chunks_exact(4)) {
            let middle = stiffness(joint, metrics);
            factor.add_own(joint.upper, &moved(&middle, &joint.from_upper, &joint.from_upper));
            if let (Some(lower), Some(seat)) = (joint.lower, seat) {
                factor.add_own(lower, &moved(&middle, &joint.from_lower, &joint.from_lower));
                factor.subtract_pair(*seat, &moved(&middle, &joint.from_upper, &joint.from_lower));
            }
        }
        factor.decompose();
    }

    /// The greatest push, or any that is `enough`; `unit`: what a push of one does to each body.
    pub(super) fn push(&self, unit: Vec<Wrench>, enough: f64, steps: u32) -> Stop {
        let mut state = State::new(self, unit);
        let mut best = state.stop();
        let (mut taken, mut best_at) = (0, 0);
        while taken < steps && best.score > 1.0 && taken < best_at + PATIENCE && state.step() {
            taken += 1;
            if state.falls() || state.holds(enough) {
                return state.stop();
            }
            if state.score() < best.score {
                (best, best_at) = (state.stop(), taken);
            }
        }
        best
    }
}

struct State<'s> {
    shape: &'s Shape<'s>,
    push: Vec<Wrench>,
    factor: Factor<'s>,
    u: Forces,
    s: Vec<Part>,
    motion: Motion,
    lambda: f64,
    /// What is missing from the balance of forces, from s = A'V and from a.V = 1.
    unbalanced: Vec<Wrench>,
    mismatch: Vec<Part>,
    idle: f64,
    /// u . s, and the same for one corner.
    gap: f64,
}

/// One direction to go.
struct Leap {
    u: Vec<Part>,
    s: Vec<Part>,
    motion: Motion,
    lambda: f64,
}

impl<'s> State<'s> {
    fn new(shape: &'s Shape<'s>, push: Vec<Wrench>) -> State<'s> {
        let u = shape.start.clone();
        #[expect(clippy::cast_precision_loss, reason = "a count of corners is far below 2^52")]
        let even = 1.0 / u.len() as f64;
        // Every corner starts with the same product u.s, on the middle line of the cone.
        let s = u.iter().map(|u| [even / u[0], 0.0, 0.0]).collect();
        let motion = vec![[0.0; 6]; shape.group.bodies.len()];
        let mut state = State {
            shape,
            push,
            factor: Factor::new(&shape.pattern),
            u,
            s,
            motion,
            lambda: 0.0,
            unbalanced: Vec::new(),
            mismatch: Vec::new(),
            idle: 1.0,
            gap: 1.0,
        };
        state.look();
        state
    }

    /// Works out what is missing, afresh from the numbers.
    fn look(&mut self) {
        let group = self.shape.group;
        self.unbalanced = on_bodies(group, &self.u);
        for ((missing, load), push) in self.unbalanced.iter_mut().zip(&group.constant).zip(&self.push) {
            add(missing, 1.0, load);
            add(missing, self.lambda, push);
            missing.iter_mut().for_each(|part| *part = -*part);
        }
        self.mismatch = parting(group, &self.motion);
        for (mismatch, s) in self.mismatch.iter_mut().zip(&self.s) {
            (0..3).for_each(|part| mismatch[part] -= s[part]);
        }
        self.idle = 1.0 - self.motion.iter().zip(&self.push).map(|(motion, push)| dot(motion, push)).sum::<f64>();
        self.gap = self.u.iter().zip(&self.s).map(|(u, s)| cone::dot(u, s)).sum();
    }

    fn score(&self) -> f64 {
        let close = self.close();
        let worst = |parts: &mut dyn Iterator<Item = &f64>| parts.fold(0.0, |worst: f64, part| worst.max(part.abs()));
        let unbalanced = worst(&mut self.unbalanced.iter().flatten());
        let mismatch = worst(&mut self.mismatch.iter().flatten());
        let parts = [unbalanced / BALANCED, self.gap / close, mismatch / close, self.idle.abs() / BALANCED];
        parts.into_iter().fold(0.0, f64::max)
    }

    /// The motion alone shows that there is no balance even without a push: no need to go on.
    fn falls(&self) -> bool {
        let power = total(&self.motion, &self.shape.group.constant);
        let mismatch = self.mismatch.iter().flatten().fold(0.0, |worst: f64, part| worst.max(part.abs()));
        power > FALLING && mismatch < BALANCED * power && self.idle.abs() < BALANCED * power
    }

    fn holds(&self, enough: f64) -> bool {
        let unbalanced = self.unbalanced.iter().flatten().fold(0.0, |worst: f64, part| worst.max(part.abs()));
        self.lambda >= enough && unbalanced < BALANCED
    }

    fn close(&self) -> f64 {
        CLOSE * self.lambda.abs().max(0.1)
    }

    fn stop(&self) -> Stop {
        let (forces, motion) = (self.u.clone(), self.motion.clone());
        Stop { forces, multiplier: self.lambda, motion, score: self.score() }
    }

    /// Predictor and corrector. False: the numbers are no longer any.
    fn step(&mut self) -> bool {
        let scalings: Vec<Scaling> = self.u.iter().zip(&self.s).map(|(u, s)| Scaling::between(u, s)).collect();
        let metrics: Vec<Metric> = scalings.iter().map(Scaling::square).collect();
        self.shape.assemble(&mut self.factor, &metrics);
        let by_push = self.factor.solve(&self.push);
        let predictor: Vec<Part> = scalings.iter().map(|scaling| scaling.middle.map(|part| -part)).collect();
        let leap = self.leap(&scalings, &predictor, &by_push);
        let [for_u, for_s] = lengths(&scalings, &leap.u, &leap.s, SHY);
        let corrected = centred(&scalings, &leap.u, &leap.s, self.centre(for_u.min(for_s)));
        let mut leap = self.leap(&scalings, &corrected, &by_push);
        if self.gap < FINE {
            // Once is not always enough: 600 scattered blocks lost their balance with that.
            (0..REFINED).for_each(|_| self.refine(&scalings, &mut leap));
        }
        let [for_u, for_s] = lengths(&scalings, &leap.u, &leap.s, SHY).map(|length| (SHY * length).min(1.0));
        self.go(&leap, for_u, for_s);
        self.look();
        self.gap.is_finite() && self.lambda.is_finite()
    }

    /// The product u.s of a corner that the second leap aims at, for how far the first one could go.
    fn centre(&self, length: f64) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "a count of corners is far below 2^52")]
        let count = self.u.len() as f64;
        let (mean, floor) = (self.gap / count, FLOOR * self.close() / count);
        (mean * (1.0 - length).powi(3)).max(floor.min(mean))
    }

    /// Solves one linear step: W^-1 du + W ds = right, and everything that is missing made good.
    fn leap(&self, scalings: &[Scaling], right: &[Part], by_push: &[Wrench]) -> Leap {
        let group = self.shape.group;
        let own: Vec<Part> = (scalings.iter().zip(right).zip(&self.mismatch))
            .map(|((scaling, right), mismatch)| {
                let inner = scaling.by(mismatch);
                scaling.by(&[right[0] - inner[0], right[1] - inner[1], right[2] - inner[2]])
            })
            .collect();
        let mut side = on_bodies(group, &own);
        side.iter_mut().zip(&self.unbalanced).for_each(|(side, missing)| add(side, -1.0, missing));
        let mut motion = self.factor.solve(&side);
        let lambda = (self.idle - total(&self.push, &motion)) / total(&self.push, by_push);
        motion.iter_mut().zip(by_push).for_each(|(motion, by_push)| add(motion, lambda, by_push));
        let mut s = parting(group, &motion);
        let mut u = own;
        for ((u, s), (scaling, mismatch)) in u.iter_mut().zip(&mut s).zip(scalings.iter().zip(&self.mismatch)) {
            let taken = scaling.by(&scaling.by(s));
            (0..3).for_each(|part| u[part] -= taken[part]);
            (0..3).for_each(|part| s[part] += mismatch[part]);
        }
        Leap { u, s, motion, lambda }
    }

    /// Makes good what rounding left of the balance in a leap: near the end some corners are moved
    /// by differences of large numbers.
    fn refine(&self, scalings: &[Scaling], leap: &mut Leap) {
        let group = self.shape.group;
        let mut left = on_bodies(group, &leap.u);
        for ((left, missing), push) in left.iter_mut().zip(&self.unbalanced).zip(&self.push) {
            *left = std::array::from_fn(|row| missing[row] - left[row] - leap.lambda * push[row]);
        }
        let motion = self.factor.solve(&left);
        for ((u, more), scaling) in leap.u.iter_mut().zip(parting(group, &motion)).zip(scalings) {
            let taken = scaling.by(&scaling.by(&more));
            (0..3).for_each(|part| u[part] += taken[part]);
        }
    }

    fn go(&mut self, leap: &Leap, for_u: f64, for_s: f64) {
        let advance = |to: &mut Part, step: &Part, length: f64| (0..3).for_each(|part| to[part] += length * step[part]);
        self.u.iter_mut().zip(&leap.u).for_each(|(u, step)| advance(u, step, for_u));
        self.s.iter_mut().zip(&leap.s).for_each(|(s, step)| advance(s, step, for_s));
        self.motion.iter_mut().zip(&leap.motion).for_each(|(motion, step)| add(motion, for_s, step));
        self.lambda += for_u * leap.lambda;
    }
}

/// The right side of the second leap: the centre, less what the first leap (du, ds) bends away.
pub(crate) fn centred(scalings: &[Scaling], du: &[Part], ds: &[Part], centre: f64) -> Vec<Part> {
    let right = |(scaling, (du, ds)): (&Scaling, (&Part, &Part))| {
        let (middle, bent) = (&scaling.middle, cone::product(&scaling.back(du), &scaling.by(ds)));
        let square = cone::product(middle, middle);
        let wanted = [centre - square[0] - bent[0], -square[1] - bent[1], -square[2] - bent[2]];
        cone::quotient(middle, &wanted)
    };
    scalings.iter().zip(du.iter().zip(ds)).map(right).collect()
}

/// How far the forces and the speeds can go before a cone ends; at most to where a shy step is a whole one.
pub(crate) fn lengths(scalings: &[Scaling], du: &[Part], ds: &[Part], shy: f64) -> [f64; 2] {
    let mut lengths = [1.0 / shy; 2];
    for (scaling, (du, ds)) in scalings.iter().zip(du.iter().zip(ds)) {
        lengths[0] = lengths[0].min(cone::longest(&scaling.middle, &scaling.back(du)));
        lengths[1] = lengths[1].min(cone::longest(&scaling.middle, &scaling.by(ds)));
    }
    lengths
}

fn total(a: &[Wrench], b: &[Wrench]) -> f64 {
    a.iter().zip(b).map(|(a, b)| dot(a, b)).sum()
}

/// A'V for every corner.
pub(super) fn parting(group: &Group, motion: &[Wrench]) -> Vec<Part> {
    group.joints.iter().flat_map(|joint| at_corners(joint, motion)).collect()
}

/// The metrics of the four corners as one block about the joint's middle.
fn stiffness(joint: &Joint, metrics: &[Metric]) -> Block {
    let (normal, level) = (1.0 / joint.steepness(), if joint.is_smooth() { 0.0 } else { 1.0 });
    let mut sum = NO_BLOCK;
    for (corner, [n, tx, ty]) in metrics.iter().enumerate() {
        let (nx, ny) = (n[1] * normal * level, n[2] * normal * level);
        let force =
            [[tx[1] * level, tx[2] * level, nx], [tx[2] * level, ty[2] * level, ny], [nx, ny, n[0] * normal * normal]];
        add_corner(&mut sum, &force, joint.corner(corner));
    }
    let lower = sum;
    let sum: Block = std::array::from_fn(|row| std::array::from_fn(|k| lower[row.max(k)][row.min(k)]));
    match joint.facing {
        Facing::Up => sum,
        facing => facing.to_bed_columns(sum.map(|row| facing.to_bed(row))),
    }
}

/// The lower half of [F, F D'; D F, D F D'], D the turn that makes a moment of a corner's force.
fn add_corner(sum: &mut Block, force: &[[f64; 3]; 3], [dx, dy]: [f64; 2]) {
    let [fx, fy, fz] = force;
    let moment: [[f64; 3]; 3] = [
        std::array::from_fn(|k| dy * fz[k]),
        std::array::from_fn(|k| -dx * fz[k]),
        std::array::from_fn(|k| dx * fy[k] - dy * fx[k]),
    ];
    for row in 0..3 {
        for column in 0..3 {
            sum[row][column] += force[row][column];
            sum[3 + row][column] += moment[row][column];
        }
        let [mx, my, mz] = moment[row];
        sum[3 + row][3] += dy * mz;
        sum[3 + row][4] -= dx * mz;
        sum[3 + row][5] += dx * my - dy * mx;
    }
}
