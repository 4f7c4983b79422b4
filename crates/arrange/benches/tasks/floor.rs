//! What anybody would do without a method, to compare with: the floor.

use assess::{bed, body};
use fastrand::Rng;
use plan::{Form, Place, Plan, Turn};
use quantity::{Length, Quantity};
use statics::settle;

/// Places are tried every so far, m.
const STEP_M: f64 = 0.05;

/// Heaviest piece first, each where it comes to lie lowest, of those places the one nearest to the
/// occupant point's plumb line; boards are left out.
pub(crate) fn greedy(plan: &Plan) -> Vec<Place> {
    let line = plumb(plan);
    let mut plan = Plan { stack: Vec::new(), ..plan.clone() };
    for (lot, item) in heap(&plan) {
        if applied_kg(&plan) >= due_kg(&plan) {
            break;
        }
        let clear = assess::Clearances::of(&plan);
        let mut best: Option<([f64; 2], Place)> = None;
        for place in places(&plan, &lot, item, line) {
            let mut bodies: Vec<_> = plan.stack.iter().map(|place| body(plan.lot_of(place), place)).collect();
            bodies.push(body(plan.lot_of(&place), &place));
            let pile = settle(&bed(&plan), &bodies);
            let (Some(at), Some(height)) = (bodies.last(), pile.underside_m.last()) else { continue };
            if pile.hanging.is_empty() && clear.is_clear(at, *height) {
                let far = (at.centre_m[0] - line[0]).hypot(at.centre_m[1] - line[1]);
                let cost = [*height, far];
                if best.as_ref().is_none_or(|(known, _)| cost < *known) {
                    best = Some((cost, place));
                }
            }
        }
        plan.stack.extend(best.map(|(_, place)| place));
    }
    plan.stack
}

/// Random pieces at random places about the plumb line until the load is reached: the best of some.
pub(crate) fn random(plan: &Plan, seed: u64) -> Vec<Place> {
    let random = &mut Rng::with_seed(seed);
    let line = plumb(plan);
    let mut plan = Plan { stack: Vec::new(), ..plan.clone() };
    let mut heap = heap(&plan);
    random.shuffle(&mut heap);
    for (lot, item) in heap {
        if applied_kg(&plan) >= due_kg(&plan) {
            break;
        }
        let at = [0, 1].map(|axis| Length::m(line[axis] + 0.3 * (random.f64() - 0.5)));
        let turn = if random.bool() { Turn::Lengthwise } else { Turn::Crosswise };
        plan.stack.push(Place { lot, item, at, turn, locked: false });
    }
    plan.stack
}

fn heap(plan: &Plan) -> Vec<(String, u32)> {
    let loads = plan.ballast.iter().filter(|lot| lot.form != Form::Board);
    let mut heap: Vec<(String, u32, f64)> =
        loads.flat_map(|lot| (1..=lot.count).map(|item| (lot.name.clone(), item, lot.mass_of(item).si()))).collect();
    heap.sort_by(|a, b| b.2.total_cmp(&a.2));
    heap.into_iter().map(|(lot, item, _)| (lot, item)).collect()
}

fn places(plan: &Plan, lot: &str, item: u32, line: [f64; 2]) -> Vec<Place> {
    let spans = |axis: usize| {
        let sides = plan.bed.bearings.iter().flat_map(move |b| if axis == 0 { b.x } else { b.y });
        sides.map(Quantity::si).fold([f64::INFINITY, f64::NEG_INFINITY], |[a, b], m| [a.min(m), b.max(m)])
    };
    let steps = |axis: usize| {
        let [from, to] = spans(axis);
        (-8..=8).map(move |step| line[axis] + f64::from(step) * STEP_M).filter(move |m| (from..=to).contains(m))
    };
    let place =
        |x: f64, y: f64, turn| Place { lot: lot.to_owned(), item, at: [x, y].map(Length::m), turn, locked: false };
    let turns = [Turn::Lengthwise, Turn::Crosswise];
    steps(0)
        .flat_map(|x| steps(1).flat_map(move |y| turns.map(|turn| (x, y, turn))))
        .map(|(x, y, t)| place(x, y, t))
        .collect()
}

fn plumb(plan: &Plan) -> [f64; 2] {
    let at = plan.floor_from_bed().inverse() * assess::target_in_floor(plan);
    [at.x, at.y]
}

fn due_kg(plan: &Plan) -> f64 {
    plan.case_in_hand().map_or(0.0, |case| assess::load::Load::of(case).ultimate.as_mass().si())
}

fn applied_kg(plan: &Plan) -> f64 {
    plan.stack.iter().map(|place| plan.mass_of(place).si()).sum()
}
