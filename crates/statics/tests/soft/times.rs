//! What time does to bags.

use crate::given::{column, near, relatively};
use statics::soft::{READING_S, Softness, creep, creep_from_readings, passes_until};

#[test]
fn sinking_grows_by_a_tenth_for_each_factor_of_ten_in_time() {
    // Source: `schmertmann-creep` (second-hand): 1 + C log10(t/t0). By hand at 60 s, 600 s, 6000 s.
    for (time_s, want) in [(10.0, 1.0), (60.0, 1.0), (600.0, 1.1), (6000.0, 1.2)] {
        near(&format!("{time_s} s"), creep(time_s, 0.1), want, 1e-12, "");
    }
    let after = Softness::of(0.3e6, 0.11).after(600.0, 0.2);
    relatively("compliance", after.compliance_m3_per_n, 1.2 * 0.11 / 0.3e6, 1e-12, "m3/N");
}

#[test]
fn a_column_falls_when_its_bags_have_crept_by_what_it_had_in_hand() {
    // L = 1.0888 of ten bags of 0.3 MPa goes with the modulus, so that it is 1 after a creep of 0.0888: 10^(0.0888/0.1)
    // times 60 s (`own derivation`).
    let stands = |time_s: f64| column(10, Softness::of(0.3e6, 0.11).after(time_s, 0.1)).end().stands() == Some(true);
    let until = passes_until(1e6, stands).unwrap();
    relatively("holds until", until, READING_S * 10.0_f64.powf(0.888), 0.02, "s");
}

#[test]
fn what_never_passes_and_what_always_does_have_no_hour_between() {
    assert_eq!(passes_until(3600.0, |_| false), None, "not even at the reading");
    assert_eq!(passes_until(3600.0, |_| true), Some(3600.0), "to the end");
}

#[test]
fn three_bags_and_ten_minutes_tell_modulus_and_creep() {
    // Source: `elastic-bar`; worked out by hand: 250 kg sink a bag by 6 mm on a flat of 0.165 m2: c = 4.04e-7 m3/N, and
    // with a thickness of 0.11 m a modulus of 0.27 MPa.
    let soft = Softness::measured(6e-3, 0.165, 250.0);
    near("compliance", soft.compliance_m3_per_n, 4.04e-7, 5e-10, "m3/N");
    near("modulus", 0.11 / soft.compliance_m3_per_n, 0.27e6, 5e3, "Pa");
    near("creep", creep_from_readings(6e-3, (600.0, 6.6e-3)).unwrap(), 0.1, 1e-12, "");
    assert_eq!(creep_from_readings(6e-3, (60.0, 6.6e-3)), None, "no later than the first");
    assert_eq!(creep_from_readings(0.0, (600.0, 6.6e-3)), None, "it did not sink");
}
