//! What must be proved: a load case, and the step from limit to ultimate.

use quantity::{Angle, Mass, Quantity, STANDARD_GRAVITY_M_S2};

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
}

impl LoadCase {
    /// The basis of a case that nobody has founded yet.
    pub const TO_BE_FOUNDED: &str = "to be filled in: the paragraph of the rule that applies";

    /// What the basis says where a rule fills everything but the occupant's mass.
    pub const OCCUPANT_NOT_TOLD: &str = "occupant not told here";

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
        }
    }

    /// Whether occupant mass and load factor still stand as in [`LoadCase::blank`], and no basis says
    /// that they are meant: a starting value is nobody's entry.
    pub fn starting_values(&self) -> StartingValues {
        let unfounded = self.basis.trim().is_empty() || self.basis == Self::TO_BE_FOUNDED;
        let blank = Self::blank("");
        let massless = unfounded || self.basis.contains(Self::OCCUPANT_NOT_TOLD);
        StartingValues {
            occupant_mass: massless && self.occupant_mass == blank.occupant_mass,
            load_factor: unfounded && (self.load_factor - blank.load_factor).abs() < 1e-12,
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

/// Which values of a load case nobody entered yet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StartingValues {
    /// The occupant's mass.
    pub occupant_mass: bool,
    /// The limit load factor.
    pub load_factor: bool,
}

impl StartingValues {
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
