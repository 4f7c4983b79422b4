//! Schemes: a base, a reach, an order of lots. Each is carried out course by course until the load
//! is reached.

use crate::bond::Parting;
use crate::course::{self, ALIKE_M, Pattern, patterns};
use crate::task::{Put, Task};
use crate::tie::Tie;
use plan::Form;
use quantity::Quantity;

/// No stack is built higher than so many courses.
const MOST_COURSES: usize = 60;

/// Room for a course is looked for this far fore and aft of the line of action, m,
const OFFS_M: [f64; 9] = [0.0, -0.03, 0.03, -0.06, 0.06, -0.09, 0.09, -0.12, 0.12];
/// at these heights above the bed, m,
const HEIGHTS_M: [f64; 5] = [0.0, 0.05, 0.15, 0.3, 0.5];
/// for something so thin, m.
const THIN_M: f64 = 0.02;

/// How to build.
#[derive(Clone, Debug)]
pub(crate) struct Scheme {
    /// Which base, from 0.
    pub(crate) base: usize,
    /// Which reach, from 0.
    pub(crate) reach: usize,
    /// The lots, lowest first.
    pub(crate) lots: Vec<usize>,
}

/// All schemes of a task with what they draw on.
pub(crate) struct Schemes {
    pub(crate) bases: Vec<Vec<Put>>,
    /// The sides of each reach, m.
    reaches: Vec<[f64; 2]>,
    /// For each reach, for each lot, its patterns; none for boards.
    patterns: Vec<Vec<Vec<Pattern>>>,
    pub(crate) all: Vec<Scheme>,
}

impl Schemes {
    /// Those worth trying: every base with every reach that is not much wider than what carries it,
    /// and every order of lots.
    pub(crate) fn of(task: &Task) -> Self {
        let bases = crate::base::bases(task);
        let reaches = reaches(task);
        let parted = |gap_m: f64| -> Vec<Parting> {
            (0..task.stocks.len()).map(|lot| Parting::of(course::piece(task, lot, gap_m))).collect()
        };
        let (mut partings, mut close) = (parted(task.gap_m), parted(task.grid_m));
        let mut of_lot = |reach: [f64; 2], lot: usize| match task.stocks[lot].form {
            Form::Board => Vec::new(),
            Form::Bag | Form::Solid => {
                let usual = patterns(task, &mut partings[lot], (lot, task.gap_m), reach);
                crate::room::what_goes_in(task, (lot, &mut close[lot]), reach, usual)
            }
        };
        let mut per_reach = |reach: &[f64; 2]| (0..task.stocks.len()).map(|lot| of_lot(*reach, lot)).collect();
        let patterns = reaches.iter().map(&mut per_reach).collect();
        let mut all = Vec::new();
        for (base, puts) in bases.iter().enumerate() {
            let carries = carries(task, puts);
            for (reach, sides) in reaches.iter().enumerate() {
                if [0, 1].iter().all(|axis| (0.35..=1.3).contains(&(sides[*axis] / carries[*axis].max(1e-3)))) {
                    all.extend(orders(task).into_iter().map(|lots| Scheme { base, reach, lots }));
                }
            }
        }
        Self { patterns, bases, reaches, all }
    }

    /// About how high a scheme would stand over its sides: the squares of both shares together. By counting pieces alone, so
    /// that schemes can be put in an order before any is carried out.
    pub(crate) fn about_slender(&self, task: &Task, scheme: &Scheme) -> f64 {
        let (mut missing_kg, mut height_m) = (task.due_kg, 0.0);
        for lot in &scheme.lots {
            let stock = &task.stocks[*lot];
            let most = self.patterns[scheme.reach][*lot].iter().map(Pattern::len).max().unwrap_or(0);
            let Some(item) = stock.free.first().filter(|_| missing_kg > 0.0 && most > 0) else { continue };
            #[expect(clippy::cast_precision_loss, reason = "a few dozen pieces")]
            let (free, most) = (stock.free.len() as f64, most as f64);
            let pieces = (missing_kg / item.mass_kg.max(f64::MIN_POSITIVE)).ceil().min(free);
            missing_kg -= pieces * item.mass_kg;
            height_m += (pieces / most).ceil() * stock.size_m[2];
        }
        if missing_kg > 0.0 {
            return f64::INFINITY;
        }
        self.reaches[scheme.reach].iter().map(|side| (height_m / side) * (height_m / side)).sum()
    }

    /// Carries a scheme out: the whole stack, the kept pieces first. It may fall short of the load
    /// where pieces or room run out.
    pub(crate) fn build(&self, task: &Task, scheme: &Scheme) -> Vec<Put> {
        self.build_tied(task, scheme, None)
    }

    /// The same with boards between its courses.
    pub(crate) fn build_tied(&self, task: &Task, scheme: &Scheme, tie: Option<Tie>) -> Vec<Put> {
        let mut stack = [task.kept.clone(), self.bases[scheme.base].clone()].concat();
        let is_due = |stack: &[Put]| Task::mass_kg(stack) < task.due_kg * (1.0 - 1e-9);
        for courses in 1..=MOST_COURSES {
            if !is_due(&stack) {
                break;
            }
            let Some(course) = self.next_course(task, scheme, &stack) else { break };
            stack.extend(course);
            let boards = tie.filter(|_| is_due(&stack)).and_then(|tie| tie.after(task, &stack, courses));
            stack.extend(boards.into_iter().flatten());
        }
        stack
    }

    /// A whole course of the first lot that has one left, or all that is needed; else the largest
    /// course there is.
    fn next_course(&self, task: &Task, scheme: &Scheme, stack: &[Put]) -> Option<Vec<Put>> {
        let mut largest: Option<Vec<Put>> = None;
        for lot in &scheme.lots {
            let free = course::left(task, stack, *lot);
            let mut missing_kg = task.due_kg * (1.0 - 1e-9) - Task::mass_kg(stack);
            let due = free.iter().take_while(|item| {
                let is_due = missing_kg > 0.0;
                missing_kg -= item.mass_kg;
                is_due
            });
            let due = due.count();
            let patterns = &self.patterns[scheme.reach][*lot];
            let whole = patterns.iter().map(Pattern::len).max().unwrap_or(0);
            let Some(course) = course::best(task, stack, *lot, patterns, due) else { continue };
            // Fewer of a lot than a course wait for the top.
            if free.len() >= whole || course.puts.len() == due && missing_kg <= 0.0 {
                return Some(course.puts);
            }
            if largest.as_ref().is_none_or(|known| course.puts.len() > known.len()) {
                largest = Some(course.puts);
            }
        }
        largest
    }
}

/// What a base offers along x and y, m: its boards' reach, or the bearings'.
fn carries(task: &Task, base: &[Put]) -> [f64; 2] {
    let from_bearings = task.bearings_span().map_or([0.0; 2], |span| span.map(|[from, to]| to - from));
    let on = [&task.kept, base].concat();
    if on.is_empty() {
        return from_bearings;
    }
    [0, 1].map(|axis| {
        let ends = on.iter().map(|put| {
            let body = task.body(put);
            [body.centre_m[axis] - body.extent_m[axis] / 2.0, body.centre_m[axis] + body.extent_m[axis] / 2.0]
        });
        let whole = ends.reduce(|a, b| [a[0].min(b[0]), a[1].max(b[1])]).unwrap_or([0.0; 2]);
        (whole[1] - whole[0]).max(if base.is_empty() { from_bearings[axis] } else { 0.0 })
    })
}

/// The sides of courses that fit pieces of some lot without waste, m.
fn reaches(task: &Task) -> Vec<[f64; 2]> {
    let span = task.bearings_span().map_or([0.0; 2], |span| span.map(|[from, to]| to - from));
    let longest = |of: usize| {
        let boards = task.stocks.iter().filter(|stock| stock.form == Form::Board).map(|stock| stock.size_m[0]);
        boards.fold(span[of], f64::max) * 1.3
    };
    let sides = |axis: usize| {
        let loads = task.stocks.iter().filter(|stock| stock.form != Form::Board && !stock.free.is_empty());
        let mut sides: Vec<f64> = loads.flat_map(|stock| sums(stock.size_m, task.gap_m, longest(axis))).collect();
        // Of sides that are alike the longest: what fits into the others fits into it too.
        sides.sort_by(f64::total_cmp);
        sides.dedup_by(|b, a| *b - *a < ALIKE_M);
        sides
    };
    let (along, across) = (sides(0), sides(1));
    let all: Vec<[f64; 2]> = along.iter().flat_map(|x| across.iter().map(move |y| [*x, *y])).collect();
    let with_room: Vec<[f64; 2]> = all.iter().copied().filter(|reach| has_room(task, *reach)).collect();
    if with_room.is_empty() { all } else { with_room }
}

/// Whether a course of these sides finds room between what must stay clear, low or high, about where the line of action
/// is: what does not is cut down to one that does.
fn has_room(task: &Task, [along_m, across_m]: [f64; 2]) -> bool {
    let line = task.line_at(0.0);
    let body = |off_m: f64| statics::Body {
        centre_m: [line[0] + off_m, line[1]],
        extent_m: [along_m - ALIKE_M, across_m - ALIKE_M, THIN_M],
        mass_kg: 1.0,
        friction: 0.0,
        soft: true,
    };
    OFFS_M.iter().any(|off_m| HEIGHTS_M.iter().any(|height_m| task.clearances.is_clear(&body(*off_m), *height_m)))
}

fn sums([length, width, _]: [f64; 3], gap: f64, most: f64) -> Vec<f64> {
    let mut sums = Vec::new();
    for lengths in 0..8 {
        for widths in 0..8 {
            let side = f64::from(lengths) * (length + gap) + f64::from(widths) * (width + gap) - gap;
            if side > 0.0 && side <= most {
                sums.push(side);
            }
        }
    }
    sums
}

/// The orders in which lots may come, lowest first: by mass of a piece, by mass in its volume, by
/// its area, and each that suffices alone.
fn orders(task: &Task) -> Vec<Vec<usize>> {
    let is_load = |lot: &usize| task.stocks[*lot].form != Form::Board && !task.stocks[*lot].free.is_empty();
    let loads: Vec<usize> = (0..task.stocks.len()).filter(is_load).collect();
    let mass = |lot: usize| task.plan.ballast[lot].mass.si();
    let area = |lot: usize| task.stocks[lot].size_m[0] * task.stocks[lot].size_m[1];
    let by = |key: &dyn Fn(usize) -> f64| {
        let mut lots = loads.clone();
        lots.sort_by(|a, b| key(*b).total_cmp(&key(*a)).then(a.cmp(b)));
        lots
    };
    // Heavy or wide pieces low; and the other way about, where a few of them would make a narrow foot.
    let mut orders = vec![
        by(&mass),
        by(&|lot| -mass(lot)),
        by(&|lot| mass(lot) / (area(lot) * task.stocks[lot].size_m[2])),
        by(&area),
    ];
    let suffices = |lot: &&usize| task.stocks[**lot].free.iter().map(|item| item.mass_kg).sum::<f64>() >= task.due_kg;
    orders.extend(loads.iter().filter(suffices).map(|lot| vec![*lot]));
    let mut told: Vec<Vec<usize>> = Vec::new();
    for order in orders {
        if !order.is_empty() && !told.contains(&order) {
            told.push(order);
        }
    }
    told
}
