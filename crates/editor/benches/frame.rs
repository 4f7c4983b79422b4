//! What a frame of the Stack page costs, on one core, painting by the graphics card left out:
//! input, layout, assessment and tessellation. Budget: 500 pieces, dragging one, under 8 ms.

use divan::Bencher;
use editor::{Editor, Opening};
use eframe::egui::{Pos2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use quantity::Length;
use std::collections::BTreeMap;

fn main() {
    divan::main();
}

/// The demo's seat under layers of six bags, crossed from layer to layer.
fn plan_of(pieces: usize) -> plan::Plan {
    let mut plan = plan::file::read(editor::DEMOS[0].1).expect("the demo is a plan");
    plan.stack.clear();
    plan.ballast.truncate(1);
    plan.ballast[0].count = u32::try_from(pieces).expect("few");
    plan.ballast[0].weighed = BTreeMap::new();
    plan.ballast[0].size = [0.3, 0.2, 0.02].map(Length::m);
    plan.bed.bearings[0].x = [-1.0, 1.5].map(Length::m);
    plan.bed.bearings[0].y = [-1.0, 1.0].map(Length::m);
    for index in 0..pieces {
        let (layer, spot) = (index / 6, index % 6);
        let (columns, turn) = if layer % 2 == 0 { (2, plan::Turn::Lengthwise) } else { (3, plan::Turn::Crosswise) };
        let cell = if layer % 2 == 0 { [0.31, 0.21] } else { [0.21, 0.31] };
        let number = |n: usize| f64::from(u32::try_from(n).expect("few"));
        let at = [cell[0] * number(spot % columns), cell[1] * number(spot / columns)].map(Length::m);
        let item = u32::try_from(index + 1).expect("few");
        plan.stack.push(plan::Place { lot: plan.ballast[0].name.clone(), item, at, turn, locked: false });
    }
    plan
}

fn window(pieces: usize) -> (Harness<'static, Editor>, tempfile::TempDir) {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("plan.ron");
    editor::disk::write_whole(&path, plan::file::write(&plan_of(pieces)).as_bytes()).expect("written");
    let mut window = Harness::builder().with_size([1440.0, 900.0]).build_eframe(move |creation| {
        Editor::new(creation, Opening::File(path.clone()), editor::Surroundings::scripted(None))
    });
    window.step();
    window.step();
    (window, folder)
}

/// A frame in which nothing changes.
#[divan::bench(args = [60, 200, 500, 2000])]
fn still(bencher: Bencher, pieces: usize) {
    let (mut window, _folder) = window(pieces);
    bencher.bench_local(|| window.step());
}

/// A frame in which the last piece is dragged a little further.
#[divan::bench(args = [60, 200, 500, 2000])]
fn dragging(bencher: Bencher, pieces: usize) {
    let (mut window, _folder) = window(pieces);
    let last = window.state().document().plan().piece_name(pieces - 1);
    let from: Pos2 = window.get_by_label(&format!("{last} from above")).rect().center();
    window.drag_at(from);
    window.step();
    let mut turn = 0.0_f32;
    bencher.bench_local(|| {
        turn += 1.0;
        window.hover_at(from + vec2(10.0 + turn % 60.0, 0.0));
        window.step();
    });
}
