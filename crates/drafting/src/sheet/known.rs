//! A plan with all that the sheet tells of it, worked out once for all pages, and where its pages are.

use super::place_words::Datums;
use super::readings::Due;
use assess::Assessment;
use assess::handling::{PieceLift, lifts};
use plan::{Plan, Run};
use std::collections::BTreeMap;
use testday::{LeanPlanned, lean_planned};

/// What the pages are made from.
pub(super) struct Known<'a> {
    pub(super) plan: &'a Plan,
    pub(super) assessment: &'a Assessment,
    /// What scales and straps should show.
    pub(super) due: Due,
    /// From where places are taped.
    pub(super) datums: Datums,
    /// The loadings of the day.
    pub(super) runs: Vec<Run>,
    /// Where the pages are; none while that is still found out, and then nothing is drawn.
    pub(super) places: Option<Places>,
    leans: BTreeMap<usize, LeanPlanned>,
    lifts: Vec<PieceLift>,
}

impl<'a> Known<'a> {
    /// It takes a solver for what the bags lean at the holds.
    pub(super) fn of(plan: &'a Plan, assessment: &'a Assessment) -> Self {
        let runs = plan.runs();
        let softly = assessment.exact.as_ref().is_some_and(|exact| exact.soft.is_some());
        let held = runs.iter().flat_map(|run| &run.holds).filter_map(|hold| hold.step).filter(|_| softly);
        let leans = held.filter_map(|step| Some((step, lean_planned(plan, step + 1)?))).collect();
        Self {
            plan,
            assessment,
            due: Due::of(plan, assessment),
            datums: Datums::of(plan),
            runs,
            places: None,
            leans,
            lifts: lifts(plan, &assessment.closed),
        }
    }

    /// What is due on the top piece at the hold after a step (from 0).
    pub(super) fn lean(&self, step: usize) -> Option<&LeanPlanned> {
        self.leans.get(&step)
    }

    /// Whether drawings are left out: they take their room whatever they show.
    pub(super) fn is_sketch(&self) -> bool {
        self.places.is_none()
    }

    /// `, page 15`; nothing where that is not known yet.
    pub(super) fn page(&self, section: Section) -> String {
        self.places.as_ref().map(|places| places.page(section)).unwrap_or_default()
    }

    /// How a piece is lifted, by its step (from 0).
    pub(super) fn lift(&self, step: usize) -> Option<&PieceLift> {
        self.lifts.iter().find(|lift| lift.step == step)
    }

    /// The highest layer.
    pub(super) fn top_layer(&self) -> usize {
        self.assessment.closed.pile.layer.iter().copied().max().unwrap_or(0)
    }

    /// The steps of a layer, from 0.
    pub(super) fn steps_of(&self, layer: usize) -> Vec<usize> {
        let layers = &self.assessment.closed.pile.layer;
        (0..self.plan.steps()).filter(|step| layers.get(*step) == Some(&layer)).collect()
    }

    /// Whether a piece would go on when ultimate load is reached: no sheet orders that.
    pub(super) fn is_barred(&self, step: usize) -> bool {
        let barred =
            |finding: &assess::Finding| matches!(&finding.place, assess::Where::Pieces(steps) if steps.contains(&step));
        let mut findings = self.assessment.findings.iter();
        findings.any(|finding| finding.check == assess::Check::AfterUltimate && barred(finding))
    }

    /// The runs that put a piece on, by number from 0; none for a piece that must not go on.
    pub(super) fn runs_of(&self, step: usize) -> Vec<usize> {
        if self.is_barred(step) {
            return Vec::new();
        }
        (0..self.runs.len()).filter(|run| step < self.runs[*run].placements(self.plan)).collect()
    }
}

/// A part of the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Section {
    Prepare,
    Ballast,
    Layers,
    Unloading,
    Emergency,
    Afterwards,
    Engineer,
}

/// On which pages the parts are, as far as that is known.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Places(BTreeMap<Section, [usize; 2]>);

impl Places {
    /// A part lies on these pages, from 1.
    pub(super) fn note(&mut self, part: Section, [first, last]: [usize; 2]) {
        if first <= last {
            let pages = self.0.entry(part).or_insert([first, last]);
            *pages = [pages[0].min(first), pages[1].max(last)];
        }
    }

    /// `15`, `15–16`.
    pub(super) fn words(&self, part: Section) -> Option<String> {
        self.0.get(&part).map(|[first, last]| match first == last {
            true => first.to_string(),
            false => format!("{first}–{last}"),
        })
    }

    fn page(&self, part: Section) -> String {
        self.0.get(&part).map(|[first, _]| format!(", page {first}")).unwrap_or_default()
    }
}
