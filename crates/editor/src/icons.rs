//! Icons of the window: glyphs of one font that stands behind the text, and buttons that show them.
//! A button's name is told to screen readers and tests; what it does and its key under the pointer.

use crate::fields::label;
use eframe::egui::{self, Button, Response, RichText, Ui, Vec2, vec2};

/// The size of an icon on its own, points.
const SIZE: f32 = 17.0;
/// A button that shows nothing else.
const BUTTON: Vec2 = vec2(28.0, 26.0);

/// A glyph of the font.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Icon(char);

impl Icon {
    pub(crate) const WAND: Self = Self('\u{E6B6}');
    pub(crate) const ORDER: Self = Self('\u{E444}');
    pub(crate) const TARGET: Self = Self('\u{E1D6}');
    pub(crate) const UNDO: Self = Self('\u{E08A}');
    pub(crate) const REDO: Self = Self('\u{E08C}');
    pub(crate) const TURN: Self = Self('\u{E036}');
    pub(crate) const MIRROR: Self = Self('\u{ED6A}');
    pub(crate) const LAYER_UP: Self = Self('\u{EDF6}');
    pub(crate) const TAKE_OFF: Self = Self('\u{E4A6}');
    pub(crate) const COPY: Self = Self('\u{E1CA}');
    pub(crate) const ALIGN: Self = Self('\u{E50E}');
    pub(crate) const GRID: Self = Self('\u{E296}');
    pub(crate) const RULER: Self = Self('\u{E6B8}');
    pub(crate) const SNAP: Self = Self('\u{E680}');
    pub(crate) const ZOOM_OUT: Self = Self('\u{E30E}');
    pub(crate) const ZOOM_IN: Self = Self('\u{E310}');
    pub(crate) const FIT: Self = Self('\u{E1D0}');
    pub(crate) const LEAN: Self = Self('\u{E7BC}');
    pub(crate) const BACK: Self = Self('\u{E5A4}');
    pub(crate) const PLAY: Self = Self('\u{E3D0}');
    pub(crate) const PAUSE: Self = Self('\u{E39E}');
    pub(crate) const FORWARD: Self = Self('\u{E5A6}');
    pub(crate) const LOCKED: Self = Self('\u{E308}');
    pub(crate) const OPEN_LOCK: Self = Self('\u{E30A}');

    pub(crate) const CARET_RIGHT: Self = Self('\u{E13A}');
    pub(crate) const CARET_DOWN: Self = Self('\u{E136}');
    pub(crate) const STEPS: Self = Self('\u{E2F6}');

    /// All of them.
    #[cfg(test)]
    const ALL: [Self; 27] = [
        Self::RULER,
        Self::CARET_RIGHT,
        Self::CARET_DOWN,
        Self::STEPS,
        Self::WAND,
        Self::ORDER,
        Self::TARGET,
        Self::UNDO,
        Self::REDO,
        Self::TURN,
        Self::MIRROR,
        Self::LAYER_UP,
        Self::TAKE_OFF,
        Self::COPY,
        Self::ALIGN,
        Self::GRID,
        Self::SNAP,
        Self::ZOOM_OUT,
        Self::ZOOM_IN,
        Self::FIT,
        Self::LEAN,
        Self::BACK,
        Self::PLAY,
        Self::PAUSE,
        Self::FORWARD,
        Self::LOCKED,
        Self::OPEN_LOCK,
    ];

    /// As a text of its usual size.
    pub(crate) fn text(self) -> RichText {
        RichText::new(self.0).size(SIZE)
    }

    /// Painted about a point.
    pub(crate) fn paint(self, painter: &egui::Painter, at: egui::Pos2, size: f32, ink: egui::Color32) {
        painter.text(at, egui::Align2::CENTER_CENTER, self.0, egui::FontId::proportional(size), ink);
    }

    /// A button that shows it alone.
    pub(crate) fn button(self, ui: &mut Ui, name: &str, about: &str) -> Response {
        self.show(ui, Button::new(self.text()), true, (name, about))
    }

    /// The same, where it cannot always be pressed.
    pub(crate) fn button_if(self, ui: &mut Ui, enabled: bool, name: &str, about: &str) -> Response {
        self.show(ui, Button::new(self.text()), enabled, (name, about))
    }

    /// One that is on or off.
    pub(crate) fn toggle(self, ui: &mut Ui, on: &mut bool, name: &str, about: &str) {
        let button = Button::selectable(*on, self.text());
        if self.show(ui, button, true, (name, about)).clicked() {
            *on = !*on;
        }
    }

    /// With its name beside it, where there is room.
    pub(crate) fn worded(self, ui: &mut Ui, room: bool, name: &str, about: &str) -> Response {
        let text = if room { RichText::new(format!("{}  {name}", self.0)) } else { self.text() };
        self.show(ui, Button::new(text), true, (name, about))
    }

    fn show(self, ui: &mut Ui, button: Button, enabled: bool, (name, about): (&str, &str)) -> Response {
        let response = ui.add_enabled(enabled, button.min_size(BUTTON).corner_radius(4));
        label(ui, &response, name);
        response.on_hover_text(about).on_disabled_hover_text(about)
    }
}

/// A thin line between groups of buttons.
pub(crate) fn gap(ui: &mut Ui) {
    ui.add(egui::Separator::default().vertical().spacing(9.0).shrink(4.0));
}

#[cfg(test)]
mod tests {
    use super::*;
    use eframe::egui::{Context, FontData, FontDefinitions, FontFamily, FontId, RawInput};

    /// A glyph that the font lacks would be drawn as an empty box.
    #[test]
    fn the_font_has_every_icon() {
        let mut fonts = FontDefinitions::empty();
        fonts.font_data.insert("icons".to_owned(), FontData::from_static(crate::look::ICONS).into());
        for family in [FontFamily::Proportional, FontFamily::Monospace] {
            fonts.families.insert(family, vec!["icons".to_owned()]);
        }
        let ctx = Context::default();
        ctx.set_fonts(fonts);
        ctx.run_ui(RawInput::default(), |_| {}).textures_delta.clear();
        let has = |glyph: char| ctx.fonts_mut(|fonts| fonts.has_glyph(&FontId::proportional(SIZE), glyph));
        for icon in Icon::ALL {
            assert!(has(icon.0), "{icon:?} is not in the font");
        }
        assert!(!has('A'), "a font with letters would hide the text font");
    }
}
