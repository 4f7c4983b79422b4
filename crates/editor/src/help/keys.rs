//! Keys and what the pointer does.

use crate::look::{self, Look};
use eframe::egui::{self, Grid, Ui};

/// A part of the list: what it is about, then keys and what they do.
type Part = (&'static str, &'static [(&'static str, &'static str)]);

const MAP: [Part; 8] = [
    (
        "Placing",
        &[
            ("click on a lot", "takes it in hand; its next item falls where the pointer is"),
            ("click in a view", "places it; the placed piece is then selected, the lot stays in hand"),
            ("P", "places it without the pointer: on what is selected, else under the occupant point"),
            ("T", "turns what is in hand, lengthwise or crosswise"),
            ("Alt, held", "frees it from edges, centres, bearings and grid"),
            ("Esc", "puts it back"),
        ],
    ),
    (
        "Selecting",
        &[
            ("click", "selects a piece; with Shift or Ctrl one more"),
            ("Shift and drag over a view", "selects all pieces within"),
            ("Ctrl+A", "selects all pieces that are placed at this step"),
            ("L", "selects the whole layer in hand"),
            ("Tab, Space", "walk from piece to piece, select"),
            ("Esc", "selects nothing"),
        ],
    ),
    (
        "Changing what is selected",
        &[
            ("drag", "moves it; it falls onto what lies beneath"),
            ("arrows", "nudge by 5 mm or 1/4 in, with Shift tenfold: right is aft, up is right"),
            ("R", "turns it"),
            ("M", "mirrors it: the same again on the other side of the centreline"),
            ("Ctrl+D", "duplicates it"),
            ("U", "copies the layer in hand up: the same again on top"),
            ("Ctrl+C, Ctrl+X, Ctrl+V", "copy, cut, paste as plan text, also into another window"),
            ("Delete", "takes it off"),
        ],
    ),
    (
        "Steps and order",
        &[
            ("Page up, Page down", "one step back, one step on"),
            ("Home, End", "nothing placed, everything placed"),
            ("[ and ]", "place what is selected one step earlier, one step later"),
            ("drag in the list", "places a piece earlier or later"),
            ("left, right on the slider", "one step back, one step on"),
        ],
    ),
    (
        "Looking",
        &[
            ("wheel", "zooms at the pointer"),
            ("drag on the ground", "moves the drawing"),
            ("F", "fits the whole drawing; once more, the stack"),
            ("Z", "zooms to what is selected"),
            ("Ctrl++, Ctrl+-, Ctrl+0", "larger, smaller, 100 %"),
        ],
    ),
    (
        "Fixture page",
        &[
            ("drag a handle", "moves it; it snaps to what others have, with Alt held it does not"),
            ("Tab, Space", "walk from handle to handle, take hold of one"),
            ("click near a line", "selects it; its corners can then be dragged"),
            ("double click on its edge", "puts a corner there; so does Insert, after the one in hand"),
            ("right click", "adds a support, strap, bearing or gauge there"),
            ("[ and ]", "take hold of the same thing by its next grip"),
            ("arrows", "nudge along the view that was used last, with Shift tenfold"),
            ("M, Ctrl+D", "mirror it to the other side of the centreline, duplicate it beside itself"),
            ("Delete", "takes the corner or the whole thing out"),
            ("Enter, Backspace, Esc", "end a line that is being drawn, take a corner back, drop it"),
        ],
    ),
    (
        "Test day page",
        &[
            ("Enter in a field", "goes on to the next empty field; in the last one it enters what is typed"),
            ("Enter, Space", "on “It lies there”, which has the keyboard: the piece is down"),
            ("Tab, Shift+Tab", "to STOP and every other button; Space presses it"),
        ],
    ),
    (
        "Plan and window",
        &[
            ("Ctrl+Z, Ctrl+Y", "undo, redo: without end; in a field first what is typed there"),
            ("Ctrl+N, Ctrl+O, Ctrl+S, Ctrl+Shift+S", "new, open, save, save as"),
            ("Ctrl+P", "saves the sheet"),
            ("Enter, Esc in a field", "takes what is typed and goes on to the next field; takes the old value back"),
            ("Tab, Shift+Tab", "from control to control; a ring shows where the keyboard is"),
            ("F1 or ?", "help"),
            ("F2", "the cautions in full"),
        ],
    ),
];

/// Shows the list, in two columns.
pub(super) fn show(ui: &mut Ui, look: &Look) {
    ui.columns(2, |columns| {
        for (index, part) in MAP.iter().enumerate() {
            one(&mut columns[index % 2], look, part);
        }
    });
}

fn one(ui: &mut Ui, look: &Look, (head, lines): &Part) {
    ui.add_space(8.0);
    ui.label(look::bold(*head, look::BODY));
    Grid::new(*head).num_columns(2).spacing([12.0, 4.0]).show(ui, |ui| {
        for (keys, what) in *lines {
            ui.scope(|ui| {
                ui.set_width(150.0);
                ui.add(egui::Label::new(look::bold(*keys, look::SMALL)).wrap());
            });
            ui.scope(|ui| {
                ui.set_width(250.0);
                ui.add(egui::Label::new(look::caption(look, *what)).wrap());
            });
            ui.end_row();
        }
    });
}
