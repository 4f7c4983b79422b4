//! The table of rules from which a load case is begun, against the paragraphs.

use crate::figure::{Figure, Near, Status, cases};
use assess::load::Load;
use plan::standard::{self, Special, Standard};
use plan::{LoadCase, Plan};
use quantity::{Kind, Mass, Quantity, Units};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    rule: String,
    occupant: Option<Paragraph>,
    load_factor: Paragraph,
    safety: Paragraph,
    /// What fittings and attachments bear more.
    #[serde(default)]
    attachments: Option<Paragraph>,
    /// Limit and ultimate load, worked by hand from the row (`derived`).
    loads: Option<(String, String)>,
}

/// A figure as its paragraph prints it.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Paragraph {
    printed: String,
    source: String,
    status: Status,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Factor {
    name: String,
    figure: Paragraph,
}

fn rows() -> Vec<Row> {
    cases("rules.ron", include_str!("cases/rules.ron"))
}

fn factors() -> Vec<Factor> {
    cases("special_factors.ron", include_str!("cases/special_factors.ron"))
}

impl Paragraph {
    /// The table's figure against the printed one. A recalled one is told and decides nothing, but
    /// the table must say that it is recalled.
    fn check<T>(&self, about: &str, table: &standard::Figure<T>, got: f64, unit: &str) {
        let about = format!("{about} ({}, {})", self.source, table.place);
        assert_eq!(table.source, self.source, "{about}: source");
        assert!(same(table.status, self.status), "{about}: the table says {:?}", table.status);
        let want = Figure::printed(&self.printed).value;
        let near = Near { about: &about, unit, within: 0.0 };
        if self.status == Status::Memory { near.tell(got, want) } else { near.check(got, want) }
    }
}

fn same(table: standard::Status, case: Status) -> bool {
    matches!(
        (table, case),
        (standard::Status::Seen, Status::Seen)
            | (standard::Status::SeenSecondHand, Status::SeenSecondHand)
            | (standard::Status::Memory, Status::Memory)
    )
}

fn rule(name: &str) -> &'static Standard {
    Standard::all().iter().find(|rule| rule.name == name).unwrap_or_else(|| panic!("the table lacks “{name}”"))
}

fn started(rule: &Standard) -> LoadCase {
    rule.fill(&Plan::blank(Units::Metric).load_cases[0])
}

#[test]
fn every_rule_of_the_table_is_held_against_its_paragraphs() {
    let held: Vec<String> = rows().into_iter().map(|row| row.rule).collect();
    let offered: Vec<&str> = Standard::all().iter().map(|rule| rule.name.as_str()).collect();
    assert_eq!(held, offered);
    let held: Vec<String> = factors().into_iter().map(|factor| factor.name).collect();
    let offered: Vec<&str> = Special::all().iter().map(|special| special.name.as_str()).collect();
    assert_eq!(held, offered);
}

#[test]
fn load_factors_masses_and_factors_are_what_the_paragraphs_print() {
    for row in rows() {
        let rule = rule(&row.rule);
        let case = started(rule);
        let about = |what: &str| format!("{}, {what}", row.rule);
        row.load_factor.check(&about("load factor"), &rule.load_factor, case.load_factor, "");
        row.safety.check(&about("factor of safety"), &rule.safety, case.safety_factor, "");
        match (&row.attachments, &rule.attachments) {
            (Some(paragraph), Some(figure)) => paragraph.check(&about("attachments"), figure, figure.value, ""),
            (None, None) => {}
            _ => panic!("{}: table and case differ in whether attachments bear more", row.rule),
        }
        match (&row.occupant, &rule.occupant) {
            (Some(paragraph), Some(figure)) => {
                let unit = Figure::printed(&paragraph.printed).unit_of(Kind::Mass);
                paragraph.check(&about("occupant"), figure, case.occupant_mass.si() / unit.si, unit.symbol);
            }
            (None, None) => {}
            _ => panic!("{}: table and case differ in whether an occupant is told", row.rule),
        }
    }
}

#[test]
fn special_factors_are_what_the_paragraphs_print() {
    for (factor, special) in factors().iter().zip(Special::all()) {
        factor.figure.check(&factor.name, &special.factor, special.factor.value, "");
    }
}

/// Arithmetic on the row's own inputs, recalled or not (source key `load-case-arithmetic`).
#[test]
fn a_case_begun_from_a_rule_has_the_loads_that_its_figures_make() {
    for row in rows() {
        let Some((limit, ultimate)) = &row.loads else { continue };
        let load = Load::of(&started(rule(&row.rule)));
        for (what, got, printed) in
            [("limit load", load.limit.as_mass(), limit), ("ultimate load", load.ultimate.as_mass(), ultimate)]
        {
            let want = Figure::printed(printed);
            let unit = want.unit_of(Kind::Mass);
            let about = format!("{}, {what}", row.rule);
            Near { about: &about, unit: unit.symbol, within: want.half_digit }.check(in_unit(got, unit.si), want.value);
        }
    }
}

fn in_unit(mass: Mass, unit_kg: f64) -> f64 {
    mass.si() / unit_kg
}

/// A second place prints the load factors of several rows (source key `homebuilt-testing-article`,
/// read as quoted).
#[test]
fn an_article_on_testing_prints_the_same_load_factors() {
    for (name, printed) in [
        ("14 CFR 23, normal category", "3.8"),
        ("14 CFR 23, utility category", "4.4"),
        ("CS-22, utility", "5.3"),
        ("14 CFR 23, aerobatic category", "6"),
    ] {
        let near = Near { about: name, unit: "", within: 0.0 };
        near.check(rule(name).load_factor.value, Figure::printed(printed).value);
    }
}

/// The commuter row's factor is recalled. The same expression was read in another part (source key
/// `cfr-25-337`): 2.1 + 24 000 / (W + 10 000), which need not be more than 3.8; it is 3.8 at
/// 24 000 / 1.7 - 10 000 = 4117.65 lb (`derived`).
#[test]
fn the_recalled_manoeuvre_factor_is_the_greatest_that_the_expression_asks() {
    let asked = |weight_lb: f64| (2.1 + 24_000.0 / (weight_lb + 10_000.0)).min(3.8);
    let recalled = rule("14 CFR 23, commuter category").load_factor.value;
    for (weight_lb, what) in [(2_000.0, "a light one"), (4_117.0, "at the bend")] {
        Near { about: what, unit: "", within: 0.0 }.check(recalled, asked(weight_lb));
    }
    assert!(asked(4_200.0) < 3.8, "beyond the bend less is asked: got {}", asked(4_200.0));
}

/// Source key `cfr-23-785-c`: 170 lb goes with the ultimate factors of an emergency landing alone; flight
/// and ground loads fall under (a), 215 lb.
#[test]
fn no_limit_load_of_the_table_is_that_of_a_170_lb_occupant() {
    for rule in Standard::all() {
        let Some(occupant) = &rule.occupant else { continue };
        let is_light = occupant.printed == "170 lb";
        assert!(!is_light || rule.given == standard::Given::Ultimate, "{}: 170 lb at a limit load", rule.name);
    }
}

/// Source key `cfr-23-621`, (c): castings whose failure would hurt somebody, of seats and belts by name, are
/// critical: nothing below 1.25, and 2.0 does not follow from a look alone.
#[test]
fn a_critical_casting_needs_more_than_a_look() {
    let critical: Vec<_> = Special::all().iter().filter(|special| special.name.starts_with("critical")).collect();
    assert_eq!(critical.len(), 2, "two ways");
    for special in critical {
        assert!(special.factor.place.contains("(c)"), "{}", special.factor.place);
        assert!(special.about.contains("seat"), "{}", special.about);
        assert!(special.about.contains("X-rayed") || special.about.contains("one more way"), "{}", special.about);
    }
}

/// Source key `cfr-23-785-a`: who starts from the rule sees what attachments must bear more.
#[test]
fn a_case_begun_from_a_rule_with_attachments_tells_of_them_in_its_basis() {
    let mut told = 0;
    for rule in Standard::all() {
        let basis = started(rule).basis;
        assert_eq!(basis.contains("1.33 (23.785(a), read as quoted) times"), rule.attachments.is_some(), "{basis}");
        told += usize::from(rule.attachments.is_some());
    }
    assert_eq!(told, 4, "the four categories of 14 CFR 23");
}
