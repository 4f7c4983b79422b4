//! Nothing is cut off and nothing lies over anything else: every page, from the smallest window to the largest, in
//! both systems of units, with long names, and at twice the scale. Read from what a frame paints and from where its
//! controls can be pressed.

mod faults;
mod seen;

use crate::stage::{decided, demo, press, window};
use crate::test_day::day;
use editor::{Editor, Opening};
use eframe::egui::{FontData, FontDefinitions, FontFamily, Rect, Vec2, pos2, vec2};
use egui_kittest::Harness;
use plan::Plan;

type Window = Harness<'static, Editor>;

/// Four sizes; the fifth is the largest window at 200 %, which lays out so many points.
const SIZES: [Vec2; 5] =
    [vec2(1024.0, 700.0), vec2(1280.0, 800.0), vec2(1440.0, 900.0), vec2(2560.0, 1440.0), vec2(1280.0, 720.0)];
const PAGES: [&str; 6] = ["Load case", "Fixture", "Ballast", "Stack", "Sheet", "Test day"];

/// The words that stand in the frame now.
pub(crate) fn words_shown(window: &Window) -> Vec<String> {
    seen::words(window.output()).into_iter().map(|word| word.text).collect()
}

/// The faults of what is shown now, in this size.
fn faults(window: &mut Window, size: Vec2) -> Vec<String> {
    window.set_size(size);
    // Where the pointer is heard is that of the frame before.
    window.step();
    window.run();
    let whole = Rect::from_min_size(pos2(0.0, 0.0), size);
    let own = plan::file::write(window.state().document().plan());
    faults::of(&seen::words(window.output()), &seen::controls(window), (whole, &own))
}

fn assert_in_order(window: &mut Window, what: &str) {
    let mut all = Vec::new();
    for size in SIZES {
        let told = |fault: String| format!("{what}, {} x {}: {fault}", size.x, size.y);
        all.extend(faults(window, size).into_iter().map(told));
    }
    assert!(all.is_empty(), "{} faults:\n{}", all.len(), all.join("\n"));
}

/// Of every page.
fn assert_pages_in_order(mut window: Window, what: &str) {
    decided(&mut window);
    let mut all = Vec::new();
    for page in PAGES {
        press(&mut window, page);
        for size in SIZES {
            let told = |fault: String| format!("{page}, {what}, {} x {}: {fault}", size.x, size.y);
            all.extend(faults(&mut window, size).into_iter().map(told));
        }
    }
    assert!(all.is_empty(), "{} faults:\n{}", all.len(), all.join("\n"));
}

/// The demo with something about it changed.
fn changed(change: impl Fn(&mut Plan)) -> Window {
    let mut plan = demo().state().document().plan().clone();
    change(&mut plan);
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("changed.ron");
    std::fs::write(&path, plan::file::write(&plan)).expect("a plan is written");
    window(Opening::File(path), None)
}

#[test]
fn no_page_of_the_demo_cuts_words_off_or_lays_anything_over_anything() {
    assert_pages_in_order(demo(), "the demo");
}

#[test]
fn nor_does_one_in_pounds_and_inches() {
    assert_pages_in_order(changed(|plan| plan.units = quantity::Units::InchPound), "in pounds and inches");
}

/// A name as somebody may give it who means well.
fn long(name: &str) -> String {
    format!("{name} as it was delivered in the second week of May")
}

/// What is too long for its place may end in dots; it must not lie over anything else.
#[test]
fn long_names_end_in_dots_and_lie_over_nothing() {
    let mut window = changed(|plan| {
        plan.title = long(&plan.title);
        plan.fixture.supports.iter_mut().for_each(|support| support.name = long(&support.name));
        plan.fixture.catch_blocks.iter_mut().for_each(|block| block.name = long(&block.name));
        plan.gauges.iter_mut().for_each(|gauge| gauge.name = long(&gauge.name));
        plan.holds.iter_mut().for_each(|hold| hold.name = long(&hold.name));
        plan.bed.bearings.iter_mut().for_each(|bearing| bearing.name = long(&bearing.name));
        plan.ballast.iter_mut().for_each(|lot| lot.name = long(&lot.name));
        plan.stack.iter_mut().for_each(|place| place.lot = long(&place.lot));
    });
    decided(&mut window);
    let mut all = Vec::new();
    for page in PAGES {
        press(&mut window, page);
        for size in SIZES {
            let over = faults(&mut window, size).into_iter().filter(|fault| !fault.contains("is left off"));
            all.extend(over.map(|fault| format!("{page}, {} x {}: {fault}", size.x, size.y)));
        }
    }
    assert!(all.is_empty(), "{} faults:\n{}", all.len(), all.join("\n"));
}

#[test]
fn a_test_day_is_read_from_afar_without_a_word_cut_off() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut window = day::begun(folder.path().join("day.testday"));
    assert_in_order(&mut window, "the tare");
    day::emptied(&mut window);
    assert_in_order(&mut window, "the first piece");
    day::go(&mut window, "Placed");
    assert_in_order(&mut window, "scales");
    let mut there = day::expected(&window, 1);
    there[0] += 1.5;
    day::weigh(&mut window, &there);
    assert_in_order(&mut window, "stopped");
}

/// The sheet's face for all words.
fn face() -> FontDefinitions {
    let mut fonts = FontDefinitions::empty();
    fonts.font_data.insert("sheet".to_owned(), FontData::from_static(drafting::text::regular()).into());
    for family in [FontFamily::Proportional, FontFamily::Monospace] {
        fonts.families.insert(family, vec!["sheet".to_owned()]);
    }
    fonts
}

/// The lint itself: what it must find is found.
#[test]
fn words_over_words_cut_words_and_controls_over_controls_are_found() {
    let mut dressed = false;
    let mut window = Harness::builder().with_size([200.0, 100.0]).build_ui(move |ui| {
        // A face given now is there in the next frame.
        if !std::mem::replace(&mut dressed, true) {
            return ui.ctx().set_fonts(face());
        }
        let at = |x: f32, y: f32, wide: f32| Rect::from_min_size(pos2(x, y), vec2(wide, 20.0));
        ui.put(at(10.0, 10.0, 80.0), eframe::egui::Button::new("one"));
        ui.put(at(60.0, 12.0, 80.0), eframe::egui::Button::new("two"));
        let painter = ui.painter();
        let (font, ink) = (eframe::egui::FontId::proportional(12.0), eframe::egui::Color32::BLACK);
        painter.text(pos2(10.0, 60.0), eframe::egui::Align2::LEFT_TOP, "below", font.clone(), ink);
        painter.text(pos2(14.0, 64.0), eframe::egui::Align2::LEFT_TOP, "above", font.clone(), ink);
        painter.text(pos2(180.0, 80.0), eframe::egui::Align2::LEFT_TOP, "beyond the edge", font, ink);
    });
    window.run();
    let whole = Rect::from_min_size(pos2(0.0, 0.0), vec2(200.0, 100.0));
    let found = faults::of(&seen::words(window.output()), &seen::controls(&window), (whole, "")).join("\n");
    for due in ["“two” at", "“above” at", "“beyond the edge” is cut off"] {
        assert!(found.contains(due), "{due} is not among\n{found}");
    }
}
