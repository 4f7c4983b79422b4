//! Units against their definitions.

use crate::near::assert_near;
use quantity::unit::{UNITS, by_symbol};
use quantity::{Force, Length, Mass, Pressure, Quantity, STANDARD_GRAVITY_M_S2, Stiffness};

/// Source key `nist-sp811`: pound, inch and standard gravity are exact, and with them pound-force
/// and psi. The products were worked out by hand in whole decimals (`derived`):
/// 0.45359237 x 9.80665 = 4.4482216152605 exactly.
#[test]
fn units_are_worth_their_definitions() {
    let rows = [
        ("m", 1.0),
        ("cm", 0.01),
        ("mm", 0.001),
        ("in", 0.0254),
        ("ft", 0.3048),
        ("kg", 1.0),
        ("g", 0.001),
        ("lb", 0.453_592_37),
        ("N", 1.0),
        ("daN", 10.0),
        ("kN", 1000.0),
        ("kgf", 9.806_65),
        ("lbf", 4.448_221_615_260_5),
        ("N/m", 1.0),
        ("N/mm", 1000.0),
        ("lbf/in", 4.448_221_615_260_5 / 0.0254),
        ("Pa", 1.0),
        ("MPa", 1.0e6),
        ("psi", 4.448_221_615_260_5 / 0.000_645_16),
        ("deg", std::f64::consts::PI / 180.0),
        ("rad", 1.0),
        ("s", 1.0),
        ("min", 60.0),
        ("h", 3600.0),
    ];
    assert_eq!(rows.len(), UNITS.len(), "every unit has its row");
    for (symbol, si) in rows {
        let unit = by_symbol(symbol).expect("the unit is known");
        assert_near(symbol, unit.si, si, si * 2e-16, "SI");
    }
}

/// Source key `nist-sp811` (definition of standard gravity).
#[test]
fn standard_gravity_is_its_definition() {
    assert_near("g0", STANDARD_GRAVITY_M_S2, 9.806_65, 0.0, "m/s2");
}

/// `derived` from the definitions above.
#[test]
fn typed_units_arrive_in_si() {
    let mass = |text| Mass::parse(text).expect("a mass").si();
    let length = |text| Length::parse(text).expect("a length").si();
    assert_near("60 lb", mass("60 lb"), 27.215_542_2, 1e-14, "kg");
    assert_near("4 ft 2 in", length("4 ft 2 in"), 1.27, 1e-15, "m");
    assert_near("3 1/4 in", length("3 1/4 in"), 0.082_55, 1e-16, "m");
    assert_near("1 kgf", Force::parse("1 kgf").expect("a force").si(), 9.806_65, 0.0, "N");
    assert_near("25 N/mm", Stiffness::parse("25 N/mm").expect("a stiffness").si(), 25_000.0, 0.0, "N/m");
    assert_near("18 MPa", Pressure::parse("18 MPa").expect("a pressure").si(), 18.0e6, 0.0, "Pa");
}
