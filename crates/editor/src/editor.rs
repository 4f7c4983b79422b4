//! The window's state and its frame: commands in, edits through the document, pages out.

use crate::dialogs::{FilePicker, Native, Wanted};
use crate::document::Document;
use crate::fields::Fields;
use crate::intent::Intent;
use crate::look::{self, Look};
use crate::menu::{self, Command};
use crate::messages::Messages;
use crate::pages::{self, Bench, Page, head, sheet, stack};
use crate::settings::Settings;
use crate::shown::Shown;
use crate::signs;
use crate::worker::Worker;
use crate::{DEMOS, NAME, disk};
use assess::{Reach, State};
use eframe::egui::{self, Context, Frame, Margin, Panel, ScrollArea, Ui, ViewportCommand};
use plan::{Edit, Plan};

use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

/// What the window opens on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Opening {
    /// The plan that was open last, else the demo.
    Last,
    /// A plan's file.
    File(PathBuf),
    /// The demo.
    Demo,
}

/// A file dialog that is open.
struct Asking {
    wanted: Wanted,
    answer: Receiver<Option<PathBuf>>,
    since: Instant,
    /// What waits for a plan to be saved first.
    then: Option<Intent>,
}

/// Where a path is typed, because the desktop has no file dialog.
struct Typing {
    wanted: Wanted,
    path: String,
    then: Option<Intent>,
}

/// An answer sooner than this was not given by a person: no dialog could be shown.
const NO_DIALOG: Duration = Duration::from_millis(150);

/// The window.
pub struct Editor {
    document: Document,
    shown: Shown,
    hand: stack::Hand,
    fields: Fields,
    page: Page,
    worker: Option<Worker>,
    settings: Settings,
    messages: Messages,
    picker: Box<dyn FilePicker>,
    asking: Option<Asking>,
    typing: Option<Typing>,
    question: Option<Intent>,
    closing: bool,
    title: String,
    preview: sheet::Preview,
}

impl Editor {
    /// The window with the system's file dialogs.
    pub fn new(creation: &eframe::CreationContext, opening: Opening) -> Self {
        Self::with_picker(creation, opening, Box::new(Native))
    }

    /// The window with a file picker of its own, for tests.
    pub fn with_picker(creation: &eframe::CreationContext, opening: Opening, picker: Box<dyn FilePicker>) -> Self {
        let ctx = &creation.egui_ctx;
        look::dress(ctx);
        let settings = Settings::load(creation.storage);
        ctx.set_theme(settings.theme);
        let document = Document::untitled(demo(0));
        let mut editor = Self {
            shown: Shown::new(&document),
            document,
            hand: stack::Hand::default(),
            fields: Fields::default(),
            page: Page::default(),
            worker: Worker::start(ctx.clone()).ok(),
            settings,
            messages: Messages::default(),
            picker,
            asking: None,
            typing: None,
            question: None,
            closing: false,
            title: String::new(),
            preview: sheet::Preview::default(),
        };
        match opening {
            Opening::File(path) => editor.open(&path),
            Opening::Last => {
                if let Some(path) = editor.settings.recent.first().filter(|p| p.exists()).cloned() {
                    editor.open(&path);
                }
            }
            Opening::Demo => {}
        }
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

    fn take_document(&mut self, document: Document) {
        self.document = document;
        self.shown = Shown::new(&self.document);
        self.hand = stack::Hand::default();
        self.fields.clear();
        self.preview = sheet::Preview::default();
        self.ask_for_full();
    }

    fn open(&mut self, path: &Path) {
        let text = match disk::read(path) {
            Ok(text) => text,
            Err(error) => return self.messages.trouble(format!("{} could not be read: {error}", path.display())),
        };
        match plan::file::read(&text) {
            Ok(plan) => {
                self.settings.remember(path);
                self.take_document(Document::opened(plan, path.to_owned()));
            }
            Err(why) => self.messages.trouble(format!("{}:{why}", path.display())),
        }
    }

    fn save_to(&mut self, path: &Path) -> bool {
        let text = plan::file::write(self.document.plan());
        match disk::write_whole(path, text.as_bytes()) {
            Ok(()) => {
                self.document.saved_as(path.to_owned());
                self.settings.remember(path);
                self.messages.done(format!("Saved as {}", path.display()));
                true
            }
            Err(error) => {
                self.messages.trouble(format!("{} could not be written: {error}", path.display()));
                false
            }
        }
    }

    fn save_sheet_to(&mut self, path: &Path) {
        let plan = self.document.plan();
        let assessment = assess::assess(plan, Reach::Full);
        let written = drafting::sheet::pdf(plan, &assessment).map_err(|e| e.to_string());
        let written = written.and_then(|bytes| disk::write_whole(path, &bytes).map_err(|e| e.to_string()));
        match written {
            Ok(()) => self.messages.done(format!("Sheet saved as {}", path.display())),
            Err(why) => self.messages.trouble(format!("{} could not be written: {why}", path.display())),
        }
    }

    /// Does what was intended, after asking if it would lose work.
    fn intend(&mut self, ctx: &Context, intent: Intent) {
        if self.document.is_dirty() {
            self.question = Some(intent);
        } else {
            self.carry_out(ctx, intent);
        }
    }

    fn carry_out(&mut self, ctx: &Context, intent: Intent) {
        match intent {
            Intent::Choose => self.ask(ctx, Wanted::OpenPlan, None),
            Intent::Open(path) => self.open(&path),
            Intent::Demo(index) => self.take_document(Document::untitled(demo(index))),
            Intent::New => {
                let units = self.document.plan().units;
                self.take_document(Document::untitled(Plan::blank(units)));
            }
            Intent::Close => {
                self.closing = true;
                ctx.send_viewport_cmd(ViewportCommand::Close);
            }
        }
    }

    fn save(&mut self, ctx: &Context, then: Option<Intent>) {
        match self.document.path().map(Path::to_owned) {
            Some(path) => {
                if self.save_to(&path)
                    && let Some(intent) = then
                {
                    self.carry_out(ctx, intent);
                }
            }
            None => self.ask(ctx, Wanted::SavePlan, then),
        }
    }

    fn ask(&mut self, ctx: &Context, wanted: Wanted, then: Option<Intent>) {
        if self.asking.is_some() {
            return;
        }
        let (reply, answer) = channel();
        self.picker.ask(wanted, &self.suggested(wanted), ctx, reply);
        self.asking = Some(Asking { wanted, answer, since: Instant::now(), then });
    }

    /// The file name that a dialog begins with.
    fn suggested(&self, wanted: Wanted) -> String {
        let stem = self.document.path().and_then(Path::file_stem).map(|s| s.to_string_lossy().into_owned());
        let stem = stem.unwrap_or_else(|| {
            let title = self.document.plan().title.to_lowercase();
            let plain: String = title.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
            plain.split('-').filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-")
        });
        format!("{stem}.{}", wanted.ending())
    }

    /// Takes the answer of a file dialog, once it is there.
    fn hear_dialog(&mut self, ctx: &Context) {
        let Some(asking) = &self.asking else { return };
        let Ok(answer) = asking.answer.try_recv() else { return };
        let Some(asking) = self.asking.take() else { return };
        match answer {
            Some(path) => self.take_path(ctx, asking.wanted, path, asking.then),
            None if asking.since.elapsed() < NO_DIALOG => {
                let path = self.suggested(asking.wanted);
                let path =
                    std::env::current_dir().map_or_else(|_| path.clone(), |d| d.join(&path).display().to_string());
                self.typing = Some(Typing { wanted: asking.wanted, path, then: asking.then });
            }
            None => {}
        }
    }

    fn take_path(&mut self, ctx: &Context, wanted: Wanted, mut path: PathBuf, then: Option<Intent>) {
        if wanted != Wanted::OpenPlan && path.extension().is_none() {
            path.set_extension(wanted.ending());
        }
        match wanted {
            Wanted::OpenPlan => self.open(&path),
            Wanted::SaveSheet => self.save_sheet_to(&path),
            Wanted::SavePlan => {
                if self.save_to(&path)
                    && let Some(intent) = then
                {
                    self.carry_out(ctx, intent);
                }
            }
        }
    }

    fn command(&mut self, ctx: &Context, command: Command) {
        match command {
            Command::Intend(intent) => self.intend(ctx, intent),
            Command::Save => self.save(ctx, None),
            Command::SaveAs => self.ask(ctx, Wanted::SavePlan, None),
            Command::SaveSheet => self.ask(ctx, Wanted::SaveSheet, None),
            Command::Undo => {
                self.hand.put_back();
                self.document.undo();
            }
            Command::Redo => {
                self.hand.put_back();
                self.document.redo();
            }
            Command::Fit => self.hand.camera.fit(),
            Command::Theme(theme) => {
                self.settings.theme = theme;
                ctx.set_theme(theme);
            }
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
                Err(fault) if self.fields.take_change().is_some() => {
                    self.fields.refuse(fault.sentence);
                }
                Err(fault) => self.messages.trouble(fault.sentence),
            }
        }
    }

    fn refresh(&mut self) {
        if self.shown.refresh(&self.document, self.hand.gesture.as_ref()) {
            self.ask_for_full();
        }
        if let Some(assessment) = self.worker.as_mut().and_then(Worker::poll) {
            self.shown.take(assessment);
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

/// A demo plan.
fn demo(index: usize) -> Plan {
    let (_, text) = DEMOS.get(index).copied().unwrap_or(DEMOS[0]);
    plan::file::read(text).expect("the demos in the binary are read by a test")
}

impl eframe::App for Editor {
    fn logic(&mut self, ctx: &Context, _: &mut eframe::Frame) {
        self.hear_dialog(ctx);
        self.refresh();
        if ctx.input(|i| i.viewport().close_requested()) && !self.closing && self.document.is_dirty() {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            self.question = Some(Intent::Close);
        }
        let dropped = ctx.input(|i| i.raw.dropped_files.first().map(|f| f.path().to_owned()));
        if let Some(path) = dropped {
            self.intend(ctx, Intent::Open(path));
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
        if self.question.is_none() && self.typing.is_none() {
            if let Some(command) = menu::shortcut(&ctx) {
                self.command(&ctx, command);
            }
            self.stack_keys(&ctx, &look);
            self.refresh();
        }
        self.bar(ui, &look);
        self.messages.show(ui, &look);
        let band = Frame::new().inner_margin(Margin::symmetric(16, 8)).fill(look.ground());
        Panel::top("head").frame(band).resizable(false).show(ui, |ui| {
            let progress = self.progress(&ctx);
            head::show(ui, &look, (&self.shown.plan, &self.shown.assessment), progress);
        });
        self.show_page(ui, &look);
        self.ask_question(&ctx);
        self.type_path(&ctx);
    }

    fn save(&mut self, storage: &mut dyn eframe::Storage) {
        self.settings.store(storage);
    }

    fn persist_egui_memory(&self) -> bool {
        false
    }
}

impl Editor {
    fn bar(&mut self, ui: &mut Ui, look: &Look) {
        let frame = Frame::new().inner_margin(Margin::symmetric(12, 6)).fill(look.band());
        Panel::top("bar").frame(frame).resizable(false).show(ui, |ui| {
            ui.horizontal(|ui| {
                let known = menu::Known {
                    undo: self.document.undo_name(),
                    redo: self.document.redo_name(),
                    recent: &self.settings.recent,
                    theme: self.settings.theme,
                    asking: self.asking.is_some(),
                };
                let chosen = menu::show(ui, &known);
                ui.add_space(10.0);
                for page in Page::ALL {
                    self.tab(ui, look, page);
                }
                ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                    let saved = if self.document.is_dirty() { "not saved" } else { "saved" };
                    let saved = if self.document.path().is_some() || self.document.is_dirty() { saved } else { "demo" };
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
        let worst = page.worst(&self.shown.assessment).filter(|s| *s > State::Holds);
        let response = ui.selectable_label(self.page == page, page.word());
        if response.clicked() {
            self.page = page;
            self.hand.put_back();
        }
        if let Some(state) = worst {
            ui.scope(|ui| {
                ui.spacing_mut().item_spacing.x = 2.0;
                signs::state(ui, look, state);
            });
        }
    }

    fn stack_keys(&mut self, ctx: &Context, look: &Look) {
        if self.page != Page::Stack {
            return;
        }
        let edits = {
            let mut table = stack::Table {
                plan: self.document.plan(),
                shown: &mut self.shown,
                hand: &mut self.hand,
                fields: &mut self.fields,
                look,
                edits: Vec::new(),
            };
            stack::keys(ctx, &mut table);
            table.edits
        };
        if !edits.is_empty() {
            self.make(edits);
        }
    }

    fn show_page(&mut self, ui: &mut Ui, look: &Look) {
        let edits = match self.page {
            Page::Stack => {
                let mut table = stack::Table {
                    plan: self.document.plan(),
                    shown: &mut self.shown,
                    hand: &mut self.hand,
                    fields: &mut self.fields,
                    look,
                    edits: Vec::new(),
                };
                stack::show(ui, &mut table);
                table.edits
            }
            Page::Sheet => {
                let revision = (self.document.revision(), self.shown.assessment.is_undecided());
                self.preview.refresh(&self.shown.plan, &self.shown.assessment, revision);
                if sheet::show(ui, look, &self.preview) == sheet::Asked::Save {
                    self.ask(&ui.ctx().clone(), Wanted::SaveSheet, None);
                }
                Vec::new()
            }
            Page::LoadCase | Page::Fixture | Page::Ballast => self.form_page(ui, look),
        };
        if !edits.is_empty() {
            ui.ctx().request_repaint();
        }
        self.make(edits);
    }

    fn form_page(&mut self, ui: &mut Ui, look: &Look) -> Vec<Edit> {
        let mut bench = Bench { plan: self.document.plan(), fields: &mut self.fields, look, edits: Vec::new() };
        let frame = Frame::new().fill(look.ground()).inner_margin(Margin::symmetric(24, 4));
        egui::CentralPanel::default().frame(frame).show(ui, |ui| {
            ScrollArea::both().id_salt(self.page.word()).auto_shrink([false, false]).show(ui, |ui| {
                match self.page {
                    Page::Fixture => pages::fixture::show(ui, &mut bench),
                    Page::Ballast => pages::ballast::show(ui, &mut bench),
                    _ => pages::load_case::show(ui, &mut bench),
                }
                ui.add_space(24.0);
            });
        });
        bench.edits
    }

    /// Before work would be lost.
    fn ask_question(&mut self, ctx: &Context) {
        let Some(intent) = self.question.clone() else { return };
        let name = self.document.name();
        let mut answer = None;
        egui::Modal::new(egui::Id::unique("question")).show(ctx, |ui| {
            ui.set_width(380.0);
            ui.label(look::bold("Save the changes?", 15.0));
            ui.label(format!("{name} has changes that are not saved. Save them before {}?", intent.words()));
            ui.add_space(8.0);
            ui.horizontal(|ui| {
                for word in ["Save", "Discard", "Cancel"] {
                    if ui.button(word).clicked() {
                        answer = Some(word);
                    }
                }
            });
        });
        if ctx.input(|i| i.key_pressed(egui::Key::Escape)) {
            answer = Some("Cancel");
        }
        let Some(answer) = answer else { return };
        self.question = None;
        match answer {
            "Save" => self.save(ctx, Some(intent)),
            "Discard" => self.carry_out(ctx, intent),
            _ => {}
        }
    }

    /// Where the desktop has no file dialog, a path is typed.
    fn type_path(&mut self, ctx: &Context) {
        let Some(typing) = &mut self.typing else { return };
        let mut answer = None;
        egui::Modal::new(egui::Id::unique("path")).show(ctx, |ui| {
            ui.set_width(520.0);
            ui.label(look::bold(typing.wanted.title(), 15.0));
            ui.label("No file dialog could be shown on this desktop. Type the path:");
            let field = ui.add(egui::TextEdit::singleline(&mut typing.path).desired_width(f32::INFINITY));
            crate::fields::label(ui, &field, "Path");
            let entered = field.lost_focus() && ui.input(|i| i.key_pressed(egui::Key::Enter));
            ui.add_space(8.0);
            ui.horizontal(|ui| {
                if ui.button("OK").clicked() || entered {
                    answer = Some(true);
                }
                if ui.button("Cancel").clicked() {
                    answer = Some(false);
                }
            });
        });
        if ctx.input(|i| i.key_pressed(egui::Key::Escape)) {
            answer = Some(false);
        }
        let Some(answer) = answer else { return };
        if let Some(typing) = self.typing.take().filter(|_| answer) {
            self.take_path(ctx, typing.wanted, PathBuf::from(typing.path), typing.then);
        }
    }
}
