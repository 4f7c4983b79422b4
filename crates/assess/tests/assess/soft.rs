//! What the checks make of bags that give.

use crate::bench::{bag, bench, place, put, soft, with_ballast, with_fixture, without};
use crate::given::{found, near};
use crate::worked::{list, softened, told};
use assess::{Amount, Ask, Check, Finding, Reach, SoftFrom, State, Told, Where, assess};
use plan::{Plan, Softness, SoftnessFrom};
use quantity::{Pressure, Quantity, STANDARD_GRAVITY_M_S2 as GRAVITY, Stiffness};
use serde_json::Value;

const CASES: [&str; 4] = [
    include_str!("../../../statics/tests/cases/l02_board_off_middle_inside_kern.json"),
    include_str!("../../../statics/tests/cases/l05_column5.json"),
    include_str!("../../../statics/tests/cases/l08_eccentric_steps.json"),
    include_str!("../../../statics/tests/cases/l09_planks_and_layers.json"),
];

/// A number of the report against one of a worked case, to its part.
fn alike(what: &str, got: &Value, want: &Value, part: f64) {
    let (got, want) = (got.as_f64(), want.as_f64());
    match (got, want) {
        (Some(got), Some(want)) => near(what, got, want, part * want.abs().max(1e-6), ""),
        (got, want) => assert_eq!(got, want, "{what}"),
    }
}

/// The worked cases of soft bags (`cases/l*.json`): settlement, lean, critical load factor and amplification of every
/// step, and how each piece moved in the end.
#[test]
fn the_report_tells_the_worked_soft_stacks() {
    for text in CASES {
        let case: Value = serde_json::from_str(text).unwrap();
        let name = &case["id"];
        let got = told(&softened(&case), Reach::Checks);
        let expect = &case["expect"];
        for (got, want) in list(&got["steps"]).iter().zip(list(&expect["steps"])) {
            let (what, soft) = (format!("{name}, step {}", want["step"]), &got["soft"]);
            assert_eq!(soft["stands"].as_bool().unwrap_or(false), want["stands"].as_bool().unwrap(), "{what}");
            if want["stands"] == false {
                continue;
            }
            assert_eq!(soft["modulus_from"], "stated", "{what}");
            alike(&format!("{what}: critical"), &soft["critical"], &want["critical"], 1e-6);
            alike(&format!("{what}: amplification"), &soft["amplification"], &want["amplification"], 1e-6);
            alike(&format!("{what}: settlement"), &soft["settlement_m"], &want["max_settlement"], 1e-6);
            alike(&format!("{what}: tilt"), &soft["tilt_rad"], &want["max_tilt"], 1e-5);
            for axis in 0..2 {
                let (got, want) = (soft["shift_m"][axis].as_f64().unwrap(), want["shift"][axis].as_f64().unwrap());
                near(&format!("{what}: shift {axis}"), got, want, 1e-6 * want.abs().max(1e-3), "m");
            }
        }
        for (piece, got) in got["soft_pieces"].as_array().into_iter().flatten().enumerate() {
            alike(&format!("{name}: sinking of {piece}"), &got["settlement_m"], &expect["settlement"][piece], 1e-6);
        }
    }
}

pub(crate) fn column(count: u32, softness: Option<Softness>) -> Plan {
    let mut plan = with_ballast(&bench(), |lots| (lots[0].softness, lots[0].count) = (softness, 12));
    plan.bed.bearings[0].x = crate::bench::at([-0.2, 0.7]);
    plan.bed.bearings[0].y = crate::bench::at([-0.4, 0.4]);
    plan.bed.bearings.truncate(1);
    plan.stack = (1..=count).map(|item| place("sand bag", item, [0.2, 0.0])).collect();
    plan
}

pub(crate) fn stated(modulus_pa: f64) -> Softness {
    Softness { modulus: Pressure::pa(modulus_pa), rim: None, from: SoftnessFrom::Stated, ..soft(modulus_pa, 0.0) }
}

/// A straight column of bags of 0.50 x 0.33 x 0.11 m and 25 kg at 0.3 MPa, whole faces: seven times its weight with
/// five. Source: check value 16 of an independent program, 7.2886.
#[test]
fn a_column_of_bags_bears_so_many_times_its_weight() {
    let plan = column(5, Some(soft(0.3e6, 0.0)));
    let finding = found(&plan, Reach::Checks, Check::CriticalLoadFactor);
    near("critical load factor", finding.value.expect("a number").si(), 7.2886, 1e-4, "");
    assert_eq!((finding.state, finding.limit), (State::Met, Some(Amount::Ratio(3.0))), "{finding:?}");
    assert_eq!(finding.place, Where::Step { step: 4, layer: None }, "{finding:?}");
}

/// What is said of bags that nobody measured, by what is said at 0.1, 0.3 and 1 MPa.
fn of_three([low, usual, high]: [State; 3]) -> State {
    match () {
        () if high == State::Fails => State::Fails,
        () if low == State::Met => State::Met,
        () if usual.falls_short() => State::Undecided,
        () => State::Caution,
    }
}

/// The usual rim: the same bags lean over far sooner, and the rule of three softnesses says so without a measurement:
/// whatever the check, what is said of bags that nobody measured follows from what is said at 0.1, 0.3 and 1 MPa.
#[test]
fn bags_that_nobody_measured_are_judged_at_three_softnesses() {
    let mut seen = Vec::new();
    for count in [2, 4, 6, 10] {
        let state = |softness: Option<Softness>, check: Check| -> Option<State> {
            let findings = assess(&column(count, softness), Ask::checks()).findings;
            findings.iter().filter(|finding| finding.check == check).map(|finding| finding.state).max()
        };
        for check in [Check::EveryStepStands, Check::CollapseReserve, Check::CriticalLoadFactor] {
            let [low, usual, high] = [0.1e6, 0.3e6, 1.0e6].map(|modulus| state(Some(stated(modulus)), check).unwrap());
            let want = of_three([low, usual, high]);
            let got = state(None, check).expect("it is judged");
            assert_eq!(got, want, "{count} bags, {check:?}: {low:?}, {usual:?}, {high:?}");
            seen.push(got);
        }
    }
    for state in [State::Met, State::Caution, State::Undecided, State::Fails] {
        assert!(seen.contains(&state), "{state:?} is among what was judged: {seen:?}");
    }
}

#[test]
fn bags_that_nobody_measured_are_told_to_be_measured() {
    let finding = found(&column(4, None), Reach::Checks, Check::CriticalLoadFactor);
    for part in ["0.3 MPa", "nobody measured", "three bags, ten minutes"] {
        assert!(finding.text.contains(part), "“{part}” in {}", finding.text);
    }
    let measured = found(&column(4, Some(stated(0.3e6))), Reach::Checks, Check::CriticalLoadFactor);
    assert!(!measured.text.contains("nobody measured"), "{}", measured.text);
}

/// What is told as reserve anywhere is the lesser of both, at every step.
#[test]
fn the_reserve_is_the_lesser_of_the_rigid_and_the_soft_one() {
    let assessment = assess(&column(6, Some(stated(0.3e6))), Ask::full());
    let exact = assessment.exact.as_ref().expect("solved");
    let soft = exact.soft.as_ref().expect("bags give");
    assert_eq!(soft.from, SoftFrom::Stated);
    for (step, reserve) in exact.reserves.iter().enumerate() {
        let number = |decision: statics::Decision| decision.reserve().map_or(f64::NEG_INFINITY, |r| r.multiplier);
        let rigid = number(exact.steps[step].least);
        let pushed = soft.usual.reserve(step).map_or(f64::INFINITY, number);
        near(&format!("reserve of step {step}"), number(reserve.least), rigid.min(pushed), 1e-12, "");
        assert_eq!(reserve.by == Told::Soft, pushed < rigid, "step {step}: {reserve:?}");
    }
    let weakest = exact.weakest_step().expect("steps").1;
    assert_eq!(weakest.by, Told::Soft, "a column of soft bags leans before it slides: {weakest:?}");
    let finding = found(&column(6, Some(stated(0.3e6))), Reach::Full, Check::CollapseReserve);
    assert!(finding.text.contains("as its bags give"), "{}", finding.text);
}

/// A bag 30 mm aside on two others makes the stack lean that way: the offset that is judged is the rigid one and the
/// shift of the centroid.
#[test]
fn lean_joins_the_offset() {
    let plan = put(&column(3, Some(soft(0.1e6, 0.0))), 2, [0.23, 0.0]);
    let finding = found(&plan, Reach::Checks, Check::OffsetForeAndAft);
    let report = told(&plan, Reach::Checks);
    let shift = report["steps"][2]["soft"]["shift_m"][0].as_f64().unwrap();
    assert!(shift > 1e-4, "got a shift of {shift} m, want it aft");
    near("offset", finding.value.expect("a number").si(), 0.010 + shift, 1e-9, "m");
    let rigid: Finding = found(&plan, Reach::ClosedForm, Check::OffsetForeAndAft);
    near("rigid offset", rigid.value.expect("a number").si(), 0.010, 1e-9, "m");
}

/// Three legs of one stiffness under a load on their middle: it sinks by its weight over their sum. Source: `own
/// derivation`, springs side by side.
#[test]
fn the_article_sinks_on_its_supports() {
    let stiffness = 2e5;
    let plan = with_fixture(&column(3, None), |fixture| {
        fixture.hold_downs.clear();
        let places = [[0.8, -0.5], [0.8, 0.5], [2.0, 0.0]];
        for (support, [x, y]) in fixture.supports.iter_mut().zip(places) {
            support.at = crate::bench::at([x, y, 0.0]);
            support.stiffness = Some(Stiffness::n_per_m(stiffness));
        }
    });
    let report = told(&plan, Reach::Checks);
    let article = &report["steps"][2]["article"];
    near("sink", article["sink_m"].as_f64().unwrap(), 75.0 * GRAVITY / (3.0 * stiffness), 1e-6, "m");
    near("pitch", article["pitch_deg"].as_f64().unwrap(), 0.0, 1e-6, "deg");
    let unknown = with_fixture(&plan, |fixture| fixture.supports.iter_mut().for_each(|s| s.stiffness = None));
    assert_eq!(told(&unknown, Reach::Checks)["steps"][2]["article"], Value::Null, "nobody said how they give");
}

/// A rim carries nothing: 30 mm of it takes 30 mm from the edge on which a bag tips.
#[test]
fn a_rim_cuts_the_rigid_margin_too() {
    let plan = put(&without(&bench(), &[2]), 1, [0.4, 0.0]);
    let edge = |rim_m: f64| {
        let plan = with_ballast(&plan, |lots| lots[0].softness = Some(soft(10e6, rim_m)));
        assess(&plan, Ask::closed()).closed.layers.last().expect("layers").edge_m
    };
    near("cut by the rim", edge(0.0) - edge(0.03), 0.03, 1e-9, "m");
    assert_eq!(bag().softness.and_then(|softness| softness.rim).map(Quantity::si), Some(0.0));
}

/// Nobody decided whether it stands: then no hold of it has a time.
#[test]
fn a_stack_that_is_not_known_to_stand_has_no_hold_time() {
    let mut plan = column(5, Some(Softness { creep_per_decade: 0.0, ..soft(0.3e6, 0.0) }));
    plan.holds = vec![plan::Hold::at("ultimate", 1.0)];
    plan.load_cases[0].occupant_mass = quantity::Mass::kg(125.0 / 6.0);
    let told = |effort| {
        let assessment = assess::assess(&plan, assess::Ask { effort, ..assess::Ask::to(Reach::Checks) });
        crate::given::all_of(&assessment.findings, Check::HoldTime).len()
    };
    assert_eq!(told(assess::Ask::to(Reach::Checks).effort), 1);
    assert_eq!(told(assess::Effort { own: 0, general: 0 }), 0, "not decided");
}

/// Creep takes the modulus down with the logarithm of time, and the critical load factor of a column is nearly in
/// proportion to it: what is left of 7.29 after a hold is 7.29 / (1 + C log10(t / 60 s)). Source: `schmertmann-creep`
/// (second-hand) for the form.
#[test]
fn a_hold_may_last_until_creep_takes_the_critical_load_factor_to_its_limit() {
    let creeping = |per_decade: f64| Softness { creep_per_decade: per_decade, ..soft(0.3e6, 0.0) };
    let at = |per_decade: f64, critical: f64| {
        let mut plan = column(5, Some(creeping(per_decade)));
        plan.holds = vec![plan::Hold::at("ultimate", 1.0)];
        (plan.load_cases[0].occupant_mass, plan.allow.critical) = (quantity::Mass::kg(125.0 / 6.0), critical);
        found(&plan, Reach::Checks, Check::HoldTime)
    };
    let long = at(0.0, 5.0);
    assert_eq!(long.state, State::Met, "{long:?}");
    assert!(long.value.expect("a time").si() >= 86_400.0, "bags that do not creep hold for a day: {long:?}");
    // C = 0.2: the factor falls to 6.0 when 1 + 0.2 log10(t / 60) = 7.2886 / 6.0.
    let finding = at(0.2, 6.0);
    let want = 60.0 * 10.0_f64.powf((7.2886 / 6.0 - 1.0) / 0.2);
    near("time", finding.value.expect("a time").si(), want, 0.03 * want, "s");
    let none = at(0.2, 8.0);
    assert_eq!(none.state, State::Fails, "it is below the limit from the first minute on: {none:?}");
}

/// The legs of the bench sink 6.1 mm under 75 kg: what is left of the gap is told, and a block that the article comes
/// to rest on fails.
#[test]
fn a_catch_block_must_stay_clear_of_the_article_as_it_sinks() {
    let plan = |gap_m: f64, stiffness: Option<f64>| {
        with_fixture(&column(3, None), |fixture| {
            let places = [[0.8, -0.5], [0.8, 0.5], [2.0, 0.0]];
            for (support, [x, y]) in fixture.supports.iter_mut().zip(places) {
                support.at = crate::bench::at([x, y, 0.0]);
                support.stiffness = stiffness.map(Stiffness::n_per_m);
            }
            let (at, gap) = (crate::bench::at([1.2, 0.0, 0.3]), quantity::Length::m(gap_m));
            fixture.catch_blocks = vec![plan::CatchBlock { name: "pan".to_owned(), at, gap }];
        })
    };
    let sink = 75.0 * GRAVITY / (3.0 * 4e4);
    let of = |plan: &Plan| found(plan, Reach::Checks, Check::CatchBlocks);
    for (gap, state) in [(0.015, State::Met), (0.0065, State::Caution), (0.006, State::Fails), (0.2, State::Caution)] {
        let finding = of(&plan(gap, Some(4e4)));
        assert_eq!(finding.state, state, "gap {gap} m: {finding:?}");
        near("left", finding.value.expect("a gap").si(), gap - sink, 2e-5, "m");
    }
    let unknown = of(&plan(0.015, None));
    assert_eq!((unknown.state, unknown.value), (State::Caution, None), "{unknown:?}");
    assert!(unknown.text.contains("no support has a stiffness"), "{}", unknown.text);
    let none = of(&with_fixture(&plan(0.015, Some(4e4)), |fixture| fixture.catch_blocks.clear()));
    assert_eq!((none.state, none.value, none.limit), (State::Caution, None, None), "{none:?}");
    assert!(none.text.contains("No catch block is entered"), "{}", none.text);
}

/// By hand: the bed of the bench is level at its height; a block whose top and gap reach above it stands in the stack,
/// and one 3 m behind the last support catches nothing that is known of.
#[test]
fn a_catch_block_stands_under_the_seat_and_not_beside_the_article() {
    let bench = column(3, None);
    let seat_m = bench.floor_from_bed() * nalgebra::Point3::origin();
    let of = |x: f64, top_m: f64, gap_m: f64| {
        let plan = with_fixture(&bench, |fixture| {
            let (at, gap) = (crate::bench::at([x, 0.0, top_m]), quantity::Length::m(gap_m));
            fixture.catch_blocks = vec![plan::CatchBlock { name: "pan".to_owned(), at, gap }];
        });
        found(&plan, Reach::Checks, Check::CatchBlocks)
    };
    let in_the_pile = of(seat_m.x, seat_m.z - 0.010, 0.015);
    assert_eq!(in_the_pile.state, State::Fails, "{in_the_pile:?}");
    assert!(in_the_pile.text.contains("or the block stands in the stack"), "{}", in_the_pile.text);
    let under = of(seat_m.x, seat_m.z - 0.020, 0.015);
    assert!(under.state < State::Fails && !under.text.contains("in the stack"), "{under:?}");
    let farthest_m = bench.fixture.supports.iter().map(|support| support.at[0].si()).fold(f64::MIN, f64::max);
    let beside = of(farthest_m + 3.0, 0.1, 0.015);
    assert!(beside.state >= State::Caution && beside.text.contains("stands 3000 mm beside"), "{beside:?}");
}

/// The peak of a bag that falls 50 mm onto a pile: W (1 + sqrt(1 + 2 h K / W)). The springs in a row are those of the
/// bags of the column, at the whole face: E A / t each. Source: textbook, `falling-weight-on-spring`.
#[test]
fn a_blow_is_that_of_a_weight_on_a_spring() {
    let plan = column(3, Some(soft(0.3e6, 0.0)));
    let finding = found(&plan, Reach::Checks, Check::SetDownHard);
    let Where::Step { step, .. } = finding.place else { panic!("{finding:?}") };
    let (weight, bag) = (25.0 * GRAVITY, 0.3e6 * 0.5 * 0.33 / 0.11);
    let pile = bag / f64::from(u32::try_from(step + 1).unwrap());
    let want = weight * (1.0 + (1.0 + 2.0 * 0.05 * pile / weight).sqrt());
    near("peak", finding.value.expect("a force").si(), want, 0.02 * want, "N");
    assert!(finding.text.contains("then let go"), "{}", finding.text);
}

/// While a piece is dragged nothing is solved: what stands in the head is then no more than the rigid closed form, and
/// no less than what the solved stack bears.
#[test]
fn the_reserve_of_a_drag_counts_the_bags_and_bounds_the_solved_one_from_above() {
    let plan = column(6, Some(stated(0.3e6)));
    let number =
        |reserve: Option<assess::StepReserve>| reserve.and_then(|r| r.least.reserve()).expect("a reserve").multiplier;
    let (dragged, solved) = (assess(&plan, Ask::closed()), assess(&plan, Ask::checks()));
    let rigid = dragged.closed.steps[5].least.reserve().expect("a reserve").multiplier;
    let (bound, true_one) = (number(dragged.reserve(5)), number(solved.reserve(5)));
    assert!(bound < rigid, "got {bound}, want less than the rigid {rigid}");
    assert!(bound >= true_one, "got {bound}, want no less than the solved {true_one}");
    assert_eq!(dragged.weakest_step(), Some(5), "the whole column is the weakest");
}

/// A column that leans over acts nowhere that is known: its rigid offset is told by nothing.
#[test]
fn the_offset_of_a_stack_that_leans_over_is_not_decided() {
    for check in [Check::OffsetForeAndAft, Check::OffsetLateral] {
        let fallen = found(&column(10, Some(stated(0.1e6))), Reach::Checks, check);
        assert_eq!((fallen.state, fallen.value), (State::Undecided, None), "{fallen:?}");
        // At 0.1 MPa it falls, so that nothing is met even there.
        let unmeasured = found(&column(6, None), Reach::Checks, check);
        assert_ne!(unmeasured.state, State::Met, "{unmeasured:?}");
    }
}

/// A crooked column with a hold after its fourth bag, of which the lean decides whether it is within.
fn leaning_at_a_hold(softness: Option<Softness>, allowed_m: f64) -> Finding {
    let mut plan = column(5, softness);
    for (step, place) in plan.stack.iter_mut().enumerate() {
        place.at = crate::bench::at([if step == 0 { 0.2 } else { 0.23 }, 0.0]);
    }
    plan.holds = [("most", 0.8), ("ultimate", 1.0)].map(|(name, at)| plan::Hold::at(name, at)).to_vec();
    plan.holds[0].tolerance = Some([allowed_m, 0.5].map(quantity::Length::m));
    plan.load_cases[0].occupant_mass = quantity::Mass::kg(125.0 / 6.0);
    found(&plan, Reach::Checks, Check::OffsetAtHolds)
}

/// The hold's offset hangs on the lean as that of the whole stack does: the same rule of three softnesses.
#[test]
fn the_offset_at_a_hold_is_judged_at_three_softnesses_too() {
    let mut seen = Vec::new();
    // The rigid offset is 22.5 mm: 30 mm of three bags in four.
    for more_m in [-0.001, 0.0003, 0.0006, 0.001, 0.002, 0.004, 0.008, 0.3] {
        let allowed_m = 0.0225 + more_m;
        let states = [0.1e6, 0.3e6, 1.0e6].map(|modulus| leaning_at_a_hold(Some(stated(modulus)), allowed_m).state);
        let got = leaning_at_a_hold(None, allowed_m);
        assert_eq!(got.state, of_three(states), "allowed {allowed_m} m: {states:?}, {got:?}");
        assert_eq!(got.limit, Some(Amount::Distance(allowed_m)), "{got:?}");
        let fits = got.value.is_none_or(|value| value.si() <= allowed_m);
        assert!(fits || got.state.falls_short(), "what is beyond its limit falls short: {got:?}");
        seen.push(got.state);
    }
    for state in [State::Caution, State::Undecided, State::Fails] {
        assert!(seen.contains(&state), "{state:?} is among what was judged: {seen:?}");
    }
}
