//! The seated occupant against published tables, published seated people, a general-purpose library
//! and itself.

mod drags;
mod library;
mod postures;
mod properties;
mod seated_people;
mod shares;
mod weighings;

use statics::occupant::{Figure, Person, Posture, Sex, Table, seated};

/// Asserts a length in mm.
pub(crate) fn near_mm(what: &str, got: f64, want: f64, within: f64) {
    let off = got - want;
    assert!(off.abs() <= within, "{what}: got {got:.2} mm, want {want:.2} mm, off {off:+.2} mm, allowed {within} mm");
}

pub(crate) fn person(sex: Sex, mass_kg: f64, stature_mm: f64) -> Person {
    Person { mass_kg, stature_m: stature_mm * 1e-3, sex, table: Table::DeLeva, slump_m: 0.020 }
}

/// 85 kg and 1755 mm.
pub(crate) fn mid_man() -> Person {
    person(Sex::Male, 85.0, 1755.0)
}

/// Recline, pan, knee, arm, elbow, deg.
pub(crate) fn posture([recline, pan, knee, arm, elbow]: [f64; 5]) -> Posture {
    Posture {
        recline_rad: recline.to_radians(),
        pan_rad: pan.to_radians(),
        knee_rad: knee.to_radians(),
        arm_rad: arm.to_radians(),
        elbow_rad: elbow.to_radians(),
        ..Posture::UPRIGHT
    }
}

pub(crate) fn figure(person: &Person, posture: &Posture) -> Figure {
    seated(&person.build(), posture)
}

/// The centre of mass, mm.
pub(crate) fn cg_mm(person: &Person, posture: &Posture) -> [f64; 2] {
    figure(person, posture).cg_m().map(|m| 1e3 * m)
}
