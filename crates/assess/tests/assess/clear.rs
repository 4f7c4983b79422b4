//! Ballast stays away from what it must not touch.

use crate::bench::{bench, m, moved, stick, with_article, with_bed, without};
use crate::given::{CLOSED, Says, Want, all_of, found};
use assess::{Amount, Ask, Check, Reach, State, Where, assess};
use plan::{KeepClear, Plan};

fn beside(region: KeepClear) -> Plan {
    with_article(&bench(), |article| article.keep_clear = vec![region])
}

/// The bags' front faces stand at station 0.95 m; a stick's rear face at its own.
#[test]
fn ballast_is_held_against_the_clearance_of_each_region() {
    let rows: [(f64, State, Vec<usize>, Says); 5] = [
        (0.20, State::Met, vec![0], &["sand bag 1", "200", "stick", "25"]),
        (0.028, State::Caution, vec![0], &["sand bag 1", "28", "stick", "measure"]),
        (0.024, State::Fails, vec![0, 1, 2], &["sand bag 1", "24", "stick", "3 pieces", "Move them away"]),
        (0.0, State::Fails, vec![0, 1, 2], &["sand bag 1", "stick", "Move them away"]),
        (-0.02, State::Fails, vec![0, 1, 2], &["sand bag 1", "stick", "Move them away"]),
    ];
    for (apart, state, pieces, says) in rows {
        let (value, limit) = (Some(Amount::Distance(apart.max(0.0))), Some(Amount::Distance(0.025)));
        let want = Want { check: Check::KeepClear, state, value, limit, place: Where::Pieces(pieces), says };
        want.meets(&found(&beside(stick(0.95 - apart)), Reach::ClosedForm, want.check), CLOSED);
    }
}

#[test]
fn one_bag_that_comes_too_near_is_the_one_that_is_named() {
    let finding = found(&moved(&bench(), &[2], [-0.18, 0.0]), Reach::ClosedForm, Check::KeepClear);
    assert_eq!((finding.state, &finding.place), (State::Fails, &Where::Pieces(vec![2])), "{finding:?}");
    assert!(finding.text.contains("sand bag 3"), "{}", finding.text);
    assert!(finding.text.contains("Move it away"), "{}", finding.text);
}

#[test]
fn a_region_of_which_an_edge_is_not_entered_is_not_decided_however_far_off_it_is() {
    for (y_known, state) in
        [([false, true], State::Undecided), ([true, false], State::Undecided), ([true, true], State::Met)]
    {
        let finding = found(&beside(KeepClear { y_known, ..stick(0.75) }), Reach::ClosedForm, Check::KeepClear);
        assert_eq!(finding.state, state, "{y_known:?}: {finding:?}");
        if state == State::Undecided {
            assert!(finding.text.contains("How far “stick” reaches across is not entered"), "{}", finding.text);
        }
    }
}

/// Pythagoras: 0.03 m ahead of the bags and 0.04 m to the right of them.
#[test]
fn a_region_off_to_the_side_is_as_far_as_the_slanting_way() {
    let side = KeepClear { y: [m(0.165 + 0.04), m(0.4)], ..stick(0.95 - 0.03) };
    let finding = found(&beside(side), Reach::ClosedForm, Check::KeepClear);
    crate::given::near("distance", finding.value.unwrap().si(), 0.05, CLOSED, "m");
}

/// Touching is never allowed, even where no distance is asked.
#[test]
fn ballast_inside_a_region_falls_short_even_without_a_clearance() {
    for inside in [0.0, 0.02] {
        let region = KeepClear { clearance: m(0.0), ..stick(0.95 + inside) };
        let finding = found(&beside(region), Reach::ClosedForm, Check::KeepClear);
        assert_eq!(finding.state, State::Fails, "{inside} m inside: {finding:?}");
    }
}

/// A bed with its forward end up carries the stack's foot and top aft of and above where they were:
/// turned by s about the bed's origin, the lower front corner (-0.05, 0) lies at x = -0.05 cos s and the
/// upper one (-0.05, 0.33) at -0.05 cos s + 0.33 sin s (frames of the program).
#[test]
fn the_distance_is_that_of_the_turned_bags() {
    let sloped = with_bed(&bench(), |bed| bed.slope = crate::bench::degrees(-10.0));
    let turn = (-10.0_f64).to_radians();
    // The top front corner of bag 3 comes nearest to the stick's rear face at 0.75 m.
    let corner = 1.0 - 0.05 * turn.cos() + 0.33 * turn.sin();
    let finding = found(&sloped, Reach::ClosedForm, Check::KeepClear);
    crate::given::near("distance", finding.value.unwrap().si(), corner - 0.75, CLOSED, "m");
    assert_eq!(finding.place, Where::Pieces(vec![2]), "{finding:?}");
}

#[test]
fn an_empty_bed_comes_near_to_nothing() {
    let findings = assess(&without(&bench(), &[0, 1, 2]), Ask::closed()).findings;
    assert_eq!(all_of(&findings, Check::KeepClear), []);
}

/// Pieces whose boxes are far off are passed over: the least distance of all must come out all the same.
#[test]
fn the_distance_that_is_told_is_the_least_of_all_pieces() {
    let examples = [
        include_str!("../../../../assets/examples/tandem-rear-seat.ron"),
        include_str!("../../../../assets/examples/side-by-side.ron"),
        include_str!("../../../../assets/examples/four-faults.ron"),
    ];
    for (index, aft) in (0..3).flat_map(|index| [-0.3, -0.1, 0.0, 0.07, 0.4].map(|aft| (index, aft))) {
        let plan = plan::file::read(examples[index]).unwrap();
        let plan = moved(&plan, &(0..plan.steps()).step_by(3).collect::<Vec<_>>(), [aft, -0.2 * aft]);
        let assessment = assess(&plan, Ask::closed());
        let clearances = assess::Clearances::of(&plan);
        let told = all_of(&assessment.findings, Check::KeepClear);
        assert_eq!(told.len(), plan.article.keep_clear.len(), "one finding a region");
        let mut least: Vec<f64> = (0..plan.article.keep_clear.len())
            .map(|region| {
                let distance = |(place, underside_m): (&plan::Place, &f64)| {
                    clearances.distance_m(region, &assess::body(plan.lot_of(place), place), *underside_m)
                };
                plan.stack.iter().zip(&assessment.closed.pile.underside_m).map(distance).fold(f64::INFINITY, f64::min)
            })
            .collect();
        // The findings stand worst first.
        let mut got: Vec<f64> = told.iter().map(|finding| finding.value.map_or(f64::NAN, Amount::si)).collect();
        least.sort_by(f64::total_cmp);
        got.sort_by(f64::total_cmp);
        for (got, want) in got.into_iter().zip(least) {
            crate::given::near(&format!("example {index}, {aft} m aft"), got, want, CLOSED, "m");
        }
    }
}

/// A region off the bench's first bag, between two stations, two waterlines and two buttock lines, m.
fn off_the_bag([front, rear]: [f64; 2], [low, high]: [f64; 2], y: [f64; 2], clearance_m: f64) -> KeepClear {
    let side = [[front, low], [rear, low], [rear, high], [front, high]].map(|corner| corner.map(m));
    KeepClear {
        name: "rail".to_owned(),
        side: side.to_vec(),
        y: y.map(m),
        clearance: m(clearance_m),
        y_known: [true; 2],
    }
}

/// The first bag lies from station 0.95 m to 1.45 m, waterline 0.50 m to 0.61 m, 0.165 m to either side. Pythagoras at
/// its lower front and its upper rear corner, with legs of 30 and 40 mm; straight across to the left.
#[test]
fn a_region_before_over_or_beside_a_bag_is_as_far_as_a_ruler_says_and_the_clearance_decides() {
    let plan = bench();
    let bag = assess::body(&plan.ballast[0], &plan.stack[0]);
    let rows = [
        ([0.85, 0.92], [0.40, 0.46], [-0.1, 0.1], 0.05),
        ([1.48, 1.55], [0.65, 0.70], [-0.1, 0.1], 0.05),
        ([1.00, 1.40], [0.50, 0.60], [-0.5, -0.265], 0.10),
        ([1.00, 1.40], [0.50, 0.60], [0.245, 0.5], 0.08),
    ];
    for (stations, waterlines, y, want) in rows {
        for (clearance_m, is_clear) in [(want - 0.001, true), (want + 0.001, false)] {
            let region = off_the_bag(stations, waterlines, y, clearance_m);
            let clearances = assess::Clearances::of(&beside(region));
            crate::given::near("distance", clearances.distance_m(0, &bag, 0.0), want, CLOSED, "m");
            assert_eq!(clearances.is_clear(&bag, 0.0), is_clear, "{want} m away, {clearance_m} m asked");
        }
    }
}
