//! How a field shows its value: in full while it is typed in, else no finer than a measurement is.

use eframe::egui::Response;
use quantity::{Grain, Quantity, Units};

/// The usual width of a field, points.
pub(crate) const WIDTH: f32 = 92.0;

/// How a field shows its value.
pub(crate) struct Face {
    /// While it is typed in.
    pub(super) in_full: String,
    /// Else.
    pub(super) at_rest: String,
    /// Where nothing stands in it.
    pub(super) hint: String,
    /// What is told under the pointer.
    about: String,
    pub(super) width: f32,
}

impl Face {
    pub(crate) fn new(in_full: String, at_rest: String, width: f32) -> Self {
        Self { in_full, at_rest, hint: String::new(), about: String::new(), width }
    }

    /// A text, which is shown as it is.
    pub(super) fn text(text: String, width: f32) -> Self {
        Self::new(text.clone(), text, width)
    }

    pub(crate) fn about(self, about: String) -> Self {
        Self { about, ..self }
    }

    /// A quantity, or none.
    pub(super) fn quantity<Q: Quantity>(value: Option<Q>, units: Units, grain: Grain) -> Self {
        let in_full = value.map(|v| v.in_field(units, grain)).unwrap_or_default();
        let at_rest = value.map(|v| v.at_rest(units, grain)).unwrap_or_default();
        let symbol = units.unit(Q::KIND, grain).symbol;
        let about =
            format!("A number alone is in {symbol}. Other units are typed with it: {}.", Q::KIND.fitting_units());
        Self { hint: format!("in {symbol}"), about, ..Self::new(in_full, at_rest, WIDTH) }
    }

    pub(super) fn wide(self, width: f32) -> Self {
        Self { width, ..self }
    }

    /// Under the pointer: the value in full, and what may be typed.
    pub(super) fn tell(&self, response: Response) {
        let hover = self.hover();
        if !hover.is_empty() {
            response.on_hover_text(hover);
        }
    }

    fn hover(&self) -> String {
        let cut = (self.in_full != self.at_rest).then(|| format!("In full: {}.", self.in_full));
        let lines: Vec<_> = cut.into_iter().chain(Some(self.about.clone()).filter(|a| !a.is_empty())).collect();
        lines.join("\n")
    }
}
