//! Ballast as clubs have it: bags of sand and shot, plates, water cans, planks. Sizes and masses of the trade
//! (`common practice, no source`): dry sand at 1600 kg/m3, lead shot with its voids at 4700 kg/m3, steel at 7850 kg/m3,
//! spruce at 450 kg/m3.

use fastrand::Rng;
use plan::{Form, Lot, Softness, SoftnessFrom};
use quantity::{Length, Mass, Pressure, Quantity};
use std::collections::BTreeMap;

/// What is known of the bags.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Known {
    /// Modulus, MPa; none: nobody measured it.
    pub(crate) modulus_mpa: Option<f64>,
    /// Each piece was weighed.
    pub(crate) weighed: bool,
}

/// Heaps of one to four kinds, the kind of which there is most first; how many of it follows from the load.
pub(crate) fn heap(number: u64, known: Known, random: &mut Rng) -> Vec<Lot> {
    let mut lots = match number % 7 {
        0 => vec![sand(0)],
        1 => vec![shot(0)],
        2 => vec![sand(0), shot(12)],
        3 => vec![small(0), plates(6)],
        4 => vec![shot(0), plates(8)],
        5 => vec![cans(0), shot(10)],
        _ => vec![shot(0), sand(6), plates(4), cans(4)],
    };
    lots.iter_mut().for_each(|lot| know(lot, known, random));
    lots
}

fn sand(count: u32) -> Lot {
    lot("sand bag", Form::Bag, [0.45, 0.30, 0.11], (24.0, count))
}

fn small(count: u32) -> Lot {
    lot("small sand bag", Form::Bag, [0.36, 0.24, 0.09], (12.5, count))
}

fn shot(count: u32) -> Lot {
    lot("shot bag", Form::Bag, [0.27, 0.18, 0.055], (12.5, count))
}

fn plates(count: u32) -> Lot {
    lot("steel plate", Form::Solid, [0.38, 0.23, 0.025], (17.0, count))
}

fn cans(count: u32) -> Lot {
    lot("water can", Form::Solid, [0.30, 0.20, 0.33], (17.6, count))
}

/// Boards: planks of a length, and with them, in some hangars, what is too short or too weak.
pub(crate) fn boards(length_m: f64, span_m: f64, random: &mut Rng) -> Vec<Lot> {
    let wood = |name: &str, size: [f64; 3], count: u32, grade: &str| {
        let kg = (450.0 * size.iter().product::<f64>() * 10.0).round() / 10.0;
        Lot { grade: Some(grade.to_owned()), ..lot(name, Form::Board, size, (kg, count)) }
    };
    let width = [0.145, 0.195][random.usize(0..2)];
    let mut boards = vec![wood("plank", [length_m, width, 0.045], random.u32(4..=8), "C24")];
    match random.u32(0..4) {
        0 => boards.push(wood("short plank", [mm(span_m * 0.8), 0.145, 0.045], 6, "C24")),
        1 => boards.push(wood("lath", [length_m, 0.095, 0.018], 8, "C16")),
        2 => boards.push(wood("long plank", [mm(length_m + 0.25), 0.145, 0.045], 4, "C24")),
        _ => {}
    }
    boards
}

fn mm(m: f64) -> f64 {
    (m * 1e3).round() / 1e3
}

fn lot(name: &str, form: Form, size: [f64; 3], (kg, count): (f64, u32)) -> Lot {
    Lot {
        name: name.to_owned(),
        form,
        size: size.map(Length::m),
        mass: Mass::kg(kg),
        mass_tolerance: Mass::kg((2.0 * kg).round() / 100.0),
        count,
        friction: if form == Form::Solid { 0.4 } else { 0.45 },
        weighed: BTreeMap::new(),
        grade: None,
        strength: None,
        softness: None,
    }
}

fn know(lot: &mut Lot, known: Known, random: &mut Rng) {
    if let (Form::Bag, Some(mpa)) = (lot.form, known.modulus_mpa) {
        lot.softness = Some(Softness {
            modulus: Pressure::pa(mpa * 1e6),
            rim: Some(Length::m([0.012, 0.015][random.usize(0..2)])),
            shear_ratio: 0.3,
            creep_per_decade: 0.1,
            from: SoftnessFrom::Stated,
            source: String::new(),
            readings: Vec::new(),
            flat: None,
        });
    }
    if known.weighed {
        weigh(lot, random);
    }
}

/// Every piece weighed, to ten grams, within one in a hundred of its nominal mass.
pub(crate) fn weigh(lot: &mut Lot, random: &mut Rng) {
    let nominal = lot.mass.si();
    let one = |item: u32| (item, Mass::kg((nominal * (1.0 + 0.02 * (random.f64() - 0.5)) * 100.0).round() / 100.0));
    lot.weighed = (1..=lot.count).map(one).collect();
}
