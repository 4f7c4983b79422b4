//! How far the line of action lies beside the occupant point along one axis, and what is allowed.

use crate::amount::Amount;
use quantity::frame::side;
use quantity::{Grain, Kind, Length, Quantity, Units};

/// An offset along one axis with what is allowed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beside {
    /// 0 for fore-aft, 1 for lateral.
    pub axis: usize,
    /// Line of action minus occupant point, floor frame, m.
    pub offset_m: f64,
    /// What is allowed either way, m.
    pub allowed_m: f64,
}

impl Beside {
    /// Both axes of a state.
    pub fn both(offset_m: [f64; 2], allowed_m: [f64; 2]) -> [Self; 2] {
        [0, 1].map(|axis| Self { axis, offset_m: offset_m[axis], allowed_m: allowed_m[axis] })
    }

    /// Whether it is within what is allowed.
    pub fn fits(&self) -> bool {
        self.offset_m.abs() <= self.allowed_m
    }

    /// What part of the allowed it takes up; all of it and more where none is allowed.
    pub fn share(&self) -> f64 {
        if self.allowed_m > 0.0 { self.offset_m.abs() / self.allowed_m } else { f64::INFINITY }
    }

    /// `12 mm left of the occupant point where 10 mm are allowed`; `of` names the point.
    pub fn words(&self, units: Units, of: &str) -> String {
        let [off, allowed] = told_apart(units, self.offset_m, self.allowed_m);
        let shown = |m: f64| Length::m(m).shown(units, Grain::Fine);
        if off == shown(0.0) {
            let least = least_shown(units);
            let way = ["fore or aft of", "beside"][self.axis.min(1)];
            return format!("less than {least} {way} {of} where {allowed} are allowed");
        }
        format!("{off} {} of {of} where {allowed} are allowed", self.side())
    }

    /// `12 mm left`.
    pub fn side_words(&self, units: Units) -> String {
        format!("{} {}", Length::m(self.offset_m.abs()).shown(units, Grain::Fine), self.side())
    }

    /// How far off, whichever the side, with the side for people.
    pub(crate) fn amount(&self) -> Amount {
        Amount::Off(self.offset_m.abs(), [self.side(); 2])
    }

    fn side(&self) -> &'static str {
        side(self.axis, self.offset_m)
    }
}

/// The least offset that is not shown as zero.
pub(crate) fn least_shown(units: Units) -> &'static str {
    if units == Units::Metric { "1 mm" } else { "0.01 in" }
}

/// The length of an offset and what is allowed (m), as they are shown. Where rounding would hide that
/// it is too much, both are told with so many decimals more as show it, three at the most.
pub(crate) fn told_apart(units: Units, offset_m: f64, allowed_m: f64) -> [String; 2] {
    let both_m = [offset_m.abs(), allowed_m];
    let whole = both_m.map(|m| Length::m(m).shown(units, Grain::Fine));
    if both_m[0] <= both_m[1] || whole[0] != whole[1] {
        return whole;
    }
    let unit = units.unit(Kind::Length, Grain::Fine);
    let least = if units == Units::Metric { 1 } else { 3 };
    let told = |decimals: usize| both_m.map(|m| format!("{:.decimals$}", m / unit.si));
    let apart = (least..least + 2).map(told).find(|[off, allowed]| off != allowed).unwrap_or_else(|| told(least + 2));
    apart.map(|bare| format!("{} {}", bare.trim_end_matches('0').trim_end_matches('.'), unit.symbol))
}
