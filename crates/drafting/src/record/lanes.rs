//! Readings in rows, one figure a cell: for each instrument what was due, its band, what was read and the difference.

use super::parts::{figure, strong};
use crate::figure::Align;
use crate::page::{Cell, Column};
use crate::words::bare_mass;
use plan::Plan;
use quantity::{Force, Grain, Quantity};
use testday::{Course, Judged, Range, RunDone};

/// So many instruments stand side by side; more of them go into a further table.
pub(super) const ABREAST: usize = 2;

/// An instrument whose readings are told.
#[derive(Clone, Debug)]
pub(super) enum Lane {
    /// The scale under a support of the plan.
    Scale(usize, String),
    /// The force gauge of a hold-down strap of the plan.
    Strap(usize, String),
}

impl Lane {
    /// The scales of a run, and the straps whose pull was read in it.
    pub(super) fn all(run: &RunDone, course: &Course) -> Vec<Lane> {
        let scales =
            (0..course.supports()).filter_map(|index| Some(Lane::Scale(index, course.scale(index)?.to_owned())));
        let weighings = || run.tare.iter().chain(&run.weighings).chain(&run.weighings_left);
        let was_read = |name: &str| weighings().any(|weighing| weighing.reading.strap_n(name).is_some());
        let straps = run.as_done().fixture.hold_downs.iter().enumerate();
        let straps = straps.filter(|(_, strap)| was_read(&strap.name));
        scales.chain(straps.map(|(index, strap)| Lane::Strap(index, strap.name.clone()))).collect()
    }

    pub(super) fn columns(&self) -> Vec<Column> {
        let name = match self {
            Lane::Scale(_, name) => name.clone(),
            Lane::Strap(_, name) => format!("pull of {name}"),
        };
        vec![
            Column::fixed(format!("{name}: due"), 14.0, Align::Right),
            Column::fixed("±", 10.0, Align::Right),
            Column::fixed("read", 13.0, Align::Right),
            Column::fixed("off", 11.0, Align::Right),
        ]
    }

    /// Due, band, read, difference at a weighing.
    pub(super) fn cells(&self, plan: &Plan, course: &Course, judged: &Judged) -> Vec<Cell> {
        match self {
            Lane::Scale(index, _) => scale(plan, judged.ranges[*index], judged.read_kg[*index]),
            Lane::Strap(index, name) => {
                // While pieces come off the ledger is none, and what the strap should pull is not told.
                let due_n =
                    judged.ledger.as_ref().and_then(|_| course.after(judged.placed)?.straps_n.get(*index).copied());
                strap(plan, due_n, judged.weighing.reading.strap_n(name))
            }
        }
    }

    /// Due, read, difference at the tare, where nothing stops.
    pub(super) fn at_tare(&self, plan: &Plan, course: &Course, run: &RunDone) -> Vec<Cell> {
        let Some(tare) = &run.tare else { return unread() };
        let placed = run.count_to(tare.last_on);
        match self {
            Lane::Scale(index, name) => {
                scale(plan, course.at_tare(placed).get(*index).copied().flatten(), tare.reading.scale_kg(name))
            }
            Lane::Strap(index, name) => {
                let due_n = course.after(placed).and_then(|due| due.straps_n.get(*index).copied());
                strap(plan, due_n, tare.reading.strap_n(name))
            }
        }
    }
}

/// Cells of a lane where nothing was read.
pub(super) fn unread() -> Vec<Cell> {
    ["–", "–", "not read", "–"].map(figure).to_vec()
}

fn scale(plan: &Plan, due: Option<Range>, read_kg: Option<f64>) -> Vec<Cell> {
    let told = |kg: Option<f64>| figure(kg.map_or("–".to_owned(), |kg| bare_mass(plan, kg)));
    let band = due.map(|due| due.stop_kg).filter(|kg| kg.is_finite());
    let off = due.zip(read_kg).map(|(due, read)| (read - due.reading_kg, due.fits(read)));
    vec![
        told(due.map(|due| due.reading_kg)),
        told(band),
        read_kg.map_or_else(|| figure("not read"), |kg| figure(bare_mass(plan, kg))),
        match off {
            Some((kg, true)) => figure(signed(bare_mass(plan, kg))),
            Some((kg, false)) => strong(signed(bare_mass(plan, kg))),
            None => figure("–"),
        },
    ]
}

fn strap(plan: &Plan, due_n: Option<f64>, read_n: Option<f64>) -> Vec<Cell> {
    let bare = |n: f64| Force::n(n).shown_bare(plan.units, Grain::Coarse);
    let told = |n: Option<f64>| figure(n.map_or("–".to_owned(), bare));
    let off = due_n.zip(read_n).map_or("–".to_owned(), |(due, read)| signed(bare(read - due)));
    let read = read_n.map_or_else(|| figure("not read"), |n| figure(bare(n)));
    vec![told(due_n), figure("–"), read, figure(off)]
}

/// A difference carries its sign.
fn signed(bare: String) -> String {
    let is_none = bare.chars().all(|c| matches!(c, '0' | '.' | '-'));
    if is_none {
        bare.replace('-', "")
    } else if bare.starts_with('-') {
        bare.replace('-', "−")
    } else {
        format!("+{bare}")
    }
}
