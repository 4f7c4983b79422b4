//! How a stack lies: where each piece comes to rest, what of each contact carries, and how its bags give.

use crate::task::{Put, Task};
use quantity::STANDARD_GRAVITY_M_S2 as GRAVITY;
use statics::equilibrium::Stack;
use statics::soft::{self, PushEnd, SoftEnd, SoftStack, Softness};
use statics::{Body, Contact, CutMargin, Pile, Under, settle};

/// From this share in bond on a stack leans as one. `common practice, no source`: the figure is our own choice.
const HELD_TOGETHER: f64 = 0.3;

/// A stack at rest on the bed.
pub(crate) struct Lie {
    pub(crate) bodies: Vec<Body>,
    pub(crate) pile: Pile,
    /// The same pile on what carries: the rim of a bag carries nothing.
    pub(crate) carrying: Pile,
    softness: Vec<Softness>,
}

/// How a stack gives: of the states that were looked at the worst.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Gives {
    /// How many times its weight it would bear before it leans over by itself; 0 where it falls or where that
    /// is not decided.
    pub(crate) critical: f64,
    /// The greatest level shift of a piece, m; infinite where that is not known.
    pub(crate) lean_m: f64,
}

impl Gives {
    /// Nothing gives.
    const NOT: Self = Self { critical: f64::INFINITY, lean_m: 0.0 };

    fn of(end: &SoftEnd) -> Self {
        match end {
            SoftEnd::Stands(rest) => Self { critical: rest.critical, lean_m: rest.lean_m },
            _ => Self { critical: 0.0, lean_m: f64::INFINITY },
        }
    }

    fn worse(self, other: Self) -> Self {
        Self { critical: self.critical.min(other.critical), lean_m: self.lean_m.max(other.lean_m) }
    }
}

impl Lie {
    /// Lets a stack come to rest.
    pub(crate) fn of(task: &Task, stack: &[Put]) -> Self {
        let bodies = task.bodies(stack);
        let pile = settle(&task.bed, &bodies);
        let softness: Vec<Softness> = stack.iter().map(|put| task.stocks[put.lot].softness).collect();
        let carrying = soft::flats(&given(task, (&bodies, &pile), &softness));
        Self { bodies, pile, carrying, softness }
    }

    fn given<'l>(&'l self, task: &'l Task) -> SoftStack<'l> {
        given(task, (&self.bodies, &self.pile), &self.softness)
    }

    /// The push that the finished stack bears at the most as its bags give, as a part of its weight; closed form,
    /// from above.
    pub(crate) fn soft_bound(&self, task: &Task) -> f64 {
        self.soft_bound_at(task, self.bodies.len())
    }

    fn soft_bound_at(&self, task: &Task, placed: usize) -> f64 {
        match placed {
            0 => f64::INFINITY,
            _ if !self.has_bags() => f64::INFINITY,
            _ => soft::bound(&self.given(task), placed).map_or(f64::INFINITY, |push| push.multiplier),
        }
    }

    /// About how many times its weight the finished stack would bear before it leans over by itself: 1/L is the sum
    /// over the layers of W h / k, the weight above the layer, the height of its centroid, and the stiffness of the
    /// layer's beds against a turn about the weaker axis. Infinite: no bag.
    ///
    /// Good for stacks in bond, where each layer's beds count as one. Where hardly a piece lies on two, the columns lean each
    /// by itself, and each bed counts by itself; between the two the share in bond decides. It leads the search and decides nothing. Source: `own derivation` (each layer alone is the block of
    /// `soft-bag-defaults`; their shares added up).
    pub(crate) fn critical_about(&self, cuts: &[CutMargin], bonded: f64) -> f64 {
        let held_together = (bonded / HELD_TOGETHER).min(1.0);
        let shares = cuts.iter().map(|cut| {
            let (weight_n, height_m) = (cut.mass_kg * GRAVITY, cut.edge_m / cut.tip.multiplier);
            let turn = self.stiffness_against_turns(cut.layer, held_together);
            let share =
                |stiffness: f64| if height_m.is_finite() { weight_n * height_m.max(0.0) / stiffness } else { 0.0 };
            turn.map(share)
        });
        let [about_y, about_x] = shares.fold([0.0; 2], |sum, share| [sum[0] + share[0], sum[1] + share[1]]);
        about_y.max(about_x).recip()
    }

    /// What the beds that cross into a layer from below offer against a turn of all above: along x, along y, N m/rad. Each
    /// bed by itself, and as much of what they offer together as the share that is held together.
    fn stiffness_against_turns(&self, layer: usize, held_together: f64) -> [f64; 2] {
        let crosses = |contact: &&Contact| {
            self.carrying.layer[contact.upper] >= layer && self.carrying.layer_under(contact) < layer
        };
        let crossing: Vec<(f64, &Contact)> =
            self.carrying.contacts.iter().filter(crosses).map(|contact| (self.stiffness(contact), contact)).collect();
        let whole: f64 = crossing.iter().map(|(stiffness, contact)| stiffness * contact.patch.area()).sum();
        [0, 1].map(|axis| {
            let ends = |contact: &Contact| if axis == 0 { contact.patch.x_m } else { contact.patch.y_m };
            let moment = |(stiffness, contact): &(f64, &Contact)| {
                let [from, to] = ends(contact);
                let force = stiffness * contact.patch.area();
                let middle = 0.5 * (from + to);
                [force * middle, force * middle * middle, force * (to - from) * (to - from) / 12.0]
            };
            let [first, second, alone] = crossing
                .iter()
                .map(moment)
                .fold([0.0; 3], |sum, part| [sum[0] + part[0], sum[1] + part[1], sum[2] + part[2]]);
            let together = (second - first * first / whole.max(f64::MIN_POSITIVE)).max(0.0);
            (alone + held_together * together).max(f64::MIN_POSITIVE)
        })
    }

    /// Stiffness of a bed, N/m3: half of the piece above and half of the piece below in a row.
    fn stiffness(&self, contact: &Contact) -> f64 {
        let half = |body: usize| 0.5 * self.softness[body].compliance_m3_per_n;
        let below = if let Under::Body(lower) = contact.lower { half(lower) } else { 0.0 };
        (half(contact.upper) + below).recip().min(soft::STIFFEST_N_PER_M3)
    }

    /// Whether a bag is in it: of hard pieces alone nobody asks how they give, the assessment neither.
    fn has_bags(&self) -> bool {
        self.bodies.iter().any(|body| body.soft)
    }

    /// How the finished stack gives.
    pub(crate) fn gives_at_last(&self, task: &Task) -> Gives {
        if !self.has_bags() {
            return Gives::NOT;
        }
        Gives::of(&soft::at_rest(&self.given(task), self.bodies.len()).end)
    }

    /// Whether it bears a push (part of its weight) whichever way it points after every step, as its bags give.
    pub(crate) fn bears(&self, task: &Task, push: f64, go_on: &dyn Fn() -> bool) -> bool {
        let steps: Vec<usize> = (1..=self.bodies.len()).collect();
        let bears = || soft::bears(&self.given(task), &steps, push, &|_| go_on());
        !self.has_bags() || bears().iter().all(|bears| *bears == Some(true))
    }

    /// How it gives at the worst of all steps, and the push that it bears at the two steps where that is likely the
    /// least, as a part of its weight: where the critical load factor is least, and where the closed form is.
    /// Told to stop, it counts what is left as falling.
    pub(crate) fn gives_on_the_way(&self, task: &Task, go_on: &dyn Fn() -> bool) -> (Gives, f64) {
        if !self.has_bags() {
            return (Gives::NOT, f64::INFINITY);
        }
        let given = self.given(task);
        let steps = soft::every_step(&given, &|_| go_on());
        let gives = steps.iter().map(|step| Gives::of(&step.end)).fold(Gives::NOT, Gives::worse);
        if gives.critical < task.plan.allow.critical {
            return (gives, 0.0);
        }
        let bound = |placed: &usize| self.soft_bound_at(task, *placed);
        let by_bound = (1..=steps.len()).min_by(|a, b| bound(a).total_cmp(&bound(b)));
        let mut asked: Vec<usize> = soft::weakest(&steps, 1).into_iter().chain(by_bound).collect();
        asked.dedup();
        let pushed = soft::push_limits(&given, &asked, &|_| go_on());
        let push = |end: PushEnd| end.push().map_or(0.0, |push| push.multiplier);
        (gives, pushed.iter().map(|step| push(step.end)).fold(f64::INFINITY, f64::min))
    }
}

fn given<'l>(task: &'l Task, (bodies, pile): (&'l [Body], &'l Pile), pieces: &'l [Softness]) -> SoftStack<'l> {
    SoftStack::new(Stack { floor_from_bed: &task.floor_from_bed, bodies, pile, dead: &[] }, pieces)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::task::Item;
    use plan::Turn;

    /// So many columns of bags beside one another on a wide bearing, so many high.
    fn columns(count: u32, high: u32) -> f64 {
        let mut plan =
            plan::file::read(include_str!("../benches/seats/hundred-bags-of-one-lot.ron")).expect("a seat is a plan");
        plan.stack.clear();
        let task = Task::of(&plan);
        let put = |number: u32| Put {
            lot: 0,
            item: Item { number, mass_kg: 6.0, sd_kg: 0.0 },
            at_m: [0.2, -0.2 + 0.2 * f64::from(number % count)],
            turn: Turn::Lengthwise,
            locked: false,
            kept: false,
        };
        let stack: Vec<Put> = (0..count * high).map(put).collect();
        crate::judge::judge(&task, &stack).critical_about
    }

    #[test]
    fn columns_side_by_side_lean_each_by_itself() {
        // Nothing ties them, so that three bear no more than one does: as many times their own weight.
        let (one, three) = (columns(1, 8), columns(3, 8));
        assert!((three / one - 1.0).abs() < 1e-9, "one {one}, three {three} times their weight");
        let low = columns(1, 4);
        assert!(low > 2.0 * one, "half as high: got {low}, twice as high {one} times the weight");
    }
}
