//! The table of lots, what they hold together, and the way to another one.

use super::add;
use super::hand::Hand;
use crate::fields::label;
use crate::look::{self, Look};
use crate::pages::Bench;
use crate::pages::piece_picture;
use drafting::figure::Ink;
use eframe::egui::{self, Align, Layout, Ui, vec2};
use plan::edit::Part;
use plan::{Edit, Form, Lot, Plan, weighing};
use quantity::{Grain, Length, Mass, Quantity, Units};
use std::collections::BTreeMap;

/// Heads and widths of the columns, points.
const COLUMNS: [(&str, f32); 6] = [
    ("Lot", 176.0),
    ("Size as settled", 162.0),
    ("Count", 44.0),
    ("Weighed", 56.0),
    ("A piece", 112.0),
    ("In all", 90.0),
];
const LINE: f32 = 22.0;
/// Height of a lot's line, and the width of its picture in it.
const ROW: f32 = 32.0;
const PICTURE: f32 = 44.0;

pub(super) fn about(plan: &Plan) -> String {
    let left: u32 = plan.ballast.iter().map(|lot| weighing::summary(lot).left).sum();
    let all: u32 = plan.ballast.iter().map(|lot| lot.count).sum();
    match (all, left) {
        (0, _) => "nothing yet".to_owned(),
        (_, 0) => format!("{all} pieces, all weighed"),
        _ => format!("{all} pieces, {left} not weighed"),
    }
}

pub(super) fn show(ui: &mut Ui, bench: &mut Bench, hand: &mut Hand) {
    let look = *bench.look;
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        // Heads over nothing would only be in the way.
        if !bench.plan.ballast.is_empty() {
            line(ui, |ui, index| drop(cell(ui, index, look::caption(&look, COLUMNS[index].0))));
        }
        for index in 0..bench.plan.ballast.len() {
            one(ui, bench, hand, index);
        }
        if bench.plan.ballast.is_empty() {
            let hint = "Begin with what you have most of: what is in a bag, how large it lies, how heavy, how many.";
            ui.add(egui::Label::new(look::caption(&look, hint)).wrap());
        }
    });
    totals(ui, &look, bench);
    ui.add_space(6.0);
    ui.horizontal(|ui| {
        if ui.button("Add lot").clicked() {
            let (due, there) = (bench.assessment.closed.load, assess::in_hand(bench.plan).0);
            let missing = due.map_or(0.0, |load| (load.ultimate.as_mass() - there).si());
            hand.adding = Some(add::Short::to_make_up(missing));
        }
        if ui.button("Add blank lot").on_hover_text("Type everything yourself").clicked() {
            let lot = fresh(&bench.plan.ballast);
            push(bench, hand, lot);
        }
        let chosen = bench.plan.ballast.get(hand.lot).cloned();
        let again = ui.add_enabled(chosen.is_some(), egui::Button::new("Duplicate lot"));
        if let (true, Some(lot)) =
            (again.on_hover_text("One more lot of the same size, none of it weighed").clicked(), chosen)
        {
            let lot = duplicate(&bench.plan.ballast, lot);
            push(bench, hand, lot);
        }
    });
    if let Some(lot) = add::show(ui, bench, &mut hand.adding) {
        push(bench, hand, lot);
    }
}

/// The same size and kind under another name: what was weighed and measured are the pieces of the first.
fn duplicate(all: &[Lot], lot: Lot) -> Lot {
    let taken = |name: &str| all.iter().any(|other| other.name == name);
    let name =
        crate::pages::list::unused_name(lot.name.trim_end_matches(|c: char| c.is_ascii_digit()).trim_end(), taken);
    Lot { name, weighed: BTreeMap::new(), softness: None, ..lot }
}

/// One more lot like this one, at the end of the list.
pub(crate) fn duplicated(all: &[Lot], index: usize) -> Edit {
    added(all, duplicate(all, all[index].clone()))
}

fn push(bench: &mut Bench, hand: &mut Hand, lot: Lot) {
    hand.take(bench.plan, 0);
    hand.lot = bench.plan.ballast.len();
    bench.edits.push(added(&bench.plan.ballast, lot));
}

fn added(all: &[Lot], lot: Lot) -> Edit {
    let what = format!("lot list: {} added", lot.name);
    Edit::set(Part::Ballast(all.iter().cloned().chain([lot]).collect()), what)
}

fn line(ui: &mut Ui, mut add: impl FnMut(&mut Ui, usize)) {
    ui.horizontal(|ui| (0..COLUMNS.len()).for_each(|index| add(ui, index)));
}

/// A cell of the table; numbers stand at its right.
fn cell(ui: &mut Ui, index: usize, text: impl Into<egui::WidgetText>) -> egui::Response {
    let side = if index == 0 { Layout::left_to_right(Align::Center) } else { Layout::right_to_left(Align::Center) };
    let width = COLUMNS[index].1;
    let shown = ui.allocate_ui_with_layout(vec2(width, LINE), side, |ui| {
        ui.set_min_width(width);
        ui.add(egui::Label::new(text).truncate())
    });
    shown.inner
}

/// A name that is chosen by a click; it stands at the left like the other words.
pub(super) fn name_cell(ui: &mut Ui, chosen: bool, name: &str, size: egui::Vec2) -> egui::Response {
    let shown = ui.allocate_ui_with_layout(size, Layout::top_down_justified(Align::Min), |ui| {
        ui.add(egui::Button::selectable(chosen, name).truncate().min_size(size))
    });
    shown.inner
}

fn one(ui: &mut Ui, bench: &Bench, hand: &mut Hand, index: usize) {
    let plan = bench.plan;
    let lot = &plan.ballast[index];
    let texts = texts(lot, plan.units);
    line(ui, |ui, column| match column {
        0 => {
            let (place, _) = ui.allocate_exact_size(vec2(PICTURE, ROW), egui::Sense::hover());
            piece_picture::paint(ui.painter(), bench.look, lot, place.shrink2(vec2(3.0, 4.0)));
            let size = vec2(COLUMNS[0].1 - PICTURE - ui.spacing().item_spacing.x, ROW);
            let shown = name_cell(ui, hand.lot == index, &lot.name, size);
            label(ui, &shown, &format!("Lot {}", lot.name));
            if shown.clicked() {
                hand.take(plan, index);
            }
        }
        _ => drop(cell(ui, column, texts[column - 1].as_str())),
    });
}

fn texts(lot: &Lot, units: Units) -> [String; 5] {
    let [length, width, thickness] = lot.size.map(|side| side.shown_bare(units, Grain::Coarse));
    let unit = units.unit(quantity::Kind::Length, Grain::Coarse).symbol;
    let mass = lot.mass.shown_bare(units, Grain::Coarse);
    let bound = lot.mass_tolerance.shown(units, Grain::Coarse);
    let summary = weighing::summary(lot);
    let (a_piece, weighed) = match summary.mean {
        Some(mean) if summary.left == 0 => (mean.shown(units, Grain::Coarse), "all".to_owned()),
        _ => (format!("{mass} ± {bound}"), summary.weighed.to_string()),
    };
    [
        format!("{length} × {width} × {thickness} {unit}"),
        lot.count.to_string(),
        weighed,
        a_piece,
        lot.mass_of_all().shown(units, Grain::Coarse),
    ]
}

/// What there is against what the load case needs.
fn totals(ui: &mut Ui, look: &Look, bench: &Bench) {
    let told = |mass: Mass| mass.shown(bench.plan.units, Grain::Coarse);
    let (together, bound) = assess::in_hand(bench.plan);
    let bound = assess::plus_minus(bound.independent.si(), bench.plan.units);
    let head = format!("Available {} {bound}", told(together));
    let (text, enough) = match bench.assessment.closed.load.map(|load| load.ultimate.as_mass()) {
        Some(due) if together < due => {
            (format!("{head}, required at ultimate {}: {} too little", told(due), told(due - together)), false)
        }
        Some(due) => {
            (format!("{head}, required at ultimate {}: {} more than required", told(due), told(together - due)), true)
        }
        None => (format!("{head}; no load case says what is required"), false),
    };
    ui.add_space(4.0);
    let ink = if enough { Ink::Line } else { Ink::Wanted };
    ui.label(look::bold(text, look::BODY).color(look.ink(ink)));
}

fn fresh(all: &[Lot]) -> Lot {
    Lot {
        name: crate::pages::list::unused_name("lot", |name| all.iter().any(|l| l.name == name)),
        form: Form::Bag,
        size: [Length::m(0.45), Length::m(0.30), Length::m(0.10)],
        mass: Mass::kg(20.0),
        mass_tolerance: Mass::kg(0.5),
        count: 10,
        friction: 0.5,
        weighed: BTreeMap::new(),
        grade: None,
        strength: None,
        softness: None,
    }
}
