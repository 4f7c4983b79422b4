//! Every command: what it is called, its keys, when it can be given. One more is a line here and its arm
//! where such commands are done; the compiler asks for the arm.

use super::keys::{Chord, Keys};
use super::row::{Part, Row, Stated, commands};
use crate::pages::Page;
use crate::settings::SCALES;
use eframe::egui::Key;

/// What decides which commands of the window can be given.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Known {
    /// The history has a step to undo, or to redo.
    pub(crate) undo: bool,
    pub(crate) redo: bool,
    /// A field is being typed in whose typing can be taken back first.
    pub(crate) typing: bool,
    /// A text is being typed that keeps a history of its own.
    pub(crate) typing_freely: bool,
    /// A file dialog is open.
    pub(crate) asking: bool,
    pub(crate) page: Page,
    /// The interface's scale, per cent.
    pub(crate) scale: u32,
}

/// What decides which commands of the Stack page can be given.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct InHand {
    /// Pieces are being dragged.
    pub(crate) dragging: bool,
    /// A lot is active.
    pub(crate) placing: bool,
    /// Pieces are selected.
    pub(crate) selected: bool,
    /// A control has the keyboard, whose space bar is its own.
    pub(crate) focused: bool,
}

/// What decides which commands of the Fixture page can be given.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Tracing {
    /// A line or a region is being drawn.
    pub(crate) drawing: bool,
    /// A handle is being dragged.
    pub(crate) dragging: bool,
    /// A control has the keyboard whose arrows are its own.
    pub(crate) arrows_taken: bool,
}

const fn any(chords: &'static [Chord]) -> Keys {
    Keys::Any(chords)
}

const NONE: Keys = any(&[]);

commands! {
    /// Commands of the window.
    OnWindow of Known {
        New: "New plan", any(&[Chord::ctrl(Key::N)]), |_| true, Window, "a new plan";
        Open: "Open…", any(&[Chord::ctrl(Key::O)]), |k| !k.asking, Window, "opens a plan";
        Save: "Save", any(&[Chord::ctrl(Key::S)]), |k| !k.asking, Window, "saves the plan";
        SaveAs: "Save as…", any(&[Chord::ctrl_shift(Key::S)]), |k| !k.asking, Window, "saves it under another name";
        PrintSheet: "Print sheet", any(&[Chord::ctrl(Key::P)]), |k| !k.asking, Window, "prints the sheet";
        SaveSheet: "Save sheet…", any(&[Chord::ctrl_shift(Key::P)]), |k| !k.asking, Window, "saves the sheet";
        SavePicture: "Save picture of the page…", NONE, |k| !k.asking, Window, "saves a picture of the page";
        Close: "Close", NONE, |_| true, Window, "closes the window";
        Undo: "Undo", any(&[Chord::ctrl(Key::Z)]), |k| !k.typing_freely && (k.undo || k.typing), Window, "undo, without limit; in a field the typing comes first";
        Redo: "Redo", any(&[Chord::ctrl(Key::Y), Chord::ctrl_shift(Key::Z)]), |k| !k.typing_freely && (k.redo || k.typing), Window, "redo";
        Propose: "Propose a stack…", NONE, |_| true, Window, "lays out a stack";
        Order: "Order the stack…", NONE, |_| true, Window, "puts the steps in another order";
        Center: "Center the stack…", NONE, |_| true, Window, "moves the stack under the occupant point";
        CopyPicture: "Copy picture of the page", NONE, |_| true, Window, "copies a picture of the page";
        Fit: "Fit the drawing", any(&[Chord::bare(Key::F)]), |k| matches!(k.page, Page::Stack | Page::Fixture), Looking, "fits the whole drawing; on the Stack page, pressed again, fits the stack";
        Larger: "Larger", any(&[Chord::ctrl(Key::Plus), Chord::ctrl(Key::Equals)]), |k| k.scale < SCALES[SCALES.len() - 1], Looking, "everything larger";
        Smaller: "Smaller", any(&[Chord::ctrl(Key::Minus)]), |k| k.scale > SCALES[0], Looking, "everything smaller";
        FullScale: "100 %", any(&[Chord::ctrl(Key::Num0)]), |_| true, Looking, "everything at 100 %";
        LoadCase: "Load case", any(&[Chord::ctrl(Key::Num1)]), |_| true, Window, "the Load case page";
        Fixture: "Fixture", any(&[Chord::ctrl(Key::Num2)]), |_| true, Window, "the Fixture page";
        Ballast: "Ballast", any(&[Chord::ctrl(Key::Num3)]), |_| true, Window, "the Ballast page";
        Stack: "Stack", any(&[Chord::ctrl(Key::Num4)]), |_| true, Window, "the Stack page";
        Sheet: "Sheet", any(&[Chord::ctrl(Key::Num5)]), |_| true, Window, "the Sheet page";
        TestDay: "Test day", any(&[Chord::ctrl(Key::Num6)]), |_| true, Window, "the Test day page";
        HelpHere: "Help on this", any(&[Chord::bare(Key::F1)]), |_| true, Window, "help on what is in hand, else on the page";
        Help: "Keyboard and pointer", any(&[Chord::bare(Key::Questionmark)]), |_| true, Window, "every key";
        FullScreen: "Full screen", any(&[Chord::bare(Key::F11)]), |_| true, Looking, "the window fills the screen, or no longer; a test day begins with it";
        Cautions: "Cautions", any(&[Chord::bare(Key::F2)]), |_| true, Window, "the cautions in full";
    }
}

impl OnWindow {
    /// The command that goes to a page.
    pub(crate) fn of(page: Page) -> Self {
        match page {
            Page::LoadCase => Self::LoadCase,
            Page::Fixture => Self::Fixture,
            Page::Ballast => Self::Ballast,
            Page::Stack => Self::Stack,
            Page::Sheet => Self::Sheet,
            Page::TestDay => Self::TestDay,
        }
    }
}

commands! {
    /// Commands of the Stack page's drawing.
    OnStack of InHand {
        PutDown: "Place", any(&[Chord::bare(Key::P)]), |h| h.placing && !h.dragging, Placing, "places it without the pointer: on what is selected, else under the occupant point";
        TurnNext: "Turn the next one", any(&[Chord::bare(Key::T)]), |_| true, Placing, "turns the piece to be placed, lengthwise or crosswise";
        PutBack: "End placing", any(&[Chord::bare(Key::Escape)]), |_| true, Placing, "ends placing; without a lot in hand it selects nothing";
        All: "Select all", any(&[Chord::ctrl(Key::A)]), |h| !h.dragging, Selecting, "selects all pieces that are placed at this step";
        Layer: "Select the layer", any(&[Chord::bare(Key::L)]), |h| !h.dragging, Selecting, "selects the whole layer of the selected step";
        Nudge: "Nudge", Keys::Arrows, |h| h.selected && !h.dragging, Changing, "nudge by 5 mm or 1/4 in, with Shift tenfold: right is aft, up is right";
        Turn: "Turn", any(&[Chord::bare(Key::R)]), |h| !h.dragging, Changing, "turns it; with nothing selected, the piece to be placed";
        Mirror: "Mirror", any(&[Chord::bare(Key::X)]), |h| h.selected && !h.dragging, Changing, "mirrors it: a copy on the other side of the centreline";
        Measure: "Measure", any(&[Chord::bare(Key::M)]), |h| !h.dragging, Looking, "two clicks in a view give the distance, level and plumb; once more ends it";
        Duplicate: "Duplicate", any(&[Chord::ctrl(Key::D)]), |h| h.selected && !h.dragging, Changing, "duplicates it";
        LayerUp: "Copy layer up", any(&[Chord::bare(Key::U)]), |h| !h.dragging, Changing, "copies the layer of the selected step: the same again on top";
        Clipboard: "Copy, cut, paste", Keys::Clipboard, |h| !h.dragging, Changing, "copy, cut, paste as plan text, also into another window";
        TakeOff: "Take off", any(&[Chord::bare(Key::Delete), Chord::bare(Key::Backspace)]), |h| h.selected && !h.dragging, Changing, "takes it off the stack";
        Back: "Back", any(&[Chord::bare(Key::PageUp)]), |_| true, Order, "one step back";
        On: "On", any(&[Chord::bare(Key::PageDown)]), |_| true, Order, "one step on";
        First: "First step", any(&[Chord::bare(Key::Home)]), |_| true, Order, "nothing placed";
        Last: "Last step", any(&[Chord::bare(Key::End)]), |_| true, Order, "everything placed";
        Earlier: "Earlier", any(&[Chord::bare(Key::OpenBracket)]), |h| h.selected && !h.dragging, Order, "moves what is selected one step earlier";
        Later: "Later", any(&[Chord::bare(Key::CloseBracket)]), |h| h.selected && !h.dragging, Order, "moves what is selected one step later";
        Lean: "Lean", any(&[Chord::bare(Key::B)]), |_| true, Looking, "draws how the bags let the stack lean, to an exaggerated scale, in the view from the side; once more puts it away";
        Turned: "Turned view", any(&[Chord::bare(Key::Num1)]), |_| true, Looking, "the turned view is the large one";
        Side: "View from the side", any(&[Chord::bare(Key::Num2)]), |_| true, Looking, "the view from the side is the large one";
        Front: "View from the front", any(&[Chord::bare(Key::Num3)]), |_| true, Looking, "the view from the front is the large one";
        Above: "View from above", any(&[Chord::bare(Key::Num4)]), |_| true, Looking, "the view from above is the large one";
        CornerBefore: "Turn to the corner before", any(&[Chord::bare(Key::Comma)]), |_| true, Looking, "turns the turned view to the corner before";
        NextCorner: "Turn to the next corner", any(&[Chord::bare(Key::Period)]), |_| true, Looking, "turns the turned view to the next corner";
        Play: "Play", any(&[Chord::bare(Key::Space)]), |h| !h.focused, Looking, "places the pieces one after the other, two a second; once more stops; not while a control has the keyboard";
        Grid: "Grid", any(&[Chord::bare(Key::G)]), |_| true, Looking, "a grid behind the stack, or none";
        Snap: "Snap", any(&[Chord::bare(Key::N)]), |_| true, Placing, "pieces hold at edges, joints and round places, or do not";
        Zoom: "Zoom", any(&[Chord::bare(Key::Z)]), |h| h.selected, Looking, "zooms to what is selected";
    }
}

commands! {
    /// Commands of the Fixture page's drawing.
    OnFixture of Tracing {
        PutBack: "Put back", any(&[Chord::bare(Key::Escape)]), |_| true, Fixture, "cancels the line being drawn; else it selects nothing";
        EndLine: "End the line", any(&[Chord::bare(Key::Enter)]), |t| t.drawing, Fixture, "ends the line being drawn";
        LastCorner: "Remove the last corner", any(&[Chord::bare(Key::Backspace)]), |t| t.drawing, Fixture, "removes the last corner of the line being drawn";
        Delete: "Delete", any(&[Chord::bare(Key::Delete), Chord::bare(Key::Backspace)]), Tracing::is_free, Fixture, "deletes the corner or the whole part";
        Insert: "Insert corner", any(&[Chord::bare(Key::Insert)]), Tracing::is_free, Fixture, "adds a corner after the selected one";
        Mirror: "Mirror", any(&[Chord::bare(Key::X)]), Tracing::is_free, Fixture, "mirrors it to the other side of the centreline";
        Duplicate: "Duplicate", any(&[Chord::ctrl(Key::D)]), Tracing::is_free, Fixture, "duplicates it beside itself";
        Before: "Handle before", any(&[Chord::bare(Key::OpenBracket)]), Tracing::is_free, Fixture, "selects the handle before of the same part";
        Next: "Next handle", any(&[Chord::bare(Key::CloseBracket)]), Tracing::is_free, Fixture, "selects the next handle of the same part";
        Nudge: "Nudge", Keys::Arrows, |t| t.is_free() && !t.arrows_taken, Fixture, "nudge along the view that was used last, with Shift tenfold";
    }
}

impl Tracing {
    /// Nothing is drawn or dragged.
    fn is_free(&self) -> bool {
        !self.drawing && !self.dragging
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two commands that can be given at once share no key.
    fn shares_no_key<A: Stated + std::fmt::Debug>(state: &A::State) {
        let given: Vec<_> = A::TABLE.iter().filter(|row| (row.when)(state)).collect();
        for (index, row) in given.iter().enumerate() {
            for other in &given[index + 1..] {
                let shared = row.keys.chords().iter().find(|chord| other.keys.chords().contains(chord));
                assert_eq!(shared, None, "{:?} and {:?}", row.act, other.act);
            }
        }
    }

    #[test]
    fn a_key_gives_one_command_at_a_time() {
        let all = Known { undo: true, redo: true, page: Page::Stack, scale: SCALES[1], ..Known::default() };
        shares_no_key::<OnWindow>(&all);
        for bits in 0..8 {
            let [a, b, c] = [1, 2, 4].map(|bit| bits & bit != 0);
            shares_no_key::<OnStack>(&InHand { dragging: a, placing: b, selected: c, focused: false });
            shares_no_key::<OnFixture>(&Tracing { drawing: a, dragging: b, arrows_taken: c });
        }
    }

    /// The window hears its keys first: what it takes never reaches a page.
    #[test]
    fn no_key_of_a_page_is_taken_by_the_window() {
        let chords = |keys: Keys| keys.chords().iter().copied();
        let of_pages: Vec<Chord> = OnStack::TABLE.iter().flat_map(|row| chords(row.keys)).collect();
        let of_pages = of_pages.into_iter().chain(OnFixture::TABLE.iter().flat_map(|row| chords(row.keys)));
        let of_window: Vec<Chord> = OnWindow::TABLE.iter().flat_map(|row| chords(row.keys)).collect();
        for chord in of_pages {
            assert!(!of_window.contains(&chord), "{chord:?}");
        }
    }

    #[test]
    fn keys_are_written_as_they_stand_on_the_keyboard() {
        let rows = [
            (OnWindow::SaveAs.keys(), "Ctrl+Shift+S"),
            (OnWindow::Larger.keys(), "Ctrl++, Ctrl+="),
            (OnWindow::FullScale.keys(), "Ctrl+0"),
            (OnWindow::HelpHere.keys(), "F1"),
            (OnWindow::Help.keys(), "?"),
            (OnStack::Back.keys(), "Page up"),
            (OnStack::Earlier.keys(), "["),
            (OnStack::PutBack.keys(), "Esc"),
            (OnStack::TakeOff.keys(), "Delete, Backspace"),
        ];
        for (got, want) in rows {
            assert_eq!(got, want);
        }
    }
}
