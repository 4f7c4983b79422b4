//! What every page gets to work with.

use crate::fields::{Fields, Form};
use crate::look::{self, Look};
use crate::shown::Shown;
use assess::{Assessment, Check, Group, State, Where};
use eframe::egui::{self, Ui};
use plan::{Edit, Plan, edit::Part};

/// A page of the window.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Page {
    /// What must be proved, and where.
    LoadCase,
    /// Article, supports, straps, bed.
    Fixture,
    /// The pieces that there are.
    Ballast,
    /// The drawing on which the stack is laid.
    #[default]
    Stack,
    /// What is printed.
    Sheet,
    /// What happens beside the scales.
    TestDay,
}

/// What is mended with other ballast, or with a weighing.
const BALLAST: [Check; 2] = [Check::PiecesWeighed, Check::Lifting];

impl Page {
    /// The pages in their order.
    pub const ALL: [Page; 6] = [Page::LoadCase, Page::Fixture, Page::Ballast, Page::Stack, Page::Sheet, Page::TestDay];

    /// The word on its tab.
    pub fn word(self) -> &'static str {
        match self {
            Page::LoadCase => "Load case",
            Page::Fixture => "Fixture",
            Page::Ballast => "Ballast",
            Page::Stack => "Stack",
            Page::Sheet => "Sheet",
            Page::TestDay => "Test day",
        }
    }

    /// Whether findings are mended on it.
    pub(crate) fn has_findings(self) -> bool {
        !matches!(self, Page::Sheet | Page::TestDay)
    }

    /// The worst state of the findings that are mended on this page.
    pub(crate) fn worst(self, shown: &Shown) -> Option<State> {
        let here = |place: &Where, check: Check| match self {
            Page::LoadCase => *place == Where::LoadCase,
            Page::Fixture => *place == Where::Fixture || check.group() == Group::Fixture,
            Page::Ballast => BALLAST.contains(&check),
            Page::Stack => !matches!(place, Where::LoadCase | Where::Fixture) && !BALLAST.contains(&check),
            Page::Sheet | Page::TestDay => false,
        };
        let here = shown.assessment.findings.iter().filter(|f| here(&f.place, f.check));
        let worst = here.map(|finding| shown.state_of(finding)).max();
        worst.or_else(|| self.is_bare(&shown.plan).then_some(State::Undecided))
    }

    /// Whether nobody has entered yet what it is for: then it is not in order, whatever is found.
    fn is_bare(self, plan: &Plan) -> bool {
        match self {
            Page::Fixture => plan.fixture.supports.is_empty() || plan.bed.bearings.is_empty(),
            Page::Ballast => plan.ballast.is_empty(),
            Page::LoadCase | Page::Stack | Page::Sheet | Page::TestDay => false,
        }
    }
}

/// What a page of forms works on: the plan as it is, and the edits that it asks for.
pub(crate) struct Bench<'a> {
    pub(crate) plan: &'a Plan,
    /// What is known of the plan as it is shown.
    pub(crate) assessment: &'a Assessment,
    pub(crate) fields: &'a mut Fields,
    pub(crate) look: &'a Look,
    pub(crate) edits: Vec<Edit>,
}

impl Bench<'_> {
    /// The fields, ready to be shown.
    pub(crate) fn form(&mut self) -> Form<'_> {
        Form::of(self.fields, self.look, self.plan.units)
    }

    /// Asks for a part of the plan to be set, if a field of it was changed.
    pub(crate) fn set_if_changed(&mut self, part: impl FnOnce() -> Part) {
        if let Some(what) = self.fields.take_change()
            && self.edits.is_empty()
        {
            self.edits.push(Edit::set(part(), what));
        }
    }
}

/// A part of a page under its head.
pub(crate) fn section(ui: &mut Ui, head: &str, about: &str, add: impl FnOnce(&mut Ui)) {
    let look = Look::of(ui.ctx());
    ui.add_space(14.0);
    ui.horizontal(|ui| {
        ui.label(look::bold(head, 15.0));
        ui.label(look::caption(&look, about));
    });
    ui.add_space(2.0);
    let rule = egui::Rect::from_min_size(ui.cursor().min, egui::vec2(ui.available_width(), 1.0));
    ui.painter().rect_filled(rule, 0.0, look.rule());
    ui.add_space(8.0);
    ui.push_id(head, add);
}

/// Two parts of a page beside each other where there is room for it, else one under the other.
pub(crate) fn beside(
    ui: &mut Ui,
    bench: &mut Bench,
    left_width: f32,
    left: impl FnOnce(&mut Ui, &mut Bench),
    right: impl FnOnce(&mut Ui, &mut Bench),
) {
    /// Between the two, points.
    const GAP: f32 = 28.0;
    /// The least that the right one is good for, points.
    const LEAST: f32 = 420.0;
    let room = ui.available_width() - left_width - GAP;
    if room < LEAST {
        left(ui, bench);
        right(ui, bench);
        return;
    }
    let usual = ui.spacing().item_spacing;
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = GAP;
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing = usual;
            ui.set_width(left_width);
            left(ui, bench);
        });
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing = usual;
            // What the left one takes beyond its width is not the right one's.
            ui.set_width(room.min(ui.available_width()));
            right(ui, bench);
        });
    });
}
