//! Datums and instruments of the plan's own.

use super::*;

/// Mark and string are made before the first piece, and every row is told from them.
#[test]
fn places_are_told_from_marks_that_no_piece_covers() {
    let plan = plan_of(EXAMPLES[0].1);
    let pages = texts(&printed(&plan));
    assert!(
        pages.iter().any(|page| page.contains("Mark A: level with the front edge of “bucket floor”, on both sides"))
    );
    let layers: Vec<&String> = pages.iter().filter(|page| page.starts_with("Layer ")).collect();
    for page in &layers {
        for words in ["Front edge from A", "left edge from the string", "NOSE"] {
            assert!(page.contains(words), "no {words:?} in {page}");
        }
    }
    // By hand from the plan: shot bag 37 has its middle at 0.36 m, -0.16 m, is 0.24 m long and 0.16 m wide.
    assert!(
        layers_of(&pages)
            .contains("44 shot bag 37 11.3 kg, in all 459.3 Lengthwise, left row, 2nd of 2 240 aft 240 left")
    );
}

/// The same piece from datums of the plan's own: mark T stands 50 mm aft of the bed's origin, where the bucket floor's
/// front edge is at 0; the string runs 300 mm left of the middle. By hand: 360 - 120 - 50 = 190 aft;
/// -160 - 80 + 300 = 60 right.
#[test]
fn places_are_taped_from_the_plans_own_mark_and_string() {
    use quantity::Length;
    let mut plan = plan_of(EXAMPLES[0].1);
    plan.bed.marks = vec![plan::Mark { name: "T".to_owned(), at: [0.05, -0.35, 0.02].map(Length::m) }];
    plan.bed.string = Some(plan::StringLine { x: [-0.2, 0.9].map(Length::m), y: Length::m(-0.3) });
    let pages = texts(&printed(&plan));
    let whole = pages.join(" ");
    for words in [
        "Mark T: 50 mm aft of the bed's origin, 350 mm left of the bed's axis, 20 mm above the bed",
        "String: 300 mm left of the centreline, nail to nail, from 200 mm forward of to 900 mm aft of the bed's origin",
        "Front edge from T, left edge from the string, within",
    ] {
        assert!(whole.contains(words), "no “{words}” in {whole}");
    }
    let rows = layers_of(&pages);
    assert!(
        rows.contains("44 shot bag 37 11.3 kg, in all 459.3 Lengthwise, left row, 2nd of 2 190 aft 60 right"),
        "{rows}"
    );
    for words in ["edge from A", "from A, from string"] {
        assert!(!whole.contains(words), "the mark that the program would make up is told nowhere: {words}");
    }
}

#[test]
fn instruments_of_the_plan_stand_on_the_sheet_with_room_for_what_is_not_known() {
    let mut plan = plan_of(EXAMPLES[0].1);
    let mut scale = plan::Instrument::named("front cell");
    scale.number = "LC-7".to_owned();
    scale.calibrated_until = Some("2027-03-31".parse().expect("a day"));
    plan.instruments = vec![scale];
    let whole = texts(&printed(&plan)).join(" ");
    assert!(whole.contains("front cell LC-7") && whole.contains("2027-03-31"), "{whole}");
}
