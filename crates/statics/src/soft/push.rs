//! The soft push limit: the greatest level push, as a part of the weight on every piece, that a stack of
//! pieces that give bears in a direction before it goes over.
//!
//! The pieces' mean displacement along the push is made to grow, and the push that belongs to it is followed
//! to its top: beyond the top there is no balance, so that a push alone cannot be followed there. The beds
//! do not slip: where the friction is used up first, friction is the limit, and the rigid solver says it.
//! Source: `own derivation` (displacement control: source key `limit-point-tracing`).

use super::factor::Factored;
use super::given::SoftStack;
use super::joint::{Joint, Order};
use super::model::{Load, Model, Motion, Seen};
use super::newton::{moved, turned_little};
use super::state::{Settled, SoftEnd, settle};
use crate::equilibrium::block::{Wrench, dot};
use std::f64::consts::{FRAC_PI_4, TAU};

/// How far the least of the directions may lie below the one that is told: other directions are only asked
/// whether they bear this part of it.
const NEARLY: f64 = 0.995;
/// Directions asked at first.
const EIGHT: u32 = 8;
/// How often the directions beside the weakest are asked, at half the angle each time.
const HALVINGS: u32 = 2;
/// The push with which the first step along the path would be in line, part of the weight.
const FIRST_PUSH: f64 = 0.1;
/// Each step along the path against the one before.
const LONGER: f64 = 1.5;
/// How far off the line onward a step may lead, against its length. At 0.3 one push in twenty went over to another
/// branch and came out high by up to a quarter; at 0.08 none of 314 did, held against steps a twentieth as long.
const ASTRAY: f64 = 0.08;
/// The shortest step along the path, part of the first.
const SHORTEST: f64 = 2e-4;
/// The top is found when it no longer changes by this, part of the weight.
const TOP: f64 = 1e-5;
const STEPS: usize = 8;
/// A miss of balance below this part of the load is none on the way: the push is then known to as much.
const NEAR_BALANCE: f64 = 1e-7;
const STRETCH: usize = 120;

/// A push and where it points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SoftPush {
    /// Push as a part of the weight.
    pub multiplier: f64,
    /// In plan, rad, floor frame: 0 aft, a quarter turn right.
    pub direction_rad: f64,
    /// The piece whose bed gives way most as the stack goes over: what lies above tips with it. None: not looked
    /// for, as by a closed form.
    pub tips: Option<usize>,
}

/// How the question ends how great a push is borne.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PushEnd {
    /// The greatest push.
    Decided(SoftPush),
    /// It does not stand by itself.
    Falls,
    /// Not answered, and so never to be read as safe.
    NotDecided,
}

impl PushEnd {
    /// The push, where there is one.
    pub fn push(&self) -> Option<SoftPush> {
        match self {
            PushEnd::Decided(push) => Some(*push),
            PushEnd::Falls | PushEnd::NotDecided => None,
        }
    }
}

/// The soft push limit of the first `step` pieces: the least over eight directions in plan and those around
/// the weakest of them. No direction that was asked bears less than 99.5 % of it.
pub fn push_limit(given: &SoftStack, step: usize) -> PushEnd {
    push_limit_while(given, step, &|| true)
}

/// The soft push limit in one direction (rad, floor frame).
pub fn push_along(given: &SoftStack, step: usize, direction_rad: f64) -> PushEnd {
    let (end, settled) = settle(given, step);
    let Some(settled) = settled else { return unsettled(&end) };
    let start = Start::of(&settled);
    let top = start.and_then(|start| Path::new(&start, direction_rad)?.top(f64::INFINITY, &|| true));
    top.map_or(PushEnd::NotDecided, |top| PushEnd::Decided(top.along(direction_rad)))
}

fn unsettled(end: &SoftEnd) -> PushEnd {
    if end.stands() == Some(false) { PushEnd::Falls } else { PushEnd::NotDecided }
}

pub(super) fn push_limit_while(given: &SoftStack, step: usize, wanted: &dyn Fn() -> bool) -> PushEnd {
    let (end, settled) = settle(given, step);
    let Some(settled) = settled else { return unsettled(&end) };
    least(&settled, wanted).map_or(PushEnd::NotDecided, PushEnd::Decided)
}

/// Whether the first `step` pieces bear a push (part of the weight) whichever way it points, without asking how much
/// more they bear. None: not decided.
///
/// Asked in eight directions for 1/cos(22.5 deg) of it: an edge that lies square to no direction asked bears by so much
/// less than the one that was asked next to it. Source: `own derivation`, a push over one edge goes with the inverse of
/// the cosine.
pub(super) fn bears_while(given: &SoftStack, step: usize, push: f64, wanted: &dyn Fn() -> bool) -> Option<bool> {
    let (end, settled) = settle(given, step);
    let Some(settled) = settled else { return end.stands().map(|_| false) };
    let asked = push / (0.5 * FRAC_PI_4).cos();
    let start = Start::of(&settled)?;
    for direction_rad in eight_ways() {
        let top = Path::new(&start, direction_rad)?.top(asked, wanted)?;
        if top.push < asked {
            return Some(false);
        }
    }
    Some(true)
}

fn eight_ways() -> impl Iterator<Item = f64> {
    (0..EIGHT).map(|eighth| FRAC_PI_4 * f64::from(eighth))
}

fn least(settled: &Settled, wanted: &dyn Fn() -> bool) -> Option<SoftPush> {
    let start = Start::of(settled)?;
    let mut directions: Vec<f64> = eight_ways().collect();
    // The weakest first: a direction that bears more is then asked only whether it does.
    let sway = |direction: &f64| Path::new(&start, *direction).map_or(f64::INFINITY, |path| path.sway_m());
    let mut swaying: Vec<(f64, f64)> = directions.iter().map(|direction| (sway(direction), *direction)).collect();
    swaying.sort_by(|a, b| b.0.total_cmp(&a.0));
    directions.clear();
    directions.extend(swaying.iter().map(|(_, direction)| direction));
    let mut weakest: Option<SoftPush> = None;
    for direction in directions {
        weakest = Some(weaker(&start, weakest, direction, wanted)?);
    }
    let mut turn = 0.5 * FRAC_PI_4;
    for _ in 0..HALVINGS {
        let around = weakest?.direction_rad;
        for direction in [around - turn, around + turn] {
            weakest = Some(weaker(&start, weakest, direction.rem_euclid(TAU), wanted)?);
        }
        turn *= 0.5;
    }
    weakest
}

/// The weaker of what is known and one more direction. None: not decided.
fn weaker(start: &Start, known: Option<SoftPush>, direction_rad: f64, wanted: &dyn Fn() -> bool) -> Option<SoftPush> {
    if !wanted() {
        return None;
    }
    let path = Path::new(start, direction_rad)?;
    let enough = known.map_or(f64::INFINITY, |known| NEARLY * known.multiplier);
    let new = path.top(enough, wanted)?.along(direction_rad);
    Some(known.filter(|_| new.multiplier >= enough).unwrap_or(new))
}

/// The top of a path.
struct Top {
    push: f64,
    /// The piece whose bed gives way most there.
    tips: Option<usize>,
}

impl Top {
    fn along(self, direction_rad: f64) -> SoftPush {
        SoftPush { multiplier: self.push, direction_rad, tips: self.tips }
    }
}

/// Where every push begins, with the factor of how the balance changes there.
struct Start<'a> {
    settled: &'a Settled,
    factored: Factored<'a>,
}

impl<'a> Start<'a> {
    /// None: singular.
    fn of(settled: &'a Settled) -> Option<Start<'a>> {
        let factored = settled.model.tangent(&settled.looks, &Load::gravity(1.0), Order::Second).decompose()?;
        Some(Start { settled, factored })
    }
}

/// A push that grows in one direction.
struct Path<'a> {
    model: &'a Model,
    way: [f64; 3],
    push: Vec<Wrench>,
    start: Place,
}

/// A place on the path.
#[derive(Clone)]
struct Place {
    motion: Motion,
    push: f64,
    /// Mean displacement along the way, m.
    gone_m: f64,
    /// How motion and push go on from here, for each metre of it.
    onward: Motion,
    rise_per_m: f64,
    /// The last step's system was symmetric and positive: it is stable, there is no need to ask again.
    positive: bool,
}

impl<'a> Path<'a> {
    /// None: the start is not stable.
    fn new(start: &Start<'a>, direction_rad: f64) -> Option<Path<'a>> {
        let Start { settled: Settled { model, motion, .. }, factored } = start;
        let (way, onward) = (model.way(direction_rad), Vec::new());
        let start = Place { motion: motion.clone(), push: 0.0, gone_m: 0.0, onward, rise_per_m: 0.0, positive: true };
        let mut path = Path { model, way, push: model.push(way), start };
        let (gone_m, mut start) = (path.gone_m(motion), path.start.clone());
        path.set_onward(&mut start, factored.solve(&path.push));
        path.start = Place { gone_m, ..start };
        (path.start.rise_per_m.is_finite() && path.start.rise_per_m > 0.0).then_some(path)
    }

    /// How far the pieces go in the mean for each push of the whole weight at first, m.
    fn sway_m(&self) -> f64 {
        self.start.rise_per_m.recip()
    }

    fn gone_m(&self, motion: &[Wrench]) -> f64 {
        let weight: f64 = self.model.weights_n.iter().sum();
        self.push.iter().zip(motion).map(|(push, motion)| dot(push, motion)).sum::<f64>() / weight
    }

    fn set_onward(&self, place: &mut Place, by_push: Motion) {
        place.rise_per_m = self.gone_m(&by_push).recip();
        place.onward = by_push;
        place.onward.iter_mut().flatten().for_each(|part| *part *= place.rise_per_m);
    }

    fn load(&self, push: f64) -> Load {
        Load { gravity: 1.0, push, way: self.way }
    }

    fn is_stable(&self, place: &Place) -> bool {
        let looks = self.model.looks(&place.motion, Order::Second);
        place.positive || self.model.stiffness(&looks, true).decompose().is_some_and(|factored| factored.positive)
    }

    /// The top of the push, or the first place beyond `enough`. None: it could not be followed.
    fn top(&self, enough: f64, wanted: &dyn Fn() -> bool) -> Option<Top> {
        let first_m = FIRST_PUSH * self.sway_m();
        let mut stride_m = first_m;
        let mut places = [self.start.clone(), self.start.clone()];
        for _ in 0..STRETCH {
            if !wanted() {
                return None;
            }
            // It snaps over: the last place that was balanced and stable is told, which errs low.
            if stride_m < SHORTEST * first_m || places[1].push >= enough {
                return Some(self.told(&places[1]));
            }
            let next = self.at(places[1].gone_m + stride_m, &places[1]);
            // On the way up every place is stable; one that is not lies on another branch of balances.
            let Some(next) = next.filter(|next| next.push < places[1].push || self.is_stable(next)) else {
                stride_m *= 0.5;
                continue;
            };
            if next.push < places[1].push {
                let [before, top] = places;
                return Some(self.around(before, top, next));
            }
            places = [places[1].clone(), next];
            stride_m *= LONGER;
        }
        // Not at the top yet: what was balanced and stable last is borne, and the top is no less.
        Some(self.told(&places[1]))
    }

    /// Which bed gives way most as it goes on from here: the one across which the turn grows most.
    fn told(&self, place: &Place) -> Top {
        let turns = |joint: &Joint| {
            let of = |body: usize| [3, 4].map(|turn: usize| place.onward[body][turn]);
            let (upper, lower) = (of(joint.lie.upper), joint.lie.lower.map_or([0.0; 2], of));
            (upper[0] - lower[0]).hypot(upper[1] - lower[1])
        };
        let most = self.model.joints.iter().max_by(|a, b| turns(a).total_cmp(&turns(b)));
        Top { push: place.push, tips: most.map(|joint| joint.lie.upper) }
    }

    /// The top between three places, of which the middle one is the highest: by parabolas.
    fn around(&self, mut before: Place, mut top: Place, mut after: Place) -> Top {
        for _ in 0..STEPS {
            let Some(middle_m) = summit(&before, &top, &after) else { break };
            let Some(next) = self.at(middle_m, &top).or_else(|| self.at(middle_m, &before)) else { break };
            let gained = next.push - top.push;
            let is_later = next.gone_m > top.gone_m;
            match (gained > 0.0, is_later) {
                (true, true) => before = std::mem::replace(&mut top, next),
                (true, false) => after = std::mem::replace(&mut top, next),
                (false, true) => after = next,
                (false, false) => before = next,
            }
            if gained.abs() < TOP {
                break;
            }
        }
        self.told(&top)
    }

    /// The place at which the pieces have gone so far, onward from another. None: Newton's steps do not close, or
    /// lead so far off the line onward that they have gone over to another branch.
    fn at(&self, gone_m: f64, from: &Place) -> Option<Place> {
        let stretch_m = gone_m - from.gone_m;
        let ahead = moved(&from.motion, stretch_m, &from.onward);
        let push = from.push + stretch_m * from.rise_per_m;
        let mut place = Place { motion: ahead.clone(), push, gone_m, ..from.clone() };
        let mut last_miss = f64::INFINITY;
        let mut seen = self.seen(&place);
        for _ in 0..STEPS {
            seen = self.correct(&mut place, &seen)?;
            let miss = seen.miss;
            if miss <= NEAR_BALANCE {
                let off = self.model.apart(&place.motion, &ahead);
                let is_near = off <= ASTRAY * self.model.apart(&ahead, &from.motion);
                return (is_near && turned_little(&place.motion)).then_some(place);
            }
            if miss > last_miss {
                return None;
            }
            last_miss = miss;
        }
        None
    }

    fn seen(&self, place: &Place) -> Seen {
        self.model.seen(&place.motion, &self.load(place.push), Order::Second)
    }

    /// One of Newton's steps for motion and push together. Gives the balance there.
    fn correct(&self, place: &mut Place, seen: &Seen) -> Option<Seen> {
        let factored = self.model.tangent(&seen.looks, &self.load(place.push), Order::Second).decompose()?;
        let by_miss = factored.solve(&seen.unbalanced);
        place.positive = factored.positive;
        self.set_onward(place, factored.solve(&self.push));
        let short_m = place.gone_m - self.gone_m(&place.motion) - self.gone_m(&by_miss);
        place.motion = moved(&moved(&place.motion, 1.0, &by_miss), short_m, &place.onward);
        place.push += short_m * place.rise_per_m;
        let left = self.seen(place);
        left.miss.is_finite().then_some(left)
    }
}

/// Where a parabola through three places has its top, kept off the places themselves. None: they
/// lie too close.
fn summit(before: &Place, top: &Place, after: &Place) -> Option<f64> {
    let (left, right) = (top.gone_m - before.gone_m, after.gone_m - top.gone_m);
    let (rise, drop) = (top.push - before.push, top.push - after.push);
    let bend = rise * right + drop * left;
    let offset = if bend > 0.0 { 0.5 * (rise * right * right - drop * left * left) / bend } else { 0.0 };
    let near = 0.05 * left.min(right);
    let offset = if offset.abs() < near { if right > left { near } else { -near } } else { offset };
    let inside = offset.clamp(-0.9 * left, 0.9 * right);
    (left + right > 1e-12 * (top.gone_m.abs() + left + right)).then_some(top.gone_m + inside)
}
