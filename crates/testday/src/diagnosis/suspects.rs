//! Every cause that can be stated, with what it adds to the readings and how well that fits.

use super::Fault;
use super::evidence::{Change, Changes};
use super::slip;
use crate::{Course, RunDone};
use assess::expect;
use nalgebra::{Point3, Vector3};
use plan::Plan;
use quantity::Quantity;

/// A cause on trial.
pub(super) struct Suspect {
    pub(super) fault: Fault,
    /// What it adds to each support's reading at the last weighing, kg.
    pub(super) added_kg: Vec<f64>,
    pub(super) weight: f64,
}

/// How likely each kind is before anything is read, as natural logarithms, and how far its free
/// numbers may go (one deviation): `common practice, no source`. They only decide between causes
/// that explain the readings equally well.
pub(super) mod prior {
    pub(in crate::diagnosis) const LEFT_OUT: f64 = 0.0;
    pub(in crate::diagnosis) const TWICE: f64 = -0.7;
    pub(in crate::diagnosis) const WRONG_SIDE: f64 = -0.4;
    pub(in crate::diagnosis) const OTHER_PIECE: f64 = -0.7;
    pub(in crate::diagnosis) const WRONG_PLACE: f64 = -1.0;
    pub(in crate::diagnosis) const STRAP: f64 = -0.4;
    pub(in crate::diagnosis) const STUCK: f64 = -0.7;
    pub(in crate::diagnosis) const SCALE_OFF: f64 = -1.0;
    pub(in crate::diagnosis) const MISTYPED: f64 = -1.0;
    pub(in crate::diagnosis) const EXCHANGED: f64 = -0.4;
    pub(in crate::diagnosis) const TARE_EXCHANGED: f64 = -0.3;
    pub(in crate::diagnosis) const ELSEWHERE: f64 = -1.5;
    pub(in crate::diagnosis) const GOES_OVER: f64 = -2.0;
    pub(in crate::diagnosis) const LOST_CONTACT: f64 = -1.5;
    pub(in crate::diagnosis) const PLACE_M: f64 = 0.2;
    pub(in crate::diagnosis) const OFF_KG: f64 = 30.0;
    pub(in crate::diagnosis) const ELSEWHERE_M: f64 = 0.7;
}

/// One deviation of a strap's pull against the planned one, as a part of it: drawn by hand within a
/// fifth either way, read as rectangular: `common practice, no source`.
const STRAP_SHARE: f64 = 0.2 / 1.732_050_8;
/// How many changes back a strap may have gone slack; each costs a solve.
const STRAP_CHANGES: usize = 3;
/// A lot whose pieces weigh within this part of one another's is the same to the scales.
const SAME_MASS: f64 = 0.05;
/// A scale that is stuck repeats itself this much closer than chance would have it.
const REPEATS: f64 = 0.05;

/// So far beside article, supports and straps may be what stands on the scales or carries past them, m.
const REACH_M: f64 = 1.5;

pub(super) fn all(run: &RunDone, course: &Course, changes: &Changes) -> Vec<Suspect> {
    let bench = Bench { plan: run.as_done(), course, changes };
    let mut suspects = Vec::new();
    for (number, change) in changes.list.iter().enumerate() {
        for index in change.placed[0]..change.placed[1] {
            bench.of_piece(change, index, &mut suspects);
        }
        bench.of_scales(number, &mut suspects);
        suspects.extend(bench.elsewhere(change));
        suspects.extend(bench.goes_over(change));
        suspects.extend(bench.lost_contact(change));
    }
    suspects.extend((0..course.supports()).flat_map(|support| bench.mistyped(support)));
    suspects.extend(bench.exchanged());
    for strap in 0..bench.plan.fixture.hold_downs.len() {
        suspects.extend(bench.strap(strap));
    }
    suspects
}

pub(super) struct Bench<'a> {
    pub(super) plan: &'a Plan,
    pub(super) course: &'a Course,
    changes: &'a Changes,
}

impl Bench<'_> {
    /// What a kilogram more at a point adds to each support after a change.
    fn per_kg(&self, change: &Change, at: &Point3<f64>) -> Option<Vec<f64>> {
        Some(self.course.after(change.placed[1])?.per_kg_at(at))
    }

    fn of_piece(&self, change: &Change, index: usize, suspects: &mut Vec<Suspect>) {
        let Some((at, mass_kg)) = self.course.piece(index) else { return };
        let Some(here) = self.per_kg(change, at) else { return };
        let mut plain = |fault: Fault, prior: f64, added_kg: Vec<f64>| {
            let weight = change.weight_of(&added_kg) + prior;
            suspects.push(Suspect { fault, added_kg, weight });
        };
        let times = |kg: f64| here.iter().map(|per| per * kg).collect::<Vec<_>>();
        plain(Fault::LeftOut { index }, prior::LEFT_OUT, times(-mass_kg));
        plain(Fault::Twice { index }, prior::TWICE, times(mass_kg));
        for (lot, other) in self.plan.ballast.iter().enumerate() {
            let more_kg = other.mass.si() - mass_kg;
            if other.name != self.plan.stack[index].lot && more_kg.abs() > SAME_MASS * mass_kg {
                plain(Fault::OtherPiece { index, lot }, prior::OTHER_PIECE, times(more_kg));
            }
        }
        if let Some(there) = self.per_kg(change, &self.mirrored(at)) {
            let added_kg = there.iter().zip(&here).map(|(there, here)| (there - here) * mass_kg).collect();
            plain(Fault::WrongSide { index }, prior::WRONG_SIDE, added_kg);
        }
        suspects.extend(self.wrong_place(change, index, mass_kg));
    }

    /// The same place on the other side of the bed's centreline.
    fn mirrored(&self, at_in_floor: &Point3<f64>) -> Point3<f64> {
        let floor_from_bed = self.plan.floor_from_bed();
        let mut in_bed = floor_from_bed.inverse_transform_point(at_in_floor);
        in_bed.y = -in_bed.y;
        floor_from_bed * in_bed
    }

    fn wrong_place(&self, change: &Change, index: usize, mass_kg: f64) -> Option<Suspect> {
        let levers = &self.course.after(change.placed[1])?.levers;
        let per = |axis: usize| levers.iter().map(|lever| lever.per_kg_m[axis] * mass_kg).collect::<Vec<_>>();
        let per = [(per(0), prior::PLACE_M), (per(1), prior::PLACE_M)];
        let (weight, found) = change.weight_of_free(&per);
        let off_m = [*found.first()?, *found.get(1)?];
        if !self.within_the_seat(index, off_m) {
            return None;
        }
        let fault = Fault::WrongPlace { index, off_m };
        Some(Suspect { fault, added_kg: sum(&per, &found), weight: weight + prior::WRONG_PLACE })
    }

    /// Whether the centre of a piece that lies so far from its place is still over the bearings or the
    /// stack: beyond that it would lie on the floor, and someone would have seen it.
    fn within_the_seat(&self, index: usize, [aft, right]: [f64; 2]) -> bool {
        let Some((at, _)) = self.course.piece(index) else { return false };
        let off_in_floor = Vector3::new(aft, right, 0.0);
        let in_bed = self.plan.floor_from_bed().inverse_transform_point(&(at + off_in_floor));
        let bearings = self.plan.bed.bearings.iter().map(|bearing| [bearing.x, bearing.y]);
        let pieces = self.plan.stack.iter().map(|place| {
            let extent = self.plan.extent_of(place);
            [0, 1].map(|axis| [place.at[axis] - extent[axis] * 0.5, place.at[axis] + extent[axis] * 0.5])
        });
        let spans: Vec<_> = bearings.chain(pieces).collect();
        [0, 1].into_iter().all(|axis| {
            let low = spans.iter().map(|span| span[axis][0].si()).fold(f64::INFINITY, f64::min);
            let high = spans.iter().map(|span| span[axis][1].si()).fold(f64::NEG_INFINITY, f64::max);
            (low..=high).contains(&in_bed[axis])
        })
    }

    /// The last reading of one scale with a slip of the hand in it.
    fn mistyped(&self, support: usize) -> Vec<Suspect> {
        let (Some(change), Some((read_kg, range))) = (self.changes.list.last(), self.changes.misfit(support)) else {
            return Vec::new();
        };
        let fitting = slip::meant_kg(read_kg, self.plan.units).into_iter().filter(|kg| range.fits(*kg));
        let suspect = |meant_kg: f64| {
            let mut added_kg = vec![0.0; self.course.supports()];
            added_kg[support] = read_kg - meant_kg;
            let weight = change.weight_of(&added_kg) + prior::MISTYPED;
            Suspect { fault: Fault::Mistyped { support, meant_kg }, added_kg, weight }
        };
        fitting.map(suspect).collect()
    }

    /// The readings of two scales in each other's place: at the last reading, or at the tare.
    fn exchanged(&self) -> Vec<Suspect> {
        let supports = self.course.supports();
        let pairs = (0..supports).flat_map(|one| (one + 1..supports).map(move |other| [one, other]));
        pairs
            .flat_map(|pair| [false, true].into_iter().filter_map(move |at_tare| self.exchanged_pair(pair, at_tare)))
            .collect()
    }

    fn exchanged_pair(&self, supports: [usize; 2], at_tare: bool) -> Option<Suspect> {
        let change = if at_tare { self.changes.list.first()? } else { self.changes.list.last()? };
        let read = if at_tare { &self.changes.tare_kg } else { &self.changes.read_kg };
        let [one, other] = supports.map(|support| read.get(support).copied().flatten());
        let apart_kg = one? - other?;
        let mut added_kg = vec![0.0; self.course.supports()];
        // The tare is taken out of what is read.
        let sign = if at_tare { -1.0 } else { 1.0 };
        (added_kg[supports[0]], added_kg[supports[1]]) = (sign * apart_kg, -sign * apart_kg);
        let (fault, prior) = match at_tare {
            true => (Fault::TareExchanged { supports }, prior::TARE_EXCHANGED),
            false => (Fault::Exchanged { supports }, prior::EXCHANGED),
        };
        let weight = change.weight_of(&added_kg) + prior;
        Some(Suspect { fault, added_kg, weight })
    }

    fn of_scales(&self, number: usize, suspects: &mut Vec<Suspect>) {
        let change = &self.changes.list[number];
        for support in (0..self.course.supports()).filter(|support| change.off_kg[*support].is_some()) {
            let mut one = vec![0.0; self.course.supports()];
            one[support] = 1.0;
            let per = [(one, prior::OFF_KG)];
            let (weight, found) = change.weight_of_free(&per);
            let by_kg = found.first().copied().unwrap_or_default();
            let fault = Fault::ScaleOff { support, by_kg };
            suspects.push(Suspect { fault, added_kg: sum(&per, &found), weight: weight + prior::SCALE_OFF });
            suspects.extend(self.stuck(number, support));
        }
    }

    /// From this change on the scale repeats itself.
    fn stuck(&self, number: usize, support: usize) -> Option<Suspect> {
        let mut weight = prior::STUCK;
        let mut added_kg = vec![0.0; self.course.supports()];
        for change in &self.changes.list[number..] {
            let [off, sd] = change.off_kg[support]?;
            let moved = change.moved_kg[support] / (REPEATS * sd);
            weight += 0.5 * (off * off / (sd * sd) - moved * moved) - REPEATS.ln();
            // What it should have shown more, and did not.
            added_kg[support] -= change.moved_kg[support] - off;
        }
        Some(Suspect { fault: Fault::ScaleStuck { support }, added_kg, weight })
    }

    /// Load that goes past the scales, or stands on them beside the stack: how much and where is free.
    fn elsewhere(&self, change: &Change) -> Option<Suspect> {
        let levers = &self.course.after(change.placed[1])?.levers;
        let per_m = |axis: usize| levers.iter().map(|lever| lever.per_kg_m[axis]).collect::<Vec<_>>();
        let far = prior::OFF_KG * prior::ELSEWHERE_M;
        let plain = levers.iter().map(|lever| lever.per_kg).collect();
        let per = [(plain, prior::OFF_KG), (per_m(0), far), (per_m(1), far)];
        let (weight, found) = change.weight_of_free(&per);
        let kg = *found.first()?;
        if !self.is_within_reach(change, kg, [*found.get(1)?, *found.get(2)?]) {
            return None;
        }
        let fault = if kg < 0.0 { Fault::TouchesFloor { kg: -kg } } else { Fault::MoreOnIt { kg } };
        Some(Suspect { fault, added_kg: sum(&per, &found), weight: weight + prior::ELSEWHERE })
    }

    /// Whether so much mass with such moments is somewhere at the article, and not a small mass far outside the hangar
    /// in the place of a load that tips.
    fn is_within_reach(&self, change: &Change, kg: f64, moment_kg_m: [f64; 2]) -> bool {
        let Some(reference) = self.course.after(change.placed[1]).map(|expected| expected.reference_in_floor) else {
            return false;
        };
        let supports = self.plan.fixture.supports.iter().map(|support| [support.at[0], support.at[1]]);
        let ends = self.plan.fixture.hold_downs.iter().map(|strap| [strap.on_floor[0], strap.on_floor[1]]);
        let lines = self.plan.article.outline.iter().flat_map(|line| line.points.iter());
        let outline = lines.map(|point| [point[0], self.plan.article.centroid[1]]);
        let known: Vec<_> = supports.chain(ends).chain(outline).collect();
        [0, 1].into_iter().all(|axis| {
            let at_m = reference[axis] + moment_kg_m[axis] / kg;
            known.iter().any(|point| point[axis].si() - REACH_M <= at_m)
                && known.iter().any(|point| at_m <= point[axis].si() + REACH_M)
        })
    }

    /// From one of the last changes on the strap pulls nothing.
    fn strap(&self, strap: usize) -> Vec<Suspect> {
        let mut loose = self.plan.clone();
        loose.fixture.hold_downs.remove(strap);
        let list = &self.changes.list;
        let first = list.len().saturating_sub(STRAP_CHANGES);
        // What the readings lack without it, after each of the last changes.
        let lacking: Option<Vec<Vec<f64>>> =
            list[first..].iter().map(|change| self.lacking(&loose, change.placed[1])).collect();
        let Some(lacking) = lacking else { return Vec::new() };
        let from = |onset: usize| {
            let gone = &lacking[onset];
            // It may have pulled more or less than planned, and all of that is gone.
            let (weight, found) = list[first + onset].weight_about(gone, &[(gone.clone(), STRAP_SHARE)]);
            let part = 1.0 + found.first().copied().unwrap_or_default();
            let mut before: Vec<f64> = gone.iter().map(|kg| kg * part).collect();
            let mut weight = weight + prior::STRAP;
            for (change, pair) in list[first + onset + 1..].iter().zip(lacking[onset..].windows(2)) {
                let added: Vec<f64> = pair[1].iter().zip(&pair[0]).map(|(after, before)| after - before).collect();
                weight += change.weight_of(&added);
                before.iter_mut().zip(&added).for_each(|(sum, added)| *sum += added);
            }
            Suspect { fault: Fault::StrapSlack { strap }, added_kg: before, weight }
        };
        (0..lacking.len()).map(from).collect()
    }

    fn lacking(&self, loose: &Plan, placed: usize) -> Option<Vec<f64>> {
        let (with, without) = (self.course.after(placed)?, expect::expected_after(loose, placed)?);
        Some(without.supports_kg.iter().zip(&with.supports_kg).map(|(without, with)| without - with).collect())
    }
}

pub(super) fn sum(per: &[(Vec<f64>, f64)], found: &[f64]) -> Vec<f64> {
    let supports = per.first().map_or(0, |(adds, _)| adds.len());
    (0..supports).map(|support| per.iter().zip(found).map(|((adds, _), number)| adds[support] * number).sum()).collect()
}
