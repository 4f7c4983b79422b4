//! From one place on the path of a push to the next: places are balanced, near the line onward from the place before, and
//! stable on the way up.
//!
//! The system of the place before serves until the next one is balanced; only where it has changed too much it is made
//! anew on the way. So a place costs one factoring for what it bears and one for how it goes on, which is the same while
//! every bed is pressed all over.

use super::factor::Factored;
use super::joint::{Carried, Joint, Look, Order};
use super::model::{Load, Model, Motion, Seen};
use super::newton::{moved, turned_little};
use crate::equilibrium::block::{Wrench, dot};
use std::rc::Rc;

/// How far off the line onward a step may lead, against its length. At 0.3 one push in twenty went over to another
/// branch and came out high by up to a quarter; at 0.08 none of 314 did, held against steps a twentieth as long.
const ASTRAY: f64 = 0.08;
/// How far off it any step may lead, part of the first one. Where a bed begins to open, its springs along it let go at
/// once, so that the path has a bend there, which no step is short enough to miss: so small a distance is a bend and not
/// another branch. With the share of the step alone the walk came to rest at such a bend, as if the stack went over there.
pub(super) const BEND: f64 = 0.01;
/// How much of what carries a piece may lose or find its bed in one step. A piece that lets go and is caught again farther
/// on would else be passed, and the push told for the rest of the stack.
const LOOSENS: f64 = 0.25;
/// A correction that ends so much farther off the line than is allowed will not come back.
const FAR: f64 = 1.5;
/// A miss of balance below this part of the load is none on the way: the push is then known to as much.
const NEAR_BALANCE: f64 = 1e-7;
const CORRECTIONS: usize = 12;
const STEPS: usize = 12;
/// The shortest part of a correction that is tried.
const SHORTEST_PART: f64 = 1.0 / 16.0;
/// What each correction must leave of the miss, or the system has changed too much.
const LEAVES: f64 = 0.25;

/// A push that grows in one direction.
pub(super) struct Path<'a> {
    pub(super) model: &'a Model,
    pub(super) way: [f64; 3],
    pub(super) push: Vec<Wrench>,
    pub(super) start: Place<'a>,
    /// How far any step may lead off its line, m.
    pub(super) bend_m: f64,
}

/// A place on the path.
#[derive(Clone)]
pub(super) struct Place<'a> {
    pub(super) motion: Motion,
    pub(super) push: f64,
    /// Mean displacement along the way, m.
    pub(super) gone_m: f64,
    /// How motion and push go on from here, for each metre of it.
    pub(super) onward: Motion,
    pub(super) rise_per_m: f64,
    /// How the balance changes here, or near here.
    pub(super) system: Rc<Factored<'a>>,
    /// What every bed carries here.
    pub(super) carried: Rc<Vec<Carried>>,
}

/// A place that was found.
pub(super) struct Found<'a> {
    pub(super) place: Place<'a>,
    looks: Vec<Look>,
    /// Its system was made on the way to it; else it is that of the place before.
    is_own: bool,
    /// How far it lies off the line onward, part of what is allowed.
    pub(super) off: f64,
}

impl<'a> Path<'a> {
    pub(super) fn gone_m(&self, motion: &[Wrench]) -> f64 {
        let weight: f64 = self.model.weights_n.iter().sum();
        self.push.iter().zip(motion).map(|(push, motion)| dot(push, motion)).sum::<f64>() / weight
    }

    /// Goes on from a place by the system that is known there.
    pub(super) fn set_onward(&self, place: &mut Place<'a>, system: Rc<Factored<'a>>) {
        place.onward = system.solve(&self.push);
        place.rise_per_m = self.gone_m(&place.onward).recip();
        place.onward.iter_mut().flatten().for_each(|part| *part *= place.rise_per_m);
        place.system = system;
    }

    /// The place at which the pieces have gone so far, with as few systems as it takes. None: the corrections do not close,
    /// or lead so far off the line onward that they have gone over to another branch.
    pub(super) fn found(&self, gone_m: f64, from: &Place<'a>) -> Option<Found<'a>> {
        let ahead = self.ahead(gone_m, from);
        let (mut place, mut seen, mut is_own) = (ahead.clone(), self.seen(&ahead), false);
        // A system from further back says nothing on whether the place itself is stable.
        let mut is_fresh = false;
        for _ in 0..CORRECTIONS {
            let mut next = place.clone();
            let left = self.correct(&mut next, &seen);
            if left.miss <= NEAR_BALANCE {
                return self.near(next, left, (from, &ahead)).map(|found| Found { is_own: is_fresh, ..found });
            }
            let has_gained = left.miss < seen.miss;
            if is_own && !has_gained {
                return None;
            }
            let is_quick = left.miss <= LEAVES * seen.miss;
            if has_gained {
                (place, seen) = (next, left);
            }
            is_fresh = !is_quick;
            if is_fresh {
                self.renew(&mut place, &seen)?;
                is_own = true;
            }
        }
        None
    }

    /// The same by Newton's steps, with a system at each, shortened where they do not gain.
    pub(super) fn found_by_newton(&self, gone_m: f64, from: &Place<'a>) -> Option<Found<'a>> {
        let ahead = self.ahead(gone_m, from);
        let (mut place, mut seen) = (ahead.clone(), self.seen(&ahead));
        for _ in 0..STEPS {
            self.renew(&mut place, &seen)?;
            (place, seen) = self.gained(place, &seen)?;
            if seen.miss <= NEAR_BALANCE {
                return self.near(place, seen, (from, &ahead));
            }
            if self.off(&place, (from, &ahead)) > FAR {
                return None;
            }
        }
        None
    }

    /// The longest of the halved corrections that gains. None: none does.
    fn gained(&self, from: Place<'a>, seen: &Seen) -> Option<(Place<'a>, Seen)> {
        let gains = |left: &Seen, part: f64| left.miss <= (1.0 - 0.1 * part) * seen.miss;
        let mut whole = from.clone();
        let left = self.correct(&mut whole, seen);
        if gains(&left, 1.0) {
            return Some((whole, left));
        }
        let mut part = 0.5;
        while part >= SHORTEST_PART {
            let place = part_way(&from, &whole, part);
            let left = self.seen(&place);
            if gains(&left, part) {
                return Some((place, left));
            }
            part *= 0.5;
        }
        None
    }

    /// On the line onward, so far.
    fn ahead(&self, gone_m: f64, from: &Place<'a>) -> Place<'a> {
        let stretch_m = gone_m - from.gone_m;
        let motion = moved(&from.motion, stretch_m, &from.onward);
        Place { motion, push: from.push + stretch_m * from.rise_per_m, gone_m, ..from.clone() }
    }

    /// How far a place lies off the line onward, part of what is allowed.
    fn off(&self, place: &Place, (from, ahead): (&Place, &Place)) -> f64 {
        let allowed_m = (ASTRAY * self.model.apart(&ahead.motion, &from.motion)).max(self.bend_m);
        self.model.apart(&place.motion, &ahead.motion) / allowed_m
    }

    fn near(&self, place: Place<'a>, seen: Seen, (from, ahead): (&Place, &Place)) -> Option<Found<'a>> {
        let off = self.off(&place, (from, ahead));
        let carried = self.carried(&seen.looks);
        let is_near = off <= 1.0 && turned_little(&place.motion) && self.loosened(&from.carried, &carried) <= LOOSENS;
        let place = Place { carried: Rc::new(carried), ..place };
        is_near.then_some(Found { place, looks: seen.looks, is_own: true, off })
    }

    pub(super) fn carried(&self, looks: &[Look]) -> Vec<Carried> {
        self.model.joints.iter().zip(looks).map(|(joint, look)| joint.carried(look)).collect()
    }

    /// Of what carries a piece, by its share, how much of its bed opens or closes: the most of any piece.
    fn loosened(&self, before: &[Carried], after: &[Carried]) -> f64 {
        let beds: Vec<_> = self.model.joints.iter().zip(before.iter().zip(after)).collect();
        let of_piece = |beds: &[(&Joint, (&Carried, &Carried))]| {
            let whole_n: f64 = beds.iter().map(|(_, (before, _))| before.normal_n).sum();
            let changed =
                beds.iter().map(|(_, (before, after))| before.normal_n * (after.closed - before.closed).abs());
            if whole_n > 0.0 { changed.sum::<f64>() / whole_n } else { 0.0 }
        };
        beds.chunk_by(|one, next| one.0.lie.upper == next.0.lie.upper).map(of_piece).fold(0.0, f64::max)
    }

    /// Gives the place a system of its own. None: singular.
    fn renew(&self, place: &mut Place<'a>, seen: &Seen) -> Option<()> {
        let system = self.model.tangent(&seen.looks, &self.load(place.push), Order::Second).decompose()?;
        self.set_onward(place, Rc::new(system));
        Some(())
    }

    fn load(&self, push: f64) -> Load {
        Load { gravity: 1.0, push, way: self.way }
    }

    fn seen(&self, place: &Place) -> Seen {
        self.model.seen(&place.motion, &self.load(place.push), Order::Second)
    }

    /// One correction of motion and push together. Gives the balance there.
    fn correct(&self, place: &mut Place, seen: &Seen) -> Seen {
        let by_miss = place.system.solve(&seen.unbalanced);
        let short_m = place.gone_m - self.gone_m(&place.motion) - self.gone_m(&by_miss);
        place.motion = moved(&moved(&place.motion, 1.0, &by_miss), short_m, &place.onward);
        place.push += short_m * place.rise_per_m;
        self.seen(place)
    }

    /// Whether it bears what lies there: springs less what the loads do as the beds turn, positive in every direction.
    pub(super) fn is_stable(&self, found: &Found<'a>) -> bool {
        let known = found.is_own && found.place.system.positive;
        known || self.model.stiffness(&found.looks, true).decompose().is_some_and(|stiffness| stiffness.positive)
    }

    /// The place, ready to go on from. On the way up every place is stable; one that is not lies on another branch of
    /// balances. None: it is such a one, or singular.
    pub(super) fn held(&self, found: Found<'a>) -> Option<Place<'a>> {
        if found.is_own {
            return self.is_stable(&found).then_some(found.place);
        }
        let Found { mut place, looks, .. } = found;
        let (stiffness, tangent) = self.model.stiffness_and_tangent(&looks);
        let stable = stiffness.decompose().filter(|stable| stable.positive)?;
        let system = match tangent {
            Some(tangent) => tangent.decompose()?,
            None => stable,
        };
        self.set_onward(&mut place, Rc::new(system));
        Some(place)
    }
}

/// A part of the way from one place to another, by the system of the first.
fn part_way<'a>(from: &Place<'a>, to: &Place<'a>, part: f64) -> Place<'a> {
    let pairs = from.motion.iter().zip(&to.motion);
    let between = |(from, to): (&Wrench, &Wrench)| std::array::from_fn(|row| from[row] + part * (to[row] - from[row]));
    Place { motion: pairs.map(between).collect(), push: from.push + part * (to.push - from.push), ..from.clone() }
}
