//! A frame of the window: what was heard, then bar, head, page, and what lies over them.

use super::tab;
use super::window::Editor;
use crate::cautions;
use crate::commands::{Known, OnWindow, Stated};
use crate::help;
use crate::intent::Intent;
use crate::look::{self, Look};
use crate::menu;
use crate::pages::{Page, head};
use eframe::egui::{self, Context, Frame, Margin, Panel, Ui, ViewportCommand};

/// What the window is called before a plan's name.
pub const NAME: &str = "Loadcairn";

impl eframe::App for Editor {
    fn logic(&mut self, ctx: &Context, _: &mut eframe::Frame) {
        self.hear_dialog(ctx);
        self.follow_printing();
        self.begin(ctx);
        self.refresh();
        self.keep_unsaved(ctx);
        if ctx.input(|i| i.viewport().close_requested()) && !self.closing && self.document.is_dirty() {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            self.question = Some(Intent::Close);
        }
        let dropped = ctx.input(|i| i.raw.dropped_files.first().map(|f| f.path().to_owned()));
        if let Some(path) = dropped {
            self.take_dropped(ctx, path);
        }
        let mark = if self.document.is_dirty() { "* " } else { "" };
        let title = format!("{mark}{} – {NAME}", self.document.name());
        if title != self.title {
            ctx.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.title = title;
        }
    }

    fn ui(&mut self, ui: &mut Ui, _: &mut eframe::Frame) {
        let ctx = ui.ctx().clone();
        let look = Look::of(&ctx);
        let asked = menu::asked(&ctx);
        let covered = self.help.is_some() || self.arranger.is_some();
        // A day that is open has the whole window, and its STOP is heard before anything else.
        let hangar = self.page == Page::TestDay && self.day().is_some();
        self.fill_screen(&ctx, hangar);
        // What lies over everything is put away first.
        if self.cautions && !covered && !self.is_asking() && !egui::Popup::is_any_open(&ctx) {
            self.cautions = !ctx.input_mut(|i| i.consume_key(egui::Modifiers::NONE, egui::Key::Escape));
        }
        if hangar {
            self.desk.hear_keys(&ctx, covered || self.is_asking());
        }
        // On the drawing of the stack the keyboard goes back to the pieces.
        self.fields.begin(&ctx, self.page.word(), self.page != Page::Stack || self.is_starting());
        if !self.is_asking() && !covered {
            if let Some(command) = menu::heard(&ctx, &self.known(&ctx)) {
                self.command(&ctx, command);
            }
            // The keys of an open menu are the menu's: Escape closes it and nothing else.
            if !egui::Popup::is_any_open(&ctx) {
                self.page_keys(&ctx, &look);
            }
            self.refresh();
        }
        if hangar {
            cautions::over(ui, &look, self.cautions);
        } else {
            self.bar(ui, &look, asked);
            self.cautions = cautions::show(ui, &look, self.cautions);
        }
        if self.page == Page::Stack {
            crate::pages::stack::play(&ctx, &mut self.hand, self.shown.plan.steps());
        }
        self.head_and_page(ui, &look);
        if hangar {
            self.messages.over_foot(&ctx, &look);
        }
        self.ask_question(&ctx);
        self.ask_before_replacing(&ctx);
        self.ask_for_lost_log(&ctx);
        self.type_path(&ctx);
        self.offer_left(&ctx);
        self.show_arranging(&ctx, &look);
        if let Some(topic) = self.help {
            self.help = help::show(&ctx, &look, topic);
        }
    }

    fn on_exit(&mut self, _: Option<&eframe::glow::Context>) {
        self.end_keeping();
    }

    fn persist_egui_memory(&self) -> bool {
        false
    }
}

impl Editor {
    /// A test day has the whole screen; F11 asks for it and gives it back at any time.
    fn fill_screen(&mut self, ctx: &Context, hangar: bool) {
        let turns = std::mem::replace(&mut self.hangar, hangar) != hangar;
        if turns && self.full != hangar {
            self.set_full(ctx, hangar);
        }
    }

    pub(super) fn set_full(&mut self, ctx: &Context, full: bool) {
        self.full = full;
        ctx.send_viewport_cmd(ViewportCommand::Fullscreen(full));
    }

    /// The page with the numbers that matter above it: what a picture of the page shows.
    pub(super) fn head_and_page(&mut self, ui: &mut Ui, look: &Look) {
        // On a test day the page tells what is on the seat, and never what the plan ends with.
        if self.page != Page::TestDay && !self.is_starting() {
            self.head(ui, look);
        }
        self.guide(ui, look);
        self.show_page(ui, look);
    }

    fn head(&mut self, ui: &mut Ui, look: &Look) {
        let band = Frame::new().inner_margin(Margin::symmetric(16, 5)).fill(look.ground());
        Panel::top("head").frame(band).resizable(false).show(ui, |ui| {
            let progress = self.progress(ui.ctx());
            let plan = &self.shown.plan;
            let placed = if self.page == Page::Stack { self.hand.placed() } else { plan.steps() };
            let told = head::Told { plan, assessment: &self.shown.assessment, placed, progress };
            let chart = (self.page == Page::Stack).then_some(self.hand.chart);
            if let Some(chart) = head::show(ui, look, told, chart) {
                self.hand.chart = chart;
            }
        });
    }

    fn bar(&mut self, ui: &mut Ui, look: &Look, asked: Option<menu::Asked>) {
        let frame = Frame::new().inner_margin(Margin::symmetric(12, 6)).fill(look.band());
        Panel::top("bar").frame(frame).resizable(false).show(ui, |ui| {
            ui.horizontal(|ui| {
                ui.set_min_height(tab::HIGH);
                let menus = menu::Menus {
                    known: self.known(ui.ctx()),
                    asked,
                    undo: self.document.undo_name(),
                    redo: self.document.redo_name(),
                    settings: &self.settings,
                };
                let chosen = menu::show(ui, &menus);
                ui.add_space(10.0);
                ui.scope(|ui| {
                    ui.spacing_mut().item_spacing.x = 0.0;
                    Page::ALL.into_iter().for_each(|page| self.tab(ui, look, page));
                });
                ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                    if self.messages.in_title(ui, look) {
                        return;
                    }
                    let saved = if self.document.is_dirty() { "not saved" } else { "saved" };
                    let has_file = self.document.path().is_some() || self.document.is_dirty();
                    let saved = if has_file { saved } else { "no file yet" };
                    let line = format!("{} · {saved}", self.document.plan().title);
                    ui.add(egui::Label::new(look::caption(look, line)).truncate());
                });
                if let Some(command) = chosen {
                    self.command(&ui.ctx().clone(), command);
                }
            });
        });
    }

    /// What decides which commands can be given.
    fn known(&self, ctx: &Context) -> Known {
        Known {
            undo: self.document.undo_name().is_some(),
            redo: self.document.redo_name().is_some(),
            typing: self.fields.have_keyboard(ctx),
            typing_freely: self.types_freely(ctx),
            asking: self.asking.is_some(),
            page: self.page,
            scale: self.settings.scale,
        }
    }

    /// A page's tab with the worst that is found of it; the page in hand is open towards its ground.
    fn tab(&mut self, ui: &mut Ui, look: &Look, page: Page) {
        let worst = page.worst(&self.shown);
        let (is_chosen, told) =
            (self.page == page, worst.map(|state| format!(": {}", state.word())).unwrap_or_default());
        let response = tab::show(ui, look, &tab::Tab { page, worst, is_chosen });
        let response = response.on_hover_text(format!("{}{told}. {}", page.word(), OnWindow::of(page).keys()));
        if response.clicked() {
            self.go(page);
        }
    }
}
