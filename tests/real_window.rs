//! The real window under Xvfb: it opens a demo, a bag is dragged with the pointer, the numbers
//! change, it is saved, the saved plan checks.
//!
//! Where the bag is on the screen is asked of the same window without a display, by its name: the
//! layout depends on nothing but the window's size.

use editor::dialogs::Scripted;
use editor::{Editor, Opening};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use std::io::{BufRead, BufReader};
use std::path::Path;
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

/// An X server of our own, on a free display number.
fn display() -> (Ended, String) {
    let screen = format!("{}x{}x24", SIZE[0], SIZE[1]);
    let mut server = Command::new("Xvfb")
        .args(["-displayfd", "1", "-screen", "0", &screen, "-nolisten", "tcp"])
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

/// Where something with a name is in a window of this size, points.
fn where_is(path: &Path, label: &str) -> [i32; 2] {
    let opening = Opening::File(path.to_owned());
    let mut window: Harness<'static, Editor> = Harness::builder()
        .with_size([f32::from(SIZE[0]), f32::from(SIZE[1])])
        .with_max_steps(12)
        .build_eframe(move |creation| Editor::with_picker(creation, opening.clone(), Box::new(Scripted(None))));
    window.run();
    let middle = window.get_by_label(label).rect().center();
    #[expect(clippy::cast_possible_truncation, reason = "a point of a window")]
    [middle.x.round() as i32, middle.y.round() as i32]
}

fn check(path: &Path) -> (Option<i32>, serde_json::Value) {
    let arguments = ["check", &path.display().to_string(), "--json"].map(str::to_owned);
    let output = Command::new(env!("CARGO_BIN_EXE_loadcairn")).args(arguments).output().expect("the binary runs");
    (output.status.code(), serde_json::from_slice(&output.stdout).expect("a report"))
}

fn fore_aft_m(report: &serde_json::Value) -> f64 {
    report["offset"]["fore_aft_m"].as_f64().expect("an offset")
}

#[test]
fn a_bag_dragged_in_the_real_window_is_saved_where_it_was_let_go() {
    let folder = tempfile::tempdir().expect("a test folder");
    let path = folder.path().join("plan.ron");
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../assets/examples/single-seat.ron");
    std::fs::copy(demo, &path).expect("the demo can be copied");
    let (before_code, before) = check(&path);
    assert_eq!(before_code, Some(0), "the demo holds");
    let plan = plan::file::read(&std::fs::read_to_string(&path).expect("read")).expect("a plan");
    let last = plan.steps() - 1;
    let [x, y] = where_is(&path, &format!("{} from above", plan.piece_name(last)));

    let (_server, display) = display();
    let window = Command::new(env!("CARGO_BIN_EXE_loadcairn"))
        .arg(&path)
        .env("DISPLAY", &display)
        .env_remove("WAYLAND_DISPLAY")
        .env("XDG_DATA_HOME", folder.path().join("data"))
        .env("XDG_RUNTIME_DIR", folder.path())
        .spawn()
        .expect("the window starts");
    let window = Ended(window);
    let process = window.0.id().to_string();
    let id = wait_for("the window", || {
        let found = xdotool(&display, &["search", "--onlyvisible", "--pid", &process]);
        found.lines().last().map(str::to_owned).filter(|id| !id.is_empty())
    });
    let [width, height] = SIZE.map(|side| side.to_string());
    xdotool(&display, &["windowmove", &id, "0", "0"]);
    xdotool(&display, &["windowsize", "--sync", &id, &width, &height]);
    xdotool(&display, &["windowfocus", &id]);
    sleep(Duration::from_secs(2));
    xdotool(&display, &["mousemove", &x.to_string(), &y.to_string()]);
    sleep(Duration::from_millis(200));
    xdotool(&display, &["mousedown", "1"]);
    for _ in 0..6 {
        sleep(Duration::from_millis(80));
        xdotool(&display, &["mousemove_relative", "--", "6", "0"]);
    }
    sleep(Duration::from_millis(300));
    xdotool(&display, &["mouseup", "1"]);
    sleep(Duration::from_millis(500));
    xdotool(&display, &["key", "ctrl+s"]);
    let original = plan::file::write(&plan);
    let saved = wait_for("the plan to be saved", || {
        let text = std::fs::read_to_string(&path).ok()?;
        (text != original).then_some(text)
    });
    let after = plan::file::read(&saved).expect("what was saved is a plan");
    let at = |plan: &plan::Plan| plan.stack[last].at.map(quantity::Quantity::si);
    assert!(at(&after)[0] > at(&plan)[0] + 0.02, "got x {} m, was {} m", at(&after)[0], at(&plan)[0]);
    let (code, report) = check(&path);
    assert!(matches!(code, Some(0 | 1)), "the saved plan checks: exit code {code:?}");
    assert!(fore_aft_m(&report) > fore_aft_m(&before), "got {} m, was {} m", fore_aft_m(&report), fore_aft_m(&before));
}
