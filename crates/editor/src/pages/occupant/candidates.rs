//! The ways side by side: where each puts the point, and how far from the one in force.

use super::super::Bench;
use crate::fields::label;
use crate::look;
use assess::OccupantPoint;
use drafting::views::Candidate;
use eframe::egui::{Grid, Ui};
use plan::edit::Part;
use plan::{Edit, Plan, Target};
use quantity::frame::side;
use quantity::{Grain, Length, Quantity};

const HEADS: [&str; 9] =
    ["", "From", "Station", "Buttock line", "Waterline", "Tolerance", "Known within", "From the active one", ""];

/// The mark of one that is kept: `A`.
fn mark(index: usize) -> String {
    let letter = u8::try_from(index % 26).unwrap_or(0);
    char::from(b'A' + letter).to_string()
}

/// What the drawing shows beside the point in force.
pub(super) fn marks(plan: &Plan) -> Vec<Candidate> {
    let others = plan.other_targets.iter().enumerate();
    let marked = |(index, other)| Candidate { in_article: assess::point_of(plan, other).in_article, mark: mark(index) };
    others.map(marked).collect()
}

pub(super) fn show(ui: &mut Ui, bench: &mut Bench) {
    ui.add_space(10.0);
    ui.label(look::bold("Side by side", look::BODY));
    let in_force = assess::occupant_point(bench.plan);
    Grid::new("ways side by side").num_columns(HEADS.len()).spacing([16.0, 5.0]).show(ui, |ui| {
        for head in HEADS {
            ui.label(look::caption(bench.look, head));
        }
        ui.end_row();
        let active = Listed { mark: "active", target: &bench.plan.target, point: &in_force };
        cells(ui, bench, &active, &in_force);
        let keep = ui.button("Keep a copy");
        if keep.clicked() && bench.edits.is_empty() {
            let mut others = bench.plan.other_targets.clone();
            others.push(bench.plan.target.clone());
            bench.edits.push(Edit::set(Part::OtherTargets(others), "occupant points kept"));
        }
        ui.end_row();
        for (index, other) in bench.plan.other_targets.iter().enumerate() {
            let point = assess::point_of(bench.plan, other);
            cells(ui, bench, &Listed { mark: &mark(index), target: other, point: &point }, &in_force);
            if let Some(edit) = asked(ui, bench.plan, index)
                && bench.edits.is_empty()
            {
                bench.edits.push(edit);
            }
            ui.end_row();
        }
    });
}

fn asked(ui: &mut Ui, plan: &Plan, index: usize) -> Option<Edit> {
    let mut edit = None;
    ui.horizontal(|ui| {
        let take = ui.button("Use this");
        label(ui, &take, &format!("Use occupant point {}", mark(index)));
        if take.clicked() {
            edit = Some(Edit::UseTarget { index });
        }
        let remove = ui.button("Remove");
        label(ui, &remove, &format!("Remove occupant point {}", mark(index)));
        if remove.clicked() {
            let mut others = plan.other_targets.clone();
            others.remove(index);
            edit = Some(Edit::set(Part::OtherTargets(others), "occupant points kept"));
        }
    });
    edit
}

/// One of the ways.
struct Listed<'a> {
    mark: &'a str,
    target: &'a Target,
    point: &'a OccupantPoint,
}

fn cells(ui: &mut Ui, bench: &Bench, listed: &Listed, in_force: &OccupantPoint) {
    let Listed { mark, target, point } = *listed;
    let units = bench.plan.units;
    ui.label(look::bold(mark, look::BODY));
    ui.label(target.kind()).on_hover_text(&point.from);
    for coordinate in [point.in_article.x, point.in_article.y, point.in_article.z] {
        ui.label(Length::m(coordinate).shown(units, Grain::Coarse));
    }
    let pair = |[fore_aft, lateral]: [Length; 2]| {
        format!("± {}, ± {}", fore_aft.shown(units, Grain::Fine), lateral.shown(units, Grain::Fine))
    };
    ui.label(pair(target.tolerance()));
    ui.label(point.within_m.map_or_else(|| "not given".to_owned(), |within| pair(within.map(Length::m))));
    let off = point.in_article - in_force.in_article;
    ui.label(if point == in_force { "—".to_owned() } else { difference(bench, off.x, off.z) });
}

/// `31 mm forward, 12 mm higher`.
fn difference(bench: &Bench, aft: f64, up: f64) -> String {
    let fine = |m: f64| Length::m(m.abs()).shown(bench.plan.units, Grain::Fine);
    let level = if up >= 0.0 { "higher" } else { "lower" };
    format!("{} {}, {} {level}", fine(aft), side(0, aft), fine(up))
}
