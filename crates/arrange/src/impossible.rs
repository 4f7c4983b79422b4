//! What no stack can mend: proven before anything is laid, so that nobody searches in vain.

use crate::task::Task;
use assess::{Check, Gap};
use nalgebra::{Point3, Vector3};
use plan::Turn;
use quantity::{Force, Grain, Length, Mass, Quantity, STANDARD_GRAVITY_M_S2 as GRAVITY};
use statics::fixture::Settled;
use statics::{Footprint, Masses};

/// Why a proposal falls short, and what would help.
#[derive(Clone, Debug, PartialEq)]
pub struct Shortfall {
    /// The check that it keeps from holding.
    pub check: Check,
    /// The thing, the numbers, the remedy.
    pub sentence: String,
    /// Proven: no stack of these pieces on this article can mend it. Else: none was found that does.
    pub is_certain: bool,
    /// The distance that is too short, to be drawn with its measure, where the reason is one.
    pub gap: Option<Gap>,
}

/// Places are tried in steps of this, m, before it is said that there is none.
const TRIED_EVERY_M: f64 = 0.02;

/// All that is proven to stand in the way.
pub(crate) fn reasons(task: &Task) -> Vec<Shortfall> {
    [load, crate::sure::not_weighed, bearings, line_of_action, allowables, room, friction, scales, direction]
        .iter()
        .filter_map(|reason| reason(task))
        .collect()
}

fn certain(check: Check, sentence: String) -> Option<Shortfall> {
    Some(Shortfall { check, sentence, is_certain: true, gap: None })
}

fn load(task: &Task) -> Option<Shortfall> {
    let whole: f64 = task.plan.ballast.iter().flat_map(|lot| (1..=lot.count).map(|item| lot.mass_of(item).si())).sum();
    let lacking = task.due_kg * (1.0 - 1e-9) - whole;
    if lacking <= 0.0 {
        return None;
    }
    let shown = |kg: f64| Mass::kg(kg).shown(task.plan.units, Grain::Coarse);
    let loads = task.plan.ballast.iter().filter(|lot| lot.form != plan::Form::Board && lot.mass.si() > 0.0);
    let heaviest = loads.max_by(|a, b| a.mass.si().total_cmp(&b.mass.si()));
    let more = heaviest.map(|lot| {
        let pieces = (lacking / lot.mass.si()).ceil();
        let one = if pieces < 1.5 { "one more".to_owned() } else { format!("{pieces:.0} more") };
        format!("{one} “{}” of {}, or ", lot.name, shown(lot.mass.si()))
    });
    certain(
        Check::AppliedLoad,
        format!(
            "All pieces together weigh {}, {} less than the ultimate load of {}. What would help: {}other pieces of {} in all.",
            shown(whole),
            shown(lacking),
            shown(task.due_kg),
            more.unwrap_or_default(),
            shown(lacking)
        ),
    )
}

fn bearings(task: &Task) -> Option<Shortfall> {
    if !task.bed.bearings.is_empty() {
        return None;
    }
    let sentence = "The bed has no bearing, so nothing can rest on it. Add the places where the seat carries load.";
    certain(Check::EveryPieceRests, sentence.to_owned())
}

/// The hull of the bearings seen along the bed's z: all that is laid stands on it in the end.
fn hull(task: &Task) -> Footprint {
    let corners = task.bed.bearings.iter().flat_map(|bearing| bearing.patch().corners());
    Footprint::new(&corners.map(|[x, y]| Point3::new(x, y, 0.0)).collect::<Vec<_>>(), 0.0)
}

/// How far the line of action lies within the bearings at best, m: negative outside, the tolerance
/// used up.
fn edge_at_best_m(task: &Task) -> f64 {
    let [x, y] = task.line_at(top_m(task));
    let [fore_aft, lateral] = task.plan.target.tolerance().map(Quantity::si);
    hull(task).edge_m(&Point3::new(x, y, 0.0)) + fore_aft.hypot(lateral)
}

fn line_of_action(task: &Task) -> Option<Shortfall> {
    let beyond_m = -edge_at_best_m(task);
    if task.bed.bearings.is_empty() || beyond_m <= 0.0 {
        return None;
    }
    let top_m = top_m(task);
    let foot = task.line_at(top_m);
    let edge = nearest_edge(task, foot)?;
    let outside = (edge[0] - foot[0]).hypot(edge[1] - foot[1]);
    let sentence = format!(
        "The plumb line through the occupant point passes {} outside the bearings, farther than the tolerance \
         reaches: any stack on them with its weight there tips over. Add a bearing under the occupant point, or \
         check where the point is.",
        Length::m(outside).shown(task.plan.units, Grain::Fine)
    );
    let ends_in_floor = [foot, edge].map(|[x, y]| task.floor_from_bed * Point3::new(x, y, top_m));
    let between = ["occupant point", "edge of the bearings"].map(str::to_owned);
    let gap = Gap { between, faces_in_floor: ends_in_floor, ends_in_floor, needed: None };
    certain(Check::EveryStepStands, sentence).map(|short| Shortfall { gap: Some(gap), ..short })
}

/// Height of the highest bearing, m.
fn top_m(task: &Task) -> f64 {
    task.bed.bearings.iter().map(|bearing| bearing.top_m).fold(0.0, f64::max)
}

/// The place on the bearings' hull that is nearest to one outside it, bed frame, m.
fn nearest_edge(task: &Task, from: [f64; 2]) -> Option<[f64; 2]> {
    let hull = hull(task);
    let corners = hull.corners();
    let sides = corners.iter().zip(corners.iter().cycle().skip(1));
    let nearest = sides.map(|(a, b)| {
        let (along, off) = (b - a, Point3::new(from[0], from[1], 0.0) - a);
        let part = off.dot(&along) / along.norm_squared().max(f64::MIN_POSITIVE);
        let at = a + part.clamp(0.0, 1.0) * along;
        [at.x, at.y]
    });
    let distance = |at: &[f64; 2]| (at[0] - from[0]).hypot(at[1] - from[1]);
    nearest.min_by(|a, b| distance(a).total_cmp(&distance(b)))
}

fn allowables(task: &Task) -> Option<Shortfall> {
    let allowed: Option<f64> = task.plan.bed.bearings.iter().map(|bearing| bearing.allowable.map(Quantity::si)).sum();
    let upright = (task.floor_from_bed.rotation * Vector3::z()).z;
    let (allowed, due) = (allowed?, task.due_kg * GRAVITY * upright);
    if task.bed.bearings.is_empty() || due <= allowed {
        return None;
    }
    let shown = |n: f64| Force::n(n).shown(task.plan.units, Grain::Coarse);
    let sentence = format!(
        "All bearings together are allowed {}, and the ultimate load presses {} on them. Find out what they can \
         really carry, or spread the load onto further bearings.",
        shown(allowed),
        shown(due)
    );
    certain(Check::Bearings, sentence)
}

/// Whether any piece finds a place over the bearings that keeps clear.
fn room(task: &Task) -> Option<Shortfall> {
    let span = task.bearings_span()?;
    let all_lots = 0..task.plan.ballast.len();
    let mut pieces = all_lots.flat_map(|lot| [Turn::Lengthwise, Turn::Crosswise].map(|turn| (lot, turn))).peekable();
    pieces.peek()?;
    if !task.kept.is_empty() || pieces.any(|(lot, turn)| finds_room(task, lot, turn, span)) {
        return None;
    }
    let names: Vec<_> = task.plan.article.keep_clear.iter().map(|region| region.name.as_str()).collect();
    let sentence = format!(
        "No piece fits over the bearings with its clearance ({}): places were tried every {}. Check the regions and \
         their clearances, or use smaller pieces.",
        names.join(", "),
        Length::m(TRIED_EVERY_M).shown(task.plan.units, Grain::Fine)
    );
    certain(Check::KeepClear, sentence)
}

fn finds_room(task: &Task, lot: usize, turn: Turn, span: [[f64; 2]; 2]) -> bool {
    let item = crate::task::Item::ANY;
    let at = |at_m: [f64; 2]| task.body(&crate::task::Put { lot, item, at_m, turn, locked: false, kept: false });
    let extent = at([0.0; 2]).extent_m;
    let places = |axis: usize| {
        let [from, to] = [span[axis][0] - extent[axis] / 2.0, span[axis][1] + extent[axis] / 2.0];
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "steps across a bed")]
        let steps = ((to - from) / TRIED_EVERY_M).ceil() as u32;
        (0..=steps).map(move |step| (from + f64::from(step) * TRIED_EVERY_M).min(to))
    };
    places(0).any(|x| {
        places(1).any(|y| {
            let body = at([x, y]);
            let pile = statics::settle(&task.bed, std::slice::from_ref(&body));
            pile.hanging.is_empty() && task.clearances.is_clear(&body, pile.underside_m[0])
        })
    })
}

/// The greatest reserve that any stack of these pieces can have: what slides on the bed at the
/// greatest friction there is, or by itself when it has just been put down; and what tips about the
/// bearings' hull with its weight as low as the thinnest piece and as far inside as the tolerance
/// allows. An upper bound, seldom reached by the last term. Source: `own derivation` (single cuts: under
/// the lowest layer, and under a piece on which nothing lies yet).
pub(crate) fn greatest_reserve(task: &Task) -> f64 {
    let tilt = (task.floor_from_bed.rotation * Vector3::z()).z.clamp(-1.0, 1.0).acos();
    let thinnest = task.stocks.iter().map(|stock| stock.size_m[2]).fold(f64::INFINITY, f64::min);
    let slide = (greatest_friction(task).atan() - tilt).tan();
    slide.min(edge_at_best_m(task) / (thinnest / 2.0))
}

/// No stack that reaches the load does without a piece of at most this friction.
fn greatest_friction(task: &Task) -> f64 {
    let friction_of = |lot: usize| task.stocks[lot].friction;
    let mut lots: Vec<usize> = (0..task.stocks.len()).collect();
    lots.sort_by(|a, b| friction_of(*b).total_cmp(&friction_of(*a)));
    let mut reached_kg = 0.0;
    // Roughest first: that lot with which the load is reached is needed, or a smoother one.
    let reaches = |lot: &&usize| {
        let kept = task.kept.iter().filter(|put| put.lot == **lot).map(|put| put.item.mass_kg);
        reached_kg += task.stocks[**lot].free.iter().map(|item| item.mass_kg).chain(kept).sum::<f64>();
        reached_kg >= task.due_kg * (1.0 - 1e-9)
    };
    let needed = lots.iter().find(reaches).or(lots.last()).map_or(0.0, |lot| friction_of(*lot));
    needed.min(task.plan.bed.friction)
}

fn friction(task: &Task) -> Option<Shortfall> {
    let (bound, asked) = (greatest_reserve(task), task.plan.allow.collapse);
    if task.stocks.is_empty() || task.bed.bearings.is_empty() || edge_at_best_m(task) <= 0.0 || bound >= asked {
        return None;
    }
    let sentence = format!(
        "No stack here can have a reserve above {bound:.2} of its weight, and {asked:.2} is required: friction on the bed and the room around the plumb line allow no more. Put a rougher material on the bed, pack it level, or bind the stack."
    );
    certain(Check::CollapseReserve, sentence)
}

/// A support that shows too much wherever within its tolerance the load acts.
fn scales(task: &Task) -> Option<Shortfall> {
    if task.due_kg <= 0.0 || task.plan.fixture.supports.is_empty() {
        return None;
    }
    let [fore_aft, lateral] = task.plan.target.tolerance().map(Quantity::si);
    let corners = [[0.0, 0.0], [1.0, 1.0], [1.0, -1.0], [-1.0, 1.0], [-1.0, -1.0]];
    let readings: Vec<Vec<f64>> = corners
        .iter()
        .filter_map(|[x, y]| {
            let at = task.target_in_floor + Vector3::new(x * fore_aft, y * lateral, 0.0);
            let under = assess::fixture_under(task.plan, Masses { mass_kg: task.due_kg, centroid: at });
            let Settled::Stands(reactions) = under.settled else { return None };
            Some(reactions.supports.iter().map(|support| support.reading_kg).collect())
        })
        .collect();
    if readings.len() < corners.len() {
        return None;
    }
    let least = |index: usize| readings.iter().map(|reading| reading[index]).fold(f64::INFINITY, f64::min);
    let shown = |kg: f64| Mass::kg(kg).shown(task.plan.units, Grain::Coarse);
    task.plan.fixture.supports.iter().enumerate().find_map(|(index, support)| {
        let capacity = support.capacity?.si();
        let sentence = format!(
            "At ultimate load {} shows at least {} wherever within its tolerance the load acts, and its capacity is {}. Take a stronger scale, or set the supports so that the others carry more.",
            support.name,
            shown(least(index)),
            shown(capacity)
        );
        (least(index) > capacity).then_some(sentence).and_then(|sentence| certain(Check::Scales, sentence))
    })
}

fn direction(task: &Task) -> Option<Shortfall> {
    let case = task.plan.case_in_hand()?;
    let off = (task.plan.article.pitch.si() + case.direction.si()).abs();
    // As the check has it.
    if off <= 5.0 / 180.0 * std::f64::consts::PI {
        return None;
    }
    let sentence = format!(
        "The article's pitch is {:.1} deg away from the direction of the load case, which no stack changes. Pitch the article so that gravity acts along the load.",
        off.to_degrees()
    );
    certain(Check::LoadDirection, sentence)
}
