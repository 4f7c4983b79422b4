//! Grades, factors and where there are none.

use crate::stated::near;
use quantity::unit::INCH_M;
use statics::timber::{Allowables, Duration, Lie, NoAllowable, Status, System, allowable, grades, look_up};

const DURATIONS: [Duration; 5] =
    [Duration::Minutes, Duration::Days, Duration::Months, Duration::Years, Duration::Permanent];

fn factor(allowables: &Allowables, symbol: &str) -> f64 {
    let found = allowables.factors.iter().find(|factor| factor.symbol == symbol);
    found.unwrap_or_else(|| panic!("no {symbol} in {allowables:?}")).value
}

#[test]
fn every_grade_of_the_table_has_an_allowable_for_every_duration() {
    assert!(grades().len() >= 10, "grades: got {}, want at least 10", grades().len());
    for grade in grades() {
        let all = DURATIONS.map(|duration| allowable(grade, 0.045, 0.19, duration, true).unwrap());
        for pair in all.windows(2) {
            assert!(pair[0].bending_pa >= pair[1].bending_pa, "{grade}: a longer load raises the bending allowable");
            assert!(pair[0].shear_pa >= pair[1].shear_pa, "{grade}: a longer load raises the shear allowable");
        }
        assert!(all[0].modulus_pa > 5e9 && all[0].modulus_pa < 2e10, "{grade}: modulus {} Pa", all[0].modulus_pa);
    }
}

#[test]
fn unknown_grade_has_no_allowable_and_the_reason_names_those_that_fit() {
    for grade in ["", "oak", "C25", "plywood"] {
        assert_eq!(allowable(grade, 0.045, 0.19, Duration::Days, true), None, "grade {grade:?}");
    }
    let told = look_up("oak", Lie { depth_m: 0.045, width_m: 0.19, flat: true }, Duration::Days).unwrap_err();
    assert!(told.to_string().starts_with("grade “oak” is not known; known grades: C14, C16,"), "got {told}");
}

#[test]
fn grade_is_known_however_it_is_written() {
    for (grade, want) in [("c24", "C24"), (" C 24", "C24"), ("spf no 2", "Spruce-Pine-Fir No. 1/No. 2")] {
        let got = allowable(grade, 0.045, 0.19, Duration::Days, true).unwrap();
        assert_eq!(got.grade, want, "grade {grade:?}");
    }
}

#[test]
fn lumber_thinner_than_its_table_has_no_allowable() {
    let thin = look_up("Hem-Fir No. 2", Lie { depth_m: 0.019, width_m: 0.19, flat: true }, Duration::Days);
    assert!(matches!(thin, Err(NoAllowable::Thickness { .. })), "19 mm thick: got {thin:?}");
    let none = look_up("C24", Lie { depth_m: 0.0, width_m: 0.19, flat: true }, Duration::Days);
    assert!(matches!(none, Err(NoAllowable::Size { .. })), "0 mm thick: got {none:?}");
}

/// k_h = min((150 / h)^0.2, 1.3) below 150 mm (source key `en-1995-1-1`, read second-hand; the
/// figure for 45 mm is own arithmetic).
#[test]
fn thin_boards_of_a_strength_class_are_raised_for_depth_up_to_the_ceiling() {
    for (depth_m, want) in [(0.225, 1.0), (0.15, 1.0), (0.045, 1.2723), (0.03, 1.3)] {
        let got = allowable("C24", depth_m, 0.19, Duration::Days, true).unwrap();
        near("k_h", factor(&got, "k_h"), want, 0.000_05, "(no unit)");
    }
}

/// C_F 1.3 and C_fu 1.15 of a two by six (source key `lumber-grading-rules`, read; source key
/// `nds-lumber`, read second-hand). Both act on a board that lies flat (read second-hand).
#[test]
fn flat_lumber_is_raised_for_size_and_flat_use() {
    let (thick_m, wide_m) = (1.5 * INCH_M, 5.5 * INCH_M);
    let flat = allowable("Hem-Fir No. 2", thick_m, wide_m, Duration::Years, true).unwrap();
    near("C_F", factor(&flat, "C_F"), 1.3, 1e-12, "(no unit)");
    near("C_fu", factor(&flat, "C_fu"), 1.15, 1e-12, "(no unit)");
    let careful = allowable("Hem-Fir No. 2", thick_m, wide_m, Duration::Years, false).unwrap();
    near("flat use left out", flat.bending_pa / careful.bending_pa, 1.15, 1e-12, "(no unit)");
    let on_edge = allowable("Hem-Fir No. 2", wide_m, thick_m, Duration::Years, true).unwrap();
    near("on edge", on_edge.bending_pa, careful.bending_pa, 1e-3, "Pa");
}

#[test]
fn sizes_between_two_of_the_table_take_the_smaller_factors() {
    let got = allowable("Hem-Fir No. 2", 0.045, 0.16, Duration::Years, true).unwrap();
    near("C_F of 160 mm", factor(&got, "C_F"), 1.2, 1e-12, "(no unit)");
    near("C_fu of 160 mm", factor(&got, "C_fu"), 1.15, 1e-12, "(no unit)");
    let metric = allowable("Hem-Fir No. 2", 0.038, 0.089, Duration::Years, true).unwrap();
    near("C_F of 89 mm", factor(&metric, "C_F"), 1.5, 1e-12, "(no unit)");
}

#[test]
fn recalled_figures_are_told_as_recalled() {
    let recalled = allowable("Douglas Fir-Larch No. 2", 0.038, 0.14, Duration::Days, true).unwrap();
    assert_eq!(recalled.status(), Status::Memory, "the status of a recalled grade");
    let read = allowable("Douglas Fir-Larch No. 1", 0.038, 0.14, Duration::Days, true).unwrap();
    assert_eq!(read.status(), Status::SeenSecondHand, "the status of a grade that was read second-hand");
    for factor in recalled.factors.iter().chain(&read.factors) {
        assert!(factor.source.contains('-'), "{}: source {:?}", factor.symbol, factor.source);
    }
}

#[test]
fn only_the_european_classes_have_a_value_across_the_grain() {
    let class = allowable("C24", 0.045, 0.19, Duration::Days, true).unwrap();
    let across_pa = class.across_bending_pa.unwrap();
    // 0.4 MPa, k_mod 0.9, gamma_M 1.3, gamma_G 1.35: own arithmetic.
    near("across the grain", across_pa, 0.4e6 * 0.9 / 1.3 / 1.35, 1e-3, "Pa");
    let lumber = allowable("Hem-Fir No. 2", 0.038, 0.14, Duration::Days, true).unwrap();
    assert_eq!(lumber.across_bending_pa, None, "across the grain of American lumber");
}

#[test]
fn own_figures_are_taken_as_they_are() {
    let own = Allowables::own(6e6, 0.5e6, 8e9).side_by_side();
    assert_eq!((own.system, own.factors.len(), own.status()), (System::Own, 0, Status::Own), "own figures");
    near("bending", own.bending_pa, 6e6, 0.0, "Pa");
}

#[test]
fn across_the_grain_the_limit_is_a_third_of_the_least_mean_of_clear_wood() {
    // Source: `wood-handbook-5`, seen: table 5-3a, tension across the grain. Sugar pine 2.4 MPa at 12 %, western white pine
    // 1.8 MPa green: the least.
    let limit = statics::timber::across_limit().unwrap();
    assert!((limit.mean_pa - 1.8e6).abs() < 1.0, "mean: got {} Pa, want 1.8e6 Pa", limit.mean_pa);
    assert!((limit.limit_pa - 0.6e6).abs() < 1.0, "limit: got {} Pa, want 0.6e6 Pa", limit.limit_pa);
    assert_eq!(limit.status, statics::timber::Status::Seen, "{}", limit.species);
}
