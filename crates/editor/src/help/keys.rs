//! Keys and what the pointer does.

use crate::look::{self, Look};
use eframe::egui::{self, Grid, Ui};

/// A part of the list: what it is about, then keys and what they do.
type Part = (&'static str, &'static [(&'static str, &'static str)]);

const MAP: [Part; 8] = [
    (
        "Placing",
        &[
            ("click on a lot", "makes it the active lot; its next piece is placed where the pointer is"),
            ("click in a view", "places it; the placed piece is then selected, the lot stays active"),
            ("P", "places it without the pointer: on what is selected, else under the occupant point"),
            ("T", "turns the piece to be placed, lengthwise or crosswise"),
            ("Alt, held", "no snapping to edges, centres, bearings or grid"),
            ("Esc", "ends placing"),
        ],
    ),
    (
        "Selecting",
        &[
            ("click", "selects a piece; with Shift or Ctrl one more"),
            ("Shift and drag over a view", "selects all pieces within"),
            ("Ctrl+A", "selects all pieces that are placed at this step"),
            ("L", "selects the whole layer of the selected step"),
            ("Tab, Space", "go from piece to piece, select"),
            ("Esc", "selects nothing"),
        ],
    ),
    (
        "Changing what is selected",
        &[
            ("drag", "moves it; it comes to rest on what is below"),
            ("arrows", "nudge by 5 mm or 1/4 in, with Shift tenfold: right is aft, up is right"),
            ("R", "turns it"),
            ("M", "mirrors it: a copy on the other side of the centreline"),
            ("Ctrl+D", "duplicates it"),
            ("U", "copies the layer of the selected step: the same again on top"),
            ("Ctrl+C, Ctrl+X, Ctrl+V", "copy, cut, paste as plan text, also into another window"),
            ("Delete", "takes it off the stack"),
        ],
    ),
    (
        "Steps and order",
        &[
            ("Page up, Page down", "one step back, one step on"),
            ("Home, End", "nothing placed, everything placed"),
            ("[ and ]", "moves what is selected one step earlier, one step later"),
            ("drag in the list", "moves a piece earlier or later in the order"),
            ("left, right on the slider", "one step back, one step on"),
        ],
    ),
    (
        "Looking",
        &[
            ("wheel", "zooms at the pointer"),
            ("drag on empty space", "moves the drawing"),
            ("F", "fits the whole drawing; pressed again, fits the stack"),
            ("Z", "zooms to what is selected"),
            ("Ctrl++, Ctrl+-, Ctrl+0", "larger, smaller, 100 %"),
        ],
    ),
    (
        "Fixture page",
        &[
            ("drag a handle", "moves it; it snaps to other handles, with Alt held it does not"),
            ("Tab, Space", "go from handle to handle, select one"),
            ("click near a line", "selects it; its corners can then be dragged"),
            ("double click on its edge", "adds a corner there; so does Insert, after the selected one"),
            ("right click", "adds a support, strap, bearing or gauge there"),
            ("[ and ]", "select the next handle of the same part"),
            ("arrows", "nudge along the view that was used last, with Shift tenfold"),
            ("M, Ctrl+D", "mirror it to the other side of the centreline, duplicate it beside itself"),
            ("Delete", "deletes the corner or the whole part"),
            ("Enter, Backspace, Esc", "end the line being drawn, remove its last corner, cancel it"),
        ],
    ),
    (
        "Test day page",
        &[
            ("Enter in a field", "goes on to the next empty field; in the last one it enters what is typed"),
            ("Enter, Space", "on “Placed”, which has the keyboard: the piece is down"),
            ("Tab, Shift+Tab", "to STOP and every other button; Space presses it"),
        ],
    ),
    (
        "Plan and window",
        &[
            ("Ctrl+Z, Ctrl+Y", "undo, redo, without limit; in a field the typing comes first"),
            ("Ctrl+N, Ctrl+O, Ctrl+S, Ctrl+Shift+S", "new, open, save, save as"),
            ("Ctrl+P", "saves the sheet"),
            ("Enter, Esc in a field", "accepts what is typed and goes to the next field; restores the old value"),
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
