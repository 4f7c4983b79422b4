//! The words of the trade as they are used here, one word for each thing.

use crate::look;
use eframe::egui::{self, Grid, Ui};

const WORDS: [(&str, &str); 23] = [
    ("article", "the structure under test"),
    ("fixture", "everything that holds the article: supports, scales, straps, blocks"),
    ("support", "a point that can only push up on the article; it may be a scale"),
    ("hold-down strap", "a strap from the article to the floor; it can only pull"),
    ("binding strap", "a strap over the stack"),
    ("footprint", "the outline around the supports, seen from above"),
    ("bed, bearing", "the plane on which the stack starts; a place where the seat really carries load"),
    ("keep-clear", "a region that ballast must not touch or approach"),
    ("lot, piece, board", "pieces alike in size; one of them; a piece that spreads load"),
    ("step, layer", "one placement; pieces at the same level"),
    ("hold", "a step at which loading stops to read scales and gauges"),
    ("limit load", "the greatest load expected in service: occupant mass x limit load factor"),
    ("ultimate load", "limit load x factor of safety x special factors"),
    ("applied load", "all that bears on the seat, boards included"),
    ("tare", "what the scales show before loading, and the seat does not carry"),
    ("occupant point", "centre of mass of the seated occupant: the target"),
    ("line of action", "the vertical line through the centroid of the stack"),
    ("offset", "distance of the line of action from the occupant point"),
    ("tip margin", "distance from the line of action to the edge of what supports it, and the push at which it tips"),
    ("reserve", "the least level push, as a part of the weight, that brings the stack down or makes it lean over"),
    ("critical load factor", "how many times its weight the stack would bear before it leans over by itself"),
    ("catch block", "what catches the article if it fails; until then nothing rests on it"),
    ("permanent set", "deflection that remains after unloading"),
];

pub(super) fn show(ui: &mut Ui) {
    Grid::new("words").num_columns(2).spacing([16.0, 6.0]).show(ui, |ui| {
        for (word, meaning) in WORDS {
            ui.label(look::bold(word, look::BODY));
            ui.add(egui::Label::new(meaning).wrap());
            ui.end_row();
        }
    });
}
