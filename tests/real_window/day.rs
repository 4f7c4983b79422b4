//! Keeps the log of a test day by the window's own fields and buttons: where each is, is asked of the same window
//! without a display, opened on a copy of the log.

use crate::meter::rest;
use crate::{Driven, SIZE, harness};
use editor::Editor;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use plan::Plan;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::{Duration, Instant};
use testday::{Course, Day, Entry, FORMAT, Log, Next, WayBack};

/// Keeps a day.
pub(crate) struct Keeper {
    path: PathBuf,
    plan: Plan,
    course: Course,
    known: BTreeMap<String, [i32; 2]>,
    /// By how much everything lies lower than in the window without a display.
    lower: i32,
}

/// By how much a line of small type, one of larger type, and both of them push down what comes after, points.
const LOWER: [i32; 4] = [0, 20, 37, 57];

/// What is pressed or filled in next: where it starts, and what is typed into the fields from there on.
struct Task {
    label: String,
    types: Vec<String>,
    /// How long is waited before.
    after: Duration,
}

impl Keeper {
    /// Begins a day of this plan, its log in this file.
    pub(crate) fn begin(path: PathBuf, plan: Plan) -> Self {
        let started = Entry::Started {
            format: FORMAT,
            fingerprint: plan::file::fingerprint(&plan),
            plan: plan::file::write(&plan),
            people: "two".to_owned(),
        };
        disk::journal::Journal::begin(&path, "2026-05-04 09:30:00 UTC", started).expect("begun");
        let course = Course::of(&plan);
        Self { path, plan, course, known: BTreeMap::new(), lower: 0 }
    }

    pub(crate) fn path(&self) -> &Path {
        &self.path
    }

    fn log(&self) -> Log {
        disk::journal::read(&self.path).expect("a fresh reader reads the log")
    }

    /// How many lines a fresh reader finds.
    pub(crate) fn lines(&self) -> usize {
        self.log().lines().len()
    }

    /// Makes so many entries in the window, whose page is the day's.
    pub(crate) fn keep(&mut self, window: &Driven, entries: usize) {
        for _ in 0..entries {
            let Some(task) = self.task() else { return };
            // Where it was the last time it mostly still is.
            let known = self.known.get(&task.label).copied();
            if known.is_some_and(|at| self.find_and_enter(window, &task, at)) {
                continue;
            }
            let Some(at) = self.where_is(&task.label) else { return };
            self.known.insert(task.label.clone(), at);
            self.find_and_enter(window, &task, at);
        }
    }

    /// The page has a line more where the plan in the window is not that of the day, and one of larger type where a
    /// text was no reading: what was found the last time is tried first.
    fn find_and_enter(&mut self, window: &Driven, task: &Task, [x, y]: [i32; 2]) -> bool {
        let others = LOWER.into_iter().filter(|lower| *lower != self.lower);
        let tried: Vec<_> = std::iter::once(self.lower).chain(others).collect();
        let found = tried.into_iter().find(|lower| self.enter(window, task, [x, y + lower]));
        self.lower = found.unwrap_or(self.lower);
        found.is_some()
    }

    /// Whether the log has grown by it.
    fn enter(&self, window: &Driven, task: &Task, at: [i32; 2]) -> bool {
        let before = self.lines();
        sleep(task.after);
        // What is heard in one frame goes to the field that had the keyboard before it.
        let tell = |words: &[&str]| {
            window.tell(words);
            rest(window.process.0.id());
        };
        window.click(at);
        for (field, text) in task.types.iter().enumerate() {
            tell(&["key", "ctrl+a"]);
            tell(&["type", "--", text]);
            // Return goes to the next field that is empty, and some text may stand in all of them.
            tell(&["key", if field + 1 < task.types.len() { "Tab" } else { "Return" }]);
        }
        let since = Instant::now();
        while self.lines() == before && since.elapsed() < Duration::from_millis(1500) {
            sleep(Duration::from_millis(50));
        }
        // What comes next is worked out beside the window.
        sleep(Duration::from_millis(400));
        self.lines() > before
    }

    fn task(&self) -> Option<Task> {
        let day = Day::of(&self.log()).expect("the log makes a day");
        let plan = &self.plan;
        let at_once = |label: &str| Some(Task { label: label.to_owned(), types: Vec::new(), after: Duration::ZERO });
        let typed = |name: &str, types: Vec<String>| {
            Some(Task { label: format!("{name} entry"), types, after: Duration::ZERO })
        };
        match day.next_by(&mut WayBack::default()) {
            Next::Tare | Next::Read => typed(self.first_scale()?, self.readings(day.run().placed())?),
            Next::Gauges { gauges, .. } => typed(&plan.gauges[*gauges.first()?].name, vec!["0.10".to_owned()]),
            Next::Lift { .. } => at_once("Placed"),
            Next::Hold { .. } => at_once("Start the hold"),
            Next::Holding { .. } => Some(Task { after: Duration::from_secs(4), ..at_once("End the hold")? }),
            Next::StrapOn { .. } => at_once("The strap is on"),
            Next::StrapOff { .. } => at_once("Released"),
            Next::Lean { .. } => typed("Lean aft", ["1", "0", "0"].map(str::to_owned).to_vec()),
            Next::TakeOff { .. } => at_once("Taken off"),
            Next::Stopped => {
                typed("What was found", vec!["looked at from a distance".to_owned(), "the builder".to_owned()])
            }
            Next::Close => typed("Closed by", vec!["the builder".to_owned()]),
            Next::Ended => None,
        }
    }

    fn first_scale(&self) -> Option<&str> {
        self.plan.fixture.supports.iter().find(|support| support.scale).map(|support| support.name.as_str())
    }

    /// What the scales show as the plan expects it.
    fn readings(&self, placed: usize) -> Option<Vec<String>> {
        let kg = &self.course.after(placed)?.supports_kg;
        let scales = self.plan.fixture.supports.iter().zip(kg).filter(|(support, _)| support.scale);
        Some(scales.map(|(_, kg)| format!("{kg:.1}")).collect())
    }

    /// Where it is in a window of this size, if it is seen there.
    fn where_is(&self, label: &str) -> Option<[i32; 2]> {
        let copy = self.path.with_file_name("copy.testday");
        std::fs::copy(&self.path, &copy).expect("the log can be copied");
        let mut beside = harness(&copy);
        settled(&mut beside);
        let at = beside.query_by_label(label)?.rect().center();
        let seen = at.y < f32::from(SIZE[1]) - 30.0;
        #[expect(clippy::cast_possible_truncation, reason = "a point of a window")]
        seen.then_some([at.x.round() as i32, at.y.round() as i32])
    }
}

fn settled(window: &mut Harness<'static, Editor>) {
    let since = Instant::now();
    window.step();
    while window.query_by_label("Being solved…").is_some() {
        assert!(since.elapsed().as_secs() < 60, "the day was not solved in a minute");
        sleep(Duration::from_millis(20));
        window.step();
    }
    window.run();
}
