//! What a frame shows: every line of text where its ink is, every control where it can be pressed.

use eframe::egui::{FullOutput, Rect, Shape, accesskit::Role};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

/// A line of text.
pub(super) struct Words {
    pub(super) text: String,
    /// All of its ink.
    pub(super) ink: Rect,
    /// What of it is not cut away.
    pub(super) seen: Rect,
    /// Where it may be painted.
    pub(super) clip: Rect,
    /// All that is said, where the end of it was left out.
    pub(super) elided: Option<String>,
}

/// What can be pressed or typed in.
pub(super) struct Control {
    pub(super) name: String,
    pub(super) role: Role,
    /// What of it is not cut away.
    pub(super) seen: Rect,
}

/// The text of a frame, but for what something opaque lies over.
pub(super) fn words(output: &FullOutput) -> Vec<Words> {
    let mut words = Vec::new();
    for clipped in &output.shapes {
        walk(&clipped.shape, clipped.clip_rect, &mut words);
    }
    words
}

fn walk(shape: &Shape, clip: Rect, words: &mut Vec<Words>) {
    match shape {
        Shape::Vec(shapes) => shapes.iter().for_each(|shape| walk(shape, clip, words)),
        Shape::Rect(rect) if rect.fill.is_opaque() => {
            let over = rect.rect.intersect(clip);
            words.retain(|word| !over.contains_rect(word.seen));
        }
        Shape::Text(text) if text.opacity_factor > 0.0 && text.angle == 0.0 => {
            for row in &text.galley.rows {
                let ink = row.row.visuals.mesh_bounds.translate(row.pos.to_vec2() + text.pos.to_vec2());
                let seen = ink.intersect(clip);
                if seen.width() > 1.0 && seen.height() > 1.0 {
                    let elided = text.galley.elided.then(|| text.galley.job.text.clone());
                    words.push(Words { text: row.row.text(), ink, seen, clip, elided });
                }
            }
        }
        _ => {}
    }
}

/// What is pressed or typed in by its own place; a piece or a handle of a drawing lies where the plan has it.
const CONTROLS: [Role; 9] = [
    Role::Button,
    Role::TextInput,
    Role::MultilineTextInput,
    Role::CheckBox,
    Role::RadioButton,
    Role::ComboBox,
    Role::SpinButton,
    Role::Slider,
    Role::Link,
];

/// The controls of a frame: what they are is told by what a screen reader hears, what of them can be pressed by where
/// egui hears the pointer.
pub(super) fn controls<T>(window: &Harness<'static, T>) -> Vec<Control> {
    let seen: Vec<(Rect, Rect)> = window.ctx.viewport(|viewport| {
        let layers = viewport.this_pass.widgets.layers();
        layers.flat_map(|(_, widgets)| widgets.iter().map(|widget| (widget.rect, widget.interact_rect))).collect()
    });
    let is_at = |one: Rect, other: Rect| (one.min - other.min).length() + (one.max - other.max).length() < 0.5;
    let of = |node: egui_kittest::Node<'_>| {
        let (_, seen) = seen.iter().find(|(rect, _)| is_at(*rect, node.rect()))?;
        let name = node.accesskit_node().label().or_else(|| node.value()).unwrap_or_default();
        let counts = seen.width() > 1.0 && seen.height() > 1.0;
        counts.then(|| Control { name, role: node.accesskit_node().role(), seen: *seen })
    };
    window.query_all_by(|node| CONTROLS.contains(&node.role())).filter_map(of).collect()
}
