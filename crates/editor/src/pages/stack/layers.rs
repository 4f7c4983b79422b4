//! The tip margin layer by layer, for the state in hand.

use super::Table;
use crate::look;
use eframe::egui::{Grid, RichText, Ui};
use quantity::{Angle, Grain, Length, Mass, Quantity, frame};

const HEADS: [(&str, &str); 5] = [
    ("Layer", "Counted from the bed"),
    ("Mass", "Mass of this layer and all above it"),
    (
        "Edge",
        "From the plumb line of this layer and all above it to the nearest edge of the contacts beneath, positive inside (floor frame)",
    ),
    ("Tips at", "The tilt at which it would go over that edge"),
    ("Going", "The way it would go"),
];

pub(super) fn show(ui: &mut Ui, table: &mut Table) {
    let placed = table.hand.placed();
    let units = table.shown.plan.units;
    let layers: Vec<_> = table.shown.layers_after(placed).to_vec();
    if layers.is_empty() {
        return;
    }
    let about = format!(
        "After step {placed}, closed form: each layer with all above it, against the contacts beneath it. In the view from above a dot marks the centroid of the layer in hand and all above it."
    );
    ui.add(eframe::egui::Label::new(look::caption(table.look, about)).wrap());
    ui.spacing_mut().interact_size.y = 15.0;
    let cell = |ui: &mut Ui, text: String| ui.label(RichText::new(text).size(look::SMALL));
    Grid::new("layers").num_columns(5).min_col_width(30.0).spacing([9.0, 2.0]).striped(false).show(ui, |ui| {
        for (head, about) in HEADS {
            ui.label(look::caption(table.look, head)).on_hover_text(about);
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
