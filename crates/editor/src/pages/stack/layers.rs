//! The tip margin layer by layer, for the state in hand: the numbers that the finding on the tip
//! margin has, with its layer marked.

use super::table::Table;
use crate::look;
use assess::{Decision, Layer, Way};
use eframe::egui::{Grid, RichText, Ui};
use quantity::{Angle, Grain, Length, Mass, Quantity, Units};

const HEADS: [(&str, &str); 5] = [
    ("Layer", "Counted from the bed; the weakest in bold, all of them where several are equal"),
    ("Mass", "Mass of this layer and all above it"),
    (
        "Edge",
        "From the plumb line of this layer and all above it to the nearest edge of the contacts beneath, positive inside (floor frame)",
    ),
    (
        "Push",
        "The least level push that moves it, as a fraction of its weight: an upper bound. The weakest layer's is the tip margin",
    ),
    ("Goes", "How it goes, and which way in plan (floor frame)"),
];

pub(super) fn show(ui: &mut Ui, table: &mut Table) {
    let placed = table.hand.placed();
    let units = table.shown.plan.units;
    let layers: Vec<_> = table.shown.layers_after(placed).to_vec();
    let Some(weakest) = weakest(&layers) else { return };
    let least_push = cells(weakest, units)[PUSH].0.clone();
    let about = format!(
        "After step {placed}: each layer with all above it, against the contacts beneath it. In the view from above \
         a dot marks the centroid of the selected layer and all above it."
    );
    ui.add(eframe::egui::Label::new(look::caption(table.look, about)).wrap());
    ui.spacing_mut().interact_size.y = 15.0;
    Grid::new("layers").num_columns(5).min_col_width(30.0).spacing([9.0, 2.0]).striped(false).show(ui, |ui| {
        for (head, about) in HEADS {
            ui.label(look::caption(table.look, head)).on_hover_text(about);
        }
        ui.end_row();
        for layer in layers.iter().rev() {
            let cells = cells(layer, units);
            let is_weakest = cells[PUSH].0 == least_push;
            for (cell, about) in cells {
                let text =
                    if is_weakest { look::bold(cell, look::SMALL) } else { RichText::new(cell).size(look::SMALL) };
                let shown = ui.label(text);
                if let Some(about) = about {
                    shown.on_hover_text(about);
                }
            }
            ui.end_row();
        }
    });
}

/// The layer that governs; the lowest of equals, as for the finding.
fn weakest(layers: &[Layer]) -> Option<&Layer> {
    layers.iter().reduce(|worst, next| if next.least.governs(&worst.least) { next } else { worst })
}

/// The column of the push.
const PUSH: usize = 3;

/// What stands in the columns, with what a number is in other words.
fn cells(layer: &Layer, units: Units) -> [(String, Option<String>); 5] {
    let tips = Angle::rad(layer.tip_rad).shown(units, Grain::Coarse);
    let tilt = layer.one_plane.then(|| format!("Tips at a tilt of {tips}"));
    let (push, goes) = match layer.least {
        Decision::Decided(reserve) => {
            let how = if reserve.by == Way::Slide { "slides" } else { "tips" };
            let toward = reserve.toward();
            let push = if reserve.multiplier < 0.0 {
                "tips by itself".to_owned()
            } else {
                format!("{:.2}", reserve.multiplier)
            };
            (push, format!("{how} {toward}"))
        }
        Decision::NotLimited => ("any".to_owned(), "nowhere".to_owned()),
        // Contacts at two heights: only the reserve of the whole stack tells.
        Decision::NotDecided { .. } => ("as the whole".to_owned(), "two heights".to_owned()),
        Decision::Falls => ("none".to_owned(), "falls".to_owned()),
        Decision::Loose => ("none".to_owned(), "loose".to_owned()),
    };
    let mass = Mass::kg(layer.mass_kg).shown(units, Grain::Coarse);
    let edge = Length::m(layer.edge_m).shown(units, Grain::Fine);
    [(layer.layer.to_string(), None), (mass, None), (edge, None), (push, tilt), (goes, None)]
}
