//! From readings to the load on the seat, as rows that add up.
//!
//! Reading sum = article and what else stands on the scales (the tare) + pieces put on since +
//! change of strap pull. Tare is taken at each scale (source key `ac-43-13-1b`, chapter 10); boards
//! that lay there when it was read are load on the seat all the same: `common practice, no source`.

use crate::{Course, Reading, RunDone, Weighing};
use plan::{Anchors, Plan};
use quantity::{Quantity, STANDARD_GRAVITY_M_S2 as GRAVITY};

/// A scale, or a support without one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// Its place, m, floor frame: aft, right.
    pub at_m: [f64; 2],
    /// What it carried at the tare and carries now, kg.
    pub kg: [f64; 2],
    /// Two standard deviations of the change, kg.
    pub within_kg: f64,
    /// Whether it was read, or reckoned from the plan.
    pub basis: Basis,
}

/// A strap that pulls down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pull {
    /// Its place, m, floor frame: aft, right.
    pub at_m: [f64; 2],
    /// Its pull at the tare and now, N.
    pub n: [f64; 2],
    /// Whether it was read, or reckoned from the plan.
    pub basis: Basis,
}

/// On what a row rests.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// Read on the day.
    Read,
    /// Reckoned from the plan.
    Reckoned,
}

impl Basis {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Basis::Read => "read",
            Basis::Reckoned => "reckoned",
        }
    }
}

/// Everything that the ledger is made of.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Weighed {
    /// The scales.
    pub scales: Vec<Scale>,
    /// Supports that are no scales.
    pub others: Vec<Scale>,
    /// Hold-down straps, and binding straps tied to the floor.
    pub pulls: Vec<Pull>,
    /// Pieces that lay on the seat at the tare: mass, kg, and place, m, floor frame.
    pub at_tare: Vec<(f64, [f64; 2])>,
}

/// One row: what it is, how much it adds (kg), and on what it rests.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What it is.
    pub what: &'static str,
    /// What it adds, kg.
    pub kg: f64,
    /// On what it rests.
    pub basis: Basis,
}

/// Where the net load acts: m, floor frame, and two standard deviations from the scales alone, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Centroid {
    /// The place, m.
    pub at_m: f64,
    /// Two standard deviations, m.
    pub within_m: f64,
}

/// The load on the seat as the scales tell it.
#[derive(Clone, Debug, PartialEq)]
pub struct Ledger {
    /// The rows; they add up to `net_kg`.
    pub rows: Vec<Row>,
    /// Mass on the seat, kg.
    pub net_kg: f64,
    /// Two standard deviations of it from the scales alone, kg.
    pub within_kg: f64,
    /// Lateral place, right positive; none where nothing lies there.
    pub right: Option<Centroid>,
    /// Fore-aft place, aft positive; none where a support is no scale or nothing lies there.
    pub aft: Option<Centroid>,
}

/// The ledger.
///
/// Limits: straps upright, no level forces. What is reckoned is as good as the plan. Source: `own
/// derivation` (balance of upright forces, and of moments about the floor frame's axes).
pub fn ledger(weighed: &Weighed) -> Ledger {
    let rows = rows(weighed);
    let net_kg = rows.iter().map(|row| row.kg).sum();
    let within_kg = weighed.scales.iter().map(|scale| scale.within_kg * scale.within_kg).sum::<f64>().sqrt();
    let place = |axis: usize| (net_kg > 0.0).then(|| centroid(weighed, net_kg, axis));
    let all_read = weighed.others.is_empty();
    Ledger { net_kg, within_kg, right: place(1), aft: place(0).filter(|_| all_read), rows }
}

fn rows(weighed: &Weighed) -> Vec<Row> {
    let row = |what, kg, basis| Row { what, kg, basis };
    let sum = |scales: &[Scale], when: usize| scales.iter().map(|scale| scale.kg[when]).sum::<f64>();
    let mut rows = vec![
        row("the scales together", sum(&weighed.scales, 1), Basis::Read),
        row("the tare, taken out", -sum(&weighed.scales, 0), Basis::Read),
    ];
    if !weighed.others.is_empty() {
        let more = sum(&weighed.others, 1) - sum(&weighed.others, 0);
        rows.push(row("change on supports without a scale", more, Basis::Reckoned));
    }
    for basis in [Basis::Read, Basis::Reckoned] {
        let pulls: Vec<_> = weighed.pulls.iter().filter(|pull| pull.basis == basis).collect();
        if !pulls.is_empty() {
            let more: f64 = pulls.iter().map(|pull| (pull.n[1] - pull.n[0]) / GRAVITY).sum();
            rows.push(row("change of strap pull since the tare, taken out", -more, basis));
        }
    }
    if !weighed.at_tare.is_empty() {
        let kg = weighed.at_tare.iter().map(|(kg, _)| kg).sum();
        rows.push(row("pieces that lay there at the tare, added", kg, Basis::Reckoned));
    }
    rows
}

fn centroid(weighed: &Weighed, net_kg: f64, axis: usize) -> Centroid {
    let supports = weighed.scales.iter().chain(&weighed.others).map(|s| (s.at_m[axis], s.kg[1] - s.kg[0]));
    let pulls = weighed.pulls.iter().map(|pull| (pull.at_m[axis], (pull.n[0] - pull.n[1]) / GRAVITY));
    let before = weighed.at_tare.iter().map(|(kg, at_m)| (at_m[axis], *kg));
    let moment: f64 = supports.chain(pulls).chain(before).map(|(at_m, kg)| at_m * kg).sum();
    let at_m = moment / net_kg;
    let off = |scale: &Scale| (scale.at_m[axis] - at_m) * scale.within_kg / net_kg;
    let within_m = weighed.scales.iter().map(|scale| off(scale) * off(scale)).sum::<f64>().sqrt();
    Centroid { at_m, within_m }
}

/// What a weighing of a run gives to the ledger; none where the tare or a scale was not read, or the
/// fixture is not known to stand.
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
            weighed.others.push(Scale { at_m, kg, within_kg: 0.0, basis: Basis::Reckoned });
        }
    }
    let reckoned = [&before.straps_n, &now.straps_n];
    weighed.pulls = hold_downs(plan, [&tare.reading, &weighing.reading], reckoned);
    weighed.pulls.extend(bindings(plan, placed));
    weighed.at_tare = (0..placed[0]).filter_map(|i| course.piece(i)).map(|(at, kg)| (kg, [at.x, at.y])).collect();
    Some(weighed)
}

/// Straps with a gauge as read at both times, the others as the plan has them.
fn hold_downs(plan: &Plan, read: [&Reading; 2], reckoned: [&Vec<f64>; 2]) -> Vec<Pull> {
    let of = |(index, strap): (usize, &plan::HoldDown)| {
        let at_m = [strap.on_floor[0].si(), strap.on_floor[1].si()];
        match read.map(|reading| reading.strap_n(&strap.name)) {
            [Some(before), Some(now)] => Pull { at_m, n: [before, now], basis: Basis::Read },
            _ => Pull { at_m, n: reckoned.map(|pulls| pulls[index]), basis: Basis::Reckoned },
        }
    };
    plan.fixture.hold_downs.iter().enumerate().map(of).collect()
}

/// Binding straps tied to the floor press the scales; those tied to the article do not show there.
fn bindings(plan: &Plan, placed: [usize; 2]) -> Vec<Pull> {
    let floor_from_bed = plan.floor_from_bed();
    let floor = plan.fixture.bindings.iter().filter(|binding| binding.anchors == Anchors::Floor);
    let of = |binding: &plan::Binding| {
        let [x, y] = binding.at.map(Quantity::si);
        let at = floor_from_bed * nalgebra::Point3::new(x, y, 0.0);
        let pull = |placed: usize| if binding.after as usize <= placed { 2.0 * binding.pull.si() } else { 0.0 };
        Pull { at_m: [at.x, at.y], n: placed.map(pull), basis: Basis::Reckoned }
    };
    floor.map(of).collect()
}
