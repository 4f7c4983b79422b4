//! Type that is read from three metres, and buttons that are pressed in gloves. Both go with the window: what,
//! where and due have capitals of 1/38 of its height, the rest of 1/57.

use crate::look::{self, Look};
use drafting::figure::Ink;
use drafting::text;
use eframe::egui::{self, Key, Stroke, StrokeKind, Ui, vec2};

/// Parts of the window's height that capitals take: of what is read from afar, and of the rest.
const WHAT: f32 = 38.0;
const REST: f32 = 57.0;
/// Beyond this part of its width the height of a window makes no larger type: lines would break too often.
const TALLEST: f32 = 0.7;
/// No smaller than this, whatever the window, points.
const LEAST: f32 = 13.0;

fn size(ui: &Ui, part: f32) -> f32 {
    let room = ui.ctx().content_rect().size();
    #[expect(clippy::cast_possible_truncation, reason = "a part of one")]
    let capital = text::capital_height(1.0, false) as f32;
    (room.y.min(TALLEST * room.x) / part / capital).max(LEAST)
}

/// Size of what is read from where the bags lie, points.
pub(super) fn huge_size(ui: &Ui) -> f32 {
    size(ui, WHAT)
}

/// Size of what stands beside it, points.
pub(super) fn big_size(ui: &Ui) -> f32 {
    size(ui, REST)
}

/// A head that is read from afar.
pub(super) fn huge(ui: &mut Ui, text: impl Into<String>) {
    let size = huge_size(ui);
    ui.add(egui::Label::new(look::bold(text, size)).wrap());
}

/// What stands under it.
pub(super) fn big(ui: &mut Ui, text: impl Into<String>) {
    let size = big_size(ui);
    ui.add(egui::Label::new(egui::RichText::new(text).size(size)).wrap());
}

/// The same in a signal colour.
pub(super) fn big_inked(ui: &mut Ui, look: &Look, text: impl Into<String>, ink: Ink) {
    let size = big_size(ui);
    ui.add(egui::Label::new(crate::signs::inked(look, text, ink).size(size)).wrap());
}

/// A second line: quiet.
pub(super) fn quiet(ui: &mut Ui, look: &Look, text: impl Into<String>) {
    big_inked(ui, look, text, Ink::Quiet);
}

/// Words that lead elsewhere, of this size; whether they were clicked.
pub(super) fn link(ui: &mut Ui, look: &Look, word: &str, size: f32) -> bool {
    let text = egui::RichText::new(word).size(size).color(look.ink(Ink::Is));
    let link = ui.add(egui::Label::new(text).selectable(false).sense(egui::Sense::click()));
    link.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, word));
    if link.has_focus() {
        let under = [link.rect.left_bottom(), link.rect.right_bottom()];
        ui.painter().line_segment(under, Stroke::new(2.0, look.ink(Ink::Is)));
    }
    link.on_hover_cursor(egui::CursorIcon::PointingHand).clicked()
}

/// A button for a gloved hand.
pub(super) fn large<'a>(ui: &Ui, text: &str) -> egui::Button<'a> {
    let size = big_size(ui);
    egui::Button::new(egui::RichText::new(text).size(size)).min_size(vec2(6.0 * size, 2.1 * size))
}

pub(super) fn button(ui: &mut Ui, text: &str) -> bool {
    let button = large(ui, text);
    ui.add(button).clicked()
}

/// How Enter presses the one filled button.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Act {
    /// At once.
    Plain,
    /// From the fields above it, where one of them has the keyboard.
    Fields {
        /// Whether one has.
        in_hand: bool,
    },
    /// It gives the button the keyboard first, and presses it by another Enter: nobody comes off and no hold ends by
    /// a key that was pressed for what went before.
    Protected,
}

/// The one filled button of a page; whether it was pressed. `free` is whether Enter was pressed in this frame while
/// nothing had the keyboard, `first` whether the button may take the keyboard now.
pub(super) fn primary(ui: &mut Ui, look: &Look, text: &str, (act, free, first): (Act, bool, bool)) -> bool {
    let size = big_size(ui);
    let ground = look.ground();
    let words = look::bold(text, size).color(ground);
    let wide = vec2(ui.available_width(), 2.4 * size);
    let button = egui::Button::new(words).fill(look.ink(Ink::Is)).wrap();
    let response = ui.add_sized(wide, button);
    let by_key = match act {
        Act::Protected if response.has_focus() => "Enter again",
        // Of two buttons on a page only the one that Enter would press says so.
        Act::Fields { in_hand } if !in_hand && !response.has_focus() => "",
        _ => "Enter",
    };
    let at = response.rect.right_center() - vec2(0.6 * size, 0.0);
    let font = egui::FontId::proportional(0.62 * size);
    // Not over the words.
    if response.rect.width() > 0.62 * size * (text.len() as f32 + 14.0) {
        ui.painter().text(at, egui::Align2::RIGHT_CENTER, by_key, font, ground);
    }
    if response.has_focus() {
        let ring = Stroke::new(2.0, look.ink(Ink::Line));
        ui.painter().rect_stroke(response.rect.expand(2.0), 4.0, ring, StrokeKind::Outside);
    }
    match act {
        Act::Plain if first => response.request_focus(),
        Act::Protected if free => response.request_focus(),
        _ => {}
    }
    // The next one of its kind asks for both Enters again.
    if act == Act::Protected && response.clicked() {
        response.surrender_focus();
    }
    response.clicked() || (act == Act::Plain && free)
}

/// Whether Enter was pressed in this frame.
pub(super) fn is_entered(ctx: &egui::Context) -> bool {
    ctx.input(|input| input.key_pressed(Key::Enter))
}
