//! How the window looks: a shop drawing on paper, by day and by night. One face in three sizes,
//! quiet ground, thin lines; colours come from the drawing's palette.

use crate::paint;
use drafting::figure::Ink;
use drafting::palette::Palette;
use eframe::egui::{
    self, Color32, Context, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, Stroke, TextStyle, Theme,
    Visuals, vec2,
};

/// Reading size of text in the window, points.
pub(crate) const BODY: f32 = 13.0;
/// Ticks and keys: the least anywhere.
pub(crate) const TICK: f32 = 11.0;
/// Captions and second lines.
pub(crate) const SMALL: f32 = 12.0;
/// Heads of sections.
pub(crate) const HEAD: f32 = 14.0;
/// The numbers that matter.
pub(crate) const LARGE: f32 = 21.0;

/// The font of the icons.
pub(crate) const ICONS: &[u8] = include_bytes!("../../../assets/fonts/Phosphor-subset.ttf");

/// What stops a test day, and the day while it is stopped: by day and by night, and nowhere else.
pub(crate) const STOP: Color32 = Color32::from_rgb(0xC0, 0x18, 0x22);

/// Colours of the theme in force.
#[derive(Clone, Copy)]
pub(crate) struct Look {
    /// The drawing's colours.
    pub(crate) palette: Palette,
    dark: bool,
}

impl Look {
    pub(crate) fn of(ctx: &Context) -> Self {
        Self::themed(ctx.theme() == Theme::Dark)
    }

    fn themed(dark: bool) -> Self {
        Self { palette: if dark { Palette::dark() } else { Palette::light() }, dark }
    }

    pub(crate) fn ink(&self, ink: Ink) -> Color32 {
        paint::color(self.palette.ink(ink))
    }

    pub(crate) fn ground(&self) -> Color32 {
        paint::color(self.palette.ground)
    }

    /// The band behind tabs and messages.
    pub(crate) fn band(&self) -> Color32 {
        if self.dark { Color32::from_rgb(0x20, 0x24, 0x27) } else { Color32::from_rgb(0xEF, 0xEC, 0xE2) }
    }

    /// Thin rules between parts of a page.
    pub(crate) fn rule(&self) -> Color32 {
        if self.dark { Color32::from_rgb(0x36, 0x3C, 0x40) } else { Color32::from_rgb(0xD9, 0xD5, 0xC9) }
    }

    /// The edge of what is typed into, ticked or pressed: seen on the page's ground and on its own.
    fn edge(&self) -> Color32 {
        if self.dark { Color32::from_rgb(0x56, 0x5F, 0x65) } else { Color32::from_rgb(0xB4, 0xAD, 0x9D) }
    }

    /// The ground of the line or piece in hand.
    pub(crate) fn in_hand(&self) -> Color32 {
        if self.dark { Color32::from_rgb(0x1E, 0x3A, 0x38) } else { Color32::from_rgb(0xDF, 0xEE, 0xEA) }
    }

    /// The ground of the cautions.
    pub(crate) fn caution(&self) -> Color32 {
        if self.dark { Color32::from_rgb(0x35, 0x26, 0x1B) } else { Color32::from_rgb(0xFD, 0xF1, 0xE0) }
    }

    /// The ground of a field.
    pub(crate) fn field(&self) -> Color32 {
        if self.dark { Color32::from_rgb(0x10, 0x12, 0x14) } else { Color32::from_rgb(0xFF, 0xFF, 0xFC) }
    }

    fn visuals(&self) -> Visuals {
        let mut v = if self.dark { Visuals::dark() } else { Visuals::light() };
        v.panel_fill = self.ground();
        v.window_fill = self.ground();
        v.extreme_bg_color = self.field();
        v.text_edit_bg_color = Some(self.field());
        v.faint_bg_color = self.band();
        v.hyperlink_color = self.ink(Ink::Is);
        v.selection.bg_fill = self.in_hand();
        v.selection.stroke = Stroke::new(1.0, self.ink(Ink::Is));
        v.window_stroke = Stroke::new(1.0, self.rule());
        let radius = CornerRadius::same(4);
        v.window_corner_radius = radius;
        v.menu_corner_radius = radius;
        let text = self.ink(Ink::Line);
        for (widget, fill, rule) in [
            (&mut v.widgets.noninteractive, self.ground(), self.rule()),
            (&mut v.widgets.inactive, self.field(), self.edge()),
            (&mut v.widgets.hovered, self.band(), self.ink(Ink::Quiet)),
            (&mut v.widgets.active, self.in_hand(), self.ink(Ink::Is)),
            (&mut v.widgets.open, self.band(), self.ink(Ink::Quiet)),
        ] {
            widget.corner_radius = radius;
            widget.bg_fill = fill;
            widget.weak_bg_fill = fill;
            widget.bg_stroke = Stroke::new(1.0, rule);
            widget.fg_stroke = Stroke::new(1.0, text);
            widget.expansion = 0.0;
        }
        v
    }
}

/// Sets fonts, sizes, spacing and both themes; once at the start.
pub(crate) fn dress(ctx: &Context) {
    ctx.set_fonts(fonts());
    ctx.options_mut(|o| o.fallback_theme = Theme::Light);
    for theme in [Theme::Light, Theme::Dark] {
        let visuals = Look::themed(theme == Theme::Dark).visuals();
        ctx.style_mut_of(theme, |style| {
            style.visuals = visuals;
            style.text_styles = [
                (TextStyle::Small, FontId::new(SMALL, FontFamily::Proportional)),
                (TextStyle::Body, FontId::new(BODY, FontFamily::Proportional)),
                (TextStyle::Button, FontId::new(BODY, FontFamily::Proportional)),
                (TextStyle::Heading, FontId::new(BODY, paint::bold_family())),
                (TextStyle::Monospace, FontId::new(BODY, FontFamily::Monospace)),
            ]
            .into();
            style.spacing.item_spacing = vec2(8.0, 6.0);
            style.spacing.button_padding = vec2(8.0, 3.0);
            style.spacing.interact_size.y = 22.0;
        });
    }
}

/// The face of the sheet, so that what is read on the screen is read on paper; behind it the icons, and no other: nothing
/// that the program writes needs more, and more is a tenth of the binary.
fn fonts() -> FontDefinitions {
    let mut fonts = FontDefinitions::empty();
    let bundled = [("sheet", drafting::text::regular()), ("sheet bold", drafting::text::bold()), ("icons", ICONS)];
    for (name, bytes) in bundled {
        fonts.font_data.insert(name.to_owned(), FontData::from_static(bytes).into());
    }
    let faces =
        [(FontFamily::Proportional, "sheet"), (FontFamily::Monospace, "sheet"), (paint::bold_family(), "sheet bold")];
    for (family, face) in faces {
        fonts.families.insert(family, vec![face.to_owned(), "icons".to_owned()]);
    }
    fonts
}

/// What a question stands in: with air about its words.
pub(crate) fn dialog(ctx: &Context) -> egui::Frame {
    egui::Frame::popup(&ctx.global_style()).inner_margin(16)
}

/// A text in the bold face.
pub(crate) fn bold(text: impl Into<String>, size: f32) -> egui::RichText {
    egui::RichText::new(text).font(FontId::new(size, paint::bold_family()))
}

/// A caption: small and quiet.
pub(crate) fn caption(look: &Look, text: impl Into<String>) -> egui::RichText {
    egui::RichText::new(text).size(SMALL).color(look.ink(Ink::Quiet))
}

#[cfg(test)]
mod tests {
    use super::*;
    use drafting::figure::Ink::{Is, Line, Quiet, Wanted};

    /// Relative luminance (source key `wcag-2-0`: its definition).
    fn luminance(colour: Color32) -> f64 {
        let linear = |channel: u8| {
            let c = f64::from(channel) / 255.0;
            if c <= 0.03928 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * linear(colour.r()) + 0.7152 * linear(colour.g()) + 0.0722 * linear(colour.b())
    }

    /// 4.5 to 1 for text of ordinary size (source key `wcag-2-0`: success criterion 1.4.3).
    #[test]
    fn text_is_readable_on_every_ground_of_the_window_by_day_and_by_night() {
        for dark in [false, true] {
            let look = Look::themed(dark);
            let grounds: [(&str, Color32, &[Ink]); 5] = [
                ("page", look.ground(), &[Line, Quiet, Is, Wanted]),
                ("band of tabs and messages", look.band(), &[Line, Quiet, Is, Wanted]),
                ("what is in hand", look.in_hand(), &[Line, Quiet, Is, Wanted]),
                ("field", look.field(), &[Line, Quiet, Is, Wanted]),
                ("cautions", look.caution(), &[Line, Wanted]),
            ];
            for (name, ground, inks) in grounds {
                for ink in inks {
                    let (a, b) = (luminance(look.ink(*ink)), luminance(ground));
                    let got = (a.max(b) + 0.05) / (a.min(b) + 0.05);
                    assert!(
                        got >= 4.5,
                        "{ink:?} on the {name}, dark {dark}: got {got:.2}, want 4.5, difference {:.2} to 1",
                        got - 4.5
                    );
                }
            }
        }
    }
}
