//! The bundled type has what the sheet prints; wrapped lines fit; colours can be read.

use drafting::figure::{Fill, Ink, Material, Strength};
use drafting::palette::{Palette, Rgba};
use drafting::text;
use proptest::prelude::*;

const PRINTED: &str = "°±≥≤→×–·²“”…µ½λ−";

#[test]
fn both_faces_have_every_symbol_that_the_sheet_prints() {
    for bold in [false, true] {
        let set = text::printable(PRINTED, bold);
        assert_eq!(set, PRINTED, "got {set}, want {PRINTED}, bold {bold}");
    }
}

#[test]
fn a_character_that_the_face_lacks_shows_as_a_question_mark() {
    assert_eq!(text::printable("bag \u{2713} \u{1F9F1}\n2\u{7}", false), "bag ? ? 2?");
}

#[test]
fn digits_are_equally_wide_so_that_columns_align() {
    let zero = text::width("0", 1.0, false);
    for digit in '1'..='9' {
        let width = text::width(&digit.to_string(), 1.0, false);
        assert!((width - zero).abs() < 1e-6, "{digit}: got {width}, want {zero}, difference {} em", width - zero);
    }
}

#[test]
fn a_number_keeps_its_unit_on_its_line() {
    for room in 8..40 {
        for line in text::wrap("± 0.4 lb on 1152.0 lb of bags", f64::from(room), 1.0, false) {
            assert!(!line.starts_with("lb") && !line.ends_with('±'), "got line {line:?} at a room of {room} em");
        }
    }
}

proptest! {
    #[test]
    fn wrapped_lines_fit_their_width(words in "[ -~°±“”–]{0,200}", room in 2.0..60.0_f64, bold: bool) {
        for line in text::wrap(&words, room, 1.0, bold) {
            let width = text::width(&line, 1.0, bold);
            prop_assert!(width <= room + 1e-9, "got {width}, want at most {room}, difference {} em: {line:?}", width - room);
        }
    }

    #[test]
    fn wrapping_loses_no_character(words in "[ -~°±“”–]{0,200}", room in 2.0..60.0_f64) {
        let bare = |text: &str| text.chars().filter(|c| !c.is_whitespace()).collect::<String>();
        let lines: String = text::wrap(&words, room, 1.0, false).concat();
        prop_assert_eq!(bare(&lines), bare(&words));
    }

    #[test]
    fn a_cut_text_fits(words in ".{0,80}", room in 2.0..60.0_f64) {
        let width = text::width(&text::cut(&words, room, 1.0, true), 1.0, true);
        prop_assert!(width <= room + 1e-9, "got {width}, want at most {room}, difference {} em", width - room);
    }
}

/// Relative luminance of an sRGB colour (source key `wcag-2-0`: definition of relative luminance).
fn luminance(colour: Rgba) -> f64 {
    let linear = |channel: u8| {
        let c = f64::from(channel) / 255.0;
        if c <= 0.03928 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue)
}

/// Contrast of two colours (source key `wcag-2-0`: definition of contrast ratio).
fn contrast(a: Rgba, b: Rgba) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

const PALETTES: [(&str, Palette); 3] =
    [("light", Palette::light()), ("dark", Palette::dark()), ("print", Palette::print())];

/// 4.5 to 1 for text of ordinary size (source key `wcag-2-0`: success criterion 1.4.3).
#[test]
fn every_ink_is_readable_as_text_on_every_ground() {
    for (name, palette) in PALETTES {
        for ink in [Ink::Line, Ink::Quiet, Ink::Is, Ink::Wanted, Ink::Structure, Ink::Clear] {
            let got = contrast(palette.ink(ink), palette.ground);
            assert!(got >= 4.5, "{name} {ink:?}: got {got:.2}, want 4.5, difference {:.2} to 1", got - 4.5);
        }
    }
}

#[test]
fn step_numbers_are_readable_on_every_material() {
    for (name, palette) in PALETTES {
        for material in [Material::Sand, Material::Wood, Material::Steel] {
            for strength in [Strength::Strong, Strength::Faint] {
                let got = contrast(palette.ink(Ink::Line), palette.material(material, strength));
                assert!(
                    got >= 4.5,
                    "{name} {material:?} {strength:?}: got {got:.2}, want 4.5, difference {:.2} to 1",
                    got - 4.5
                );
            }
        }
    }
}

/// On paper without colour a layer in hand must stand out from those below; 1.15 to 1 of
/// lightness is what a laser printer still tells apart (`common practice, no source`).
#[test]
fn strong_and_faint_differ_in_lightness_on_paper() {
    let palette = Palette::print();
    for material in [Material::Sand, Material::Wood, Material::Steel] {
        let got = contrast(palette.material(material, Strength::Strong), palette.material(material, Strength::Faint));
        assert!(got >= 1.15, "{material:?}: got {got:.2}, want 1.15, difference {:.2} to 1", got - 1.15);
    }
    assert_eq!(palette.fill(Fill::Hatch(Ink::Clear)), None);
}

#[test]
fn a_title_is_cut_to_its_room_in_a_time_that_does_not_grow_with_its_length() {
    let title = "m".repeat(4_000_000);
    let began = std::time::Instant::now();
    // As often as there are pages, two lines on each.
    for _ in 0..200 {
        let kept = text::cut(&title, 400.0, 10.0, false);
        assert!(kept.ends_with('…') && text::width(&kept, 10.0, false) <= 400.0, "{kept}");
    }
    let took = began.elapsed().as_secs_f64();
    assert!(took < 2.0, "got {took:.1} s, want less than 2 s");
}

#[test]
fn a_text_that_is_cut_keeps_as_many_letters_as_fit_before_the_ellipsis() {
    let (whole, size) = ("The seat of the pilot, 12 bags", 11.0);
    for room in (0..200).map(f64::from) {
        let fits = |text: &str| text::width(text, size, false) <= room;
        let beginnings = (0..=whole.len()).rev().map(|end| &whole[..end]);
        let longest = beginnings.map(|text| format!("{text}…")).find(|text| fits(text)).unwrap_or("…".to_owned());
        let trimmed = format!("{}…", longest.trim_end_matches('…').trim_end());
        let want = if fits(whole) { whole } else { &trimmed };
        assert_eq!(text::cut(whole, room, size, false), want, "in {room}");
    }
}
