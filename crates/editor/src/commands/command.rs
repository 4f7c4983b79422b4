//! What a page or a menu asks of the window.

use super::table::OnWindow;
use crate::arranger::Question;
use crate::help::Topic;
use crate::intent::Intent;
use crate::pages::Page;
use eframe::egui::ThemePreference;
use plan::NotEntered;

/// Something that the window does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Command {
    Intend(Intent),
    Save,
    SaveAs,
    SaveSheet,
    PrintSheet,
    SavePicture,
    /// A picture of the turned view by itself.
    SaveTurned,
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
    /// The help on what is in hand.
    HelpHere,
    /// The window fills the screen, or no longer.
    FullScreen,
    /// Opens the full text of the cautions, or closes it.
    Cautions,
    /// Another page.
    Go(Page),
    /// The Load case page, at what must be proved.
    Prove,
    /// The same, at where it must act.
    Act,
    /// The Fixture page, at what the article weighs.
    Article,
    /// The Fixture page, at what a plan does not have yet.
    Enter(NotEntered),
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

impl From<OnWindow> for Command {
    fn from(act: OnWindow) -> Self {
        match act {
            OnWindow::New => Command::Intend(Intent::New),
            OnWindow::Open => Command::Intend(Intent::Choose),
            OnWindow::Close => Command::Intend(Intent::Close),
            OnWindow::Save => Command::Save,
            OnWindow::SaveAs => Command::SaveAs,
            OnWindow::SaveSheet => Command::SaveSheet,
            OnWindow::PrintSheet => Command::PrintSheet,
            OnWindow::SavePicture => Command::SavePicture,
            OnWindow::CopyPicture => Command::CopyPicture,
            OnWindow::Undo => Command::Undo,
            OnWindow::Redo => Command::Redo,
            OnWindow::Propose => Command::Arrange(Question::Propose { seed: 1 }),
            OnWindow::Order => Command::Arrange(Question::Order),
            OnWindow::Center => Command::Arrange(Question::Trim),
            OnWindow::Fit => Command::Fit,
            OnWindow::Larger => Command::LargerScale,
            OnWindow::Smaller => Command::SmallerScale,
            OnWindow::FullScale => Command::Scale(100),
            OnWindow::LoadCase => Command::Go(Page::LoadCase),
            OnWindow::Fixture => Command::Go(Page::Fixture),
            OnWindow::Ballast => Command::Go(Page::Ballast),
            OnWindow::Stack => Command::Go(Page::Stack),
            OnWindow::Sheet => Command::Go(Page::Sheet),
            OnWindow::TestDay => Command::Go(Page::TestDay),
            OnWindow::HelpHere => Command::HelpHere,
            OnWindow::Help => Command::Help(Topic::Keys),
            OnWindow::FullScreen => Command::FullScreen,
            OnWindow::Cautions => Command::Cautions,
        }
    }
}
