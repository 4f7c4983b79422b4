//! Pictures of a page: saved as PNG and as SVG, at the resolution of a print.

use crate::stage::{press, window};
use editor::{Editor, Opening};
use eframe::egui::OutputCommand;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use std::path::Path;

/// Saves a picture of the Stack page through the menu; gives the window after it.
fn save_as(path: &Path) -> Harness<'static, Editor> {
    let mut window = window(Opening::Demo, Some(path.to_owned()));
    press(&mut window, "File");
    press(&mut window, "Save picture of the page…");
    window
}

#[test]
fn a_png_picture_prints_at_the_size_of_the_window() {
    let folder = tempfile::tempdir().expect("a test folder");
    let path = folder.path().join("stack.png");
    save_as(&path);
    let file = std::io::BufReader::new(std::fs::File::open(&path).expect("the picture is there"));
    let reader = png::Decoder::new(file).read_info().expect("a PNG");
    let info = reader.info();
    // 1440 x 900 points of 1/96 in at 300 dots an inch; 300 dots an inch are 11811 a metre.
    assert_eq!((info.width, info.height), (4500, 2813), "pixels");
    assert_eq!(info.pixel_dims.map(|d| (d.xppu, d.yppu)), Some((11_811, 11_811)), "pixels a metre");
}

#[test]
fn an_svg_picture_holds_the_words_of_the_page_as_text() {
    let folder = tempfile::tempdir().expect("a test folder");
    let path = folder.path().join("stack.svg");
    save_as(&path);
    let text = std::fs::read_to_string(&path).expect("the picture is there");
    let mut reader = quick_xml::Reader::from_str(&text);
    let (mut words, mut lines) = (Vec::new(), 0);
    loop {
        match reader.read_event().expect("the picture is well-formed XML") {
            quick_xml::events::Event::Text(text) => words.push(text.decode().expect("UTF-8").into_owned()),
            quick_xml::events::Event::Empty(e) if e.name().as_ref() == b"polyline" => lines += 1,
            quick_xml::events::Event::Eof => break,
            _ => {}
        }
    }
    for word in ["Applied at the end", "515.8 kg", "Tray", "shot bag"] {
        assert!(words.iter().any(|w| w == word), "{word:?} is not among the texts of the picture: {words:?}");
    }
    assert!(lines > 50, "got {lines} lines, want the drawing");
}

#[test]
fn a_picture_of_another_kind_is_refused_in_a_sentence() {
    let folder = tempfile::tempdir().expect("a test folder");
    let path = folder.path().join("stack.jpg");
    let window = save_as(&path);
    window.get_by_label_contains("the name must end in .png or .svg");
    assert!(!path.exists(), "nothing was written");
}

#[test]
fn a_copied_picture_goes_to_the_clipboard_in_colour() {
    let mut window = window(Opening::Demo, None);
    press(&mut window, "Edit");
    window.get_by_label("Copy picture of the page").click();
    let mut copied = None;
    for _ in 0..4 {
        window.step();
        copied = copied.or(window.output().platform_output.commands.iter().find_map(|command| match command {
            OutputCommand::CopyImage(image) => {
                Some((image.size, image.pixels.iter().filter(|p| !p.is_opaque()).count()))
            }
            _ => None,
        }));
    }
    // 1440 x 900 points at 192 dots an inch.
    assert_eq!(copied, Some(([2880, 1800], 0)), "size in pixels, and pixels that are not opaque");
}
