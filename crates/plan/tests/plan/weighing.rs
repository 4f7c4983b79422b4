//! Weighing lists: read, written, summed up; slips pointed out.

use crate::WRITTEN;
use crate::near::assert_near;
use plan::file::{read, write};
use plan::weighing::{self, Asked};
use plan::{Edit, Lot, Plan};
use proptest::prelude::*;
use quantity::unit::{POUND_KG, by_symbol};
use quantity::{Mass, Quantity, Unit, Units};

fn plan() -> Plan {
    read(WRITTEN).unwrap_or_else(|error| panic!("{error}"))
}

fn unit(symbol: &str) -> Unit {
    by_symbol(symbol).expect("a known unit")
}

/// Thirty bags of nominally 25 ± 0.8 kg; the weighed ones as given.
fn bags(weighed_kg: &[f64]) -> Lot {
    let mut lot = plan().lot("gravel bag").expect("the lot").clone();
    lot.weighed = (1..).zip(weighed_kg.iter().map(|kg| Mass::kg(*kg))).collect();
    lot
}

fn read_list(text: &str, bare: &str) -> weighing::Read {
    let lot = bags(&[]);
    weighing::read(text, &Asked { lot: &lot, first_item: 1, bare: unit(bare) })
}

/// Sentences with their rows.
type Sentences<'r> = Vec<(usize, &'r str)>;

/// Items with their masses, and the sentences with their rows.
fn told(read: &weighing::Read) -> (Vec<(u32, f64)>, Sentences<'_>) {
    let masses = read.masses.iter().map(|(item, mass)| (*item, (mass.si() * 1e6).round() / 1e6)).collect();
    (masses, read.wrong.iter().map(|wrong| (wrong.row, wrong.sentence.as_str())).collect())
}

#[test]
fn a_column_is_read_with_and_without_units_and_marks_of_either_kind() {
    // 55.1 lb = 24.992939587 kg (source key `nist-sp811`).
    let read = read_list("24.6\n24,8 kg\n55.1 lb\n25200 g\n", "kg");
    assert_eq!(told(&read), (vec![(1, 24.6), (2, 24.8), (3, 24.99294), (4, 25.2)], vec![]));
}

#[test]
fn bare_numbers_take_the_unit_that_the_scale_reads_in_unless_the_head_names_another() {
    let pounds = read_list("55\n", "lb").masses[0].1.si();
    assert_near("bare in pounds", pounds, 55.0 * POUND_KG, 1e-12, "kg");
    for head in ["mass (lb)", "weight, lbs", "Mass [lb]"] {
        let got = read_list(&format!("{head}\n55\n"), "kg").masses[0].1.si();
        assert_near(head, got, 55.0 * POUND_KG, 1e-12, "kg");
    }
}

#[test]
fn an_empty_line_passes_an_item_over() {
    let read = read_list("24.6\r\n\r\n24.8\r\n\r\n", "kg");
    assert_eq!(told(&read), (vec![(1, 24.6), (3, 24.8)], vec![]));
}

#[test]
fn lines_that_do_not_fit_are_named_with_their_row_and_what_fits_and_the_rest_is_read() {
    let read = read_list("mass\n24.6\nabout 25\n24.8 m\n0\n1,000\n25.1\n", "kg");
    let (masses, wrong) = told(&read);
    assert_eq!(masses, vec![(1, 24.6), (6, 25.1)]);
    assert_eq!(
        wrong,
        vec![
            (3, "“about 25” does not begin with a number: a mass is expected, in kg, g or lb"),
            (4, "“m” in “24.8 m” does not fit: a mass is expected, in kg, g or lb"),
            (5, "“0” is not more than 0: a weighed mass must be more than 0"),
            (6, "“1,000” can be read two ways: write 1000 for a thousand, or 1.000 for a decimal"),
        ]
    );
}

#[test]
fn columns_are_found_by_their_heads_in_any_order_and_by_any_parting() {
    for text in [
        "item,mass (kg)\n3,24.6\n1,25.2\n",
        "Item;Mass (kg)\n3;24,6\n1;25,2\n",
        "remark\tmass kg\tNo.\nred tie\t24.6\t3\n\t25.2\t1\n",
        "3\t24.6\n1\t25.2 kg\n",
        "\u{feff}item,\"mass (kg)\"\r\n3,\"24.6\"\r\n1,\"25,2\"\r\n",
    ] {
        let read = read_list(text, "kg");
        assert_eq!(told(&read), (vec![(3, 24.6), (1, 25.2)], vec![]), "{text:?}");
    }
}

#[test]
fn items_that_the_lot_lacks_or_that_stand_there_twice_are_refused() {
    let read = read_list("item,mass (kg)\n31,24.6\n2,25.2\n2,25.3\nx,25\n", "kg");
    let (masses, wrong) = told(&read);
    assert_eq!(masses, vec![(2, 25.2)]);
    assert_eq!(
        wrong,
        vec![
            (2, "lot “gravel bag” has no item 31: its items are numbered from 1 to 30"),
            (4, "item 2 stands in row 3 already: keep one of the two"),
            (5, "“x” is no item number: a whole number from 1 on would fit"),
        ]
    );
}

#[test]
fn a_list_without_masses_says_what_would_fit() {
    let (_, wrong) = (0, read_list("item,colour\n1,red\n", "kg").wrong);
    assert_eq!(wrong[0].sentence, "the head names no column of masses: “item” and “mass (kg)” would fit");
    let three = read_list("1;24.6;red\n", "kg").wrong;
    assert_eq!(three[0].sentence, "3 columns without a head: put “item” and “mass (kg)” over them");
}

#[test]
fn a_written_list_reads_back_to_the_same_masses_and_the_same_bytes() {
    let lot = bags(&[24.6, 25.35, 24.992_939_587]);
    for units in [Units::Metric, Units::InchPound] {
        let text = weighing::write(&lot, units);
        assert_eq!(text.lines().count(), 31, "a head and thirty items in\n{text}");
        let read = weighing::read(&text, &Asked { lot: &lot, first_item: 1, bare: unit("g") });
        assert_eq!(read.wrong, vec![], "{text}");
        let mut back = lot.clone();
        back.weighed = read.masses.into_iter().collect();
        for (item, mass) in &lot.weighed {
            assert_near(&format!("item {item}"), back.weighed[item].si(), mass.si(), 1e-10, "kg");
        }
        assert_eq!(weighing::write(&back, units), text);
    }
}

/// Mean, standard deviation, range of 24.6, 25.0, 25.4, 25.8 kg, by hand (`own derivation`):
/// 25.2; sqrt((0.36 + 0.04 + 0.04 + 0.36) / 3) = 0.516398.
#[test]
fn the_summary_is_that_of_a_sample() {
    let lot = bags(&[24.6, 25.0, 25.4, 25.8]);
    let summary = weighing::summary(&lot);
    assert_eq!((summary.weighed, summary.left), (4, 26));
    assert_near("mean", summary.mean.expect("a mean").si(), 25.2, 1e-12, "kg");
    assert_near("deviation", summary.deviation.expect("a deviation").si(), 0.516_397_779_5, 1e-9, "kg");
    let [least, most] = summary.range.expect("a range").map(Quantity::si);
    assert_near("least", least, 24.6, 0.0, "kg");
    assert_near("most", most, 25.8, 0.0, "kg");
    // 100.8 kg weighed and 26 of 25 kg.
    assert_near("all", lot.mass_of_all().si(), 100.8 + 650.0, 1e-9, "kg");
    let none = weighing::summary(&bags(&[]));
    assert_eq!((none.mean, none.deviation, none.range), (None, None, None));
    assert_eq!(weighing::summary(&bags(&[25.0])).deviation, None);
}

#[test]
fn weighings_that_stand_apart_are_named_with_the_slip_that_explains_them() {
    let usual = [24.6, 25.1, 25.0, 24.8, 25.3];
    assert_eq!(weighing::outliers(&bags(&usual)), vec![]);
    let rows = [
        (55.1, Some(55.1 * POUND_KG), "did the scale read in pounds"),
        (11.3, Some(11.3 / POUND_KG), "did the scale read in kilograms"),
        (2.5, Some(25.0), "is the decimal mark in its place"),
        (251.0, Some(25.1), "is the decimal mark in its place"),
        (25_100.0, Some(25.1), "did the scale read in grams"),
        (29.0, None, "weigh it again"),
    ];
    for (slip_kg, meant_kg, words) in rows {
        let lot = bags(&[usual.as_slice(), &[slip_kg]].concat());
        let [found] = &weighing::outliers(&lot)[..] else { panic!("{slip_kg} kg: one stands apart") };
        assert_eq!(found.item, 6);
        let sentence = found.sentence(&lot, Units::Metric);
        assert!(sentence.contains(words), "{sentence}");
        match (found.meant, meant_kg) {
            (Some((got, _)), Some(want)) => assert_near(&sentence, got.si(), want, 1e-9, "kg"),
            (got, want) => assert_eq!(got.is_some(), want.is_some(), "{sentence}"),
        }
    }
}

/// The middle one of five, the mean of the two in the middle of six: the definition of the median.
#[test]
fn what_stands_apart_is_held_against_the_median_of_all() {
    for (masses, median_kg) in
        [(&[25.0, 25.0, 25.2, 25.4, 31.0][..], 25.2), (&[25.0, 25.0, 25.2, 25.4, 25.4, 31.0], 25.3)]
    {
        let [found] = &weighing::outliers(&bags(masses))[..] else { panic!("one stands apart") };
        assert_near("the others", found.others.si(), median_kg, 1e-9, "kg");
    }
}

#[test]
fn few_weighings_are_judged_by_the_nominal_mass() {
    // 25 ± 0.8 kg: 3.5 times 0.4 kg away is 1.4 kg.
    assert_eq!(weighing::outliers(&bags(&[26.3, 26.3])), vec![]);
    assert_eq!(weighing::outliers(&bags(&[26.3, 26.5])).len(), 1);
}

#[test]
fn many_weighings_are_one_edit_and_go_with_one_undo() {
    let before = plan();
    let masses = vec![(3, None), (5, Some(Mass::kg(24.9))), (6, Some(Mass::kg(25.2)))];
    let edit = Edit::Weigh { lot: "gravel bag".to_owned(), masses };
    assert_eq!(edit.name(&before), "weigh 3 of gravel bag");
    let after = edit.apply(&before).expect("the edit fits");
    let lot = after.lot("gravel bag").expect("the lot");
    assert!(!lot.is_weighed(3), "taken back");
    assert_near("item 5", lot.mass_of(5).si(), 24.9, 0.0, "kg");
    assert_near("item 6", lot.mass_of(6).si(), 25.2, 0.0, "kg");
    assert_ne!(write(&before), write(&after));
    let one = |mass| Edit::Weigh { lot: "gravel bag".to_owned(), masses: vec![(7, mass)] }.name(&before);
    assert_eq!(one(Some(Mass::kg(25.0))), "weigh gravel bag 7");
    assert_eq!(one(None), "take back what gravel bag 7 weighs");
}

#[test]
fn a_weighing_of_an_item_that_is_not_there_is_refused() {
    let edit = Edit::Weigh { lot: "gravel bag".to_owned(), masses: vec![(31, Some(Mass::kg(25.0)))] };
    let fault = edit.apply(&plan()).expect_err("the lot has thirty");
    assert!(fault.sentence.contains("no item 31"), "{}", fault.sentence);
}

/// A list as programs and people leave it: columns, heads, marks, quotes, and what does not belong there.
fn list() -> impl Strategy<Value = String> {
    let cell = prop_oneof![
        "[0-9]{1,4}",
        "[0-9]{1,3}[.,][0-9]{1,3}",
        "[0-9]{1,3}[.][0-9]{1,2} (kg|lb|g|N)",
        "(item|mass \\(kg\\)|mass)",
        "[-=+@]?[0-9]{1,3}",
        "\"[^\"]{0,6}\"?",
        "\\PC{0,8}",
        "1e[0-9]{1,3} kg",
        Just(String::new()),
    ];
    let line = (prop::collection::vec(cell, 0..4), prop::sample::select(vec![",", ";", "\t", " "]))
        .prop_map(|(cells, mark)| cells.join(mark));
    (prop::collection::vec(line, 0..12), prop::sample::select(vec!["\n", "\r\n", "\r"]), any::<bool>())
        .prop_map(|(lines, end, marked)| format!("{}{}", if marked { "\u{feff}" } else { "" }, lines.join(end)))
}

proptest! {
    #[test]
    fn any_list_is_read_or_told_line_by_line_and_what_was_read_is_written_and_read_again(text in list()) {
        let read = read_list(&text, "kg");
        for wrong in &read.wrong {
            prop_assert!(!wrong.sentence.is_empty() && !wrong.sentence.contains('\n'), "{wrong:?}");
            prop_assert!((1..=text.lines().count()).contains(&wrong.row), "{wrong:?}");
        }
        let mut lot = bags(&[]);
        for (item, mass) in &read.masses {
            prop_assert!((1..=lot.count).contains(item) && mass.si() > 0.0 && mass.si().is_finite(), "{item} {mass:?}");
            lot.weighed.insert(*item, *mass);
        }
        prop_assert_eq!(lot.weighed.len(), read.masses.len(), "each item once");
        let written = weighing::write(&lot, Units::Metric);
        let asked = Asked { lot: &lot, first_item: 1, bare: unit("lb") };
        let again = weighing::read(&written, &asked);
        prop_assert_eq!(&again.wrong, &[]);
        lot.weighed = again.masses.into_iter().collect();
        prop_assert_eq!(weighing::write(&lot, Units::Metric), written);
    }
}
