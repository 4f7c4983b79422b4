//! What a frame of the Stack page costs the window's thread: processor time, not time on the clock,
//! so that a busy machine does not count. Input, assessment, layout and tessellation; painting by
//! the graphics card is left out. Budget: 500 pieces, dragging any one, under 4 ms; 2,000 under 12 ms, with a screen
//! reader too.
//!
//! The thread's processor time is what Linux tells of it; there is no portable way without more code.

use assess::Ask;
use drafting::lower::{Viewport, lower};
use drafting::palette::Palette;
use drafting::solids::Direction;
use drafting::turned::{Look, Numbers};
use drafting::views::Scene;
use editor::{Editor, Opening};
use eframe::App as _;
use eframe::egui::{Event, Key, Modifiers, PointerButton, Pos2, RawInput, Rect, Vec2, pos2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use plan::Edit;
use quantity::Length;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::hint::black_box;
use std::io::Write as _;
use std::time::Duration;

const SIZE: Vec2 = vec2(1440.0, 900.0);
const FRAMES: usize = 120;

/// `frame [PIECES ...] [PART ...]`; all of them without either.
fn main() -> std::io::Result<()> {
    let words: Vec<String> = std::env::args().skip(1).filter(|word| !word.starts_with('-')).collect();
    let (numbers, names): (Vec<_>, Vec<_>) = words.iter().partition(|word| word.parse::<usize>().is_ok());
    let sizes: Vec<usize> = numbers.iter().filter_map(|word| word.parse().ok()).collect();
    let mut table = String::from("pieces  what             least  median    mean   worst  ms of processor time\n");
    for pieces in if sizes.is_empty() { vec![60, 200, 500, 600, 2000] } else { sizes } {
        let plan = plan_of(pieces);
        for (name, part) in PARTS {
            if names.is_empty() || names.iter().any(|wanted| wanted.as_str() == name) {
                part(&plan, &mut |what, costs| table += &line(pieces, what, &costs));
            }
        }
    }
    std::io::stdout().write_all(table.as_bytes())
}

/// Takes a line of the table: what was done, and what each turn of it cost.
type Told<'a> = &'a mut dyn FnMut(&str, Vec<Duration>);

/// A part of the bench, by its name.
type Part = (&'static str, fn(&plan::Plan, Told));
const PARTS: [Part; 5] =
    [("alone", alone), ("turned", turning), ("playing", playing), ("last", last), ("lowest", lowest)];

fn alone(plan: &plan::Plan, told: Told) {
    let edit = Edit::Move { steps: vec![plan.steps() - 1], by: [Length::m(0.005), Length::m(0.0)] };
    told("edit alone", costs(|_| drop(black_box(edit.apply(plan)))));
    told("assess alone", costs(|_| drop(black_box(assess::assess(plan, Ask::closed())))));
    let (mut kept, moved) = (assess::Kept::default(), edit.apply(plan).expect("it can be moved"));
    let mut dragged = |turn: usize| {
        let ask = Ask { kept: Some(&mut kept), ..Ask::closed() };
        drop(black_box(assess::assess([plan, &moved][turn % 2], ask)));
    };
    told("  in a drag", costs(&mut dragged));
    let closed = assess::assess(plan, Ask::closed()).closed;
    told("turned alone", costs(|turn| turned(plan, &closed, turn)));
}

fn turning(plan: &plan::Plan, told: Told) {
    let mut window = Window::of(plan);
    window.press_key(Key::Num1);
    told("turned still", costs(|_| window.frame(Vec::new())));
    window.press_at(pos2(600.0, 400.0));
    told("  turning", costs(|turn| window.drag(turn)));
}

/// Frames in each of which one more piece comes down in the turned view.
fn playing(plan: &plan::Plan, told: Told) {
    let mut window = Window::of(plan);
    window.press_key(Key::Num1);
    (0..(FRAMES + 10).min(plan.steps())).for_each(|_| window.press_key(Key::PageUp));
    window.press_key(Key::Space);
    window.passes = Some(0.51);
    told("playing", costs(|_| window.frame(Vec::new())));
}

fn last(plan: &plan::Plan, told: Told) {
    let mut window = Window::of(plan);
    told("still", costs(|_| window.frame(Vec::new())));
    window.press();
    told("dragging", costs(|turn| window.drag(turn)));
    window.context().enable_accesskit();
    told("  to a reader", costs(|turn| window.drag(turn)));
}

fn lowest(plan: &plan::Plan, told: Told) {
    let mut window = Window::of(plan);
    window.hold_of(0);
    window.press();
    told("the lowest", costs(|turn| window.drag(turn)));
    window.context().enable_accesskit();
    told("  to a reader", costs(|turn| window.drag(turn)));
}

/// The turned view as it is drawn anew while it is turned, without its painting.
fn turned(plan: &plan::Plan, closed: &assess::Closed, turn: usize) {
    let round = f64::from(u16::try_from(turn % 60).expect("few"));
    let from = Direction::HOME.turned(round, 0.0);
    let look = Look { from, numbers: Numbers::Seen, line_of_action: true, words: true, ..Look::default() };
    let drawn = drafting::turned::turned(&Scene::whole(plan, closed), &look);
    let viewport = Viewport { centre: [0.0, 0.5], scale: 400.0, area: [0.0, 0.0, 700.0, 500.0], unit_per_pt: 1.36 };
    drop(black_box(lower(&drawn.figure, &viewport, &Palette::light())));
}

/// What each of many turns costs.
fn costs(mut work: impl FnMut(usize)) -> Vec<Duration> {
    (0..5).for_each(&mut work);
    let mut costs: Vec<Duration> = (5..FRAMES + 5)
        .map(|turn| {
            let before = processor_time();
            work(turn);
            processor_time() - before
        })
        .collect();
    costs.sort_unstable();
    costs
}

/// How long this thread has run. The kernel brings its count up to date when the thread gives way.
fn processor_time() -> Duration {
    std::thread::yield_now();
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").expect("Linux tells what its threads cost");
    let nanos = text.split_whitespace().next().and_then(|word| word.parse().ok());
    Duration::from_nanos(nanos.expect("the first number is the time that the thread has run, ns"))
}

fn line(pieces: usize, what: &str, costs: &[Duration]) -> String {
    let mean = costs.iter().sum::<Duration>() / u32::try_from(costs.len()).expect("few");
    let mut line = format!("{pieces:>6}  {what:<14}");
    for cost in [costs[0], costs[costs.len() / 2], mean, costs[costs.len() - 1]] {
        write!(line, "{:>8.2}", cost.as_secs_f64() * 1000.0).expect("a string takes everything");
    }
    line + "\n"
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

/// A window that is driven frame by frame, as the system would.
struct Window {
    harness: Harness<'static, Editor>,
    frame: eframe::Frame,
    /// Where the last piece is, from above.
    piece: Pos2,
    /// How long a frame takes, s; what egui takes it for, if none.
    passes: Option<f64>,
}

impl Window {
    fn of(plan: &plan::Plan) -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("plan.ron");
        disk::write_whole(&path, plan::file::write(plan).as_bytes()).expect("written");
        let mut harness = Harness::builder().with_size(SIZE).build_eframe(move |creation| {
            Editor::new(creation, Opening::File(path.clone()), editor::Surroundings::scripted(None))
        });
        harness.step();
        // From above as the large view.
        harness.key_press(Key::Num4);
        harness.run_steps(2);
        let name = format!("{} from above", plan.piece_name(plan.steps() - 1));
        let piece = harness.get_by_label(&name).rect().center();
        // Nobody reads the screen aloud, unless the bench says so.
        harness.ctx.disable_accesskit();
        Self { harness, frame: eframe::Frame::_new_kittest(), piece, passes: None }
    }

    fn context(&self) -> &eframe::egui::Context {
        &self.harness.ctx
    }

    fn frame(&mut self, events: Vec<Event>) {
        let ctx = self.harness.ctx.clone();
        let time = self.passes.map(|passes| ctx.input(|i| i.time) + passes);
        let screen_rect = Some(Rect::from_min_size(Pos2::ZERO, SIZE));
        let input = RawInput { screen_rect, time, events, ..Default::default() };
        let (editor, frame) = (self.harness.state_mut(), &mut self.frame);
        let mut output = ctx.run_ui(input, |ui| {
            let ctx = ui.ctx().clone();
            editor.logic(&ctx, frame);
            editor.ui(ui, frame);
        });
        black_box(ctx.tessellate(std::mem::take(&mut output.shapes), output.pixels_per_point));
        output.textures_delta.clear();
    }

    /// A piece from the side.
    fn hold_of(&mut self, step: usize) {
        self.harness.ctx.enable_accesskit();
        self.harness.key_press(Key::Num2);
        self.harness.run_steps(2);
        let name = self.harness.state().document().plan().piece_name(step);
        self.piece = self.harness.get_by_label(&name).rect().center();
        self.harness.ctx.disable_accesskit();
    }

    fn press_key(&mut self, key: Key) {
        let event =
            |pressed| Event::Key { key, physical_key: None, pressed, repeat: false, modifiers: Modifiers::NONE };
        self.frame(vec![event(true), event(false)]);
    }

    fn press(&mut self) {
        self.press_at(self.piece);
    }

    fn press_at(&mut self, pos: Pos2) {
        self.piece = pos;
        self.frame(vec![Event::PointerMoved(pos)]);
        let button = PointerButton::Primary;
        self.frame(vec![Event::PointerButton { pos, button, pressed: true, modifiers: Modifiers::NONE }]);
        (0..3).for_each(|turn| self.drag(turn));
        assert!(self.harness.state().document().undo_name().is_none(), "nothing is let go yet");
    }

    /// The last piece a little further.
    fn drag(&mut self, turn: usize) {
        let turn = f32::from(u16::try_from(turn % 60).expect("few"));
        self.frame(vec![Event::PointerMoved(self.piece + vec2(10.0 + turn, 0.0))]);
    }
}
