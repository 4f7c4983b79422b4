//! The tip margin layer by layer, for the state in hand.

use super::Table;
use crate::look;
use eframe::egui::{Grid, RichText, Ui};
use quantity::{Angle, Grain, Length, Mass, Quantity, frame};

pub(super) fn show(ui: &mut Ui, table: &mut Table) {
    let placed = table.hand.placed();
    let units = table.shown.plan.units;
    let layers: Vec<_> = table.shown.layers_after(placed).to_vec();
    if layers.is_empty() {
        return;
    }
    ui.add_space(8.0);
    ui.label(look::bold("Tip margin by layer", look::BODY));
    ui.label(look::caption(table.look, format!("after step {placed}: all above each layer's underside")));
    ui.spacing_mut().interact_size.y = 15.0;
    let cell = |ui: &mut Ui, text: String| ui.label(RichText::new(text).size(look::SMALL));
    Grid::new("layers").num_columns(5).min_col_width(30.0).spacing([9.0, 2.0]).striped(false).show(ui, |ui| {
        for head in ["Layer", "Above", "Edge", "Tips at", "Going"] {
            ui.label(look::caption(table.look, head));
        }
        ui.end_row();
        for layer in layers.iter().rev() {
            cell(ui, layer.layer.to_string());
            cell(ui, Mass::kg(layer.mass_kg).shown(units, Grain::Coarse));
            cell(ui, Length::m(layer.edge_m).shown(units, Grain::Fine));
            let tips = Angle::rad(layer.tip_rad).shown(units, Grain::Coarse);
            cell(
                ui,
                match (layer.one_plane, layer.tip_rad < 0.0) {
                    (false, _) => "two heights".to_owned(),
                    (true, true) => "over already".to_owned(),
                    (true, false) => tips,
                },
            );
            cell(ui, frame::plan_words(layer.tip.direction_rad.to_degrees()).to_owned());
            ui.end_row();
        }
    });
}
