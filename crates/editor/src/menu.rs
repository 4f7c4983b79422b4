//! Menus, and the keys that the window hears: both read the table of commands.

use crate::commands::{Command, Known, OnWindow, Stated};
use crate::help::Topic;
use crate::intent::Intent;
use crate::settings::{SCALES, Settings};
use eframe::egui::{self, Key, Modifiers, Response, ThemePreference, Ui};

/// What the menus need to know.
pub(crate) struct Menus<'a> {
    pub(crate) known: Known,
    /// What the keyboard asks of them.
    pub(crate) asked: Option<Asked>,
    /// What would be undone, and redone.
    pub(crate) undo: Option<&'a str>,
    pub(crate) redo: Option<&'a str>,
    pub(crate) settings: &'a Settings,
}

/// The command whose keys were pressed. What would be a character in a text is left to a text that is
/// being typed, and to an open menu.
pub(crate) fn heard(ctx: &egui::Context, known: &Known) -> Option<Command> {
    let characters = !ctx.text_edit_focused() && !egui::Popup::is_any_open(ctx);
    let given = OnWindow::TABLE.iter().filter(|row| (row.when)(known));
    let mut chords: Vec<_> = given.flat_map(|row| row.keys.chords().iter().map(|chord| (chord, row.act))).collect();
    chords.retain(|(chord, _)| characters || !chord.is_typed());
    chords.sort_by_key(|(chord, _)| !chord.is_with_shift());
    let pressed = ctx.input_mut(|input| chords.into_iter().find(|(chord, _)| chord.presses(input) > 0));
    // What is asked for by its keys is no longer chosen from a menu.
    pressed.inspect(|_| egui::Popup::close_all(ctx)).map(|(_, act)| act.into())
}

pub(crate) fn show(ui: &mut Ui, menus: &Menus) -> Option<Command> {
    let mut chosen = None;
    ui.scope(|ui| {
        // Words on the band, not buttons.
        let resting = &mut ui.visuals_mut().widgets.inactive;
        resting.weak_bg_fill = egui::Color32::TRANSPARENT;
        resting.bg_stroke = egui::Stroke::NONE;
        let mut bar = Bar { menus, chosen: &mut chosen };
        let file = ui.menu_button("File", |ui| bar.file(ui)).response;
        let edit = ui.menu_button("Edit", |ui| bar.edit(ui)).response;
        let view = ui.menu_button("View", |ui| bar.view(ui)).response;
        let help = ui.menu_button("Help", |ui| bar.help(ui)).response;
        by_keyboard(ui, menus.asked, &[file, edit, view, help]);
    });
    chosen
}

/// The menu that the keyboard asks for: Alt and its letter, or F10 for the first. Heard before all other keys: a letter
/// alone is a command of its own.
pub(crate) fn asked(ctx: &egui::Context) -> Option<Asked> {
    let letters = [Key::F, Key::E, Key::V, Key::H];
    let open = ctx.input_mut(|i| letters.iter().position(|key| i.consume_key(Modifiers::ALT, *key)));
    let first = || ctx.input_mut(|i| i.consume_key(Modifiers::NONE, Key::F10)).then_some(Asked::Focus);
    open.map(Asked::Open).or_else(first)
}

/// What the keyboard asks of the menus.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Asked {
    /// To open one, counted from 0.
    Open(usize),
    /// To hand the keyboard to the first, from where Tab and Enter go on.
    Focus,
}

fn by_keyboard(ui: &Ui, asked: Option<Asked>, menus: &[Response; 4]) {
    match asked {
        Some(Asked::Open(index)) => {
            menus[index].request_focus();
            egui::Popup::open_id(ui.ctx(), egui::Popup::default_response_id(&menus[index]));
        }
        Some(Asked::Focus) => menus[0].request_focus(),
        None => {}
    }
}

/// The menus while they are shown.
struct Bar<'a> {
    menus: &'a Menus<'a>,
    chosen: &'a mut Option<Command>,
}

impl Bar<'_> {
    /// A command of the table.
    fn item(&mut self, ui: &mut Ui, act: OnWindow) {
        self.named(ui, act, act.row().name.to_owned());
    }

    /// The same under another name.
    fn named(&mut self, ui: &mut Ui, act: OnWindow, words: String) {
        let (row, keys) = (act.row(), act.row().keys.first());
        let button = egui::Button::new(words);
        let button = if keys.is_empty() { button } else { button.shortcut_text(keys) };
        if ui.add_enabled((row.when)(&self.menus.known), button).clicked() {
            *self.chosen = Some(act.into());
        }
    }

    /// A choice that has no line in the table: there are as many as there are things to choose.
    fn choice(&mut self, ui: &mut Ui, words: impl Into<String>, command: Command) {
        if ui.button(words.into()).clicked() {
            *self.chosen = Some(command);
        }
    }

    fn radio(&mut self, ui: &mut Ui, (on, words): (bool, &str), command: Command) {
        if ui.radio(on, words).clicked() {
            *self.chosen = Some(command);
            ui.close();
        }
    }

    fn file(&mut self, ui: &mut Ui) {
        self.item(ui, OnWindow::New);
        self.item(ui, OnWindow::Open);
        let recent = &self.menus.settings.recent;
        ui.menu_button("Open recent", |ui| {
            if recent.is_empty() {
                ui.label("No plan was opened yet");
            }
            for path in recent {
                self.choice(ui, path.display().to_string(), Command::Intend(Intent::Open(path.clone())));
            }
        });
        ui.menu_button("Open a demo", |ui| {
            for (index, (title, _)) in crate::demos::DEMOS.iter().enumerate() {
                self.choice(ui, *title, Command::Intend(Intent::Demo(index)));
            }
        });
        ui.separator();
        for act in [OnWindow::Save, OnWindow::SaveAs, OnWindow::SaveSheet, OnWindow::PrintSheet, OnWindow::SavePicture]
        {
            self.item(ui, act);
        }
        ui.separator();
        self.item(ui, OnWindow::Close);
    }

    fn edit(&mut self, ui: &mut Ui) {
        for (act, step) in [(OnWindow::Undo, self.menus.undo), (OnWindow::Redo, self.menus.redo)] {
            let verb = act.row().name;
            self.named(ui, act, step.map_or_else(|| verb.to_owned(), |step| format!("{verb}: {step}")));
        }
        ui.separator();
        for act in [OnWindow::Propose, OnWindow::Order, OnWindow::Center] {
            self.item(ui, act);
        }
        ui.separator();
        self.item(ui, OnWindow::CopyPicture);
    }

    fn view(&mut self, ui: &mut Ui) {
        self.item(ui, OnWindow::Fit);
        self.item(ui, OnWindow::FullScreen);
        ui.separator();
        let themes = [
            (ThemePreference::System, "Colours as the system has them"),
            (ThemePreference::Light, "Light"),
            (ThemePreference::Dark, "Dark"),
        ];
        for (theme, word) in themes {
            self.radio(ui, (self.menus.settings.theme == theme, word), Command::Theme(theme));
        }
        ui.separator();
        let scale = self.menus.settings.scale;
        ui.menu_button(format!("Interface scale: {scale} %"), |ui| {
            self.item(ui, OnWindow::Larger);
            self.item(ui, OnWindow::Smaller);
            ui.separator();
            for per_cent in SCALES {
                self.radio(ui, (scale == per_cent, &format!("{per_cent} %")), Command::Scale(per_cent));
            }
        });
        ui.menu_button("Units of new plans", |ui| {
            let metric = self.menus.settings.metric;
            self.radio(ui, (metric, "Metric: mm, kg, N"), Command::Metric(true));
            self.radio(ui, (!metric, "Inches and pounds"), Command::Metric(false));
        });
    }

    fn help(&mut self, ui: &mut Ui) {
        self.item(ui, OnWindow::HelpHere);
        for topic in Topic::ALL {
            match topic {
                Topic::Keys => self.item(ui, OnWindow::Help),
                Topic::HowTo(_) | Topic::Words | Topic::Signs | Topic::About => {
                    self.choice(ui, topic.word(), Command::Help(topic))
                }
            }
        }
        self.item(ui, OnWindow::Cautions);
    }
}
