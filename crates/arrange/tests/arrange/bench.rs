//! A small task of our own, quick enough to be laid out in every test.

use plan::{Bearing, Form, KeepClear, Lot, Place, Plan, Support, Target, Turn};
use quantity::{Force, Length, Mass, Units};
use std::collections::BTreeMap;

pub(crate) fn at<const N: usize>(m: [f64; N]) -> [Length; N] {
    m.map(Length::m)
}

pub(crate) fn bags(count: u32, kg: f64) -> Lot {
    Lot { mass: Mass::kg(kg), count, ..lot("sand bag", Form::Bag, [0.40, 0.25, 0.10]) }
}

pub(crate) fn boards(count: u32) -> Lot {
    Lot {
        mass: Mass::kg(2.5),
        count,
        friction: 0.4,
        grade: Some("C24".to_owned()),
        strength: None,
        softness: None,
        ..lot("plank", Form::Board, [0.70, 0.18, 0.045])
    }
}

pub(crate) fn lot(name: &str, form: Form, size: [f64; 3]) -> Lot {
    Lot {
        name: name.to_owned(),
        form,
        size: at(size),
        mass: Mass::kg(10.0),
        mass_tolerance: Mass::kg(0.1),
        count: 1,
        friction: 0.35,
        weighed: BTreeMap::new(),
        grade: None,
        strength: None,
        softness: None,
    }
}

/// Two tubes under the seat, four supports, nothing in the way; so many kilograms due at ultimate.
pub(crate) fn task(due_kg: f64, ballast: Vec<Lot>) -> Plan {
    let mut plan = Plan::blank(Units::Metric);
    let case = &mut plan.load_cases[0];
    case.starting = plan::StartingValues::default();
    (case.occupant_mass, case.load_factor, case.safety_factor) = (Mass::kg(due_kg / 6.0), 4.0, 1.5);
    plan.article.mass = Mass::kg(60.0);
    plan.article.centroid = at([1.6, 0.0, 0.5]);
    plan.target = Target::Point { at: at([1.43, 0.0, 0.8]), tolerance: at([0.015, 0.010]) };
    let support = |name: &str, x: f64, y: f64| Support {
        name: name.to_owned(),
        at: at([x, y, 0.0]),
        capacity: Some(Mass::kg(400.0)),
        scale: true,
        stiffness: None,
        division: None,
    };
    plan.fixture.supports = vec![
        support("left front scale", 0.9, -0.6),
        support("right front scale", 0.9, 0.6),
        support("left rear scale", 2.3, -0.6),
        support("right rear scale", 2.3, 0.6),
    ];
    plan.bed.origin = at([1.2, 0.0, 0.5]);
    plan.bed.bearings = vec![tube("front tube", 0.0), tube("rear tube", 0.42)];
    plan.ballast = ballast;
    plan
}

pub(crate) fn tube(name: &str, x: f64) -> Bearing {
    Bearing {
        name: name.to_owned(),
        x: at([x, x + 0.04]),
        y: at([-0.35, 0.35]),
        top: Length::m(0.0),
        allowable: Some(Force::n(4000.0)),
    }
}

pub(crate) fn place(lot: &str, item: u32, xy: [f64; 2], turn: Turn) -> Place {
    Place { lot: lot.to_owned(), item, at: at(xy), turn, locked: false }
}
/// A keep-clear block, side view by its two corners.
pub(crate) fn block(name: &str, [x0, x1]: [f64; 2], [z0, z1]: [f64; 2]) -> KeepClear {
    KeepClear {
        name: name.to_owned(),
        side: vec![at([x0, z0]), at([x1, z0]), at([x1, z1]), at([x0, z1])],
        y: at([-0.6, 0.6]),
        y_known: [true; 2],
        clearance: Length::m(0.02),
    }
}
