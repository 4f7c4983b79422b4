//! The window's state: what is open, what is in hand, what waits for an answer.

use super::asking::{Asking, Replacing, Typing};
use super::kept::Keeping;
use crate::arranger::Arranger;
use crate::demos::demo;
use crate::dialogs::{FilePicker, Scripted};
use crate::document::Document;
use crate::fields::Fields;
use crate::help::Topic;
use crate::intent::Intent;
use crate::look;
use crate::messages::Messages;
use crate::pages::{self, Page, fixture, sheet, stack, start, testday};
use crate::printing::{NoPrinter, Printer, Printing};
use crate::settings::Settings;
use crate::shown::Shown;
use crate::worker::Worker;
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
    pub(super) document: Document,
    pub(super) shown: Shown,
    pub(super) hand: stack::Hand,
    /// What is in hand on the Fixture page.
    pub(super) rig: fixture::Hand,
    pub(super) fields: Fields,
    pub(super) page: Page,
    pub(super) worker: Option<Worker>,
    /// Stacks that are being laid out, or wait to be chosen from.
    pub(super) arranger: Option<Arranger>,
    pub(super) settings: Settings,
    pub(super) messages: Messages,
    pub(super) picker: Box<dyn FilePicker>,
    pub(super) printer: Box<dyn Printer>,
    /// The sheet on its way to the printer, and the plan where it is the whole of its sheet.
    pub(super) printing: Option<(Printing, Option<plan::Plan>)>,
    pub(super) keeping: Keeping,
    /// The part of the help that is open.
    pub(super) help: Option<Topic>,
    /// Whether the cautions stand in full.
    pub(super) cautions: bool,
    pub(super) asking: Option<Asking>,
    pub(super) typing: Option<Typing>,
    pub(super) question: Option<Intent>,
    pub(super) replacing: Option<Replacing>,
    pub(super) closing: bool,
    /// Whether the window fills the screen, and whether the last frame was of a test day: then it does.
    pub(super) full: bool,
    pub(super) hangar: bool,
    pub(super) title: String,
    pub(super) preview: sheet::Preview,
    pub(super) ballast: pages::ballast::Hand,
    pub(super) desk: testday::Desk,
    /// What is in hand on the start page.
    pub(super) start: start::Hand,
    /// The plan whose sheet was saved last.
    pub(super) printed: Option<plan::Plan>,
    pub(super) begin: Begin,
}

/// How the window begins: what a user waits for first is a picture, and the solvers would slow it down.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Begin {
    /// Nothing was drawn yet.
    Draw,
    /// The first picture is on its way: the solvers come next.
    Solve,
    /// Both are done.
    Done,
}

/// What the window has around it.
pub struct Surroundings {
    /// Asks for files: the system's dialogs, or a script in tests.
    pub picker: Box<dyn FilePicker>,
    /// Prints: the system, or a script in tests.
    pub printer: Box<dyn Printer>,
    /// Where settings and unsaved work are kept; without it neither is.
    pub folder: Option<PathBuf>,
}

impl Surroundings {
    /// A picker that answers with this path, and nothing kept: for tests.
    pub fn scripted(picked: Option<PathBuf>) -> Self {
        Self { picker: Box::new(Scripted(picked)), printer: Box::new(NoPrinter), folder: None }
    }
}

impl Editor {
    /// The window.
    pub fn new(creation: &eframe::CreationContext, opening: Opening, around: Surroundings) -> Self {
        crate::freed::keep();
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
            printer: around.printer,
            printing: None,
            keeping: Keeping::start(around.folder),
            help: None,
            cautions: false,
            asking: None,
            typing: None,
            question: None,
            replacing: None,
            closing: false,
            full: false,
            hangar: false,
            title: String::new(),
            preview: sheet::Preview::default(),
            ballast: pages::ballast::Hand::default(),
            desk: testday::Desk::default(),
            start: start::Hand::default(),
            printed: None,
            begin: Begin::Draw,
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

    /// Whether the window was asked to fill the screen.
    pub fn fills_screen(&self) -> bool {
        self.full
    }

    /// What is known of the plan as it is shown.
    pub fn assessment(&self) -> &assess::Assessment {
        &self.shown.assessment
    }
}
