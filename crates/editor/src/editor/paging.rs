//! The page in hand: its keys, its drawing, and what it asks for.

use super::window::Editor;
use crate::dialogs::Wanted;
use crate::guide;
use crate::look::Look;
use crate::pages::{Page, fixture, halves, sheet, stack, start};
use eframe::egui::{Context, Ui};
use plan::{Beside, Edit};

impl Editor {
    pub(super) fn go(&mut self, page: Page) {
        self.page = page;
        self.hand.put_back();
        self.rig.let_go();
    }

    /// The Load case page, at what must be proved or at where it must act.
    pub(super) fn go_to_half(&mut self, ctx: &Context, acts: bool) {
        halves::turn_to(ctx, acts);
        self.go(Page::LoadCase);
    }

    /// An empty plan shows how to begin instead of a stack.
    pub(super) fn is_starting(&self) -> bool {
        self.page == Page::Stack && start::is_due(self.document.plan())
    }

    /// What the guide needs to know beside the plan.
    fn beside(&self) -> Beside {
        let plan = self.document.plan();
        let solved = self.shown.plan == *plan && !self.shown.assessment.is_undecided();
        Beside { in_order: solved && self.shown.assessment.in_order(), printed: self.printed.as_ref() == Some(plan) }
    }

    /// What comes next, over the pages of forms.
    pub(super) fn guide(&mut self, ui: &mut Ui, look: &Look) {
        if matches!(self.page, Page::LoadCase | Page::Fixture | Page::Ballast)
            && let Some(command) = guide::strip(ui, look, self.document.plan(), self.beside())
        {
            self.command(&ui.ctx().clone(), command);
        }
    }

    fn start_page(&mut self, ui: &mut Ui, look: &Look) -> Vec<Edit> {
        let mut desk = start::Desk {
            hand: &mut self.start,
            fields: &mut self.fields,
            look,
            units: self.document.plan().units,
            paths: &self.settings.recent,
            edits: Vec::new(),
            commands: Vec::new(),
        };
        start::show(ui, &mut desk);
        let (edits, commands) = (desk.edits, desk.commands);
        commands.into_iter().for_each(|command| self.command(&ui.ctx().clone(), command));
        edits
    }

    pub(super) fn page_keys(&mut self, ctx: &Context, look: &Look) {
        let edits = match self.page {
            Page::Stack if self.is_starting() => return,
            Page::Stack => self.on_table(ctx, look, |table| stack::keys(ctx, table)),
            Page::Fixture => self.on_rig(ctx, look, |table| fixture::keys(ctx, table)),
            _ => return,
        };
        if !edits.is_empty() {
            self.make(edits);
        }
    }

    /// Works on what the Stack page works on, and gives the edits that it asks for.
    pub(super) fn on_table(&mut self, ctx: &Context, look: &Look, work: impl FnOnce(&mut stack::Table)) -> Vec<Edit> {
        let mut table = stack::Table {
            progress: self.progress(ctx),
            beside: self.beside(),
            can_undo: self.document.undo_name().is_some(),
            can_redo: self.document.redo_name().is_some(),
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
    pub(super) fn on_rig(&mut self, ctx: &Context, look: &Look, work: impl FnOnce(&mut fixture::Table)) -> Vec<Edit> {
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

    pub(super) fn show_page(&mut self, ui: &mut Ui, look: &Look) {
        let edits = match self.page {
            Page::Stack if self.is_starting() => self.start_page(ui, look),
            Page::Stack => self.on_table(&ui.ctx().clone(), look, |table| stack::show(ui, table)),
            Page::Fixture => self.on_rig(&ui.ctx().clone(), look, |table| fixture::show(ui, table)),
            Page::Sheet => {
                let revision = (self.document.revision(), self.shown.assessment.is_undecided());
                self.preview.refresh(&self.shown.plan, &self.shown.assessment, revision);
                match sheet::show(ui, look, &mut self.preview) {
                    sheet::Asked::Nothing => {}
                    sheet::Asked::Save => self.ask(&ui.ctx().clone(), Wanted::SaveSheet, None),
                    sheet::Asked::Print(pages) => self.print_sheet(&ui.ctx().clone(), pages),
                    sheet::Asked::SavePages(pages) => {
                        self.ask(&ui.ctx().clone(), Wanted::SavePages { from: pages[0], to: pages[1] }, None);
                    }
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
