//! What comes out: a stack, its numbers, and what it could not meet.

use crate::change::{self, Change};
use crate::impossible::Shortfall;
use crate::judge::bonded;
use assess::{Ask, Assessment, Check};
use plan::edit::Restacking;
use plan::{Edit, Form, Place, Plan};
use quantity::{Quantity, STANDARD_GRAVITY_M_S2 as GRAVITY};

/// In what a proposal differs from the others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// All goals in their order.
    Steadiest,
    /// As few boards as will do.
    FewestBoards,
    /// As low, and with as little lifting, as will do.
    Lowest,
    /// Another bond or another base, nearly as good.
    Another,
    /// The best that was found where nothing meets every check: it has no other name, and there is one at the most.
    Attempt,
    /// The plan's own places in another order.
    Ordered,
    /// The plan's own order and bonding, drawn over the occupant point.
    Trimmed,
}

impl Kind {
    /// What it is called.
    pub fn word(self) -> &'static str {
        match self {
            Kind::Steadiest => "greatest reserve",
            Kind::FewestBoards => "fewest boards",
            Kind::Lowest => "lowest",
            Kind::Another => "another bond",
            Kind::Attempt => "best attempt",
            Kind::Ordered => "in order",
            Kind::Trimmed => "trimmed",
        }
    }

    /// A whole stack that falls short goes by no other name than that of an attempt.
    fn of_what_falls_short(self) -> Self {
        match self {
            Kind::Ordered | Kind::Trimmed => self,
            _ => Kind::Attempt,
        }
    }

    fn restacking(self) -> Restacking {
        match self {
            Kind::Ordered => Restacking::Ordering,
            Kind::Trimmed => Restacking::Trimming,
            _ => Restacking::Proposing,
        }
    }
}

/// A stack that the program laid out.
#[derive(Clone, Debug)]
pub struct Proposal {
    /// In what it differs from the others.
    pub kind: Kind,
    /// The pieces in placing order.
    pub places: Vec<Place>,
    /// What Order or Trim changes of the plan's own stack; empty where they find nothing better, and for
    /// a stack that is laid anew.
    pub changes: Vec<Change>,
    /// What it comes to.
    pub numbers: Numbers,
    /// What it could not meet, and what would help; what is proven comes first.
    pub shortfalls: Vec<Shortfall>,
    /// Which steps come before the layer beneath them is full, and what asks for it: a sentence. None where each layer is
    /// finished before the next is begun, and for the plan's own stack.
    pub by_turns: Option<String>,
    /// The plan with this stack, assessed: all that the checks read. By closed forms alone for the first that is shown
    /// while the search goes on.
    pub assessment: Assessment,
}

/// The numbers of a proposal, by which people choose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Numbers {
    /// Mass of all pieces, kg.
    pub applied_kg: f64,
    /// Least reserve over all steps, as a fraction of weight, by the equilibrium of the whole stack
    /// and by every cut; none where it falls, hangs or was not decided.
    pub reserve: Option<f64>,
    /// Whether it ends by the bags giving way, before a piece tips or slides.
    pub leans: bool,
    /// Line of action minus occupant point at the end, fore-aft and lateral, floor frame, m.
    pub offset_m: [f64; 2],
    /// The greatest distance of the line of action from the occupant point at any hold, m.
    pub worst_at_holds_m: f64,
    /// From the bed's origin up to the highest top, along the bed's z, m.
    pub height_m: f64,
    /// Work of lifting all pieces from the bed's height to their places, J.
    pub work_j: f64,
    /// Pieces, boards among them.
    pub pieces: usize,
    /// Boards.
    pub boards: usize,
    /// Layers.
    pub layers: usize,
    /// Of the pieces that lie on pieces, boards left out, the share that lies on two or more: in bond.
    pub bonded: f64,
}

impl Proposal {
    /// The same as the best of another kind.
    pub(crate) fn of_kind(self, kind: Kind) -> Self {
        let kind = if self.in_order() { kind } else { kind.of_what_falls_short() };
        Self { kind, ..self }
    }

    /// Whether every check holds.
    pub fn in_order(&self) -> bool {
        self.assessment.in_order()
    }

    /// Whether anything was laid: where nothing could be, only the reasons are worth something.
    pub fn is_empty(&self) -> bool {
        self.places.is_empty()
    }

    /// The edit that takes it over, as one step of undo.
    pub fn edit(&self) -> Edit {
        Edit::Restack { why: self.kind.restacking(), places: self.places.clone() }
    }

    /// What happens to the plan's binding straps, a sentence each: they go on over the last piece of a
    /// stack that is laid anew.
    pub fn strap_changes(&self, plan: &Plan) -> Vec<String> {
        let Ok(laid) = self.edit().apply(plan) else { return Vec::new() };
        let pairs = plan.fixture.bindings.iter().zip(&laid.fixture.bindings);
        let later = pairs.filter(|(was, is)| was.after != is.after);
        later
            .map(|(was, is)| {
                format!(
                    "The strap “{}” goes on after the last piece of this stack, step {}; planned after step {}.",
                    is.name, is.after, was.after
                )
            })
            .collect()
    }

    /// Assesses a stack in full and tells what it comes to; none where it was stopped.
    pub(crate) fn of(
        plan: &Plan,
        stack: (Kind, Vec<Place>),
        certain: &[Shortfall],
        go_on: &dyn Fn() -> bool,
    ) -> Option<Self> {
        let (kind, places) = stack;
        let edit = Edit::Restack { why: kind.restacking(), places: places.clone() };
        let laid = edit.apply(plan).ok()?;
        let progress = |_| go_on();
        let assessment = assess::assess(&laid, Ask { progress: &progress, ..Ask::checks() });
        assessment.exact.as_ref()?;
        Some(Self::assessed(plan, (kind, places), (laid, assessment), certain))
    }

    /// A stack by closed forms alone, to be shown while the search goes on: what takes a solver is undecided in it, so
    /// that it is never in order.
    pub(crate) fn at_first(plan: &Plan, (kind, places): (Kind, Vec<Place>), certain: &[Shortfall]) -> Option<Self> {
        let laid = Edit::Restack { why: kind.restacking(), places: places.clone() }.apply(plan).ok()?;
        let assessment = assess::assess(&laid, Ask::closed());
        Some(Self::assessed(plan, (kind, places), (laid, assessment), certain))
    }

    fn assessed(
        plan: &Plan,
        (kind, places): (Kind, Vec<Place>),
        (laid, assessment): (Plan, Assessment),
        certain: &[Shortfall],
    ) -> Self {
        let numbers = Numbers::of(&laid, &assessment);
        let shortfalls = shortfalls(&laid, &assessment, certain);
        let changes = match kind {
            Kind::Ordered => change::of_order(plan, &places),
            Kind::Trimmed => change::of_trim(plan, &places, &assessment.closed.pile.layer),
            _ => Vec::new(),
        };
        Self { kind, places, changes, numbers, shortfalls, by_turns: None, assessment }.of_kind(kind)
    }
}

impl Numbers {
    /// Those of a plan's own stack, from its assessment.
    pub fn of(plan: &Plan, assessment: &Assessment) -> Self {
        let tops = plan.stack.iter().zip(&assessment.closed.pile.underside_m);
        let height_m = tops.map(|(place, m)| m + plan.extent_of(place)[2].si()).fold(0.0, f64::max);
        let middle =
            |(place, m): (&Place, &f64)| plan.mass_of(place).si() * (m + plan.extent_of(place)[2].si() / 2.0).max(0.0);
        let lifted: f64 = plan.stack.iter().zip(&assessment.closed.pile.underside_m).map(middle).sum();
        let at_hold = |step: &Option<usize>| step.map(|step| assessment.closed.steps[step].offset_m);
        let holds = assessment.closed.hold_steps.iter().filter_map(at_hold).map(|[x, y]| x.hypot(y));
        Self {
            applied_kg: assessment.closed.applied_kg(),
            reserve: reserve(assessment).map(|(multiplier, _)| multiplier),
            leans: reserve(assessment).is_some_and(|(_, leans)| leans),
            offset_m: assessment.closed.last().map_or([0.0; 2], |step| step.offset_m),
            worst_at_holds_m: holds.fold(0.0, f64::max),
            height_m,
            work_j: lifted * GRAVITY,
            pieces: plan.stack.len(),
            boards: plan.stack.iter().filter(|place| plan.lot_of(place).form == Form::Board).count(),
            layers: assessment.closed.pile.layer.iter().copied().max().unwrap_or(0),
            bonded: bonded(&assessment.closed.pile, &|step| plan.lot_of(&plan.stack[step]).form != Form::Board),
        }
    }
}

/// The lesser of what the whole stack's equilibrium and the cuts leave, and whether it ends by leaning over; where a
/// cut is not decided by closed form the whole decides alone.
fn reserve(assessment: &Assessment) -> Option<(f64, bool)> {
    let (_, whole) = assessment.exact.as_ref()?.weakest_step()?;
    let number = |decision: &assess::Decision| match decision {
        assess::Decision::NotLimited => Some(f64::INFINITY),
        other => other.reserve().map(|reserve| reserve.multiplier),
    };
    let cut = match assessment.closed.weakest_step()?.1.least {
        assess::Decision::NotDecided { .. } => f64::INFINITY,
        decided => number(&decided)?,
    };
    let (leans, whole) = (whole.by == assess::Told::Soft, number(&whole.least)?);
    Some((cut.min(whole), leans && whole <= cut)).filter(|(reserve, _)| *reserve >= 0.0)
}

/// What keeps the plan from holding: what is proven first, then each finding that falls short and
/// is not told by that; then a binding that would never be put on.
fn shortfalls(plan: &Plan, assessment: &Assessment, certain: &[Shortfall]) -> Vec<Shortfall> {
    let mut told = certain.to_vec();
    let short = assessment.findings.iter().filter(|finding| finding.state.falls_short());
    for finding in short {
        if !certain.iter().any(|known| known.check == finding.check) {
            let sentence = finding.text.clone();
            told.push(Shortfall { check: finding.check, sentence, is_certain: false, gap: None });
        }
    }
    told.extend(plan.fixture.bindings.iter().filter(|binding| binding.after as usize > plan.stack.len()).map(
        |binding| {
            let sentence = format!(
                "{} goes on after step {}, and this stack has {} steps: set on the Fixture page after which step it is \
             put on.",
                binding.name,
                binding.after,
                plan.stack.len()
            );
            Shortfall { check: Check::BindingStraps, sentence, is_certain: false, gap: None }
        },
    ));
    told
}
