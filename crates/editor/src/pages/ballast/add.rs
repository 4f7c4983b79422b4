//! A new lot from a ready kind: a short form, what is proposed, and on what it rests.

use crate::fields::Form;
use crate::look;
use crate::pages::Bench;
use crate::pages::list::{row, unused_name};
use drafting::figure::Ink;
use eframe::egui::Ui;
use plan::Lot;
use plan::ready::{Bag, Board, Can, Kind, Plate, Proposal, table};
use quantity::{Grain, Length, Mass, Quantity, Units};

#[derive(Clone, Copy, PartialEq)]
enum What {
    Bag,
    Plate,
    Can,
    Board,
}

impl What {
    /// A size to begin from: `common practice, no source`.
    fn usual_size(self) -> [Length; 3] {
        let metres = match self {
            What::Bag => [0.45, 0.30, 0.05],
            What::Plate => [0.30, 0.30, 0.02],
            What::Can => [0.24, 0.24, 0.40],
            What::Board => [0.80, 0.15, 0.045],
        };
        metres.map(Length::m)
    }
}

/// What was typed so far; the rows of the table by their place in it.
pub(super) struct Short {
    what: What,
    filling: usize,
    material: usize,
    wood: usize,
    nominal: Option<usize>,
    mass: Mass,
    empty: Mass,
    size: [Length; 3],
    /// The thickness of a bag as it was measured; none: as proposed.
    thickness: Option<Length>,
    count: u32,
}

impl Default for Short {
    fn default() -> Self {
        Self {
            what: What::Bag,
            filling: 0,
            material: 0,
            wood: 3,
            nominal: None,
            mass: Mass::kg(20.0),
            empty: Mass::kg(1.0),
            size: What::Bag.usual_size(),
            thickness: None,
            count: 10,
        }
    }
}

impl Short {
    /// As many usual bags as make up for what is missing, kg, and one in twenty to spare.
    pub(super) fn to_make_up(missing_kg: f64) -> Self {
        const SPARE: f64 = 1.05;
        let usual = Self::default();
        let due = (SPARE * missing_kg / usual.mass.si()).ceil().clamp(0.0, 500.0);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count within its bounds")]
        let count = if due > 0.0 { due as u32 } else { usual.count };
        Self { count, ..usual }
    }

    fn kind(&self) -> Option<Kind> {
        let table = table();
        let [length, width, _] = self.size;
        Some(match self.what {
            What::Bag => {
                Kind::Bag(Bag { filling: table.fillings.get(self.filling)?, mass: self.mass, plan: [length, width] })
            }
            What::Plate => Kind::Plate(Plate { material: table.materials.get(self.material)?, size: self.size }),
            What::Can => Kind::Can(Can { water: self.mass, empty: self.empty, size: self.size }),
            What::Board => Kind::Board(Board {
                wood: table.woods.get(self.wood)?,
                nominal: self.nominal.and_then(|row| table.dressed.get(row)),
                size: self.size,
            }),
        })
    }

    /// What pieces of it are called.
    fn name(&self) -> &'static str {
        match self.what {
            What::Bag => table().fillings.get(self.filling).map_or("bag", |row| row.bag.as_str()),
            What::Plate => "plate",
            What::Can => "water can",
            What::Board => "board",
        }
    }
}

/// The short form, while it is open; the lot once it is asked for.
pub(super) fn show(ui: &mut Ui, bench: &mut Bench, open: &mut Option<Short>) -> Option<Lot> {
    let short = open.as_mut()?;
    let plan = bench.plan;
    ui.add_space(6.0);
    fields(ui, &mut bench.form(), short);
    let proposal = short.kind().and_then(|kind| match short.thickness {
        Some(thickness) => kind.propose_measured(thickness, plan.units),
        None => kind.propose(plan.units),
    });
    match &proposal {
        Some(proposal) => told(ui, bench, proposal),
        None => drop(ui.colored_label(bench.look.ink(Ink::Wanted), "Sizes and mass must be more than 0")),
    }
    let (mut made, mut away) = (None, false);
    ui.horizontal(|ui| {
        let add = ui.add_enabled(proposal.is_some(), eframe::egui::Button::new("Add this lot"));
        if add.clicked() {
            let taken = |name: &str| plan.lot(name).is_some();
            let name = short.name();
            let name = if taken(name) { unused_name(name, taken) } else { name.to_owned() };
            made = proposal.as_ref().map(|proposal| proposal.lot(name, short.count.max(1)));
        }
        away = ui.button("Cancel").clicked();
    });
    if away || made.is_some() {
        *open = None;
    }
    made
}

fn fields(ui: &mut Ui, form: &mut Form, short: &mut Short) {
    row(ui, "Kind", |ui| {
        let kinds =
            [(What::Bag, "bag"), (What::Plate, "plate or block"), (What::Can, "water can"), (What::Board, "lumber")];
        let before = short.what;
        form.choice(ui, "new lot kind", &kinds, &mut short.what);
        // A size that nobody typed yet is that of a usual piece of the kind.
        if short.what != before && short.size == before.usual_size() {
            short.size = short.what.usual_size();
        }
        made_of(ui, form, short);
    });
    let (sides, caption): (&[&str], _) = match (short.what, short.nominal) {
        (What::Bag, _) => (&["length", "width"], "lying flat, filled and settled"),
        (What::Board, Some(_)) => (&["length"], "width and thickness are those of the dressed size"),
        (What::Can, _) => (&["length", "width", "height"], "outside"),
        _ => (&["length", "width", "thickness"], "as measured"),
    };
    row(ui, "Size", |ui| {
        for (side, value) in sides.iter().zip(&mut short.size) {
            form.quantity(ui, &format!("new lot {side}"), Grain::Coarse, value);
        }
        ui.label(look::caption(form.look, caption));
    });
    if short.what == What::Bag {
        row(ui, "Thickness", |ui| {
            form.optional(ui, "new lot thickness", Grain::Coarse, &mut short.thickness);
            ui.label(look::caption(form.look, "settled under load, as measured; empty: worked out as below"));
        });
    }
    if matches!(short.what, What::Bag | What::Can) {
        row(ui, if short.what == What::Bag { "Mass of a filled bag" } else { "Water, empty can" }, |ui| {
            form.quantity(ui, "new lot mass", Grain::Coarse, &mut short.mass);
            if short.what == What::Can {
                form.quantity(ui, "new lot empty mass", Grain::Coarse, &mut short.empty);
            }
        });
    }
    row(ui, "How many", |ui| form.count(ui, "new lot count", &mut short.count));
}

fn made_of(ui: &mut Ui, form: &mut Form, short: &mut Short) {
    let rows = |names: Vec<&'static str>| names.into_iter().enumerate().collect::<Vec<_>>();
    let table = table();
    match short.what {
        What::Bag => {
            let all = rows(table.fillings.iter().map(|row| row.name.as_str()).collect());
            form.choice(ui, "new lot filling", &all, &mut short.filling);
        }
        What::Plate => {
            let all = rows(table.materials.iter().map(|row| row.name.as_str()).collect());
            form.choice(ui, "new lot material", &all, &mut short.material);
        }
        What::Can => {}
        What::Board => {
            let all = rows(table.woods.iter().map(|row| row.grade.as_str()).collect());
            form.choice(ui, "new lot grade", &all, &mut short.wood);
            let sizes = table.dressed.iter().enumerate().map(|(row, size)| (Some(row), size.nominal.as_str()));
            let all: Vec<_> = std::iter::once((None, "own size")).chain(sizes).collect();
            form.choice(ui, "new lot nominal size", &all, &mut short.nominal);
        }
    }
}

/// What is proposed, and under it on what each number rests.
fn told(ui: &mut Ui, bench: &Bench, proposal: &Proposal) {
    ui.label(look::bold(in_words(proposal, bench.plan.units), look::BODY));
    for ground in &proposal.grounds {
        ui.label(look::caption(bench.look, format!("{} ({})", ground.text, ground.status.words())));
    }
    if let Some(caution) = &proposal.caution {
        ui.colored_label(bench.look.ink(Ink::Wanted), caution);
    }
}

fn in_words(proposal: &Proposal, units: Units) -> String {
    let [length, width, thickness] = proposal.size.map(|side| side.shown(units, Grain::Coarse));
    let [mass, bound] = [proposal.mass, proposal.mass_tolerance].map(|mass| mass.shown(units, Grain::Coarse));
    format!("{length} × {width} × {thickness}, {mass} ± {bound}, friction {}", proposal.friction)
}
