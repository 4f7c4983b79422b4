//! What makes a plan unusable, each with its path and a sentence of its own.

use crate::{TYPED, WRITTEN};
use plan::file::read;
use plan::{Plan, faults};
use quantity::{Angle, Force, Length, Mass, Stiffness};

type Row = (fn(&mut Plan), &'static str, &'static str);

fn assert_faults(text: &str, rows: &[Row]) {
    let sound = read(text).unwrap_or_else(|error| panic!("{error}"));
    for (spoil, path, sentence) in rows {
        let mut plan = sound.clone();
        spoil(&mut plan);
        let found = faults(&plan);
        let want = (*path, *sentence);
        let told: Vec<_> = found.iter().map(|fault| (fault.path.to_string(), fault.sentence.clone())).collect();
        assert!(told.iter().any(|(p, s)| (p.as_str(), s.as_str()) == want), "want {want:?}\ngot {told:#?}");
    }
}

#[test]
fn sound_plans_have_no_faults() {
    for text in [WRITTEN, TYPED] {
        assert_eq!(faults(&read(text).unwrap_or_else(|error| panic!("{error}"))), []);
    }
}

#[test]
fn load_cases_that_make_no_sense_are_faults() {
    assert_faults(
        WRITTEN,
        &[
            (|p| p.load_cases[0].name.clear(), "load_cases[1].name", "load case 1 has no name: give it one"),
            (
                |p| p.load_cases[1].name = p.load_cases[0].name.clone(),
                "load_cases[2].name",
                "load case 2 is called “up, symmetric” like load case 1: give one of them another name",
            ),
            (
                |p| p.load_cases[0].occupant_mass = Mass::kg(0.0),
                "load_cases[1].occupant_mass",
                "the occupant mass of load case “up, symmetric” is 0 kg: it must be more than 0",
            ),
            (
                |p| p.load_cases[0].load_factor = -4.4,
                "load_cases[1].load_factor",
                "the load factor of load case “up, symmetric” is -4.4: it must be more than 0",
            ),
            (
                |p| p.load_cases[0].safety_factor = f64::NAN,
                "load_cases[1].safety_factor",
                "the safety factor of load case “up, symmetric” is not a finite number: type a number",
            ),
            (
                |p| p.load_cases[0].special_factor = f64::INFINITY,
                "load_cases[1].special_factor",
                "the special factor of load case “up, symmetric” is not a finite number: type a number",
            ),
            (
                |p| p.load_cases[0].direction = Angle::rad(70_f64.to_radians()),
                "load_cases[1].direction",
                "the direction of load case “up, symmetric” is 70 deg: it must lie between -60 and 60 deg",
            ),
            (|p| p.case = "up".into(), "case", "no load case is called “up”: “up, symmetric” or “up, leaning” fits"),
            (
                |p| p.load_cases.clear(),
                "case",
                "no load case is called “up, symmetric”, because there is none: add one to load_cases",
            ),
        ],
    );
}

#[test]
fn an_article_that_makes_no_sense_is_a_fault() {
    assert_faults(
        WRITTEN,
        &[
            (
                |p| p.article.mass = Mass::kg(-1.0),
                "article.mass",
                "the mass of the article is -1 kg: it must be 0 or more",
            ),
            (
                |p| p.article.centroid[2] = Length::m(f64::NAN),
                "article.centroid[3]",
                "number 3 in the centroid of the article is not a finite number: type a number",
            ),
            (
                |p| p.article.pivot[0] = Length::m(1e16),
                "article.pivot[1]",
                "number 1 in the pivot of the article is 1.0e16 m, far more than is possible: check the number and \
                 its unit",
            ),
            (
                |p| p.article.pitch = Angle::rad(-2.0),
                "article.pitch",
                "the pitch of the article is -114.591559026 deg: it must lie between -60 and 60 deg",
            ),
            (
                |p| p.article.outline[0].points.truncate(1),
                "article.outline[1].points",
                "line “seat pan” has 1 point: a line needs at least 2",
            ),
            (
                |p| p.article.keep_clear[0].side.truncate(2),
                "article.keep_clear[1].side",
                "keep-clear region “rudder rod” has 2 corners: a region needs at least 3",
            ),
            (
                |p| p.article.keep_clear[0].y.reverse(),
                "article.keep_clear[1].y",
                "keep-clear region “rudder rod” reaches from y 0.05 m to -0.05 m: put the lower one first",
            ),
            (
                |p| p.article.keep_clear[0].clearance = Length::m(-0.01),
                "article.keep_clear[1].clearance",
                "the clearance of keep-clear region “rudder rod” is -10 mm: it must be 0 or more",
            ),
            (
                |p| p.target = p.target.clone().with_tolerance([Length::m(0.01), Length::m(0.0)]),
                "target.tolerance[2]",
                "the lateral tolerance of the target is 0 mm: it must be more than 0",
            ),
        ],
    );
}

#[test]
fn a_fixture_that_makes_no_sense_is_a_fault() {
    assert_faults(
        WRITTEN,
        &[
            (
                |p| p.fixture.supports[1].name = " ".into(),
                "fixture.supports[2].name",
                "support 2 has no name: give it one",
            ),
            (
                |p| p.fixture.supports[0].capacity = Some(Mass::kg(0.0)),
                "fixture.supports[1].capacity",
                "the capacity of support “front scale” is 0 kg: it must be more than 0",
            ),
            (
                |p| p.fixture.supports[0].stiffness = Some(Stiffness::n_per_m(-1.0)),
                "fixture.supports[1].stiffness",
                "the stiffness of support “front scale” is -0.001 N/mm: it must be more than 0",
            ),
            (
                |p| p.fixture.hold_downs[0].working_load = Force::n(0.0),
                "fixture.hold_downs[1].working_load",
                "the working load of hold-down strap “left runner tie” is 0 N: it must be more than 0",
            ),
            (
                |p| p.fixture.hold_downs[0].preload = Force::n(-5.0),
                "fixture.hold_downs[1].preload",
                "the preload of hold-down strap “left runner tie” is -5 N: it must be 0 or more",
            ),
            (
                |p| p.fixture.bindings[0].pull = Force::n(-5.0),
                "fixture.bindings[1].pull",
                "the pull of binding strap “over the stack” is -5 N: it must be 0 or more",
            ),
            (
                |p| p.fixture.floor_friction = -0.1,
                "fixture.floor_friction",
                "the friction of the floor is -0.1: it must be 0 or more",
            ),
        ],
    );
}

#[test]
fn a_bed_that_makes_no_sense_is_a_fault() {
    assert_faults(
        WRITTEN,
        &[
            (
                |p| p.bed.slope = Angle::rad(1.5),
                "bed.slope",
                "the slope of the bed is 85.9436692696 deg: it must lie between -60 and 60 deg",
            ),
            (|p| p.bed.friction = -1.0, "bed.friction", "the friction of the bed is -1: it must be 0 or more"),
            (
                |p| p.bed.touch = Length::m(-0.006),
                "bed.touch",
                "the touch distance of the bed is -6 mm: it must be 0 or more",
            ),
            (
                |p| p.bed.beside = Length::m(-0.005),
                "bed.beside",
                "the beside distance of the bed is -5 mm: it must be 0 or more",
            ),
            (
                |p| p.bed.bearings[1].x = [Length::m(0.42); 2],
                "bed.bearings[2].x",
                "bearing “rear rib” reaches from x 0.42 m to 0.42 m: the first must be less than the second",
            ),
            (
                |p| p.bed.bearings[0].y.reverse(),
                "bed.bearings[1].y",
                "bearing “front rib” reaches from y 0.22 m to -0.22 m: the first must be less than the second",
            ),
            (
                |p| p.bed.bearings[0].allowable = Some(Force::n(0.0)),
                "bed.bearings[1].allowable",
                "the allowable load of bearing “front rib” is 0 N: it must be more than 0",
            ),
        ],
    );
}

#[test]
fn lots_that_make_no_sense_are_faults() {
    assert_faults(
        WRITTEN,
        &[
            (
                |p| p.ballast[1].name = "gravel bag".into(),
                "ballast[2].name",
                "lot 2 is called “gravel bag” like lot 1: give one of them another name",
            ),
            (
                |p| {
                    let pa = quantity::Pressure::pa;
                    p.ballast[1].strength = Some(plan::Strength { bending: pa(8e6), shear: pa(0.0), modulus: pa(9e9) });
                },
                "ballast[2].strength.shear",
                "the allowable shear stress of lot “plank” is 0 MPa: it must be more than 0",
            ),
            (
                |p| p.ballast[1].size[2] = Length::m(-0.05),
                "ballast[2].size[3]",
                "the thickness of lot “plank” is -0.05 m: it must be more than 0",
            ),
            (
                |p| p.ballast[1].mass = Mass::kg(-4.1),
                "ballast[2].mass",
                "the mass of lot “plank” is -4.1 kg: it must be 0 or more",
            ),
            (
                |p| p.ballast[1].mass_tolerance = Mass::kg(-0.1),
                "ballast[2].mass_tolerance",
                "the mass tolerance of lot “plank” is -0.1 kg: it must be 0 or more",
            ),
            (
                |p| p.ballast[2].count = 0,
                "ballast[3].count",
                "lot “steel plate” is empty: its count must be 1 or more, or delete it",
            ),
            (
                |p| p.ballast[0].friction = -0.5,
                "ballast[1].friction",
                "the friction of lot “gravel bag” is -0.5: it must be 0 or more",
            ),
            (
                |p| p.ballast[0].weighed.extend([(31, Mass::kg(25.0))]),
                "ballast[1].weighed{31}",
                "lot “gravel bag” has no item 31 to be weighed: its items are numbered from 1 to 30",
            ),
            (
                |p| p.ballast[2].weighed.extend([(0, Mass::kg(25.0))]),
                "ballast[3].weighed{0}",
                "lot “steel plate” has no item 0 to be weighed: it has item 1 alone",
            ),
            (
                |p| p.ballast[0].weighed.extend([(3, Mass::kg(-25.0))]),
                "ballast[1].weighed{3}",
                "the weighed mass of item 3 of lot “gravel bag” is -25 kg: it must be 0 or more",
            ),
        ],
    );
}

#[test]
fn placements_that_make_no_sense_are_faults() {
    assert_faults(
        WRITTEN,
        &[
            (
                |p| p.stack[2].lot = "shot bag".into(),
                "stack[3].lot",
                "step 3 places a piece of lot “shot bag”, which does not exist: “gravel bag”, “plank” or “steel plate” fits",
            ),
            (
                |p| p.ballast.clear(),
                "stack[1].lot",
                "step 1 places a piece of lot “plank”, which does not exist: there is none, so add one to ballast",
            ),
            (
                |p| p.stack[1].item = 9,
                "stack[2].item",
                "step 2 places item 9 of lot “plank”, which has no such item: its items are numbered from 1 to 8",
            ),
            (
                |p| p.stack[1].item = 1,
                "stack[2].item",
                "plank 1 is placed twice, at steps 1 and 2: take another item, or remove one placement",
            ),
            (
                |p| p.stack[0].at[1] = Length::m(f64::INFINITY),
                "stack[1].at[2]",
                "number 2 in the place of step 1 is not a finite number: type a number",
            ),
        ],
    );
}

#[test]
fn gauges_holds_and_allowances_that_make_no_sense_are_faults() {
    assert_faults(
        WRITTEN,
        &[
            (|p| p.gauges[0].name.clear(), "gauges[1].name", "gauge 1 has no name: give it one"),
            (
                |p| p.gauges[0].allowed_set = Length::m(-0.0005),
                "gauges[1].allowed_set",
                "the allowed set of gauge “pan centre” is -0.5 mm: it must be 0 or more",
            ),
            (
                |p| p.holds[2].at = 1.1,
                "holds[3].at",
                "the fraction of ultimate of hold “ultimate” is 1.1: it must be more than 0 and at most 1",
            ),
            (
                |p| p.holds[0].at = 0.0,
                "holds[1].at",
                "the fraction of ultimate of hold “half limit” is 0: it must be more than 0 and at most 1",
            ),
            (
                |p| p.holds[1].at = 0.2,
                "holds[2].at",
                "hold “limit” is at 0.2 and comes after 0.333 in the same run: put it before that one, or unload after that one",
            ),
            (
                |p| p.holds[1].name = "ultimate".into(),
                "holds[3].name",
                "hold 3 is called “ultimate” like hold 2: give one of them another name",
            ),
            (
                |p| p.allow.collapse = -0.1,
                "allow.collapse",
                "the reserve required of the stack is -0.1: it must be 0 or more",
            ),
            (
                |p| p.allow.fixture_push = -0.1,
                "allow.fixture_push",
                "the reserve required of the fixture is -0.1: it must be 0 or more",
            ),
            (
                |p| p.holds[0].tolerance = Some([Length::m(0.03), Length::m(0.0)]),
                "holds[1].tolerance[2]",
                "number 2 in the tolerance of hold “half limit” is 0 mm: it must be more than 0",
            ),
            (
                |p| p.allow.chance = 1.2,
                "allow.chance",
                "the allowed chance to miss is 1.2: it must lie between 0 and 1",
            ),
            (
                |p| p.allow.placement_scatter = Length::m(-0.01),
                "allow.placement_scatter",
                "the placement scatter is -10 mm: it must be 0 or more",
            ),
        ],
    );
}

#[test]
fn a_way_of_lifting_that_makes_no_sense_is_a_fault() {
    assert_faults(
        WRITTEN,
        &[
            (
                |p| p.allow.handling.reach = Length::m(-0.3),
                "allow.handling.reach",
                "the reach of lifting is -0.3 m: it must be 0 or more",
            ),
            (
                |p| p.allow.handling.pick_up = Length::m(f64::NAN),
                "allow.handling.pick_up",
                "the pick-up height of lifting is not a finite number: type a number",
            ),
            (
                |p| p.allow.handling.twist = Angle::rad(181_f64.to_radians()),
                "allow.handling.twist",
                "the twist of lifting is 181 deg: it must lie between 0 and 180 deg",
            ),
            (
                |p| p.allow.handling.twist = Angle::rad(-0.1),
                "allow.handling.twist",
                "the twist of lifting is -5.72957795131 deg: it must lie between 0 and 180 deg",
            ),
            (
                |p| p.allow.handling.lifts_per_minute = -1.0,
                "allow.handling.lifts_per_minute",
                "the lifts per minute of lifting is -1: it must be 0 or more",
            ),
            (
                |p| p.allow.handling.people = 3,
                "allow.handling.people",
                "3 people lift a piece together: 1 or 2 would fit",
            ),
        ],
    );
}

#[test]
fn faults_are_told_in_the_plans_units() {
    assert_faults(
        TYPED,
        &[
            (
                |p| p.ballast[0].mass = Mass::kg(-0.453_592_37),
                "ballast[1].mass",
                "the mass of lot “shot bag” is -1 lb: it must be 0 or more",
            ),
            (
                |p| p.bed.bearings[0].allowable = Some(Force::n(-4.448_221_615_260_5)),
                "bed.bearings[1].allowable",
                "the allowable load of bearing “panel” is -1 lbf: it must be more than 0",
            ),
            (
                |p| p.bed.touch = Length::m(-0.0254),
                "bed.touch",
                "the touch distance of the bed is -1 in: it must be 0 or more",
            ),
        ],
    );
}

#[test]
fn what_may_be_empty_or_at_its_bound_is_no_fault() {
    let mut plan = read(WRITTEN).unwrap_or_else(|error| panic!("{error}"));
    plan.title.clear();
    plan.article.name.clear();
    plan.article.mass = Mass::kg(0.0);
    plan.article.pitch = Angle::rad(60_f64.to_radians());
    plan.article.keep_clear[0].y = [Length::m(0.1); 2];
    plan.ballast[1].grade = None;
    plan.stack.clear();
    plan.holds.clear();
    assert_eq!(faults(&plan), []);
}

#[test]
fn a_lot_has_no_more_pieces_than_anybody_carries() {
    let mut plan = read(WRITTEN).unwrap_or_else(|error| panic!("{error}"));
    plan.ballast[0].count = 10_000;
    assert!(faults(&plan).is_empty());
    plan.ballast[0].count = u32::MAX;
    let told = faults(&plan).remove(0).sentence;
    assert!(told.ends_with("has 4294967295 pieces: its count must be 10000 or less"), "{told}");
}

#[test]
fn a_number_near_the_largest_is_taken_only_if_its_file_is_read_back() {
    for units in [quantity::Units::Metric, quantity::Units::InchPound] {
        let mut plan = read(WRITTEN).unwrap_or_else(|error| panic!("{error}"));
        plan.units = units;
        let (mut taken, mut refused) = (0, 0);
        // Steps of a hundredth of the twelfth digit, through the largest number.
        for step in -2000..2000 {
            plan.article.pivot[0] = Length::m(1e15 * (1.0 + f64::from(step) * 1e-14));
            if faults(&plan).is_empty() {
                taken += 1;
                let text = plan::file::write(&plan);
                let again = read(&text).unwrap_or_else(|error| panic!("step {step}: {error}"));
                assert_eq!(plan::file::write(&again), text, "step {step}");
            } else {
                refused += 1;
            }
        }
        assert!(taken > 1000 && refused > 1000, "got {taken} taken and {refused} refused");
    }
}
