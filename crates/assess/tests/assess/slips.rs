//! Figures that nothing forbids and nobody means (`common practice, no source`): the ranges as the table of the
//! check has them, each passed on purpose.

use crate::bench::{bench, hold_down, with_ballast, with_fixture};
use crate::given::{all_of, found};
use assess::{Ask, Check, Reach, State, assess};
use plan::{
    Anchors, Binding, CatchBlock, Gauge, Hold, Instrument, Line, Mark, Picture, Plan, Posture, Reading, Softness,
    SoftnessFrom, Strength, StringLine, Target, Weighing, WeighingPoint, WeighingScale,
};
use quantity::{Angle, Force, Length, Mass, Pressure, Quantity, Stiffness, Time};

const CHECK: Check = Check::UnlikelyFigures;

fn m<const N: usize>(values: [f64; N]) -> [Length; N] {
    values.map(Length::m)
}

/// The bench with one of everything.
fn full() -> Plan {
    let mut plan = bench();
    plan.fixture.hold_downs = vec![hold_down(3.0, 300.0)];
    plan.fixture.bindings = vec![Binding {
        name: "over".to_owned(),
        anchors: Anchors::Article,
        at: m([0.2, 0.0]),
        pull: Force::n(100.0),
        width: Binding::WIDTH,
        after: 3,
    }];
    plan.fixture.catch_blocks =
        vec![CatchBlock { name: "block".to_owned(), at: m([1.2, 0.0, 0.2]), gap: Length::m(0.015) }];
    plan.gauges = vec![Gauge::at("pan", m([1.2, 0.0, 0.4]), Length::m(0.0005))];
    plan.holds = vec![Hold::at("limit", 0.667), Hold::at("ultimate", 1.0)];
    plan.article.outline = vec![Line::new("floor".to_owned(), vec![m([0.0, 0.0]), m([1.0, 0.0])])];
    plan.article.picture =
        Some(Picture { path: "a.png".to_owned(), at: m([1.0, 0.5]), width: Length::m(3.0), turn: Angle::rad(0.0) });
    plan.fixture.floor = Some(Length::m(0.0));
    plan.bed.marks = vec![Mark { name: "A".to_owned(), at: m([0.1, -0.4, 0.0]) }];
    plan.bed.string = Some(StringLine { x: m([-0.1, 0.9]), y: Length::m(0.0) });
    plan.allow.handling.two_people_from_layer = Some(3);
    plan.instruments = vec![Instrument { check_mass: Some(Mass::kg(20.0)), ..Instrument::named("pull scale") }];
    let point = WeighingPoint {
        name: "nose".to_owned(),
        at: m([0.6, 0.0, 0.0]),
        reading: Mass::kg(60.0),
        tare: Mass::kg(2.0),
        division: Some(Mass::kg(0.1)),
    };
    plan.article.weighings = vec![Weighing { name: "first".to_owned(), pitch: Angle::rad(0.0), points: vec![point] }];
    let reading = Reading { added: Mass::kg(100.0), after: Time::s(60.0), sinks: Length::m(0.005) };
    plan.ballast[0].softness = Some(Softness {
        modulus: Pressure::pa(0.3e6),
        rim: Some(Length::m(0.028)),
        shear_ratio: 0.3,
        creep_per_decade: 0.1,
        from: SoftnessFrom::Measured,
        source: String::new(),
        readings: vec![reading],
        flat: Some(m([0.4, 0.3])),
    });
    plan.ballast[0].strength =
        Some(Strength { bending: Pressure::pa(24e6), shear: Pressure::pa(2e6), modulus: Pressure::pa(11e9) });
    plan
}

fn posture() -> Target {
    let degrees = |degrees: f64| Angle::rad(degrees.to_radians());
    Target::Posture(Posture {
        seat_reference: m([1.4, 0.0, 0.5]),
        recline: degrees(20.0),
        pan: degrees(5.0),
        thigh: None,
        knee: degrees(120.0),
        arm: degrees(30.0),
        elbow: degrees(120.0),
        head: None,
        pan_cushion: Length::m(0.03),
        back_cushion: Length::m(0.03),
        back_pack: Length::m(0.0),
        stature: Length::m(1.75),
        slump: Length::m(0.02),
        sex: plan::Sex::Male,
        table: plan::SegmentTable::DeLeva,
        lower_legs: plan::LowerLegs::OnSeat,
        tolerance: m([0.015, 0.010]),
    })
}

fn weighed() -> Target {
    let scale = |name: &str, at: f64, kg: [f64; 2]| WeighingScale {
        name: name.to_owned(),
        at: m([at, 0.0]),
        without: Mass::kg(kg[0]),
        with: Mass::kg(kg[1]),
    };
    Target::Weighed(plan::Weighed {
        scales: vec![scale("nose", 0.0, [50.0, 90.0]), scale("main", 2.0, [150.0, 190.0])],
        reading_within: Mass::kg(0.1),
        waterline: Length::m(0.6),
        tolerance: m([0.015, 0.010]),
    })
}

fn set_posture(plan: &mut Plan, change: impl FnOnce(&mut Posture)) {
    plan.target = posture();
    if let Target::Posture(posture) = &mut plan.target {
        change(posture);
    }
}

fn set_weighed(plan: &mut Plan, change: impl FnOnce(&mut plan::Weighed)) {
    plan.target = weighed();
    if let Target::Weighed(weighed) = &mut plan.target {
        change(weighed);
    }
}

fn soft(plan: &mut Plan) -> &mut Softness {
    plan.ballast[0].softness.as_mut().expect("bags that give")
}

fn strong(plan: &mut Plan) -> &mut Strength {
    plan.ballast[0].strength.as_mut().expect("its own figures")
}

type Row = (fn(&mut Plan), &'static str);

/// What decides whether a stack or a reading passes.
const FAIL: &[Row] = &[
    (|p| p.load_cases[0].occupant_mass = Mass::kg(9.2), "occupant mass of load case “up” is 9.2 kg: 10 kg to 250 kg"),
    (|p| p.load_cases[0].load_factor = 0.38, "load factor of load case “up” is 0.38"),
    (|p| p.load_cases[0].special_factor = 0.5, "special factor of load case “up” is 0.5"),
    (|p| p.article.mass = Mass::kg(64_000.0), "mass of the article is 64000 kg: at most 10000 kg"),
    (|p| p.article.centroid[0] = Length::m(1200.0), "centroid of the article is 1200 m: -50 m to 50 m"),
    (|p| p.article.pivot[2] = Length::m(-51.0), "pivot of the article is -51 m"),
    (|p| p.article.keep_clear[0].side[0][0] = Length::m(75.0), "corner of keep-clear region “stick” is 75 m"),
    (|p| p.article.keep_clear[0].y[1] = Length::m(75.0), "buttock line of keep-clear region “stick” is 75 m"),
    (|p| p.article.weighings[0].points[0].at[0] = Length::m(600.0), "place of weighing point “nose” is 600 m"),
    (|p| p.article.weighings[0].points[0].reading = Mass::kg(60_000.0), "reading of weighing point “nose”"),
    (|p| p.target = Target::Point { at: m([120.0, 0.0, 0.8]), tolerance: m([0.015, 0.010]) }, "is 120 m"),
    (
        |p| {
            p.target = Target::LoadPoint(plan::LoadPoint {
                document: "a report".to_owned(),
                at: m([120.0, 0.0, 0.8]),
                tolerance: m([0.015, 0.010]),
            });
        },
        "place of the occupant point is 120 m",
    ),
    (|p| p.target = p.target.clone().with_tolerance(m([1e12, 0.01])), "tolerance of the occupant point is"),
    (
        |p| set_posture(p, |posture| posture.seat_reference[0] = Length::m(140.0)),
        "seat reference of the occupant point",
    ),
    (|p| set_posture(p, |posture| posture.pan_cushion = Length::m(0.4)), "pan cushion of the occupant point is 400 mm"),
    (
        |p| set_posture(p, |posture| posture.back_cushion = Length::m(0.4)),
        "back cushion of the occupant point is 400 mm",
    ),
    (|p| set_posture(p, |posture| posture.back_pack = Length::m(0.4)), "back pack of the occupant point is 400 mm"),
    (|p| set_weighed(p, |weighed| weighed.scales[0].at[0] = Length::m(-60.0)), "scale of the occupant point is -60 m"),
    (
        |p| set_weighed(p, |w| (w.scales[1].without, w.scales[1].with) = (Mass::kg(10_050.0), Mass::kg(10_090.0))),
        "without the occupant of the",
    ),
    (|p| set_weighed(p, |weighed| weighed.scales[1].with = Mass::kg(19_000.0)), "reading with the occupant of the"),
    (|p| set_weighed(p, |weighed| weighed.waterline = Length::m(60.0)), "waterline of the occupant point is 60 m"),
    (|p| p.fixture.supports[0].at[0] = Length::m(-60.0), "place of support “left front scale” is -60 m"),
    (|p| p.fixture.supports[0].capacity = Some(Mass::kg(3e5)), "capacity of support “left front scale” is 300000 kg"),
    (|p| p.fixture.supports[0].division = Some(Mass::kg(1e9)), "scale division of support “left front scale” is"),
    (|p| p.fixture.hold_downs[0].on_article[0] = Length::m(60.0), "end on the article of hold-down strap “hold-down”"),
    (|p| p.fixture.hold_downs[0].on_floor[0] = Length::m(60.0), "end on the floor of hold-down strap “hold-down”"),
    (|p| p.fixture.hold_downs[0].preload = Force::n(60e3), "preload of hold-down strap “hold-down” is 60000 N"),
    (|p| p.fixture.hold_downs[0].working_load = Force::n(1e9), "working load of hold-down strap “hold-down” is"),
    (|p| p.fixture.hold_downs[0].stiffness = Stiffness::n_per_m(60.0), "stiffness of hold-down strap “hold-down” is"),
    (|p| p.fixture.bindings[0].at[0] = Length::m(6.0), "place of binding strap “over” is 6 m"),
    (|p| p.fixture.bindings[0].pull = Force::n(11e3), "pull of binding strap “over” is 11000 N"),
    (|p| p.bed.marks[0].at[0] = Length::m(6.0), "place of mark “A” is 6 m"),
    (|p| p.bed.string.as_mut().expect("a string").y = Length::m(6.0), "place of the string across of the bed is 6 m"),
    (|p| p.fixture.catch_blocks[0].at[0] = Length::m(60.0), "place of catch block “block” is 60 m"),
    (|p| p.fixture.catch_blocks[0].gap = Length::m(0.15), "gap of catch block “block” is 150 mm: at most 100 mm"),
    (|p| p.fixture.floor_friction = 1.6, "friction of the floor is 1.6: at most 1.5"),
    (|p| p.bed.origin[0] = Length::m(100.0), "origin of the bed is 100 m"),
    (|p| p.bed.friction = 3.5, "friction of the bed is 3.5: at most 1.5"),
    (|p| p.bed.touch = Length::m(0.1), "touch distance of the bed is 100 mm: at most 20 mm"),
    (|p| p.bed.touch_hard = Length::m(0.006), "touch distance between hard pieces of the bed is 6 mm: at most 5 mm"),
    (|p| p.bed.beside = Length::m(0.06), "beside distance of the bed is 60 mm: at most 50 mm"),
    (|p| p.bed.bearings[0].x[0] = Length::m(-6.0), "extent along x of bearing “front rail” is -6 m"),
    (|p| p.bed.bearings[0].y[1] = Length::m(25.0), "extent along y of bearing “front rail” is 25 m"),
    (|p| p.bed.bearings[0].top = Length::m(-6.0), "top of bearing “front rail” is -6 m"),
    (|p| p.bed.bearings[0].allowable = Some(Force::n(1e9)), "allowable load of bearing “front rail” is"),
    (|p| p.ballast[0].friction = 1.51, "friction of lot “sand bag” is 1.51"),
    (|p| p.ballast[0].mass_tolerance = Mass::kg(25.0), "25.0 kg ± 25.0 kg"),
    (|p| strong(p).bending = Pressure::pa(2e9), "allowable bending stress of lot “sand bag” is 2000 MPa"),
    (|p| strong(p).shear = Pressure::pa(1e9), "allowable shear stress of lot “sand bag” is 1000 MPa"),
    (|p| strong(p).modulus = Pressure::pa(11e12), "modulus of elasticity of lot “sand bag” is 11000000 MPa"),
    (|p| soft(p).modulus = Pressure::pa(30e6), "modulus of softness of lot “sand bag” is 30 MPa"),
    (|p| soft(p).shear_ratio = 3.0, "shear ratio of lot “sand bag” is 3: at most 1"),
    (|p| p.stack[1].at[0] = Length::m(20.0), "place of step 2 is 20 m: -5 m to 5 m"),
    (|p| p.gauges[0].allowed_set = Length::m(0.5), "allowed set of gauge “pan” is 500 mm: at most 20 mm"),
    (|p| p.holds[0].tolerance = Some(m([1.0, 0.01])), "tolerance of hold “limit” is 1000 mm: at most 500 mm"),
    (|p| p.holds[1].time = Some(Time::s(2.9)), "planned time at ultimate load of hold “ultimate” is 2.9 s: 3 s to"),
    (|p| p.allow.collapse = 0.0, "required reserve of the stack is 0: 0.02 to"),
    (|p| p.allow.fixture_push = 0.01, "required reserve of the fixture is 0.01: 0.02 to"),
    (|p| p.allow.chance = 0.9, "allowed chance to miss is 0.9: at most 0.5"),
    (|p| p.allow.critical = 1.0, "least critical load factor is 1: 1.5 to"),
    (|p| p.allow.lean = Length::m(0.3), "allowed lean of the top piece is 300 mm: at most 100 mm"),
    (|p| p.ballast[0].mass = Mass::kg(12.0), "sand bag 1 was weighed at 25.0 kg where its lot has 12.0 kg"),
    (|p| p.ballast[0].size[2] = Length::m(0.005), "A bag of lot “sand bag” is heavier than any metal of its size"),
];

/// What is worth a look.
const CAUTION: &[Row] = &[
    (|p| p.load_cases[0].safety_factor = 15.0, "factor of safety of load case “up” is 15"),
    (|p| p.article.outline[0].points[1][0] = Length::m(1000.0), "corner of line “floor” is 1000 m"),
    (|p| p.article.keep_clear[0].clearance = Length::m(2.0), "clearance of keep-clear region “stick” is 2000 mm"),
    (|p| p.article.weighings[0].points[0].tare = Mass::kg(2000.0), "tare of weighing point “nose” is 2000 kg"),
    (|p| p.article.weighings[0].points[0].division = Some(Mass::kg(10.0)), "scale division of weighing point “nose”"),
    (|p| set_weighed(p, |weighed| weighed.reading_within = Mass::kg(10.0)), "error of a reading of the occupant point"),
    (|p| p.fixture.supports[0].stiffness = Some(Stiffness::n_per_m(1e13)), "stiffness of support “left front scale”"),
    (|p| p.fixture.bindings[0].width = Length::m(0.5), "width of binding strap “over” is 500 mm"),
    (|p| p.ballast[0].size[0] = Length::m(7.0), "size of lot “sand bag” is 7000 mm"),
    (
        |p| p.target = plan::Target::Point { at: m([0.0; 3]), tolerance: m([0.15, 0.01]) },
        "tolerance of the occupant point is 150 mm: at most 60 mm",
    ),
    (
        |p| soft(p).modulus = Pressure::pa(7.3e6),
        "measured modulus of softness of lot “sand bag” is 7.3 MPa: at most 2 MPa",
    ),
    (|p| soft(p).rim = Some(Length::m(0.12)), "rim of lot “sand bag” is 120 mm"),
    (|p| soft(p).creep_per_decade = 2.0, "creep for each tenfold of time of lot “sand bag” is 2"),
    (|p| soft(p).flat = Some(m([4.0, 0.3])), "flat of lot “sand bag” is 4000 mm"),
    (|p| soft(p).readings[0].added = Mass::kg(3000.0), "mass added for softness of lot “sand bag” is 3000 kg"),
    (|p| soft(p).readings[0].after = Time::s(1e9), "time under load of lot “sand bag” is"),
    (|p| soft(p).readings[0].sinks = Length::m(0.5), "sinking of lot “sand bag” is 500 mm"),
    (|p| p.gauges[0].at[1] = Length::m(120.0), "place of gauge “pan” is 120 m"),
    (|p| p.holds[0].time = Some(Time::s(0.5)), "planned time of hold “limit” is 0.5 s"),
    (|p| p.allow.placement_scatter = Length::m(0.2), "placement scatter is 200 mm"),
    (|p| p.fixture.floor = Some(Length::m(-12.0)), "height of the floor is -12 m"),
    (|p| p.bed.string.as_mut().expect("a string").x[1] = Length::m(9.0), "end of the string of the bed is 9 m"),
    (|p| p.instruments[0].check_mass = Some(Mass::kg(800.0)), "check mass of instrument “pull scale” is 800 kg"),
    (|p| p.allow.handling.two_people_from_layer = Some(90), "layer from which two people lift is 90"),
    (|p| p.allow.handling.reach = Length::m(2.0), "reach of lifting is 2 m"),
    (|p| p.allow.handling.pick_up = Length::m(3.0), "pick-up height of lifting is 3 m"),
    (|p| p.allow.handling.lifts_per_minute = 60.0, "number of lifts per minute is 60"),
];

#[track_caller]
fn slip(plan: &Plan, reach: Reach, says: &str) -> assess::Finding {
    let findings = all_of(&assess(plan, Ask::to(reach)).findings, CHECK);
    let [finding] = findings.as_slice() else { panic!("{says}: one finding is due: {findings:#?}") };
    assert!(finding.text.contains(says), "{says}: {}", finding.text);
    finding.clone()
}

#[test]
fn figures_beyond_their_range_that_decide_safety_fail_and_the_rest_are_cautions() {
    for (rows, state) in [(FAIL, State::Fails), (CAUTION, State::Caution)] {
        for (change, says) in rows {
            let mut plan = full();
            plan.load_cases[0].name = "up".to_owned();
            plan.case = "up".to_owned();
            change(&mut plan);
            let finding = slip(&plan, Reach::ClosedForm, says);
            assert_eq!(finding.state, state, "{finding:?}");
        }
    }
}

#[test]
fn usual_figures_say_nothing() {
    let usual = with_ballast(&bench(), |lots| (lots[0].friction, lots[0].mass_tolerance) = (1.5, Mass::kg(24.9)));
    let mut sitting = full();
    sitting.target = posture();
    let mut read = full();
    read.target = weighed();
    for plan in [bench(), full(), usual, sitting, read] {
        assert_eq!(all_of(&assess(&plan, Ask::closed()).findings, CHECK), []);
    }
}

/// A bound that was typed in inches is the bound.
#[test]
fn a_figure_at_its_bound_fits_and_a_hair_beyond_does_not() {
    let touching = |text: &str| {
        let mut plan = bench();
        plan.units = quantity::Units::InchPound;
        plan.bed.touch_hard = Length::parse(text).expect("a length");
        all_of(&assess(&plan, Ask::closed()).findings, CHECK)
    };
    assert_eq!(touching("5 mm"), []);
    assert_eq!(touching("0.196850393701 in"), []);
    assert_eq!(touching("5.01 mm").len(), 1);
}

#[test]
fn several_figures_of_a_kind_are_one_line() {
    let mut plan = bench();
    plan.fixture.supports.iter_mut().for_each(|support| support.division = Some(Mass::kg(50.0)));
    slip(&plan, Reach::ClosedForm, "scale division of support “left front scale” is 50 kg (and 2 more): at most 5 kg");
}

/// 135 kg of article and bags: 0.6/1.4 of it stand on the rear scale, 57.9 kg or 567 N, which press a spring of
/// 2.2 N/mm by 258 mm (by hand), and one of 18 N/mm by 31.5 mm; the front ones carry 378 N each.
#[test]
fn a_support_is_judged_by_how_far_it_sinks() {
    let on = |n_per_mm: f64| {
        with_fixture(&bench(), |fixture| {
            fixture.supports[2].stiffness = Some(Stiffness::n_per_m(1000.0 * n_per_mm));
            fixture.supports[0].stiffness = Some(Stiffness::n_per_m(13_000.0));
            fixture.supports[1].stiffness = Some(Stiffness::n_per_m(13_000.0));
        })
    };
    for (n_per_mm, says) in [(2.2, "Support “rear scale” sinks 258 mm"), (18.0, "Support “rear scale” sinks 32 mm")]
    {
        let finding = slip(&on(n_per_mm), Reach::Full, says);
        assert_eq!(finding.state, State::Fails, "{finding:?}");
    }
    assert_eq!(all_of(&assess(&on(20.0), Ask::full()).findings, CHECK), [], "29 mm are no more than 30 mm");
}

#[test]
fn the_demos_have_no_unlikely_figures() {
    let demos = [
        include_str!("../../../../assets/examples/tandem-rear-seat.ron"),
        include_str!("../../../../assets/examples/side-by-side.ron"),
        include_str!("../../../../assets/examples/four-faults.ron"),
    ];
    for text in demos {
        let plan = plan::file::read(text).expect("a demo is a plan");
        assert_eq!(all_of(&assess(&plan, Ask::closed()).findings, CHECK), [], "{}", plan.title);
    }
}

#[test]
fn a_strap_put_on_with_more_than_its_working_load_fails() {
    let pulled = |preload_n: f64| {
        with_fixture(&bench(), |fixture| {
            fixture.hold_downs = vec![plan::HoldDown { working_load: Force::n(300.0), ..hold_down(4.0, preload_n) }];
        })
    };
    let finding = found(&pulled(301.0), Reach::ClosedForm, Check::StrapPreload);
    assert_eq!(finding.state, State::Fails, "{finding:?}");
    assert!(finding.text.contains("301 N, more than its working load of 300 N"), "{}", finding.text);
    assert_eq!(all_of(&assess(&pulled(300.0), Ask::closed()).findings, Check::StrapPreload), []);
}
