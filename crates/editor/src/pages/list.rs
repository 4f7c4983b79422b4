//! A list of things with a line of fields each, a way to add one and to remove one.

use crate::fields::{Form, label};
use crate::look;
use eframe::egui::{Grid, Ui};

/// What a list is headed with, how its things are called, and what one more of so many is.
pub(crate) struct Heads<'a, F> {
    /// A thing of it: `support`.
    pub(crate) thing: &'a str,
    /// The heads of its columns.
    pub(crate) columns: &'a [&'a str],
    pub(crate) fresh: F,
}

/// Shows a list; `show` fills one line with as many cells as there are columns.
pub(crate) fn list<T>(
    form: &mut Form,
    ui: &mut Ui,
    heads: &Heads<impl Fn(usize) -> T>,
    items: &mut Vec<T>,
    mut show: impl FnMut(&mut Form, &mut Ui, usize, &mut T),
) {
    let mut removed = None;
    if !items.is_empty() {
        Grid::new(heads.thing).num_columns(heads.columns.len() + 1).spacing([10.0, 6.0]).show(ui, |ui| {
            for column in heads.columns {
                ui.label(look::caption(form.look, *column));
            }
            ui.end_row();
            for (index, item) in items.iter_mut().enumerate() {
                // Names carry the index, so that no cell needs an id of its own: a cell within
                // a cell would not stand under its head.
                show(form, ui, index, item);
                let remove = ui.button("Remove");
                label(ui, &remove, &format!("Remove {} {}", heads.thing, index + 1));
                if remove.clicked() {
                    removed = Some(index);
                }
                ui.end_row();
            }
        });
    }
    if let Some(index) = removed {
        items.remove(index);
        form.fields.reorder(heads.thing, |line| without(line, index));
        form.note(&format!("{} list", heads.thing));
    }
    if ui.button(format!("Add {}", heads.thing)).clicked() {
        items.push((heads.fresh)(items.len()));
        form.note(&format!("{} list", heads.thing));
    }
}

/// Where a line of a list goes when another one is removed; none for that one.
pub(crate) fn without(line: usize, removed: usize) -> Option<usize> {
    (line != removed).then(|| line - usize::from(line > removed))
}

/// The width of what stands before the fields of a line, points.
const NAME: f32 = 190.0;

/// A line of a form: what it is, then its fields.
pub(crate) fn row(ui: &mut Ui, name: &str, add: impl FnOnce(&mut Ui)) {
    ui.horizontal(|ui| {
        ui.allocate_ui_with_layout(
            eframe::egui::vec2(NAME, 22.0),
            eframe::egui::Layout::left_to_right(eframe::egui::Align::Center),
            |ui| {
                ui.set_min_width(NAME);
                ui.label(name);
            },
        );
        add(ui);
    });
}

/// Heads over the fields of the lines below, each as wide as a quantity's field.
pub(crate) fn heads(ui: &mut Ui, look: &look::Look, words: &[&str]) {
    ui.horizontal(|ui| {
        ui.add_space(NAME + ui.spacing().item_spacing.x);
        for word in words {
            // A field has four points of margin on either side.
            let size = eframe::egui::vec2(crate::fields::WIDTH, 14.0);
            let layout = eframe::egui::Layout::left_to_right(eframe::egui::Align::Max);
            ui.allocate_ui_with_layout(size, layout, |ui| {
                ui.set_min_width(crate::fields::WIDTH);
                ui.label(look::caption(look, *word));
            });
        }
    });
}

/// Heads over the three fields of a point.
pub(crate) const COORDINATES: [&str; 3] = ["x, station", "y, buttock line", "z, waterline"];

/// Three fields of a point: station, buttock line, waterline, or their like.
pub(crate) fn point(form: &mut Form, ui: &mut Ui, name: &str, at: &mut [quantity::Length; 3]) {
    for (axis, value) in ["x", "y", "z"].into_iter().zip(at) {
        form.quantity(ui, &format!("{name} {axis}"), quantity::Grain::Coarse, value);
    }
}

/// A name that nothing of the list has yet: `lot 2`.
pub(crate) fn unused_name(thing: &str, taken: impl Fn(&str) -> bool) -> String {
    (1_u32..).map(|n| format!("{thing} {n}")).find(|name| !taken(name)).unwrap_or_default()
}
