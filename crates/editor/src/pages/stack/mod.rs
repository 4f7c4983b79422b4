//! The Stack page: a large view with thumbnails of the others, tray and steps, the piece in hand, the
//! timeline, findings.

mod again;
mod around;
mod aside;
mod band;
mod blocked;
mod blocking;
mod canvas;
mod clipboard;
mod finding;
mod findings;
mod gesture;
mod guide;
mod hand;
mod kept;
mod keys;
mod layers;
mod lean;
mod lit;
mod measure;
mod measured;
mod menus;
mod next;
mod order;
mod piece_line;
mod put_down;
mod quiet;
mod readout;
mod room;
mod scene;
mod sight;
mod sights;
mod slider;
mod small;
mod snap;
mod steps;
mod strips;
mod table;
mod thumb;
mod timeline;
mod told;
mod tools;
mod tray;
mod turned;
mod turning;

pub(crate) use blocking::Blocked;
pub(crate) use hand::Hand;
pub(crate) use keys::keys;
pub(crate) use table::Table;
pub(crate) use timeline::play;
pub(crate) use turned::plate;
pub(crate) use turning::Turning;

use eframe::egui::{self, Frame, Margin, Panel, Ui};
use room::Room;

pub(crate) fn show(ui: &mut Ui, table: &mut Table) {
    table.hand.fit_to(table.shown.plan.steps());
    table.hand.lit.clear();
    let room = Room::of(ui.available_width());
    let side = Frame::new().inner_margin(Margin::symmetric(12, 10)).fill(table.look.ground());
    let row = Frame::new().inner_margin(Margin::symmetric(8, 0)).fill(table.look.ground());
    let narrow = if room == Room::Small { side.inner_margin(Margin::symmetric(4, 8)) } else { side };
    Panel::left("tray and steps").exact_size(room.left()).resizable(false).frame(narrow).show(ui, |ui| {
        if room == Room::Small {
            small::show(ui, table);
        } else {
            tray::show(ui, table);
            steps::show(ui, table);
        }
    });
    Panel::right("findings").exact_size(room.right()).resizable(false).frame(side).show(ui, |ui| {
        aside::show(ui, table);
    });
    Panel::top("tools").exact_size(36.0).resizable(false).frame(row).show(ui, |ui| tools::show(ui, table, room));
    Panel::bottom("timeline").exact_size(room.timeline()).resizable(false).frame(row).show(ui, |ui| {
        timeline::show(ui, table, room);
    });
    Panel::bottom("piece").exact_size(46.0).resizable(false).frame(row).show(ui, |ui| piece_line::show(ui, table));
    let ground = Frame::new().fill(table.look.ground());
    egui::CentralPanel::default().frame(ground).show(ui, |ui| sights::show(ui, table, room));
    tray::let_go(table);
}
