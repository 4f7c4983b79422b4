//! What opens over the picture: what is done otherwise, remarks, the lines of the log, the day so far, giving up.
//! The thing in hand stays in view beside it.

use super::desk::Desk;
use super::held::Part;
use super::large::big_size;
use super::{aside, correct, details, said, spare};
use crate::look::{self, Look};
use drafting::figure::Ink;
use eframe::egui::{self, RichText, ScrollArea, Sense, Ui};
use testday::Stage;

impl Part {
    const ALL: [Part; 7] =
        [Part::Deviation, Part::Extra, Part::Remark, Part::Details, Part::Lines, Part::SoFar, Part::GiveUp];

    /// Its head, by which it is opened.
    fn head(self) -> &'static str {
        match self {
            Part::Deviation => "Deviation from the plan",
            Part::Extra => "Add an extra piece",
            Part::Remark => "Remark or photograph",
            Part::Details => "Report details",
            Part::Lines => "Lines of the log",
            Part::SoFar => "The day so far",
            Part::GiveUp => "Give up the test…",
        }
    }

    /// The same where there is little room.
    fn short(self) -> &'static str {
        match self {
            Part::Deviation => "Deviation",
            Part::Extra => "Extra piece",
            Part::Remark => "Remark",
            Part::Details => "Details",
            Part::Lines => "Log",
            Part::SoFar => "So far",
            Part::GiveUp => "Give up…",
        }
    }

    /// Whether it has a sense now.
    fn applies(self, desk: &Desk) -> bool {
        let Some(day) = desk.day() else { return false };
        let over = day.ended.is_some();
        match self {
            Part::Remark | Part::Details | Part::Lines | Part::SoFar => true,
            Part::Deviation | Part::Extra => !over && day.run().stage != Stage::Unloading,
            Part::GiveUp => !over && day.aborted.is_none() && matches!(day.run().stage, Stage::Empty | Stage::Loading),
        }
    }
}

/// The words that open the parts, in one line.
pub(super) fn words(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let size = 0.78 * big_size(ui);
    let short = ui.available_width() < 72.0 * size;
    let flooded = ui.visuals().override_text_color.is_some();
    for part in Part::ALL {
        if !part.applies(desk) {
            continue;
        }
        let text = if short { part.short() } else { part.head() };
        let ink = if flooded { egui::Color32::WHITE } else { look.ink(Ink::Is) };
        let text = if desk.side.open == Some(part) { look::bold(text, size) } else { RichText::new(text).size(size) };
        let link = ui.add(egui::Label::new(text.color(ink)).selectable(false).sense(Sense::click()));
        link.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, part.head()));
        let link = link.on_hover_cursor(egui::CursorIcon::PointingHand);
        if link.has_focus() {
            let under = [link.rect.left_bottom(), link.rect.right_bottom()];
            ui.painter().line_segment(under, egui::Stroke::new(2.0, ink));
        }
        if link.clicked() {
            desk.side.open = (desk.side.open != Some(part)).then_some(part);
            desk.side.line = None;
        }
        ui.add_space(0.9 * size);
    }
}

/// The open part; whether one is open.
pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk) -> bool {
    let Some(part) = desk.side.open.filter(|part| part.applies(desk)) else { return false };
    ui.horizontal(|ui| {
        let size = big_size(ui);
        ui.label(look::bold(part.head().trim_end_matches('…'), size));
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if ui.add(egui::Button::new(RichText::new("Back to the picture").size(0.7 * size))).clicked() {
                desk.side.open = None;
            }
        });
    });
    ui.add_space(4.0);
    ui.spacing_mut().scroll = egui::style::ScrollStyle::solid();
    ScrollArea::vertical().id_salt(("day side", part.head())).auto_shrink([false, false]).show(ui, |ui| match part {
        Part::Deviation => said::deviation(ui, look, desk),
        Part::Extra => spare::show(ui, look, desk),
        Part::Remark => said::remark(ui, desk),
        Part::Details => details::show(ui, look, desk),
        Part::Lines => correct::show(ui, look, desk),
        Part::SoFar => aside::show(ui, look, desk),
        Part::GiveUp => said::giving_up(ui, desk),
    });
    true
}
