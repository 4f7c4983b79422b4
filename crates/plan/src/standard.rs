//! Published load cases to start from, and published special factors, `assets/tables/rules.ron`:
//! paragraph, figure, and how the figure came to us. They are data about rules, no mechanics: a
//! row fills the fields of a load case and leaves its basis in words.

use crate::{FromRule, LoadCase, StartingValues};
use quantity::{Angle, Mass, Quantity};
use serde::{Deserialize, Deserializer, de};
use std::fmt;
use std::sync::OnceLock;

const TEXT: &str = include_str!("../../../assets/tables/rules.ron");

/// How a figure came to us.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Status {
    /// Read in the document.
    Seen,
    /// Read in another document that quotes it.
    SeenSecondHand,
    /// Recalled, not read.
    Memory,
}

impl fmt::Display for Status {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Status::Seen => "read",
            Status::SeenSecondHand => "read as quoted",
            Status::Memory => "from memory",
        })
    }
}

/// A published figure with its place.
#[derive(Debug, PartialEq)]
pub struct Figure<T> {
    /// Its value.
    pub value: T,
    /// As it is printed there.
    pub printed: String,
    /// Paragraph or table.
    pub place: String,
    /// The key of its document in `assets/sources.ron`.
    pub source: String,
    /// How it came to us.
    pub status: Status,
}

impl<T> fmt::Display for Figure<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} ({}, {})", self.printed, self.place, self.status)
    }
}

/// Whether a rule states a load as limit or already as ultimate.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Given {
    /// As limit: the factor of safety is still to come.
    Limit,
    /// As ultimate: nothing is multiplied again but special factors.
    Ultimate,
}

/// A published load case, straight down in the article.
#[derive(Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Standard {
    /// Rule and category.
    pub name: String,
    /// Which edition the figures are of.
    pub edition: String,
    /// Mass of the occupant; none where the rule's figure is not known to us.
    pub occupant: Option<Figure<Mass>>,
    /// Load factor.
    pub load_factor: Figure<f64>,
    /// What the load factor leads to.
    pub given: Given,
    /// By which paragraph the factor of safety is asked for.
    #[serde(default)]
    pub asks_by: SafetyParagraph,
    /// Factor of safety.
    pub safety: Figure<f64>,
    /// What the rule multiplies these loads by for fittings and attachments of the seat; none where it
    /// asks for nothing of the kind, or where that is not known to us.
    pub attachments: Option<Figure<f64>>,
}

/// The paragraph that asks for a factor of safety.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
pub enum SafetyParagraph {
    /// 14 CFR 23.303 (source key `cfr-23-303`).
    Part23,
    /// That of another rule.
    #[default]
    Other,
}

/// A published special factor.
#[derive(Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Special {
    /// What it is for.
    pub name: String,
    /// When it applies.
    pub about: String,
    /// The factor.
    pub factor: Figure<f64>,
}

impl Standard {
    /// Every published load case, in the table's order.
    pub fn all() -> &'static [Standard] {
        &table().standards
    }

    /// The case with this rule's figures in its fields and its words as the basis. Its name stays,
    /// and the occupant's mass where the rule tells none.
    pub fn fill(&self, case: &LoadCase) -> LoadCase {
        LoadCase {
            name: case.name.clone(),
            basis: self.basis(),
            occupant_mass: self.occupant.as_ref().map_or(case.occupant_mass, |figure| figure.value),
            load_factor: self.load_factor.value,
            direction: Angle::rad(0.0),
            safety_factor: self.safety.value,
            special_factor: 1.0,
            from_rule: Some(self.figures()),
            starting: StartingValues {
                occupant_mass: case.starting.occupant_mass && self.occupant.is_none(),
                load_factor: false,
            },
        }
    }

    fn figures(&self) -> FromRule {
        FromRule {
            rule: self.name.clone(),
            occupant_mass: self.occupant.as_ref().map(|figure| figure.value),
            load_factor: self.load_factor.value,
            safety_factor: self.safety.value,
            special_factor: 1.0,
        }
    }

    /// Where each figure comes from, in words.
    pub fn basis(&self) -> String {
        let occupant = match &self.occupant {
            Some(figure) => format!("occupant {figure}"),
            None => LoadCase::OCCUPANT_NOT_TOLD.to_owned(),
        };
        let factors = match self.given {
            Given::Limit => format!("limit load factor {}; factor of safety {}", self.load_factor, self.safety),
            Given::Ultimate => {
                let (factor, safety) = (&self.load_factor, &self.safety);
                format!("load factor {factor}, given as ultimate: no further factor of safety ({})", safety.place)
            }
        };
        let check = if self.recalled() { " Check what is from memory before it is relied on." } else { "" };
        let attachments = self.attachments_words().map(|words| format!(" {words}")).unwrap_or_default();
        format!("{} ({}): {occupant}; {factors}.{attachments}{check}", self.name, self.edition)
    }

    /// That the rule wants more of the seat's fittings and attachments, as a sentence: this case does
    /// not prove them.
    pub fn attachments_words(&self) -> Option<String> {
        let figure = self.attachments.as_ref()?;
        Some(format!(
            "Fittings and attachments of seat and belts to the structure must bear {figure} times these loads: not in \
             this case, give one of its own the special factor."
        ))
    }

    /// Whether a figure of it is recalled only.
    pub fn recalled(&self) -> bool {
        let occupant = self.occupant.as_ref().map(|figure| figure.status);
        occupant.into_iter().chain([self.load_factor.status, self.safety.status]).any(|s| s == Status::Memory)
    }
}

impl Special {
    /// Every published special factor, in the table's order.
    pub fn all() -> &'static [Special] {
        &table().specials
    }

    /// The case with this factor as its special factor, told in its basis.
    pub fn fill(&self, case: &LoadCase) -> LoadCase {
        let told = format!("Special factor, {}: {}.", self.name, self.factor);
        let basis = if case.basis.trim().is_empty() { told } else { format!("{} {told}", case.basis.trim_end()) };
        let special_factor = self.factor.value;
        let from_rule = case.from_rule.clone().map(|rule| FromRule { special_factor, ..rule });
        LoadCase { basis, special_factor, from_rule, ..case.clone() }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Rules {
    standards: Vec<Standard>,
    specials: Vec<Special>,
}

/// The table, read once.
fn table() -> &'static Rules {
    static TABLE: OnceLock<Rules> = OnceLock::new();
    TABLE.get_or_init(|| ron::from_str(TEXT).expect("the table was read by the tests before it was built in"))
}

/// A figure as the table has it.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Figure")]
struct Row {
    value: String,
    place: String,
    source: String,
    status: Status,
}

/// A value that the table writes as text.
trait Printed: Sized {
    fn read(text: &str) -> Result<Self, String>;
}

impl Printed for Mass {
    fn read(text: &str) -> Result<Self, String> {
        Mass::parse(text).map_err(|error| error.to_string())
    }
}

impl Printed for f64 {
    fn read(text: &str) -> Result<Self, String> {
        text.parse().map_err(|error| format!("“{text}”: {error}"))
    }
}

impl<'de, T: Printed> Deserialize<'de> for Figure<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let Row { value: printed, place, source, status } = Row::deserialize(deserializer)?;
        let value = T::read(&printed).map_err(de::Error::custom)?;
        Ok(Self { value, printed, place, source, status })
    }
}
