//! What the program has to say to the user outside any field: one line at a time, until dismissed.

use crate::look::Look;
use drafting::figure::{Ink, Sign};
use eframe::egui::{self, Ui};

/// The line under the pages' tabs.
#[derive(Default)]
pub(crate) struct Messages {
    line: Option<(Sign, String)>,
}

impl Messages {
    /// Something went wrong; said in full.
    pub(crate) fn trouble(&mut self, text: impl Into<String>) {
        self.line = Some((Sign::Fails, text.into()));
    }

    /// Something was done.
    pub(crate) fn done(&mut self, text: impl Into<String>) {
        self.line = Some((Sign::Holds, text.into()));
    }

    pub(crate) fn show(&mut self, ui: &mut Ui, look: &Look) {
        let Some((sign, text)) = &self.line else { return };
        let mut dismissed = false;
        let frame = egui::Frame::new().inner_margin(egui::Margin::symmetric(16, 6)).fill(look.band());
        egui::Panel::top("messages").frame(frame).show(ui, |ui| {
            ui.horizontal(|ui| {
                let ink = if *sign == Sign::Fails { Ink::Wanted } else { Ink::Is };
                crate::signs::sign(ui, look, *sign, ink);
                dismissed = ui.button("Dismiss").clicked();
                ui.add(egui::Label::new(text).wrap());
            });
        });
        if dismissed {
            self.line = None;
        }
    }
}
