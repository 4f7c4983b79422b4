//! The groups of a pile as it grows, and the verdict on each state. A placement changes only the group
//! that it joins; the bounds of the others stay.

use super::bounds::Bounds;
use super::group::{Group, Stack};
use super::inherit::{Before, inherited};
use super::mechanism::Mechanism;
use super::motion::{HalfPlane, UpperBound};
use super::proof::{BALANCED, Effort};
use super::pull::Bears;
use super::search::{Least, Search};
use super::shortcuts::{Means, Shortcut, Shortcuts, Work};
use crate::margin::{Decision, Reserve, Way, slack};
use crate::rest::Under;
use crate::section::Placed;
use crate::walk::Walk;
use quantity::frame::plan_direction;
use std::f64::consts::TAU;

const DIRECTIONS: u32 = 16;
/// Directions closer than this are one, rad.
const ONE_DIRECTION: f64 = 1e-9;

/// The state after a number of placements.
#[derive(Debug, Clone, PartialEq)]
pub struct StepEquilibrium {
    /// How many pieces lie.
    pub step: usize,
    /// Whether there is an equilibrium under the weight alone. `None`: not decided, which is never to be
    /// read as yes.
    pub stands: Option<bool>,
    /// The least multiplier over the directions asked for, and where it points.
    pub least: Decision,
    /// How it goes at that push, or how it falls.
    pub mechanism: Option<Mechanism>,
}

impl StepEquilibrium {
    /// A state that nobody has looked at.
    pub(super) fn unseen(step: usize) -> StepEquilibrium {
        StepEquilibrium { step, stands: None, least: Decision::NotDecided { residual: None }, mechanism: None }
    }
}

/// A group and its bounds; no group: it weighs nothing.
struct Standing {
    bodies: Vec<usize>,
    group: Option<Group>,
    bounds: Bounds,
}

pub(super) struct Front<'a> {
    given: Stack<'a>,
    step: usize,
    effort: Effort,
    means: Means,
    groups: Vec<Standing>,
}

impl<'a> Front<'a> {
    /// The first `step` pieces, no bounds of them yet.
    pub(super) fn new(given: Stack<'a>, step: usize, effort: Effort) -> Front<'a> {
        Front::with(given, step, effort, Shortcuts::ALL)
    }

    /// The same with these shortcuts alone.
    pub(super) fn with(given: Stack<'a>, step: usize, effort: Effort, shortcuts: Shortcuts) -> Front<'a> {
        let mut lists: Vec<Vec<usize>> = Vec::new();
        for body in 0..step {
            let mut joined = vec![body];
            lists.retain(|list| {
                let touches = touched(&given, body).any(|lower| list.contains(&lower));
                joined.extend(list.iter().filter(|_| touches));
                !touches
            });
            joined.sort_unstable();
            lists.push(joined);
        }
        let standing = |bodies: Vec<usize>| {
            let group = Group::new(&given, step, bodies.clone());
            Standing { bodies, group, bounds: Bounds::default() }
        };
        let means = Means::new(shortcuts);
        Front { given, step, effort, means, groups: lists.into_iter().map(standing).collect() }
    }

    /// The groups that weigh anything.
    pub(super) fn groups(&self) -> impl Iterator<Item = &Group> {
        self.groups.iter().filter_map(|standing| standing.group.as_ref())
    }

    /// How many pieces lie.
    pub(super) fn step(&self) -> usize {
        self.step
    }

    /// What it took so far.
    pub(super) fn work(&self) -> Work {
        self.means.work()
    }

    /// Puts the next piece down.
    pub(super) fn place(&mut self) {
        let body = self.step;
        self.step += 1;
        let given = self.given;
        let joins = |standing: &Standing| touched(&given, body).any(|lower| standing.bodies.contains(&lower));
        let (joined, others) = std::mem::take(&mut self.groups).into_iter().partition(joins);
        self.groups = others;
        for standing in &mut self.groups {
            standing.press_anew(&given, self.step);
        }
        let grown = Standing::grown(&given, self.step, joined, body);
        self.groups.push(grown);
        if !self.means.has(Shortcut::Inherit) {
            self.groups.iter_mut().for_each(|standing| standing.bounds = Bounds::default());
        }
    }

    /// The plan directions that are asked for: 16, and the normals of the hull's edges at every layer.
    pub(super) fn directions(&self) -> Vec<f64> {
        let placed = Placed::new(self.given.floor_from_bed, self.given.bodies, self.given.pile);
        let mut all: Vec<f64> = (0..DIRECTIONS).map(|k| TAU * f64::from(k) / f64::from(DIRECTIONS)).collect();
        for section in Walk::sections_at(&placed, self.step) {
            for direction in section.directions().map(|direction| direction.rem_euclid(TAU)) {
                let close = |known: &f64| {
                    let apart = (known - direction).abs();
                    apart.min(TAU - apart) < ONE_DIRECTION
                };
                if !all.iter().any(close) {
                    all.push(direction);
                }
            }
        }
        all
    }

    /// The verdict on the state.
    pub(super) fn verdict(&mut self, directions: &[f64], wanted: &dyn Fn() -> bool) -> StepEquilibrium {
        let mut verdict =
            StepEquilibrium { step: self.step, stands: Some(true), least: Decision::NotLimited, mechanism: None };
        if self.given.pile.hanging.iter().any(|&body| body < self.step) {
            return StepEquilibrium { stands: Some(false), least: Decision::Loose, ..verdict };
        }
        let question = Question { directions, effort: self.effort, means: &self.means, wanted };
        for standing in &mut self.groups {
            if verdict.least == Decision::Falls {
                break;
            }
            let ceiling = verdict.least.reserve().map_or(f64::INFINITY, |reserve| reserve.multiplier);
            let Some(GroupVerdict { stands, end, bound }) = standing.ask(&question, ceiling) else { continue };
            verdict.stands = both(verdict.stands, stands);
            if end.governs(&verdict.least) {
                let group = standing.group.as_ref().zip(bound);
                verdict.mechanism = group.and_then(|(group, bound)| {
                    Mechanism::of(self.given.floor_from_bed, group, &bound.motion, &|plane| proves(plane, end))
                });
                verdict.least = match (&verdict.mechanism, end) {
                    (Some(mechanism), Decision::Decided(reserve)) => {
                        Decision::Decided(Reserve { by: mechanism.by, any_way: mechanism.any_way, ..reserve })
                    }
                    (_, end) => end,
                };
            }
        }
        verdict
    }
}

/// What every group of a state is asked.
struct Question<'q> {
    directions: &'q [f64],
    effort: Effort,
    means: &'q Means,
    wanted: &'q dyn Fn() -> bool,
}

/// Whether a part of the motion proves the end as well as the whole: within ten times what the bounds
/// may differ by, since a part has only its share of the numbers' digits.
fn proves(plane: &HalfPlane, end: Decision) -> bool {
    match end.reserve() {
        Some(Reserve { multiplier, direction_rad, .. }) => {
            plane.along(plan_direction(direction_rad)) <= multiplier + 10.0 * slack(multiplier)
        }
        None => plane.reach < -BALANCED,
    }
}

/// A fall outweighs an open question, and that outweighs standing.
fn both(a: Option<bool>, b: Option<bool>) -> Option<bool> {
    match (a, b) {
        (Some(false), _) | (_, Some(false)) => Some(false),
        (Some(true), Some(true)) => Some(true),
        _ => None,
    }
}

/// The bodies on which a body rests.
fn touched<'a>(given: &Stack<'a>, body: usize) -> impl Iterator<Item = usize> + use<'a> {
    let contacts = &given.contacts(body + 1)[given.contacts(body).len()..];
    contacts.iter().filter_map(|contact| match contact.lower {
        Under::Body(lower) => Some(lower),
        Under::Bearing(_) => None,
    })
}

impl Standing {
    fn grown(given: &Stack, step: usize, joined: Vec<Standing>, body: usize) -> Standing {
        let mut bodies: Vec<usize> = joined.iter().flat_map(|standing| standing.bodies.iter().copied()).collect();
        bodies.push(body);
        bodies.sort_unstable();
        Standing::after(given, step, bodies, &joined)
    }

    fn after(given: &Stack, step: usize, bodies: Vec<usize>, before: &[Standing]) -> Standing {
        let group = Group::new(given, step, bodies.clone());
        let before = before.iter().filter_map(|old| Some(Before { group: old.group.as_ref()?, bounds: &old.bounds }));
        let before: Vec<Before> = before.collect();
        let bounds = group.as_ref().map(|group| inherited(group, &before)).unwrap_or_default();
        Standing { bodies, group, bounds }
    }

    /// A strap may have been put on, or the new piece may have come between it and this group.
    fn press_anew(&mut self, given: &Stack, step: usize) {
        let pressed = |step: usize| -> Vec<Vec<Bears>> {
            let on =
                given.dead.iter().map(|pull| if pull.after <= step { pull.bears_on(given, step) } else { Vec::new() });
            on.map(|bears| bears.into_iter().filter(|one| self.bodies.contains(&one.body)).collect()).collect()
        };
        if !given.dead.is_empty() && pressed(step) != pressed(step - 1) {
            let old = std::mem::replace(self, Standing { bodies: Vec::new(), group: None, bounds: Bounds::default() });
            *self = Standing::after(given, step, old.bodies.clone(), &[old]);
        }
    }

    /// None: it weighs nothing, so that there is nothing to ask.
    fn ask(&mut self, question: &Question, ceiling: f64) -> Option<GroupVerdict> {
        let group = self.group.as_ref()?;
        let Question { directions, effort, means, wanted } = *question;
        let search = Search { group, directions, effort, means, wanted };
        let least = search.least(&mut self.bounds, ceiling);
        let answer = match least {
            Least::Falls(bound) => GroupVerdict::falls(Some(bound)),
            Least::Open { residual } => GroupVerdict::open(self.bounds.stands(), residual),
            // A push that is carried says nothing of the rest: a leaning stack may be kept up by being pushed back.
            carried => match search.stands(&mut self.bounds) {
                Some(true) => GroupVerdict::stands(carried),
                Some(false) => GroupVerdict::falls(self.bounds.falling().cloned()),
                None => GroupVerdict::open(None, None),
            },
        };
        self.bounds.tidy(directions);
        Some(answer)
    }
}

/// What came of one group.
struct GroupVerdict {
    stands: Option<bool>,
    end: Decision,
    /// What proves a limit or a fall.
    bound: Option<UpperBound>,
}

impl GroupVerdict {
    fn falls(bound: Option<UpperBound>) -> GroupVerdict {
        GroupVerdict { stands: Some(false), end: Decision::Falls, bound }
    }

    fn open(stands: Option<bool>, residual: Option<f64>) -> GroupVerdict {
        GroupVerdict { stands, end: Decision::NotDecided { residual }, bound: None }
    }

    /// What governs in a group that stands; a group that is stronger than another sets no limit.
    fn stands(least: Least) -> GroupVerdict {
        let Least::Decided { multiplier, direction_rad, bound } = least else {
            return GroupVerdict { stands: Some(true), end: Decision::NotLimited, bound: None };
        };
        // At the brink the bounds lie on either side of nothing: either verdict is right.
        let reserve = Reserve { multiplier: multiplier.max(0.0), direction_rad, by: Way::Tip, any_way: false };
        GroupVerdict { stands: Some(true), end: Decision::Decided(reserve), bound: Some(bound) }
    }
}
