//! The least multiplier over a list of directions, with a solver asked as seldom as the proofs allow.
//!
//! A motion bounds the least from above. Every direction in which that much is not yet known to be
//! held is then tried: first by the hull of what is held (no work at all), then by handing the
//! load down (a pass over the contacts), then by mending forces that are known to hold nearly as much (a
//! system or a few), then by the solver on the layers that matter, last by the solver on all, which brings
//! new forces and a new motion. It ends when every direction of the list is held to the bound: then the
//! bound is the least.

use super::forces::Forces;
use super::group::Group;
use super::interior::Shape;
use super::known::Known;
use super::partly::{About, Asked};
use super::proof::{self, BALANCED, Barred, Effort, Found, Held};
use crate::margin::slack;
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
/// Nothing more is mended in a state once that was in vain so many times in a row.
const PATIENCE: u32 = 6;
/// Layers that are solved over and under those in which a motion parts; where few will not do, more.
const MARGINS: [usize; 2] = [3, 9];
/// So many times each direction is looked at in part before the whole stack is solved.
const LOOKS: u32 = 3;
/// A motion that bars no less than so many times the bound tells nothing of a direction.
const TELLING: f64 = 2.0;
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
    /// How often each direction was looked at in part.
    looks: Vec<u32>,
    /// How often in a row mending was in vain.
    in_vain: u32,
}

impl<'g> Search<'g> {
    pub(super) fn least(&self, known: &mut Known, ceiling: f64) -> Least {
        let mut shape: Option<Shape<'g>> = None;
        let count = self.directions.len();
        let mut run = Run { known, failed: vec![f64::INFINITY; count], looks: vec![0; count], in_vain: 0 };
        // Every solve of the whole settles its direction for good.
        for _ in 0..=(2 + LOOKS as usize) * count {
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
            if self.settled_in_part(&mut run, hardest, target) {
                continue;
            }
            let shape = shape.get_or_insert_with(|| Shape::new(self.group, proof::start(self.group)));
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

    /// Whether a look at the layers that matter has brought a direction on.
    fn settled_in_part(&self, run: &mut Run, at: usize, target: f64) -> bool {
        let is_bound = target.is_finite() && target > BALANCED;
        if !is_bound || run.looks[at] >= LOOKS {
            return false;
        }
        run.looks[at] += 1;
        self.mended(run, at, target) || MARGINS.iter().any(|&margin| self.solved_in_part(run, at, target, margin))
    }

    /// Not tried where the direction sets the bound: there the greatest push must be found.
    fn mended(&self, run: &mut Run, at: usize, target: f64) -> bool {
        let direction_rad = self.directions[at];
        let reach = enough(run.known.above(direction_rad), target, MENDED_WAY);
        if reach.is_infinite() || run.in_vain >= PATIENCE {
            return false;
        }
        let near = self.guess(run.known, direction_rad, reach);
        let held = proof::by_mending(self.group, &Asked::new(self.group, direction_rad, &near), reach);
        run.in_vain = if held.is_some() { 0 } else { run.in_vain + 1 };
        run.known.held.extend(held);
        run.in_vain == 0
    }

    /// Where the direction sets the bound, that is mostly the limit already, and only the forces are missing.
    fn solved_in_part(&self, run: &mut Run, at: usize, target: f64, margin: usize) -> bool {
        let (direction_rad, above) = (self.directions[at], run.known.above(self.directions[at]));
        let enough = match enough(above, target, PART_WAY) {
            enough if enough.is_finite() => enough,
            _ => target - 0.5 * slack(target),
        };
        let Some(hint) = self.hint(run.known, direction_rad, target) else { return false };
        let near = self.guess(run.known, direction_rad, enough);
        let asked = Asked::new(self.group, direction_rad, &near);
        let about = About { motion: &hint.motion, margin, above };
        let Some(held) = proof::in_part(self.group, &asked, &about, enough, self.effort) else { return false };
        let multiplier = held.push[0].hypot(held.push[1]);
        // As much as these layers bear: then the way in which they go may bar no more than that.
        let is_limit = multiplier < enough;
        let barred = is_limit.then(|| proof::barred_in_part(self.group, &asked, &about, self.effort)).flatten();
        let along = |barred: &Barred| barred.half_plane.along(asked.direction());
        let barred = barred.filter(|barred| along(barred) < above - 0.5 * slack(above));
        // Forces for less than the bound would only stand in the way of better guesses.
        let held = Some(held).filter(|_| multiplier >= target - slack(target));
        let is_news = held.is_some() || barred.is_some();
        run.known.held.extend(held);
        run.known.barred.extend(barred);
        is_news
    }

    /// A motion that tells where the stack goes when it is pushed so: one that bars the direction, or
    /// that which sets the bound.
    fn hint<'k>(&self, known: &'k Known, direction_rad: f64, target: f64) -> Option<&'k Barred> {
        let direction = plan_direction(direction_rad);
        let barring = known.barring(direction_rad);
        barring.filter(|barred| barred.half_plane.along(direction) < TELLING * target).or_else(|| {
            let above = |direction: &f64| known.above(*direction);
            let weakest = self.directions.iter().copied().min_by(|a, b| above(a).total_cmp(&above(b)))?;
            known.barring(weakest)
        })
    }

    fn guess(&self, known: &Known, direction_rad: f64, reach: f64) -> Forces {
        known.guess(plan_direction(direction_rad).map(|part| reach * part), 4 * self.group.joints.len())
    }

    fn held_quickly(&self, known: &Known, direction_rad: f64, reach: f64) -> Option<Held> {
        let push = plan_direction(direction_rad).map(|part| reach * part);
        proof::quickly(self.group, push, &self.guess(known, direction_rad, reach))
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
        let barred = known.barring(direction_rad).expect("a finite bound came from a motion").clone();
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
    /// The motion that bars a direction most.
    fn barring(&self, direction_rad: f64) -> Option<&Barred> {
        let direction = plan_direction(direction_rad);
        let along = |barred: &&Barred| barred.half_plane.along(direction);
        let least = self.barred.iter().min_by(|a, b| along(a).total_cmp(&along(b)))?;
        along(&least).is_finite().then_some(least)
    }

    fn take(&mut self, held: Held, barred: Barred) {
        self.held.push(held);
        self.barred.push(barred);
    }
}
