//! The one way in which numbers are compared here.

/// Fails with got, want, difference and unit.
pub(crate) fn assert_near(what: &str, got: f64, want: f64, within: f64, unit: &str) {
    let difference = got - want;
    assert!(difference.abs() <= within, "{what}: got {got} {unit}, want {want} {unit}, difference {difference} {unit}");
}
