//! A soak: drawn work in the real window for as long as the environment says, undone and redone, on every page,
//! with the entries of a test day in between. The window must not grow, stand still or complain.
//!
//! `LOADCAIRN_SOAK_MINUTES=60 PROPTEST_RNG_SEED=1 cargo test --features loadcairn/real-window --test real_window
//! soak`; without minutes half a one. What was done is kept as a file, `xdotool`'s words with the second before each,
//! and so is what was measured.

use crate::day::Keeper;
use crate::meter::{Meter, Seen, memory_mb, rest};
use crate::{Driven, demo, find};
use std::fs::File;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::{Duration, Instant};

/// A window that grows by more is not left open for a day, MB.
const GROWS_MB: f64 = 50.0;
/// A frame that takes longer is felt, ms.
const FRAME_MS: f64 = 100.0;
/// The sheet is made beside the window.
const SHEET: Duration = Duration::from_millis(500);
/// The pages by their tabs; the last two have no drawing to work on.
const PAGES: [&str; 6] = ["Stack", "Fixture", "Load case", "Ballast", "Sheet", "Test day"];

/// Keys of the drawings: what is selected is moved, turned, doubled, taken off, put in another order.
const KEYS: [&str; 30] = [
    "Left",
    "Right",
    "Up",
    "Down",
    "shift+Left",
    "shift+Up",
    "r",
    "m",
    "u",
    "t",
    "p",
    "l",
    "b",
    "z",
    "f",
    "Prior",
    "Next",
    "Home",
    "End",
    "bracketleft",
    "bracketright",
    "Delete",
    "ctrl+d",
    "ctrl+a",
    "ctrl+c",
    "ctrl+x",
    "ctrl+v",
    "Escape",
    "F1",
    "F2",
];

/// Numbers that follow from a seed alone.
struct Draw(u64);

impl Draw {
    fn below(&mut self, most: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from((self.0 >> 33) % most as u64).unwrap_or(0)
    }

    fn within(&mut self, [low, high]: [i32; 2]) -> i32 {
        low + i32::try_from(self.below(usize::try_from(high - low).unwrap_or(1).max(1))).unwrap_or(0)
    }
}

/// A rectangle of the window: from and to, points across and down.
type Area = [[i32; 2]; 2];

struct Soak {
    window: Driven,
    keeper: Keeper,
    draw: Draw,
    began: Instant,
    done: File,
    tabs: Vec<[i32; 2]>,
    lots: Vec<[i32; 2]>,
    /// The drawings of Stack and Fixture.
    drawings: [Vec<Area>; 2],
}

fn kept(name: &str) -> PathBuf {
    Path::new(env!("CARGO_TARGET_TMPDIR")).join(name)
}

fn asked(name: &str) -> Option<f64> {
    std::env::var(name).ok()?.parse().ok()
}

impl Soak {
    fn start(folder: &Path) -> Self {
        let (path, plan, _) = demo(folder);
        let keeper = Keeper::begin(folder.join("day.testday"), plan.clone());
        let lots: Vec<_> = plan.ballast.iter().map(|lot| format!("Place {}", lot.name)).collect();
        let middles = |names: &[&str]| find(&path, None, names).into_iter().map(middle).collect();
        let lots = middles(&lots.iter().map(String::as_str).collect::<Vec<_>>());
        let drawings = [
            find(&path, None, &["From above", "From the side"]),
            find(&path, Some("Fixture"), &["From above", "From the side", "From the front"]),
        ];
        let tabs = middles(&PAGES);
        let seed = asked("PROPTEST_RNG_SEED").unwrap_or(7.0);
        let mut done = File::create(kept("soak-done.txt")).expect("what is done is kept");
        writeln!(done, "seed {seed}").expect("written");
        let window = Driven::open(keeper.path(), folder);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a seed")]
        let draw = Draw(seed as u64);
        Self { window, keeper, draw, began: Instant::now(), done, tabs, lots, drawings }
    }

    fn tell(&mut self, words: &[&str]) {
        let at_s = self.began.elapsed().as_secs_f64();
        writeln!(self.done, "{at_s:.1} {}", words.join(" ")).expect("written");
        self.window.tell(words);
        rest(self.window.process.0.id());
    }

    fn point(&mut self, [x, y]: [i32; 2]) {
        self.tell(&["mousemove", &x.to_string(), &y.to_string()]);
    }

    fn click(&mut self, at: [i32; 2]) {
        self.point(at);
        self.tell(&["click", "1"]);
    }

    fn press(&mut self, keys: &str) {
        self.tell(&["key", keys]);
    }

    fn press_often(&mut self, keys: &str, most: usize) {
        for _ in 0..=self.draw.below(most) {
            self.press(keys);
        }
    }

    fn go(&mut self, page: usize) {
        self.press("Escape");
        self.click(self.tabs[page]);
    }

    fn somewhere(&mut self, drawing: usize) -> [i32; 2] {
        let areas = self.drawings[drawing].len();
        let [[left, top], [right, bottom]] = self.drawings[drawing][self.draw.below(areas)];
        [self.draw.within([left + 4, right - 4]), self.draw.within([top + 4, bottom - 4])]
    }

    fn drag(&mut self, drawing: usize) {
        let from = self.somewhere(drawing);
        self.point(from);
        self.tell(&["mousedown", "1"]);
        let by = [self.draw.within([-12, 13]).to_string(), self.draw.within([-12, 13]).to_string()];
        for _ in 0..6 {
            self.tell(&["mousemove_relative", "--", &by[0], &by[1]]);
        }
        self.tell(&["mouseup", "1"]);
    }

    /// One thing on a page with drawings.
    fn draw_on(&mut self, drawing: usize) {
        match self.draw.below(10) {
            0..=2 => self.drag(drawing),
            3 | 4 => {
                let at = self.somewhere(drawing);
                self.click(at);
            }
            5 if drawing == 0 => {
                let lot = self.draw.below(self.lots.len());
                self.click(self.lots[lot]);
                let at = self.somewhere(drawing);
                self.click(at);
                self.press("Escape");
            }
            6 => self.press_often("ctrl+z", 8),
            7 => self.press_often("ctrl+y", 8),
            _ => {
                let key = KEYS[self.draw.below(KEYS.len())];
                self.press(key);
                if key.starts_with('F') {
                    self.press("Escape");
                }
            }
        }
    }

    /// Types a number into some field of a form.
    fn fill_in(&mut self) {
        self.press_often("Tab", 12);
        let number = format!("{}.{}", self.draw.below(90), self.draw.below(10));
        self.tell(&["type", &number]);
        // Up and down leave a field as Tab does, and press no button.
        self.press("Tab");
        if self.draw.below(2) == 0 {
            self.press_often("ctrl+z", 3);
        }
    }

    fn visit(&mut self, page: usize) {
        self.go(page);
        for _ in 0..6 + self.draw.below(12) {
            match PAGES[page] {
                "Stack" => self.draw_on(0),
                "Fixture" => self.draw_on(1),
                "Load case" | "Ballast" => self.fill_in(),
                "Sheet" => {
                    sleep(SHEET);
                    break;
                }
                _ => {
                    let entries = 4 + self.draw.below(8);
                    self.keeper.keep(&self.window, entries);
                    break;
                }
            }
        }
    }

    /// Every page once, the drawings worked on, so that what is kept for good is there.
    fn warm_up(&mut self) {
        for page in 0..PAGES.len() {
            self.visit(page);
        }
        for _ in 0..40 {
            self.draw_on(0);
        }
    }
}

fn middle([[left, top], [right, bottom]]: Area) -> [i32; 2] {
    [(left + right) / 2, (top + bottom) / 2]
}

#[test]
fn drawn_work_leaves_the_window_small_quick_and_silent() {
    let folder = tempfile::tempdir().expect("a test folder");
    let minutes = asked("LOADCAIRN_SOAK_MINUTES").unwrap_or(0.5);
    let mut soak = Soak::start(folder.path());
    let process = soak.window.process.0.id();
    soak.warm_up();
    let (at_first_mb, mut most_mb) = (memory_mb(process), 0.0_f64);
    let (began, meter) = (Instant::now(), Meter::start(process, soak.began));
    while began.elapsed().as_secs_f64() < 60.0 * minutes {
        // The drawings more often than the rest.
        let page = soak.draw.below(PAGES.len() + 3).saturating_sub(3);
        soak.visit(page);
        most_mb = most_mb.max(memory_mb(process));
    }
    let seen = meter.seen();
    let said = std::fs::read_to_string(folder.path().join("said")).expect("what the window said");
    let lines = soak.keeper.lines();
    let told = told(&seen, minutes, [at_first_mb, most_mb], lines);
    std::fs::write(kept("soak-measured.txt"), &told).expect("what was measured is kept");
    assert!(soak.window.process.0.try_wait().expect("asked").is_none(), "the window is gone: {said}");
    assert_eq!(said, "", "the window complained");
    assert!(most_mb - at_first_mb < GROWS_MB, "{told}");
    assert!(seen.longest_ms < FRAME_MS, "{told}");
    assert!(seen.stretches > 20 && lines as f64 > 3.0 + minutes, "the window was not worked in: {told}");
}

fn told(seen: &Seen, minutes: f64, [at_first_mb, most_mb]: [f64; 2], lines: usize) -> String {
    format!(
        "{minutes} min: {} stretches between two waits, the longest {:.1} ms of processor time ({:.1} ms between two waits for \
         events), {:.1} s in all; memory {at_first_mb:.1} MB at first, {most_mb:.1} MB at most; {lines} lines in the log of the day; long \
         ones (s from the start, ms): {:.1?}",
        seen.stretches, seen.longest_ms, seen.between_events_ms, seen.processor_s, seen.long
    )
}
