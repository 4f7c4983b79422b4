//! The first stratum: what a plan amounts to by closed forms, before anything is solved or judged. Loads,
//! places, margins, step by step; cheap enough for every frame of a drag. Nothing here names what is solved
//! (`exact`) or found (`verdict`).

pub(crate) mod bond;
pub(crate) mod certainty;
pub(crate) mod clearance;
pub(crate) mod deflection;
pub(crate) mod gap;
pub mod handling;
pub(crate) mod hangar;
pub mod load;
pub(crate) mod occupant;
pub(crate) mod problem;
pub(crate) mod softness;
pub(crate) mod strapped;
pub(crate) mod weighing;

use self::load::Load;
use self::occupant::{OccupantPoint, occupant_point};
use self::problem::{Problem, article};
use self::strapped::OnSeat;
use nalgebra::{Isometry3, Point3};
use plan::{Form, Plan};
use statics::soft::{self, SoftStack};
use statics::spread::{self, FirstOrder, OffsetBound, Piece, placement_in_floor};
use statics::{CutMargin, Decision, Footprint, Masses, Pile, Reserve, Trail, Under, Way};

/// What closed forms tell of a plan.
#[derive(Clone, Debug)]
pub struct Closed {
    /// What must be proved; none only while the plan names no load case.
    pub load: Option<Load>,
    /// The bed on the floor.
    pub floor_from_bed: Isometry3<f64>,
    /// How the pieces come to rest.
    pub pile: Pile,
    /// The same pile, every contact cut back to what carries: margins are those of this one.
    pub carrying: Pile,
    /// The fixture under the article alone, before the first piece; the push is one at the article's own
    /// centroid, as a fraction of its own weight.
    pub tare: FixtureState,
    /// The state after each step.
    pub steps: Vec<StepState>,
    /// Margins of each layer with all pieces placed.
    pub layers: Vec<Layer>,
    /// The occupant point with where it comes from, article frame.
    pub occupant: OccupantPoint,
    /// The occupant point, floor frame, m.
    pub target_in_floor: Point3<f64>,
    /// Two standard deviations of the applied mass, kg: lots' tolerances of the pieces that were
    /// not weighed, taken as independent.
    pub applied_spread_kg: f64,
    /// What the offsets stay within in 95 of 100, first order; none without weight.
    pub offset_bound: Option<OffsetBound>,
    /// What the whole stack bears of a push as its bags give, by a closed form from above; none without bags, and for
    /// stacks of more than 300 pieces, which it would hold up in a drag.
    pub soft_bound: Option<Reserve>,
    /// For each hold of the plan the first step (from 0) after which its load is reached.
    pub hold_steps: Vec<Option<usize>>,
}

/// The state after a step.
#[derive(Clone, Debug)]
pub struct StepState {
    /// Layer of the piece put down.
    pub layer: usize,
    /// Mass of all pieces so far, kg.
    pub applied_kg: f64,
    /// Their centroid, floor frame, m.
    pub centroid: Point3<f64>,
    /// Line of action minus occupant point, fore-aft and lateral, floor frame, m.
    pub offset_m: [f64; 2],
    /// Least reserve over all layers, closed form (an upper bound of the true reserve); not decided where contacts
    /// lie at two heights.
    pub least: Decision,
    /// The layer whose underside governs.
    pub least_layer: usize,
    /// Distance at that underside from the plumb line of what lies above to the edge of what carries
    /// it, m.
    pub least_edge_m: f64,
    /// Least distance from the plumb line of what lies above to the edge of what carries it, m.
    pub edge_m: f64,
    /// The fixture under article and stack.
    pub fixture: FixtureState,
    /// What presses the seat with the binding straps that are on; none where none presses.
    pub on_seat: Option<OnSeat>,
}

/// How article and stack together stand on the supports, straps left out.
#[derive(Clone, Copy, Debug)]
pub struct FixtureState {
    /// Article and stack, kg.
    pub mass_kg: f64,
    /// Their centroid, floor frame, m.
    pub centroid: Point3<f64>,
    /// Plumb line to the footprint's edge, m, positive inside; none without supports.
    pub edge_m: Option<f64>,
    /// The greatest level push at the stack's centroid, as a fraction of the stack's weight.
    pub push: Option<Reserve>,
}

/// Margins at the underside of a layer.
pub type Layer = CutMargin;

impl Closed {
    /// What a plan amounts to by closed forms, with the problem that it states. What is `kept` of the last
    /// time makes it quicker where the first pieces lie as they did.
    pub(crate) fn of(plan: &Plan, kept: Option<&mut Trail>) -> (Self, Problem) {
        state_of(plan, kept)
    }

    /// The state after the last step.
    pub fn last(&self) -> Option<&StepState> {
        self.steps.last()
    }

    /// Mass of all placed pieces, kg.
    pub fn applied_kg(&self) -> f64 {
        self.last().map_or(0.0, |s| s.applied_kg)
    }

    /// The step (from 0) and layer of the least reserve of all steps by closed form; an undecided or falling
    /// step comes before any number.
    pub fn weakest_step(&self) -> Option<(usize, &StepState)> {
        weakest(&self.steps, |state| state.least)
    }

    /// Names of what the piece of a step (from 0) rests on, bearings first. Asked for one step at a time: names of all
    /// would be made anew in every frame of a drag.
    pub fn rests_on(&self, plan: &Plan, step: usize) -> Vec<String> {
        let contacts = &self.pile.contacts;
        let first = contacts.partition_point(|contact| contact.upper < step);
        let mut under: Vec<Under> =
            contacts[first..].iter().take_while(|contact| contact.upper == step).map(|contact| contact.lower).collect();
        under.sort_unstable();
        let name = |under: Under| match under {
            Under::Bearing(bearing) => plan.bed.bearings[bearing].name.clone(),
            Under::Body(step) => plan.piece_name(step),
        };
        under.into_iter().map(name).collect()
    }

    /// The margins of each layer after so many placements, closed form.
    pub fn layers_after(&self, plan: &Plan, placed: usize) -> Vec<Layer> {
        let pose = plan.floor_from_bed();
        statics::cuts_at(&pose, &problem::bodies(plan), &self.carrying, placed)
    }
}

/// The step (from 0) whose decision governs: a certain fall before an open question before the
/// smallest reserve; the first of equals. Equal are multipliers that a solver cannot tell apart: else
/// rounding would choose among the steps of a stack that slides at its friction all the way up.
pub(crate) fn weakest<T>(steps: &[T], decision: impl Fn(&T) -> Decision) -> Option<(usize, &T)> {
    let least = steps.iter().map(&decision).reduce(|least, next| if next.governs(&least) { next } else { least })?;
    steps.iter().enumerate().find(|(_, step)| decision(step).is_as_weak_as(&least))
}

fn state_of(plan: &Plan, trail: Option<&mut Trail>) -> (Closed, Problem) {
    let mut problem = Problem::of(plan);
    let pile = problem.pile.clone();
    let (pose, bodies, carrying) = (&problem.floor_from_bed, &problem.bodies, &problem.carrying);
    let (walk, layers) = match trail {
        Some(trail) => trail.walk_and_cuts(pose, bodies, carrying),
        None => statics::walk_and_cuts(pose, bodies, carrying),
    };
    problem.stack_after = walk.iter().map(|s| Masses { mass_kg: s.mass_kg, centroid: s.centroid_in_floor }).collect();
    let load = plan.case_in_hand().map(Load::of);
    let occupant = occupant_point(plan);
    let target_in_floor = plan.floor_from_article() * occupant.in_article;
    let article = article(plan);
    let footprint = Footprint::new(&problem::supports(plan), plan.fixture.floor_friction);
    let steps: Vec<_> = walk
        .into_iter()
        .enumerate()
        .map(|(k, step)| StepState {
            layer: pile.layer[k],
            applied_kg: step.mass_kg,
            centroid: step.centroid_in_floor,
            offset_m: [step.centroid_in_floor.x - target_in_floor.x, step.centroid_in_floor.y - target_in_floor.y],
            least: step.least,
            least_layer: step.layer,
            least_edge_m: step.least_edge_m,
            edge_m: step.edge_m,
            fixture: fixture_state(plan, &footprint, (article, problem.stack_after[k])),
            on_seat: OnSeat::after(&problem, k + 1, problem.stack_after[k], &target_in_floor),
        })
        .collect();
    let first_order = first_order(&problem);
    let soft_bound = soft_bound(plan, &problem);
    let closed = Closed {
        floor_from_bed: problem.floor_from_bed,
        layers,
        hold_steps: plan.runs().into_iter().flat_map(|run| run.holds).map(|hold| hold.step).collect(),
        applied_spread_kg: first_order.map_or(0.0, |f| 2.0 * f.mass_sd_kg),
        offset_bound: first_order.map(|f| f.offset_bound([target_in_floor.x, target_in_floor.y])),
        soft_bound,
        load,
        carrying: problem.carrying.clone(),
        pile,
        tare: tare(plan, &footprint),
        steps,
        occupant,
        target_in_floor,
    };
    (closed, problem)
}

/// More pieces are not looked at in every frame.
const MOST_BOUNDED: usize = 300;

fn soft_bound(plan: &Plan, problem: &Problem) -> Option<Reserve> {
    softness::from(plan).filter(|_| problem.bodies.len() <= MOST_BOUNDED)?;
    let pieces = softness::pieces(plan, softness::ASSUMED_PA);
    let push = soft::bound(&SoftStack::new(problem.whole_stack(), &pieces), pieces.len())?;
    let (multiplier, direction_rad) = (push.multiplier, push.direction_rad);
    Some(Reserve { multiplier, direction_rad, by: Way::Tip, any_way: false })
}

/// Mass and centroid of all pieces with their scatter, first order; none without weight.
fn first_order(problem: &Problem) -> Option<FirstOrder> {
    let Problem { floor_from_bed, bodies, pile, scatter, .. } = problem;
    let pieces = bodies.iter().zip(&scatter.doubts).enumerate().map(|(index, (body, doubt))| {
        let at = floor_from_bed * pile.centre(bodies, index);
        Piece { mass_kg: body.mass_kg, mass_sd_kg: doubt.mass_sd_kg, lot: doubt.lot, at_in_floor: [at.x, at.y] }
    });
    let placement = placement_in_floor(floor_from_bed, scatter.placement_sd_m);
    spread::first_order(&pieces.collect::<Vec<_>>(), &placement, scatter.common_share)
}

fn tare(plan: &Plan, footprint: &Footprint) -> FixtureState {
    let article = article(plan);
    let supported = !plan.fixture.supports.is_empty();
    FixtureState {
        mass_kg: article.mass_kg,
        centroid: article.centroid,
        edge_m: supported.then(|| footprint.edge_m(&article.centroid)),
        push: footprint.push(&article, &article).filter(|_| supported),
    }
}

fn fixture_state(plan: &Plan, footprint: &Footprint, (article, stack): (Masses, Masses)) -> FixtureState {
    let whole = Masses::of([article, stack].map(|m| (m.mass_kg, m.centroid))).unwrap_or(article);
    let supported = !plan.fixture.supports.is_empty();
    FixtureState {
        mass_kg: whole.mass_kg,
        centroid: whole.centroid,
        edge_m: supported.then(|| footprint.edge_m(&whole.centroid)),
        push: footprint.push(&whole, &stack).filter(|_| supported),
    }
}

/// Whether a placed piece is a board.
pub(crate) fn is_board(plan: &Plan, step: usize) -> bool {
    plan.stack.get(step).is_some_and(|place| plan.lot_of(place).form == Form::Board)
}
