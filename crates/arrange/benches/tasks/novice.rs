//! Seats drawn from their number alone, as a novice draws the seat at hand: the same number gives the same plan for ever.
//! They differ as seats differ, and the load is one that a patient novice could lay by hand: no more courses than fit
//! between knee and shoulder. Nobody has laid them: whether each has a stack is not known.

use crate::heap::{Known, boards, heap, weigh};
use fastrand::Rng;
use plan::{Bearing, Hold, KeepClear, Lot, Plan, StartingValues, Support, Target};
use quantity::{Angle, Force, Length, Mass, Quantity, Units};

/// Where the bed begins, m, article frame.
const ORIGIN: [f64; 3] = [1.95, 0.0, 0.45];
/// Of the room of a course so much is filled with bags.
const FILLED: f64 = 0.8;

/// What is drawn of a seat before its load.
struct Room {
    /// From middle to middle of the outer bearings, fore and aft, m.
    span_m: f64,
    half_breadth_m: f64,
    /// Middle of the seat from the centreline, m.
    side_m: f64,
    /// What is free fore and aft, bed frame, m.
    free_m: [f64; 2],
    /// What is free across, m.
    breadth_m: f64,
}

/// The seat of a number, with what it is like in a few words.
pub(crate) fn seat(number: u64) -> (String, Plan) {
    let random = &mut Rng::with_seed(0x5EA7 ^ number.wrapping_mul(0x9E37_79B9_7F4A_7C15));
    let modulus_mpa = [None, Some(0.4), Some(0.6), Some(1.0)][random.usize(0..4)];
    let mut lots = heap(number, Known { modulus_mpa, weighed: false }, random);
    let mut plan = Plan::blank(Units::Metric);
    let mut room = room(random, &lots[0]);
    if bed_word(number) == "floor with rails" {
        // What overhangs the rails much is no seat.
        (room.half_breadth_m, room.breadth_m) = (0.24, 0.53);
    }
    plan.bed.origin = at(ORIGIN);
    plan.bed.friction = 0.5;
    plan.article.mass = Mass::kg(f64::from(random.u32(12..20)) * 10.0);
    plan.article.centroid = at([2.2, 0.0, 0.6]);
    plan.article.pivot = at([2.2, 0.0, 0.0]);
    plan.article.keep_clear = in_the_way(number, &room, random);
    let words = format!("{}, {}", bed_word(number), lots[0].name);
    let due_kg = load(&room, &lots, highest_m(modulus_mpa), between(random, [380.0, 680.0]));
    let of_others: f64 = lots[1..].iter().map(|lot| lot.mass.si() * f64::from(lot.count)).sum();
    lots[0].count = count((due_kg * between(random, [1.03, 1.25]) - of_others) / lots[0].mass.si());
    if random.bool() {
        lots.iter_mut().for_each(|lot| weigh(lot, random));
    }
    let longest_m = (room.free_m[1] - room.free_m[0] - 0.01).min(room.span_m + 0.25);
    lots.extend(boards((longest_m * 100.0).floor() / 100.0, room.span_m, random));
    plan.ballast = lots;
    plan.bed.bearings = bearings(number, &room, due_kg);
    case(&mut plan, due_kg, random);
    let off = between(random, [-0.02, 0.02]);
    let station = ORIGIN[0] + room.span_m / 2.0 + off;
    plan.target = Target::Point { at: at([station, room.side_m, 0.75]), tolerance: at([0.015, 0.010]) };
    plan.fixture.supports = supports(number, &plan, due_kg);
    (words, plan)
}

/// The geometry: bearings as far apart as frames are, free room of 1.05 to 2 lengths of the heap's main piece, and no less
/// than the bearings need.
fn room(random: &mut Rng, main: &Lot) -> Room {
    let span_m = between(random, [0.34, 0.44]);
    let least_m = (span_m + 0.10).max(1.05 * main.size[0].si());
    let free_m = (between(random, [1.05, 2.0]) * main.size[0].si() + 0.01).clamp(least_m, 0.9);
    let middle_m = span_m / 2.0 + between(random, [-0.02, 0.02]);
    let half_breadth_m = between(random, [0.24, 0.36]);
    let side_m = if random.u32(0..3) == 0 { -0.36 } else { 0.0 };
    Room {
        span_m,
        half_breadth_m,
        side_m,
        free_m: [middle_m - free_m / 2.0, middle_m + free_m / 2.0],
        breadth_m: 2.0 * half_breadth_m + 0.05,
    }
}

/// What must stay clear: something behind and in front always, at the sides or beneath sometimes.
fn in_the_way(number: u64, room: &Room, random: &mut Rng) -> Vec<KeepClear> {
    let [front, back] = room.free_m.map(|m| ORIGIN[0] + m);
    let (clearance, low, high) = (0.025, ORIGIN[2] - 0.03, 1.3);
    let box_of = |name: &str, x: [f64; 2], z: [f64; 2], y: [f64; 2]| KeepClear {
        name: name.to_owned(),
        side: [[x[0], z[0]], [x[1], z[0]], [x[1], z[1]], [x[0], z[1]]].map(at).to_vec(),
        y: at(y),
        y_known: [true; 2],
        clearance: Length::m(clearance),
    };
    let wide = [room.side_m - 0.4, room.side_m + 0.4];
    let stick = [room.side_m - 0.04, room.side_m + 0.04];
    let behind = ["seat back", "spar carry-through"][random.usize(0..2)];
    let mut regions = vec![
        box_of(behind, [back + clearance, back + 0.09], [low, high], wide),
        box_of("control stick", [front - 0.06, front - clearance], [low, 0.95], stick),
    ];
    match number % 5 {
        1 => {
            let half = room.half_breadth_m + 0.03 + clearance;
            let sides = [("left console", -1.0), ("right console", 1.0)];
            regions.extend(sides.map(|(name, sign)| {
                let inner = room.side_m + sign * half;
                let outer = inner + sign * 0.06;
                box_of(name, [front, back], [low, 0.95], [inner.min(outer), inner.max(outer)])
            }));
        }
        3 => {
            let x = [ORIGIN[0] + 0.08, ORIGIN[0] + room.span_m - 0.08];
            let run = box_of("control run", x, [0.38, 0.42], [room.side_m - 0.1, room.side_m + 0.1]);
            regions.push(KeepClear { clearance: Length::m(0.008), ..run });
        }
        4 if room.side_m < 0.0 => regions.push(box_of("flap lever", [front, back], [0.3, 0.75], [0.02, 0.06])),
        _ => {}
    }
    regions
}

fn bed_word(number: u64) -> &'static str {
    ["two tubes", "three tubes", "two spars", "bucket flange", "floor with rails", "spar and weak former"]
        [usize::try_from(number % 6).unwrap_or(0)]
}

fn bearings(number: u64, room: &Room, due_kg: f64) -> Vec<Bearing> {
    let (span, half, side) = (room.span_m, room.half_breadth_m, room.side_m);
    let bearing = |name: &str, x: [f64; 2], y: [f64; 2], share: f64| Bearing {
        name: name.to_owned(),
        x: at(x.map(mm)),
        y: at(y.map(|y| mm(side + y))),
        top: Length::m(0.0),
        allowable: Some(Force::n((due_kg * 9.81 * share / 100.0).round() * 100.0)),
    };
    let across = |name: &str, middle: f64, width: f64, share: f64| {
        bearing(name, [middle - width / 2.0, middle + width / 2.0], [-half, half], share)
    };
    match number % 6 {
        0 => vec![across("front tube", 0.0, 0.04, 0.8), across("rear tube", span, 0.04, 0.8)],
        1 => vec![
            across("front tube", 0.0, 0.035, 0.55),
            across("middle tube", span / 2.0, 0.035, 0.7),
            across("rear tube", span, 0.035, 0.55),
        ],
        2 => vec![across("front spar", 0.0, 0.06, 0.9), across("rear spar", span, 0.06, 0.9)],
        3 => vec![
            across("front flange", 0.0, 0.03, 0.7),
            across("rear flange", span, 0.03, 0.7),
            bearing("left flange", [0.015, span - 0.015], [-half, 0.03 - half], 0.7),
            bearing("right flange", [0.015, span - 0.015], [half - 0.03, half], 0.7),
        ],
        4 => vec![
            bearing("left rail", [-0.05, span + 0.05], [-0.22, -0.18], 0.8),
            bearing("right rail", [-0.05, span + 0.05], [0.18, 0.22], 0.8),
        ],
        _ => vec![across("front spar", 0.0, 0.06, 0.9), across("rear former", span, 0.03, 0.6)],
    }
}

/// No higher than this do bags stand that give so much, m (`common practice, no source`).
fn highest_m(modulus_mpa: Option<f64>) -> f64 {
    modulus_mpa.map_or(0.4, |mpa| {
        if mpa < 0.5 {
            0.5
        } else if mpa < 0.9 {
            0.6
        } else {
            0.8
        }
    })
}

/// No more than the room takes of such a heap up to a height, kg.
fn load(room: &Room, lots: &[Lot], highest_m: f64, wanted_kg: f64) -> f64 {
    let volume_m3 = |lot: &Lot| lot.size.map(Quantity::si).iter().product::<f64>();
    let others = |of: &dyn Fn(&Lot) -> f64| lots[1..].iter().map(|lot| of(lot) * f64::from(lot.count)).sum::<f64>();
    let main_kg = (wanted_kg - others(&|lot| lot.mass.si())).max(0.0);
    let heap_m3 = others(&volume_m3) + main_kg / lots[0].mass.si() * volume_m3(&lots[0]);
    let room_m3 = FILLED * (room.free_m[1] - room.free_m[0]) * room.breadth_m * highest_m;
    wanted_kg * (room_m3 / heap_m3).min(1.0)
}

/// One load, pitched in some seats, with the limit load taken off again in some.
fn case(plan: &mut Plan, due_kg: f64, random: &mut Rng) {
    let tilt = if random.u32(0..5) == 0 { Angle::rad(between(random, [0.02, 0.04])) } else { Angle::rad(0.0) };
    let load = &mut plan.load_cases[0];
    load.starting = StartingValues::default();
    (load.safety_factor, load.load_factor) = (1.5, if due_kg < 400.0 { 3.0 } else { 3.8 });
    load.occupant_mass = Mass::kg(due_kg / load.load_factor / 1.5);
    load.direction = Angle::rad(-tilt.si());
    plan.article.pitch = tilt;
    plan.holds =
        [("half limit", 1.0 / 3.0), ("limit", 2.0 / 3.0), ("ultimate", 1.0)].map(|(n, f)| Hold::at(n, f)).to_vec();
    plan.holds[1].unload = random.bool();
}

fn supports(number: u64, plan: &Plan, due_kg: f64) -> Vec<Support> {
    let capacity = Some(Mass::kg(((due_kg + plan.article.mass.si()) * 0.8).round()));
    let support = |name: &str, x: f64, y: f64| Support {
        name: name.to_owned(),
        at: at([x, y, 0.0]),
        capacity,
        scale: true,
        stiffness: None,
        division: None,
    };
    if number % 8 == 2 {
        let rear = support("rear scale", 2.9, 0.0);
        return vec![support("left front scale", 1.6, -0.5), support("right front scale", 1.6, 0.5), rear];
    }
    vec![
        support("left front scale", 1.2, -0.8),
        support("right front scale", 1.2, 0.8),
        support("left rear scale", 3.2, -0.8),
        support("right rear scale", 3.2, 0.8),
    ]
}

fn at<const N: usize>(m: [f64; N]) -> [Length; N] {
    m.map(Length::m)
}

/// A number within bounds, to a millimetre.
fn between(random: &mut Rng, [from, to]: [f64; 2]) -> f64 {
    mm(from + (to - from) * random.f64())
}

fn mm(m: f64) -> f64 {
    (m * 1e3).round() / 1e3
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few dozen pieces")]
fn count(pieces: f64) -> u32 {
    pieces.ceil().max(4.0) as u32
}
