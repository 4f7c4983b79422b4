//! The one door through which a plan changes: a closed set of named edits.
//!
//! An edit makes a new plan and leaves the old one alone, so that undo is keeping the old one.
//! An edit that would make the plan unusable is refused with the fault's sentence.

mod case;
mod part;
mod weigh;

pub use case::CaseEdit;
pub use part::Part;

use crate::{Align, Fault, Lot, Path, Place, Plan, Target, faults};
use quantity::{Angle, Grain, Length, Mass, Quantity};

/// A named change of a plan. Steps count from 0, in placing order.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Puts pieces down, from this step on.
    Add {
        /// Why, for the edit's name.
        adding: Adding,
        /// The step of the first of them.
        at_step: usize,
        /// The pieces.
        places: Vec<Place>,
    },
    /// Moves pieces along the bed's x and y.
    Move {
        /// Which.
        steps: Vec<usize>,
        /// By how much.
        by: [Length; 2],
    },
    /// Puts the centre of a piece at a place of the bed.
    PutAt {
        /// Which.
        step: usize,
        /// Where, bed frame.
        at: [Length; 2],
    },
    /// Turns pieces from lengthwise to crosswise and back.
    Turn {
        /// Which.
        steps: Vec<usize>,
    },
    /// Takes pieces off the plan.
    Remove {
        /// Which.
        steps: Vec<usize>,
    },
    /// Puts pieces in line, or spreads them.
    Align {
        /// Which.
        steps: Vec<usize>,
        /// How.
        how: Align,
    },
    /// Takes pieces of another plan in, with the lots that this one lacks.
    Paste {
        /// The step of the first of them.
        at_step: usize,
        /// The lots.
        lots: Vec<Lot>,
        /// The pieces.
        places: Vec<Place>,
    },
    /// Places several pieces one after the other, in their order, earlier or later than now.
    Gather {
        /// Their steps now.
        steps: Vec<usize>,
        /// The step of the first of them afterwards.
        to: usize,
    },
    /// Places a piece earlier or later.
    Reorder {
        /// Its step now.
        from: usize,
        /// Its step afterwards.
        to: usize,
    },
    /// Locks pieces where they are, or frees them.
    Lock {
        /// Which.
        steps: Vec<usize>,
        /// Locked or free.
        locked: bool,
    },
    /// Takes another item of the same lot for a placement.
    Exchange {
        /// Which.
        step: usize,
        /// The item that is used instead.
        item: u32,
    },
    /// Lays the whole stack anew.
    Restack {
        /// Why, for the edit's name.
        why: Restacking,
        /// The pieces in placing order.
        places: Vec<Place>,
    },
    /// Gives a lot another name, at its pieces too.
    RenameLot {
        /// Which, from 0.
        index: usize,
        /// The new name.
        name: String,
    },
    /// Notes what items of a lot weigh; none: that one was not weighed after all.
    Weigh {
        /// The lot.
        lot: String,
        /// Items with their masses.
        masses: Vec<(u32, Option<Mass>)>,
    },
    /// Gives a load case another name, and keeps it in hand if it was.
    RenameCase {
        /// Which, from 0.
        index: usize,
        /// The new name.
        name: String,
    },
    /// Puts a new target in force; the one that was is kept beside it.
    NewTarget {
        /// The new one.
        target: Box<Target>,
    },
    /// Puts one of the other targets in force; the one that was takes its place.
    UseTarget {
        /// Which, from 0.
        index: usize,
    },
    /// Changes the list of load cases.
    Case(CaseEdit),
    /// Pitches the article, nose-up positive.
    Pitch {
        /// Its pitch afterwards.
        to: Angle,
    },
    /// Sets mass and centroid of the article to what its weighings tell.
    TakeWeighings {
        /// Its mass.
        mass: Mass,
        /// Its centroid, article frame.
        centroid: [Length; 3],
    },
    /// Changes a part of the plan on the drawing.
    Draw {
        /// The part with its new value.
        part: Box<Part>,
        /// What was done, the edit's whole name: `move left scale`.
        doing: String,
    },
    /// Sets a part of the plan.
    Set {
        /// The part with its new value.
        part: Box<Part>,
        /// What changed, for the edit's name: `article mass`.
        what: String,
    },
}

/// Why pieces are added.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Adding {
    /// Put down from the tray.
    Placing,
    /// Again, of the same lot.
    Duplicating,
    /// Again, on the other side of the centreline.
    Mirroring,
    /// A whole layer again, on top.
    CopyingLayer,
}

/// Why a whole stack is laid anew.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Restacking {
    /// As the program proposes it.
    Proposing,
    /// The same places in another order.
    Ordering,
    /// Layers shifted and pieces exchanged, so that the offset vanishes.
    Trimming,
}

impl Edit {
    /// A part set to a new value, with what changed in words.
    pub fn set(part: Part, what: impl Into<String>) -> Self {
        Edit::Set { part: Box::new(part), what: what.into() }
    }

    /// A part changed on the drawing, with what was done: `move left scale`.
    pub fn draw(part: Part, doing: impl Into<String>) -> Self {
        Edit::Draw { part: Box::new(part), doing: doing.into() }
    }

    /// What undo would say, told of the plan before the edit: `move shot bag 3`.
    pub fn name(&self, before: &Plan) -> String {
        match self {
            Edit::Add { adding, places, .. } => {
                let verb = match adding {
                    Adding::Placing => "place",
                    Adding::Duplicating => "duplicate as",
                    Adding::Mirroring => "mirror as",
                    Adding::CopyingLayer => "copy a layer up as",
                };
                format!("{verb} {}", named(places))
            }
            Edit::Paste { places, .. } => format!("paste {}", named(places)),
            Edit::Align { steps, how } => format!("{}: {}", how.words(), pieces(before, steps)),
            Edit::Gather { steps, to } => {
                let earlier = steps.first().is_none_or(|first| to < first);
                format!("place {} {}", pieces(before, steps), if earlier { "earlier" } else { "later" })
            }
            Edit::Move { steps, .. } => format!("move {}", pieces(before, steps)),
            Edit::PutAt { step, .. } => format!("move {}", before.piece_name(*step)),
            Edit::Turn { steps } => format!("turn {}", pieces(before, steps)),
            Edit::Remove { steps } => format!("take off {}", pieces(before, steps)),
            Edit::Reorder { from, to } if to < from => format!("place {} earlier", before.piece_name(*from)),
            Edit::Reorder { from, .. } => format!("place {} later", before.piece_name(*from)),
            Edit::Lock { steps, locked: true } => format!("lock {}", pieces(before, steps)),
            Edit::Lock { steps, .. } => format!("unlock {}", pieces(before, steps)),
            Edit::Exchange { step, item } => format!("use item {item} for {}", before.piece_name(*step)),
            Edit::Restack { why: Restacking::Proposing, .. } => "lay the proposed stack".to_owned(),
            Edit::Restack { why: Restacking::Ordering, .. } => "order the stack".to_owned(),
            Edit::Restack { why: Restacking::Trimming, .. } => "center the stack".to_owned(),
            Edit::RenameLot { name, .. } => format!("rename lot to {name}"),
            Edit::Weigh { lot, masses } => weigh::name(lot, masses),
            Edit::RenameCase { name, .. } => format!("rename load case to {name}"),
            Edit::NewTarget { target } => format!("take the occupant point from a {}", target.kind()),
            Edit::UseTarget { index } => {
                let kind = before.other_targets.get(*index).map_or("none", Target::kind);
                format!("take the occupant point from the {kind}")
            }
            Edit::Case(edit) => edit.name(before),
            Edit::Pitch { to } => format!("pitch the article to {}", to.shown(before.units, Grain::Coarse)),
            Edit::TakeWeighings { .. } => "take mass and centroid from the weighings".to_owned(),
            Edit::Draw { doing, .. } => doing.clone(),
            Edit::Set { what, .. } => format!("change {what}"),
        }
    }

    /// The plan after the edit.
    ///
    /// # Errors
    /// The first fault that the plan would have, with its sentence; the old plan stays in force.
    pub fn apply(&self, before: &Plan) -> Result<Plan, Fault> {
        let mut plan = before.clone();
        self.check_steps(before)?;
        self.change(&mut plan);
        match faults(&plan).into_iter().next() {
            Some(fault) => Err(fault),
            None => Ok(plan),
        }
    }

    fn check_steps(&self, before: &Plan) -> Result<(), Fault> {
        let count = before.stack.len();
        let beyond = match self {
            Edit::Add { at_step, .. } | Edit::Paste { at_step, .. } => *at_step > count,
            Edit::PutAt { step, .. } | Edit::Exchange { step, .. } => *step >= count,
            Edit::Reorder { from, to } => *from >= count || *to >= count,
            Edit::Gather { steps, to } => to + steps.len() > count || steps.iter().any(|s| *s >= count),
            Edit::Move { steps, .. }
            | Edit::Align { steps, .. }
            | Edit::Turn { steps }
            | Edit::Remove { steps }
            | Edit::Lock { steps, .. } => steps.iter().any(|s| *s >= count),
            Edit::Restack { .. }
            | Edit::RenameLot { .. }
            | Edit::RenameCase { .. }
            | Edit::NewTarget { .. }
            | Edit::UseTarget { .. }
            | Edit::Case(_)
            | Edit::Pitch { .. }
            | Edit::Weigh { .. }
            | Edit::TakeWeighings { .. }
            | Edit::Draw { .. }
            | Edit::Set { .. } => false,
        };
        let sentence = format!("the stack has {count} steps, and the edit names one beyond them");
        if beyond { Err(Fault { path: Path::of("stack"), sentence }) } else { Ok(()) }
    }

    fn change(&self, plan: &mut Plan) {
        match self {
            Edit::Add { at_step, places, .. } => {
                plan.stack.splice(at_step..at_step, places.iter().cloned());
            }
            Edit::Move { steps, by } => each(plan, steps, |place| {
                place.at = [place.at[0] + by[0], place.at[1] + by[1]];
            }),
            Edit::PutAt { step, at } => each(plan, &[*step], |place| place.at = *at),
            Edit::Align { steps, how } => how.change(plan, steps),
            Edit::Paste { at_step, lots, places } => {
                plan.ballast.extend(lots.iter().cloned());
                plan.stack.splice(at_step..at_step, places.iter().cloned());
            }
            Edit::Gather { steps, to } => gather(plan, steps, *to),
            Edit::Turn { steps } => each(plan, steps, |place| place.turn = place.turn.other()),
            Edit::Remove { steps } => remove(plan, steps),
            Edit::Reorder { from, to } => {
                let place = plan.stack.remove(*from);
                plan.stack.insert(*to, place);
            }
            Edit::Lock { steps, locked } => each(plan, steps, |place| place.locked = *locked),
            Edit::Exchange { step, item } => each(plan, &[*step], |place| place.item = *item),
            Edit::Restack { why, places } => restack(plan, *why, places),
            Edit::RenameLot { index, name } => rename_lot(plan, *index, name),
            Edit::Weigh { lot, masses } => weigh::change(plan, lot, masses),
            Edit::RenameCase { index, name } => rename_case(plan, *index, name),
            Edit::NewTarget { target } => {
                let before = std::mem::replace(&mut plan.target, target.as_ref().clone());
                plan.other_targets.push(before);
            }
            Edit::UseTarget { index } => {
                if let Some(other) = plan.other_targets.get_mut(*index) {
                    std::mem::swap(&mut plan.target, other);
                }
            }
            Edit::Case(edit) => edit.change(plan),
            Edit::Pitch { to } => plan.article.pitch = *to,
            Edit::TakeWeighings { mass, centroid } => {
                (plan.article.mass, plan.article.centroid) = (*mass, *centroid);
            }
            Edit::Draw { part, .. } | Edit::Set { part, .. } => part.as_ref().clone().enter(plan),
        }
    }
}

/// In a stack laid anew the old step of a binding strap means nothing: it would go on under pieces that
/// are still to come. It goes on when all lie.
fn restack(plan: &mut Plan, why: Restacking, places: &[Place]) {
    plan.stack = places.to_vec();
    if why == Restacking::Proposing {
        let last = u32::try_from(places.len()).unwrap_or(u32::MAX);
        plan.fixture.bindings.iter_mut().for_each(|strap| strap.after = last);
    }
}

fn gather(plan: &mut Plan, steps: &[usize], to: usize) {
    let mut steps = steps.to_vec();
    steps.sort_unstable();
    steps.dedup();
    let moved: Vec<Place> = steps.iter().map(|step| plan.stack[*step].clone()).collect();
    remove(plan, &steps);
    plan.stack.splice(to..to, moved);
}

fn named(places: &[Place]) -> String {
    let names: Vec<_> = places.iter().map(|p| format!("{} {}", p.lot, p.item)).collect();
    several(&names)
}

fn pieces(plan: &Plan, steps: &[usize]) -> String {
    let names: Vec<_> = steps.iter().map(|s| plan.piece_name(*s)).collect();
    several(&names)
}

fn several(names: &[String]) -> String {
    match names {
        [] => "nothing".to_owned(),
        [one] => one.clone(),
        [one, others @ ..] => format!("{one} and {} more", others.len()),
    }
}

fn each(plan: &mut Plan, steps: &[usize], change: impl Fn(&mut Place)) {
    for step in steps {
        if let Some(place) = plan.stack.get_mut(*step) {
            change(place);
        }
    }
}

fn remove(plan: &mut Plan, steps: &[usize]) {
    let mut step = 0;
    plan.stack.retain(|_| {
        step += 1;
        !steps.contains(&(step - 1))
    });
}

fn rename_lot(plan: &mut Plan, index: usize, name: &str) {
    let Some(lot) = plan.ballast.get_mut(index) else { return };
    let old = std::mem::replace(&mut lot.name, name.to_owned());
    for place in plan.stack.iter_mut().filter(|p| p.lot == old) {
        name.clone_into(&mut place.lot);
    }
}

fn rename_case(plan: &mut Plan, index: usize, name: &str) {
    let Some(case) = plan.load_cases.get_mut(index) else { return };
    let old = std::mem::replace(&mut case.name, name.to_owned());
    if plan.case == old {
        name.clone_into(&mut plan.case);
    }
}
