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
use super::model::Load;
use super::onward::{BEND, Found, Path, Place};
use super::state::{Settled, SoftEnd, settle_for_push};
use std::f64::consts::{FRAC_PI_4, TAU};
use std::rc::Rc;

/// How far the least of the directions may lie below the one that is told: other directions are only asked
/// whether they bear this part of it.
const NEARLY: f64 = 0.995;
/// Directions asked at first.
const EIGHT: u32 = 8;
/// How often the directions beside the weakest are asked, at half the angle each time.
const HALVINGS: u32 = 2;
/// The push with which the first step along the path would be in line, part of the weight.
pub(super) const FIRST_PUSH: f64 = 0.1;
/// Each step along the path against the one before.
pub(super) const LONGER: f64 = 1.5;
/// The shortest step along the path, part of the first.
const SHORTEST: f64 = 2e-4;
/// The top is found when it no longer changes by this, part of the weight.
const TOP: f64 = 1e-5;
const STEPS: usize = 8;
pub(super) const STRETCH: usize = 120;

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
    let (end, settled) = settle_for_push(given, step);
    let Some(settled) = settled else { return unsettled(&end) };
    let start = Start::of(&settled);
    let top = start.and_then(|start| Path::new(&start, direction_rad)?.top(f64::INFINITY, &|| true));
    top.map_or(PushEnd::NotDecided, |top| PushEnd::Decided(top.along(direction_rad)))
}

fn unsettled(end: &SoftEnd) -> PushEnd {
    if end.stands() == Some(false) { PushEnd::Falls } else { PushEnd::NotDecided }
}

pub(super) fn push_limit_while(given: &SoftStack, step: usize, wanted: &dyn Fn() -> bool) -> PushEnd {
    let (end, settled) = settle_for_push(given, step);
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
    let (end, settled) = settle_for_push(given, step);
    let Some(settled) = settled else { return end.stands().map(|_| false) };
    let asked = push / (0.5 * FRAC_PI_4).cos();
    let start = Start::of(&settled)?;
    for direction_rad in eight_ways() {
        let path = Path::new(&start, direction_rad)?;
        if !path.reaches(asked, wanted)? && path.top(asked, wanted)?.push < asked {
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
    if known.is_some() && path.reaches(enough, wanted)? {
        return known;
    }
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

/// Where every push begins, with the system of how the balance changes there.
struct Start<'a> {
    settled: &'a Settled,
    system: Rc<Factored<'a>>,
}

impl<'a> Start<'a> {
    /// None: singular.
    fn of(settled: &'a Settled) -> Option<Start<'a>> {
        let system = settled.model.tangent(&settled.looks, &Load::gravity(1.0), Order::Second).decompose()?;
        Some(Start { settled, system: Rc::new(system) })
    }
}

impl<'a> Path<'a> {
    /// None: the start is not stable.
    fn new(start: &Start<'a>, direction_rad: f64) -> Option<Path<'a>> {
        let Start { settled: settled @ Settled { model, motion, .. }, system } = start;
        let (way, motion) = (model.way(direction_rad), motion.clone());
        let start = Place {
            motion,
            push: 0.0,
            gone_m: 0.0,
            onward: Vec::new(),
            rise_per_m: 0.0,
            system: Rc::clone(system),
            carried: Rc::default(),
        };
        let mut path = Path { model, way, push: model.push(way), start, bend_m: 0.0 };
        let mut start = path.start.clone();
        start.gone_m = path.gone_m(&start.motion);
        start.carried = Rc::new(path.carried(&settled.looks));
        path.set_onward(&mut start, Rc::clone(system));
        path.bend_m = BEND * FIRST_PUSH * start.rise_per_m.recip() * model.apart(&start.onward, &model.still());
        path.start = start;
        (path.start.rise_per_m.is_finite() && path.start.rise_per_m > 0.0).then_some(path)
    }

    /// How far the pieces go in the mean for each push of the whole weight at first, m.
    pub(super) fn sway_m(&self) -> f64 {
        self.start.rise_per_m.recip()
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
            let found = self.found_by_newton(places[1].gone_m + stride_m, &places[1]);
            if let Some(after) = found.as_ref().filter(|found| found.place.push < places[1].push) {
                let after = after.place.clone();
                let [before, top] = places;
                return Some(self.around(before, top, after));
            }
            let Some(next) = found.and_then(|found| self.held(found)) else {
                stride_m *= 0.5;
                continue;
            };
            let [_, last] = places;
            places = [last, next];
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
    fn around(&self, mut before: Place<'a>, mut top: Place<'a>, mut after: Place<'a>) -> Top {
        for _ in 0..STEPS {
            let Some(middle_m) = summit(&before, &top, &after) else { break };
            let next = self.found_by_newton(middle_m, &top).or_else(|| self.found_by_newton(middle_m, &before));
            let Some(Found { place: next, .. }) = next else { break };
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
