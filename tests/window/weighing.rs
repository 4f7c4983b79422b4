//! The weighing list: with the keyboard alone, from a pasted column, out to CSV and back.

use crate::files::asset;
use crate::stage::{demo, press, window};
use editor::{Editor, Opening};
use eframe::egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use plan::Lot;
use quantity::Quantity;

/// The first lot of the plan in the window.
fn lot(window: &Harness<'static, Editor>) -> Lot {
    window.state().document().plan().ballast[0].clone()
}

/// The Ballast page of the demo, with nothing weighed of its first lot: its first item is in hand.
fn unweighed() -> Harness<'static, Editor> {
    let text = std::fs::read_to_string(asset("assets/examples/tandem-rear-seat.ron")).expect("the demo");
    let mut plan = plan::file::read(&text).expect("the demo is a plan");
    plan.ballast[0].weighed.clear();
    let folder = tempfile::tempdir().expect("a test folder");
    let path = folder.path().join("unweighed.ron");
    std::fs::write(&path, plan::file::write(&plan)).expect("written");
    let mut window = crate::stage::window(Opening::File(path), None);
    press(&mut window, "Ballast");
    window
}

fn type_and_enter(window: &mut Harness<'static, Editor>, text: &str) {
    if !text.is_empty() {
        window.get_by_label("weighed mass").type_text(text);
        window.run();
    }
    window.key_press(Key::Enter);
    window.run();
}

#[test]
fn bags_are_weighed_one_after_the_other_with_the_keyboard_alone() {
    let mut window = unweighed();
    window.get_by_label("weighed mass").focus();
    window.run();
    // A bare number is in the unit that the scale reads in, the third with its own; the second item
    // is passed over: 55 lb = 24.94758035 kg (source key `nist-sp811`).
    for typed in ["24.6", "", "55 lb"] {
        type_and_enter(&mut window, typed);
    }
    let weighed = lot(&window).weighed;
    for (item, want) in [(1, 24.6), (3, 24.947_580_35)] {
        let got = weighed[&item].si();
        assert!((got - want).abs() < 1e-9, "item {item}: got {got} kg, want {want} kg, difference {} kg", got - want);
    }
    assert!(!weighed.contains_key(&2), "item 2 was passed over");
    assert_eq!(window.state().document().undo_name(), Some(format!("weigh {} 3", lot(&window).name).as_str()));
}

#[test]
fn the_list_follows_the_item_in_hand_to_its_end_and_a_weighing_can_be_taken_back() {
    let mut window = unweighed();
    let lot = lot(&window);
    let last = format!("{} {}: not weighed", lot.name, lot.count);
    assert!(window.query_by_label(&last).is_none(), "{last} lies below what is seen");
    window.get_by_label("weighed mass").focus();
    window.run();
    let to_the_end = |window: &mut Harness<'static, Editor>| {
        for _ in 1..lot.count {
            window.key_press(Key::ArrowDown);
            window.run();
        }
    };
    to_the_end(&mut window);
    assert!(window.query_by_label(&last).is_some(), "the list has come to {last}");
    type_and_enter(&mut window, "24.6");
    // After the last item it goes on with the first that is left.
    assert!(window.query_by_label(&format!("{} 1: not weighed", lot.name)).is_some(), "back at the head");
    to_the_end(&mut window);
    press(&mut window, &format!("{} {}: 24.6 kg", lot.name, lot.count));
    press(&mut window, "Delete weighing");
    assert!(window.state().document().plan().ballast[0].weighed.is_empty(), "taken back");
}

#[test]
fn what_does_not_fit_stays_in_the_field_with_a_sentence_and_changes_nothing() {
    let mut window = unweighed();
    window.get_by_label("weighed mass").focus();
    window.run();
    let before = lot(&window);
    type_and_enter(&mut window, "25 m");
    assert_eq!(lot(&window), before);
    let sentence = "“m” in “25 m” does not fit: a mass is expected, in kg, g or lb";
    assert!(window.query_by_label(sentence).is_some(), "the sentence stands under the field");
}

#[test]
fn a_pasted_column_names_its_wrong_rows_and_is_taken_as_one_edit_when_it_fits() {
    let mut window = unweighed();
    let name = lot(&window).name;
    press(&mut window, "Paste a column");
    let before = lot(&window);
    window.get_by_label("list of masses").type_text("24.6\nabout 25\n24.9 kg\n");
    window.run();
    let sentence = "Row 2: “about 25” does not begin with a number: a mass is expected, in kg, g or lb";
    assert!(window.query_by_label(sentence).is_some(), "the wrong row is named");
    press(&mut window, "Use 2 masses");
    assert_eq!(lot(&window), before, "nothing is taken while a row does not fit");
    press(&mut window, "Close the list");
    press(&mut window, "Paste a column");
    window.get_by_label("list of masses").type_text("24.6\n\n24.9 kg\n");
    window.run();
    press(&mut window, "Use 2 masses");
    let weighed = lot(&window).weighed;
    assert_eq!((weighed[&1].si(), weighed.get(&2), weighed[&3].si()), (24.6, None, 24.9));
    assert_eq!(window.state().document().undo_name(), Some(format!("weigh 2 of {name}").as_str()));
}

#[test]
fn a_list_that_is_saved_as_csv_is_opened_again_with_the_same_masses() {
    let folder = tempfile::tempdir().expect("a test folder");
    let path = folder.path().join("masses.csv");
    let mut window = window(Opening::Demo, Some(path.clone()));
    press(&mut window, "Ballast");
    let before = lot(&window);
    assert!(!before.weighed.is_empty(), "the demo's first lot is weighed");
    press(&mut window, "Save CSV");
    window.run();
    let text = std::fs::read_to_string(&path).expect("the list was written");
    assert!(text.starts_with("item,mass (kg)\n1,"), "{text}");
    let count = before.weighed.len();
    // One mass is changed in the file, as a spreadsheet would.
    let first = text.lines().nth(1).expect("a first item").to_owned();
    std::fs::write(&path, text.replacen(&first, "1,26.5", 1)).expect("written");
    press(&mut window, "Open CSV");
    window.run();
    // Below the fold of so long a list, so that it is chosen as a screen reader would.
    window.get_by_label(&format!("Use {count} masses")).click_accesskit();
    window.run();
    let after = lot(&window);
    assert!((after.weighed[&1].si() - 26.5).abs() < 1e-12, "got {:?}, want 26.5 kg", after.weighed[&1]);
    for item in before.weighed.keys().filter(|item| **item > 1) {
        let (got, want) = (after.weighed[item].si(), before.weighed[item].si());
        assert!((got - want).abs() < 1e-9, "item {item}: got {got} kg, want {want} kg, difference {} kg", got - want);
    }
}

#[test]
fn a_lot_is_added_from_a_ready_kind_with_what_its_numbers_rest_on() {
    let mut window = demo();
    press(&mut window, "Ballast");
    let before = window.state().document().plan().ballast.len();
    press(&mut window, "Add lot");
    assert!(
        window.query_by_label_contains("dry sand in bulk has 1281 kg/m³ to 1602 kg/m³").is_some(),
        "the ground is told"
    );
    press(&mut window, "Add this lot");
    let lots = window.state().document().plan().ballast.clone();
    assert_eq!(lots.len(), before + 1);
    // 20 kg over 0.45 m x 0.30 m at 1441.5 kg/m3 with nine tenths of the box filled.
    let (got, want) = (lots[before].size[2].si(), 20.0 / (0.9 * 1441.5 * 0.45 * 0.30));
    assert!((got - want).abs() < 1e-9, "got {got} m, want {want} m, difference {} m", got - want);
}

#[test]
fn the_way_of_lifting_is_typed_and_kept_in_the_plan() {
    let mut window = demo();
    press(&mut window, "Ballast");
    window.get_by_label("lifting reach").focus();
    window.run();
    window.key_press_modifiers(eframe::egui::Modifiers::COMMAND, Key::A);
    window.get_by_label("lifting reach").type_text("30 cm");
    window.run();
    window.key_press(Key::Enter);
    window.run();
    let got = window.state().document().plan().allow.handling.reach.si();
    assert!((got - 0.30).abs() < 1e-12, "got {got} m, want 0.30 m");
    assert!(window.query_by_label_contains("lifting index").is_some(), "the index is told");
}

/// 24.9 lb are 11.3 kg; read as 24.9 kg it stands apart from five others.
#[test]
fn a_slip_is_pointed_out_before_anything_is_made_of_the_mean() {
    let mut window = unweighed();
    window.get_by_label("weighed mass").focus();
    window.run();
    for typed in ["11.2", "11.3", "11.3", "11.2", "11.4", "24.9"] {
        type_and_enter(&mut window, typed);
    }
    let slip = "shot bag 6 weighs 24.9 kg, the others about 11.3 kg: did the scale read in pounds? Then it is 11.3 kg.";
    assert!(window.query_by_label(slip).is_some(), "the slip is named");
    assert!(window.query_by_label_contains("heavier than nominal").is_none(), "nothing is made of the mean");
    assert!(window.query_by_label_contains("Weigh the 36 placed ones that are left").is_some(), "what weighing buys");
}

/// What the finest of a lot was noted to is kept for all of it: 11.324 kg beside 11.300 kg.
#[test]
fn the_list_shows_a_mass_as_fine_as_it_was_weighed() {
    let mut window = unweighed();
    window.get_by_label("weighed mass").focus();
    window.run();
    for typed in ["11.324", "11.3"] {
        type_and_enter(&mut window, typed);
    }
    for due in ["shot bag 1: 11.324 kg", "shot bag 2: 11.300 kg"] {
        assert!(window.query_by_label(due).is_some(), "{due} is not in the list");
    }
}

/// 513 kg at ultimate and one in twenty to spare, in bags of 20 kg: 26.9, so 27 of them.
#[test]
fn a_first_lot_is_proposed_in_as_many_pieces_as_the_ultimate_load_asks() {
    let text = std::fs::read_to_string(asset("assets/examples/tandem-rear-seat.ron")).expect("the demo");
    let mut plan = plan::file::read(&text).expect("the demo is a plan");
    (plan.ballast, plan.stack) = (Vec::new(), Vec::new());
    let folder = tempfile::tempdir().expect("a test folder");
    let path = folder.path().join("bare.ron");
    std::fs::write(&path, plan::file::write(&plan)).expect("written");
    let mut window = crate::stage::window(Opening::File(path), None);
    press(&mut window, "Ballast");
    press(&mut window, "Add lot");
    press(&mut window, "Add this lot");
    assert_eq!(lot(&window).count, 27);
}

#[test]
fn a_click_on_a_bag_of_the_list_puts_the_keyboard_into_its_mass() {
    let mut window = unweighed();
    let lot = lot(&window);
    press(&mut window, &format!("{} 3: not weighed", lot.name));
    window.run();
    assert!(window.get_by_label("weighed mass").accesskit_node().is_focused(), "the field has the keyboard");
    type_and_enter(&mut window, "24.6");
    assert!(self::lot(&window).weighed.contains_key(&3), "and takes the mass of the bag that was clicked");
}
