//! Keys and what the pointer does: keys as the table of commands has them, pointer and fields as they are.

use crate::commands::{OnFixture, OnStack, OnWindow, Part, Stated};
use crate::look::{self, Look};
use eframe::egui::{self, Grid, Ui};

/// What is done with the pointer, or by keys that belong to the control which has the keyboard.
fn by_hand(part: Part) -> &'static [(&'static str, &'static str)] {
    match part {
        Part::Placing => &[
            ("click on a lot", "makes it the active lot; its next piece is placed where the pointer is"),
            ("click in a view", "places it; the placed piece is then selected, the lot stays active"),
            ("Alt, held", "no snapping to edges, centres, bearings or grid"),
        ],
        Part::Selecting => &[
            ("click", "selects a piece; with Shift or Ctrl one more"),
            ("Shift and drag over a view", "selects all pieces within"),
            ("Tab, Space", "go from piece to piece, select"),
        ],
        Part::Changing => &[("drag", "moves it; it comes to rest on what is below")],
        Part::Order => &[
            ("drag in the list", "moves a piece earlier or later in the order"),
            ("left, right on the slider", "one step back, one step on"),
        ],
        Part::Looking => &[("wheel", "zooms at the pointer"), ("drag on empty space", "moves the drawing")],
        Part::Fixture => &[
            ("drag a handle", "moves it; it snaps to other handles, with Alt held it does not"),
            ("Tab, Space", "go from handle to handle, select one"),
            ("click near a line", "selects it; its corners can then be dragged"),
            ("double click on its edge", "adds a corner there"),
            ("right click", "adds a support, strap, catch block, bearing or gauge there"),
        ],
        Part::TestDay => &[
            ("Enter in a field", "goes on to the next empty field; in the last one it enters what is typed"),
            ("Space, F12", "STOP, from the tare on; while words are typed F12 alone"),
            ("Enter", "presses the filled button; “End the hold” and “Taken off” want it twice"),
            ("1 to 5", "chooses a cause while the day is stopped"),
            ("Tab, Shift+Tab", "from control to control, STOP among them"),
        ],
        Part::Window => &[
            ("Enter, Esc in a field", "accepts what is typed and goes to the next field; restores the old value"),
            ("Tab, Shift+Tab", "from control to control; a ring shows where the keyboard is"),
        ],
    }
}

/// A line: keys or gesture, and what they do.
type Line = (String, &'static str);

fn lines(part: Part) -> Vec<Line> {
    let by_hand = by_hand(part).iter().map(|(gesture, does)| ((*gesture).to_owned(), *does));
    by_hand.chain(by_keys::<OnStack>(part)).chain(by_keys::<OnFixture>(part)).chain(by_keys::<OnWindow>(part)).collect()
}

/// The commands of one place that have keys.
fn by_keys<A: Stated>(part: Part) -> impl Iterator<Item = Line> {
    let rows = A::TABLE.iter().filter(move |row| row.part == part && !row.keys.are_none());
    rows.map(|row| (row.keys.words(), row.does))
}

/// Shows the list, in two columns.
pub(super) fn show(ui: &mut Ui, look: &Look) {
    ui.columns(2, |columns| {
        for (index, part) in Part::ALL.into_iter().enumerate() {
            one(&mut columns[index % 2], look, part);
        }
    });
}

fn one(ui: &mut Ui, look: &Look, part: Part) {
    ui.add_space(8.0);
    ui.label(look::bold(part.head(), look::BODY));
    Grid::new(part.head()).num_columns(2).spacing([12.0, 4.0]).show(ui, |ui| {
        for (keys, what) in lines(part) {
            ui.scope(|ui| {
                ui.set_width(150.0);
                ui.add(egui::Label::new(look::bold(keys, look::SMALL)).wrap());
            });
            ui.scope(|ui| {
                ui.set_width(250.0);
                ui.add(egui::Label::new(look::caption(look, what)).wrap());
            });
            ui.end_row();
        }
    });
}
