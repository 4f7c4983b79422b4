//! What a weighing of a run gives to the ledger: what was read, and what the plan has of the rest.

use crate::balance::{Due, Lever};
use crate::course::CREEP_SHARE;
use crate::ledger::{Basis, Before, Pull, Scale, Weighed};
use crate::{Course, Reading, RunDone, Weighing};
use assess::expect::Expected;
use nalgebra::{DMatrix, DVector};
use plan::{Anchors, Plan, point};
use quantity::Quantity;

/// So far off may a whole stack lie where the plan has it (datum, tape, bags that settle), m; a bound, read
/// as rectangular: `common practice, no source`.
const STACK_OFF_M: f64 = 0.020;
/// What springs of unknown stiffness carry may be off by this share; a bound, read as rectangular: `common
/// practice, no source`.
const SPRING_SHARE: f64 = 0.3;
/// The change that a strap's gauge shows may be off by this share of the pull, two standard deviations: `common
/// practice, no source`.
const GAUGE_SHARE: f64 = 0.01;
/// A binding strap drawn tight by hand may pull this share more or less than asked, a bound, read as
/// rectangular: `common practice, no source`.
const DRAWN_SHARE: f64 = 0.2;

/// Two standard deviations of a bound that is read as rectangular (source key `jcgm-100`).
fn two_sd(bound: f64) -> f64 {
    2.0 * bound / 3.0_f64.sqrt()
}

/// What a weighing of a run gives to the ledger; none where no support is a scale, where the tare or a scale
/// was not read, or where the fixture is not known to stand.
pub fn weighed(run: &RunDone, course: &Course, weighing: &Weighing) -> Option<Weighed> {
    let plan = run.as_done();
    let tare = run.tare.as_ref()?;
    let placed = [tare.last_on, weighing.last_on].map(|last_on| run.count_to(last_on));
    let [before, now] = [course.after(placed[0])?, course.after(placed[1])?];
    let mut weighed = Weighed::default();
    for (index, support) in plan.fixture.supports.iter().enumerate() {
        let at_m = [support.at[0].si(), support.at[1].si()];
        if support.scale {
            let kg = [tare.reading.scale_kg(&support.name)?, weighing.reading.scale_kg(&support.name)?];
            let within_kg = placed.map(|placed| course.scale_part_kg(placed, index));
            let within_kg = within_kg[0].hypot(within_kg[1]);
            weighed.scales.push(Scale { at_m, kg, within_kg, basis: Basis::Read });
        } else {
            let kg = [before.supports_kg[index], now.supports_kg[index]];
            let within_kg = two_sd(SPRING_SHARE * (kg[1] - kg[0]).abs());
            weighed.others.push(Scale { at_m, kg, within_kg, basis: Basis::Reckoned });
        }
    }
    if weighed.scales.is_empty() {
        return None;
    }
    let reckoned = [&before.straps_n, &now.straps_n];
    weighed.pulls = hold_downs(plan, [&tare.reading, &weighing.reading], reckoned);
    weighed.pulls.extend(bindings(plan, placed));
    weighed.at_tare = (0..placed[0]).filter_map(|index| piece_before(plan, course, index)).collect();
    weighed.due = due(plan, course, (placed, now));
    Some(weighed)
}

/// Two standard deviations of a piece's mass, kg.
fn piece_within_kg(plan: &Plan, index: usize) -> f64 {
    let lot = plan.stack.get(index).and_then(|place| plan.ballast.iter().find(|lot| lot.name == place.lot));
    lot.map_or(0.0, |lot| lot.mass_tolerance.si())
}

fn piece_before(plan: &Plan, course: &Course, index: usize) -> Option<Before> {
    let (at, kg) = course.piece(index)?;
    Some(Before { kg: [kg, piece_within_kg(plan, index)], at_m: [at.x, at.y] })
}

/// Straps with a gauge as read at both times, the others as the plan has them. A strap that does not hang
/// upright pulls down with a part of its force.
fn hold_downs(plan: &Plan, read: [&Reading; 2], reckoned: [&Vec<f64>; 2]) -> Vec<Pull> {
    let of = |(index, strap): (usize, &plan::HoldDown)| {
        let at_m = [strap.on_floor[0].si(), strap.on_floor[1].si()];
        let upright = upright_share(plan, strap);
        let (n, within_n, basis) = match read.map(|reading| reading.strap_n(&strap.name)) {
            [Some(before), Some(now)] => ([before, now], GAUGE_SHARE * before.abs().max(now.abs()), Basis::Read),
            _ => {
                let n = reckoned.map(|pulls| pulls.get(index).copied().unwrap_or_default());
                let stretch_n = two_sd(SPRING_SHARE * (n[1] - n[0]).abs());
                (n, stretch_n.hypot(two_sd(CREEP_SHARE * n[0].max(n[1]))), Basis::Reckoned)
            }
        };
        Pull { at_m, n: n.map(|n| n * upright), within_n: within_n * upright, basis }
    };
    plan.fixture.hold_downs.iter().enumerate().map(of).collect()
}

fn upright_share(plan: &Plan, strap: &plan::HoldDown) -> f64 {
    let along = plan.floor_from_article() * point(strap.on_article) - point(strap.on_floor);
    if along.norm() > 0.0 { along.z.abs() / along.norm() } else { 1.0 }
}

/// Binding straps tied to the floor press the scales; those tied to the article do not show there.
fn bindings(plan: &Plan, placed: [usize; 2]) -> Vec<Pull> {
    let floor_from_bed = plan.floor_from_bed();
    let on = |binding: &&plan::Binding| binding.anchors == Anchors::Floor && binding.after as usize <= placed[1];
    let of = |binding: &plan::Binding| {
        let [x, y] = binding.at.map(Quantity::si);
        let at = floor_from_bed * nalgebra::Point3::new(x, y, 0.0);
        let both_legs_n = 2.0 * binding.pull.si();
        let was_on = binding.after as usize <= placed[0];
        let n = if was_on { [both_legs_n; 2] } else { [0.0, both_legs_n] };
        let share = if was_on { CREEP_SHARE } else { DRAWN_SHARE };
        Pull { at_m: [at.x, at.y], n, within_n: two_sd(share * both_legs_n), basis: Basis::Reckoned }
    };
    plan.fixture.bindings.iter().filter(on).map(of).collect()
}

/// The load that came on since the tare, as the plan has it.
fn due(plan: &Plan, course: &Course, (placed, now): ([usize; 2], &Expected)) -> Option<Due> {
    let pieces: Vec<_> = (placed[0]..placed[1]).filter_map(|index| Some((index, course.piece(index)?))).collect();
    let kg: f64 = pieces.iter().map(|(_, (_, kg))| kg).sum();
    if kg <= 0.0 {
        return None;
    }
    let moment = |axis: usize| pieces.iter().map(|(_, (at, kg))| at[axis] * kg).sum::<f64>();
    let at_m = [moment(0) / kg, moment(1) / kg];
    let scatter_sd_m = 0.5 * plan.allow.placement_scatter.si();
    let place_sd_m = [0, 1].map(|axis| {
        let of_piece = |(index, (at, piece_kg)): &(usize, (&nalgebra::Point3<f64>, f64))| {
            let of_mass = (at[axis] - at_m[axis]) * 0.5 * piece_within_kg(plan, *index);
            of_mass.powi(2) + (piece_kg * scatter_sd_m).powi(2)
        };
        let each = pieces.iter().map(of_piece).sum::<f64>().sqrt() / kg;
        each.hypot(0.5 * two_sd(STACK_OFF_M))
    });
    Some(Due { kg, at_m, place_sd_m, levers: levers(plan, now, at_m) })
}

/// How supports and straps answer to load near a place: scales first, then supports without one, then straps.
fn levers(plan: &Plan, now: &Expected, at_m: [f64; 2]) -> Vec<Lever> {
    let from = [at_m[0] - now.reference_in_floor.x, at_m[1] - now.reference_in_floor.y];
    let lever = |index: usize| Lever { per_kg: now.levers[index].at(from), per_kg_m: now.levers[index].per_kg_m };
    let which =
        |scale: bool| (0..plan.fixture.supports.len()).filter(move |i| plan.fixture.supports[*i].scale == scale);
    let mut levers: Vec<Lever> = which(true).chain(which(false)).map(lever).collect();
    levers.extend(straps(plan, now, at_m, &(0..plan.fixture.supports.len()).map(lever).collect::<Vec<_>>()));
    levers.extend(plan.fixture.bindings.iter().map(|_| Lever::default()));
    levers
}

/// What the supports do not take of a load more, the straps do: balance of forces and of moments. The
/// answer of least norm where there are more straps than that tells.
fn straps(plan: &Plan, now: &Expected, at_m: [f64; 2], supports: &[Lever]) -> Vec<Lever> {
    let pulls = &plan.fixture.hold_downs;
    if pulls.is_empty() {
        return Vec::new();
    }
    let row = |at: [f64; 2], index: usize| [1.0, at[0] - at_m[0], at[1] - at_m[1]][index];
    let taut = |strap: usize| f64::from(u8::from(now.straps_n.get(strap).is_some_and(|n| *n > 0.0)));
    let at = |place: [quantity::Length; 3]| [place[0].si(), place[1].si()];
    let a = DMatrix::from_fn(3, pulls.len(), |index, strap| taut(strap) * row(at(pulls[strap].on_floor), index));
    let svd = a.svd(true, true);
    // What the supports take more than the load itself, and about its place.
    let left = |of: &dyn Fn(&Lever) -> f64, load: [f64; 3]| {
        let sum = |index: usize| {
            let taken = supports.iter().zip(&plan.fixture.supports).map(|(lever, s)| of(lever) * row(at(s.at), index));
            taken.sum::<f64>() - load[index]
        };
        let b = DVector::from_vec((0..3).map(sum).collect());
        svd.solve(&b, 1e-9).unwrap_or_else(|_| DVector::zeros(pulls.len()))
    };
    let per_kg = left(&|lever| lever.per_kg, [1.0, 0.0, 0.0]);
    let aft = left(&|lever| lever.per_kg_m[0], [0.0, 1.0, 0.0]);
    let right = left(&|lever| lever.per_kg_m[1], [0.0, 0.0, 1.0]);
    let lever = |strap: usize| Lever { per_kg: per_kg[strap], per_kg_m: [aft[strap], right[strap]] };
    (0..pulls.len()).map(lever).collect()
}

#[cfg(test)]
mod tests {
    use super::two_sd;

    #[test]
    fn a_bound_has_two_standard_deviations_of_a_rectangle() {
        // A rectangle of half width a has the variance a²/3 (source key `jcgm-100`): of 3 that is 2 × √3.
        let got = two_sd(3.0);
        assert!((got - 2.0 * 3.0_f64.sqrt()).abs() < 1e-12, "got {got}, want {}", 2.0 * 3.0_f64.sqrt());
    }
}
