//! From readings to the load on the seat, as rows that add up.
//!
//! Reading sum = article and what else stands on the scales (the tare) + pieces put on since +
//! change of strap pull. Tare is taken at each scale (source key `ac-43-13-1b`, chapter 10); boards
//! that lay there when it was read are load on the seat all the same: `common practice, no source`.
//! What no scale and no gauge measures is reckoned from what was measured ([`crate::balance`]), and its doubt
//! is part of the result's.

use crate::balance::{Balance, Due, Upright};
use quantity::STANDARD_GRAVITY_M_S2 as GRAVITY;

/// A scale, or a support without one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// Its place, m, floor frame: aft, right.
    pub at_m: [f64; 2],
    /// What it carried at the tare and carries now, kg.
    pub kg: [f64; 2],
    /// Two standard deviations of the change, kg. Of a support without a scale: where more supports stand
    /// than statics needs, how far off the plan's share for it may be.
    pub within_kg: f64,
    /// Whether it was read, or reckoned from the plan.
    pub basis: Basis,
}

/// A strap that pulls down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pull {
    /// Its place, m, floor frame: aft, right.
    pub at_m: [f64; 2],
    /// Its upright pull at the tare and now, N.
    pub n: [f64; 2],
    /// Two standard deviations of the change, N: of the gauge where it was read, else of how the strap
    /// stretches and creeps.
    pub within_n: f64,
    /// Whether it was read, or reckoned from the plan.
    pub basis: Basis,
}

/// On what a row rests.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// Read on the day.
    Read,
    /// Reckoned: no scale and no gauge measures it.
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

/// A piece that lay on the seat at the tare.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Before {
    /// Its mass, kg, and two standard deviations of it.
    pub kg: [f64; 2],
    /// Its place, m, floor frame: aft, right.
    pub at_m: [f64; 2],
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
    /// Pieces that lay on the seat at the tare.
    pub at_tare: Vec<Before>,
    /// What the plan has of the load that came on since; used where a force was not read.
    pub due: Option<Due>,
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

/// Where the net load acts: m, floor frame, and two standard deviations, m.
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
    /// Two standard deviations of it, kg: scales, straps, and what was reckoned.
    pub within_kg: f64,
    /// The part of it that no scale and no gauge measured, kg; none where all was measured.
    pub not_measured_kg: Option<f64>,
    /// Lateral place, right positive; none where the readings do not tell it or nothing lies there.
    pub right: Option<Centroid>,
    /// Fore-aft place, aft positive; none where the readings do not tell it or nothing lies there.
    pub aft: Option<Centroid>,
}

/// Readings tell a place where they leave less than this part of what was not known of it before.
const TELLS_SHARE: f64 = 0.5;

/// The ledger.
///
/// Limits: no level forces; no support lifts off and no strap goes slack between plan and truth. Source:
/// `own derivation` (balance of upright forces, and of moments about the floor frame's axes).
pub fn ledger(weighed: &Weighed) -> Ledger {
    let balance = Balance::of(forces(weighed), weighed.due.as_ref());
    let [came_on_kg, sd_kg] = balance.sum(|force| force.sign);
    let before_kg: f64 = weighed.at_tare.iter().map(|piece| piece.kg[0]).sum();
    let before_within_kg = weighed.at_tare.iter().map(|piece| piece.kg[1] * piece.kg[1]).sum::<f64>().sqrt();
    let net_kg = came_on_kg + before_kg;
    let place = |axis: usize| centroid(weighed, &balance, net_kg, axis);
    let rows = rows(weighed, &balance, came_on_kg);
    let reckoned = || rows.iter().filter(|row| row.basis == Basis::Reckoned).map(|row| row.kg);
    Ledger {
        net_kg,
        within_kg: (2.0 * sd_kg).hypot(before_within_kg),
        not_measured_kg: reckoned().next().map(|_| reckoned().sum()),
        right: place(1),
        aft: place(0),
        rows,
    }
}

/// Scales, supports without one, pulls.
fn forces(weighed: &Weighed) -> Vec<Upright> {
    let support = |scale: &Scale| Upright {
        at_m: scale.at_m,
        sign: 1.0,
        change_kg: scale.kg[1] - scale.kg[0],
        sd_kg: 0.5 * scale.within_kg,
        is_read: scale.basis == Basis::Read,
    };
    let pull = |pull: &Pull| Upright {
        at_m: pull.at_m,
        sign: -1.0,
        change_kg: (pull.n[1] - pull.n[0]) / GRAVITY,
        sd_kg: 0.5 * pull.within_n / GRAVITY,
        is_read: pull.basis == Basis::Read,
    };
    weighed.scales.iter().chain(&weighed.others).map(support).chain(weighed.pulls.iter().map(pull)).collect()
}

fn rows(weighed: &Weighed, balance: &Balance, came_on_kg: f64) -> Vec<Row> {
    let row = |what, kg, basis| Row { what, kg, basis };
    let sum = |when: usize| weighed.scales.iter().map(|scale| scale.kg[when]).sum::<f64>();
    let mut rows =
        vec![row("the scales together", sum(1), Basis::Read), row("the tare, taken out", -sum(0), Basis::Read)];
    let first_pull = weighed.scales.len() + weighed.others.len();
    let taken_out = |basis: Basis| {
        let pulls = weighed.pulls.iter().enumerate().filter(move |(_, pull)| pull.basis == basis);
        let changes: Vec<f64> = pulls.map(|(index, _)| balance.change_kg(first_pull + index)).collect();
        (!changes.is_empty()).then(|| -changes.iter().sum::<f64>())
    };
    let read = taken_out(Basis::Read).map(|kg| row("change of strap pull since the tare, taken out", kg, Basis::Read));
    rows.extend(read);
    let mut left_kg = came_on_kg - rows.iter().map(|row| row.kg).sum::<f64>();
    if let Some(kg) = taken_out(Basis::Reckoned) {
        // Where every support is a scale, this is all that was not measured.
        let kg = if weighed.others.is_empty() { left_kg } else { kg };
        left_kg -= kg;
        rows.push(row("change of strap pull, not measured here, taken out", kg, Basis::Reckoned));
    }
    if !weighed.others.is_empty() {
        rows.push(row("on supports without a scale, not measured here", left_kg, Basis::Reckoned));
    }
    if !weighed.at_tare.is_empty() {
        let kg = weighed.at_tare.iter().map(|piece| piece.kg[0]).sum();
        rows.push(row("pieces that were in place at the tare, added", kg, Basis::Reckoned));
    }
    rows
}

fn centroid(weighed: &Weighed, balance: &Balance, net_kg: f64, axis: usize) -> Option<Centroid> {
    if net_kg <= 0.0 {
        return None;
    }
    let before: f64 = weighed.at_tare.iter().map(|piece| piece.at_m[axis] * piece.kg[0]).sum();
    let at_m = (balance.sum(|force| force.sign * force.at_m[axis])[0] + before) / net_kg;
    let sd_m = balance.sum(|force| force.sign * (force.at_m[axis] - at_m))[1] / net_kg;
    let reckoned = weighed.others.iter().map(|scale| scale.basis).chain(weighed.pulls.iter().map(|pull| pull.basis));
    let all_read = !reckoned.into_iter().any(|basis| basis == Basis::Reckoned);
    let known_m = weighed.due.as_ref().map_or(0.0, |due| due.place_sd_m[axis] * due.kg / net_kg);
    (all_read || sd_m < TELLS_SHARE * known_m).then_some(Centroid { at_m, within_m: 2.0 * sd_m })
}
