//! A photograph under the side view of the Fixture page: laid to scale, kept by its path, told where it is gone.

use crate::fixture_page::{Window, key, plan, undo_name};
use crate::forms::type_into;
use crate::stage::{click, press, window, window_within};
use editor::{Opening, Surroundings};
use eframe::egui::{Key, Modifiers, vec2};
use egui_kittest::kittest::{NodeT, Queryable};
use std::io::BufWriter;
use std::path::Path;

/// A picture of our own: two dark marks 80 pixels apart on a light ground.
fn write_picture(path: &Path) {
    let (width, height) = (100_u32, 40_u32);
    let file = BufWriter::new(std::fs::File::create(path).expect("a file"));
    let mut encoder = png::Encoder::new(file, width, height);
    encoder.set_color(png::ColorType::Grayscale);
    let dark = |x: u32, y: u32| (x == 10 || x == 90) && y == 20;
    let pixels: Vec<u8> = (0..height).flat_map(|y| (0..width).map(move |x| if dark(x, y) { 0 } else { 230 })).collect();
    encoder.write_header().and_then(|mut writer| writer.write_image_data(&pixels)).expect("a picture");
}

/// The demo saved in a folder of its own, with a picture beside it that the next dialog answers with.
fn saved_with_picture(folder: &Path) -> Window {
    let (file, picture) = (folder.join("seat.ron"), folder.join("side.png"));
    std::fs::write(&file, editor::DEMOS[0].1).expect("a file");
    write_picture(&picture);
    let mut window = window(Opening::File(file), Some(picture));
    press(&mut window, "Fixture");
    press(&mut window, "Photograph");
    press(&mut window, "Choose a photograph…");
    window.run();
    window
}

#[test]
fn a_photograph_is_laid_to_scale_by_two_clicks_and_placed_by_one() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut window = saved_with_picture(folder.path());
    let picture = plan(&window).article.picture.clone().expect("it is in place");
    assert_eq!(picture.path, "side.png", "the path is kept from the plan's folder");
    press(&mut window, "Mark points");
    let view = window.get_by_label("From the side").rect();
    let first = view.min + vec2(0.4 * view.width(), 0.2 * view.height());
    click(&mut window, first);
    click(&mut window, first + vec2(120.0, 0.0));
    type_into(&mut window, "marked length", "3 m");
    press(&mut window, "Scale and turn the photograph");
    let scaled = plan(&window).article.picture.clone().expect("it is in place");
    assert_eq!(undo_name(&window).as_deref(), Some("scale the photograph"));
    assert!(scaled.width != picture.width, "its width follows the length");
    type_into(&mut window, "marked station", "1.5 m");
    press(&mut window, "Move the first point there");
    assert_eq!(undo_name(&window).as_deref(), Some("place the photograph"));
    let text = plan::file::write(plan(&window));
    assert!(text.contains("picture: Some(Picture(path: \"side.png\""), "{text}");
}

#[test]
fn a_jpeg_is_traced_like_any_photograph_and_how_much_of_it_is_seen_is_kept() {
    let folder = tempfile::tempdir().expect("a folder");
    let (file, picture) = (folder.path().join("seat.ron"), folder.path().join("side.jpg"));
    std::fs::write(&file, editor::DEMOS[0].1).expect("a file");
    std::fs::write(&picture, include_bytes!("side.jpg")).expect("a file");
    let kept = folder.path().to_owned();
    let around = move || Surroundings { folder: Some(kept.clone()), ..Surroundings::scripted(Some(picture.clone())) };
    let mut window = window_within(Opening::File(file.clone()), around.clone());
    press(&mut window, "Fixture");
    press(&mut window, "Photograph");
    press(&mut window, "Choose a photograph…");
    window.run();
    let since = std::time::Instant::now();
    while window.query_by_label("The photograph is being read").is_some() {
        assert!(since.elapsed().as_secs() < 20, "the photograph is not read");
        std::thread::sleep(std::time::Duration::from_millis(20));
        window.step();
    }
    assert!(window.query_by_label_contains("is not shown").is_none(), "nothing speaks against it");
    assert_eq!(plan(&window).article.picture.as_ref().map(|p| p.path.as_str()), Some("side.jpg"));
    press(&mut window, "Mark points");
    let view = window.get_by_label("From the side").rect();
    click(&mut window, view.center());
    click(&mut window, view.center() + vec2(80.0, 0.0));
    type_into(&mut window, "marked length", "50 cm");
    press(&mut window, "Scale and turn the photograph");
    assert_eq!(undo_name(&window).as_deref(), Some("scale the photograph"));
    let opacity = |window: &Window| window.get_by_label("photograph opacity").accesskit_node().numeric_value();
    window.get_by_label("photograph opacity").focus();
    window.run();
    key(&mut window, Key::ArrowLeft);
    let seen = opacity(&window);
    assert!(seen.is_some_and(|seen| seen < 60.0), "less of it is seen: {seen:?} per cent");
    window.key_press_modifiers(Modifiers::COMMAND, Key::S);
    window.run();
    drop(window);
    let mut window = window_within(Opening::File(file), around);
    press(&mut window, "Fixture");
    press(&mut window, "Photograph");
    assert_eq!(opacity(&window), seen, "as it was left");
}

#[test]
fn a_photograph_that_is_gone_is_one_sentence_and_the_plan_opens() {
    let folder = tempfile::tempdir().expect("a folder");
    let window = saved_with_picture(folder.path());
    let text = plan::file::write(plan(&window));
    let file = folder.path().join("moved.ron");
    std::fs::write(&file, text).expect("a file");
    std::fs::remove_file(folder.path().join("side.png")).expect("it was there");
    let mut window = crate::stage::window(Opening::File(file), None);
    press(&mut window, "Fixture");
    press(&mut window, "Photograph");
    let since = std::time::Instant::now();
    while window.query_by_label_contains("there is no such file").is_none() {
        assert!(since.elapsed().as_secs() < 20, "no sentence about the missing photograph");
        std::thread::sleep(std::time::Duration::from_millis(20));
        window.step();
    }
    assert!(plan(&window).article.picture.is_some(), "the plan keeps the path");
}

#[test]
fn a_plan_without_a_file_says_that_it_must_be_saved_before_a_photograph() {
    let mut window = window(Opening::Demo, Some("side.png".into()));
    press(&mut window, "Fixture");
    press(&mut window, "Photograph");
    press(&mut window, "Choose a photograph…");
    window.run();
    assert!(window.query_by_label_contains("Save the plan first").is_some());
    assert_eq!(plan(&window).article.picture, None);
}
