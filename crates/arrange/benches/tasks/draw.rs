//! Tasks drawn from their number alone: the same number gives the same task for ever. Every sort of
//! bed, heap and hindrance, from easy over barely possible to impossible.

use assess::Check;
use fastrand::Rng;
use plan::{Article, Bearing, Form, Hold, KeepClear, Lot, Plan, Support, Target};
use quantity::{Angle, Force, Length, Mass, Units};
use std::collections::BTreeMap;

/// How hard a task is meant to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Grade {
    /// Pieces to spare, room around.
    Easy,
    /// Hardly a piece to spare, something in the way, the occupant point off the middle.
    Tight,
    /// Many small pieces.
    Many,
    /// No stack can do it; the check that says so.
    Impossible(Option<Check>),
}

/// A task with what is meant by it.
pub(crate) struct Task {
    pub(crate) grade: Grade,
    pub(crate) plan: Plan,
}

/// The task of a number.
pub(crate) fn task(number: u64) -> Task {
    let random = &mut Rng::with_seed(0x5EED ^ number.wrapping_mul(0x9E37_79B9_7F4A_7C15));
    let grade = match number % 12 {
        0..=3 => Grade::Easy,
        4..=8 => Grade::Tight,
        9 => Grade::Many,
        _ => Grade::Impossible(None),
    };
    let mut plan = drawn(grade, random);
    let grade = if let Grade::Impossible(_) = grade { spoilt(&mut plan, number / 12 * 2 + number % 2) } else { grade };
    Task { grade, plan }
}

fn at<const N: usize>(m: [f64; N]) -> [Length; N] {
    m.map(Length::m)
}

/// A number within bounds, to a millimetre.
fn between(random: &mut Rng, [from, to]: [f64; 2]) -> f64 {
    ((from + (to - from) * random.f64()) * 1000.0).round() / 1000.0
}

fn drawn(grade: Grade, random: &mut Rng) -> Plan {
    let mut plan = Plan::blank(Units::Metric);
    let loads = loads(grade, random);
    let whole_kg: f64 = loads.iter().flat_map(|lot| (1..=lot.count).map(|i| kg(lot.mass_of(i)))).sum();
    let boards = boards(random);
    let spare = match grade {
        Grade::Tight => between(random, [0.96, 0.995]),
        _ => between(random, [0.6, 0.85]),
    };
    let case = &mut plan.load_cases[0];
    case.starting = plan::StartingValues::default();
    (case.occupant_mass, case.load_factor, case.safety_factor) = (Mass::kg(whole_kg * spare / 6.0), 4.0, 1.5);
    let tilt = [0.0, 0.0, 0.02, -0.03][random.usize(0..4)];
    let due_kg = whole_kg * spare;
    plan.article = article(tilt, grade, random);
    plan.load_cases[0].direction = Angle::rad(-tilt);
    plan.bed.origin = at([1.5, 0.0, 0.5]);
    plan.bed.slope = Angle::rad([0.0, -tilt][random.usize(0..2)]);
    plan.bed.friction = 0.4;
    plan.bed.bearings = bearings(random, due_kg);
    plan.fixture.supports = supports(due_kg);
    let off = if grade == Grade::Tight { 0.035 } else { 0.015 };
    let (x, y) = (1.73 + between(random, [-off, off]), between(random, [-off / 3.0, off / 3.0]));
    plan.target = Target::Point { at: at([x, y, 0.8]), tolerance: at([0.015, 0.010]) };
    plan.ballast = loads.into_iter().chain(boards).collect();
    let hold = |(name, at): (&str, f64)| Hold::at(name, at);
    plan.holds = [("half limit", 1.0 / 3.0), ("limit", 2.0 / 3.0), ("ultimate", 1.0)].map(hold).to_vec();
    plan
}

fn kg(mass: Mass) -> f64 {
    quantity::Quantity::si(mass)
}

fn article(tilt: f64, grade: Grade, random: &mut Rng) -> Article {
    let mut article = Plan::blank(Units::Metric).article;
    (article.mass, article.centroid) = (Mass::kg(between(random, [45.0, 120.0])), at([1.9, 0.0, 0.55]));
    (article.pitch, article.pivot) = (Angle::rad(tilt), at([1.4, 0.0, 0.0]));
    let hindrances = if grade == Grade::Tight { random.usize(1..4) } else { random.usize(0..2) };
    article.keep_clear = hindrance(random).into_iter().take(hindrances).collect();
    article
}

fn hindrance(random: &mut Rng) -> Vec<KeepClear> {
    let region = |name: &str, side: Vec<[f64; 2]>, y: [f64; 2], clearance: f64| KeepClear {
        name: name.to_owned(),
        side: side.into_iter().map(at).collect(),
        y: at(y),
        y_known: [true; 2],
        clearance: Length::m(clearance),
    };
    let stick = 1.14 + between(random, [0.0, 0.06]);
    let back = 2.3 - between(random, [0.0, 0.06]);
    vec![
        region("control stick", vec![[stick, 0.4], [stick + 0.05, 0.4], [stick + 0.07, 0.95]], [-0.04, 0.04], 0.04),
        region("rear bulkhead", vec![[back, 0.4], [back + 0.05, 0.4], [back + 0.25, 1.5]], [-0.3, 0.3], 0.05),
        region("control rod", vec![[0.6, 0.35], [4.0, 0.35], [4.0, 0.42], [0.6, 0.42]], [-0.03, 0.03], 0.02),
    ]
}

fn bearings(random: &mut Rng, due_kg: f64) -> Vec<Bearing> {
    let bearing = |name: &str, x: [f64; 2], y: [f64; 2], top: f64, share: f64| Bearing {
        name: name.to_owned(),
        x: at(x),
        y: at(y),
        top: Length::m(top),
        allowable: Some(Force::n(due_kg * 9.81 * share)),
    };
    let half = between(random, [0.24, 0.34]);
    let wide = [-half, half];
    match random.usize(0..4) {
        0 => {
            vec![bearing("front rail", [0.0, 0.04], wide, 0.0, 0.9), bearing("rear rail", [0.42, 0.46], wide, 0.0, 0.9)]
        }
        1 => vec![
            bearing("front rail", [0.0, 0.04], wide, 0.0, 0.9),
            bearing("rear rail", [0.42, 0.46], wide, 0.0, 0.9),
            bearing("centre rail", [0.04, 0.42], [-0.02, 0.02], -0.002, 0.7),
        ],
        2 => vec![bearing("seat panel", [0.0, 0.46], wide, 0.0, 1.5)],
        _ => vec![
            bearing("left rail", [-0.02, 0.48], [-half, 0.05 - half], 0.0, 0.9),
            bearing("right rail", [-0.02, 0.48], [half - 0.05, half], 0.0, 0.9),
        ],
    }
}

fn supports(due_kg: f64) -> Vec<Support> {
    let support = |name: &str, x: f64, y: f64| Support {
        name: name.to_owned(),
        at: at([x, y, 0.0]),
        capacity: Some(Mass::kg(due_kg * 0.6 + 60.0)),
        scale: true,
        stiffness: None,
        division: None,
    };
    vec![
        support("left front scale", 1.1, -0.65),
        support("right front scale", 1.1, 0.65),
        support("left rear scale", 2.6, -0.6),
        support("right rear scale", 2.6, 0.6),
    ]
}

fn loads(grade: Grade, random: &mut Rng) -> Vec<Lot> {
    let sand = |count: u32| lot("sand bag", Form::Bag, [0.45, 0.30, 0.11], (22.0, count));
    let small = |count: u32| lot("small bag", Form::Bag, [0.36, 0.24, 0.09], (12.0, count));
    let shot = |count: u32| lot("shot bag", Form::Bag, [0.21, 0.14, 0.06], (11.0, count));
    let plate = |count: u32| lot("steel plate", Form::Solid, [0.38, 0.23, 0.025], (17.0, count));
    let mut count = |from: u32, to: u32| random.u32(from..=to);
    let mut lots = match (grade, count(0, 3)) {
        (Grade::Many, 0 | 1) => vec![small(count(50, 80))],
        (Grade::Many, _) => vec![shot(count(90, 120))],
        (_, 0) => vec![sand(count(14, 30))],
        (_, 1) => vec![small(count(16, 40))],
        (_, 2) => vec![sand(count(10, 20)), plate(count(4, 10))],
        _ => vec![shot(count(24, 48)), plate(count(4, 10))],
    };
    lots.iter_mut().for_each(|lot| weigh(lot, random));
    lots
}

fn boards(random: &mut Rng) -> Vec<Lot> {
    let graded = |lot: Lot| Lot { grade: Some("C24".to_owned()), friction: 0.4, ..lot };
    let mut boards = vec![
        graded(lot("short board", Form::Board, [0.80, 0.175, 0.045], (2.9, random.u32(4..=6)))),
        graded(lot("long board", Form::Board, [0.92, 0.175, 0.045], (3.3, random.u32(2..=6)))),
    ];
    boards.truncate(random.usize(1..=2));
    boards.iter_mut().for_each(|lot| weigh(lot, random));
    boards
}

fn lot(name: &str, form: Form, size: [f64; 3], (kg, count): (f64, u32)) -> Lot {
    Lot {
        name: name.to_owned(),
        form,
        size: at(size),
        mass: Mass::kg(kg),
        mass_tolerance: Mass::kg(0.02 * kg),
        count,
        friction: 0.35,
        weighed: BTreeMap::new(),
        grade: None,
        strength: None,
        softness: None,
    }
}

/// Most items are weighed; their masses differ by a few in a hundred.
fn weigh(lot: &mut Lot, random: &mut Rng) {
    let nominal = kg(lot.mass);
    let weigh = |item: u32| (item, Mass::kg((nominal * (1.0 + 0.02 * (random.f64() - 0.5)) * 100.0).round() / 100.0));
    lot.weighed = (1..=lot.count).map(weigh).collect();
}

/// Makes a task impossible in one of six ways.
fn spoilt(plan: &mut Plan, way: u64) -> Grade {
    match way % 6 {
        0 => {
            plan.load_cases[0].occupant_mass = plan.load_cases[0].occupant_mass * 2.5;
            Grade::Impossible(Some(Check::AppliedLoad))
        }
        1 => {
            plan.bed.bearings.clear();
            Grade::Impossible(Some(Check::EveryPieceRests))
        }
        2 => {
            let side = [[0.0, 0.2], [4.0, 0.2], [4.0, 1.8], [0.0, 1.8]].map(at).to_vec();
            let region = KeepClear {
                name: "cabin".to_owned(),
                side,
                y: at([-1.0, 1.0]),
                y_known: [true; 2],
                clearance: Length::m(0.02),
            };
            plan.article.keep_clear.push(region);
            Grade::Impossible(Some(Check::KeepClear))
        }
        3 => {
            plan.fixture.supports[0].capacity = Some(Mass::kg(40.0));
            Grade::Impossible(Some(Check::Scales))
        }
        4 => {
            plan.target = Target::Point { at: at([2.3, 0.0, 0.8]), tolerance: at([0.015, 0.010]) };
            Grade::Impossible(Some(Check::EveryStepStands))
        }
        _ => {
            plan.bed.friction = 0.05;
            Grade::Impossible(Some(Check::CollapseReserve))
        }
    }
}
