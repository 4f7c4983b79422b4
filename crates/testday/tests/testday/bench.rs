//! A small invented test: six sand bags on a panel, a bench on three scales with a hold-down;
//! limit and ultimate as runs of their own. And a day on it, entry by entry.

use plan::Plan;
use plan::file::{fingerprint, read, write};
use std::collections::BTreeMap;
use testday::{Course, Day, Entry, FORMAT, Log, Next, Reading};

pub(crate) const PLAN: &str = r#"Plan(
    format: 1,
    title: "bench",
    units: Metric,
    load_cases: [LoadCase(name: "up", basis: "own", occupant_mass: "25 kg", load_factor: 4.0, direction: "0 deg", safety_factor: 1.5, special_factor: 1.0)],
    case: "up",
    article: Article(name: "frame", mass: "70 kg", centroid: ("2.0 m", "0 m", "0.5 m"), pitch: "0 deg", pivot: ("0 m", "0 m", "0 m"), outline: [], keep_clear: []),
    target: Point(at: ("1.8 m", "0 m", "0.7 m"), tolerance: ("30 mm", "30 mm")),
    fixture: Fixture(
        supports: [
            Support(name: "left scale", at: ("1.4 m", "-0.7 m", "0 m"), capacity: Some("500 kg"), scale: true, division: Some("0.2 kg")),
            Support(name: "right scale", at: ("1.4 m", "0.7 m", "0 m"), capacity: Some("500 kg"), scale: true, division: Some("0.2 kg")),
            Support(name: "rear scale", at: ("4.6 m", "0 m", "0 m"), capacity: Some("500 kg"), scale: true, division: Some("0.2 kg")),
        ],
        hold_downs: [HoldDown(name: "hold-down", on_article: ("4.2 m", "0 m", "0.4 m"), on_floor: ("4.2 m", "0 m", "0 m"), preload: "800 N", working_load: "3000 N", stiffness: "60 N/mm")],
        bindings: [],
        floor_friction: 0.5,
    ),
    bed: Bed(origin: ("1.6 m", "0 m", "0.4 m"), slope: "0 deg", friction: 0.5, bearings: [Bearing(name: "panel", x: ("-1 m", "2 m"), y: ("-1 m", "1 m"), top: "0 m")]),
    ballast: [
        Lot(name: "sand bag", form: Bag, size: ("0.45 m", "0.3 m", "0.1 m"), mass: "25 kg", mass_tolerance: "0.3 kg", count: 20, friction: 0.5),
        Lot(name: "plank", form: Board, size: ("0.8 m", "0.2 m", "0.045 m"), mass: "4 kg", mass_tolerance: "0.1 kg", count: 6, friction: 0.5),
    ],
    stack: [
        Place(lot: "sand bag", item: 1, at: ("0 m", "-0.16 m"), turn: Lengthwise),
        Place(lot: "sand bag", item: 2, at: ("0 m", "0.16 m"), turn: Lengthwise),
        Place(lot: "sand bag", item: 3, at: ("0.4 m", "-0.16 m"), turn: Lengthwise),
        Place(lot: "sand bag", item: 4, at: ("0.4 m", "0.16 m"), turn: Lengthwise),
        Place(lot: "sand bag", item: 5, at: ("0.2 m", "-0.16 m"), turn: Lengthwise),
        Place(lot: "sand bag", item: 6, at: ("0.2 m", "0.16 m"), turn: Lengthwise),
    ],
    gauges: [Gauge(name: "pan", at: ("1.8 m", "0 m", "0.4 m"), allowed_set: "0.5 mm")],
    holds: [Hold(name: "limit", at: 0.6666, unload: true), Hold(name: "ultimate", at: 1.0)],
    allow: Allow(collapse: 0.1, fixture_push: 0.1, placement_scatter: "10 mm"),
)"#;

pub(crate) fn plan() -> Plan {
    read(PLAN).unwrap_or_else(|error| panic!("{error}"))
}

/// A log that grows.
pub(crate) struct Diary {
    pub(crate) log: Log,
    pub(crate) text: String,
}

impl Diary {
    pub(crate) fn begin(plan: &Plan) -> Self {
        let mut diary = Self { log: Log::default(), text: String::new() };
        diary.add(Entry::Started {
            format: FORMAT,
            fingerprint: fingerprint(plan),
            plan: write(plan),
            people: "two people".to_owned(),
        });
        diary
    }

    pub(crate) fn add(&mut self, entry: Entry) -> &mut Self {
        let (line, text) = self.log.next("2026-05-04 09:30:00", entry);
        self.log.push(line, &text);
        self.text.push_str(&text);
        self
    }

    /// The same day as an older program wrote it down.
    pub(crate) fn of_format(&self, old: u32) -> Self {
        let mut diary = Self { log: Log::default(), text: String::new() };
        for line in self.log.lines() {
            let entry = match line.entry.clone() {
                Entry::Started { fingerprint, plan, people, .. } => {
                    Entry::Started { format: old, fingerprint, plan, people }
                }
                entry => entry,
            };
            diary.add(entry);
        }
        diary
    }

    pub(crate) fn day(&self) -> Day {
        Day::of(&self.log).unwrap_or_else(|error| panic!("{error}"))
    }

    pub(crate) fn course(&self) -> Course {
        Course::of(self.day().run().as_done())
    }

    /// A piece, and the strap that goes on after it.
    pub(crate) fn placed(&mut self, step: usize) -> &mut Self {
        self.add(Entry::Placed { step });
        let has_straps = self.day().run().as_done().fixture.bindings.iter().any(|strap| strap.after as usize == step);
        if let (true, Next::StrapOn { binding }) = (has_straps, self.day().next()) {
            let binding = strap(&self.day(), binding);
            self.add(Entry::StrapOn { binding, pulls_n: None });
        }
        self
    }

    pub(crate) fn gauge(&mut self, millimetres: f64) -> &mut Self {
        self.add(Entry::Gauge { gauge: "pan".to_owned(), reading_m: 1e-3 * millimetres })
    }

    /// What the plan expects on every scale with so many pieces on.
    pub(crate) fn as_expected(&self, placed: usize) -> Reading {
        reading(&self.day().plan, &self.course().after(placed).expect("it stands").supports_kg)
    }

    pub(crate) fn read(&mut self, placed: usize) -> &mut Self {
        let reading = self.as_expected(placed);
        self.add(Entry::Reading(reading))
    }

    pub(crate) fn held(&mut self, hold: &str, lasted_s: f64) -> &mut Self {
        self.add(Entry::HoldBegan { hold: hold.to_owned() });
        self.add(Entry::HoldEnded { hold: hold.to_owned(), lasted_s, unseen_s: 0.0 })
    }

    /// As the lean is read of a stack that stands straight.
    pub(crate) fn straight(&mut self) -> &mut Self {
        self.add(Entry::LeanRead { shift_m: [0.0; 2] })
    }

    /// What is still due at a hold is read first.
    pub(crate) fn take_all_off(&mut self) -> &mut Self {
        if matches!(self.day().next(), Next::Lean { .. }) {
            self.straight();
        }
        loop {
            let day = self.day();
            match day.next() {
                Next::TakeOff { index } => self.add(Entry::Unloaded { step: day.run().step_of(index) + 1 }),
                Next::StrapOff { binding } => self.add(Entry::StrapOff { binding: strap(&day, binding) }),
                _ => return self,
            };
        }
    }
}

fn strap(day: &Day, binding: usize) -> String {
    day.plan.fixture.bindings[binding].name.clone()
}

/// What the scales of a plan show.
pub(crate) fn reading(plan: &Plan, supports_kg: &[f64]) -> Reading {
    let scales = plan.fixture.supports.iter().zip(supports_kg).filter(|(support, _)| support.scale);
    let scales_kg: BTreeMap<_, _> = scales.map(|(support, kg)| (support.name.clone(), *kg)).collect();
    Reading { scales_kg, straps_n: BTreeMap::new() }
}

/// A day whose first run is done, without a fault.
pub(crate) fn limit_run() -> Diary {
    limit_run_of(&plan())
}

/// The same of another plan.
pub(crate) fn limit_run_of(plan: &Plan) -> Diary {
    let mut diary = Diary::begin(plan);
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).gauge(0.0);
    for step in 1..=4 {
        diary.placed(step).read(step);
    }
    diary.held("limit", 4.0).gauge(3.1).take_all_off().gauge(0.2);
    diary
}

/// A whole day without a fault.
pub(crate) fn whole_day(held_s: f64) -> Diary {
    let mut diary = limit_run();
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).gauge(0.2);
    for step in 1..=6 {
        diary.placed(step).read(step);
    }
    diary.held("ultimate", held_s).gauge(5.2).take_all_off().gauge(0.4);
    diary.add(Entry::Ended { by: "the builder".to_owned() });
    diary
}

/// Three bags of the bench down and read.
pub(crate) fn three_on() -> Diary {
    let mut diary = Diary::begin(&plan());
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).gauge(0.0);
    for step in 1..=3 {
        diary.placed(step).read(step);
    }
    diary
}

/// Why a day does not take an entry.
pub(crate) fn refused(diary: &Diary, entry: Entry) -> String {
    Day::admits(&diary.log, &entry).expect_err("refused").to_string()
}
