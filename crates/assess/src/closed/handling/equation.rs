//! The revised NIOSH lifting equation: RWL = LC HM VM DM AM FM CM, in its metric form (source
//! key `niosh-94-110`, section 1.3; read second-hand).

use plan::{Grip, Handling, Spell};
use quantity::{Angle, Length, Mass, Quantity};
use serde::Deserialize;
use std::sync::OnceLock;

const TEXT: &str = include_str!("../../../../../assets/tables/handling.ron");

/// Hands above this height count as high: 75 cm.
const HIGH_CM: f64 = 75.0;
const NEAREST_CM: f64 = 25.0;
const FARTHEST_CM: f64 = 63.0;
const HIGHEST_CM: f64 = 175.0;
const LEAST_TRAVEL_CM: f64 = 25.0;
const MOST_TRAVEL_CM: f64 = 175.0;
const MOST_TWIST_DEG: f64 = 135.0;

/// Multipliers with the hands low, and high.
type LowHigh = (f64, f64);

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Handling")]
struct Table {
    #[expect(dead_code, reason = "read by the test of sources, and by people")]
    source: String,
    #[expect(dead_code, reason = "read by people")]
    status: Status,
    #[expect(dead_code, reason = "read by people")]
    status_of_frequency: Status,
    #[expect(dead_code, reason = "read by people")]
    status_of_coupling: Status,
    load_kg: f64,
    frequency: Vec<(f64, [LowHigh; 3])>,
    good: LowHigh,
    fair: LowHigh,
    poor: LowHigh,
}

#[derive(Deserialize)]
enum Status {
    SeenSecondHand,
    Memory,
}

fn table() -> &'static Table {
    static TABLE: OnceLock<Table> = OnceLock::new();
    TABLE.get_or_init(|| ron::from_str(TEXT).expect("the table was read by the tests before it was built in"))
}

/// A lift: how, and from where to where.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lift<'a> {
    /// How.
    pub handling: &'a Handling,
    /// Height of the hands above the floor at the end that is looked at.
    pub hands: Length,
    /// Height of the hands above the floor where the piece is taken up: the frequency counts by it.
    pub picked_up: Length,
    /// How far up or down it goes.
    pub travel: Length,
}

/// One factor of the equation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Multiplier {
    /// The symbol of the manual.
    pub symbol: &'static str,
    /// In words.
    pub meaning: &'static str,
    /// 1 at best; 0 beyond what the equation allows.
    pub value: f64,
}

/// What should be lifted at the most, with the factors that led there.
#[derive(Clone, Debug, PartialEq)]
pub struct Recommended {
    /// The recommended weight limit of one person; 0 beyond what the equation allows.
    pub limit: Mass,
    /// The factors, in the manual's order.
    pub multipliers: [Multiplier; 6],
    /// How many lift.
    pub people: u32,
}

impl Recommended {
    /// Mass over the recommended limit; infinite where nothing should be lifted so. DEPARTURE: the equation is for
    /// one person; of two each is taken to bear half, which is the best that there is, and is told as that.
    pub fn index(&self, mass: Mass) -> f64 {
        let borne_kg = mass.si() / f64::from(self.people.max(1));
        if self.limit.si() > 0.0 { borne_kg / self.limit.si() } else { f64::INFINITY }
    }

    /// The factor that takes away most.
    pub fn worst(&self) -> Multiplier {
        let [first, others @ ..] = self.multipliers;
        others.into_iter().fold(first, |worst, next| if next.value < worst.value { next } else { worst })
    }
}

/// The recommended weight limit of a lift.
pub fn recommended(lift: &Lift) -> Recommended {
    let handling = lift.handling;
    let of = |symbol, meaning, value| Multiplier { symbol, meaning, value };
    let multipliers = [
        of("HM", "distance from the body", horizontal(handling.reach)),
        of("VM", "height of the hands", vertical(lift.hands)),
        of("DM", "way up or down", distance(lift.travel)),
        of("AM", "twist", asymmetry(handling.twist)),
        of("FM", "how often", frequency_multiplier(handling.lifts_per_minute, handling.spell, lift.picked_up)),
        of("CM", "grip", coupling(handling.grip, lift.hands)),
    ];
    let product: f64 = multipliers.iter().map(|factor| factor.value).product();
    Recommended { limit: Mass::kg(table().load_kg * product), multipliers, people: handling.people }
}

fn centimetres(length: Length) -> f64 {
    length.si() * 100.0
}

/// A hair of room, so that a bound typed in any unit still fits.
fn beyond(value: f64, bound: f64) -> bool {
    value > bound * (1.0 + 1e-9)
}

/// HM = 25 / H: at least 25 cm, none beyond 63 cm.
fn horizontal(reach: Length) -> f64 {
    let reach_cm = centimetres(reach);
    if beyond(reach_cm, FARTHEST_CM) { 0.0 } else { NEAREST_CM / reach_cm.max(NEAREST_CM) }
}

/// VM = 1 - 0.003 |V - 75|, none beyond 175 cm.
fn vertical(hands: Length) -> f64 {
    let height_cm = centimetres(hands).max(0.0);
    if beyond(height_cm, HIGHEST_CM) { 0.0 } else { 1.0 - 0.003 * (height_cm - HIGH_CM).abs() }
}

/// DM = 0.82 + 4.5 / D: at least 25 cm, none beyond 175 cm.
fn distance(travel: Length) -> f64 {
    let travel_cm = centimetres(travel).abs();
    if beyond(travel_cm, MOST_TRAVEL_CM) { 0.0 } else { 0.82 + 4.5 / travel_cm.max(LEAST_TRAVEL_CM) }
}

/// AM = 1 - 0.0032 A, none beyond 135 degrees.
fn asymmetry(twist: Angle) -> f64 {
    let twist_deg = twist.si().to_degrees().abs();
    if beyond(twist_deg, MOST_TWIST_DEG) { 0.0 } else { 1.0 - 0.0032 * twist_deg }
}

/// FM, table 5, between its rows by proportion as the manual says; at most 15 lifts a minute. The
/// height is that at which pieces are taken up. A row of 0 next to one that is not is taken as 0 at
/// once: the manual leaves that open, and less is the safe side.
pub fn frequency_multiplier(lifts_per_minute: f64, spell: Spell, picked_up: Length) -> f64 {
    let column = match spell {
        Spell::OneHour => 0,
        Spell::TwoHours => 1,
        Spell::EightHours => 2,
    };
    let rows = &table().frequency;
    let value = |row: &(f64, [LowHigh; 3])| low_or_high(row.1[column], picked_up);
    let Some(after) = rows.iter().position(|row| row.0 >= lifts_per_minute) else { return 0.0 };
    let Some(before) = after.checked_sub(1) else { return value(&rows[0]) };
    let (low, high) = (&rows[before], &rows[after]);
    if value(high) <= 0.0 {
        return 0.0;
    }
    let part = (lifts_per_minute - low.0) / (high.0 - low.0);
    value(low) + part * (value(high) - value(low))
}

/// CM, table 7, by the height of the hands at the end that is looked at.
fn coupling(grip: Grip, hands: Length) -> f64 {
    let row = match grip {
        Grip::Good => table().good,
        Grip::Fair => table().fair,
        Grip::Poor => table().poor,
    };
    low_or_high(row, hands)
}

fn low_or_high((low, high): LowHigh, hands: Length) -> f64 {
    if centimetres(hands) < HIGH_CM * (1.0 - 1e-9) { low } else { high }
}
