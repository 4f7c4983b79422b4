//! What supports would change that give more than the plan knows: solved, not guessed.
//!
//! Where nobody entered how the supports give, the article is taken to stand as it stands bare. Here it is set on
//! supports so soft that nobody overlooks it, all of them and each by itself, and offset and reserve are solved again.

use super::fixture::{fixture, pulls};
use super::reserve::StepReserve;
use super::soft::Soft;
use super::tilt::COUNTS_RAD;
use crate::closed::problem::{Problem, article};
use crate::closed::softness::{ASSUMED_PA, BRACKET_PA, pieces};
use nalgebra::{Point3, UnitQuaternion, Vector3};
use plan::Plan;
use quantity::Stiffness;
use statics::Decision;
use statics::equilibrium::{collapse, directions};
use statics::fixture::{ArticleMotion, Carried, Fixture, rest};
use statics::soft::{self, PushEnd, SoftStack, Softness};

/// As soft as a support may be and not be noticed: it sinks 10 mm under 100 kg. `Common practice, no source`.
pub(crate) const SOFT_N_PER_M: f64 = 1e5;
/// As stiff as a support is beside one that gives: a steel trestle. `Common practice, no source`.
const STIFF_N_PER_M: f64 = 1e7;

/// What soft supports would make of a stack.
#[derive(Clone, Debug)]
pub struct SupportsTried {
    /// The steps (from 0) that were looked at, with by how much the line of action would go farther from the occupant
    /// point at the most, fore-aft and lateral, m; none where the article would not come to rest.
    pub moves: Vec<(usize, Option<[f64; 2]>)>,
    /// The step (from 0) of the least reserve, and what it would be on the bed that tilts most; none where no tilt
    /// counts.
    pub reserve: Option<(usize, Decision)>,
    /// Of bags that nobody measured, at their softest: the step (from 0) of the least reserve, what it is, and what it
    /// would be on that bed; none where all are known, or no tilt counts.
    pub softest: Option<(usize, Decision, Decision)>,
}

/// None where every support has a stiffness, or nothing lies there. `reserves` are those of the plan as it is, and
/// `softest` with the softest bags where nobody measured them.
pub(super) fn tried(
    plan: &Plan,
    (problem, target): (&Problem, &Point3<f64>),
    (reserves, softest, soft): (&[StepReserve], Option<&[StepReserve]>, Option<&Soft>),
) -> Option<SupportsTried> {
    let last = plan.steps().checked_sub(1)?;
    let unknown: Vec<usize> = (0..plan.fixture.supports.len()).filter(|at| gives(plan, *at).is_none()).collect();
    if unknown.is_empty() {
        return None;
    }
    let mut steps: Vec<usize> =
        plan.runs().into_iter().flat_map(|run| run.holds).filter_map(|hold| hold.step).collect();
    steps.push(last);
    steps.sort_unstable();
    steps.dedup();
    let alone = unknown.iter().map(|soft| on(plan, &|at| at == *soft));
    let plans: Vec<Plan> = std::iter::once(on(plan, &|_| true)).chain(alone).collect();
    let turns: Vec<Vec<Option<Vector3<f64>>>> = plans.iter().map(|plan| turns(plan, problem, &steps)).collect();
    let moves = steps.iter().enumerate().map(|(at, step)| {
        let high = problem.stack_after[*step].centroid - target;
        let of = |turns: &Vec<Option<Vector3<f64>>>| Some(turns[at]?.cross(&high));
        let most = turns.iter().map(of).try_fold([0.0_f64; 2], |most, moved| {
            let moved = moved?;
            Some([most[0].max(moved.x.abs()), most[1].max(moved.y.abs())])
        });
        (*step, most)
    });
    let moves = moves.collect();
    let turned = turned(problem, &most_tilted(&turns));
    let at = |reserves: &[StepReserve], unknown_pa: f64| {
        let bags = soft.map(|_| pieces(plan, unknown_pa));
        weakest_on(turned.as_ref()?, reserves, bags.as_deref())
    };
    let reserve = at(reserves, ASSUMED_PA);
    let softest = softest.and_then(|softest| {
        let (step, then) = at(softest, BRACKET_PA[0])?;
        Some((step, softest.get(step)?.least, then))
    });
    Some(SupportsTried { moves, reserve, softest })
}

fn gives(plan: &Plan, support: usize) -> Option<Stiffness> {
    plan.fixture.supports.get(support)?.stiffness
}

/// The plan with a stiffness for every support that has none: soft or stiff.
fn on(plan: &Plan, is_soft: &dyn Fn(usize) -> bool) -> Plan {
    let mut plan = plan.clone();
    for (at, support) in plan.fixture.supports.iter_mut().enumerate() {
        let assumed = if is_soft(at) { SOFT_N_PER_M } else { STIFF_N_PER_M };
        support.stiffness.get_or_insert(Stiffness::n_per_m(assumed));
    }
    plan
}

/// How the article turns from bare to each of these steps; none where it finds no rest.
fn turns(plan: &Plan, problem: &Problem, steps: &[usize]) -> Vec<Option<Vector3<f64>>> {
    let (fixture, article) = (fixture(plan), article(plan));
    let moved = |stack, placed| motion(&fixture, &Carried { article, stack, pulls: pulls(plan, placed) });
    let Some(bare) = moved(None, 0) else { return vec![None; steps.len()] };
    steps.iter().map(|step| Some(moved(Some(problem.stack_after[*step]), step + 1)?.since(&bare).turn_rad)).collect()
}

fn motion(fixture: &Fixture, carried: &Carried) -> Option<ArticleMotion> {
    rest(fixture, carried).reactions().map(|reactions| reactions.moved)
}

fn most_tilted(turns: &[Vec<Option<Vector3<f64>>>]) -> Vector3<f64> {
    let tilt = |turn: &Vector3<f64>| turn.x.hypot(turn.y);
    let all = turns.iter().flatten().flatten().copied();
    all.max_by(|a, b| tilt(a).total_cmp(&tilt(b))).unwrap_or_else(Vector3::zeros)
}

/// The bed turned so; none where that does not count.
fn turned(problem: &Problem, turn: &Vector3<f64>) -> Option<Problem> {
    (turn.x.hypot(turn.y) > COUNTS_RAD)
        .then(|| problem.turned(&UnitQuaternion::from_scaled_axis(Vector3::new(turn.x, turn.y, 0.0))))
}

/// The reserve of the weakest step on a turned bed, its bags as soft as that; none of them: rigid.
fn weakest_on(turned: &Problem, reserves: &[StepReserve], bags: Option<&[Softness]>) -> Option<(usize, Decision)> {
    let (step, _) = crate::closed::weakest(reserves, |reserve| reserve.least)?;
    let stack = turned.stack();
    let rigid = collapse(&stack, step + 1, &directions(&stack, step + 1)).least;
    let leans = bags.map(|pieces| {
        let given = SoftStack::new(turned.whole_stack(), pieces);
        match soft::push_limits(&given, &[step + 1], &|_| true).first().map(|push| push.end) {
            Some(PushEnd::Decided(push)) => Decision::Decided(super::soft::tips(&push)),
            Some(PushEnd::Falls) => Decision::Falls,
            _ => Decision::NotDecided { residual: None },
        }
    });
    Some((step, leans.filter(|leans| leans.governs(&rigid)).unwrap_or(rigid)))
}
