//! The Sheet page: pages in small that lead to the page, and some of them saved again.

use crate::forms::type_into;
use crate::stage::{decided, press, window};
use editor::Opening;
use egui_kittest::kittest::Queryable;

#[test]
fn a_click_leads_to_a_page_and_its_part_is_saved_again_by_itself() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut window = window(Opening::Demo, Some(folder.path().join("again.svg")));
    decided(&mut window);
    press(&mut window, "Sheet");
    window.run();
    // The third page is in sight among the pages in small; its part has no other page.
    press(&mut window, "Go to page 3");
    window.run();
    press(&mut window, "This layer or part");
    window.run();
    press(&mut window, "Save pages…");
    window.run();
    let saved = |page: &str| folder.path().join(format!("again-{page}.svg")).exists();
    assert_eq!(["02", "03", "04"].map(saved), [false, true, false], "this part alone");
    let text = std::fs::read_to_string(folder.path().join("again-03.svg")).expect("the page");
    assert!(text.contains("Level, catch") && text.contains("page 3 of "), "it keeps its number");
}

#[test]
fn pages_that_are_not_there_are_told_and_nothing_is_saved() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut window = window(Opening::Demo, Some(folder.path().join("again.pdf")));
    decided(&mut window);
    press(&mut window, "Sheet");
    window.run();
    type_into(&mut window, "Pages to save", "9-7");
    assert!(window.query_by_label_contains("Pages: type a number such as 3, or 3-5").is_some());
    assert_eq!(std::fs::read_dir(folder.path()).expect("a folder").count(), 0);
    type_into(&mut window, "Pages to save", "2-3");
    window.run();
    let bytes = std::fs::read(folder.path().join("again.pdf")).expect("saved by Return");
    assert!(bytes.starts_with(b"%PDF-"));
}
