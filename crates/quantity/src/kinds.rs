//! One type a kind of quantity, holding SI, so that a mass is never taken for a force.

use crate::unit::{Grain, Kind, Units};
use crate::{NotAQuantity, parse, write};

/// A number in SI that knows what it measures.
pub trait Quantity: Copy + PartialEq + std::fmt::Debug {
    /// What it measures.
    const KIND: Kind;
    /// From its value in SI.
    fn from_si(si: f64) -> Self;
    /// Its value in SI.
    fn si(self) -> f64;

    /// Reads what a person typed, unit included.
    ///
    /// # Errors
    /// A sentence that says what is wrong and which units fit.
    fn parse(text: &str) -> Result<Self, NotAQuantity> {
        parse::quantity(text, Self::KIND).map(Self::from_si)
    }

    /// Reads what a person typed into a field that shows the unit in which it is read: a number
    /// alone is of that unit. In a file, where nothing is shown, it is refused.
    ///
    /// # Errors
    /// As for [`Quantity::parse`]; and for a number alone that may be metres or millimetres.
    fn typed(text: &str, units: Units, grain: Grain) -> Result<Self, NotAQuantity> {
        parse::typed(text, units.unit(Self::KIND, grain)).map(Self::from_si)
    }

    /// As it is written into a file: 12 significant digits with the unit. Reading it back and
    /// writing it again gives the same text.
    fn written(self, units: Units, grain: Grain) -> String {
        write::exact(self.si(), units.unit(Self::KIND, grain))
    }

    /// As it stands in a field: seven significant digits with the unit, enough for what a person
    /// typed and without the last digits of a conversion.
    fn in_field(self, units: Units, grain: Grain) -> String {
        write::brief(self.si(), units.unit(Self::KIND, grain))
    }

    /// As it stands in a field in which nobody is typing: no finer than a measurement is, so that a
    /// value that was worked out does not show its last digits. Never to be read back.
    fn at_rest(self, units: Units, grain: Grain) -> String {
        write::at_rest(self.si(), units.unit(Self::KIND, grain))
    }

    /// As it is shown to people: rounded, with the unit.
    fn shown(self, units: Units, grain: Grain) -> String {
        write::rounded(self.si(), units.unit(Self::KIND, grain), true)
    }

    /// As [`Quantity::shown`] but without the unit, for a column whose head carries it.
    fn shown_bare(self, units: Units, grain: Grain) -> String {
        write::rounded(self.si(), units.unit(Self::KIND, grain), false)
    }
}

macro_rules! quantities {
    ($($(#[$doc:meta])* $name:ident: $kind:ident, $si:ident;)*) => { $(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            /// From its value in SI.
            pub const fn $si(value: f64) -> Self {
                Self(value)
            }
        }

        impl Quantity for $name {
            const KIND: Kind = Kind::$kind;
            fn from_si(si: f64) -> Self {
                Self(si)
            }
            fn si(self) -> f64 {
                self.0
            }
        }

        impl std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl std::ops::Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl std::ops::Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }

        impl std::ops::Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
                Self(parts.map(|p| p.0).sum())
            }
        }
    )* };
}

quantities! {
    /// A distance, m.
    Length: Length, m;
    /// A mass, kg.
    Mass: Mass, kg;
    /// A force, N.
    Force: Force, n;
    /// A stiffness, N/m.
    Stiffness: Stiffness, n_per_m;
    /// A pressure or stress, Pa.
    Pressure: Pressure, pa;
    /// An angle, rad.
    Angle: Angle, rad;
    /// A stretch of time, s.
    Time: Time, s;
}

/// From this length on a tape is read in metres, m: `common practice, no source`.
const LONG_M: f64 = 1.0;

impl Length {
    /// As one reads it off a tape: below a metre in the fine unit, `185 mm`, else `1.250 m`.
    pub fn shown_taped(self, units: Units) -> String {
        self.shown(units, if self.0.abs() < LONG_M { Grain::Fine } else { Grain::Coarse })
    }
}
