//! Days on the three demos, as they might be: one that passes, one with a stop and corrections, one with a burst bag and a
//! crack on the way to ultimate load.

use super::{DEMO, INCHES};
use plan::Plan;
use quantity::Length;
use quantity::Quantity;
use std::collections::BTreeMap;
use std::sync::OnceLock;
use testday::{
    Account, Course, Deviation, Device, Entry, FORMAT, Field, Ground, Inspection, Item, Log, LookedAfter, Moment, Next,
    Reading, Said, StopGround, WayBack, stop_at_once,
};

const FAULTS: &str = include_str!("../../../../assets/examples/four-faults.ron");

/// A day as it grows, a minute for each entry.
pub(super) struct Diary {
    pub(super) log: Log,
    minute: usize,
    plan: Plan,
    course: Course,
    pub(super) account: Account,
    way_back: WayBack,
}

impl Diary {
    fn begin(plan: Plan) -> Self {
        let mut log = Log::default();
        let started = Entry::Started {
            format: FORMAT,
            fingerprint: plan::file::fingerprint(&plan),
            plan: plan::file::write(&plan),
            people: "A. Builder in charge, two who lift, one who watches".to_owned(),
        };
        let (line, text) = log.next("2026-05-04 08:00:00 UTC", started);
        log.push(line, &text);
        let account = Account::of(&log).expect("a day");
        Self { log, minute: 0, course: Course::of(&plan), plan, account, way_back: WayBack::default() }
    }

    pub(super) fn add(&mut self, entry: Entry) {
        self.minute += 1;
        let at = format!("2026-05-04 {:02}:{:02}:10 UTC", 8 + self.minute / 60, self.minute % 60);
        let (line, text) = self.log.next(&at, entry);
        self.log.push(line, &text);
        self.account = self.account.go_on(testday::Day::of(&self.log).expect("what was answered fits"));
    }

    fn next(&mut self) -> Next {
        self.account.day.next_by(&mut self.way_back)
    }

    /// What the plan expects on each scale and in each strap, a little off.
    fn reading(&self) -> Reading {
        let run = self.account.day.run();
        let stack = run.as_done();
        let course = if *stack == self.plan { self.course.clone() } else { Course::of(stack) };
        let due = course.after(run.placed()).expect("it stands");
        let scales = self.plan.fixture.supports.iter().zip(&due.supports_kg).filter(|(support, _)| support.scale);
        let off = |index: usize| 0.1 * f64::from(u8::try_from((run.placed() + index) % 3).unwrap_or(0)) - 0.1;
        let scales_kg = scales.enumerate().map(|(index, (s, kg))| (s.name.clone(), kg + off(index))).collect();
        let straps = self.plan.fixture.hold_downs.iter().zip(&due.straps_n);
        let straps_n: BTreeMap<_, _> = straps.map(|(strap, n)| (strap.name.clone(), *n)).collect();
        Reading { scales_kg, straps_n }
    }

    /// What a gauge shows: what is expected there, else a hundredth of a millimetre a kilogram, and a little more.
    fn gauge(&self, gauge: usize, moment: Moment) -> Entry {
        let (run, planned) = (self.account.day.run(), &self.plan.gauges[gauge]);
        let kg = if matches!(moment, Moment::Before | Moment::After) { 0.0 } else { run.on_seat_kg() };
        let bends_m = assess::foreseen(&self.plan, planned, kg).map_or(1e-5 * kg, |due| due.bends_m);
        let kept_m = if moment == Moment::After { 0.0001 } else { 0.0 };
        Entry::Gauge { gauge: planned.name.clone(), reading_m: 0.0012 + 1.04 * bends_m + kept_m }
    }

    /// What is asked for next, as it is due.
    fn answer(&mut self, next: &Next) -> Entry {
        let hold = |hold: usize| self.plan.holds[hold].name.clone();
        let run = self.account.day.run();
        match *next {
            Next::Gauges { ref gauges, moment } => self.gauge(gauges[0], moment),
            Next::Tare => {
                let kg = &self.course.after(0).expect("it stands").supports_kg;
                let scales = self.plan.fixture.supports.iter().zip(kg).filter(|(support, _)| support.scale);
                let scales_kg = scales.map(|(s, kg)| (s.name.clone(), kg + 0.1)).collect();
                Entry::Tare(Reading { scales_kg, ..self.reading_of_straps() })
            }
            Next::Lift { index } => Entry::Placed { step: run.step_of(index) + 1 },
            Next::Read => Entry::Reading(self.reading()),
            Next::Hold { hold: number } => Entry::HoldBegan { hold: hold(number) },
            Next::Holding { hold: number } => {
                let lasted_s = if self.plan.holds[number].at >= 1.0 { 4.2 } else { 61.5 };
                Entry::HoldEnded { hold: hold(number), lasted_s, unseen_s: 0.0 }
            }
            Next::StrapOn { binding } => {
                let strap = &self.plan.fixture.bindings[binding];
                Entry::StrapOn { binding: strap.name.clone(), pulls_n: Some([strap.pull.si(), 1.04 * strap.pull.si()]) }
            }
            Next::StrapOff { binding } => Entry::StrapOff { binding: self.plan.fixture.bindings[binding].name.clone() },
            Next::Lean { .. } => Entry::LeanRead { shift_m: [0.001, -0.0005] },
            Next::TakeOff { index } => Entry::Unloaded { step: run.step_of(index) + 1 },
            Next::Stopped => Entry::WentOn { why: "read again".to_owned(), ground: Some(Ground::Fits) },
            Next::Close | Next::Ended => Entry::Ended { by: "A. Builder".to_owned() },
        }
    }

    fn reading_of_straps(&self) -> Reading {
        let due = &self.course.after(0).expect("it stands").straps_n;
        let straps = self.plan.fixture.hold_downs.iter().zip(due);
        Reading { straps_n: straps.map(|(strap, n)| (strap.name.clone(), *n)).collect(), ..Reading::default() }
    }

    /// Goes on as asked until a piece of a run (both from 1) lies there and was read, or the day is over.
    fn until(&mut self, step: usize, in_run: usize) {
        loop {
            let next = self.next();
            let run = self.account.day.run();
            let there = run.last_on == Some(step - 1) && self.account.day.runs.len() == in_run;
            if next == Next::Ended || (there && next != Next::Read) {
                return;
            }
            let entry = self.answer(&next);
            self.add(entry);
        }
    }

    fn finish(&mut self) {
        self.until(usize::MAX, usize::MAX);
    }

    fn says(&mut self, field: Field, text: &str) {
        self.add(Entry::Detail { field, says: Said::Text(text.to_owned()) });
    }

    /// What the report asks for, of the first instrument alone, so that others stand as not entered.
    fn details(&mut self) {
        self.says(Field::Serial, "S/N 007");
        self.says(Field::Drawing, "12-100 issue C");
        self.says(Field::Paragraph, "23.305, 23.307");
        self.says(Field::Place, "hangar 2, west door");
        self.says(Field::Workshop, "Own workshop, Mill Lane 3");
        let device = Device::all(&self.plan).remove(0);
        let of = |item| Field::Instrument { device: device.clone(), item };
        self.says(of(Item::Number), "LC-4");
        self.says(of(Item::Range), "0 to 500 kg");
        self.says(of(Item::CalibratedUntil), "2027-01-31");
        for (item, number) in [(Item::ZeroBefore, 0.0), (Item::ZeroAfter, 0.3), (Item::ZeroWithin, 0.2)] {
            self.add(Entry::Detail { field: of(item), says: Said::Number(number) });
        }
    }

    fn inspected(&mut self, after: LookedAfter, place: &str, found: Option<&str>) {
        let (place, by) = (place.to_owned(), "B. Inspector".to_owned());
        self.add(Entry::Inspected(Inspection { after, place, found: found.map(str::to_owned), by }));
    }

    fn photographed(&mut self, path: &str, caption: &str) {
        self.add(Entry::Photograph { path: path.to_owned(), sha256: "3f".repeat(32), caption: caption.to_owned() });
    }
}

fn read(text: &str) -> Plan {
    plan::file::read(text).expect("an example opens")
}

/// With what the structure should bend at each gauge, in proportion to the load; the second one without.
fn expecting(mut plan: Plan, at_ultimate_m: f64) -> Plan {
    for gauge in plan.gauges.iter_mut().step_by(2) {
        gauge.expected_at_ultimate = Some(Length::m(at_ultimate_m));
        gauge.expected_within = Some(Length::m(0.08 * at_ultimate_m));
    }
    plan
}

/// The tandem's day, which passes.
fn passes() -> Log {
    let mut diary = Diary::begin(expecting(read(DEMO), 0.0072));
    diary.details();
    diary.until(49, 2);
    diary.photographed("stack-at-ultimate.jpg", "the stack at ultimate load, from the left");
    diary.finish();
    diary.inspected(LookedAfter::Limit, "welds of the carry-through", None);
    diary.inspected(
        LookedAfter::Ultimate,
        "bucket floor, from below",
        Some("paint cracked at the front tube, no dent"),
    );
    diary.log
}

/// The panel's day, with a reading that stops it, a wrong value that is put right, and a gauge beside what was expected.
fn stopped() -> Log {
    let mut diary = Diary::begin(expecting(read(INCHES), 0.0040));
    diary.until(14, 1);
    let mut wrong = diary.reading();
    let first = wrong.scales_kg.values_mut().next().expect("a scale");
    *first += 6.0;
    let (known, line) = (diary.account.clone(), diary.log.lines().len() as u64 + 1);
    diary.add(Entry::Reading(wrong));
    let stop = stop_at_once(Some(&known), &diary.account.day).expect("it is beyond the band");
    diary.add(stop);
    let right = diary.reading();
    diary.add(Entry::Reading(right));
    diary.add(Entry::WentOn { why: "the cable lay under the scale".to_owned(), ground: Some(Ground::Fits) });
    diary.add(Entry::Note { text: format!("line {line}: the cable of the scale was pinched under its foot") });
    diary.until(26, 1);
    diary.add(Entry::HoldBegan { hold: "limit".to_owned() });
    diary.add(Entry::HoldEnded { hold: "limit".to_owned(), lasted_s: 61.5, unseen_s: 0.0 });
    let Entry::Gauge { gauge, reading_m } = diary.gauge(0, Moment::Between) else { panic!("a gauge") };
    let line = diary.log.lines().len() as u64 + 1;
    diary.add(Entry::Gauge { gauge: gauge.clone(), reading_m: reading_m + 0.01 });
    let instead = Some(Box::new(Entry::Gauge { gauge, reading_m: reading_m + 0.0009 }));
    diary.add(Entry::Correction { of: line, why: "the small hand was read wrong".to_owned(), instead });
    diary.finish();
    diary.log
}

/// The pan's day: a stack that falls short, a bag that bursts, a crack on the way to ultimate load, given up.
fn cracked() -> Log {
    let mut diary = Diary::begin(read(FAULTS));
    let checks = ["Applied load", "Offset lateral", "Collapse reserve", "Chance to miss", "Keep clear"];
    let checks = checks.map(str::to_owned).to_vec();
    diary.add(Entry::LoadedAlthough { checks, why: "a trial of the crew on a scrapped pan".to_owned() });
    diary.until(33, 2);
    diary.add(Entry::Deviation {
        deviation: Deviation::LostMass { step: 30, lost_kg: 3.2 },
        why: "the seam burst".to_owned(),
    });
    let reading = diary.reading();
    diary.add(Entry::Reading(reading));
    let next = diary.next();
    let entry = diary.answer(&next);
    diary.add(entry);
    let Entry::Gauge { gauge, reading_m } = diary.gauge(0, Moment::Between) else { panic!("a gauge") };
    diary.add(Entry::Gauge { gauge, reading_m: reading_m + 0.0021 });
    diary.add(Entry::Stopped { why: "a loud crack".to_owned(), causes: Vec::new(), ground: Some(StopGround::ByHand) });
    diary.photographed("crack.jpg", "");
    diary.add(Entry::Aborted { why: "a crack was heard at 80 % of ultimate load".to_owned() });
    diary.finish();
    diary.inspected(LookedAfter::GivenUp, "front profile, left end", Some("crack of 40 mm from the second rivet"));
    diary.log
}

/// The three days with their names, made once for all tests.
pub(super) fn all() -> &'static [(&'static str, Log)] {
    static KEPT: OnceLock<Vec<(&'static str, Log)>> = OnceLock::new();
    KEPT.get_or_init(|| vec![("passes", passes()), ("stopped", stopped()), ("cracked", cracked())])
}
