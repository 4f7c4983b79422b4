//! Which schemes are looked at next: a sample of all, then those near the best so far.

use crate::built::{Built, by_worth};
use crate::scheme::Schemes;

/// So many schemes are looked at before a first stack is shown.
pub(crate) const FIRST_LOOK: usize = 96;
/// So many at a time,
const LOOK: usize = 144;
/// near so many of the best.
const LEADERS: usize = 6;

/// Takes those schemes out of the waiting that share the lots and the base, or the lots and the
/// reach, with one of the best stacks so far; each of those in turn gives one.
pub(crate) fn nearby(schemes: &Schemes, built: &[Built], waiting: &mut Vec<usize>) -> Vec<usize> {
    let mut leaders: Vec<&Built> = built.iter().collect();
    leaders.sort_by(|a, b| by_worth(a, b));
    let leaders: Vec<_> = leaders.iter().take(LEADERS).map(|leader| &schemes.all[leader.number]).collect();
    let mut next = Vec::new();
    while next.len() < LOOK {
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
    next
}

/// All numbers below `count`, far ones first, so that the first few are a sample of all.
pub(crate) fn spread_out(count: usize) -> Vec<usize> {
    let stride = count / FIRST_LOOK + 1;
    (0..stride).flat_map(|start| (start..count).step_by(stride)).collect()
}
