//! Fields that were added to format 1: written only where they differ from what a file without
//! them means, so that every plan that does not use them keeps its bytes and its fingerprint.

use crate::WRITTEN;
use plan::file::{fingerprint, read, write};
use plan::{
    CatchBlock, Date, FromRule, Instrument, Mark, Plan, PreloadSet, Reading, Softness, SoftnessFrom, StringLine, Stuff,
    faults,
};
use quantity::{Length, Mass, Pressure, Time};

type Row = (&'static str, fn(&mut Plan), fn(&mut Plan));

fn written() -> Plan {
    read(WRITTEN).unwrap_or_else(|error| panic!("{error}"))
}

fn soft() -> Softness {
    Softness {
        modulus: Pressure::pa(0.3e6),
        rim: None,
        shear_ratio: 0.3,
        creep_per_decade: 0.1,
        from: SoftnessFrom::Measured,
        source: String::new(),
        readings: Vec::new(),
        flat: None,
    }
}

/// How a field stands in the text, how it is given, and how it is taken away again.
const ROWS: [Row; 17] = [
    (
        "half_breadth: \"0.32 m\", width: \"0.05 m\", stuff: Timber)",
        |plan| {
            let line = &mut plan.article.outline[0];
            (line.half_breadth, line.width) = (Some(Length::m(0.32)), Some(Length::m(0.05)));
            line.stuff = Stuff::Timber;
        },
        |plan| {
            let line = &mut plan.article.outline[0];
            (line.half_breadth, line.width, line.stuff) = (None, None, Stuff::Metal);
        },
    ),
    (
        "touch_hard: \"2 mm\",\n",
        |plan| plan.bed.touch_hard = Length::m(0.002),
        |plan| plan.bed.touch_hard = Length::m(0.001),
    ),
    (
        "preload_set: After,",
        |plan| plan.fixture.hold_downs[0].preload_set = PreloadSet::After,
        |plan| plan.fixture.hold_downs[0].preload_set = PreloadSet::Before,
    ),
    (
        "width: \"35 mm\", after:",
        |plan| plan.fixture.bindings[0].width = Length::m(0.035),
        |plan| plan.fixture.bindings[0].width = Length::m(0.050),
    ),
    (
        "expected_at_limit: \"5 mm\", expected_at_ultimate: \"8 mm\", expected_within: \"0.5 mm\")",
        |plan| {
            let gauge = &mut plan.gauges[0];
            (gauge.expected_at_limit, gauge.expected_at_ultimate) = (Some(Length::m(0.005)), Some(Length::m(0.008)));
            gauge.expected_within = Some(Length::m(0.0005));
        },
        |plan| {
            let gauge = &mut plan.gauges[0];
            (gauge.expected_at_limit, gauge.expected_at_ultimate, gauge.expected_within) = (None, None, None);
        },
    ),
    ("time: \"90 s\")", |plan| plan.holds[1].time = Some(Time::s(90.0)), |plan| plan.holds[1].time = None),
    (
        "catch_blocks: [\n            CatchBlock(name: \"under the pan\", at: (\"2.2 m\", \"0 m\", \"0.2 m\"), gap: \"15 mm\"),",
        |plan| {
            let at = [2.2, 0.0, 0.2].map(Length::m);
            plan.fixture.catch_blocks = vec![CatchBlock { name: "under the pan".into(), at, gap: Length::m(0.015) }];
        },
        |plan| plan.fixture.catch_blocks.clear(),
    ),
    (
        "y_known: (false, true), clearance:",
        |plan| plan.article.keep_clear[0].y_known = [false, true],
        |plan| plan.article.keep_clear[0].y_known = [true; 2],
    ),
    (
        "marks: [\n            Mark(name: \"A\", at: (\"0.05 m\", \"-0.4 m\", \"0 m\")),",
        |plan| plan.bed.marks = vec![Mark { name: "A".into(), at: [0.05, -0.4, 0.0].map(Length::m) }],
        |plan| plan.bed.marks.clear(),
    ),
    (
        "string: Some(StringLine(x: (\"-0.1 m\", \"0.9 m\"), y: \"-0.3 m\")),",
        |plan| plan.bed.string = Some(StringLine { x: [-0.1, 0.9].map(Length::m), y: Length::m(-0.3) }),
        |plan| plan.bed.string = None,
    ),
    ("floor: \"-0.35 m\",", |plan| plan.fixture.floor = Some(Length::m(-0.35)), |plan| plan.fixture.floor = None),
    (
        "people: 1, two_people_from_layer: 3))",
        |plan| plan.allow.handling.two_people_from_layer = Some(3),
        |plan| plan.allow.handling.two_people_from_layer = None,
    ),
    (
        "Instrument(name: \"pull scale\", number: \"PS 7\", range: \"0 to 50 kg\", calibrated_until: \"2027-03-31\", check_mass: \"20 kg\"),",
        |plan| {
            plan.instruments = vec![Instrument {
                number: "PS 7".into(),
                range: "0 to 50 kg".into(),
                calibrated_until: Date::new(2027, 3, 31),
                check_mass: Some(Mass::kg(20.0)),
                ..Instrument::named("pull scale")
            }];
        },
        |plan| plan.instruments.clear(),
    ),
    ("critical: 4.0", |plan| plan.allow.critical = 4.0, |plan| plan.allow.critical = 3.0),
    ("lean: \"20 mm\"", |plan| plan.allow.lean = Length::m(0.02), |plan| plan.allow.lean = Length::m(0.015)),
    (
        "softness: Some(Softness(modulus: \"0.3 MPa\", from: Measured))",
        |plan| plan.ballast[0].softness = Some(soft()),
        |plan| plan.ballast[0].softness = None,
    ),
    (
        "from_rule: Some(FromRule(rule: \"a rule\", load_factor: 3.8, safety_factor: 1.5, special_factor: 1.0)),\n",
        |plan| {
            plan.load_cases[0].from_rule = Some(FromRule {
                rule: "a rule".into(),
                occupant_mass: None,
                load_factor: 3.8,
                safety_factor: 1.5,
                special_factor: 1.0,
            });
        },
        |plan| plan.load_cases[0].from_rule = None,
    ),
];

#[test]
fn a_field_at_its_default_leaves_bytes_and_fingerprint_as_they_were() {
    for (line, give, take) in ROWS {
        let mut plan = written();
        give(&mut plan);
        assert_ne!(fingerprint(&plan), "a046 ea78 d490", "{line}");
        take(&mut plan);
        assert_eq!(write(&plan), WRITTEN, "{line}");
        assert_eq!(fingerprint(&plan), "a046 ea78 d490", "{line}");
    }
}

#[test]
fn a_field_that_differs_is_written_and_read_again() {
    for (line, give, _) in ROWS {
        let mut plan = written();
        give(&mut plan);
        let text = write(&plan);
        assert!(text.contains(line), "{line} in\n{text}");
        assert_eq!(read(&text).unwrap_or_else(|error| panic!("{error}\n{text}")), plan, "{line}");
    }
}

#[test]
fn a_stated_modulus_keeps_who_gave_it() {
    let mut plan = written();
    let source = "the maker of the bags, letter of 3 May".to_owned();
    plan.ballast[0].softness = Some(Softness { from: SoftnessFrom::Stated, source, ..soft() });
    let text = write(&plan);
    let line = "softness: Some(Softness(modulus: \"0.3 MPa\", from: Stated, source: \"the maker of the bags, letter of 3 May\"))";
    assert!(text.contains(line), "{text}");
    assert_eq!(read(&text).unwrap_or_else(|error| panic!("{error}\n{text}")), plan);
}

#[test]
fn a_measured_softness_keeps_its_readings_and_its_flat() {
    let mut plan = written();
    let reading = |after, sinks| Reading { added: Mass::kg(250.0), after: Time::s(after), sinks: Length::m(sinks) };
    plan.ballast[0].softness = Some(Softness {
        rim: Some(Length::m(0.028)),
        shear_ratio: 0.2,
        creep_per_decade: 0.0,
        readings: vec![reading(60.0, 0.006), reading(600.0, 0.0066)],
        flat: Some([0.444, 0.274].map(Length::m)),
        ..soft()
    });
    let text = write(&plan);
    let line = "softness: Some(Softness(modulus: \"0.3 MPa\", rim: \"28 mm\", shear_ratio: 0.2, creep_per_decade: 0.0, \
                from: Measured, readings: [Reading(added: \"250 kg\", after: \"60 s\", sinks: \"6 mm\"), \
                Reading(added: \"250 kg\", after: \"600 s\", sinks: \"6.6 mm\")], flat: (\"0.444 m\", \"0.274 m\")))";
    assert!(text.contains(line), "{text}");
    assert_eq!(read(&text).unwrap_or_else(|error| panic!("{error}\n{text}")), plan);
}

/// A quarter of 110 mm.
#[test]
fn a_rim_that_is_left_out_is_a_quarter_of_the_thickness() {
    crate::near::assert_near("rim", quantity::Quantity::si(soft().rim_of(Length::m(0.11))), 0.0275, 1e-15, "m");
}

/// Source key `cfr-23-305`: three seconds at ultimate; a minute below it is `common practice, no
/// source`.
#[test]
fn a_hold_without_a_time_lasts_three_seconds_at_ultimate_and_a_minute_below() {
    let mut plan = written();
    let times =
        |plan: &Plan| plan.holds.iter().map(|hold| quantity::Quantity::si(hold.planned_time())).collect::<Vec<_>>();
    for (got, want) in times(&plan).into_iter().zip([60.0, 60.0, 3.0]) {
        crate::near::assert_near("time", got, want, 0.0, "s");
    }
    plan.holds[2].time = Some(Time::s(10.0));
    crate::near::assert_near("its own time", times(&plan)[2], 10.0, 0.0, "s");
}

type Fault = (fn(&mut Plan), &'static str, &'static str);

#[test]
fn added_fields_that_make_no_sense_are_faults() {
    let rows: [Fault; 9] = [
        (
            |plan| plan.bed.touch_hard = Length::m(-0.001),
            "bed.touch_hard",
            "the touch distance between hard pieces of the bed is -1 mm: it must be 0 or more",
        ),
        (
            |plan| plan.fixture.bindings[0].width = Length::m(0.0),
            "fixture.bindings[1].width",
            "the width of binding strap “over the stack” is 0 mm: it must be more than 0",
        ),
        (
            |plan| {
                let gap = Length::m(-0.01);
                plan.fixture.catch_blocks = vec![CatchBlock { name: "pan".into(), at: [Length::m(0.0); 3], gap }];
            },
            "fixture.catch_blocks[1].gap",
            "the gap of catch block “pan” is -10 mm: it must be 0 or more",
        ),
        (
            |plan| plan.holds[0].time = Some(Time::s(0.0)),
            "holds[1].time",
            "the time of hold “half limit” is 0 s: it must be more than 0",
        ),
        (
            |plan| plan.allow.critical = -1.0,
            "allow.critical",
            "the least critical load factor is -1: it must be 0 or more",
        ),
        (
            |plan| plan.allow.lean = Length::m(-0.01),
            "allow.lean",
            "the allowed lean of the top piece is -10 mm: it must be 0 or more",
        ),
        (
            |plan| plan.ballast[0].softness = Some(Softness { modulus: Pressure::pa(0.0), ..soft() }),
            "ballast[1].softness.modulus",
            "the modulus of softness of lot “gravel bag” is 0 MPa: it must be more than 0",
        ),
        (
            |plan| plan.ballast[0].softness = Some(Softness { rim: Some(Length::m(0.17)), ..soft() }),
            "ballast[1].softness.rim",
            "the rim of lot “gravel bag” is 170 mm all round: nothing of the bag is left to carry",
        ),
        (
            |plan| plan.ballast[1].softness = Some(soft()),
            "ballast[2].softness",
            "lot “plank” has a softness but no bags: leave it out, only bags give",
        ),
    ];
    are_faults(&rows);
}

#[test]
fn marks_string_floor_and_instruments_that_make_no_sense_are_faults() {
    are_faults(&[
        (
            |plan| plan.bed.marks = vec![Mark { name: " ".into(), at: [Length::m(0.0); 3] }],
            "bed.marks[1].name",
            "mark 1 has no name: give it one",
        ),
        (
            |plan| plan.bed.string = Some(StringLine { x: [Length::m(0.5); 2], y: Length::m(0.0) }),
            "bed.string.x",
            "the string reaches from x 0.5 m to 0.5 m: the first must be less than the second",
        ),
        (
            |plan| plan.fixture.floor = Some(Length::m(f64::NAN)),
            "fixture.floor",
            "the height of the floor is not a finite number: type a number",
        ),
        (
            |plan| plan.allow.handling.two_people_from_layer = Some(0),
            "allow.handling.two_people_from_layer",
            "two people lift from layer 0: layers count from 1",
        ),
        (
            |plan| {
                plan.instruments = vec![Instrument { check_mass: Some(Mass::kg(0.0)), ..Instrument::named("gauge") }];
            },
            "instruments[1].check_mass",
            "the check mass of instrument “gauge” is 0 kg: it must be more than 0",
        ),
    ]);
}

/// 2028 is a leap year, 2100 is none (Gregorian calendar).
#[test]
fn a_date_is_a_day_of_the_calendar_and_is_refused_with_what_fits() {
    for day in ["2027-03-31", "2028-02-29", "2026-12-01"] {
        assert_eq!(day.parse::<Date>().map(|date| date.to_string()), Ok(day.to_owned()));
    }
    for none in ["2027-02-29", "2100-02-29", "2027-13-01", "2027-00-10", "31.03.2027", "2027-3-31", "", "2027-03-31-"] {
        let told = none.parse::<Date>().expect_err(none).to_string();
        assert_eq!(told, format!("“{none}” is no date: year, month and day fit, as 2027-03-31"));
    }
    assert!(Date::new(2027, 3, 31) < Date::new(2027, 4, 1));
    let mut plan = written();
    plan.instruments = vec![Instrument { calibrated_until: Date::new(2027, 3, 31), ..Instrument::named("gauge") }];
    let text = write(&plan).replace("2027-03-31", "2027-03-32");
    let told = read(&text).expect_err("no such day").to_string();
    assert!(told.contains("calibrated until: “2027-03-32” is no date"), "{told}");
}

#[test]
fn a_line_without_breadth_has_no_width() {
    are_faults(&[
        (
            |plan| plan.article.outline[0].half_breadth = Some(Length::m(0.0)),
            "article.outline[1].half_breadth",
            "the half-breadth of line “seat pan” is 0 m: it must be more than 0",
        ),
        (
            |plan| plan.article.outline[0].width = Some(Length::m(0.05)),
            "article.outline[1].width",
            "line “seat pan” has a width but no half-breadth of at least that: give how far its outer side lies from \
             the middle",
        ),
    ]);
}

/// Each spoils a sound plan, and is told with its place.
fn are_faults(rows: &[Fault]) {
    for (spoil, path, sentence) in rows {
        let mut plan = written();
        spoil(&mut plan);
        let told: Vec<_> = faults(&plan).iter().map(|fault| (fault.path.to_string(), fault.sentence.clone())).collect();
        assert!(told.contains(&((*path).to_owned(), (*sentence).to_owned())), "want {path}: {sentence}\ngot {told:#?}");
    }
}
