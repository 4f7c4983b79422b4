//! Plans as people may enter them: a demo of which some figures are changed, a little, much, or to nothing.

use super::demo;
use plan::{Anchors, Binding, CatchBlock, HoldDown, Place, Plan, PreloadSet, Softness, SoftnessFrom, Strength, Target};
use proptest::prelude::*;
use quantity::{Angle, Force, Length, Mass, Pressure, Quantity, Stiffness, Time, Units};

/// Which change, of which thing, by how much (0 to 1).
pub(super) type Change = (usize, usize, f64);

pub(super) fn changes() -> impl Strategy<Value = Vec<Change>> {
    prop::collection::vec((0..CHANGES.len(), 0_usize..64, 0.0..1.0_f64), 0..6)
}

/// Changes that leave most plans one that makes sense.
pub(super) fn little() -> impl Strategy<Value = Vec<Change>> {
    prop::collection::vec((0..CHANGES.len(), 0_usize..64, 0.2..0.6_f64), 0..5)
}

/// A demo with these changes; it may have faults.
pub(super) fn plan(base: usize, changes: &[Change]) -> Plan {
    let mut plan = demo(["tandem-rear-seat.ron", "side-by-side.ron", "four-faults.ron"][base % 3]);
    for (change, thing, amount) in changes {
        CHANGES[*change](&mut plan, *thing, *amount);
    }
    plan
}

/// A figure about so large: near it more often than not, else nothing, turned round, or beyond all measure.
fn about(usual: f64, amount: f64) -> f64 {
    match amount {
        a if a < 0.05 => 0.0,
        a if a < 0.10 => -usual,
        a if a < 0.14 => 1e9 * usual,
        a if a < 0.18 => 1e-9 * usual,
        a if a < 0.60 => usual * (0.5 + (a - 0.18) / 0.42),
        a => usual * 10.0_f64.powf(6.0 * (a - 0.8)),
    }
}

fn off(usual: f64, amount: f64) -> f64 {
    usual * (amount - 0.5) * if amount > 0.95 { 1e6 } else { 1.0 }
}

fn pick<T>(things: &mut [T], thing: usize) -> Option<&mut T> {
    let count = things.len();
    things.get_mut(thing.checked_rem(count)?)
}

fn with<T>(things: &mut [T], thing: usize, change: impl FnOnce(&mut T)) {
    if let Some(thing) = pick(things, thing) {
        change(thing);
    }
}

const NAMES: [&str; 6] = ["", "=1+1", "\u{1b}[2J", "zwölf Säcke", "a\nb", "“quoted” \\ 'apostrophe'"];

type Changing = fn(&mut Plan, usize, f64);

const CHANGES: &[Changing] = &[
    |p, i, _| p.title = NAMES[i % NAMES.len()].repeat(1 + i),
    |p, i, _| with(&mut p.ballast, i, |lot| lot.name = NAMES[i % NAMES.len()].to_owned()),
    |p, _, _| p.units = if p.units == Units::Metric { Units::InchPound } else { Units::Metric },
    |p, i, a| with(&mut p.stack, i, |place| place.at[0] = place.at[0] + Length::m(off(0.4, a))),
    |p, i, a| with(&mut p.stack, i, |place| place.at[1] = place.at[1] + Length::m(off(0.4, a))),
    |p, i, _| with(&mut p.stack, i, |place| place.turn = place.turn.other()),
    |p, i, _| drop(i.checked_rem(p.stack.len()).map(|step| p.stack.remove(step))),
    |p, i, _| p.stack.truncate(i),
    |p, _, _| p.stack.reverse(),
    |p, i, a| with(&mut p.stack, i, |place| place.item = about(5.0, a).max(0.0) as u32),
    on_top,
    |p, i, a| with(&mut p.ballast, i, |lot| lot.mass = Mass::kg(about(20.0, a))),
    |p, i, a| with(&mut p.ballast, i, |lot| lot.mass_tolerance = Mass::kg(about(0.3, a))),
    |p, i, a| with(&mut p.ballast, i, |lot| lot.size[i % 3] = Length::m(about(0.3, a))),
    |p, i, a| with(&mut p.ballast, i, |lot| lot.friction = about(0.4, a)),
    |p, i, _| with(&mut p.ballast, i, |lot| lot.weighed.clear()),
    |p, i, _| {
        with(&mut p.ballast, i, |lot| lot.grade = [None, Some("C24".to_owned()), Some("X".to_owned())][i % 3].clone())
    },
    strength,
    softness,
    |p, i, a| with(&mut p.bed.bearings, i, |bearing| bearing.allowable = (a > 0.3).then(|| Force::n(about(4e3, a)))),
    |p, i, a| with(&mut p.bed.bearings, i, |bearing| bearing.x[1] = Length::m(about(0.3, a))),
    |p, i, _| drop(i.checked_rem(p.bed.bearings.len()).map(|index| p.bed.bearings.remove(index))),
    |p, _, a| p.bed.slope = Angle::rad(off(0.3, a)),
    |p, _, a| p.bed.friction = about(0.4, a),
    |p, _, a| p.bed.touch = Length::m(about(0.006, a)),
    |p, _, a| p.bed.touch_hard = Length::m(about(0.001, a)),
    |p, _, a| p.bed.beside = Length::m(about(0.005, a)),
    |p, i, a| with(&mut p.fixture.supports, i, |s| s.at[i % 3] = s.at[i % 3] + Length::m(off(1.0, a))),
    |p, i, a| with(&mut p.fixture.supports, i, |s| s.capacity = (a > 0.2).then(|| Mass::kg(about(300.0, a)))),
    |p, i, a| with(&mut p.fixture.supports, i, |s| s.stiffness = (a > 0.2).then(|| Stiffness::n_per_m(about(2e6, a)))),
    |p, i, a| with(&mut p.fixture.supports, i, |s| s.division = (a > 0.2).then(|| Mass::kg(about(0.1, a)))),
    |p, i, _| with(&mut p.fixture.supports, i, |s| s.scale = !s.scale),
    |p, i, _| drop(i.checked_rem(p.fixture.supports.len()).map(|index| p.fixture.supports.remove(index))),
    hold_down,
    binding,
    |p, _, a| p.fixture.floor_friction = about(0.5, a),
    |p, _, a| {
        let gap = Length::m(about(0.015, a));
        p.fixture.catch_blocks = vec![CatchBlock { name: "block".to_owned(), at: [Length::m(0.5); 3], gap }];
    },
    |p, i, a| with(&mut p.holds, i, |hold| hold.at = about(0.7, a)),
    |p, i, _| with(&mut p.holds, i, |hold| hold.unload = !hold.unload),
    |p, i, a| with(&mut p.holds, i, |hold| hold.tolerance = Some([Length::m(about(0.02, a)); 2])),
    |p, i, a| with(&mut p.holds, i, |hold| hold.time = Some(Time::s(about(10.0, a)))),
    |p, i, a| with(&mut p.gauges, i, |gauge| gauge.allowed_set = Length::m(about(0.0005, a))),
    |p, _, a| p.allow.collapse = about(0.1, a),
    |p, _, a| p.allow.fixture_push = about(0.1, a),
    |p, _, a| p.allow.chance = about(0.2, a),
    |p, _, a| p.allow.placement_scatter = Length::m(about(0.01, a)),
    |p, i, a| with(&mut p.load_cases, i, |case| case.occupant_mass = Mass::kg(about(90.0, a))),
    |p, i, a| with(&mut p.load_cases, i, |case| case.load_factor = about(4.0, a)),
    |p, i, a| with(&mut p.load_cases, i, |case| case.safety_factor = about(1.5, a)),
    |p, i, a| with(&mut p.load_cases, i, |case| case.special_factor = about(1.15, a)),
    |p, i, a| with(&mut p.load_cases, i, |case| case.direction = Angle::rad(off(0.5, a))),
    |p, i, a| {
        let at = [0.6, 0.0, 0.6].map(|m| Length::m(m + off(0.1, a)));
        p.target = Target::Point { at, tolerance: [Length::m(about(0.015, a)), Length::m(0.01 * (1 + i) as f64)] };
    },
    |p, _, a| p.article.mass = Mass::kg(about(60.0, a)),
    |p, i, a| p.article.centroid[i % 3] = p.article.centroid[i % 3] + Length::m(off(1.0, a)),
    |p, _, a| p.article.pitch = Angle::rad(off(0.4, a)),
    |p, i, a| with(&mut p.article.keep_clear, i, |region| region.clearance = Length::m(about(0.03, a))),
    |p, i, a| {
        with(&mut p.article.keep_clear, i, |region| {
            region.side.iter_mut().for_each(|corner| corner[0] = corner[0] + Length::m(off(1.0, a)));
        })
    },
];

/// One more piece of a lot, somewhere.
fn on_top(plan: &mut Plan, thing: usize, amount: f64) {
    let Some(lot) = pick(&mut plan.ballast.clone(), thing).cloned() else { return };
    let Some(item) = plan.next_item(&lot) else { return };
    let at = plan.stack.last().map_or([Length::m(0.2); 2], |last| last.at);
    let at = [at[0] + Length::m(off(0.3, amount)), at[1]];
    plan.stack.push(Place { lot: lot.name, item, at, turn: plan::Turn::Crosswise, locked: false });
}

fn strength(plan: &mut Plan, thing: usize, amount: f64) {
    let of = |usual: f64| Pressure::pa(about(usual, amount));
    let strength = Strength { bending: of(15e6), shear: of(1.5e6), modulus: of(10e9) };
    with(&mut plan.ballast, thing, |lot| lot.strength = (amount > 0.02).then_some(strength));
}

fn softness(plan: &mut Plan, thing: usize, amount: f64) {
    let softness = Softness {
        modulus: Pressure::pa(about(0.3e6, amount)),
        rim: thing.is_multiple_of(2).then(|| Length::m(about(0.02, amount))),
        shear_ratio: Softness::SHEAR_RATIO,
        creep_per_decade: Softness::CREEP_PER_DECADE,
        from: if thing.is_multiple_of(3) { SoftnessFrom::Measured } else { SoftnessFrom::Stated },
        source: String::new(),
        readings: Vec::new(),
        flat: None,
    };
    with(&mut plan.ballast, thing, |lot| lot.softness = Some(softness));
}

fn hold_down(plan: &mut Plan, thing: usize, amount: f64) {
    let at = [about(1.0, amount), 0.1 * (thing % 5) as f64, 0.4].map(Length::m);
    plan.fixture.hold_downs.push(HoldDown {
        name: format!("strap {thing}"),
        on_article: at,
        on_floor: [at[0], at[1], Length::m(0.0)],
        preload: Force::n(about(300.0, amount)),
        preload_set: if thing.is_multiple_of(2) { PreloadSet::Before } else { PreloadSet::After },
        working_load: Force::n(4000.0),
        stiffness: Stiffness::n_per_m(about(6e4, amount)),
    });
}

fn binding(plan: &mut Plan, thing: usize, amount: f64) {
    plan.fixture.bindings.push(Binding {
        name: format!("binding {thing}"),
        anchors: if thing.is_multiple_of(2) { Anchors::Article } else { Anchors::Floor },
        at: [Length::m(about(0.2, amount)), Length::from_si(0.0)],
        pull: Force::n(about(50.0, amount)),
        width: Binding::WIDTH,
        after: u32::try_from(thing).unwrap_or(0),
    });
}
