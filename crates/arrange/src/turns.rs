//! Layers by turns: a layer is finished before the next is begun, so that whoever lays the pieces makes fewer mistakes; where
//! a hold or the reserve on the way asks for another order, it is told why.

use crate::judge::{AtHold, Judged, judge, past};
use crate::task::{Put, Task};
use plan::Hold;
use quantity::{Grain, Length, Quantity};

/// A reserve that is less by no more than this is as good.
const AS_GOOD: f64 = 0.001;
/// What strains the tolerance by no more than this part of it is as good.
const AS_STRAINED: f64 = 0.05;

/// The same with each layer finished before the next is begun, where it does as well; else with as much of that as leaves
/// what lies at every hold.
pub(crate) fn layer_by_layer(task: &Task, stack: Vec<Put>, judged: Judged) -> (Vec<Put>, Judged) {
    let kept = task.kept.len();
    let holds: Vec<usize> = judged.at_holds.iter().map(|hold| hold.placed.max(kept)).collect();
    for ends in [Vec::new(), holds] {
        let sorted = sorted(kept, &stack, &judged.pile.layer, &ends);
        if sorted == stack {
            return (stack, judged);
        }
        let again = Judged { gives: judged.gives, ..judge(task, &sorted) };
        if is_as_good(task, &again, &judged) {
            return (sorted, again);
        }
    }
    (stack, judged)
}

fn is_as_good(task: &Task, again: &Judged, judged: &Judged) -> bool {
    again.badly <= judged.badly
        && again.falls_short_by(task) <= judged.falls_short_by(task) + AS_GOOD
        && again.margin >= judged.margin - AS_GOOD
        && again.strain(task) <= judged.strain(task) + AS_STRAINED
}

/// The pieces by their layer, within each part that ends after so many pieces.
fn sorted(kept: usize, stack: &[Put], layer: &[usize], ends: &[usize]) -> Vec<Put> {
    let part = |step: &usize| ends.iter().filter(|end| *end <= step).count();
    let mut steps: Vec<usize> = (kept..stack.len()).collect();
    steps.sort_by_key(|step| (part(step), layer[*step]));
    (0..kept).chain(steps).map(|step| stack[step]).collect()
}

/// Where pieces are laid before the layer beneath theirs is full, and what asks for it; none where each layer is finished
/// before the next is begun.
pub(crate) fn why_by_turns(task: &Task, stack: &[Put]) -> Option<String> {
    let judged = judge(task, stack);
    let layer = &judged.pile.layer;
    let kept = task.kept.len();
    let is_early = |step: &usize| layer[step + 1..].iter().any(|later| *later < layer[*step]);
    let early: Vec<usize> = (kept..stack.len()).filter(is_early).collect();
    let (first, last) = (*early.first()?, *early.last()?);
    let by_layer = judge(task, &sorted(kept, stack, layer, &[]));
    let what = match early.len() {
        1 => format!("Step {} comes", first + 1),
        count => format!("{count} of the steps {} to {} come", first + 1, last + 1),
    };
    Some(format!("{what} before the layer beneath is full{}.", reason(task, &judged, &by_layer)))
}

/// What would be worse with each layer finished before the next.
fn reason(task: &Task, judged: &Judged, by_layer: &Judged) -> String {
    let strained = |hold: &AtHold| past(hold.allowed_m, 0.0, hold.offset_m);
    let worse = task.plan.holds.iter().zip(by_layer.at_holds.iter().zip(&judged.at_holds));
    let worse = worse.filter(|(_, (then, now))| strained(then) > strained(now) + AS_STRAINED);
    let worst = worse.max_by(|a, b| strained(a.1.0).total_cmp(&strained(b.1.0)));
    match worst {
        _ if by_layer.margin < judged.margin - AS_GOOD => format!(
            ", for the reserve on the way: {:.2} of the weight, and {:.2} layer by layer",
            judged.margin,
            by_layer.margin.max(0.0)
        ),
        Some((hold, (then, now))) => at_hold(task, hold, (then, now)),
        None => ", for what the steps on the way bear".to_owned(),
    }
}

fn at_hold(task: &Task, hold: &Hold, (then, now): (&AtHold, &AtHold)) -> String {
    let off = |hold: &AtHold| Length::m(hold.offset_m[0].hypot(hold.offset_m[1])).shown(task.plan.units, Grain::Fine);
    format!(
        ", so that the line of action is {} off the occupant point at hold “{}”, and not {} as layer by layer",
        off(now),
        hold.name,
        off(then)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn two_tubes() -> plan::Plan {
        plan::file::read(include_str!("../benches/seats/two-tubes.ron")).expect("a seat is a plan")
    }

    #[test]
    fn a_layer_is_finished_before_the_next_is_begun_where_that_does_as_well() {
        let plan = two_tubes();
        let task = Task::of(&plan);
        let by_layer = task.own();
        let layer = judge(&task, &by_layer).pile.layer;
        // The last piece of a layer comes after the first of the next that does not lie on it.
        let first = (1..by_layer.len()).rfind(|step| layer[*step] != layer[step - 1]).expect("two layers");
        let meets = |a: usize, b: usize| {
            task.body(&by_layer[a]).footprint().overlap(&task.body(&by_layer[b]).footprint()).is_some()
        };
        let early = (first..by_layer.len()).find(|step| !meets(first - 1, *step)).expect("one that lies elsewhere");
        let mut by_turns = by_layer.clone();
        let put = by_turns.remove(early);
        by_turns.insert(first - 1, put);
        let judged = judge(&task, &by_turns);
        assert!(judged.pile.layer.windows(2).any(|pair| pair[1] < pair[0]), "two layers by turns");
        let told = why_by_turns(&task, &by_turns).expect("two layers by turns");
        assert!(told.contains("before the layer beneath is full"), "{told}");
        let (stack, judged) = layer_by_layer(&task, by_turns, judged);
        assert_eq!(why_by_turns(&task, &stack), None, "nothing to tell");
        assert!(judged.pile.layer.is_sorted(), "got {:?}", judged.pile.layer);
        assert_eq!(stack.len(), by_layer.len());
    }
}
