//! What the window does: commands, the edits that pages ask for, and the checks that are solved beside it.

use super::window::{Begin, Editor};
use crate::commands::Command;
use crate::dialogs::Wanted;
use crate::document::Document;
use crate::help::{Job, Topic};
use crate::pages::{Page, fixture, load_case};
use crate::worker::{Answer, Worker};
use eframe::egui::Context;
use plan::{Edit, Target};

impl Editor {
    pub(super) fn command(&mut self, ctx: &Context, command: Command) {
        match command {
            Command::Intend(intent) => self.intend(ctx, intent),
            Command::Save => self.save(ctx, None),
            Command::SaveAs => self.ask(ctx, Wanted::SavePlan, None),
            Command::SaveSheet => self.ask(ctx, Wanted::SaveSheet, None),
            Command::PrintSheet => self.print_sheet(ctx, None),
            Command::SavePicture => self.ask(ctx, Wanted::SavePicture, None),
            Command::SaveTurned => self.ask(ctx, Wanted::SaveTurned, None),
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
            Command::HelpHere => self.help = Some(Topic::HowTo(self.job_in_hand())),
            Command::FullScreen => self.set_full(ctx, !self.full),
            Command::Cautions => self.cautions = !self.cautions,
            Command::Go(page) => self.go(page),
            Command::Prove => {
                self.go_to_half(ctx, false);
                self.fields.lead_to(load_case::first_field(self.document.plan()));
            }
            Command::Act => {
                self.go_to_half(ctx, true);
                if let Target::Point { .. } = self.document.plan().target {
                    self.fields.lead_to("occupant point x");
                }
            }
            Command::Article => {
                self.go(Page::Fixture);
                fixture::lead_to_article(&mut self.rig, &mut self.fields, self.document.plan());
            }
            Command::Enter(what) => {
                self.go(Page::Fixture);
                fixture::lead_to(&mut self.rig, &mut self.fields, (self.document.plan(), what));
            }
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

    /// The job of the help that is about what the user does now.
    fn job_in_hand(&self) -> Job {
        match self.page {
            Page::Stack if self.document.plan().load_cases.is_empty() => Job::Begin,
            Page::Stack if self.hand.finding.is_some() => Job::Findings,
            Page::Ballast if self.ballast.tries_a_bag() => Job::Bags,
            page => Job::of(page),
        }
    }

    /// Makes the edits that a page asked for; a refusal goes back to its field.
    pub(super) fn make(&mut self, edits: Vec<Edit>) {
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

    pub(super) fn refresh(&mut self) {
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

    /// The first picture first, then the solvers.
    pub(super) fn begin(&mut self, ctx: &Context) {
        match self.begin {
            Begin::Draw => self.begin = Begin::Solve,
            Begin::Solve => {
                self.begin = Begin::Done;
                self.ask_for_full();
            }
            Begin::Done => return,
        }
        ctx.request_repaint();
    }

    pub(super) fn ask_for_full(&mut self) {
        let Some(worker) = self.worker.as_mut().filter(|_| self.begin == Begin::Done) else { return };
        if self.shown.wants_full() { worker.ask(&self.shown.plan) } else { worker.forget() }
    }

    /// The part of the full assessment that is done, while it runs.
    pub(super) fn progress(&self, ctx: &Context) -> Option<f32> {
        let worker = self.worker.as_ref()?;
        if self.begin == Begin::Done { worker.progress(ctx) } else { self.shown.wants_full().then_some(0.0) }
    }
}

/// Said where the work on the checks broke down: a bug of ours, and nothing is called good by it.
const NOT_WORKED_OUT: &str =
    "The checks could not be worked out, by a fault of this program: they count as not decided. Your plan is kept";
