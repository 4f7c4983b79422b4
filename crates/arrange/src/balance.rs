//! Left and right, fore and aft in balance at every step: the order in which a course is laid.

use crate::task::{Put, Task};

/// The pieces of a course in the order that keeps all that lies nearest to the line of action at
/// every step; of equals the piece nearest to the line first.
pub(crate) fn in_balance(task: &Task, stack: &[Put], mut puts: Vec<Put>) -> Vec<Put> {
    let line = task.line_at(0.0);
    let mut sum = stack.iter().fold(Moment::default(), |sum, put| sum.with(put, line));
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
