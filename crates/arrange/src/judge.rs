//! The inner judge: what a stack is worth by closed forms alone, quick enough to be asked thousands
//! of times. Whether a stack holds is for the full assessment to say; this only leads there.

use crate::lie::{Gives, Lie};
use crate::task::{Put, Task};
use nalgebra::Point3;
use plan::Form;
use quantity::{Quantity, STANDARD_GRAVITY_M_S2 as GRAVITY};
use statics::{Body, Contact, Decision, Footprint, Pile, Step, Under, walk_and_cuts};

/// The share of a bag's underside that must be carried, so that it does not sag between frame
/// members as a rigid box never would. `common practice, no source`: the figure is our own choice.
pub(crate) const BAG_CARRIED: f64 = 0.6;

/// The middle of a bag lies within what carries it by this part of its shorter side, so that the next one on its
/// outer half does not tilt it. Near the bound of the kern of a rectangle, a sixth; the edges are those within the rims,
/// so that less is asked. `common practice, no source`: the figure is our own choice.
const KERN: f64 = 8.0;

/// Where friction ends before a stack tips, the squatter one is the steadier, up to this tip margin.
/// `common practice, no source`.
pub(crate) const AMPLE_TIP: f64 = 1.0;
/// So many times the critical load factor that is required is as good as any more. Below it, the squatter stack is
/// the steadier. `common practice, no source`.
const AMPLE_CRITICAL: f64 = 4.0;
/// To what it is rounded.
const TIP_STEP: f64 = 0.1;
/// The share of the tolerance that an offset may take up before it counts above the tip margin:
/// a stack off the occupant point often has a wider stand.
/// `common practice, no source`: our own choice.
const AT_HOLDS: f64 = 0.9;
/// The same at the end.
const AT_ULTIMATE: f64 = 0.1;
/// No more than so many times the load that is due may be applied. As the check has it.
const MOST_APPLIED: f64 = 1.1;
/// A margin of so many times what is required is worth more than an offset within its tolerance; a greater one is not.
/// `common practice, no source`: our own choice.
const AMPLE_MARGIN: f64 = 2.0;
/// Below so many times what is required, the critical load factor is a caution,
const LOOK_CRITICAL: f64 = 5.0 / 3.0;
/// and above this share of what is allowed the lean is. Both as the checks have them.
const LOOK_LEAN: f64 = 0.8;
/// So much does what is near a limit count against what passes it. `common practice, no source`: our own choice.
const NEAR_SHARE: f64 = 0.01;
/// What a board or a bearing that does not bear it counts against what else falls short: as much as the whole reserve that
/// is required. `common practice, no source`: our own choice.
const NOT_BORNE: f64 = 1.0;
/// To what the bond is rounded.
const BOND_STEP: f64 = 0.2;

/// How a piece lies on what is beneath it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Resting {
    /// Height of its underside, m, bed frame.
    pub(crate) underside_m: f64,
    /// It lies on so many things.
    pub(crate) lies_on: usize,
    /// Its own tip margin when it is put down: distance of its middle from the edge of what carries
    /// it, over half its thickness.
    pub(crate) margin: f64,
    /// It rests, stays clear, is carried widely enough, and does not tip by itself.
    pub(crate) is_well: bool,
}

/// How one piece of a pile lies.
pub(crate) fn resting(task: &Task, lie: &Lie, index: usize) -> Resting {
    let body = &lie.bodies[index];
    let under = under(&lie.pile, index);
    let underside_m = lie.pile.underside_m[index];
    let carried = under.iter().map(|contact| contact.patch.area()).sum::<f64>() / body.footprint().area();
    // It tips over the edge of what carries, within the rims.
    let carrying = self::under(&lie.carrying, index).iter().flat_map(|contact| contact.patch.corners());
    let corners: Vec<Point3<f64>> = carrying.map(|[x, y]| Point3::new(x, y, 0.0)).collect();
    let edge_m = Footprint::new(&corners, 0.0).edge_m(&Point3::new(body.centre_m[0], body.centre_m[1], 0.0));
    let margin = edge_m / (body.extent_m[2] / 2.0);
    let is_well = !under.is_empty()
        && (!body.soft || carried >= BAG_CARRIED && edge_m >= body.extent_m[0].min(body.extent_m[1]) / KERN)
        && margin >= task.plan.allow.collapse
        && task.clearances.is_clear(body, underside_m);
    Resting { underside_m, lies_on: under.len(), margin, is_well }
}

/// What a piece rests on. Contacts stand in the order of the upper piece.
fn under(pile: &Pile, index: usize) -> &[Contact] {
    let from = pile.contacts.partition_point(|contact| contact.upper < index);
    let count = pile.contacts[from..].partition_point(|contact| contact.upper == index);
    &pile.contacts[from..from + count]
}

/// What a stack is worth; the lesser is the better, the first difference decides. Each is rounded
/// to what matters, so that a hair of one does not outweigh the next.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub(crate) struct Worth([f64; 12]);

/// A stack with what the closed forms say of it.
#[derive(Clone, Debug)]
pub(crate) struct Judged {
    pub(crate) pile: Pile,
    /// Pieces of ours that do not rest well.
    pub(crate) badly: usize,
    /// What is lacking of the load, kg.
    pub(crate) lacking_kg: f64,
    /// What is beyond the greatest load that may be applied, kg.
    pub(crate) beyond_kg: f64,
    /// Pieces that would be put on when the load that is due is on.
    pub(crate) put_on_after: usize,
    /// Least reserve over all steps; of the finished stack as its bags give, too.
    pub(crate) margin: f64,
    /// About how many times its weight it would bear as its bags give; closed form.
    pub(crate) critical_about: f64,
    /// Boards and bearings bear the finished stack, as far as that was asked: it takes a solver.
    pub(crate) is_borne: bool,
    /// How it gives; none where that was not asked, for it takes a solver.
    pub(crate) gives: Option<Gives>,
    /// Least push, as a fraction of weight, that turns the finished stack over at some layer, friction
    /// left out, rigid or as its bags give; up to [`AMPLE_TIP`].
    pub(crate) tip: f64,
    /// How far it lies in bond: [`bonded`].
    pub(crate) bonded: f64,
    /// Line of action minus occupant point at the end, m, floor frame.
    pub(crate) offset_m: [f64; 2],
    /// The same at each hold that is reached.
    pub(crate) at_holds: Vec<AtHold>,
    /// How far out of balance it is on the way up, m: the moment about the line of action over the
    /// load that is due, the mean of all steps.
    pub(crate) sway_m: f64,
    /// Work of lifting every piece from the bed's height to its place, J.
    pub(crate) work_j: f64,
    pub(crate) boards: usize,
}

/// The stack when a hold is reached.
#[derive(Clone, Copy, Debug)]
pub(crate) struct AtHold {
    /// So many pieces lie.
    pub(crate) placed: usize,
    /// Line of action minus occupant point, m, floor frame.
    pub(crate) offset_m: [f64; 2],
    /// How far off it may be there, m.
    pub(crate) allowed_m: [f64; 2],
}

/// Judges a stack.
pub(crate) fn judge(task: &Task, stack: &[Put]) -> Judged {
    let lie = Lie::of(task, stack);
    let (steps, cuts) = walk_and_cuts(&task.floor_from_bed, &lie.bodies, &lie.carrying);
    let ours = || (0..stack.len()).filter(|index| !stack[*index].kept);
    let rests: Vec<Resting> = ours().map(|index| resting(task, &lie, index)).collect();
    let lone = rests.iter().map(|rest| rest.margin).fold(f64::INFINITY, f64::min);
    let soft = lie.soft_bound(task);
    let bonded = bonded(&lie.pile, &|index| task.stocks[stack[index].lot].form != Form::Board);
    let critical_about = lie.critical_about(&cuts, bonded);
    let Lie { bodies, pile, .. } = lie;
    let offset = |step: &Step| {
        [step.centroid_in_floor.x - task.target_in_floor.x, step.centroid_in_floor.y - task.target_in_floor.y]
    };
    let at_hold = |(kg, allowed_m): (&f64, &[f64; 2])| {
        let step = steps.iter().position(|step| step.mass_kg >= kg * (1.0 - 1e-9))?;
        Some(AtHold { placed: step + 1, offset_m: offset(&steps[step]), allowed_m: *allowed_m })
    };
    Judged {
        badly: rests.iter().filter(|rest| !rest.is_well).count() + overlapping(task, stack, &bodies, &pile),
        lacking_kg: task.lacking_kg(stack),
        beyond_kg: (Task::mass_kg(stack) - MOST_APPLIED * task.due_kg).max(0.0),
        put_on_after: task.put_on_after(stack),
        margin: steps.iter().map(|step| at_most(task, &step.least)).fold(lone.min(soft), f64::min),
        critical_about,
        is_borne: true,
        gives: None,
        tip: cuts.iter().map(|cut| cut.tip.multiplier).fold(AMPLE_TIP.min(soft), f64::min),
        bonded,
        offset_m: steps.last().map_or([0.0; 2], offset),
        at_holds: task.holds_kg.iter().zip(&task.holds_allowed_m).filter_map(at_hold).collect(),
        sway_m: sway_m(task, &steps, &offset),
        work_j: work_j(&bodies, &pile),
        boards: stack.iter().filter(|put| task.stocks[put.lot].form == Form::Board).count(),
        pile,
    }
}

/// Of the pieces that lie on pieces, boards left out, the share that lies on two or more: 0 where
/// all stand in columns. 1 where none lies on another.
pub(crate) fn bonded(pile: &Pile, is_load: &dyn Fn(usize) -> bool) -> f64 {
    let mut beneath = vec![0_u32; pile.layer.len()];
    for contact in &pile.contacts {
        if let Under::Body(lower) = contact.lower
            && is_load(lower)
        {
            beneath[contact.upper] += 1;
        }
    }
    let on_pieces = (0..beneath.len()).filter(|index| is_load(*index) && beneath[*index] > 0);
    let (mut all, mut in_bond) = (0.0, 0.0);
    for index in on_pieces {
        all += 1.0;
        in_bond += if beneath[index] > 1 { 1.0 } else { 0.0 };
    }
    if all > 0.0 { in_bond / all } else { 1.0 }
}

/// A reserve as a number: what was not decided counts as none, what falls as less than none.
pub(crate) fn reserve(decision: &Decision) -> f64 {
    match decision {
        Decision::Decided(reserve) => reserve.multiplier,
        Decision::NotLimited => f64::INFINITY,
        Decision::NotDecided { .. } => 0.0,
        Decision::Falls | Decision::Loose => -1.0,
    }
}

/// The same for a closed form, which does not decide what rests at two heights: just enough, until the whole stack is
/// solved. One that is decided is better.
fn at_most(task: &Task, closed: &Decision) -> f64 {
    match closed {
        Decision::NotDecided { .. } => task.plan.allow.collapse,
        decided => reserve(decided),
    }
}

/// Bags of ours that overlap a neighbour, if by less than makes them lie on it: nobody plans that.
fn overlapping(task: &Task, stack: &[Put], bodies: &[Body], pile: &Pile) -> usize {
    let squeezed = |beside: &&statics::Beside| {
        beside.overlap_m > task.grid_m / 2.0 && !(stack[beside.body].kept && stack[beside.neighbour].kept)
    };
    debug_assert_eq!(bodies.len(), pile.layer.len(), "a pile lists all its bodies");
    pile.beside.iter().filter(squeezed).count()
}

/// One bag at the left counts alike on the first course and on the last, as it should: what a
/// landing gear or a seat leg feels is the moment.
fn sway_m(task: &Task, steps: &[Step], offset: &dyn Fn(&Step) -> [f64; 2]) -> f64 {
    let moments = steps.iter().map(|step| step.mass_kg * offset(step)[0].hypot(offset(step)[1]));
    #[expect(clippy::cast_precision_loss, reason = "counts of pieces")]
    let count = steps.len().max(1) as f64;
    moments.sum::<f64>() / count / task.due_kg.max(1.0)
}

fn work_j(bodies: &[Body], pile: &Pile) -> f64 {
    let lift = |(index, body): (usize, &Body)| body.mass_kg * pile.centre(bodies, index).z.max(0.0);
    bodies.iter().enumerate().map(lift).sum::<f64>() * GRAVITY
}

impl Judged {
    /// Layers of the whole stack, boards among them.
    pub(crate) fn layers(&self) -> usize {
        self.pile.layer.iter().copied().max().unwrap_or(0)
    }

    /// Whether nothing that is known of it falls short: what a full assessment is not worth without.
    pub(crate) fn stands(&self, task: &Task) -> bool {
        let gives = self.gives.is_none_or(|gives| {
            gives.critical >= task.plan.allow.critical && gives.lean_m <= task.plan.allow.lean.si()
        });
        self.badly == 0
            && self.is_borne
            && self.put_on_after == 0
            && self.lacking_kg <= 0.0
            && self.beyond_kg <= 0.0
            && self.margin >= task.plan.allow.collapse
            && gives
    }

    /// All goals in their order: nothing lies badly and every closed form holds; the margin; what the
    /// offsets strain the tolerance; the tip margin where friction ends the first; the bond; few layers; the
    /// offset at ultimate and at the holds; the balance on the way; the work; the boards.
    pub(crate) fn worth(&self, task: &Task) -> Worth {
        self.goals(task, Steps { margin: 0.005, strain: 0.05, offset_m: 2e-4, work_j: 1.0 })
    }

    /// The same goals for a stack that local search has not seen yet: an offset of millimetres and what
    /// it strains the tolerance go away by themselves, and a margin is an upper bound that low stacks come
    /// near to and tall ones do not.
    pub(crate) fn worth_at_first(&self, task: &Task) -> Worth {
        self.goals(task, Steps { margin: 0.02, strain: 0.5, offset_m: 5e-3, work_j: 5.0 })
    }

    /// How far it falls short of what is asked, all together, as parts of each limit.
    #[expect(clippy::cast_precision_loss, reason = "counts of pieces")]
    pub(crate) fn falls_short_by(&self, task: &Task) -> f64 {
        let asked = task.plan.allow.collapse;
        100.0 * (self.lacking_kg + self.beyond_kg) / task.due_kg.max(1.0)
            + beyond(task, 1.0, self.offset_m)
            + self.at_holds.iter().map(|hold| past(hold.allowed_m, 1.0, hold.offset_m)).sum::<f64>()
            + ((asked - self.margin) / asked.max(1e-3)).clamp(0.0, 10.0)
            + if self.is_borne { 0.0 } else { NOT_BORNE }
            + self.put_on_after as f64
            + self.gives.map_or_else(|| self.too_slender(task), |gives| too_soft(task, gives))
    }

    #[expect(clippy::cast_precision_loss, reason = "counts of pieces")]
    fn goals(&self, task: &Task, steps: Steps) -> Worth {
        let (asked, short) = (task.plan.allow.collapse, self.falls_short_by(task));
        Worth([
            self.badly as f64,
            rounded(short, 1e-3),
            -rounded(self.margin.min(AMPLE_MARGIN * asked), steps.margin),
            rounded(self.strain(task), steps.strain),
            -rounded(self.margin.min(10.0), steps.margin),
            -rounded(self.tip.min(self.critical() / (AMPLE_CRITICAL * task.plan.allow.critical)), TIP_STEP),
            -rounded(self.bonded, BOND_STEP),
            self.layers() as f64,
            rounded(self.offset_cost_m(), steps.offset_m),
            rounded(self.sway_m, steps.offset_m),
            rounded(self.work_j, steps.work_j),
            self.boards as f64,
        ])
    }

    /// How many times its weight it would bear as its bags give: as solved, else about.
    fn critical(&self) -> f64 {
        self.gives.map_or(self.critical_about, |gives| gives.critical)
    }

    /// How far its critical load factor falls short, as far as the closed form tells.
    fn too_slender(&self, task: &Task) -> f64 {
        let required = task.plan.allow.critical.max(1e-3);
        ((required - self.critical_about) / required).max(0.0)
    }

    /// The offset first: for what keeps order and bonding. The margin counts as it was, up to what is
    /// comfortable.
    pub(crate) fn worth_of_offset(&self, task: &Task, margin_before: f64) -> Worth {
        let wanted = margin_before.min(1.25 * task.plan.allow.collapse);
        #[expect(clippy::cast_precision_loss, reason = "counts of pieces")]
        Worth([
            self.badly as f64,
            rounded((wanted - self.margin).max(0.0), 1e-3),
            rounded(self.offset_cost_m(), 2e-5),
            -rounded(self.margin.min(10.0), 0.005),
            rounded(self.sway_m, 2e-4),
            0.0,
            0.0,
            0.0,
            0.0,
            0.0,
            0.0,
            0.0,
        ])
    }

    /// How far the line of action passes a share of the tolerance, as a part of it, all together: at
    /// the end, which the pieces above the last hold can mend, and at the holds, where pieces of one
    /// course are told apart only by their order.
    pub(crate) fn strain(&self, task: &Task) -> f64 {
        let at_holds: f64 = self.at_holds.iter().map(|hold| beyond(task, AT_HOLDS, hold.offset_m)).sum();
        at_holds + beyond(task, AT_ULTIMATE, self.offset_m)
    }

    /// The offset at ultimate and, half as much, the mean of those at the holds, m.
    pub(crate) fn offset_cost_m(&self) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "counts of holds")]
        let mean = self.at_holds.iter().map(|hold| hold.offset_m[0].hypot(hold.offset_m[1])).sum::<f64>()
            / self.at_holds.len().max(1) as f64;
        self.offset_m[0].hypot(self.offset_m[1]) + 0.5 * mean
    }
}

/// How far a stack falls short as its bags give; a little where that would be a caution.
fn too_soft(task: &Task, gives: Gives) -> f64 {
    let (critical, lean_m) = (task.plan.allow.critical.max(1e-3), task.plan.allow.lean.si().max(1e-3));
    let short = ((critical - gives.critical) / critical).max(0.0) + (gives.lean_m / lean_m - 1.0).clamp(0.0, 1.0);
    let near =
        (LOOK_CRITICAL - gives.critical / critical).max(0.0) + (gives.lean_m / lean_m - LOOK_LEAN).clamp(0.0, 1.0);
    short + NEAR_SHARE * near
}

/// How far an offset passes a share of the tolerance, as a part of the tolerance.
fn beyond(task: &Task, share: f64, offset_m: [f64; 2]) -> f64 {
    past(task.plan.target.tolerance().map(quantity::Quantity::si), share, offset_m)
}

pub(crate) fn past(allowed_m: [f64; 2], share: f64, offset_m: [f64; 2]) -> f64 {
    [0, 1].iter().map(|axis| (offset_m[*axis].abs() / allowed_m[*axis].max(1e-3) - share).max(0.0)).sum()
}

/// To what the goals are rounded.
struct Steps {
    margin: f64,
    strain: f64,
    offset_m: f64,
    work_j: f64,
}

fn rounded(value: f64, step: f64) -> f64 {
    (value / step).round() * step
}

/// The pieces, among those before it, that a piece of the pile overlaps in plan: their order must
/// stay for every piece to lie as it does.
pub(crate) fn overlapped(bodies: &[Body], index: usize) -> Vec<usize> {
    let footprint = bodies[index].footprint();
    (0..index).filter(|lower| bodies[*lower].footprint().overlap(&footprint).is_some()).collect()
}

/// Whether two piles of the same pieces in the same order lie alike: the same things on the same
/// things.
pub(crate) fn alike(one: &Pile, other: &Pile) -> bool {
    let links = |pile: &Pile| pile.contacts.iter().map(|c| (c.upper, c.lower)).collect::<Vec<(usize, Under)>>();
    one.layer == other.layer && links(one) == links(other)
}
