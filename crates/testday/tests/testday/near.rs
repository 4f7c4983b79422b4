//! Numbers held against numbers.

#[track_caller]
pub(crate) fn assert_near(what: &str, got: f64, want: f64, within: f64, unit: &str) {
    let off = got - want;
    assert!(off.abs() <= within, "{what}: got {got} {unit}, want {want} {unit}, off by {off} {unit}");
}
