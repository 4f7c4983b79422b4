//! Pictures of six seats as they are laid out, for the README beside this folder: from the side, and turned. They are
//! drawn by what draws the window and the sheet, so that this stands with the program and not with the crate that lays
//! out, which must not draw. `cargo bench -p loadcairn --bench pictures`.

use arrange::{Wish, propose};
use drafting::figure::Figure;
use drafting::lower::{Viewport, lower};
use drafting::page::{MM_PER_PT, Page};
use drafting::palette::Palette;
use drafting::solids::Direction;
use drafting::turned::{Look, reach, turned};
use drafting::views::{self, Scene};
use plan::Plan;
use std::path::Path;

const SEATS: [&str; 6] = [
    "columns-between-stick-and-spar",
    "left-of-two",
    "weak-rear-former",
    "wide-above-trim-wheel",
    "four-kinds",
    "plates-and-shot",
];
/// Each half of a picture, mm.
const HALF_MM: [f64; 2] = [95.0, 80.0];
const MARGIN_MM: f64 = 5.0;
/// Around the stack and the bed from the side, m.
const ROOM_M: f64 = 0.18;

fn main() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../arrange/benches");
    for name in SEATS {
        let text = std::fs::read_to_string(folder.join("seats").join(format!("{name}.ron"))).expect("a text");
        let plan = plan::file::read(&text).expect("a seat is a plan");
        let best = propose(&plan, &Wish::default(), &|_| true).into_iter().next().expect("a stack");
        let laid = best.edit().apply(&plan).expect("a plan without faults");
        let svg = drafting::svg::write(&[picture(&laid)]);
        say(&format!("{name}: {} pieces, {} kB", best.numbers.pieces, svg.len() / 1024));
        std::fs::write(folder.join("pictures").join(format!("{name}.svg")), svg).expect("written");
    }
}

fn picture(plan: &Plan) -> Page {
    let closed = assess::assess(plan, assess::Ask::closed()).closed;
    let scene = Scene::whole(plan, &closed);
    let [width_mm, height_mm] = HALF_MM;
    let look = Look::default();
    let halves =
        [(views::side(&scene), beside(&scene)), (turned(&scene, &look).figure, reach(&scene, Direction::HOME))];
    let marks = halves.into_iter().enumerate().flat_map(|(index, (figure, bounds))| {
        let left = if index == 0 { 0.0 } else { width_mm };
        half(&figure, bounds, [left, 0.0, left + width_mm, height_mm])
    });
    Page { width_mm: 2.0 * width_mm, height_mm, marks: marks.collect(), parts: Vec::new() }
}

fn half(figure: &Figure, bounds: [[f64; 2]; 2], area: [f64; 4]) -> Vec<drafting::lower::Primitive> {
    let viewport = Viewport::fitting(bounds, area, MARGIN_MM, 0.8 * MM_PER_PT);
    lower(figure, &viewport, &Palette::light())
}

/// What of the side view lies near the stack, m.
fn beside(scene: &Scene) -> [[f64; 2]; 2] {
    let corners = scene.pieces().filter_map(|step| scene.outline(views::View::Side, step)).flatten();
    let target = scene.layout.target_in_floor;
    let first = [[target.x, target.z]; 2];
    let [low, high] = corners.fold(first, |[low, high], at| {
        [[low[0].min(at[0]), low[1].min(at[1])], [high[0].max(at[0]), high[1].max(at[1])]]
    });
    [low.map(|m| m - ROOM_M), high.map(|m| m + ROOM_M)]
}

#[expect(clippy::print_stdout, reason = "what a bench is for")]
fn say(text: &str) {
    println!("{text}");
}
