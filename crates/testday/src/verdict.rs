//! Did it hold? Answers with their numbers, in plain words.

use crate::earlier::Earlier;
use crate::hold::TYPED_SHORT;
use crate::line_of_action::line_of_action;
use crate::sets::SetRead;
use crate::{Answer, Course, Day, HoldDone, Ledger, LookedAfter, RunDone, due_s, ledger, weighed};
use assess::load::Load;
use quantity::{Grain, Mass, Quantity};

/// What the day shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// The greatest load that lay on the seat, in a sentence; none while nothing did.
    pub greatest: Option<String>,
    /// Was limit load carried?
    pub limit: Answer,
    /// Was ultimate load carried for three seconds?
    pub ultimate: Answer,
    /// Was the permanent set after limit load within what is allowed?
    pub set: Answer,
    /// The gauges after each unloading.
    pub sets: Vec<SetRead>,
}

impl Verdict {
    /// The three questions that a day answers, with their answers: alike in the window and on the record.
    pub fn answers(&self) -> [(&'static str, &Answer); 3] {
        [
            ("Limit load held?", &self.limit),
            ("Ultimate load held for 3 s?", &self.ultimate),
            ("Permanent set after limit within what is allowed?", &self.set),
        ]
    }
}

/// What the day shows so far. `courses` are those of its runs' stacks as done.
pub fn verdict(day: &Day, courses: &[Course]) -> Verdict {
    let sets = crate::sets::sets(day);
    let load = day.plan.case_in_hand().map(Load::of);
    let (limit, ultimate) = match &load {
        Some(load) => {
            let limit_at = load.limit.as_mass().si() / load.ultimate.as_mass().si();
            let limit = carried(day, courses, &Due { name: "limit", at: limit_at, kg: load.limit.as_mass().si() });
            let due = Due { name: "ultimate", at: 1.0, kg: load.ultimate.as_mass().si() };
            (limit, carried(day, courses, &due))
        }
        None => {
            let none = || Answer::NotShown("the plan names no load case".to_owned());
            (none(), none())
        }
    };
    Verdict { greatest: greatest(day, courses), limit, ultimate, set: crate::sets::answer(day, &sets), sets }
}

impl Day {
    /// Which load the article has seen, as an inspection says it: limit or ultimate only where a hold came to it.
    pub fn load_reached(&self) -> LookedAfter {
        let holds = self.runs.iter().flat_map(|run| &run.holds);
        let greatest = holds.filter_map(|done| Some(self.plan.holds.get(done.hold)?.at)).fold(0.0, f64::max);
        let Some(load) = self.plan.case_in_hand().map(Load::of) else { return LookedAfter::GivenUp };
        let limit_at = load.limit.as_mass().si() / load.ultimate.as_mass().si();
        match &self.aborted {
            None if greatest >= 1.0 - TYPED_SHORT => LookedAfter::Ultimate,
            None if greatest >= limit_at - TYPED_SHORT => LookedAfter::Limit,
            _ => LookedAfter::GivenUp,
        }
    }
}

/// The most that lay on the seat in any run, held or not.
fn greatest(day: &Day, courses: &[Course]) -> Option<String> {
    let loads = day.runs.iter().enumerate().map(|(number, run)| (number, run, run.applied_kg(run.last_on)));
    let (number, run, kg) = loads.max_by(|one, other| one.2.total_cmp(&other.2)).filter(|(.., kg)| *kg > 0.0)?;
    let mass = |kg: f64| Mass::kg(kg).shown(day.plan.units, Grain::Coarse);
    let mut told = format!("{} by the pieces, {}", mass(kg), weighed_words(run, run.last_on));
    if let Some(load) = day.plan.case_in_hand().map(Load::of) {
        let [limit, ultimate] = [load.limit.as_mass(), load.ultimate.as_mass()].map(|due| 100.0 * kg / due.si());
        told += &format!(", {limit:.1} % of limit, {ultimate:.1} % of ultimate");
    }
    let last = run.weighings.iter().rev().find(|weighing| weighing.last_on == run.last_on);
    let by_scales = last.and_then(|weighing| weighed(run, courses.get(number)?, weighing)).map(|w| ledger(&w));
    match by_scales {
        Some(ledger) => {
            told += &format!("; {}", scales_words(day, &ledger));
        }
        None => told += "; not confirmed by scales",
    }
    Some(format!("{told}; in run {}, with {} pieces on the seat", number + 1, run.placed()))
}

/// What the scales say of the load, and what of it they do not measure.
fn scales_words(day: &Day, ledger: &Ledger) -> String {
    let mass = |kg: f64| Mass::kg(kg).shown(day.plan.units, Grain::Coarse);
    let reckoned = ledger.not_measured_kg.map(|kg| format!("; not measured here: {} reckoned", mass(kg)));
    format!(
        "by the scales {} ± {} (two standard deviations{})",
        mass(ledger.net_kg),
        mass(ledger.within_kg),
        reckoned.unwrap_or_default()
    )
}

/// How many of the pieces that lay there were never weighed.
fn not_weighed(run: &RunDone, last_on: Option<usize>) -> usize {
    let plan = run.as_done();
    plan.stack.iter().take(run.count_to(last_on)).filter(|place| !run.is_weighed(place)).count()
}

/// Whether the pieces were weighed, in words.
fn weighed_words(run: &RunDone, last_on: Option<usize>) -> String {
    let there = run.count_to(last_on);
    match not_weighed(run, last_on) {
        0 => "all weighed".to_owned(),
        all if all == there => "none weighed, each taken at the nominal mass of its lot".to_owned(),
        some => format!("{some} of {there} not weighed and taken at the nominal mass of their lot"),
    }
}

struct Due {
    name: &'static str,
    at: f64,
    kg: f64,
}

/// The best hold that carried this load: the pieces weigh as much, the scales do not gainsay it, and
/// it lasted.
fn carried(day: &Day, courses: &[Course], due: &Due) -> Answer {
    let earlier: Vec<_> = day.runs.iter().map(Earlier::all).collect();
    let runs = day.runs.iter().zip(courses).zip(&earlier);
    let tries = runs.flat_map(|((run, course), earlier)| {
        run.holds.iter().map(move |hold| {
            let (run, course) = Earlier::at(earlier, hold.line, (run, course));
            (run, course, hold)
        })
    });
    let answers: Vec<_> = tries
        .filter(|(.., hold)| day.plan.holds.get(hold.hold).is_some_and(|h| h.at >= due.at - TYPED_SHORT))
        .map(|(run, course, hold)| tried(day, due, (run, course), hold))
        .collect();
    let yes = answers.iter().find(|answer| matches!(answer, Answer::Yes(_)));
    let beside = answers.iter().find(|answer| matches!(answer, Answer::Beside(_)));
    let given_up = || match &day.aborted {
        Some(why) => Answer::No(format!("the test was given up before {} load was held: {why}", due.name)),
        None => Answer::NotShown(format!("no hold at {} load was entered", due.name)),
    };
    yes.or(beside).or(answers.last()).cloned().unwrap_or_else(given_up)
}

fn tried(day: &Day, due: &Due, (run, course): (&RunDone, &Course), hold: &HoldDone) -> Answer {
    let plan = &day.plan;
    let mass = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let name = plan.holds.get(hold.hold).map_or("", |h| h.name.as_str());
    let applied_kg = run.applied_kg(hold.last_on);
    let told = format!(
        "hold “{name}”: {} by the pieces ({}), {:.1} % of the {} load of {}, held {:.1} s",
        mass(applied_kg),
        weighed_words(run, hold.last_on),
        100.0 * applied_kg / due.kg,
        due.name,
        mass(due.kg),
        tenths_below(hold.lasted_s)
    );
    let must_last_s = due_s(due.at);
    if applied_kg < due.kg * (1.0 - 1e-9) {
        return Answer::No(format!("{told}: less than {} load was on the seat", due.name));
    }
    if hold.lasted_s < must_last_s {
        return Answer::No(format!("{told}: shorter than {must_last_s:.0} s"));
    }
    match by_scales(run, course, hold) {
        Scales::Agree(ledger) => {
            let told = format!("{told}; {}", scales_words(day, &ledger));
            match day.format >= MEASURED_FROM && ledger.net_kg + ledger.within_kg < due.kg {
                true => Answer::NotShown(format!("{told}: the scales show less than {} load", due.name)),
                false => in_place(day, (run, course), hold, &told),
            }
        }
        Scales::Differ { name, read_kg, due_kg } => Answer::NotShown(format!(
            "{told}, but {name} showed {} where {} was due: what was on the seat is not certain",
            mass(read_kg),
            mass(due_kg)
        )),
        Scales::NotRead => Answer::NotShown(format!("{told}, but the scales were not all read there")),
        Scales::None if day.format >= MEASURED_FROM && not_weighed(run, hold.last_on) > 0 => Answer::NotShown(format!(
            "{told}, but the fixture has no scales, and without them every piece must be weighed"
        )),
        Scales::None => in_place(day, (run, course), hold, &format!("{told}; the fixture has no scales to confirm it")),
    }
}

/// From this format on a load counts only as far as scales or weighed pieces show it; older logs keep the
/// verdict that was given under the rules of their day.
const MEASURED_FROM: u32 = 2;

/// A hold that carried the load: was the load where it belongs, and for as long as planned?
fn in_place(day: &Day, (run, course): (&RunDone, &Course), hold: &HoldDone, told: &str) -> Answer {
    let Some(line) = line_of_action(run, course, hold.last_on) else {
        return Answer::NotShown(format!("{told}, but nothing was on the seat"));
    };
    let line = line.at_hold(run.as_done(), hold.hold);
    let words = line.words(run.as_done().units);
    match (line.fits(), day.cut_short(hold)) {
        (false, _) => Answer::Beside(format!("{words}; {told}")),
        (true, Some(planned_s)) => {
            let lasted_s = tenths_below(hold.lasted_s);
            Answer::Beside(format!(
                "{lasted_s:.1} s of the {planned_s:.0} s planned; {told}; the line of action was {words}"
            ))
        }
        (true, None) => Answer::Yes(format!("{told}; the line of action was {words}")),
    }
}

/// Never rounded up to the three seconds.
fn tenths_below(seconds: f64) -> f64 {
    (seconds * 10.0).floor() / 10.0
}

enum Scales {
    Agree(Ledger),
    Differ { name: String, read_kg: f64, due_kg: f64 },
    NotRead,
    None,
}

/// What the last weighing at the hold says.
fn by_scales(run: &RunDone, course: &Course, hold: &HoldDone) -> Scales {
    if (0..course.supports()).all(|support| course.scale(support).is_none()) {
        return Scales::None;
    }
    let there = run.weighings.iter().rev().find(|weighing| weighing.last_on == hold.last_on);
    let (Some(weighing), Some(tare)) = (there, &run.tare) else { return Scales::NotRead };
    let placed = [tare.last_on, weighing.last_on].map(|last_on| run.count_to(last_on));
    let ranges = course.ranges(&tare.reading, placed);
    for (support, range) in ranges.iter().enumerate() {
        let Some(name) = course.scale(support) else { continue };
        let (Some(range), Some(read_kg)) = (range, weighing.reading.scale_kg(name)) else { return Scales::NotRead };
        if !range.fits(read_kg) {
            return Scales::Differ { name: name.to_owned(), read_kg, due_kg: range.reading_kg };
        }
    }
    match weighed(run, course, weighing).map(|weighed| ledger(&weighed)) {
        Some(ledger) => Scales::Agree(ledger),
        None => Scales::NotRead,
    }
}
