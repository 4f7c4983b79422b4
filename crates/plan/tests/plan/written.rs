//! The text that is written.

use crate::{TYPED, WRITTEN};
use plan::Plan;
use plan::file::{fingerprint, read, write};
use quantity::Units;

fn plan(text: &str) -> Plan {
    read(text).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn a_written_file_is_written_again_byte_for_byte() {
    assert_eq!(write(&plan(WRITTEN)), WRITTEN);
}

#[test]
fn a_typed_file_keeps_its_values_as_they_were_typed() {
    let text = write(&plan(TYPED));
    for typed in
        ["\"210 lb\"", "\"148.5 lb\"", "(\"87.5 in\", \"-11 in\", \"26 in\")", "\"1600 lbf\"", "1: \"25.1 lb\""]
    {
        assert!(text.contains(typed), "{typed} is not in\n{text}");
    }
}

#[test]
fn a_plan_in_other_units_is_written_in_them() {
    let mut plan = plan(TYPED);
    plan.units = Units::Metric;
    // 210 lb and 86 in by their definitions (source key `nist-sp811`): 95.2543977 kg, 2.1844 m.
    let text = write(&plan);
    assert!(text.contains("\"95.2543977 kg\"") && text.contains("\"2.1844 m\""), "{text}");
}

#[test]
fn names_with_every_kind_of_sign_come_back() {
    let mut plan = plan(WRITTEN);
    for title in
        ["it's \"5\"", "back\\slash \\' end\\", "two\nlines\tand\r\nmore", "zero\u{0}, bell\u{7}", "Ünïcode 🪨 “x”", ""]
    {
        title.clone_into(&mut plan.title);
        let text = write(&plan);
        let title_lines = text.lines().filter(|line| line.starts_with("    title:")).count();
        assert_eq!(title_lines, 1, "one line for the title in\n{text}");
        assert_eq!(read(&text).unwrap_or_else(|error| panic!("{error}\n{text}")).title, title);
    }
}

#[test]
fn a_written_file_has_unix_line_ends_and_ends_with_one() {
    let text = write(&plan(TYPED));
    assert!(!text.contains('\r') && text.ends_with(")\n") && !text.ends_with("\n\n"), "{text}");
}

/// The digest of the file was taken with another engine, the `sha256sum` of GNU coreutils:
/// a046ea78d490270214… (`derived`).
#[test]
fn a_fingerprint_is_the_head_of_the_written_files_digest() {
    assert_eq!(fingerprint(&plan(WRITTEN)), "a046 ea78 d490");
}

#[test]
fn any_change_changes_the_fingerprint_and_saving_does_not() {
    let before = plan(WRITTEN);
    let mut after = before.clone();
    after.stack[0].locked = false;
    assert_ne!(fingerprint(&before), fingerprint(&after));
    assert_eq!(fingerprint(&before), fingerprint(&plan(&write(&before))));
}

#[test]
fn the_way_of_lifting_is_written_only_where_it_differs_from_what_format_1_means_without_it() {
    let mut plan = plan(WRITTEN);
    assert!(!write(&plan).contains("handling"), "left out");
    plan.allow.handling.reach = quantity::Length::m(0.3);
    let text = write(&plan);
    let line = "handling: Some(Handling(reach: \"0.3 m\", pick_up: \"0.15 m\", twist: \"30 deg\", lifts_per_minute: 1.0, spell: OneHour, grip: Poor, people: 1))";
    assert!(text.contains(line), "{text}");
    assert_eq!(read(&text).unwrap_or_else(|error| panic!("{error}")), plan);
}

#[test]
fn what_a_board_may_bear_by_own_figures_is_written_only_where_it_is_given() {
    let mut plan = plan(WRITTEN);
    assert!(!write(&plan).contains("strength"), "left out");
    let own = |mpa: f64| quantity::Pressure::pa(mpa * 1e6);
    plan.ballast[1].strength = Some(plan::Strength { bending: own(7.5), shear: own(0.8), modulus: own(9000.0) });
    let text = write(&plan);
    let field = "strength: Some(Strength(bending: \"7.5 MPa\", shear: \"0.8 MPa\", modulus: \"9000 MPa\"))";
    assert!(text.contains(field), "{text}");
    assert_eq!(read(&text).unwrap_or_else(|error| panic!("{error}")), plan);
}

#[test]
fn tolerance_of_a_hold_and_allowed_chance_are_written_only_where_they_are_the_plans_own() {
    let mut plan = plan(WRITTEN);
    let holds = write(&plan).split_once("holds:").map(|(_, rest)| rest.to_owned()).unwrap_or_default();
    assert!(!holds.contains("tolerance") && !holds.contains("chance"), "left out: {holds}");
    plan.holds[0].tolerance = Some([0.030, 0.020].map(quantity::Length::m));
    plan.allow.chance = 0.1;
    let text = write(&plan);
    for line in ["tolerance: (\"30 mm\", \"20 mm\")", "chance: 0.1"] {
        assert!(text.contains(line), "{line}: {text}");
    }
    assert_eq!(read(&text).unwrap_or_else(|error| panic!("{error}")), plan);
}

#[test]
fn the_demos_stand_as_the_program_writes_them() {
    for text in [
        include_str!("../../../../assets/examples/tandem-rear-seat.ron"),
        include_str!("../../../../assets/examples/side-by-side.ron"),
        include_str!("../../../../assets/examples/four-faults.ron"),
    ] {
        assert_eq!(write(&plan(text)), text);
    }
}
