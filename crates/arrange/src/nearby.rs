//! Which schemes are looked at next: a sample of all, then those near the best so far.

use crate::built::{Built, by_worth};
use crate::scheme::Schemes;
use crate::task::Task;

/// So many schemes are looked at before a first stack is shown.
pub(crate) const FIRST_LOOK: usize = 96;
/// So many at a time,
const LOOK: usize = 192;
/// of which so many are not near, but promise to stand low and wide.
const PROMISING: usize = 64;
/// near so many of the best.
pub(crate) const LEADERS: usize = 6;

/// Takes those schemes out of the waiting that share the lots and the base, or the lots and the
/// reach, with one of the best stacks so far; each of those in turn gives one.
pub(crate) fn nearby(schemes: &Schemes, built: &[Built], waiting: &mut Vec<usize>) -> Vec<usize> {
    let mut leaders: Vec<&Built> = built.iter().collect();
    leaders.sort_by(|a, b| by_worth(a, b));
    let leaders: Vec<_> = leaders.iter().take(LEADERS).map(|leader| &schemes.all[leader.number]).collect();
    let mut next = Vec::new();
    while next.len() < LOOK - PROMISING {
        let before = next.len();
        for leader in &leaders {
            let is_near = |number: &usize| {
                let scheme = &schemes.all[*number];
                scheme.lots == leader.lots && (scheme.base == leader.base || scheme.reach == leader.reach)
            };
            if let Some(index) = waiting.iter().position(is_near) {
                next.push(waiting.remove(index));
            }
        }
        if next.len() == before {
            break;
        }
    }
    next.extend(waiting.drain(..waiting.len().min(PROMISING)));
    next
}

/// All schemes in the order in which they are looked at: by turns one that promises to stand low and wide, and one of a
/// sample of all. For each base its most promising one comes first, then for each the next.
pub(crate) fn in_turn(task: &Task, schemes: &Schemes) -> Vec<usize> {
    let count = schemes.all.len();
    let slender: Vec<f64> = schemes.all.iter().map(|scheme| schemes.about_slender(task, scheme)).collect();
    let mut promising: Vec<usize> = (0..count).collect();
    promising.sort_by(|a, b| slender[*a].total_cmp(&slender[*b]).then(a.cmp(b)));
    let mut of_base = vec![0_usize; schemes.bases.len()];
    let mut ranked: Vec<(usize, usize)> = Vec::with_capacity(count);
    for number in promising {
        let rank = &mut of_base[schemes.all[number].base];
        ranked.push((*rank, number));
        *rank += 1;
    }
    ranked.sort_by_key(|(rank, _)| *rank);
    let mut told = vec![false; count];
    let by_turns = ranked.into_iter().zip(spread_out(count)).flat_map(|((_, promising), any)| [promising, any]);
    by_turns.filter(|number| !std::mem::replace(&mut told[*number], true)).collect()
}

/// All numbers below `count`, far ones first, so that the first few are a sample of all.
fn spread_out(count: usize) -> Vec<usize> {
    let stride = count / FIRST_LOOK + 1;
    (0..stride).flat_map(|start| (start..count).step_by(stride)).collect()
}
