//! Menus and their shortcuts: one list of commands serves both.

use crate::arranger::Question;
use crate::help::Topic;
use crate::intent::Intent;
use crate::pages::Page;
use crate::settings::{SCALES, Settings};
use eframe::egui::{self, Key, KeyboardShortcut, Modifiers, ThemePreference, Ui};

/// A command of the window.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Command {
    Intend(Intent),
    Save,
    SaveAs,
    SaveSheet,
    SavePicture,
    CopyPicture,
    /// A photograph under the Fixture page's side view.
    ChoosePhotograph,
    Undo,
    Redo,
    /// Lays out a stack, or mends the one that is there.
    Arrange(Question),
    Fit,
    /// A part of the help.
    Help(Topic),
    /// Opens the full text of the cautions, or closes it.
    Cautions,
    /// Another page.
    Go(Page),
    /// The weighing list, with the piece placed in this step in hand.
    Weigh {
        step: usize,
    },
    /// How much of the photograph under the side view is seen, per cent.
    Opacity(u32),
    /// Something that the user should know.
    Tell(String),
    Theme(ThemePreference),
    /// The interface's scale, per cent.
    Scale(u32),
    LargerScale,
    SmallerScale,
    /// Whether new plans are metric.
    Metric(bool),
}

const CTRL: Modifiers = Modifiers::COMMAND;
const CTRL_SHIFT: Modifiers = Modifiers { shift: true, ..Modifiers::COMMAND };

/// Shortcuts; those with more modifiers stand first, since fewer would match them too.
const SHORTCUTS: [(KeyboardShortcut, fn() -> Command); 14] = [
    (KeyboardShortcut::new(CTRL_SHIFT, Key::S), || Command::SaveAs),
    (KeyboardShortcut::new(CTRL_SHIFT, Key::Z), || Command::Redo),
    (KeyboardShortcut::new(Modifiers::NONE, Key::F1), || Command::Help(Topic::Keys)),
    (KeyboardShortcut::new(Modifiers::NONE, Key::F2), || Command::Cautions),
    (KeyboardShortcut::new(CTRL, Key::S), || Command::Save),
    (KeyboardShortcut::new(CTRL, Key::Z), || Command::Undo),
    (KeyboardShortcut::new(CTRL, Key::Y), || Command::Redo),
    (KeyboardShortcut::new(CTRL, Key::O), || Command::Intend(Intent::Choose)),
    (KeyboardShortcut::new(CTRL, Key::N), || Command::Intend(Intent::New)),
    (KeyboardShortcut::new(CTRL, Key::P), || Command::SaveSheet),
    (KeyboardShortcut::new(CTRL, Key::Plus), || Command::LargerScale),
    (KeyboardShortcut::new(CTRL, Key::Equals), || Command::LargerScale),
    (KeyboardShortcut::new(CTRL, Key::Minus), || Command::SmallerScale),
    (KeyboardShortcut::new(CTRL, Key::Num0), || Command::Scale(100)),
];

/// What the menus need to know.
pub(crate) struct Known<'a> {
    pub(crate) undo: Option<&'a str>,
    pub(crate) redo: Option<&'a str>,
    pub(crate) settings: &'a Settings,
    /// A file dialog is open.
    pub(crate) asking: bool,
}

/// The command whose shortcut was pressed. Undo and redo are left to a text that keeps a history of
/// its own.
pub(crate) fn shortcut(ctx: &egui::Context, own_history: bool) -> Option<Command> {
    SHORTCUTS.iter().find_map(|(keys, command)| {
        let command = command();
        let of_text = own_history && matches!(command, Command::Undo | Command::Redo);
        (!of_text && ctx.input_mut(|i| i.consume_shortcut(keys))).then_some(command)
    })
}

pub(crate) fn show(ui: &mut Ui, known: &Known) -> Option<Command> {
    let mut chosen = None;
    ui.scope(|ui| {
        // Words on the band, not buttons.
        let resting = &mut ui.visuals_mut().widgets.inactive;
        resting.weak_bg_fill = egui::Color32::TRANSPARENT;
        resting.bg_stroke = egui::Stroke::NONE;
        ui.menu_button("File", |ui| file(ui, known, &mut chosen));
        ui.menu_button("Edit", |ui| edit(ui, known, &mut chosen));
        ui.menu_button("View", |ui| view(ui, known, &mut chosen));
        ui.menu_button("Help", |ui| {
            for topic in Topic::ALL {
                let key = if topic == Topic::Keys { "F1" } else { "" };
                item(ui, (topic.word().into(), key), true, Command::Help(topic), &mut chosen);
            }
            item(ui, ("Cautions".into(), "F2"), true, Command::Cautions, &mut chosen);
        });
    });
    chosen
}

fn item(ui: &mut Ui, (words, keys): (String, &str), enabled: bool, command: Command, chosen: &mut Option<Command>) {
    let button = egui::Button::new(words);
    let button = if keys.is_empty() { button } else { button.shortcut_text(keys) };
    if ui.add_enabled(enabled, button).clicked() {
        *chosen = Some(command);
    }
}

fn file(ui: &mut Ui, known: &Known, chosen: &mut Option<Command>) {
    let free = !known.asking;
    item(ui, ("New plan".into(), "Ctrl+N"), true, Command::Intend(Intent::New), chosen);
    item(ui, ("Open…".into(), "Ctrl+O"), free, Command::Intend(Intent::Choose), chosen);
    ui.menu_button("Open recent", |ui| {
        if known.settings.recent.is_empty() {
            ui.label("No plan was opened yet");
        }
        for path in &known.settings.recent {
            let words = path.display().to_string();
            item(ui, (words, ""), true, Command::Intend(Intent::Open(path.clone())), chosen);
        }
    });
    ui.menu_button("Open a demo", |ui| {
        for (index, (title, _)) in crate::DEMOS.iter().enumerate() {
            item(ui, ((*title).into(), ""), true, Command::Intend(Intent::Demo(index)), chosen);
        }
    });
    ui.separator();
    item(ui, ("Save".into(), "Ctrl+S"), free, Command::Save, chosen);
    item(ui, ("Save as…".into(), "Ctrl+Shift+S"), free, Command::SaveAs, chosen);
    item(ui, ("Save sheet…".into(), "Ctrl+P"), free, Command::SaveSheet, chosen);
    item(ui, ("Save picture of the page…".into(), ""), free, Command::SavePicture, chosen);
    ui.separator();
    item(ui, ("Close".into(), ""), true, Command::Intend(Intent::Close), chosen);
}

fn edit(ui: &mut Ui, known: &Known, chosen: &mut Option<Command>) {
    let words = |verb: &str, name: Option<&str>| name.map_or_else(|| verb.to_owned(), |n| format!("{verb}: {n}"));
    item(ui, (words("Undo", known.undo), "Ctrl+Z"), known.undo.is_some(), Command::Undo, chosen);
    item(ui, (words("Redo", known.redo), "Ctrl+Y"), known.redo.is_some(), Command::Redo, chosen);
    ui.separator();
    let propose = Command::Arrange(Question::Propose { seed: 1 });
    item(ui, ("Propose a stack…".into(), ""), true, propose, chosen);
    item(ui, ("Order the stack…".into(), ""), true, Command::Arrange(Question::Order), chosen);
    item(ui, ("Center the stack…".into(), ""), true, Command::Arrange(Question::Trim), chosen);
    ui.separator();
    item(ui, ("Copy picture of the page".into(), ""), true, Command::CopyPicture, chosen);
}

fn view(ui: &mut Ui, known: &Known, chosen: &mut Option<Command>) {
    item(ui, ("Fit the drawing".into(), "F"), true, Command::Fit, chosen);
    ui.separator();
    let themes = [
        (ThemePreference::System, "Colours as the system has them"),
        (ThemePreference::Light, "Light"),
        (ThemePreference::Dark, "Dark"),
    ];
    for (theme, word) in themes {
        radio(ui, (known.settings.theme == theme, word), Command::Theme(theme), chosen);
    }
    ui.separator();
    let scale = known.settings.scale;
    ui.menu_button(format!("Interface scale: {scale} %"), |ui| {
        item(ui, ("Larger".into(), "Ctrl++"), scale < SCALES[SCALES.len() - 1], Command::LargerScale, chosen);
        item(ui, ("Smaller".into(), "Ctrl+-"), scale > SCALES[0], Command::SmallerScale, chosen);
        ui.separator();
        for per_cent in SCALES {
            radio(ui, (scale == per_cent, &format!("{per_cent} %")), Command::Scale(per_cent), chosen);
        }
    });
    ui.menu_button("Units of new plans", |ui| {
        let metric = known.settings.metric;
        radio(ui, (metric, "Metric: mm, kg, N"), Command::Metric(true), chosen);
        radio(ui, (!metric, "Inches and pounds"), Command::Metric(false), chosen);
    });
}

fn radio(ui: &mut Ui, (on, words): (bool, &str), command: Command, chosen: &mut Option<Command>) {
    if ui.radio(on, words).clicked() {
        *chosen = Some(command);
        ui.close();
    }
}
