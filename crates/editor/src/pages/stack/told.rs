//! What a screen reader is told of each piece in a flat view.

use super::table::Table;
use drafting::figure::Ink;
use drafting::views::View;
use eframe::egui::accesskit::{Action, Node, Role, Toggled};
use eframe::egui::{self, Event, EventFilter, Id, Rect, Response, Ui, WidgetInfo};
use quantity::{Grain, Quantity};

/// Pieces that lie right behind another one: no pointer reaches them. Of a tall stack that is most of it, and a widget
/// that answers costs some microseconds in every frame.
pub(super) struct Hidden {
    /// Whether somebody has the window read out; the list of steps has all pieces for everybody else.
    is_read: bool,
    /// Whether a key or the reader may mean one of them in this frame.
    is_asked: bool,
    focused: Option<Id>,
}

impl Hidden {
    /// Of a view; while pieces let the pointer through, all of them are told alike.
    pub(super) fn of(ui: &Ui, canvas: Id, passes: bool) -> Self {
        let is_read = ui.ctx().has_accesskit_node(canvas);
        let asks = |event: &Event| matches!(event, Event::Key { .. } | Event::AccessKitActionRequest(_));
        let is_asked = passes || ui.input(|i| i.events.iter().any(asks));
        Self { is_read, is_asked, focused: ui.memory(egui::Memory::focused) }
    }

    /// Whether they are named to a reader.
    pub(super) fn is_told(&self) -> bool {
        self.is_read
    }

    /// Whether one of them answers as those do that are seen: to a key or the reader, and while it has the keyboard.
    pub(super) fn answers(&self, id: Id) -> bool {
        self.is_read && (self.is_asked || self.focused == Some(id))
    }
}

/// The words for each piece in each view as they were told last: words for thousands of them would cost a frame.
#[derive(Clone, Debug, Default)]
pub(crate) struct Told([Vec<Words>; 3]);

/// What is told of a piece, and of what it is said.
#[derive(Clone, Debug, Default)]
struct Words {
    lot: String,
    item: u32,
    layer: usize,
    label: String,
    place: String,
}

impl Told {
    /// Words for no more pieces than there are, and for none while nobody listens.
    pub(super) fn keep(&mut self, count: usize) {
        self.0.iter_mut().for_each(|words| words.truncate(count));
    }

    /// The words for the piece of a step.
    fn of(&mut self, table: &Table, view: View, step: usize) -> &Words {
        let words = &mut self.0[view as usize];
        if words.len() <= step {
            words.resize_with(step + 1, Words::default);
        }
        let words = &mut words[step];
        let layer = table.shown.assessment.closed.pile.layer.get(step).copied().unwrap_or_default();
        if let Some(piece) = table.shown.plan.stack.get(step)
            && (words.item, words.layer, words.lot.as_str()) != (piece.item, layer, piece.lot.as_str())
        {
            let (label, place) = (label(table, view, step), format!("step {}, layer {layer}", step + 1));
            *words = Words { lot: piece.lot.clone(), item: piece.item, layer, label, place };
        }
        words
    }
}

/// A piece with its widget: what it is, and a ring round it while it has the keyboard.
pub(super) fn seen(ui: &Ui, table: &Table, (view, step): (View, usize), response: &Response, told: &mut Told) {
    // Read before: the closures run while egui's context is locked.
    let is_chosen = table.hand.selected.contains(&step);
    if response.clicked() || response.double_clicked() || response.gained_focus() {
        let info = || WidgetInfo::selected(Role::ListBoxOption, true, is_chosen, label(table, view, step));
        response.widget_info(info);
    }
    let is_asked = is_chosen || response.has_focus() || response.hovered();
    ui.ctx().accesskit_node_builder(response.id, |node| {
        told.of(table, view, step).tell(node, response, is_chosen);
        // The place is told where somebody asks for it.
        if is_asked {
            node.set_description(place_words(table, step));
        }
    });
    if response.has_focus() {
        // Arrows nudge the piece: they must not walk to another one.
        let filter = EventFilter { horizontal_arrows: true, vertical_arrows: true, ..Default::default() };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
        let ring = egui::Stroke::new(2.0, table.look.ink(Ink::Is));
        ui.painter().rect_stroke(response.rect.expand(2.0), 0.0, ring, egui::StrokeKind::Outside);
    }
}

/// A piece without a widget that answers, told as one that has one with this sense.
pub(super) fn unseen(ui: &Ui, table: &Table, (view, step): (View, usize), response: &Response, told: &mut Told) {
    // So that the keyboard and the reader can still be led to it: then it has a widget in the next frame.
    if response.enabled() {
        ui.memory_mut(|memory| memory.interested_in_focus(response.id, response.layer_id));
    }
    ui.ctx().accesskit_node_builder(response.id, |node| {
        told.of(table, view, step).tell(node, response, false);
        node.add_action(Action::Focus);
        node.add_action(Action::Click);
    });
}

impl Words {
    fn tell(&self, node: &mut Node, response: &Response, is_chosen: bool) {
        let Rect { min, max } = response.rect;
        let [x0, y0, x1, y1] = [min.x, min.y, max.x, max.y].map(f64::from);
        node.set_bounds(egui::accesskit::Rect { x0, y0, x1, y1 });
        if !response.enabled() {
            node.set_disabled();
        }
        node.set_role(Role::ListBoxOption);
        node.set_label(self.label.as_str());
        node.set_description(self.place.as_str());
        node.set_toggled(if is_chosen { Toggled::True } else { Toggled::False });
    }
}

/// What a piece is called in a view.
fn label(table: &Table, view: View, step: usize) -> String {
    let piece = table.shown.plan.piece_name(step);
    match view {
        View::Side => piece,
        View::Front => format!("{piece} from the front"),
        View::Above => format!("{piece} from above"),
    }
}

/// Step, layer and place of a piece in words.
fn place_words(table: &Table, step: usize) -> String {
    let (plan, pile) = (&table.shown.plan, &table.shown.assessment.closed.pile);
    let layer = pile.layer.get(step).copied().unwrap_or_default();
    let at = plan.stack.get(step).map(|place| place.at.map(|at| at.shown(plan.units, Grain::Coarse)));
    let at = at.map(|[x, y]| format!(", bed x {x}, bed y {y}")).unwrap_or_default();
    format!("step {}, layer {layer}{at}", step + 1)
}
