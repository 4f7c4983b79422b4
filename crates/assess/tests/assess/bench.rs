//! A small invented test: three bags of 25 kg on two bearings, 75 kg ultimate, on three scales;
//! and its changes, all through the one door. Every check holds on it as it stands.

use plan::edit::{Adding, Part};
use plan::{
    Article, Bearing, Bed, Edit, Fixture, Form, HoldDown, KeepClear, Lot, Place, Plan, Softness, SoftnessFrom, Support,
    Target, Turn,
};
use quantity::{Angle, Force, Length, Mass, Pressure, Stiffness, Units};

pub(crate) fn m(value: f64) -> Length {
    Length::m(value)
}

pub(crate) fn at<const N: usize>(values: [f64; N]) -> [Length; N] {
    values.map(Length::m)
}

pub(crate) fn degrees(value: f64) -> Angle {
    Angle::rad(value.to_radians())
}

pub(crate) fn bearing(name: &str, x: [f64; 2], y: [f64; 2]) -> Bearing {
    Bearing { name: name.to_owned(), x: at(x), y: at(y), top: m(0.0), allowable: Some(Force::n(1000.0)) }
}

pub(crate) fn scale(name: &str, place: [f64; 3]) -> Support {
    Support {
        name: name.to_owned(),
        at: at(place),
        capacity: Some(Mass::kg(300.0)),
        scale: true,
        stiffness: None,
        division: None,
    }
}

/// A hold-down strap, upright, at a station.
pub(crate) fn hold_down(x_m: f64, preload_n: f64) -> HoldDown {
    HoldDown {
        name: "hold-down".to_owned(),
        on_article: at([x_m, 0.0, 0.45]),
        on_floor: at([x_m, 0.0, 0.0]),
        preload: Force::n(preload_n),
        preload_set: plan::PreloadSet::Before,
        working_load: Force::n(2500.0),
        stiffness: Stiffness::n_per_m(8e4),
    }
}

/// A lot of which every item was weighed and found as nominal.
pub(crate) fn lot(name: &str, form: Form, size: [f64; 3], mass_kg: f64) -> Lot {
    let count = 8;
    Lot {
        name: name.to_owned(),
        form,
        size: at(size),
        mass: Mass::kg(mass_kg),
        mass_tolerance: Mass::kg(0.5),
        count,
        friction: 0.5,
        weighed: (1..=count).map(|item| (item, Mass::kg(mass_kg))).collect(),
        grade: None,
        strength: None,
        softness: None,
    }
}

pub(crate) fn bag() -> Lot {
    Lot { softness: Some(hard()), ..lot("sand bag", Form::Bag, [0.50, 0.33, 0.11], 25.0) }
}

/// The same plan with its bags as solid pieces.
pub(crate) fn rigid(plan: &Plan) -> Plan {
    with_ballast(plan, |lots| {
        for lot in lots.iter_mut().filter(|lot| lot.form == Form::Bag) {
            (lot.form, lot.softness) = (Form::Solid, None);
        }
    })
}

/// As hard as a bag may be, and flat to its edge: what bags do that give is asked in `soft`.
pub(crate) fn hard() -> Softness {
    soft(10e6, 0.0)
}

/// Bags of a modulus (Pa) and a rim (m), measured.
pub(crate) fn soft(modulus_pa: f64, rim_m: f64) -> Softness {
    Softness {
        modulus: Pressure::pa(modulus_pa),
        rim: Some(m(rim_m)),
        shear_ratio: Softness::SHEAR_RATIO,
        creep_per_decade: Softness::CREEP_PER_DECADE,
        from: SoftnessFrom::Measured,
        source: String::new(),
        readings: Vec::new(),
        flat: None,
    }
}

pub(crate) fn place(lot: &str, item: u32, place: [f64; 2]) -> Place {
    Place { lot: lot.to_owned(), item, at: at(place), turn: Turn::Lengthwise, locked: false }
}

/// Bags 1 to 3 on one another over the bearings' middle, article station 1.2 m.
pub(crate) fn bench() -> Plan {
    let mut plan = Plan::blank(Units::Metric);
    plan.title = "three bags on two bearings".to_owned();
    let case = &mut plan.load_cases[0];
    case.starting = plan::StartingValues::default();
    (case.occupant_mass, case.load_factor, case.safety_factor) = (Mass::kg(12.5), 4.0, 1.5);
    plan.article = Article {
        name: "open frame".to_owned(),
        mass: Mass::kg(60.0),
        centroid: at([1.2, 0.0, 0.5]),
        keep_clear: vec![stick(0.75)],
        ..plan.article
    };
    plan.target = Target::Point { at: at([1.2, 0.0, 0.8]), tolerance: at([0.015, 0.010]) };
    plan.fixture.supports = vec![
        scale("left front scale", [0.6, -0.6, 0.0]),
        scale("right front scale", [0.6, 0.6, 0.0]),
        scale("rear scale", [2.0, 0.0, 0.0]),
    ];
    plan.bed = Bed {
        origin: at([1.0, 0.0, 0.5]),
        bearings: vec![
            bearing("front rail", [0.0, 0.05], [-0.25, 0.25]),
            bearing("rear rail", [0.35, 0.40], [-0.25, 0.25]),
        ],
        ..plan.bed
    };
    plan.ballast = vec![bag()];
    plan.stack = (1..=3).map(|item| place("sand bag", item, [0.2, 0.0])).collect();
    assert_eq!(plan::faults(&plan), [], "the bench is a plan without faults");
    plan
}

/// A control stick whose rear face stands at this station.
pub(crate) fn stick(rear_m: f64) -> KeepClear {
    let side = [[rear_m - 0.05, 0.5], [rear_m, 0.5], [rear_m, 1.0], [rear_m - 0.05, 1.0]];
    KeepClear {
        name: "stick".to_owned(),
        side: side.map(at).to_vec(),
        y: at([-0.05, 0.05]),
        y_known: [true; 2],
        clearance: m(0.025),
    }
}

/// The plan after an edit that it takes.
pub(crate) fn after(plan: &Plan, edit: &Edit) -> Plan {
    edit.apply(plan).unwrap_or_else(|fault| panic!("{edit:?} is refused: {fault}"))
}

fn set(plan: &Plan, part: Part) -> Plan {
    after(plan, &Edit::set(part, "bench"))
}

pub(crate) fn with_article(plan: &Plan, change: impl FnOnce(&mut Article)) -> Plan {
    let mut article = plan.article.clone();
    change(&mut article);
    set(plan, Part::Article(article))
}

pub(crate) fn with_fixture(plan: &Plan, change: impl FnOnce(&mut Fixture)) -> Plan {
    let mut fixture = plan.fixture.clone();
    change(&mut fixture);
    set(plan, Part::Fixture(fixture))
}

pub(crate) fn with_bed(plan: &Plan, change: impl FnOnce(&mut Bed)) -> Plan {
    let mut bed = plan.bed.clone();
    change(&mut bed);
    set(plan, Part::Bed(bed))
}

/// With another list of lots.
pub(crate) fn with_ballast(plan: &Plan, change: impl FnOnce(&mut Vec<Lot>)) -> Plan {
    let mut ballast = plan.ballast.clone();
    change(&mut ballast);
    set(plan, Part::Ballast(ballast))
}

pub(crate) fn with_case(plan: &Plan, change: impl FnOnce(&mut plan::LoadCase)) -> Plan {
    let mut cases = plan.load_cases.clone();
    change(&mut cases[0]);
    set(plan, Part::LoadCases(cases))
}

/// What is asked of the stack and of the fixture.
pub(crate) fn asking(plan: &Plan, collapse: f64, fixture_push: f64) -> Plan {
    set(plan, Part::Allow(plan::Allow { collapse, fixture_push, ..plan.allow.clone() }))
}

pub(crate) fn moved(plan: &Plan, steps: &[usize], by: [f64; 2]) -> Plan {
    after(plan, &Edit::Move { steps: steps.to_vec(), by: at(by) })
}

pub(crate) fn put(plan: &Plan, step: usize, place: [f64; 2]) -> Plan {
    after(plan, &Edit::PutAt { step, at: at(place) })
}

pub(crate) fn without(plan: &Plan, steps: &[usize]) -> Plan {
    after(plan, &Edit::Remove { steps: steps.to_vec() })
}

pub(crate) fn added(plan: &Plan, places: Vec<Place>) -> Plan {
    after(plan, &Edit::Add { adding: Adding::Placing, at_step: plan.steps(), places })
}

/// All pieces, by their steps.
pub(crate) fn all(plan: &Plan) -> Vec<usize> {
    (0..plan.steps()).collect()
}
