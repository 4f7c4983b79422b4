//! What the user has in hand: step, selection, a lot from the tray, a piece being dragged.

use super::blocking::Blocked;
use super::guide::Guide;
use super::kept::Thumbs;
use super::measured::Measure;
use super::sight::Large;
use super::told::Told;
use super::turning::Turning;
use crate::pages::drawing::Camera;
use crate::pages::head::Chart;
use drafting::views::View;
use eframe::egui::Pos2;
use plan::{Edit, Plan, Turn};
use std::collections::BTreeSet;

/// A lot taken from the tray.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Placing {
    /// Which lot, from 0.
    pub(crate) lot: usize,
    /// How the piece will lie.
    pub(crate) turn: Turn,
}

/// A lot that is being carried from the tray into a view.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Carry {
    #[default]
    No,
    /// The button is down.
    Held,
    /// It was let go in this frame.
    Dropped,
}

/// Pieces that are being dragged.
#[derive(Clone, Debug)]
pub(crate) struct Grab {
    pub(crate) view: View,
    /// The piece under the pointer; it is the one that snaps.
    pub(crate) step: usize,
    pub(crate) steps: Vec<usize>,
    /// Where the button went down, drawing plane, m.
    pub(crate) from: [f64; 2],
    /// The layer in hand when it was taken hold of.
    pub(crate) layer: Option<usize>,
}

/// What the column on the right shows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Aside {
    #[default]
    Findings,
    /// The margins layer by layer.
    Layers,
}

/// Where the list of findings goes.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Jump {
    /// To the first in a state.
    First(assess::State),
    /// To one.
    To(assess::Check, assess::Where),
}

/// What the user has in hand.
#[derive(Clone, Debug)]
pub(crate) struct Hand {
    /// How many placements are shown; none shows all of them.
    step: Option<usize>,
    /// Steps (from 0) that are selected, in the order of selecting.
    pub(crate) selected: Vec<usize>,
    pub(crate) placing: Option<Placing>,
    pub(crate) carry: Carry,
    /// What is measured, while that is done.
    pub(crate) measure: Option<Measure>,
    /// The piece whose menu is open or was last, and where the menu of the ground was asked for.
    pub(crate) menu: Option<(View, usize)>,
    pub(crate) menu_at: Option<Pos2>,
    pub(crate) grab: Option<Grab>,
    /// What the gesture would do if it ended now.
    pub(crate) gesture: Option<Edit>,
    pub(crate) guides: Vec<Guide>,
    /// Buttock line (bed y, m) at which a piece placed in the side view comes to lie.
    pub(crate) lateral_m: f64,
    /// Station (bed x, m) at which a piece placed in the front view comes to lie.
    pub(crate) along_m: f64,
    pub(crate) camera: Camera,
    steps: usize,
    /// The layers whose steps are listed, and the layer that was in hand when they were.
    pub(crate) unfolded: BTreeSet<usize>,
    pub(crate) in_hand: Option<usize>,
    /// The step that the list was last scrolled to.
    pub(crate) listed: Option<usize>,
    /// The finding that is open: its check and its place, since the list is sorted anew with every
    /// change.
    pub(crate) finding: Option<(assess::Check, assess::Where)>,
    /// The pieces of the finding under the pointer, by their steps.
    pub(crate) lit: Vec<usize>,
    pub(crate) aside: Aside,
    /// The groups of findings whose met ones are listed.
    pub(crate) groups: BTreeSet<assess::Group>,
    /// Where the list of findings goes.
    pub(crate) jump: Option<Jump>,
    /// The views that are large.
    pub(crate) large: Large,
    /// How the turned view is looked at.
    pub(crate) turning: Turning,
    /// The thumbnails as they were painted last.
    pub(crate) thumbs: Thumbs,
    /// What a screen reader was told of the pieces.
    pub(crate) told: Told,
    /// Whether a grid lies behind the stack.
    pub(crate) grid: bool,
    /// Whether what is moved holds at edges, joints and round places.
    pub(crate) snaps: bool,
    /// Whether tray and steps lie open over the view of a small window.
    pub(crate) lists: bool,
    /// The chart of the timeline.
    pub(crate) chart: Chart,
    /// When the next step is shown while steps are played, s.
    pub(crate) plays: Option<f64>,
    /// Where the pointer was when the last piece was placed: until it moves away no further ghost
    /// hides that piece.
    pub(crate) placed_at: Option<Pos2>,
    /// Where a band that selects was begun, and in which view.
    pub(crate) band: Option<(View, Pos2)>,
    /// Asks for what is selected to be brought into view, where it is not.
    pub(crate) reveal_selected: bool,
    /// Asks for what is selected to be brought into view, as large as it goes.
    pub(crate) zoom_to_selected: bool,
    /// The line of the list that is dragged to another step.
    pub(crate) dragged: Option<usize>,
    /// Whether a fit shows the whole drawing; else the stack and what is close to it.
    pub(crate) shows_all: bool,
    /// Whether the side view draws how the stack leans.
    pub(crate) leans: bool,
    /// Whether the stack has outgrown the view since it was fitted by hand: it is given more room then.
    pub(crate) grown: bool,
    /// What the last search for a stack could not get past.
    pub(crate) blocked: Option<Blocked>,
}

impl Default for Hand {
    fn default() -> Self {
        Self {
            step: None,
            selected: Vec::new(),
            placing: None,
            grab: None,
            gesture: None,
            carry: Carry::default(),
            measure: None,
            menu: None,
            menu_at: None,
            guides: Vec::new(),
            lateral_m: 0.0,
            along_m: 0.0,
            camera: Camera::default(),
            steps: 0,
            unfolded: BTreeSet::new(),
            in_hand: None,
            listed: None,
            finding: None,
            lit: Vec::new(),
            aside: Aside::default(),
            groups: BTreeSet::new(),
            jump: None,
            large: Large::default(),
            turning: Turning::default(),
            thumbs: Thumbs::default(),
            told: Told::default(),
            grid: false,
            snaps: true,
            lists: false,
            chart: Chart::default(),
            plays: None,
            placed_at: None,
            band: None,
            reveal_selected: false,
            zoom_to_selected: false,
            dragged: None,
            shows_all: false,
            blocked: None,
            leans: false,
            grown: false,
        }
    }
}

impl Hand {
    /// Keeps everything within a stack of so many steps.
    pub(crate) fn fit_to(&mut self, steps: usize) {
        self.steps = steps;
        self.selected.retain(|s| *s < steps);
        self.step = self.step.filter(|s| *s < steps);
    }

    /// The steps of what hangs on the pointer.
    pub(crate) fn ghosts(&self) -> std::ops::Range<usize> {
        match &self.gesture {
            Some(Edit::Add { places, at_step, .. }) => *at_step..at_step + places.len(),
            _ => 0..0,
        }
    }

    /// How many placements are shown; a ghost from the tray counts.
    pub(crate) fn placed(&self) -> usize {
        self.step.map_or(self.steps, |step| step + self.ghosts().len()).min(self.steps)
    }

    /// The step at which a new piece is placed, in a plan of so many steps.
    pub(crate) fn next_step(&self, steps: usize) -> usize {
        self.step.unwrap_or(steps).min(steps)
    }

    /// Shows the state after so many placements.
    pub(crate) fn go_to(&mut self, placed: usize) {
        self.step = Some(placed).filter(|p| *p < self.steps);
    }

    /// Selects a piece, alone or with those selected before; brings its step into view.
    pub(crate) fn select(&mut self, step: usize, with_others: bool) {
        if !with_others {
            self.selected.clear();
        }
        match self.selected.iter().position(|s| *s == step) {
            Some(index) => drop(self.selected.remove(index)),
            None => self.selected.push(step),
        }
        if step >= self.placed() {
            self.go_to(step + 1);
        }
    }

    /// Puts everything back: the lot into the tray, the piece where it was, the selection away.
    pub(crate) fn put_back(&mut self) {
        if self.measure.take().is_some() {
            return;
        }
        if self.placing.take().is_none() && self.grab.is_none() {
            self.selected.clear();
        }
        self.let_go();
    }

    /// Lets go of a gesture. What is selected and what was taken from the tray stay.
    pub(crate) fn let_go(&mut self) {
        self.grab = None;
        self.band = None;
        self.gesture = None;
        self.guides.clear();
    }

    /// Follows the plan to another state of its history: a piece that is still there stays selected,
    /// whatever its step is by now.
    pub(crate) fn follow(&mut self, before: &Plan, now: &Plan) {
        let as_many = before.steps() == now.steps();
        let again = |step: &usize| {
            let piece = before.stack.get(*step)?;
            let same = now.stack.iter().position(|other| other.lot == piece.lot && other.item == piece.item);
            // Another item or another name of its lot: the placement is still the same.
            same.or(Some(*step).filter(|_| as_many))
        };
        self.selected = self.selected.iter().filter_map(again).collect();
    }

    /// Fits the whole drawing into the views; asked once more, the stack.
    pub(crate) fn fit(&mut self) {
        self.shows_all = !(self.shows_all && self.camera.is_fitted());
        self.grown = false;
        self.camera.fit();
        self.turning.fit();
    }

    /// Takes a lot from the tray; what is selected is let go, so that the next keys are for the new
    /// piece.
    pub(crate) fn take(&mut self, placing: Placing) {
        self.measure = None;
        self.put_back();
        self.selected.clear();
        self.placed_at = None;
        self.placing = Some(placing);
    }

    /// Selects these pieces and nothing else.
    pub(crate) fn select_all(&mut self, steps: impl IntoIterator<Item = usize>) {
        self.selected = steps.into_iter().collect();
    }

    /// The piece that was selected last.
    pub(crate) fn last_selected(&self) -> Option<usize> {
        self.selected.last().copied()
    }

    /// The layer in hand: of the piece selected last, else of the piece placed last. While something
    /// hangs on the pointer the view climbs with it, but does not fall with it: what it came from
    /// stays in sight.
    pub(crate) fn layer(&self, layers: &[usize]) -> Option<usize> {
        let of = |step: usize| layers.get(step).copied();
        if let Some(grab) = &self.grab {
            return grab.layer.max(of(grab.step));
        }
        let step = self.last_selected().or_else(|| self.placed().checked_sub(1))?;
        of(step).max(self.ghosts().filter_map(of).max())
    }
}
