//! The runs of the test and their holds: where loading stops to read scales and gauges, and where
//! everything is taken off before loading begins anew.

use crate::fields::{Form, label};
use crate::look;
use crate::pages::{Bench, list};
use eframe::egui::{self, Grid, Ui};
use plan::edit::Part;
use plan::{Edit, Hold, LimitLoad, LoadCase, Plan};
use quantity::{Force, Grain, Quantity, STANDARD_GRAVITY_M_S2};

const COLUMNS: [&str; 8] = [
    "Name",
    "Of ultimate",
    "Load on the seat",
    "Reached with",
    "Off at most: fore and aft, lateral",
    "Stays on for",
    "Unload after it",
    "",
];

/// What a button asks of the list.
#[derive(Clone, Copy)]
enum Asked {
    Remove(usize),
    Exchange(usize, usize),
    /// One more in the run that this one ends.
    AddAfter(usize),
    /// Unloads after this one, or loads on.
    Unload(usize, bool),
    /// One more run.
    AddRun,
    Usual,
}

pub(super) fn show(ui: &mut Ui, bench: &mut Bench) {
    let (plan, mut holds, mut asked) = (bench.plan, bench.plan.holds.clone(), None);
    Grid::new("holds").num_columns(COLUMNS.len()).spacing([18.0, 6.0]).show(ui, |ui| {
        for column in COLUMNS {
            ui.label(look::caption(bench.look, column));
        }
        ui.end_row();
        for (number, run) in plan.runs().iter().enumerate() {
            ui.label(look::bold(format!("Run {}", number + 1), look::BODY));
            ui.end_row();
            for hold in &run.holds {
                let line = Line { plan, index: hold.hold, step: hold.step };
                asked = line.show(ui, &mut bench.form(), &mut holds[hold.hold]).or(asked);
                ui.end_row();
            }
            let last = run.holds.last().map(|hold| hold.hold);
            let add = ui.button("Add hold");
            label(ui, &add, &format!("Add hold to run {}", number + 1));
            if add.clicked() {
                asked = Some(last.map_or(Asked::AddRun, Asked::AddAfter));
            }
            ui.end_row();
        }
    });
    if let Some(why) = wider(plan) {
        ui.add(egui::Label::new(look::caption(bench.look, why)).wrap());
    }
    ui.horizontal(|ui| {
        if ui.button("Add run").clicked() {
            asked = Some(Asked::AddRun);
        }
        if ui.button("Usual runs: to limit, unload, to ultimate").clicked() {
            asked = Some(Asked::Usual);
        }
    });
    match asked {
        Some(asked) => ask(bench, asked),
        None => bench.set_if_changed(|| Part::Holds(holds)),
    }
}

/// Asks for the list as it is wanted; what is being typed stays with its hold.
fn ask(bench: &mut Bench, asked: Asked) {
    let edit = edit(bench.plan, asked);
    if edit.apply(bench.plan).is_ok() {
        bench.fields.reorder("hold", |line| goes_to(&bench.plan.holds, asked, line));
    }
    bench.edits.push(edit);
}

/// Where a line of the list goes; none where it is gone.
fn goes_to(holds: &[Hold], asked: Asked, line: usize) -> Option<usize> {
    match asked {
        Asked::Remove(index) => list::without(line, index),
        Asked::Exchange(one, other) if line == one => Some(other),
        Asked::Exchange(one, other) if line == other => Some(one),
        Asked::AddAfter(index) => Some(line + usize::from(line >= fresh(holds, index).0)),
        Asked::Exchange(..) | Asked::Unload(..) | Asked::AddRun => Some(line),
        Asked::Usual => None,
    }
}

/// Why more is allowed at some holds than at the end.
fn wider(plan: &Plan) -> Option<String> {
    let usual = plan.target.tolerance();
    plan.holds.iter().find(|hold| hold.tolerance.is_none() && plan.tolerance_at(hold) != usual)?;
    let [fore_aft, lateral] = usual.map(|allowed| allowed.shown(plan.units, Grain::Fine));
    Some(format!(
        "Off at most: {fore_aft} and {lateral} are the plan's at limit load and above. Below it nothing is proved yet: \
         twice as much is allowed there, where nothing else is typed."
    ))
}

/// A hold in its line.
struct Line<'a> {
    plan: &'a Plan,
    index: usize,
    step: Option<usize>,
}

impl Line<'_> {
    fn show(&self, ui: &mut Ui, form: &mut Form, hold: &mut Hold) -> Option<Asked> {
        let of = |field: &str| format!("hold {} {field}", self.index + 1);
        form.text(ui, &of("name"), 190.0, &mut hold.name);
        let in_force = hold.at;
        form.number(ui, &of("fraction"), &mut hold.at);
        ui.label(self.load(in_force));
        let reached = match self.step {
            Some(step) => format!("{}, step {}", self.plan.piece_name(step), step + 1),
            None => "the stack ends below it".to_owned(),
        };
        ui.label(look::caption(form.look, reached));
        self.tolerance(ui, form, hold);
        self.time(ui, form, hold);
        let mut unload = hold.unload;
        let tick = ui.checkbox(&mut unload, "");
        label(ui, &tick, &of("unload after it"));
        let asked = tick.changed().then_some(Asked::Unload(self.index, unload));
        self.buttons(ui).or(asked)
    }

    /// What is allowed there, typed or as the target has it; what is typed is the hold's own from then on.
    fn tolerance(&self, ui: &mut Ui, form: &mut Form, hold: &mut Hold) {
        let in_force = self.plan.tolerance_at(hold);
        let mut allowed = in_force;
        ui.horizontal(|ui| {
            for (axis, way) in ["fore-aft", "lateral"].into_iter().enumerate() {
                let name = format!("hold {} {way} tolerance", self.index + 1);
                form.quantity(ui, &name, Grain::Fine, &mut allowed[axis]);
            }
        });
        if allowed != in_force {
            hold.tolerance = Some(allowed);
        }
    }

    /// For how long the load is planned to stay on, typed or as is usual; what is typed is the hold's own from then on.
    fn time(&self, ui: &mut Ui, form: &mut Form, hold: &mut Hold) {
        let in_force = hold.planned_time();
        let mut planned = in_force;
        form.quantity(ui, &format!("hold {} time", self.index + 1), Grain::Coarse, &mut planned);
        if planned != in_force {
            hold.time = Some(planned);
        }
    }

    fn load(&self, at: f64) -> String {
        let Some(case) = self.plan.case_in_hand() else { return String::new() };
        let mass = LimitLoad::of(case).ultimate(case).as_mass() * at;
        let force = Force::n(mass.si() * STANDARD_GRAVITY_M_S2);
        let units = self.plan.units;
        format!("{}, {}", mass.shown(units, Grain::Coarse), force.shown(units, Grain::Coarse))
    }

    fn buttons(&self, ui: &mut Ui) -> Option<Asked> {
        let (index, count) = (self.index, self.plan.holds.len());
        let of = |word: &str| format!("{word} hold {}", index + 1);
        let mut asked = None;
        ui.horizontal(|ui| {
            for (word, can, then) in [
                ("Earlier", index > 0, Asked::Exchange(index.saturating_sub(1), index)),
                ("Later", index + 1 < count, Asked::Exchange(index, index + 1)),
                ("Remove", true, Asked::Remove(index)),
            ] {
                let button = ui.add_enabled(can, egui::Button::new(word));
                label(ui, &button, &of(word));
                if button.clicked() {
                    asked = Some(then);
                }
            }
        });
        asked
    }
}

/// The list as it was asked for, as one named step. The fields' own texts are left alone.
fn edit(plan: &Plan, asked: Asked) -> Edit {
    let mut holds = plan.holds.clone();
    match asked {
        Asked::Remove(index) => remove(&mut holds, index),
        Asked::Exchange(one, other) => exchange(&mut holds, one, other),
        Asked::AddAfter(index) => add_after(&mut holds, index, unused(plan)),
        Asked::Unload(index, unload) => holds[index].unload = unload,
        Asked::AddRun => add_run(&mut holds, unused(plan)),
        Asked::Usual => holds = plan.case_in_hand().map(usual).unwrap_or_default(),
    }
    let what = match asked {
        Asked::Remove(_) | Asked::AddAfter(_) => "hold list",
        Asked::Exchange(..) => "order of holds",
        Asked::Unload(..) => "unloading",
        Asked::AddRun => "run list",
        Asked::Usual => "holds to the usual ones",
    };
    Edit::set(Part::Holds(holds), what)
}

/// The run that the hold ended still ends, with the hold before.
fn remove(holds: &mut Vec<Hold>, index: usize) {
    let gone = holds.remove(index);
    if let Some(before) = index.checked_sub(1).and_then(|before| holds.get_mut(before)) {
        before.unload |= gone.unload;
    }
}

/// Names and loads change places; where a run ends stays.
fn exchange(holds: &mut [Hold], one: usize, other: usize) {
    holds.swap(one, other);
    let (first, second) = (holds[one].unload, holds[other].unload);
    (holds[one].unload, holds[other].unload) = (second, first);
}

fn add_after(holds: &mut Vec<Hold>, index: usize, name: String) {
    let (place, at) = fresh(holds, index);
    let unload = place > index && std::mem::take(&mut holds[index].unload);
    holds.insert(place, Hold { unload, ..Hold::at(&name, at) });
}

/// Where one more hold of the run that this one ends comes, and at which fraction: halfway from its last to ultimate, or
/// before ultimate, halfway from what comes before it. No load lies beyond ultimate.
fn fresh(holds: &[Hold], last: usize) -> (usize, f64) {
    let at = holds[last].at;
    if at < 1.0 {
        return (last + 1, between(at, 1.0));
    }
    let before = last.checked_sub(1).map(|before| &holds[before]).filter(|before| !before.unload);
    (last, between(before.map_or(0.0, |before| before.at), at))
}

/// Halfway, in hundredths where these lie between.
fn between(low: f64, high: f64) -> f64 {
    let middle = f64::midpoint(low, high);
    let round = (middle * 100.0).round() / 100.0;
    if low < round && round < high { round } else { middle }
}

fn add_run(holds: &mut Vec<Hold>, name: String) {
    if let Some(last) = holds.last_mut() {
        last.unload = true;
    }
    holds.push(Hold::at(&name, 1.0));
}

fn unused(plan: &Plan) -> String {
    crate::pages::list::unused_name("hold", |name| plan.holds.iter().any(|hold| hold.name == name))
}

/// To limit in halves, all off to read the permanent set, then past limit to ultimate: `common
/// practice, no source`. A load that is given as ultimate knows no limit.
fn usual(case: &LoadCase) -> Vec<Hold> {
    let hold = |name: &str, at: f64, unload| Hold { unload, ..Hold::at(name, at) };
    let limit = 1.0 / (case.safety_factor * case.special_factor);
    if limit > 1.0 - 1e-9 {
        return vec![hold("half of ultimate", 0.5, false), hold("ultimate", 1.0, false)];
    }
    vec![
        hold("half limit", limit / 2.0, false),
        hold("limit", limit, true),
        hold("limit again", limit, false),
        hold("between limit and ultimate", f64::midpoint(limit, 1.0), false),
        hold("ultimate", 1.0, false),
    ]
}
