//! The ledger against figures from outside.

use crate::bench::{Diary, limit_run_of, plan};
use crate::near::assert_near;
use testday::{Basis, Before, Entry, Pull, Scale, Weighed, ledger, weighed};

fn scale(at_m: [f64; 2], kg: [f64; 2]) -> Scale {
    Scale { at_m, kg, within_kg: 0.0, basis: Basis::Read }
}

#[track_caller]
fn assert_adds_up(ledger: &testday::Ledger) {
    let sum: f64 = ledger.rows.iter().map(|row| row.kg).sum();
    assert_near("sum of the rows", sum, ledger.net_kg, 1e-9, "kg");
}

/// Source: `faa-balance-handbook`, edition 1A, chapter 3 (recalled, the arithmetic is consistent):
/// 846 - 16 at 46 in, 852 - 16 at 46 in, 348 - 8 at -32 in: 2006 lb at 32.8 in.
#[test]
fn tare_is_taken_at_every_scale_as_the_handbook_does() {
    let (pound, inch) = (0.453_592_37, 0.0254);
    let at = |station: f64, reads: f64, tare: f64| scale([station * inch, 0.0], [tare * pound, reads * pound]);
    let weighed = Weighed {
        scales: vec![at(46.0, 846.0, 16.0), at(46.0, 852.0, 16.0), at(-32.0, 348.0, 8.0)],
        ..Weighed::default()
    };
    let ledger = ledger(&weighed);
    assert_near("net", ledger.net_kg / pound, 2006.0, 1e-9, "lb");
    assert_near("station", ledger.aft.expect("loaded").at_m / inch, 32.8, 0.05, "in");
    assert_adds_up(&ledger);
}

/// Boards of 9.6 kg lay on the seat when the tare was read: 116.6 kg before, 588.2 kg now, so that 471.6 kg came
/// on and 481.2 kg bear on the seat (own figures; the rule is common practice, no source).
#[test]
fn boards_that_lay_there_at_the_tare_are_load_all_the_same() {
    let mut weighed =
        Weighed { scales: [-0.6, 0.6].map(|right| scale([0.0, right], [58.3, 294.1])).to_vec(), ..Weighed::default() };
    assert_near("came on", ledger(&weighed).net_kg, 471.6, 1e-9, "kg");
    weighed.at_tare = vec![Before { kg: [9.6, 0.0], at_m: [0.0, 0.0] }];
    let ledger = ledger(&weighed);
    assert_near("on the seat", ledger.net_kg, 481.2, 1e-9, "kg");
    assert_near("lateral", ledger.right.expect("loaded").at_m, 0.0, 1e-12, "m");
    assert_adds_up(&ledger);
}

/// The numbers of a case that was worked by another program of ours outside this repository: two
/// scales, a strap between them, 275 kg at 30 mm to the right. Source: `own derivation`.
#[test]
fn strap_pull_is_taken_out_of_load_and_place() {
    let scales = vec![
        scale([0.0, -0.6], [37.882_808_620_7, 173.249_137_931]),
        scale([0.0, 0.6], [39.882_808_620_7, 188.999_137_931]),
    ];
    let naive = ledger(&Weighed { scales: scales.clone(), ..Weighed::default() });
    assert_near("without the strap", naive.net_kg, 284.482_658_621, 1e-8, "kg");
    let pull = Pull { at_m: [2.9, 0.0], n: [17.313_809_655_2, 110.307_904_483], within_n: 0.0, basis: Basis::Read };
    let ledger = ledger(&Weighed { scales, pulls: vec![pull], ..Weighed::default() });
    assert_near("net", ledger.net_kg, 275.0, 2e-4, "kg");
    assert_near("lateral", ledger.right.expect("loaded").at_m, 0.03, 2e-8, "m");
    assert_adds_up(&ledger);
}

#[test]
fn readings_as_expected_give_back_the_stack() {
    // What a strap loses hides the station: the bench without it.
    let mut plan = plan();
    plan.fixture.hold_downs.clear();
    let diary = limit_run_of(&plan);
    let (day, course) = (diary.day(), diary.course());
    let run = &day.runs[0];
    for (placed, weighing) in run.weighings.iter().enumerate() {
        let ledger = ledger(&weighed(run, &course, weighing).expect("all was read"));
        assert_near("net", ledger.net_kg, 25.0 * (placed as f64 + 1.0), 1e-6, "kg");
        assert_adds_up(&ledger);
        // The first four bags: 1.6 m in front of their middle row, alternately left and right.
        let right = [-0.16, 0.0, -0.16 / 3.0, 0.0][placed];
        let aft = [1.6, 1.6, 1.6 + 0.4 / 3.0, 1.8][placed];
        assert_near("lateral", ledger.right.expect("loaded").at_m, right, 1e-6, "m");
        assert_near("fore-aft", ledger.aft.expect("all supports are scales").at_m, aft, 1e-6, "m");
    }
}

#[test]
fn a_support_without_a_scale_is_reckoned_and_gives_no_station() {
    let mut plan = plan();
    plan.fixture.supports[2].scale = false;
    let mut diary = Diary::begin(&plan);
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).placed(1).read(1);
    let day = diary.day();
    let ledger = ledger(&weighed(day.run(), &diary.course(), &day.run().weighings[0]).expect("read"));
    assert_near("net", ledger.net_kg, 25.0, 1e-6, "kg");
    assert_eq!(ledger.aft, None);
    assert!(ledger.rows.iter().any(|row| row.basis == Basis::Reckoned && row.what.contains("without a scale")));
    let reckoned: f64 = ledger.rows.iter().filter(|row| row.basis == Basis::Reckoned).map(|row| row.kg).sum();
    assert_near("not measured", ledger.not_measured_kg.expect("a part was not"), reckoned, 1e-12, "kg");
    assert_adds_up(&ledger);
}

/// Own figures: five boards of 4.5 kg and two plates of 36.3 kg lie in a bucket of 38.2 kg at the tare, then
/// 27 bags of 11.31 kg come on. `own derivation`: sums.
#[test]
fn boards_and_plates_of_the_tare_count_beside_what_came_on() {
    let (stood, came) = (38.2 + 4.5 + 36.3, 27.0 * 11.31);
    let half = |kg: f64| kg / 2.0;
    let mut weighed = Weighed {
        scales: [-0.26, 0.26].map(|right| scale([0.0, right], [half(stood), half(stood + came)])).to_vec(),
        ..Weighed::default()
    };
    assert_near("came on", ledger(&weighed).net_kg, 305.37, 1e-9, "kg");
    weighed.at_tare = [4.5, 36.3].map(|kg| testday::Before { kg: [kg, 0.0], at_m: [0.0; 2] }).to_vec();
    let ledger = ledger(&weighed);
    assert_near("on the seat", ledger.net_kg, 346.17, 1e-9, "kg");
    assert_adds_up(&ledger);
}

/// A scale is off at the tare as well as at the reading. Division 0.2 kg, within a division up to 500 of them
/// (source key `nist-hb44`), read as rectangular: 2 × 0.2 / √3 = 0.2309 kg each, 0.3266 kg together.
#[test]
fn a_scale_brings_its_doubt_at_the_tare_and_at_the_reading() {
    let diary = limit_run_of(&plan());
    let (day, course) = (diary.day(), diary.course());
    let weighed = weighed(&day.runs[0], &course, &day.runs[0].weighings[0]).expect("read");
    assert_near("left scale", weighed.scales[0].within_kg, 0.3266, 1e-4, "kg");
}
