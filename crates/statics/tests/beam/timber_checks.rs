//! Timber checks that were printed with all their numbers, from end to end.

use crate::stated::{bent, held, near, point};
use quantity::unit::{INCH_M, by_symbol};
use statics::beam::{Beam, Bending, CrossSection};
use statics::timber::{Allowables, Duration, allowable};

fn psi() -> f64 {
    by_symbol("psi").unwrap().si
}

fn pounds_n(pounds: f64) -> f64 {
    pounds * by_symbol("lbf").unwrap().si
}

/// 4x8 on edge, 8 ft, a load at mid-span.
fn printed_beam(pounds: f64, modulus_pa: f64) -> Bending {
    let section = CrossSection { width_m: 3.5 * INCH_M, depth_m: 7.25 * INCH_M, modulus_pa };
    let length_m = 96.0 * INCH_M;
    let loads = vec![point(0.5 * length_m, pounds_n(pounds))];
    bent(&Beam { length_m, section, loads, supports: vec![held(0.0), held(length_m)] })
}

fn on_edge(grade: &str, thick_in: f64, wide_in: f64, duration: Duration) -> Allowables {
    allowable(grade, wide_in * INCH_M, thick_in * INCH_M, duration, false).unwrap()
}

/// source key `timber-textbook-6`, solution 6.1 (read): F'b 1625 psi, F'v 225 psi, M 48 000 in-lb,
/// fb 1566 psi (exact 1565.5, so within 1), fv 59.1 psi, 0.156 in under 1600 lb; all hold.
#[test]
fn printed_beam_of_two_thousand_pounds_holds() {
    let bears = on_edge("Douglas Fir-Larch No. 1", 3.5, 7.25, Duration::Days);
    near("F'b", bears.bending_pa / psi(), 1625.0, 0.5, "psi");
    near("F'v", bears.shear_pa / psi(), 225.0, 0.5, "psi");
    let all = printed_beam(2000.0, bears.modulus_pa);
    near("M", all.moment.value / pounds_n(1.0) / INCH_M, 48_000.0, 0.5, "in-lb");
    near("fb", all.bending_pa / psi(), 1566.0, 1.0, "psi");
    near("fv", all.shear_pa / psi(), 59.1, 0.05, "psi");
    let live = printed_beam(1600.0, bears.modulus_pa);
    near("deflection", live.deflection.value / INCH_M, 0.156, 0.0005, "in");
    near("under all load", all.deflection.value / INCH_M, 0.195, 0.0005, "in");
    assert!(all.bending_pa < bears.bending_pa, "bending: {} of {} Pa", all.bending_pa, bears.bending_pa);
    assert!(all.shear_pa < bears.shear_pa, "shear: {} of {} Pa", all.shear_pa, bears.shear_pa);
}

/// source key `timber-textbook-6`, section of the same beam (read): A 25.375 in2, S 30.66 in3,
/// I 111.1 in4.
#[test]
fn printed_section_of_a_four_by_eight() {
    let section = CrossSection { width_m: 3.5 * INCH_M, depth_m: 7.25 * INCH_M, modulus_pa: 1.0 };
    near("area", section.area_m2() / INCH_M.powi(2), 25.375, 0.0005, "in2");
    near("S", section.section_modulus_m3() / INCH_M.powi(3), 30.66, 0.005, "in3");
    near("I", section.second_moment_m4() / INCH_M.powi(4), 111.1, 0.05, "in4");
}

/// source key `timber-textbook-6`, solution 6.2 (read): the same beam wet, 0.85 on bending, 0.97 on
/// shear, 0.9 on E: F'b 1381 psi, F'v 218 psi, 0.173 in; it fails in bending. The program
/// assumes dry wood: the wet factors are applied here.
#[test]
fn printed_beam_fails_when_wet() {
    let dry = on_edge("Douglas Fir-Larch No. 1", 3.5, 7.25, Duration::Days);
    let wet_pa = 0.85 * dry.bending_pa;
    near("F'b", wet_pa / psi(), 1381.0, 0.5, "psi");
    near("F'v", 0.97 * dry.shear_pa / psi(), 218.0, 0.5, "psi");
    near("E'", 0.9 * dry.modulus_pa / psi() / 1e6, 1.53, 0.005, "1e6 psi");
    let live = printed_beam(1600.0, 0.9 * dry.modulus_pa);
    near("deflection", live.deflection.value / INCH_M, 0.173, 0.0005, "in");
    let all = printed_beam(2000.0, 0.9 * dry.modulus_pa);
    assert!(all.bending_pa > wet_pa, "bending: {} Pa does not exceed {wet_pa} Pa", all.bending_pa);
}

/// source key `timber-lecture-2x8` (read): 2x8, snow, wet: F'b 1173 psi, F'v 201 psi.
#[test]
fn printed_allowables_of_a_two_by_eight_under_snow() {
    let dry = on_edge("Douglas Fir-Larch No. 1", 1.5, 7.25, Duration::Months);
    near("F'b", 0.85 * dry.bending_pa / psi(), 1173.0, 0.5, "psi");
    near("F'v", 0.97 * dry.shear_pa / psi(), 201.0, 0.5, "psi");
}

/// source key `timber-problem-4-30` (read): Hem-Fir No. 2, 2x10 at 16 in, snow: F'b 1237 psi (exact
/// 1236.5), F'v 173 psi (exact 172.5), E' 1.3e6 psi.
#[test]
fn printed_allowables_of_joists_side_by_side_under_snow() {
    let bears = on_edge("Hem-Fir No. 2", 1.5, 9.25, Duration::Months).side_by_side();
    // Both printed figures round an exact half up, so the tolerance takes the half in.
    near("F'b", bears.bending_pa / psi(), 1237.0, 0.51, "psi");
    near("F'v", bears.shear_pa / psi(), 173.0, 0.501, "psi");
    near("E'", bears.modulus_pa / psi(), 1.3e6, 0.5, "psi");
}

/// source key `timber-beam-lesson` (read: C24, k_mod 0.9, gamma_M 1.3): 24 x 0.9 / 1.3 = 16.615 MPa
/// (`derived`). The allowable is lower by the load's partial factor, since it meets plain weights.
#[test]
fn short_term_bending_strength_of_c24() {
    let bears = allowable("C24", 0.24, 0.12, Duration::Days, false).unwrap();
    near("f_m,d", 1.35 * bears.bending_pa / 1e6, 16.615, 0.0005, "MPa");
}
