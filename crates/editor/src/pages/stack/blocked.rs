//! Why no stack could be laid out, above the views, until it is put away or the plan changes: the reason in words, and the
//! distance that is too short with its measure in the drawings.

use super::table::Table;
use crate::look;
use drafting::figure::{Figure, Ink};
use drafting::views::{self, View};
use eframe::egui::{self, Align, Button, Label, Layout, Rect, Stroke, Ui, UiBuilder, pos2, vec2};

/// The gaps as they are seen from one side.
pub(super) fn figure(table: &Table, view: View) -> Figure {
    let mut figure = Figure::default();
    for gap in table.hand.blocked.iter().flat_map(|blocked| &blocked.gaps) {
        figure.over(views::gap(gap, table.shown.plan.units, view));
    }
    figure
}

/// The first reason above the views, and a button that puts it away. Gives what it leaves of the area: it covers no
/// drawing.
pub(super) fn show(ui: &mut Ui, table: &mut Table, area: Rect) -> Rect {
    let revision = table.shown.revision();
    table.hand.blocked.take_if(|blocked| blocked.revision != revision);
    let Some(blocked) = &table.hand.blocked else { return area };
    let Some(first) = blocked.reasons.first() else { return area };
    let rect = area.shrink2(vec2(10.0, 8.0));
    let mut is_put_away = false;
    let shown = ui.scope_builder(UiBuilder::new().max_rect(rect).layout(Layout::top_down(Align::Min)), |ui| {
        let stroke = Stroke::new(1.0, table.look.ink(Ink::Wanted));
        let frame = egui::Frame::new().fill(table.look.caution()).stroke(stroke).inner_margin(10).corner_radius(2);
        frame.show(ui, |ui| {
            ui.horizontal(|ui| {
                ui.label(look::bold("Propose found no stack that meets every check", look::BODY));
                ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                    is_put_away = ui.add(Button::new("Put away")).clicked();
                });
            });
            ui.add(Label::new(first).wrap());
            if blocked.reasons.len() > 1 {
                let more = format!("and {} more", blocked.reasons.len() - 1);
                ui.label(look::caption(table.look, more)).on_hover_text(blocked.reasons[1..].join("\n"));
            }
        });
    });
    if is_put_away {
        table.hand.blocked = None;
    }
    Rect::from_min_max(pos2(area.left(), shown.response.rect.bottom() + 8.0), area.max)
}
