//! The steps from an empty plan to a printed sheet tick themselves from the plan.

use plan::start::{SIZES, Shape};
use plan::{Beside, Edit, Form, GuideStep, Lot, NotEntered, Place, Plan, Target, Turn, edit::Part};
use quantity::{Length, Mass, Units};
use std::collections::BTreeMap;

fn next(plan: &Plan, [in_order, printed]: [bool; 2]) -> Option<GuideStep> {
    GuideStep::next(plan, Beside { in_order, printed })
}

fn set(plan: &Plan, part: Part) -> Plan {
    Edit::set(part, "it").apply(plan).unwrap_or_else(|fault| panic!("{fault}"))
}

fn bag(kg: f64, count: u32) -> Lot {
    Lot {
        name: "bag".to_owned(),
        form: Form::Bag,
        size: [0.5, 0.3, 0.1].map(Length::m),
        mass: Mass::kg(kg),
        mass_tolerance: Mass::kg(0.5),
        count,
        friction: 0.5,
        weighed: BTreeMap::new(),
        grade: None,
        strength: None,
        softness: None,
    }
}

fn with_case(plan: &Plan, mass_kg: f64, factor: f64) -> Plan {
    let mut cases = plan.load_cases.clone();
    (cases[0].occupant_mass, cases[0].load_factor) = (Mass::kg(mass_kg), factor);
    cases[0].basis = "the rule".to_owned();
    set(plan, Part::LoadCases(cases))
}

/// 80 kg times 4 times 1.5 are 480 kg.
#[test]
fn an_empty_plan_is_led_from_who_sits_there_to_the_printed_sheet() {
    let empty = Plan::blank(Units::Metric);
    assert_eq!(next(&empty, [true, true]), Some(GuideStep::Occupant), "an empty plan is never in order nor printed");
    let plan = with_case(&empty, 80.0, 4.0);
    assert_eq!(next(&plan, [false, false]), Some(GuideStep::Point));
    let at = [0.2, 0.0, 0.6].map(Length::m);
    let plan = set(&plan, Part::Target(Target::Point { at, tolerance: [Length::m(0.015); 2] }));
    assert_eq!(next(&plan, [false, false]), Some(GuideStep::Seat));
    let shape = Shape::Spars.picture(Units::Metric, [None; SIZES]).expect("sizes that fit");
    let plan = set(&set(&plan, Part::Fixture(shape.fixture.clone())), Part::Bed(shape.bed.clone()));
    assert_eq!(next(&plan, [false, false]), Some(GuideStep::Article), "nobody entered its mass");
    let mut article = shape.article.clone();
    article.mass = Mass::kg(60.0);
    let plan = set(&plan, Part::Article(article.clone()));
    assert_eq!(next(&plan, [false, false]), Some(GuideStep::Article), "nor where its centroid lies");
    article.centroid[2] = Length::m(0.3);
    let plan = set(&plan, Part::Article(article));
    assert_eq!(next(&plan, [false, false]), Some(GuideStep::Ballast));
    let short = set(&plan, Part::Ballast(vec![bag(24.0, 19)]));
    assert_eq!(next(&short, [false, false]), Some(GuideStep::Ballast), "456 kg of 480 kg");
    let plan = set(&plan, Part::Ballast(vec![bag(24.0, 20)]));
    assert_eq!(next(&plan, [false, false]), Some(GuideStep::Stack));
    let place =
        |item| Place { lot: "bag".to_owned(), item, at: [Length::m(0.2); 2], turn: Turn::Lengthwise, locked: false };
    let mut stacked = plan.clone();
    stacked.stack = (1..20).map(place).collect();
    assert_eq!(next(&stacked, [true, false]), Some(GuideStep::Stack), "456 kg of 480 kg lie there");
    stacked.stack = (1..=20).map(place).collect();
    assert_eq!(next(&stacked, [false, true]), Some(GuideStep::Mend), "in order comes before printed");
    assert_eq!(next(&stacked, [true, false]), Some(GuideStep::Print));
    assert_eq!(next(&stacked, [true, true]), None);
}

/// A mass that was weighed counts as weighed.
#[test]
fn ballast_counts_as_it_was_weighed() {
    let plan = with_case(&Plan::blank(Units::Metric), 80.0, 4.0);
    let mut lot = bag(24.0, 20);
    let enough = |lot: &Lot| {
        let plan = set(&plan, Part::Ballast(vec![lot.clone()]));
        GuideStep::Ballast.is_done(&plan, Beside::default())
    };
    assert!(enough(&lot));
    lot.weighed.insert(7, Mass::kg(23.5));
    assert!(!enough(&lot), "479.5 kg of 480 kg");
}

/// What a first-time user does not think of, by the shapes: none of them has a keep-clear region, a catch block, a strap
/// or the capacity of a scale, and the pan alone slopes.
#[test]
fn after_a_shape_what_nobody_entered_is_named_and_no_step_waits_for_it() {
    assert_eq!(NotEntered::all(&Plan::blank(Units::Metric)), [], "an empty plan is led to its seat first");
    let rest =
        [NotEntered::KeepClear, NotEntered::CatchBlocks, NotEntered::Straps, NotEntered::Capacity { support: 0 }];
    for shape in Shape::ALL {
        let plan = shape.picture(Units::Metric, [None; SIZES]).expect("sizes that fit");
        let got = NotEntered::all(&plan);
        let want = if shape == Shape::Cradle { rest.to_vec() } else { [&[NotEntered::Slope], &rest[..]].concat() };
        assert_eq!(got, want, "{shape:?}");
        assert!(GuideStep::Seat.is_done(&plan, Beside::default()), "{shape:?} is led on all the same");
    }
}

#[test]
fn what_is_entered_is_named_no_longer() {
    let mut plan = Shape::Spars.picture(Units::Metric, [None; SIZES]).expect("sizes that fit");
    let mut fixture = plan.fixture.clone();
    fixture.supports[0].capacity = Some(Mass::kg(300.0));
    plan = set(&plan, Part::Fixture(fixture.clone()));
    assert!(NotEntered::all(&plan).contains(&NotEntered::Capacity { support: 1 }), "the first that is still without");
    fixture.supports.iter_mut().for_each(|support| support.capacity = Some(Mass::kg(300.0)));
    plan = set(&plan, Part::Fixture(fixture));
    let mut bed = plan.bed.clone();
    bed.slope = quantity::Angle::rad(0.02);
    plan = set(&plan, Part::Bed(bed));
    assert_eq!(NotEntered::all(&plan), [NotEntered::KeepClear, NotEntered::CatchBlocks, NotEntered::Straps]);
}
