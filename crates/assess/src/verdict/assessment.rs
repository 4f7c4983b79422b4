//! What is known of a plan and what the checks make of it.

use super::finding::Finding;
use super::remedy::Remedy;
use super::tally::Tally;
use crate::closed::{Closed, weakest};
use crate::exact::{Exact, StepReserve, Told, Yielding};
use nalgebra::Vector3;
use statics::{Decision, Reserve};

/// What is known of a plan, and what the checks make of it.
#[derive(Clone, Debug)]
pub struct Assessment {
    /// By closed forms.
    pub closed: Closed,
    /// What takes a solver; none where it is not asked for, not there yet, or was stopped.
    pub exact: Option<Exact>,
    /// What the checks found, worst first.
    pub findings: Vec<Finding>,
    /// What mends them, tried and found to help, in the order of the findings; empty where it was not asked
    /// for.
    pub remedies: Vec<Option<Remedy>>,
}

/// The layer at whose underside a stack goes first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeakestLayer {
    /// The layer; what lies in it and above moves.
    pub layer: usize,
    /// The level push that does it, as a fraction of the weight of what moves, and its direction.
    pub reserve: Reserve,
    /// Whether the equilibrium of the whole stack was solved; else a closed form, an upper bound.
    pub solved: bool,
    /// Whether it goes as rigid pieces do, or by its bags giving way.
    pub by: Told,
    /// Where the bags give way, the piece on whose bed it tips.
    pub tips: Option<usize>,
}

impl Assessment {
    /// Whether no check fails and none is undecided.
    pub fn in_order(&self) -> bool {
        !self.findings.iter().any(|finding| finding.state.falls_short())
    }

    /// How many findings stand how, with the line that closes their list.
    pub fn tally(&self) -> Tally {
        Tally::of(&self.findings)
    }

    /// What mends a finding, by its place in the list.
    pub fn remedy(&self, finding: usize) -> Option<&Remedy> {
        self.remedies.get(finding)?.as_ref()
    }

    /// A finding's sentences, and after them what was tried and mends it.
    pub fn explained(&self, finding: usize) -> String {
        let Some(found) = self.findings.get(finding) else { return String::new() };
        match self.remedy(finding) {
            Some(remedy) => format!("{} {}", found.text, remedy.sentence()),
            None => found.text.clone(),
        }
    }

    /// Whether something waits for a solver.
    pub fn is_undecided(&self) -> bool {
        self.exact.is_none() && !self.closed.steps.is_empty()
    }

    /// Line of action minus occupant point after a step (from 0), fore-aft and lateral, floor frame, m: with what
    /// the stack leans as its bags give, and with what the article tilts on its supports, where that is solved.
    pub fn offset_m(&self, step: usize) -> Option<[f64; 2]> {
        let leans = self.exact.as_ref().and_then(|exact| exact.soft.as_ref()).map(|soft| &soft.usual);
        self.offset_leaning_m(step, leans)
    }

    /// The same at one softness of the bags; rigid where none is given.
    pub(super) fn offset_leaning_m(&self, step: usize, yielding: Option<&Yielding>) -> Option<[f64; 2]> {
        let state = self.closed.steps.get(step)?;
        let leans = yielding.and_then(|yielding| yielding.steps.get(step)?.end.rest()).map_or([0.0; 2], |r| r.shift_m);
        let turn = self.exact.as_ref().and_then(|exact| exact.article_moved(step)).map(|moved| moved.turn_rad);
        // Article, occupant and stack turn together: what lies higher goes further.
        let tilts = turn.map_or(Vector3::zeros(), |turn| turn.cross(&(state.centroid - self.closed.target_in_floor)));
        Some([0, 1].map(|axis| state.offset_m[axis] + leans[axis] + tilts[axis]))
    }

    /// The reserve after a step (from 0): as solved, else by closed forms, which are upper bounds; with all pieces
    /// placed the lesser of the rigid one and the one as the bags give.
    pub fn reserve(&self, step: usize) -> Option<StepReserve> {
        if let Some(solved) = self.exact.as_ref().and_then(|exact| exact.reserves.get(step)) {
            return Some(*solved);
        }
        let rigid = self.closed.steps.get(step)?.least;
        let is_last = step + 1 == self.closed.steps.len();
        let soft = self.closed.soft_bound.filter(|_| is_last).map(Decision::Decided);
        Some(match soft.filter(|soft| soft.governs(&rigid)) {
            Some(least) => StepReserve::bound(least, Told::Soft),
            None => StepReserve::bound(rigid, Told::Rigid),
        })
    }

    /// The step (from 0) of the least of these.
    pub fn weakest_step(&self) -> Option<usize> {
        let least = |step: &usize| self.reserve(*step).map(|reserve| reserve.least);
        let steps: Vec<usize> = (0..self.closed.steps.len()).filter(|step| least(step).is_some()).collect();
        weakest(&steps, |step| least(step).unwrap_or(Decision::NotLimited)).map(|(_, step)| *step)
    }

    /// Where and how the stack would go first after a step (from 0): as solved, else by closed form.
    /// None where nothing moves it, or where that is not decided.
    pub fn weakest_layer(&self, step: usize) -> Option<WeakestLayer> {
        let Some(exact) = &self.exact else {
            let state = self.closed.steps.get(step)?;
            let (layer, reserve) = (state.least_layer, state.least.reserve()?);
            return Some(WeakestLayer { layer, reserve, solved: false, by: Told::Rigid, tips: None });
        };
        let StepReserve { least, by, tips, .. } = *exact.reserves.get(step)?;
        let layer = match by {
            // What leans leans from the bed up, where nobody knows better.
            Told::Soft => tips.and_then(|piece| self.closed.pile.layer.get(piece).copied()).unwrap_or(1),
            Told::Rigid => exact.steps.get(step)?.mechanism.as_ref()?.layer,
        };
        Some(WeakestLayer { layer, reserve: least.reserve()?, solved: true, by, tips })
    }
}
