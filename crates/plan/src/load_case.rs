//! What must be proved: a load case, and the step from limit to ultimate.

use quantity::{Angle, Grain, Mass, Quantity, STANDARD_GRAVITY_M_S2, Units};

/// One load case: an occupant under a load factor.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadCase {
    /// What it is called.
    pub name: String,
    /// Free text: the paragraph of the rule that applies.
    pub basis: String,
    /// Mass of the occupant.
    pub occupant_mass: Mass,
    /// Limit load factor along the case's direction.
    pub load_factor: f64,
    /// Direction of the load in the article's side view: 0 straight down, positive leaning forward.
    pub direction: Angle,
    /// Factor of safety.
    pub safety_factor: f64,
    /// Product of the special factors (fittings, castings and the like).
    pub special_factor: f64,
    /// The figures that the basis says, where a published rule filled it.
    pub from_rule: Option<FromRule>,
    /// The values that nobody entered.
    pub starting: StartingValues,
}

/// The figures of a rule from which a load case was started: those which its basis tells.
#[derive(Clone, Debug, PartialEq)]
pub struct FromRule {
    /// The rule, as its table calls it.
    pub rule: String,
    /// Its mass of the occupant; none where it tells none.
    pub occupant_mass: Option<Mass>,
    /// Its load factor.
    pub load_factor: f64,
    /// Its factor of safety.
    pub safety_factor: f64,
    /// The special factor that the basis says; 1 where it tells none.
    pub special_factor: f64,
}

/// A figure of a load case that is no longer the one which its basis tells.
#[derive(Clone, Debug, PartialEq)]
pub enum Changed {
    /// The occupant's mass: the basis says this one.
    OccupantMass(Mass),
    /// The load factor: the basis says this one.
    LoadFactor(f64),
    /// The direction: the basis says straight down.
    Direction,
    /// The factor of safety: the basis says this one.
    SafetyFactor(f64),
    /// The special factor: the basis says this one.
    SpecialFactor(f64),
}

impl LoadCase {
    /// The basis of a case that nobody has founded yet.
    pub const TO_BE_FOUNDED: &str = "to be filled in: the paragraph of the rule that applies";

    /// What the basis says where a rule fills everything but the occupant's mass.
    pub const OCCUPANT_NOT_TOLD: &str = "occupant not given here";

    /// A case to begin from. Occupant mass and load factor only stand for what is to be entered:
    /// figures of no rule in particular.
    pub fn blank(name: impl Into<String>) -> Self {
        Self {
            name: name.into(),
            basis: Self::TO_BE_FOUNDED.to_owned(),
            occupant_mass: Mass::kg(86.0),
            load_factor: 3.8,
            direction: Angle::rad(0.0),
            safety_factor: 1.5,
            special_factor: 1.0,
            from_rule: None,
            starting: StartingValues { occupant_mass: true, load_factor: true },
        }
    }

    /// The values that nobody entered, as long as no basis says that they are meant.
    pub fn starting_values(&self) -> StartingValues {
        let unfounded = self.is_unfounded();
        let rule_tells_none = self.from_rule.as_ref().is_some_and(|rule| rule.occupant_mass.is_none());
        StartingValues {
            occupant_mass: self.starting.occupant_mass && (unfounded || rule_tells_none),
            load_factor: self.starting.load_factor && unfounded,
        }
    }

    fn is_unfounded(&self) -> bool {
        self.basis.trim().is_empty() || self.basis == Self::TO_BE_FOUNDED
    }

    /// This case in place of another: a value that differs was entered.
    pub(crate) fn in_place_of(self, before: &Self) -> Self {
        let starting = StartingValues {
            occupant_mass: self.starting.occupant_mass && !differ(self.occupant_mass.si(), before.occupant_mass.si()),
            load_factor: self.starting.load_factor && !differ(self.load_factor, before.load_factor),
        };
        Self { starting, ..self }
    }

    /// The figures that were changed since a rule filled the case: what the basis says of them is
    /// no longer so. Every rule of the table acts straight down.
    pub fn changed_since_rule(&self) -> Vec<Changed> {
        let Some(rule) = &self.from_rule else { return Vec::new() };
        let mass = rule.occupant_mass.filter(|mass| differ(mass.si(), self.occupant_mass.si()));
        let factor = |told: f64, now: f64, changed: fn(f64) -> Changed| differ(told, now).then(|| changed(told));
        [
            mass.map(Changed::OccupantMass),
            factor(rule.load_factor, self.load_factor, Changed::LoadFactor),
            (self.direction.si().abs() > SAME).then_some(Changed::Direction),
            factor(rule.safety_factor, self.safety_factor, Changed::SafetyFactor),
            factor(rule.special_factor, self.special_factor, Changed::SpecialFactor),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    /// What the basis says of figures that were changed since, as a sentence; none where none was.
    pub fn basis_changed(&self, units: Units) -> Option<String> {
        let changed: Vec<String> = self.changed_since_rule().iter().map(|changed| changed.words(self, units)).collect();
        let rule = self.from_rule.as_ref()?;
        (!changed.is_empty())
            .then(|| format!("Changed since it was started from {}: {}.", rule.rule, changed.join("; ")))
    }

    /// The basis as it may be quoted: where figures were changed since, it says so.
    pub fn basis_in_full(&self, units: Units) -> String {
        match self.basis_changed(units) {
            Some(changed) => format!("{} {changed}", self.basis.trim_end()),
            None => self.basis.clone(),
        }
    }

    /// The load factor's parts along the article's axes in the side view: down (against z) and
    /// forward (against x). `own derivation`: n cos d and n sin d, for the direction d leans
    /// forward from straight down.
    pub fn parts(&self) -> [f64; 2] {
        let lean_rad = self.direction.si();
        [self.load_factor * lean_rad.cos(), self.load_factor * lean_rad.sin()]
    }

    /// The same case under a load factor of these parts, down and forward: their resultant and its
    /// direction. `own derivation`: the resultant of two components at right angles.
    pub fn with_parts(&self, [down, forward]: [f64; 2]) -> Self {
        let direction = Angle::rad(forward.atan2(down));
        Self { load_factor: down.hypot(forward), direction, ..self.clone() }
    }

    /// The article's pitch, nose-up positive, under which gravity acts along this case's load.
    /// `own derivation`: pitched nose-up by p, gravity leans aft by p in the article, so a load
    /// that leans forward by d wants p = -d.
    pub fn pitch_due(&self) -> Angle {
        -self.direction
    }
}

impl Changed {
    /// `occupant mass 86.0 kg, the basis says 97.5 kg`.
    fn words(&self, case: &LoadCase, units: Units) -> String {
        let mass = |mass: Mass| mass.shown(units, Grain::Coarse);
        let number = quantity::number_at_rest;
        let (what, is, told) = match self {
            Changed::OccupantMass(told) => ("occupant mass", mass(case.occupant_mass), mass(*told)),
            Changed::LoadFactor(told) => ("load factor", number(case.load_factor), number(*told)),
            Changed::Direction => ("direction", case.direction.shown(units, Grain::Coarse), "straight down".to_owned()),
            Changed::SafetyFactor(told) => ("factor of safety", number(case.safety_factor), number(*told)),
            Changed::SpecialFactor(told) => ("special factor", number(case.special_factor), number(*told)),
        };
        format!("{what} {is}, the basis says {told}")
    }
}

/// A file's twelve digits change no figure.
const SAME: f64 = 1e-9;

fn differ(one: f64, other: f64) -> bool {
    (one - other).abs() > SAME * one.abs()
}

/// Which values of a load case nobody entered yet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct StartingValues {
    /// The occupant's mass.
    pub occupant_mass: bool,
    /// The limit load factor.
    pub load_factor: bool,
}

impl StartingValues {
    /// Of a case in a file that does not say which values nobody entered, as older ones: those that stand
    /// as in [`LoadCase::blank`] without a basis that tells them.
    pub(crate) fn untold(case: &LoadCase) -> Self {
        let blank = LoadCase::blank("");
        let massless = case.is_unfounded() || case.basis.contains(LoadCase::OCCUPANT_NOT_TOLD);
        Self {
            occupant_mass: massless && !differ(case.occupant_mass.si(), blank.occupant_mass.si()),
            load_factor: case.is_unfounded() && !differ(case.load_factor, blank.load_factor),
        }
    }

    /// In words: `occupant mass and limit load factor`; none where there is none.
    pub fn words(self) -> Option<&'static str> {
        match (self.occupant_mass, self.load_factor) {
            (true, true) => Some("occupant mass and limit load factor"),
            (true, false) => Some("occupant mass"),
            (false, true) => Some("limit load factor"),
            (false, false) => None,
        }
    }
}

/// The greatest load expected in service, as the mass that weighs as much.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LimitLoad(Mass);

/// Limit load x factor of safety x special factors, as the mass that weighs as much.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UltimateLoad(Mass);

impl LimitLoad {
    /// Occupant mass x limit load factor (source key `cfr-23-301`: limit loads are the maximum
    /// loads to be expected in service).
    pub fn of(case: &LoadCase) -> Self {
        Self(case.occupant_mass * case.load_factor)
    }

    /// The mass whose weight is this load.
    pub fn as_mass(self) -> Mass {
        self.0
    }

    /// The load as a force, N.
    pub fn force_n(self) -> f64 {
        self.0.si() * STANDARD_GRAVITY_M_S2
    }

    /// The one way from limit to ultimate: nobody multiplies twice (source key `cfr-23-303`).
    pub fn ultimate(self, case: &LoadCase) -> UltimateLoad {
        UltimateLoad(self.0 * case.safety_factor * case.special_factor)
    }
}

impl UltimateLoad {
    /// The mass whose weight is this load.
    pub fn as_mass(self) -> Mass {
        self.0
    }

    /// The load as a force, N.
    pub fn force_n(self) -> f64 {
        self.0.si() * STANDARD_GRAVITY_M_S2
    }
}
