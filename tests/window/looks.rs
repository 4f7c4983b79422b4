//! Each page as a picture, held against a kept one: shapes, colours and layout. Words and numbers
//! are asserted by name elsewhere, since a picture forgives what looks like another smoothing.
//!
//! `UPDATE_PICTURES=1 cargo test --test window looks` keeps what is drawn now: look at it first.

use crate::stage::{decided, demo, press};
use editor::Editor;
use eframe::egui::{ColorImage, Theme, Vec2, vec2};
use egui_kittest::Harness;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

const SIZES: [(&str, Vec2); 2] = [("small", vec2(1280.0, 800.0)), ("large", vec2(2000.0, 1200.0))];
const SCREEN_DPI: f32 = 96.0;
/// A channel that is off by more than this is seen; less is another rounding of the same edge.
const SEEN: u8 = 48;
/// So many pixels may be seen to differ: the edge of a glyph or two.
const FORGIVEN: usize = 40;
/// So many colours tell a page; the more there are, the larger it is.
const COLOURS: usize = 128;

#[test]
fn the_load_case_page_looks_as_kept() {
    looks_as_kept("Load case");
}

#[test]
fn the_fixture_page_looks_as_kept() {
    looks_as_kept("Fixture");
}

#[test]
fn the_ballast_page_looks_as_kept() {
    looks_as_kept("Ballast");
}

#[test]
fn the_stack_page_looks_as_kept() {
    looks_as_kept("Stack");
}

#[test]
fn the_sheet_page_looks_as_kept() {
    looks_as_kept("Sheet");
}

#[test]
fn the_test_day_page_looks_as_kept() {
    looks_as_kept("Test day");
}

/// Draws the page by day and by night, small and large.
fn looks_as_kept(page: &str) {
    let mut window = demo();
    decided(&mut window);
    press(&mut window, page);
    let mut wrong = Vec::new();
    for theme in [Theme::Light, Theme::Dark] {
        window.ctx.set_theme(theme);
        for (word, size) in SIZES {
            let day = if theme == Theme::Dark { "dark" } else { "light" };
            let name = format!("{}-{day}-{word}", page.to_lowercase().replace(' ', "-"));
            let drawn = draw(&mut window, size);
            assert_eq!(drawn.pixels, draw(&mut window, size).pixels, "{name} drawn twice is not the same");
            if let Err(why) = hold_against((&folder(), &name), &drawn, FORGIVEN) {
                wrong.push(format!("{name}: {why}"));
            }
        }
    }
    assert!(wrong.is_empty(), "look at the .new.png beside each:\n{}", wrong.join("\n"));
}

fn draw(window: &mut Harness<'static, Editor>, size: Vec2) -> ColorImage {
    let ctx = window.ctx.clone();
    window.state_mut().picture(&ctx, size, SCREEN_DPI).expect("a page of this size can be drawn")
}

/// Holds a picture against the kept one of this folder and name, of which so many pixels may differ.
pub(crate) fn hold_against(kept: (&Path, &str), drawn: &ColorImage, forgiven: usize) -> Result<(), String> {
    let [kept, new] = ["png", "new.png"].map(|ending| kept.0.join(format!("{}.{ending}", kept.1)));
    if std::env::var_os("UPDATE_PICTURES").is_some() {
        write(&kept, drawn);
        return Ok(());
    }
    let outcome = compare(&read(&kept), drawn, forgiven);
    match &outcome {
        Ok(()) => drop(std::fs::remove_file(&new)),
        Err(_) => write(&new, drawn),
    }
    outcome
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/window/pictures")
}

fn compare(kept: &Option<(usize, Vec<u8>)>, drawn: &ColorImage, forgiven: usize) -> Result<(), String> {
    let Some((width, kept)) = kept else { return Err("no picture is kept".to_owned()) };
    let new = bytes(drawn);
    if *width != drawn.size[0] || kept.len() != new.len() {
        return Err(format!("the kept one is {width} px wide, this one {}", drawn.size[0]));
    }
    let differ = |a: &[u8], b: &[u8]| a.iter().zip(b).any(|(a, b)| a.abs_diff(*b) > SEEN);
    let seen = kept.chunks_exact(3).zip(new.chunks_exact(3)).filter(|(a, b)| differ(a, b)).count();
    if seen > forgiven { Err(format!("{seen} pixels differ, {forgiven} are forgiven")) } else { Ok(()) }
}

/// Sixteen levels a channel are enough for what is compared, and keep the files small.
fn coarse(channel: u8) -> u8 {
    (channel & 0xF0) | (channel >> 4)
}

fn bytes(image: &ColorImage) -> Vec<u8> {
    image.pixels.iter().flat_map(|p| [p.r(), p.g(), p.b()].map(coarse)).collect()
}

fn read(path: &Path) -> Option<(usize, Vec<u8>)> {
    let file = std::io::BufReader::new(std::fs::File::open(path).ok()?);
    let mut decoder = png::Decoder::new(file);
    decoder.set_transformations(png::Transformations::EXPAND);
    let mut reader = decoder.read_info().ok()?;
    let mut pixels = vec![0; reader.output_buffer_size().expect("a picture has a size")];
    let frame = reader.next_frame(&mut pixels).expect("a kept picture is whole");
    pixels.truncate(frame.buffer_size());
    Some((frame.width as usize, pixels))
}

/// By a palette: half the size, and the help's are in the binary.
fn write(path: &Path, image: &ColorImage) {
    let file = std::fs::File::create(path).expect("the folder of pictures can be written");
    let mut encoder = png::Encoder::new(file, image.size[0] as u32, image.size[1] as u32);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::High);
    encoder.set_color(png::ColorType::Indexed);
    encoder.set_filter(png::Filter::NoFilter);
    let (palette, places) = by_palette(&bytes(image));
    encoder.set_palette(palette.concat());
    let mut writer = encoder.write_header().expect("a picture can be written");
    writer.write_image_data(&places).expect("a picture can be written");
}

/// The colours of a picture that cover most of it, and of each pixel the one that is nearest.
fn by_palette(pixels: &[u8]) -> (Vec<[u8; 3]>, Vec<u8>) {
    let pixels = pixels.as_chunks::<3>().0;
    let mut covered: BTreeMap<[u8; 3], usize> = BTreeMap::new();
    pixels.iter().for_each(|pixel| *covered.entry(*pixel).or_default() += 1);
    let mut palette: Vec<[u8; 3]> = covered.keys().copied().collect();
    palette.sort_by_key(|colour| std::cmp::Reverse(covered[colour]));
    palette.truncate(COLOURS);
    palette.sort_unstable();
    let apart = |a: &[u8; 3], b: &[u8; 3]| a.iter().zip(b).map(|(a, b)| u32::from(a.abs_diff(*b))).sum::<u32>();
    let nearest = |colour: &[u8; 3]| (0..palette.len()).min_by_key(|place| apart(&palette[*place], colour));
    let places: BTreeMap<_, _> = covered.keys().map(|colour| (*colour, nearest(colour).unwrap_or(0) as u8)).collect();
    (palette, pixels.iter().map(|pixel| places[pixel]).collect())
}

#[test]
fn a_picture_that_differs_in_a_line_is_not_forgiven() {
    let mut window = demo();
    let drawn = draw(&mut window, SIZES[0].1);
    let kept = Some((drawn.size[0], bytes(&drawn)));
    assert_eq!(compare(&kept, &drawn, FORGIVEN), Ok(()));
    let mut other = drawn;
    for pixel in &mut other.pixels[300_000..300_000 + FORGIVEN + 1] {
        *pixel = eframe::egui::Color32::from_rgb(255, 0, 255);
    }
    assert!(compare(&kept, &other, FORGIVEN).is_err(), "a line of {} magenta pixels was forgiven", FORGIVEN + 1);
}
