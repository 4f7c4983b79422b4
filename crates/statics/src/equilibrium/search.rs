//! The least multiplier over a list of directions, with as few solves as the proofs allow.
//!
//! Mechanisms bound the least from above. Each direction whose lower bound does not reach that bound yet is
//! tried, the cheapest way first: the hull of the pushes that are proved (no work), a load path (one pass over
//! the contacts), forces rebalanced from those of a push nearly as great (a few linear systems), a programme
//! on the layers that matter, and last a programme on the whole stack, which gives new forces and a new
//! mechanism. The search ends when the lower bound of every direction reaches the upper bound: that is the
//! least.

use super::bounds::Bounds;
use super::forces::Forces;
use super::group::Group;
use super::interior::Shape;
use super::layers::{PartingLayers, PushDirection};
use super::load_path::LoadPath;
use super::motion::UpperBound;
use super::proof::{self, BALANCED, Effort, Found};
use super::shortcuts::{Means, Shortcut};
use crate::margin::slack;
use quantity::frame::plan_direction;
use std::f64::consts::{PI, TAU};

/// Pushes a little beyond the bound are tried first: their hull may cover what lies between.
const BEYOND: f64 = 1.02;
/// Directions this close to one that failed are not tried by themselves, rad.
const BESIDE: f64 = 0.1;
/// A solve is news for directions this close, rad.
const AROUND: f64 = 0.4;
/// The solver may stop this part of the way from the bound to the upper bound of its own direction, at most so
/// many times the bound.
const PART_WAY: f64 = 0.9;
/// Rebalancing is asked for less: hardly more than the bound, which is found most often.
const REBALANCED_WAY: f64 = 0.1;
const WELL: f64 = 1.15;
/// Nothing more is rebalanced in a state once that has failed so many times in a row.
const PATIENCE: u32 = 6;
/// Layers that are solved over and under those in which faces part; where few do not suffice, more.
const MARGINS: [usize; 2] = [3, 9];
/// So many times each direction is tried on some layers before the whole stack is solved.
const LOOKS: u32 = 3;
/// An upper bound above so many times the bound tells nothing of a direction.
const TELLING: f64 = 2.0;
/// An infinite bound counts as this much when directions are compared.
const FAR: f64 = 10.0;

/// The end of a search over a group.
pub(super) enum Least {
    /// Carried in every direction of the list, and bounded from above in one.
    Decided {
        multiplier: f64,
        direction_rad: f64,
        bound: UpperBound,
    },
    /// Carried in every direction up to the ceiling that was given: some other group is weaker.
    Enough,
    NotLimited,
    Falls(UpperBound),
    Open {
        residual: Option<f64>,
    },
}

pub(super) struct Search<'g> {
    pub(super) group: &'g Group,
    pub(super) directions: &'g [f64],
    pub(super) effort: Effort,
    pub(super) means: &'g Means,
    /// False: the answer is no longer wanted.
    pub(super) wanted: &'g dyn Fn() -> bool,
}

/// The direction that sets the bound is solved to the end. Any other is solved until it carries a good part of
/// its own upper bound, so that the hull covers its neighbours too.
fn enough(upper: f64, target: f64, part_way: f64) -> f64 {
    match upper {
        sets_the_bound if sets_the_bound <= target + slack(target) => f64::INFINITY,
        _ => target + part_way * (upper.min(WELL * target) - target),
    }
}

/// The running state of a search.
struct Run<'k> {
    bounds: &'k mut Bounds,
    /// For each direction the least push for which no load path was found since the last solve.
    failed: Vec<f64>,
    /// How often each direction was tried on some layers.
    looks: Vec<u32>,
    /// How often in a row rebalancing failed.
    in_vain: u32,
}

impl<'g> Search<'g> {
    pub(super) fn least(&self, bounds: &mut Bounds, ceiling: f64) -> Least {
        let mut shape: Option<Shape<'g>> = None;
        let count = self.directions.len();
        let mut run = Run { bounds, failed: vec![f64::INFINITY; count], looks: vec![0; count], in_vain: 0 };
        // A solve of the whole settles its direction: this ends.
        for _ in 0..=(2 + LOOKS as usize) * count {
            if let Some(falls) = run.bounds.falling() {
                return Least::Falls(falls.clone());
            }
            let upper = self.least_upper(run.bounds);
            let target = upper.min(ceiling);
            self.trace_open(&mut run, target);
            let open = self.open(run.bounds, target);
            let Some(hardest) = self.hardest(run.bounds, &open) else {
                return self.decided(run.bounds, upper, ceiling);
            };
            if !(self.wanted)() {
                return Least::Open { residual: None };
            }
            if self.settled_on_layers(&mut run, hardest, target) {
                continue;
            }
            let shape = shape.get_or_insert_with(|| Shape::new(self.group, proof::start(self.group)));
            let enough = enough(run.bounds.upper_along(self.directions[hardest]), target, PART_WAY);
            self.means.count(|work| work.whole += 1);
            match proof::push(shape, self.directions[hardest], enough, self.effort) {
                Found::Limit(path, bound) => run.bounds.take(path, bound),
                Found::Lower(path) => run.bounds.lower.push(path),
                Found::Falls(bound) => run.bounds.upper.push(bound),
                Found::Unlimited => run.bounds.unlimited.push(self.directions[hardest]),
                Found::Open(residual) => return Least::Open { residual },
            }
            let renewed: Vec<usize> = self.near(self.directions[hardest], AROUND).collect();
            renewed.into_iter().for_each(|at| run.failed[at] = f64::INFINITY);
        }
        Least::Open { residual: None }
    }

    fn least_upper(&self, bounds: &Bounds) -> f64 {
        self.directions.iter().map(|&direction| bounds.upper_along(direction)).fold(f64::INFINITY, f64::min)
    }

    /// Directions whose lower bound does not reach the target yet.
    fn open(&self, bounds: &Bounds, target: f64) -> Vec<usize> {
        let hull = bounds.inner_hull();
        let wanted = if target.is_finite() { target - slack(target) } else { target };
        (0..self.directions.len()).filter(|&at| hull.lower_along(self.directions[at]) < wanted).collect()
    }

    fn trace_open(&self, run: &mut Run, target: f64) {
        if !target.is_finite() || target < 0.0 || !self.means.has(Shortcut::LoadPath) {
            return;
        }
        let wanted = target - slack(target);
        for reach in [BEYOND * target, target - 0.5 * slack(target)] {
            let mut hull = run.bounds.inner_hull();
            for at in 0..self.directions.len() {
                let direction = self.directions[at];
                let hopeless = reach >= run.failed[at] || run.bounds.upper_along(direction) < reach;
                if hopeless || hull.lower_along(direction) >= wanted {
                    continue;
                }
                match self.traced(run.bounds, direction, reach) {
                    Some(path) => {
                        run.bounds.lower.push(path);
                        hull = run.bounds.inner_hull();
                    }
                    None => self.doubt_near(run, direction, reach),
                }
            }
        }
    }

    /// Whether trying the layers that matter has improved the bounds of a direction.
    fn settled_on_layers(&self, run: &mut Run, at: usize, target: f64) -> bool {
        let is_bound = target.is_finite() && target > BALANCED;
        if !is_bound || run.looks[at] >= LOOKS {
            return false;
        }
        run.looks[at] += 1;
        self.means.has(Shortcut::Rebalance) && self.rebalanced(run, at, target)
            || self.means.has(Shortcut::Layers)
                && MARGINS.iter().any(|&margin| self.solved_on_layers(run, at, target, margin))
    }

    /// Not tried where the direction sets the bound: there the greatest push must be found.
    fn rebalanced(&self, run: &mut Run, at: usize, target: f64) -> bool {
        let direction_rad = self.directions[at];
        let reach = enough(run.bounds.upper_along(direction_rad), target, REBALANCED_WAY);
        if reach.is_infinite() || run.in_vain >= PATIENCE {
            return false;
        }
        let near = self.guess(run.bounds, direction_rad, reach);
        let toward = PushDirection::new(self.group, direction_rad, &near);
        self.means.count(|work| work.rebalanced += 1);
        let path = proof::rebalanced(self.group, &toward, self.rebalanced_layers(), reach);
        run.in_vain = if path.is_some() { 0 } else { run.in_vain + 1 };
        run.bounds.lower.extend(path);
        run.in_vain == 0
    }

    /// The first layers to be rebalanced; more are added where a load path is blocked.
    fn rebalanced_layers(&self) -> [usize; 2] {
        if self.means.has(Shortcut::Band) { [0, 0] } else { [0, usize::MAX] }
    }

    /// Where the direction sets the bound, that bound is mostly the limit already, and only the forces are missing.
    fn solved_on_layers(&self, run: &mut Run, at: usize, target: f64, margin: usize) -> bool {
        let (direction_rad, upper) = (self.directions[at], run.bounds.upper_along(self.directions[at]));
        let enough = match enough(upper, target, PART_WAY) {
            enough if enough.is_finite() => enough,
            _ => target - 0.5 * slack(target),
        };
        let Some(hint) = self.hint(run.bounds, direction_rad, target) else { return false };
        let near = self.guess(run.bounds, direction_rad, enough);
        let toward = PushDirection::new(self.group, direction_rad, &near);
        let parting = PartingLayers { motion: &hint.motion, margin, upper };
        self.means.count(|work| work.layers += 1);
        let Some(path) = proof::on_layers(self.group, &toward, &parting, enough, self.effort) else { return false };
        let multiplier = path.push[0].hypot(path.push[1]);
        // As much as these layers carry: then their mechanism may give the same as an upper bound.
        let is_limit = multiplier < enough;
        let solve = || {
            self.means.count(|work| work.layers += 1);
            proof::upper_bound_on_layers(self.group, &toward, &parting, self.effort)
        };
        let bound = is_limit.then(solve).flatten();
        let along = |bound: &UpperBound| bound.half_plane.along(toward.direction());
        let bound = bound.filter(|bound| along(bound) < upper - 0.5 * slack(upper));
        // Forces for less than the bound would only displace better guesses.
        let path = Some(path).filter(|_| multiplier >= target - slack(target));
        let is_news = path.is_some() || bound.is_some();
        run.bounds.lower.extend(path);
        run.bounds.upper.extend(bound);
        is_news
    }

    /// A mechanism that shows where the stack fails under such a push: one that bounds the direction, or
    /// the one that sets the bound of all.
    fn hint<'k>(&self, bounds: &'k Bounds, direction_rad: f64, target: f64) -> Option<&'k UpperBound> {
        let direction = plan_direction(direction_rad);
        let governing = bounds.governing(direction_rad);
        governing.filter(|bound| bound.half_plane.along(direction) < TELLING * target).or_else(|| {
            let upper = |direction: &f64| bounds.upper_along(*direction);
            let weakest = self.directions.iter().copied().min_by(|a, b| upper(a).total_cmp(&upper(b)))?;
            bounds.governing(weakest)
        })
    }

    fn guess(&self, bounds: &Bounds, direction_rad: f64, reach: f64) -> Forces {
        bounds.guess(plan_direction(direction_rad).map(|part| reach * part), 4 * self.group.joints.len())
    }

    fn traced(&self, bounds: &Bounds, direction_rad: f64, reach: f64) -> Option<LoadPath> {
        let push = plan_direction(direction_rad).map(|part| reach * part);
        self.means.count(|work| work.traced += 1);
        proof::traced(self.group, push, &self.guess(bounds, direction_rad, reach))
    }

    /// What failed in one direction mostly fails beside it too: those directions are left to the hull or the
    /// solver. Nothing is concluded from it.
    fn doubt_near(&self, run: &mut Run, direction_rad: f64, reach: f64) {
        self.near(direction_rad, BESIDE).for_each(|at| run.failed[at] = run.failed[at].min(reach));
    }

    fn near(&self, direction_rad: f64, within: f64) -> impl Iterator<Item = usize> {
        let apart = move |other: f64| ((other - direction_rad + PI).rem_euclid(TAU) - PI).abs();
        let near = self.directions.iter().enumerate().filter(move |(_, other)| apart(**other) <= within);
        near.map(|(at, _)| at)
    }

    /// Among the open directions the one whose bounds are farthest apart.
    fn hardest(&self, bounds: &Bounds, open: &[usize]) -> Option<usize> {
        let hull = bounds.inner_hull();
        let doubt = |at: usize| {
            let direction = self.directions[at];
            bounds.upper_along(direction).min(FAR) - hull.lower_along(direction).max(-FAR)
        };
        // The first among equals, so that the order of the list decides and nothing else.
        open.iter().copied().reduce(|best, at| if doubt(at) > doubt(best) + 1e-9 { at } else { best })
    }

    /// The lower bound of every direction reaches the target.
    fn decided(&self, bounds: &Bounds, upper: f64, ceiling: f64) -> Least {
        if upper > ceiling {
            return Least::Enough;
        }
        if upper == f64::INFINITY {
            return Least::NotLimited;
        }
        let hull = bounds.inner_hull();
        let lower = self.directions.iter().map(|&direction| hull.lower_along(direction)).fold(f64::INFINITY, f64::min);
        let near = |direction: f64| bounds.upper_along(direction) <= upper + slack(upper);
        let direction_rad = self.directions.iter().copied().find(|&direction| near(direction)).unwrap_or(0.0);
        let bound = bounds.governing(direction_rad).expect("a finite bound came from a motion").clone();
        Least::Decided { multiplier: lower.min(upper), direction_rad, bound }
    }
}

impl Bounds {
    /// Leaves out the mechanisms that govern none of the directions: they would only cost time.
    pub(super) fn tidy(&mut self, directions: &[f64]) {
        let mut needed: Vec<usize> = Vec::new();
        for direction in directions.iter().map(|&direction| plan_direction(direction)) {
            let along = |at: &usize| self.upper[*at].half_plane.along(direction);
            let best = (0..self.upper.len()).min_by(|a, b| along(a).total_cmp(&along(b)));
            needed.extend(best.filter(|best| !needed.contains(best)));
        }
        needed.sort_unstable();
        self.upper = needed.into_iter().map(|at| self.upper[at].clone()).collect();
    }

    /// Whether standing under the weight alone is proved, or its opposite.
    pub(super) fn stands(&self) -> Option<bool> {
        if self.falling().is_some() { Some(false) } else { self.inner_hull().stands.then_some(true) }
    }

    /// A mechanism that leaves out even the weight alone.
    pub(super) fn falling(&self) -> Option<&UpperBound> {
        self.upper.iter().find(|bound| bound.half_plane.reach < -BALANCED)
    }
}

impl Search<'_> {
    /// Does it stand under the weight alone? None: not decided.
    pub(super) fn stands(&self, bounds: &mut Bounds) -> Option<bool> {
        let corners = 4 * self.group.joints.len();
        if bounds.stands().is_none()
            && self.means.has(Shortcut::LoadPath)
            && let Some(path) = proof::traced(self.group, [0.0; 2], &vec![[0.0; 3]; corners])
        {
            bounds.lower.push(path);
        }
        // Pushes from opposite sides have the rest between them.
        let mut shape = None;
        for turn in 0..4 {
            if let Some(stands) = bounds.stands() {
                return Some(stands);
            }
            let shape = shape.get_or_insert_with(|| Shape::new(self.group, proof::start(self.group)));
            let direction = std::f64::consts::FRAC_PI_2 * f64::from([0, 2, 1, 3][turn]);
            self.means.count(|work| work.whole += 1);
            match proof::push(shape, direction, f64::INFINITY, self.effort) {
                Found::Limit(path, bound) => bounds.take(path, bound),
                Found::Falls(bound) => bounds.upper.push(bound),
                Found::Lower(_) | Found::Unlimited | Found::Open(_) => {}
            }
        }
        bounds.stands()
    }
}

impl Bounds {
    /// The mechanism that bounds a direction most.
    fn governing(&self, direction_rad: f64) -> Option<&UpperBound> {
        let direction = plan_direction(direction_rad);
        let along = |bound: &&UpperBound| bound.half_plane.along(direction);
        let least = self.upper.iter().min_by(|a, b| along(a).total_cmp(&along(b)))?;
        along(&least).is_finite().then_some(least)
    }

    fn take(&mut self, path: LoadPath, bound: UpperBound) {
        self.lower.push(path);
        self.upper.push(bound);
    }
}
