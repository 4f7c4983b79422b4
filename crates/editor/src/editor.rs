//! The window's state and its frame: commands in, edits through the document, pages out.

mod arranging;
mod day;
mod files;
mod forms;
mod history;
mod keeping;
mod lists;
mod photograph;
mod pictures;
mod replacing;

use crate::arranger::Arranger;
use crate::cautions;
use crate::dialogs::{FilePicker, Scripted, Wanted};
use crate::document::Document;
use crate::fields::Fields;
use crate::help::{self, Topic};
use crate::intent::Intent;
use crate::look::{self, Look};
use crate::menu::{self, Command};
use crate::messages::Messages;
use crate::pages::{self, Page, fixture, head, sheet, stack, testday};
use crate::settings::Settings;
use crate::shown::Shown;
use crate::signs;
use crate::worker::{Answer, Worker};
use crate::{DEMOS, NAME};
use assess::State;
use eframe::egui::{self, Context, Frame, Margin, Panel, Ui, ViewportCommand};
use files::{Asking, Typing};
use keeping::Keeping;
use plan::{Edit, Plan};
use replacing::Replacing;
use std::path::PathBuf;

/// What the window opens on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Opening {
    /// The plan that was open last, else the demo.
    Last,
    /// A plan's file, or the log of a test day to go on with.
    File(PathBuf),
    /// The demo.
    Demo,
}

/// The window.
pub struct Editor {
    document: Document,
    shown: Shown,
    hand: stack::Hand,
    /// What is in hand on the Fixture page.
    rig: fixture::Hand,
    fields: Fields,
    page: Page,
    worker: Option<Worker>,
    /// Stacks that are being laid out, or wait to be chosen from.
    arranger: Option<Arranger>,
    settings: Settings,
    messages: Messages,
    picker: Box<dyn FilePicker>,
    keeping: Keeping,
    /// The part of the help that is open.
    help: Option<Topic>,
    /// Whether the cautions stand in full.
    cautions: bool,
    asking: Option<Asking>,
    typing: Option<Typing>,
    question: Option<Intent>,
    replacing: Option<Replacing>,
    closing: bool,
    title: String,
    preview: sheet::Preview,
    ballast: pages::ballast::Hand,
    desk: testday::Desk,
}

/// What the window has around it.
pub struct Surroundings {
    /// Asks for files: the system's dialogs, or a script in tests.
    pub picker: Box<dyn FilePicker>,
    /// Where settings and unsaved work are kept; without it neither is.
    pub folder: Option<PathBuf>,
}

impl Surroundings {
    /// A picker that answers with this path, and nothing kept: for tests.
    pub fn scripted(picked: Option<PathBuf>) -> Self {
        Self { picker: Box::new(Scripted(picked)), folder: None }
    }
}

impl Editor {
    /// The window.
    pub fn new(creation: &eframe::CreationContext, opening: Opening, around: Surroundings) -> Self {
        let ctx = &creation.egui_ctx;
        look::dress(ctx);
        let settings = Settings::load(around.folder.as_deref());
        let document = Document::untitled(demo(0));
        let mut editor = Self {
            shown: Shown::new(&document),
            document,
            hand: stack::Hand::default(),
            rig: fixture::Hand::of(settings.opacity),
            fields: Fields::default(),
            page: Page::default(),
            worker: Worker::start(ctx.clone()).ok(),
            arranger: None,
            settings,
            messages: Messages::default(),
            picker: around.picker,
            keeping: Keeping::start(around.folder),
            help: None,
            cautions: false,
            asking: None,
            typing: None,
            question: None,
            replacing: None,
            closing: false,
            title: String::new(),
            preview: sheet::Preview::default(),
            ballast: pages::ballast::Hand::default(),
            desk: testday::Desk::default(),
        };
        editor.dress(ctx);
        match opening {
            Opening::File(path) => editor.open(ctx, &path),
            Opening::Last => {
                if let Some(path) = editor.settings.recent.first().filter(|p| p.exists()).cloned() {
                    editor.open(ctx, &path);
                }
                editor.offer_day(true);
            }
            Opening::Demo => {}
        }
        editor.offer_day(false);
        editor.ask_for_full();
        editor
    }

    /// The plan in the window with its history.
    pub fn document(&self) -> &Document {
        &self.document
    }

    /// The page that is shown.
    pub fn page(&self) -> Page {
        self.page
    }

    /// How many placements are shown on the Stack page.
    pub fn placed(&self) -> usize {
        self.hand.placed()
    }

    /// What is known of the plan as it is shown.
    pub fn assessment(&self) -> &assess::Assessment {
        &self.shown.assessment
    }

    fn command(&mut self, ctx: &Context, command: Command) {
        match command {
            Command::Intend(intent) => self.intend(ctx, intent),
            Command::Save => self.save(ctx, None),
            Command::SaveAs => self.ask(ctx, Wanted::SavePlan, None),
            Command::SaveSheet => self.ask(ctx, Wanted::SaveSheet, None),
            Command::SavePicture => self.ask(ctx, Wanted::SavePicture, None),
            Command::CopyPicture => self.copy_picture(ctx),
            Command::ChoosePhotograph => self.ask(ctx, Wanted::OpenPhotograph, None),
            // What is being typed comes before what was done.
            Command::Undo if self.fields.undo(ctx) => {}
            Command::Redo if self.fields.redo(ctx) => {}
            Command::Undo => self.walk_history(Document::undo),
            Command::Redo => self.walk_history(Document::redo),
            Command::Fit if self.page == Page::Fixture => self.rig.camera.fit(),
            Command::Arrange(question) => self.arrange(ctx, question),
            Command::Fit => self.hand.fit(),
            Command::Help(topic) => self.help = Some(topic),
            Command::Cautions => self.cautions = !self.cautions,
            Command::Go(page) => self.go(page),
            Command::Weigh { step } => {
                self.ballast.weigh(self.document.plan(), step);
                self.go(Page::Ballast);
            }
            Command::Opacity(opacity) => self.set(ctx, |settings| settings.opacity = opacity),
            Command::Tell(sentence) => self.messages.trouble(sentence),
            Command::Theme(theme) => self.set(ctx, |settings| settings.theme = theme),
            Command::Scale(scale) => self.set(ctx, |settings| settings.scale = scale),
            Command::LargerScale => self.set(ctx, |settings| settings.scale = settings.next_scale(true)),
            Command::SmallerScale => self.set(ctx, |settings| settings.scale = settings.next_scale(false)),
            Command::Metric(metric) => self.set(ctx, |settings| settings.metric = metric),
        }
    }

    /// Makes the edits that a page asked for; a refusal goes back to its field.
    fn make(&mut self, edits: Vec<Edit>) {
        if edits.is_empty() {
            self.fields.accept();
        }
        for edit in edits {
            match self.document.apply(&edit) {
                Ok(()) => self.fields.accept(),
                Err(fault) => {
                    if let Some(sentence) = self.fields.refuse(fault.sentence) {
                        self.messages.trouble(sentence);
                    }
                }
            }
        }
    }

    fn refresh(&mut self) {
        let gesture = self.hand.gesture.as_ref().or(self.rig.gesture.as_ref());
        if self.shown.refresh(&self.document, gesture) {
            self.ask_for_full();
        }
        match self.worker.as_mut().and_then(Worker::poll) {
            Some(Answer::Done(assessment)) => self.shown.take(*assessment),
            Some(Answer::Failed) => self.messages.trouble(NOT_WORKED_OUT),
            None => {}
        }
    }

    fn ask_for_full(&mut self) {
        let Some(worker) = &mut self.worker else { return };
        if self.shown.wants_full() { worker.ask(&self.shown.plan) } else { worker.forget() }
    }

    /// The part of the full assessment that is done, while it runs.
    fn progress(&self, ctx: &Context) -> Option<f32> {
        self.worker.as_ref().and_then(|worker| worker.progress(ctx))
    }
}

/// Said where the work on the checks broke down: a bug of ours, and nothing is called good by it.
const NOT_WORKED_OUT: &str =
    "The checks could not be worked out, by a fault of this program: they count as not decided. Your plan is kept";

/// A demo plan.
fn demo(index: usize) -> Plan {
    let (_, text) = DEMOS.get(index).copied().unwrap_or(DEMOS[0]);
    plan::file::read(text).expect("the demos in the binary are read by a test")
}

impl eframe::App for Editor {
    fn logic(&mut self, ctx: &Context, _: &mut eframe::Frame) {
        self.hear_dialog(ctx);
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
        let covered = self.help.is_some() || self.arranger.is_some();
        // On the drawing of the stack the keyboard goes back to the pieces.
        self.fields.begin(&ctx, self.page != Page::Stack);
        if !self.is_asking() && !covered {
            if let Some(command) = menu::shortcut(&ctx, self.types_freely(&ctx)) {
                self.command(&ctx, command);
            }
            // The keys of an open menu are the menu's: Escape closes it and nothing else.
            if !egui::Popup::is_any_open(&ctx) {
                self.page_keys(&ctx, &look);
            }
            self.refresh();
        }
        self.bar(ui, &look);
        self.cautions = cautions::show(ui, &look, self.cautions);
        self.head_and_page(ui, &look);
        self.messages.show(&ctx, &look);
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
    /// The page with the numbers that matter above it: what a picture of the page shows.
    fn head_and_page(&mut self, ui: &mut Ui, look: &Look) {
        let band = Frame::new().inner_margin(Margin::symmetric(16, 8)).fill(look.ground());
        Panel::top("head").frame(band).resizable(false).show(ui, |ui| {
            let progress = self.progress(ui.ctx());
            let plan = &self.shown.plan;
            let placed = if self.page == Page::Stack { self.hand.placed() } else { plan.steps() };
            // On a day that has begun the seat carries what the page says, not what the plan ends with.
            let planned = self.page == Page::TestDay && self.day().is_some();
            head::show(ui, look, head::Told { plan, assessment: &self.shown.assessment, placed, planned, progress });
        });
        self.show_page(ui, look);
    }

    fn bar(&mut self, ui: &mut Ui, look: &Look) {
        let frame = Frame::new().inner_margin(Margin::symmetric(12, 6)).fill(look.band());
        Panel::top("bar").frame(frame).resizable(false).show(ui, |ui| {
            ui.horizontal(|ui| {
                let known = menu::Known {
                    undo: self.document.undo_name(),
                    redo: self.document.redo_name(),
                    settings: &self.settings,
                    asking: self.asking.is_some(),
                };
                let chosen = menu::show(ui, &known);
                ui.add_space(10.0);
                for page in Page::ALL {
                    self.tab(ui, look, page);
                }
                ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
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

    fn tab(&mut self, ui: &mut Ui, look: &Look, page: Page) {
        let worst = page.worst(&self.shown.assessment).filter(|s| *s >= State::Caution);
        let response = ui.selectable_label(self.page == page, page.word());
        if response.clicked() {
            self.go(page);
        }
        if let Some(state) = worst {
            ui.scope(|ui| {
                ui.spacing_mut().item_spacing.x = 2.0;
                signs::state(ui, look, state);
            });
        }
    }

    fn go(&mut self, page: Page) {
        self.page = page;
        self.hand.put_back();
        self.rig.let_go();
    }

    fn page_keys(&mut self, ctx: &Context, look: &Look) {
        let edits = match self.page {
            Page::Stack => self.on_table(ctx, look, |table| stack::keys(ctx, table)),
            Page::Fixture => self.on_rig(ctx, look, |table| fixture::keys(ctx, table)),
            _ => return,
        };
        if !edits.is_empty() {
            self.make(edits);
        }
    }

    /// Works on what the Stack page works on, and gives the edits that it asks for.
    fn on_table(&mut self, ctx: &Context, look: &Look, work: impl FnOnce(&mut stack::Table)) -> Vec<Edit> {
        let mut table = stack::Table {
            plan: self.document.plan(),
            shown: &mut self.shown,
            hand: &mut self.hand,
            fields: &mut self.fields,
            look,
            edits: Vec::new(),
            commands: Vec::new(),
        };
        work(&mut table);
        let (edits, commands) = (table.edits, table.commands);
        commands.into_iter().for_each(|command| self.command(ctx, command));
        edits
    }

    /// Works on what the Fixture page works on, and gives the edits that it asks for.
    fn on_rig(&mut self, ctx: &Context, look: &Look, work: impl FnOnce(&mut fixture::Table)) -> Vec<Edit> {
        let folder = self.folder();
        let mut table = fixture::Table {
            plan: self.document.plan(),
            shown: &self.shown,
            hand: &mut self.rig,
            fields: &mut self.fields,
            look,
            folder: folder.as_deref(),
            edits: Vec::new(),
            commands: Vec::new(),
        };
        work(&mut table);
        let (edits, commands) = (table.edits, table.commands);
        commands.into_iter().for_each(|command| self.command(ctx, command));
        edits
    }

    fn show_page(&mut self, ui: &mut Ui, look: &Look) {
        let edits = match self.page {
            Page::Stack => self.on_table(&ui.ctx().clone(), look, |table| stack::show(ui, table)),
            Page::Fixture => self.on_rig(&ui.ctx().clone(), look, |table| fixture::show(ui, table)),
            Page::Sheet => {
                let revision = (self.document.revision(), self.shown.assessment.is_undecided());
                self.preview.refresh(&self.shown.plan, &self.shown.assessment, revision);
                if sheet::show(ui, look, &self.preview) == sheet::Asked::Save {
                    self.ask(&ui.ctx().clone(), Wanted::SaveSheet, None);
                }
                Vec::new()
            }
            Page::TestDay => {
                self.test_day(ui, look);
                Vec::new()
            }
            Page::LoadCase | Page::Ballast => self.form_page(ui, look),
        };
        if !edits.is_empty() {
            ui.ctx().request_repaint();
        }
        self.make(edits);
    }
}
