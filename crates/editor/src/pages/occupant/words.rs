//! What follows from the way, in words: the point, what it is worth, legs and feet, recline.

use super::super::Bench;
use crate::look;
use assess::{OccupantPoint, Seated};
use eframe::egui::{Label, Ui};
use plan::{LowerLegs, Target};
use quantity::frame::side;
use quantity::{Grain, Length, Quantity};

pub(super) fn show(ui: &mut Ui, bench: &Bench) {
    let occupant = assess::occupant_point(bench.plan);
    ui.add_space(8.0);
    ui.add(Label::new(look::bold(place_words(bench, &occupant), look::BODY)).wrap());
    for line in lines(bench) {
        ui.add(Label::new(look::caption(bench.look, line)).wrap());
    }
}

fn lines(bench: &Bench) -> Vec<String> {
    let occupant = assess::occupant_point(bench.plan);
    let mut lines = vec![format!("Comes from: {}.", occupant.from)];
    if let (Target::Posture(posture), Some(seated)) = (&bench.plan.target, &occupant.seated) {
        lines.extend([legs(bench, seated, posture.lower_legs), recline(bench, seated)]);
    }
    lines
}

fn legs(bench: &Bench, seated: &Seated, carried: LowerLegs) -> String {
    let fine = |m: f64| Length::m(m).shown(bench.plan.units, Grain::Fine);
    let (share, [aft, up]) = seated.lower_legs();
    let (aft, up) = (fine(aft), fine(up));
    match carried {
        LowerLegs::OnSeat => format!(
            "Legs and feet count: the seat carries the whole occupant, as in the static cases of the rules. If \
             floor and pedals carried lower legs and feet ({:.1} % of him), the rest would lie {aft} further aft \
             and {up} higher.",
            100.0 * share
        ),
        LowerLegs::OnFloor => format!(
            "Lower legs and feet ({:.1} % of him) do not count: floor and pedals carry them, which leaves the point \
             {aft} further aft and {up} higher. The static cases of the rules put the whole occupant on the seat.",
            100.0 * share
        ),
    }
}

fn recline(bench: &Bench, seated: &Seated) -> String {
    let [aft, _] = seated.five_degrees_more_recline();
    let moved = Length::m(aft.abs()).shown(bench.plan.units, Grain::Fine);
    format!("Measure the back: 5 deg more recline move the point {moved} {}.", side(0, aft))
}

/// A point of the article frame in words: `station 1.829 m, waterline 0.720 m`.
fn place_words(bench: &Bench, occupant: &OccupantPoint) -> String {
    let shown = |m: f64| Length::m(m).shown(bench.plan.units, Grain::Coarse);
    let at = occupant.in_article;
    format!("station {}, buttock line {}, waterline {}", shown(at.x), shown(at.y), shown(at.z))
}
