//! What a test report says beside what was loaded and read: which article, what is claimed, where it was, with which
//! instruments, and what the inspection found. Each is entered when somebody knows it, before, during or after; nothing
//! of it stops a day. What a report names by the standard: source key `iso-17025`, 7.8.2.1.

use crate::day::Refused;
use plan::{Plan, Support};
use quantity::Quantity;
use serde::{Deserialize, Serialize};

/// One thing that the report says.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Field {
    /// Serial number of the article.
    Serial,
    /// Drawing of the article and its issue.
    Drawing,
    /// Where the article differs from its drawing.
    DrawingDeviations,
    /// In what condition the article was before the test.
    Condition,
    /// Who signed that the article conforms to its drawing.
    ConformityBy,
    /// The paragraph of the rules that the test is claimed to show.
    Paragraph,
    /// What is reserved: what the claim rests on.
    Reservations,
    /// What was not covered: side loads, unsymmetric loads, harness loads.
    NotCovered,
    /// For whom the test was done.
    TestedFor,
    /// Who tests, with the address.
    Workshop,
    /// Where the test was done.
    Place,
    /// Number under which the authority or its inspector keeps the test.
    AuthorityNumber,
    /// Temperature, °C.
    Temperature,
    /// Relative humidity, %.
    Humidity,
    /// Something about an instrument.
    Instrument {
        /// Which one.
        device: Device,
        /// What about it.
        item: Item,
    },
}

/// An instrument of the plan, by its name there.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Device {
    /// A scale under a support; its values in kg.
    Scale(String),
    /// A gauge; its values in m.
    Gauge(String),
    /// The force gauge in a hold-down strap; its values in N.
    Strap(String),
}

/// What is said about an instrument.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Item {
    /// Its own number.
    Number,
    /// Its range, as it stands on it.
    Range,
    /// The date until which its calibration holds.
    CalibratedUntil,
    /// A value that is known well and was put on it: a check mass, a gauge block.
    CheckPut,
    /// What it showed then.
    CheckShown,
    /// What it showed with nothing on it before the test.
    ZeroBefore,
    /// What it showed with nothing on it after the test.
    ZeroAfter,
    /// How far its zero may move.
    ZeroWithin,
}

/// What is said.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Said {
    /// Words.
    Text(String),
    /// A number, in the unit that the field names.
    Number(f64),
}

/// A look at the article.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Inspection {
    /// When.
    pub after: LookedAfter,
    /// The parts inspected.
    pub place: String,
    /// What was found; none where nothing was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub found: Option<String>,
    /// Who looked.
    pub by: String,
}

/// After what the article was looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum LookedAfter {
    /// Limit load.
    Limit,
    /// Ultimate load.
    Ultimate,
    /// Whatever load the day ended at.
    GivenUp,
}

impl Field {
    /// Which article it was.
    pub const ARTICLE: [Field; 5] =
        [Field::Serial, Field::Drawing, Field::DrawingDeviations, Field::Condition, Field::ConformityBy];
    /// What is claimed.
    pub const CLAIM: [Field; 4] = [Field::Paragraph, Field::Reservations, Field::NotCovered, Field::TestedFor];
    /// Where it was done, and in what air.
    pub const PLACE: [Field; 5] =
        [Field::Workshop, Field::Place, Field::AuthorityNumber, Field::Temperature, Field::Humidity];

    /// What it is called.
    pub fn word(&self) -> &'static str {
        match self {
            Field::Serial => "Serial number of the article",
            Field::Drawing => "Drawing and issue",
            Field::DrawingDeviations => "Deviations from the drawing",
            Field::Condition => "Condition before the test",
            Field::ConformityBy => "Conformity signed by",
            Field::Paragraph => "Paragraph claimed",
            Field::Reservations => "Reservations",
            Field::NotCovered => "Not covered",
            Field::TestedFor => "Tested for",
            Field::Workshop => "Workshop and address",
            Field::Place => "Place",
            Field::AuthorityNumber => "Authority's number",
            Field::Temperature => "Temperature",
            Field::Humidity => "Relative humidity",
            Field::Instrument { item, .. } => item.word(),
        }
    }

    /// Whether a number is said, not words.
    pub fn is_number(&self) -> bool {
        match self {
            Field::Temperature | Field::Humidity => true,
            Field::Instrument { item, .. } => item.is_number(),
            _ => false,
        }
    }

    /// Whether this may be said of it on a day with this plan.
    pub(crate) fn takes(&self, plan: &Plan, says: &Said) -> Result<(), Refused> {
        if let Field::Instrument { device, .. } = self
            && !device.is_of(plan)
        {
            return Err(Refused(format!("“{}” is no instrument of the plan", device.name())));
        }
        match (self, says) {
            (_, Said::Text(text)) if !self.is_number() && !text.trim().is_empty() => Ok(()),
            (Field::Humidity, Said::Number(percent)) if !(0.0..=100.0).contains(percent) => {
                Err(Refused::because("relative humidity is from 0 to 100 %"))
            }
            (Field::Temperature, Said::Number(celsius)) if !(-60.0..=60.0).contains(celsius) => {
                Err(Refused::because("a temperature from -60 to 60 °C would fit"))
            }
            (_, Said::Number(number)) if self.is_number() && number.is_finite() => Ok(()),
            _ if self.is_number() => Err(Refused(format!("{}: type a number", self.word()))),
            _ => Err(Refused(format!("{}: type what the report is to say", self.word()))),
        }
    }
}

impl Item {
    /// All of them, in the order of the report.
    pub const ALL: [Item; 8] = [
        Item::Number,
        Item::Range,
        Item::CalibratedUntil,
        Item::CheckPut,
        Item::CheckShown,
        Item::ZeroBefore,
        Item::ZeroAfter,
        Item::ZeroWithin,
    ];

    /// What it is called.
    pub fn word(self) -> &'static str {
        match self {
            Item::Number => "Number of the instrument",
            Item::Range => "Range",
            Item::CalibratedUntil => "Calibrated until",
            Item::CheckPut => "Check value put on",
            Item::CheckShown => "Shown with it",
            Item::ZeroBefore => "Zero before",
            Item::ZeroAfter => "Zero after",
            Item::ZeroWithin => "Zero may move by",
        }
    }

    /// Whether a number is said, not words.
    pub fn is_number(self) -> bool {
        !matches!(self, Item::Number | Item::Range | Item::CalibratedUntil)
    }
}

impl Device {
    /// The instruments of a plan: scales, gauges, force gauges in its hold-down straps.
    pub fn all(plan: &Plan) -> Vec<Device> {
        let scales = plan.fixture.supports.iter().filter(|s| s.scale).map(|s| Device::Scale(s.name.clone()));
        let gauges = plan.gauges.iter().map(|gauge| Device::Gauge(gauge.name.clone()));
        let straps = plan.fixture.hold_downs.iter().map(|strap| Device::Strap(strap.name.clone()));
        scales.chain(gauges).chain(straps).collect()
    }

    /// Its name in the plan.
    pub fn name(&self) -> &str {
        match self {
            Device::Scale(name) | Device::Gauge(name) | Device::Strap(name) => name,
        }
    }

    fn is_of(&self, plan: &Plan) -> bool {
        Self::all(plan).contains(self)
    }

    /// One division of a scale, kg, where the plan has it.
    fn division_kg(&self, plan: &Plan) -> Option<f64> {
        let Device::Scale(name) = self else { return None };
        let support: &Support = plan.fixture.supports.iter().find(|s| s.scale && s.name == *name)?;
        support.division.map(Quantity::si)
    }
}

impl LookedAfter {
    /// In words.
    pub fn word(self) -> &'static str {
        match self {
            LookedAfter::Limit => "limit load",
            LookedAfter::Ultimate => "ultimate load",
            LookedAfter::GivenUp => "the load that was reached",
        }
    }
}

impl Inspection {
    pub(crate) fn is_whole(&self) -> Result<(), Refused> {
        let empty = |text: &str| text.trim().is_empty();
        if empty(&self.place) || empty(&self.by) || self.found.as_deref().is_some_and(empty) {
            return Err(Refused::because(
                "an inspection says which parts were inspected, what was found or none, and by whom",
            ));
        }
        Ok(())
    }
}

/// Whether an instrument came back to its zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ZeroReturn {
    /// What it showed after less what it showed before, in the device's unit.
    pub moved: f64,
    /// How far it may move: as was entered, else one division of the scale (`common practice, no source`); none where
    /// neither is known.
    pub within: Option<f64>,
}

impl ZeroReturn {
    /// Whether it came back; none where nobody said how far it may move.
    pub fn is_back(&self) -> Option<bool> {
        // As typed: a zero that moved by what is allowed is allowed.
        self.within.map(|within| self.moved.abs() <= within * (1.0 + 1e-9) + 1e-12)
    }

    pub(crate) fn of(plan: &Plan, device: &Device, number: impl Fn(Item) -> Option<f64>) -> Option<Self> {
        let moved = number(Item::ZeroAfter)? - number(Item::ZeroBefore)?;
        Some(Self { moved, within: number(Item::ZeroWithin).or_else(|| device.division_kg(plan)) })
    }
}
