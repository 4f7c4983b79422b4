//! The least multiplier over a list of directions, with a solver asked as seldom as the proofs allow.
//!
//! A motion bounds the least from above. Every direction in which that much is not yet known to be
//! held is then tried: first by the hull of what is held (no work at all), then by handing the
//! load down (a pass over the contacts), then by mending forces that are known to hold nearly as much (a
//! system or a few), last by the solver, which brings new forces and a new motion. It
//! ends when every direction of the list is held to the bound: then the bound is the least.

use super::group::Group;
use super::interior::Shape;
use super::known::Known;
use super::proof::{self, BALANCED, Barred, Effort, Found, Held, slack};
use quantity::frame::plan_direction;
use std::f64::consts::{PI, TAU};

/// Pushes a little beyond the bound are tried first: their hull may cover what lies between.
const BEYOND: f64 = 1.02;
/// Directions this close to one that failed are not tried by themselves, rad.
const BESIDE: f64 = 0.1;
/// A solve is news for directions this close, rad.
const AROUND: f64 = 0.4;
/// The solver may stop this part of the way from the bound to what bars its direction, at most so many
/// times the bound.
const PART_WAY: f64 = 0.9;
/// Mended forces are asked for less: hardly more than the bound, which is found oftenest.
const MENDED_WAY: f64 = 0.1;
const WELL: f64 = 1.15;
/// Nothing more is mended in a state once so many directions in a row were left to the solver: under straps
/// hardly anything can be.
const PATIENCE: u32 = 6;
/// A bound that is no number counts as this much when directions are weighed against one another.
const FAR: f64 = 10.0;

/// The end of a search over a group.
pub(super) enum Least {
    /// Held in every direction of the list, and barred beyond in one.
    Decided {
        multiplier: f64,
        direction_rad: f64,
        barred: Barred,
    },
    /// Held in every direction up to the ceiling that was given: some other group is weaker.
    Enough,
    NotLimited,
    Falls(Barred),
    Open {
        residual: Option<f64>,
    },
}

pub(super) struct Search<'g> {
    pub(super) group: &'g Group,
    pub(super) directions: &'g [f64],
    pub(super) effort: Effort,
    /// False: the answer is no longer wanted.
    pub(super) wanted: &'g dyn Fn() -> bool,
}

/// The direction that sets the bound is solved to the end, any other until it is well held: a good
/// part of the way to what bars it, so that the hull has room.
fn enough(above: f64, target: f64, part_way: f64) -> f64 {
    match above {
        sets_the_bound if sets_the_bound <= target + slack(target) => f64::INFINITY,
        _ => target + part_way * (above.min(WELL * target) - target),
    }
}

/// The running state of a search.
struct Run<'k> {
    known: &'k mut Known,
    /// For each direction the least push at which the quick proof has failed since the last solve.
    failed: Vec<f64>,
    /// Directions in a row that had to be left to the solver.
    in_vain: u32,
}

impl<'g> Search<'g> {
    pub(super) fn least(&self, known: &mut Known, ceiling: f64) -> Least {
        let mut shape: Option<Shape<'g>> = None;
        let mut run = Run { known, failed: vec![f64::INFINITY; self.directions.len()], in_vain: 0 };
        // Every solve settles its direction for good.
        for _ in 0..=2 * self.directions.len() {
            if let Some(falls) = run.known.falling() {
                return Least::Falls(falls.clone());
            }
            let above = self.least_above(run.known);
            let target = above.min(ceiling);
            self.quick_proofs(&mut run, target);
            let open = self.open(run.known, target);
            let Some(hardest) = self.hardest(run.known, &open) else { return self.decided(run.known, above, ceiling) };
            if !(self.wanted)() {
                return Least::Open { residual: None };
            }
            let shape = shape.get_or_insert_with(|| Shape::new(self.group, proof::start(self.group)));
            if run.in_vain < PATIENCE
                && let Some(held) = self.mended(run.known, shape, hardest, target)
            {
                run.known.held.push(held);
                run.in_vain = 0;
                continue;
            }
            run.in_vain += 1;
            let enough = enough(run.known.above(self.directions[hardest]), target, PART_WAY);
            match proof::push(shape, self.directions[hardest], enough, self.effort) {
                Found::Limit(held, barred) => run.known.take(held, barred),
                Found::Held(held) => run.known.held.push(held),
                Found::Falls(barred) => run.known.barred.push(barred),
                Found::Unlimited => run.known.unlimited.push(self.directions[hardest]),
                Found::Open(residual) => return Least::Open { residual },
            }
            let renewed: Vec<usize> = self.near(self.directions[hardest], AROUND).collect();
            renewed.into_iter().for_each(|at| run.failed[at] = f64::INFINITY);
        }
        Least::Open { residual: None }
    }

    fn least_above(&self, known: &Known) -> f64 {
        self.directions.iter().map(|&direction| known.above(direction)).fold(f64::INFINITY, f64::min)
    }

    /// Directions in which the target is not held, as far as is known.
    fn open(&self, known: &Known, target: f64) -> Vec<usize> {
        let within = known.within();
        let wanted = if target.is_finite() { target - slack(target) } else { target };
        (0..self.directions.len()).filter(|&at| within.below(self.directions[at]) < wanted).collect()
    }

    fn quick_proofs(&self, run: &mut Run, target: f64) {
        if !target.is_finite() || target < 0.0 {
            return;
        }
        let wanted = target - slack(target);
        for reach in [BEYOND * target, target - 0.5 * slack(target)] {
            let mut within = run.known.within();
            for at in 0..self.directions.len() {
                let direction = self.directions[at];
                let hopeless = reach >= run.failed[at] || run.known.above(direction) < reach;
                if hopeless || within.below(direction) >= wanted {
                    continue;
                }
                match self.held_quickly(run.known, direction, reach) {
                    Some(held) => {
                        run.known.held.push(held);
                        within = run.known.within();
                    }
                    None => self.doubt_near(run, direction, reach),
                }
            }
        }
    }

    /// Forces that nearly hold the bound in a direction, mended. Not tried where the direction sets the
    /// bound: there the greatest push must be found.
    fn mended(&self, known: &Known, shape: &Shape, at: usize, target: f64) -> Option<Held> {
        let direction_rad = self.directions[at];
        let reach = enough(known.above(direction_rad), target, MENDED_WAY);
        if !reach.is_finite() {
            return None;
        }
        let push = plan_direction(direction_rad).map(|part| reach * part);
        proof::by_mending(shape, push, &known.guess(push, 4 * self.group.joints.len()))
    }

    fn held_quickly(&self, known: &Known, direction_rad: f64, reach: f64) -> Option<Held> {
        let push = plan_direction(direction_rad).map(|part| reach * part);
        let guess = known.guess(push, 4 * self.group.joints.len());
        proof::quickly(self.group, push, &guess)
    }

    /// What failed in one direction would mostly fail beside it too: that is left to the hull, or to the
    /// solver. Nothing is proved by it.
    fn doubt_near(&self, run: &mut Run, direction_rad: f64, reach: f64) {
        self.near(direction_rad, BESIDE).for_each(|at| run.failed[at] = run.failed[at].min(reach));
    }

    fn near(&self, direction_rad: f64, within: f64) -> impl Iterator<Item = usize> {
        let apart = move |other: f64| ((other - direction_rad + PI).rem_euclid(TAU) - PI).abs();
        let near = self.directions.iter().enumerate().filter(move |(_, other)| apart(**other) <= within);
        near.map(|(at, _)| at)
    }

    /// Among the open directions the one about which least is known.
    fn hardest(&self, known: &Known, open: &[usize]) -> Option<usize> {
        let within = known.within();
        let doubt = |at: usize| {
            let direction = self.directions[at];
            known.above(direction).min(FAR) - within.below(direction).max(-FAR)
        };
        // The first among equals, so that the order of the list decides and nothing else.
        open.iter().copied().reduce(|best, at| if doubt(at) > doubt(best) + 1e-9 { at } else { best })
    }

    /// Every direction is held to the target.
    fn decided(&self, known: &Known, above: f64, ceiling: f64) -> Least {
        if above > ceiling {
            return Least::Enough;
        }
        if above == f64::INFINITY {
            return Least::NotLimited;
        }
        let within = known.within();
        let below = self.directions.iter().map(|&direction| within.below(direction)).fold(f64::INFINITY, f64::min);
        let near = |direction: f64| known.above(direction) <= above + slack(above);
        let direction_rad = self.directions.iter().copied().find(|&direction| near(direction)).unwrap_or(0.0);
        let direction = plan_direction(direction_rad);
        let along = |barred: &&Barred| barred.half_plane.along(direction);
        let barred = known.barred.iter().min_by(|a, b| along(a).total_cmp(&along(b)));
        let barred = barred.expect("a finite bound came from a motion").clone();
        Least::Decided { multiplier: below.min(above), direction_rad, barred }
    }
}

impl Known {
    /// Leaves out the motions that bound none of the directions: they would only be dragged along.
    pub(super) fn tidy(&mut self, directions: &[f64]) {
        let mut needed: Vec<usize> = Vec::new();
        for direction in directions.iter().map(|&direction| plan_direction(direction)) {
            let along = |at: &usize| self.barred[*at].half_plane.along(direction);
            let best = (0..self.barred.len()).min_by(|a, b| along(a).total_cmp(&along(b)));
            needed.extend(best.filter(|best| !needed.contains(best)));
        }
        needed.sort_unstable();
        self.barred = needed.into_iter().map(|at| self.barred[at].clone()).collect();
    }

    /// Whether standing under the weight alone is proved, or its opposite.
    pub(super) fn stands(&self) -> Option<bool> {
        if self.falling().is_some() { Some(false) } else { self.within().stands.then_some(true) }
    }

    /// A motion that leaves out even the weight alone.
    pub(super) fn falling(&self) -> Option<&Barred> {
        self.barred.iter().find(|barred| barred.half_plane.reach < -BALANCED)
    }
}

impl Search<'_> {
    /// Does it stand under the weight alone? None: not decided.
    pub(super) fn stands(&self, known: &mut Known) -> Option<bool> {
        let corners = 4 * self.group.joints.len();
        if known.stands().is_none()
            && let Some(held) = proof::quickly(self.group, [0.0; 2], &vec![[0.0; 3]; corners])
        {
            known.held.push(held);
        }
        // Pushes from opposite sides have the rest between them.
        let mut shape = None;
        for turn in 0..4 {
            if let Some(stands) = known.stands() {
                return Some(stands);
            }
            let shape = shape.get_or_insert_with(|| Shape::new(self.group, proof::start(self.group)));
            let direction = std::f64::consts::FRAC_PI_2 * f64::from([0, 2, 1, 3][turn]);
            match proof::push(shape, direction, f64::INFINITY, self.effort) {
                Found::Limit(held, barred) => known.take(held, barred),
                Found::Falls(barred) => known.barred.push(barred),
                Found::Held(_) | Found::Unlimited | Found::Open(_) => {}
            }
        }
        known.stands()
    }
}

impl Known {
    fn take(&mut self, held: Held, barred: Barred) {
        self.held.push(held);
        self.barred.push(barred);
    }
}
