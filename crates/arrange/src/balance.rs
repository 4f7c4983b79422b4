//! Left and right, fore and aft in balance at every step, and above all at the holds: the order in
//! which a course is laid.

use crate::task::{Put, Task};

/// The pieces of a course in the order that keeps all that lies nearest to the line of action at
/// every step; of equals the piece nearest to the line first. Those that lie when a hold is reached
/// are chosen so that the hold finds them balanced.
pub(crate) fn in_balance(task: &Task, stack: &[Put], puts: Vec<Put>) -> Vec<Put> {
    let line = task.line_at(0.0);
    let below = stack.iter().fold(Moment::default(), |sum, put| sum.with(put, line));
    let mut ordered = one_by_one(below, puts, line);
    let (mut sum, mut from) = (below, 0);
    for at_hold in holds_within(task, below, &ordered) {
        exchange_across(sum, &mut ordered[from..], at_hold - from, line);
        let part = one_by_one(sum, ordered[from..at_hold].to_vec(), line);
        ordered.splice(from..at_hold, part);
        sum = ordered[from..at_hold].iter().fold(sum, |sum, put| sum.with(put, line));
        let rest = one_by_one(sum, ordered[at_hold..].to_vec(), line);
        ordered.splice(at_hold.., rest);
        from = at_hold;
    }
    ordered
}

/// Greedily: that piece next which leaves all nearest to the line.
fn one_by_one(mut sum: Moment, mut puts: Vec<Put>, line: [f64; 2]) -> Vec<Put> {
    let mut ordered = Vec::with_capacity(puts.len());
    while !puts.is_empty() {
        let cost = |put: &Put| {
            let far = (put.at_m[0] - line[0]).hypot(put.at_m[1] - line[1]);
            sum.with(put, line).off_m() + 0.05 * far
        };
        let next = (0..puts.len()).reduce(|a, b| if cost(&puts[b]) < cost(&puts[a]) - 1e-9 { b } else { a });
        let Some(next) = next else { break };
        let put = puts.remove(next);
        sum = sum.with(&put, line);
        ordered.push(put);
    }
    ordered
}

/// After how many of a course's pieces, but not all, the holds fall due.
fn holds_within(task: &Task, below: Moment, puts: &[Put]) -> Vec<usize> {
    let after = |kg: &f64| {
        let mut mass_kg = below.mass_kg;
        let lying = puts.iter().position(|put| {
            mass_kg += put.item.mass_kg;
            mass_kg >= kg * (1.0 - 1e-9)
        })?;
        (below.mass_kg < *kg && lying + 1 < puts.len()).then_some(lying + 1)
    };
    let mut counts: Vec<usize> = task.holds_kg.iter().filter_map(after).collect();
    counts.sort_unstable();
    counts.dedup();
    counts
}

/// Exchanges pieces between the first so many and the rest while that brings the first ones nearer
/// to the line: the best exchange first.
fn exchange_across(below: Moment, puts: &mut [Put], count: usize, line: [f64; 2]) {
    let off = |puts: &[Put]| puts[..count].iter().fold(below, |sum, put| sum.with(put, line)).off_m();
    let mut least = off(puts);
    // Each exchange brings it nearer by a tenth of a millimetre or more.
    loop {
        let mut best = None;
        for first in 0..count {
            for other in count..puts.len() {
                puts.swap(first, other);
                let tried = off(puts);
                puts.swap(first, other);
                if tried < least - 1e-4 {
                    (least, best) = (tried, Some((first, other)));
                }
            }
        }
        let Some((first, other)) = best else { break };
        puts.swap(first, other);
    }
}

/// Running mass and moment about the line of action.
#[derive(Clone, Copy, Default)]
struct Moment {
    mass_kg: f64,
    moment_kg_m: [f64; 2],
}

impl Moment {
    fn with(self, put: &Put, line: [f64; 2]) -> Self {
        let mass_kg = put.item.mass_kg;
        let moment = |axis: usize| self.moment_kg_m[axis] + mass_kg * (put.at_m[axis] - line[axis]);
        Self { mass_kg: self.mass_kg + mass_kg, moment_kg_m: [moment(0), moment(1)] }
    }

    fn off_m(self) -> f64 {
        self.moment_kg_m[0].hypot(self.moment_kg_m[1]) / self.mass_kg.max(f64::MIN_POSITIVE)
    }
}
