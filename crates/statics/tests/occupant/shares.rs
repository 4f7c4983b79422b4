//! Shares of mass: as printed, and summing to one.

use crate::{figure, mid_man, person};
use statics::occupant::{Person, Posture, Segment, Sex, Table};

/// A printed table: shares of one side, in the order head and neck, trunk, upper arm, forearm, hand,
/// thigh, shank, foot; and what they sum to as printed.
struct Printed {
    name: &'static str,
    shares: [f64; 8],
    sum: f64,
}

/// Both limbs count.
fn sum(shares: &[f64; 8]) -> f64 {
    shares[0] + shares[1] + 2.0 * shares[2..].iter().sum::<f64>()
}

const PRINTED: [Printed; 10] = [
    // Source: `de-leva-1996`, read where somebody repeats the table.
    Printed { name: "de Leva, men", shares: DE_LEVA_MEN, sum: 1.0000 },
    Printed { name: "de Leva, women", shares: DE_LEVA_WOMEN, sum: 0.9999 },
    // Source: `winter-table-4-1`.
    Printed { name: "Winter", shares: WINTER, sum: 1.0000 },
    // Source: `dumas-2018`; thorax, abdomen and pelvis as one trunk.
    Printed { name: "Dumas, men", shares: DUMAS_MEN, sum: 1.0020 },
    // The reference has .985 + rounding of pelvis and thorax; the printed shares sum to 1.0040.
    Printed { name: "Dumas, women", shares: DUMAS_WOMEN, sum: 1.0040 },
    // Source: `clauser-1969`.
    Printed { name: "Clauser", shares: [0.0728, 0.507, 0.0263, 0.0161, 0.0065, 0.1027, 0.0435, 0.0147], sum: 0.9994 },
    // Source: `dempster-1955`; the shoulders, 5.15 on each side, go with the trunk. What is lacking
    // was lost in dissection.
    Printed {
        name: "Dempster",
        shares: [0.079, 0.110 + 0.264 + 2.0 * 0.0515, 0.0265, 0.0155, 0.006, 0.0965, 0.045, 0.014],
        sum: 0.963,
    },
    // Source: `plagenhoef-1983`; the men's head is misprinted, 8.26 closes the sum.
    Printed {
        name: "Plagenhoef, men",
        shares: [0.0896, 0.4684, 0.0325, 0.0187, 0.0065, 0.1050, 0.0475, 0.0143],
        sum: 1.007,
    },
    Printed {
        name: "Plagenhoef, men, mended",
        shares: [0.0826, 0.4684, 0.0325, 0.0187, 0.0065, 0.1050, 0.0475, 0.0143],
        sum: 1.0,
    },
    Printed {
        name: "Plagenhoef, women",
        shares: [0.0820, 0.4500, 0.0290, 0.0157, 0.0050, 0.1175, 0.0535, 0.0133],
        sum: 1.0,
    },
];

const DE_LEVA_MEN: [f64; 8] = [0.0694, 0.4346, 0.0271, 0.0162, 0.0061, 0.1416, 0.0433, 0.0137];
const DE_LEVA_WOMEN: [f64; 8] = [0.0668, 0.4257, 0.0255, 0.0138, 0.0056, 0.1478, 0.0481, 0.0129];
const WINTER: [f64; 8] = [0.081, 0.497, 0.028, 0.016, 0.006, 0.100, 0.0465, 0.0145];
const DUMAS_MEN: [f64; 8] = [0.067, 0.304 + 0.029 + 0.142, 0.024, 0.017, 0.006, 0.123, 0.048, 0.012];
const DUMAS_WOMEN: [f64; 8] = [0.067, 0.263 + 0.041 + 0.147, 0.023, 0.014, 0.005, 0.146, 0.045, 0.010];

#[test]
fn printed_tables_sum_to_what_is_told_of_them() {
    for Printed { name, shares, sum: want } in &PRINTED {
        let (got, within) = (sum(shares), 0.0006);
        let off = got - want;
        assert!(off.abs() <= within, "{name}: the shares sum to {got:.4}, told {want:.4}, off {off:+.4}");
    }
}

/// Heads that go with the parts of a trunk in three. Source: `de-leva-1996`.
#[test]
fn a_trunk_in_three_weighs_what_the_whole_one_weighs() {
    for (name, parts, whole) in [("men", [0.1596, 0.1633, 0.1117], 0.4346), ("women", [0.1545, 0.1465, 0.1247], 0.4257)]
    {
        let got: f64 = parts.iter().sum();
        assert!((got - whole).abs() < 5e-5, "{name}: got {got:.4}, want {whole}, off {:+.4}", got - whole);
    }
}

#[test]
fn the_program_carries_the_shares_as_printed_scaled_to_one() {
    let tables = [
        (Table::DeLeva, Sex::Male, DE_LEVA_MEN),
        (Table::DeLeva, Sex::Female, DE_LEVA_WOMEN),
        (Table::Winter, Sex::Male, WINTER),
        (Table::Winter, Sex::Female, WINTER),
        (Table::Dumas, Sex::Male, DUMAS_MEN),
        (Table::Dumas, Sex::Female, DUMAS_WOMEN),
    ];
    for (table, sex, printed) in tables {
        let person = Person { table, ..person(sex, 70.0, 1700.0) };
        let parts = figure(&person, &Posture::UPRIGHT).parts;
        let whole: f64 = parts.iter().map(|part| part.share).sum();
        assert!((whole - 1.0).abs() < 1e-12, "{table:?} {sex:?}: the figure's shares sum to {whole}");
        for (k, part) in parts.iter().enumerate() {
            let sides = if k < 2 { 1.0 } else { 2.0 };
            let want = sides * printed[k] / sum(&printed);
            let off = part.share - want;
            assert!(
                off.abs() < 1e-12,
                "{table:?} {sex:?} {:?}: got {}, want {want}, off {off}",
                part.segment,
                part.share
            );
        }
    }
}

/// Shanks and feet are 11.4 % of the body. Source: `de-leva-1996`, men: 2 x (.0433 + .0137).
#[test]
fn floor_and_pedals_take_the_shanks_and_feet_off_the_seat() {
    let figure = figure(&mid_man(), &Posture::UPRIGHT);
    let (left, _) = figure.without_lower_legs();
    assert!((left - 0.886).abs() < 5e-4, "got {left:.4}, want 0.886, off {:+.4}", left - 0.886);
    let lower = |s: Segment| matches!(s, Segment::Shanks | Segment::Feet);
    let taken: f64 = figure.parts.iter().filter(|p| lower(p.segment)).map(|p| p.share).sum();
    assert!((taken + left - 1.0).abs() < 1e-12, "what is taken and what is left: {taken} and {left}");
}

#[test]
fn every_table_names_its_source() {
    for table in [Table::DeLeva, Table::Winter, Table::Dumas] {
        let (key, status) = table.source();
        assert!(key.contains('-'), "{table:?} has the key {key}");
        assert_eq!(status, statics::timber::Status::SeenSecondHand, "{table:?}: read where others repeat it");
    }
}
