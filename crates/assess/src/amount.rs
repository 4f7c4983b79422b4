//! A number with what it measures, and how it is shown.

use crate::told;
use quantity::{Force, Grain, Length, Mass, Pressure, Quantity, Units};

/// A number with what it measures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// A small distance, m.
    Distance(f64),
    /// How far something is off, m, and the words for the two ways: a positive one, a negative one.
    Off(f64, [&'static str; 2]),
    /// A mass, kg.
    Mass(f64),
    /// A force, N.
    Force(f64),
    /// A stress, Pa.
    Stress(f64),
    /// A level push as a part of the weight.
    OfWeight(f64),
    /// A pure ratio.
    Ratio(f64),
    /// An angle, rad.
    Angle(f64),
    /// A span of time, s.
    Time(f64),
    /// How many.
    Count(usize),
}

impl Amount {
    /// The bare number in SI; a count as a number.
    pub fn si(self) -> f64 {
        match self {
            // Adding zero turns -0 into 0.
            Amount::Distance(v)
            | Amount::Off(v, _)
            | Amount::Mass(v)
            | Amount::Force(v)
            | Amount::Stress(v)
            | Amount::OfWeight(v)
            | Amount::Ratio(v)
            | Amount::Time(v)
            | Amount::Angle(v) => v + 0.0,
            #[expect(clippy::cast_precision_loss, reason = "counts of pieces are small")]
            Amount::Count(count) => count as f64,
        }
    }

    /// The SI unit's symbol; empty for ratios and counts.
    pub fn si_unit(self) -> &'static str {
        match self {
            Amount::Distance(_) | Amount::Off(..) => "m",
            Amount::Mass(_) => "kg",
            Amount::Angle(_) => "rad",
            Amount::Time(_) => "s",
            Amount::Force(_) => "N",
            Amount::Stress(_) => "Pa",
            Amount::OfWeight(_) | Amount::Ratio(_) | Amount::Count(_) => "",
        }
    }

    /// As shown to people, in the plan's units.
    pub fn shown(self, units: Units) -> String {
        match self {
            Amount::Distance(v) => Length::m(v).shown(units, Grain::Fine),
            Amount::Off(v, [positive, negative]) => {
                let [off, none] = [v.abs(), 0.0].map(|m| Length::m(m).shown(units, Grain::Fine));
                // Nothing that is shown as zero lies to a side.
                if off == none { off } else { format!("{off} {}", if v > 0.0 { positive } else { negative }) }
            }
            Amount::Mass(v) => Mass::kg(v).shown(units, Grain::Coarse),
            Amount::Angle(v) => quantity::Angle::rad(v).shown(units, Grain::Coarse),
            Amount::Force(v) => Force::n(v).shown(units, Grain::Coarse),
            Amount::Stress(v) => told::significant(Pressure::pa(v), units, Grain::Coarse),
            // A light first piece takes many times its own weight, which says nothing.
            Amount::OfWeight(v) if v > 1.0 => "more than 1 of weight".to_owned(),
            Amount::OfWeight(v) => format!("{:.2} of weight", v + 0.0),
            Amount::Ratio(v) => format!("{:.2}", v + 0.0),
            Amount::Time(v) => told::span(v),
            Amount::Count(count) => count.to_string(),
        }
    }
}

impl Amount {
    /// As [`Amount::shown`], with what it is held against: where rounding would hide that it is more,
    /// both have so many decimals as show it.
    pub(crate) fn shown_beside(self, limit: Amount, units: Units) -> [String; 2] {
        let both = [self, limit].map(|amount| amount.shown(units));
        match (self, limit) {
            (Amount::Stress(is), Amount::Stress(may)) if is > may && both[0] == both[1] => {
                told::apart([is, may].map(Pressure::pa), units, Grain::Coarse)
            }
            (Amount::Force(is), Amount::Force(may)) if is > may && both[0] == both[1] => {
                told::apart([is, may].map(Force::n), units, Grain::Coarse)
            }
            _ => both,
        }
    }
}
