//! What makes a plan unusable, each with its path and a sentence of its own.

mod rig;
mod stack;

use crate::{TYPED, WRITTEN};
use plan::file::read;
use plan::{Plan, faults};
use quantity::{Angle, Force, Length, Mass};

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
