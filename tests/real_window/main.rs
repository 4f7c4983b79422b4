//! The real window under Xvfb: a bag is dragged with the pointer and saved, and the saved plan
//! checks; the process is killed, and what was not saved is there at the next start.
//!
//! Where the bag is on the screen is asked of the same window without a display, by its name: the
//! layout depends on nothing but the window's size.

mod day;
mod meter;
mod soak;

use editor::{Editor, Opening, Surroundings};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

const SIZE: [u16; 2] = [1280, 800];

/// A child process that is ended with the test, however that ends.
struct Ended(Child);

impl Drop for Ended {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// An X server of our own, on a free display number. It must not start anew when its last client
/// leaves: the first to ask may be gone before the window connects, and would shut it out.
fn display() -> (Ended, String) {
    let screen = format!("{}x{}x24", SIZE[0], SIZE[1]);
    let mut server = Command::new("Xvfb")
        .args(["-displayfd", "1", "-screen", "0", &screen, "-nolisten", "tcp", "-noreset"])
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("Xvfb is installed");
    let out = server.stdout.take().expect("a pipe");
    let mut number = String::new();
    BufReader::new(out).read_line(&mut number).expect("Xvfb tells its display");
    (Ended(server), format!(":{}", number.trim()))
}

fn xdotool(display: &str, arguments: &[&str]) -> String {
    let output =
        Command::new("xdotool").args(arguments).env("DISPLAY", display).output().expect("xdotool is installed");
    String::from_utf8_lossy(&output.stdout).trim().to_owned()
}

fn wait_for<T>(what: &str, mut ask: impl FnMut() -> Option<T>) -> T {
    let start = Instant::now();
    loop {
        if let Some(got) = ask() {
            return got;
        }
        assert!(start.elapsed() < Duration::from_secs(30), "waited 30 s for {what}");
        sleep(Duration::from_millis(50));
    }
}

/// The same window without a display.
fn harness(path: &Path) -> Harness<'static, Editor> {
    let opening = Opening::File(path.to_owned());
    let mut window: Harness<'static, Editor> = Harness::builder()
        .with_size([f32::from(SIZE[0]), f32::from(SIZE[1])])
        .with_max_steps(12)
        .build_eframe(move |creation| Editor::new(creation, opening.clone(), Surroundings::scripted(None)));
    window.run();
    // The view from above is the large one, as `4` makes it.
    if let Some(thumbnail) = window.query_by_label("From above") {
        thumbnail.click();
    }
    window.run();
    window
}

/// Where something with a name is in a window of this size, points.
fn where_is(path: &Path, label: &str) -> [i32; 2] {
    let middle = harness(path).get_by_label(label).rect().center();
    #[expect(clippy::cast_possible_truncation, reason = "a point of a window")]
    [middle.x.round() as i32, middle.y.round() as i32]
}

/// From where to where what carries these names is, points, on the page that a plan opens on or another one.
fn find(path: &Path, page: Option<&str>, names: &[&str]) -> Vec<[[i32; 2]; 2]> {
    let mut window = harness(path);
    if let Some(tab) = page {
        window.get_by_label(tab).click();
        window.run();
    }
    let area = |name: &&str| {
        let rect = window.get_by_label(name).rect();
        #[expect(clippy::cast_possible_truncation, reason = "a point of a window")]
        [rect.min, rect.max].map(|corner| [corner.x.round() as i32, corner.y.round() as i32])
    };
    names.iter().map(area).collect()
}

fn check(path: &Path) -> (Option<i32>, serde_json::Value) {
    let arguments = ["check", &path.display().to_string(), "--json"].map(str::to_owned);
    let output = Command::new(env!("CARGO_BIN_EXE_loadcairn")).args(arguments).output().expect("the binary runs");
    (output.status.code(), serde_json::from_slice(&output.stdout).expect("a report"))
}

fn fore_aft_m(report: &serde_json::Value) -> f64 {
    report["offset"]["fore_aft_m"].as_f64().expect("an offset")
}

/// The window on a display of its own, driven by pointer and keyboard.
struct Driven {
    display: String,
    process: Ended,
    _server: Ended,
}

impl Driven {
    /// Opens the window on a plan, with its settings and unsaved work under this folder.
    fn open(plan: &Path, folder: &Path) -> Self {
        let (server, display) = display();
        let said = std::fs::File::create(folder.join("said")).expect("a file for what it complains of");
        let process = Command::new(env!("CARGO_BIN_EXE_loadcairn"))
            .arg(plan)
            .env("DISPLAY", &display)
            .env_remove("WAYLAND_DISPLAY")
            .env("XDG_DATA_HOME", folder.join("data"))
            .env("XDG_RUNTIME_DIR", folder)
            .stderr(said)
            .spawn()
            .expect("the window starts");
        let number = process.id().to_string();
        let window = Self { display, process: Ended(process), _server: server };
        let id = wait_for("the window", || {
            let found = window.tell(&["search", "--onlyvisible", "--pid", &number]);
            found.lines().last().map(str::to_owned).filter(|id| !id.is_empty())
        });
        let [width, height] = SIZE.map(|side| side.to_string());
        window.tell(&["windowmove", &id, "0", "0"]);
        window.tell(&["windowsize", "--sync", &id, &width, &height]);
        window.tell(&["windowfocus", &id]);
        sleep(Duration::from_secs(2));
        window
    }

    fn tell(&self, arguments: &[&str]) -> String {
        xdotool(&self.display, arguments)
    }

    /// Drags what lies there to the right.
    fn drag_right(&self, [x, y]: [i32; 2]) {
        self.tell(&["mousemove", &x.to_string(), &y.to_string()]);
        sleep(Duration::from_millis(200));
        self.tell(&["mousedown", "1"]);
        for _ in 0..6 {
            sleep(Duration::from_millis(80));
            self.tell(&["mousemove_relative", "--", "6", "0"]);
        }
        sleep(Duration::from_millis(300));
        self.tell(&["mouseup", "1"]);
        sleep(Duration::from_millis(500));
    }

    /// Clicks there, as slowly as a hand does.
    fn click(&self, [x, y]: [i32; 2]) {
        self.tell(&["mousemove", &x.to_string(), &y.to_string()]);
        sleep(Duration::from_millis(250));
        self.tell(&["click", "1"]);
        sleep(Duration::from_millis(350));
    }

    fn press(&self, keys: &str) {
        self.tell(&["key", keys]);
    }
}

/// A copy of the demo in a folder, its plan, and where its last piece is on the screen.
fn demo(folder: &Path) -> (PathBuf, plan::Plan, [i32; 2]) {
    let path = folder.join("plan.ron");
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../assets/examples/tandem-rear-seat.ron");
    std::fs::copy(demo, &path).expect("the demo can be copied");
    let plan = read(&path);
    let last = where_is(&path, &format!("{} from above", plan.piece_name(plan.steps() - 1)));
    (path, plan, last)
}

fn read(path: &Path) -> plan::Plan {
    plan::file::read(&std::fs::read_to_string(path).expect("read")).expect("a plan")
}

/// Waits until the file holds another plan.
fn saved(path: &Path, before: &plan::Plan) -> plan::Plan {
    let before = plan::file::write(before);
    let text = wait_for("the plan to be saved", || {
        let text = std::fs::read_to_string(path).ok()?;
        (text != before).then_some(text)
    });
    plan::file::read(&text).expect("what was saved is a plan")
}

/// How far aft the last piece of one plan lies of where it lies in another, m.
fn moved_aft_m(after: &plan::Plan, before: &plan::Plan) -> f64 {
    let at = |plan: &plan::Plan| plan.stack.last().map_or(f64::NAN, |place| quantity::Quantity::si(place.at[0]));
    at(after) - at(before)
}

#[test]
fn a_bag_dragged_in_the_real_window_is_saved_where_it_was_let_go() {
    let folder = tempfile::tempdir().expect("a test folder");
    let (path, plan, last) = demo(folder.path());
    let (before_code, before) = check(&path);
    assert_eq!(before_code, Some(0), "the demo holds");
    let window = Driven::open(&path, folder.path());
    window.press("4");
    window.drag_right(last);
    window.press("ctrl+s");
    let moved = moved_aft_m(&saved(&path, &plan), &plan);
    assert!(moved > 0.02, "got {moved} m aft, want more than 0.02 m");
    let (code, report) = check(&path);
    assert!(matches!(code, Some(0 | 1)), "the saved plan checks: exit code {code:?}");
    assert!(fore_aft_m(&report) > fore_aft_m(&before), "got {} m, was {} m", fore_aft_m(&report), fore_aft_m(&before));
}

#[test]
fn work_that_was_not_saved_when_the_process_was_killed_is_recovered() {
    let folder = tempfile::tempdir().expect("a test folder");
    let (path, plan, last) = demo(folder.path());
    let mut window = Driven::open(&path, folder.path());
    window.press("4");
    window.drag_right(last);
    let kept = folder.path().join("data/loadcairn/unsaved/1.ron");
    wait_for("unsaved work to be kept aside", || kept.exists().then_some(()));
    window.process.0.kill().expect("the process can be killed");
    window.process.0.wait().expect("the process ends");
    assert!(read(&path) == plan, "the user's file was not touched");
    let window = Driven::open(&path, folder.path());
    // The answer that recovers has the keyboard.
    window.press("Return");
    sleep(Duration::from_millis(500));
    window.press("ctrl+s");
    let moved = moved_aft_m(&saved(&path, &plan), &plan);
    assert!(moved > 0.02, "got {moved} m aft, want more than 0.02 m");
}

/// Where an item of a menu is once the menu is open.
fn where_in_menu(path: &Path, menu: &str, item: &str) -> [i32; 2] {
    let mut window = harness(path);
    window.get_by_label(menu).click();
    window.run();
    let rects = window.get_all_by_label_contains(item).map(|node| node.rect());
    let first = rects.min_by(|a, b| a.top().total_cmp(&b.top())).expect("the item is in the menu").center();
    #[expect(clippy::cast_possible_truncation, reason = "a point of a window")]
    [first.x.round() as i32, first.y.round() as i32]
}

#[test]
fn a_stack_of_twelve_pieces_is_laid_with_the_pointer_alone_saved_and_checked() {
    let folder = tempfile::tempdir().expect("a test folder");
    let (path, mut plan, _) = demo(folder.path());
    plan.stack.clear();
    plan.fixture.bindings.clear();
    std::fs::write(&path, plan::file::write(&plan)).expect("the bare plan can be written");
    let [lot, above] = ["Place shot bag", "From above"].map(|label| where_is(&path, label));
    let (file, save) = (where_is(&path, "File"), where_in_menu(&path, "File", "Save"));

    let window = Driven::open(&path, folder.path());
    window.press("4");
    window.click(lot);
    // Two by two, three times: each bag falls onto what lies beneath the pointer.
    for _ in 0..3 {
        for [dx, dy] in [[-52, -34], [52, -34], [-52, 34], [52, 34]] {
            window.click([above[0] + dx, above[1] + dy]);
        }
    }
    window.click(file);
    window.click(save);
    let after = saved(&path, &plan);
    assert_eq!(after.steps(), 12, "got {} pieces, want 12", after.steps());
    let (code, report) = check(&path);
    assert!(matches!(code, Some(0 | 1)), "the saved plan checks: exit code {code:?}");
    let steps = report["steps"].as_array().expect("steps");
    assert_eq!(steps.len(), 12);
    for step in steps {
        let rests_on = step["rests_on"].as_array().expect("what it rests on");
        assert!(!rests_on.is_empty(), "step {} hangs in the air", step["step"]);
    }
    let layers = steps.iter().filter_map(|step| step["layer"].as_u64()).max();
    assert!(layers >= Some(3), "bags placed at one place lie on one another: got {layers:?} layers, want 3 at least");
}
