//! Local search: a stack is changed a little, judged, and the change kept if it is worth more.

use crate::fewest::put_at;
use crate::judge::{AtHold, Judged, Worth, alike, judge, overlapped};
use crate::task::{Put, Task};
use fastrand::Rng;
use statics::Pile;

/// What may be changed, and to what end.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Aim<'a> {
    /// Everything; all goals in their order.
    Whole,
    /// The order alone; places stay.
    Order,
    /// Layers shift and items change places until the offset vanishes; order and bonding stay as in
    /// this pile, whose margin was this.
    Offset {
        /// How the pieces lay before.
        pile: &'a Pile,
        /// Their least reserve then.
        margin: f64,
    },
}

impl Aim<'_> {
    fn worth(&self, task: &Task, judged: &Judged) -> Worth {
        match self {
            Aim::Whole | Aim::Order => judged.worth(task),
            Aim::Offset { margin, .. } => judged.worth_of_offset(task, *margin),
        }
    }

    fn allows(&self, judged: &Judged) -> bool {
        match self {
            Aim::Whole | Aim::Order => true,
            Aim::Offset { pile, .. } => alike(pile, &judged.pile),
        }
    }
}

/// The farthest a random shift goes, steps of the grid.
const FARTHEST: i32 = 12;

/// A stack on its way to a better one.
pub(crate) struct Search<'t, 'p, 'a> {
    pub(crate) task: &'t Task<'p>,
    aim: Aim<'a>,
    pub(crate) stack: Vec<Put>,
    pub(crate) judged: Judged,
    worth: Worth,
}

impl<'t, 'p, 'a> Search<'t, 'p, 'a> {
    pub(crate) fn new(task: &'t Task<'p>, stack: Vec<Put>, aim: Aim<'a>) -> Self {
        let judged = judge(task, &stack);
        let worth = aim.worth(task, &judged);
        Self { task, aim, stack, judged, worth }
    }

    /// Tries so many random changes after those that follow from the offset itself; `go_on` is asked
    /// before each. The same random numbers give the same stack.
    pub(crate) fn run(mut self, rounds: usize, random: &mut Rng, go_on: &dyn Fn() -> bool) -> Self {
        if !matches!(self.aim, Aim::Order) {
            self.draw_over_the_line();
        }
        for _ in 0..rounds {
            if self.stack.is_empty() || !go_on() {
                break;
            }
            let changed = self.changed(random);
            self.take_if_better(changed);
        }
        if !matches!(self.aim, Aim::Order) {
            self.draw_over_the_line();
        }
        if matches!(self.aim, Aim::Whole) && rounds > 0 {
            self.draw_to_holds(go_on);
        }
        self
    }

    pub(crate) fn take_if_better(&mut self, changed: Option<Vec<Put>>) -> bool {
        let Some(stack) = changed else { return false };
        let judged = judge(self.task, &stack);
        let worth = self.aim.worth(self.task, &judged);
        let is_better = worth < self.worth && self.aim.allows(&judged);
        if is_better {
            (self.stack, self.judged, self.worth) = (stack, judged, worth);
        }
        is_better
    }

    /// The whole stack shifted once by what makes the offset vanish, if that makes it better.
    pub(crate) fn shifted_once(mut self) -> Self {
        let changed = self.shifted(1..=self.judged.layers(), self.shift_that_centres(1));
        self.take_if_better(changed);
        self
    }

    /// Shifts all from a layer up by what makes the offset vanish, for each layer in turn, from the
    /// whole stack to the topmost layer, whose shift is the coarsest and whose effect the finest.
    fn draw_over_the_line(&mut self) {
        for part in [1.0, 0.5, 1.0] {
            let layers = self.judged.pile.layer.iter().copied().max().unwrap_or(0);
            for layer in 1..=layers {
                let [x, y] = self.shift_that_centres(layer);
                let changed = self.shifted(layer..=layers, [part * x, part * y]);
                self.take_if_better(changed);
            }
        }
    }

    fn shift_that_centres(&self, from_layer: usize) -> [f64; 2] {
        let moved: f64 = self.movable(from_layer..=usize::MAX).map(|index| self.stack[index].item.mass_kg).sum();
        let ratio = Task::mass_kg(&self.stack) / moved.max(f64::MIN_POSITIVE);
        self.task.in_bed(self.judged.offset_m.map(|off| -off * ratio))
    }

    pub(crate) fn movable(&self, layers: std::ops::RangeInclusive<usize>) -> impl Iterator<Item = usize> {
        (0..self.stack.len())
            .filter(move |index| !self.stack[*index].kept && layers.contains(&self.judged.pile.layer[*index]))
    }

    pub(crate) fn shifted(&self, layers: std::ops::RangeInclusive<usize>, by_m: [f64; 2]) -> Option<Vec<Put>> {
        let by = self.task.on_grid(by_m);
        if by.iter().all(|m| m.abs() < self.task.grid_m / 2.0) || by.iter().any(|m| !m.is_finite() || m.abs() > 1.0) {
            return None;
        }
        Some(self.shifted_from(self.stack.clone(), layers, by))
    }

    /// The same places in these layers shifted in another stack of the same pieces.
    pub(crate) fn shifted_from(
        &self,
        mut stack: Vec<Put>,
        layers: std::ops::RangeInclusive<usize>,
        by_m: [f64; 2],
    ) -> Vec<Put> {
        let by = self.task.on_grid(by_m);
        for index in self.movable(layers) {
            let at = stack[index].at_m;
            stack[index].at_m = [at[0] + by[0], at[1] + by[1]];
        }
        stack
    }

    fn changed(&self, random: &mut Rng) -> Option<Vec<Put>> {
        match (self.aim, random.u32(0..10)) {
            (Aim::Order, 0..=4) | (Aim::Whole, 0..=1) => self.placed_elsewhere_in_order(random),
            (Aim::Order, _) | (Aim::Whole, 2..=3) => self.in_turn(random),
            (Aim::Whole, 4) => self.moved(random),
            (_, 0..=6) => self.swapped(random),
            (_, 7..=8) => self.shifted_a_little(random),
            _ => self.drawn_at_a_hold(random),
        }
    }

    /// A few layers by a few steps of the grid.
    fn shifted_a_little(&self, random: &mut Rng) -> Option<Vec<Put>> {
        let layers = self.judged.pile.layer.iter().copied().max()?;
        let first = random.usize(1..=layers);
        let last = if random.bool() { layers } else { random.usize(first..=layers) };
        let mut step = || f64::from(random.i32(-FARTHEST..=FARTHEST)) * self.task.grid_m;
        self.shifted(first..=last, [step(), step()])
    }

    /// A few layers by what brings the line of action at a hold over the occupant point.
    fn drawn_at_a_hold(&self, random: &mut Rng) -> Option<Vec<Put>> {
        let holds = self.judged.at_holds.len();
        let AtHold { placed, offset_m, .. } = *self.judged.at_holds.get(random.usize(0..holds.max(1)))?;
        let layer = &self.judged.pile.layer;
        let last = layer[..placed].iter().copied().max()?;
        let layers = random.usize(1..=last)..=last;
        let moved = self.movable(layers.clone()).filter(|index| *index < placed);
        let moved_kg: f64 = moved.map(|index| self.stack[index].item.mass_kg).sum();
        let ratio = Task::mass_kg(&self.stack[..placed]) / moved_kg.max(f64::MIN_POSITIVE);
        self.shifted(layers, self.task.in_bed(offset_m.map(|off| -off * ratio)))
    }

    /// One piece that carries nothing, by a few steps of the grid.
    fn moved(&self, random: &mut Rng) -> Option<Vec<Put>> {
        let index = random.usize(0..self.stack.len());
        let carries = |lower: usize| self.judged.pile.contacts.iter().any(|c| c.lower == statics::Under::Body(lower));
        if self.stack[index].kept || carries(index) {
            return None;
        }
        let mut step = || f64::from(random.i32(-FARTHEST..=FARTHEST)) * self.task.grid_m;
        let mut stack = self.stack.clone();
        let at = stack[index].at_m;
        stack[index].at_m = self.task.on_grid([at[0] + step(), at[1] + step()]);
        Some(stack)
    }

    /// Two weighed pieces of a lot change places; or one gives way to an item that lies idle.
    fn swapped(&self, random: &mut Rng) -> Option<Vec<Put>> {
        let (one, other) = (random.usize(0..self.stack.len()), random.usize(0..self.stack.len()));
        let (a, b) = (self.stack[one], self.stack[other]);
        let is_alike = (a.item.mass_kg - b.item.mass_kg).abs() < 1e-9;
        let mut stack = self.stack.clone();
        if a.kept || b.kept || a.lot != b.lot || is_alike {
            return None;
        }
        (stack[one].item, stack[other].item) = (b.item, a.item);
        Some(stack)
    }

    /// Two steps of those whose order is free: what is kept lies there before all else.
    fn two_in_order(&self, random: &mut Rng) -> Option<[usize; 2]> {
        let first = if matches!(self.aim, Aim::Whole) { self.task.kept.len() } else { 0 };
        let mut one = || random.usize(first..self.stack.len());
        (first < self.stack.len()).then(|| [one(), one()])
    }

    /// Two pieces of a layer are laid each in the other's turn.
    fn in_turn(&self, random: &mut Rng) -> Option<Vec<Put>> {
        let [one, other] = self.two_in_order(random)?;
        let layer = &self.judged.pile.layer;
        let (first, last) = (one.min(other), one.max(other));
        if first == last || layer[first] != layer[last] {
            return None;
        }
        // What lies between them in the order and meets either of them would come to lie otherwise.
        let footprint = |index: usize| self.task.body(&self.stack[index]).footprint();
        let meets = |index: usize, between: usize| footprint(index).overlap(&footprint(between)).is_some();
        if (first + 1..last).any(|between| meets(first, between) || meets(last, between)) {
            return None;
        }
        let mut stack = self.stack.clone();
        stack.swap(first, last);
        Some(stack)
    }

    /// A piece comes earlier or later, as far as what lies on what allows.
    fn placed_elsewhere_in_order(&self, random: &mut Rng) -> Option<Vec<Put>> {
        let [from, to] = self.two_in_order(random)?;
        put_at(self.task, &self.stack, from, to)
    }
}

/// The pieces in the order that is steadiest at every step: greedily, layer by layer, the piece that
/// leaves the greatest margin, then the least offset. What overlaps keeps its order, so that
/// every piece lies as it did.
pub(crate) fn reordered(task: &Task, stack: &[Put], go_on: &dyn Fn() -> bool) -> Vec<Put> {
    let bodies = task.bodies(stack);
    let before: Vec<Vec<usize>> = (0..stack.len()).map(|index| overlapped(&bodies, index)).collect();
    let layer = statics::settle(&task.bed, &bodies).layer;
    let (mut done, mut ordered) = (vec![false; stack.len()], Vec::<Put>::new());
    while ordered.len() < stack.len() {
        let is_next = |index: &usize| !done[*index] && before[*index].iter().all(|lower| done[*lower]);
        let ready: Vec<usize> = (0..stack.len()).filter(is_next).collect();
        let lowest = ready.iter().map(|index| layer[*index]).min().unwrap_or(0);
        let ready = ready.into_iter().filter(|index| layer[*index] == lowest);
        let cost = |index: usize| {
            let tried = [ordered.as_slice(), &[stack[index]]].concat();
            let judged = judge(task, &tried);
            let margin = (judged.margin.min(10.0) / 0.02).floor();
            (-margin, judged.offset_m[0].hypot(judged.offset_m[1]))
        };
        let costs = ready.map(|index| (cost(index), index));
        let Some((_, next)) = costs.reduce(|a, b| if b.0 < a.0 { b } else { a }).filter(|_| go_on()) else {
            return stack.to_vec();
        };
        done[next] = true;
        ordered.push(stack[next]);
    }
    ordered
}
