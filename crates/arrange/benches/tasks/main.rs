//! Tasks laid out and measured: `cargo bench -p arrange`, or with numbers behind `--` for some of them alone, with
//! `demos` for the demo plans and 120 bags alone, with `seats` for the real seats alone (with words behind it for
//! those whose names hold one of them), or with `novice` for seats drawn as a novice draws them (with numbers behind it
//! for some of them). The table and what it says stand in the README beside this folder.

mod clock;
mod draw;
mod floor;
mod heap;
mod many;
mod novice;
mod seats;

use arrange::{Numbers, Proposal, Wish, greatest_reserve, propose};
use assess::{Ask, State};
use clock::{Since, Spent};
use draw::{Grade, Task};
use plan::edit::Restacking;
use plan::{Edit, Form, Place, Plan};
use quantity::Quantity;
use std::sync::Mutex;

/// How many tasks there are.
const TASKS: u64 = 72;
/// Random stacks drawn for a task, of which the best counts.
const RANDOM_STACKS: u64 = 20;

/// What came of a task.
struct Row {
    number: u64,
    task: Task,
    proposals: Vec<Proposal>,
    /// To the first stack that holds, and to the end.
    first: Option<Spent>,
    whole: Spent,
    bound: f64,
    greedy: Floor,
    random: Floor,
}

/// What came of a floor method.
#[derive(Clone, Copy)]
struct Floor {
    holds: bool,
    offset_mm: Option<f64>,
}

fn main() {
    let asked: Vec<String> = std::env::args().skip(1).filter(|argument| !argument.starts_with('-')).collect();
    if let Some((_, words)) = asked.split_first().filter(|(first, _)| *first == "seats") {
        return seats::tell(words);
    }
    if let Some((_, numbers)) = asked.split_first().filter(|(first, _)| *first == "novice") {
        return seats::tell_drawn(&numbers.iter().filter_map(|number| number.parse().ok()).collect::<Vec<u64>>());
    }
    if asked.iter().any(|word| word == "demos") {
        demos();
        return many_bags();
    }
    let numbers: Vec<u64> = asked.iter().filter_map(|argument| argument.parse().ok()).collect();
    if numbers.is_empty() {
        demos();
        many_bags();
        seats::tell(&[]);
    }
    let numbers = if numbers.is_empty() { (0..TASKS).collect() } else { numbers };
    head();
    let rows: Vec<Row> =
        numbers.into_iter().map(|number| measured((number, RANDOM_STACKS), draw::task(number))).inspect(tell).collect();
    sums(&rows);
}

const DEMOS: [(&str, &str); 2] = [
    ("tandem rear seat", include_str!("../../../../assets/examples/tandem-rear-seat.ron")),
    ("side by side", include_str!("../../../../assets/examples/side-by-side.ron")),
];

/// The demo plans, beside what was laid by hand.
fn demos() {
    for (name, text) in DEMOS {
        let plan = plan::file::read(text).expect("a demo is a plan");
        let by_hand = Numbers::of(&plan, &assess::assess(&plan, Ask::full()));
        let row = measured((0, 0), Task { grade: Grade::Easy, plan });
        let n = row.proposals.first().expect("a stack").numbers;
        let reserve = |n: &Numbers| n.reserve.map_or("none".to_owned(), |reserve| format!("{reserve:.3}"));
        let first = row.first.map_or("none".to_owned(), |spent| spent.to_string());
        say(&format!(
            "{name}: first stack that holds after {first} s, {} kinds after {} s; reserve {}, by hand {}; offset {:.2} mm, by hand {:.2} mm; at the holds up to {:.1} mm, by hand {:.1} mm; {} pieces, by hand {}",
            row.proposals.len(),
            row.whole,
            reserve(&n),
            reserve(&by_hand),
            offset_mm(&n),
            offset_mm(&by_hand),
            n.worst_at_holds_m * 1e3,
            by_hand.worst_at_holds_m * 1e3,
            n.pieces,
            by_hand.pieces,
        ));
    }
}

fn many_bags() {
    let row = measured((0, 0), Task { grade: Grade::Many, plan: many::plan() });
    let best = row.proposals.first().expect("a stack");
    let first = row.first.map_or("none".to_owned(), |spent| spent.to_string());
    say(&format!(
        "120 bags of shot: first stack that holds after {first} s, {} kinds after {} s; {} pieces, {}; offset {:.2} mm",
        row.proposals.len(),
        row.whole,
        best.numbers.pieces,
        best.shortfalls.first().map_or("no check falls short", |short| short.check.heading()),
        offset_mm(&best.numbers),
    ));
}

/// Lays a task out, and beside it by the floor methods: so many random stacks.
fn measured((number, random): (u64, u64), task: Task) -> Row {
    let (start, first) = (Since::now(), Mutex::new(None));
    let proposals = propose(&task.plan, &Wish::default(), &|heard| {
        if heard.best.is_some_and(Proposal::in_order) {
            first.lock().expect("no panic").get_or_insert_with(|| start.spent());
        }
        true
    });
    let whole = start.spent();
    let first = first.into_inner().expect("no panic");
    let random = (0..random).map(|seed| floor(&task.plan, floor::random(&task.plan, seed)));
    let random = random.reduce(|best, next| if next.holds && !best.holds { next } else { best });
    Row {
        number,
        bound: greatest_reserve(&task.plan),
        greedy: floor(&task.plan, floor::greedy(&task.plan)),
        random: random.unwrap_or(Floor { holds: false, offset_mm: None }),
        task,
        proposals,
        first,
        whole,
    }
}

fn floor(plan: &Plan, places: Vec<Place>) -> Floor {
    let edit = Edit::Restack { why: Restacking::Proposing, places };
    let laid = edit.apply(plan).expect("places of the plan's own pieces");
    // What falls by closed forms need not be solved.
    let closed = assess::assess(&laid, assess::Ask::closed());
    let falls = closed.findings.iter().any(|finding| finding.state == State::Fails);
    let assessment = if falls { closed } else { assess::assess(&laid, Ask::full()) };
    let offset = assessment.closed.last().map(|step| step.offset_m[0].hypot(step.offset_m[1]) * 1e3);
    Floor { holds: assessment.in_order() && !laid.stack.is_empty(), offset_mm: offset }
}

#[expect(clippy::print_stdout, reason = "what a bench is for")]
fn say(text: &str) {
    println!("{text}");
}

fn head() {
    say(
        "| task | grade | pieces | reserve | bound | offset mm | at holds mm | over least | height m | boards | kinds | first s (processor) | whole s (processor) | greedy | random |",
    );
    say("| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |");
}

fn tell(row: &Row) {
    let Row { number, task, proposals, first, whole, bound, greedy, random } = row;
    let floor = |floor: &Floor| {
        let offset = floor.offset_mm.map_or("-".to_owned(), |mm| format!("{mm:.0} mm"));
        format!("{} {offset}", if floor.holds { "holds" } else { "fails" })
    };
    let Some(best) = proposals.first() else {
        return say(&format!("| {number} | {:?} | no stack |", task.grade));
    };
    let n = &best.numbers;
    let verdict = match best.shortfalls.first() {
        Some(short) if short.is_certain => format!("impossible: {}", short.check.heading()),
        Some(short) if !best.in_order() => format!("**not solved**: {}", short.check.heading()),
        _ => n.reserve.map_or("none".to_owned(), |reserve| format!("{reserve:.3}")),
    };
    say(&format!(
        "| {number} | {:?} | {} | {verdict} | {} | {:.2} | {:.1} | {} | {:.2} | {} | {} | {} | {} | {} | {} |",
        task.grade,
        n.pieces,
        if bound.is_finite() { format!("{bound:.3}") } else { "-".to_owned() },
        offset_mm(n),
        n.worst_at_holds_m * 1e3,
        over_least(&task.plan, n),
        n.height_m,
        n.boards,
        proposals.len(),
        first.as_ref().map_or("-".to_owned(), ToString::to_string),
        whole,
        floor(greedy),
        floor(random),
    ));
}

fn offset_mm(n: &Numbers) -> f64 {
    n.offset_m[0].hypot(n.offset_m[1]) * 1e3
}

/// Bags and solids beyond the least number that could do it: the heaviest of all, with every board
/// there is.
fn over_least(plan: &Plan, n: &Numbers) -> usize {
    let items = |form_is: fn(Form) -> bool| {
        let lots = plan.ballast.iter().filter(move |lot| form_is(lot.form));
        lots.flat_map(|lot| (1..=lot.count).map(|item| lot.mass_of(item).si()))
    };
    let boards_kg: f64 = items(|form| form == Form::Board).sum();
    let mut loads: Vec<f64> = items(|form| form != Form::Board).collect();
    loads.sort_by(|a, b| b.total_cmp(a));
    let due_kg = plan.case_in_hand().map_or(0.0, |case| assess::load::Load::of(case).ultimate.as_mass().si());
    let mut missing_kg = due_kg * (1.0 - 1e-9) - boards_kg;
    let least = loads.iter().take_while(|kg| {
        let is_due = missing_kg > 0.0;
        missing_kg -= **kg;
        is_due
    });
    (n.pieces - n.boards).saturating_sub(least.count())
}

fn sums(rows: &[Row]) {
    let feasible = |row: &&Row| !matches!(row.task.grade, Grade::Impossible(_));
    let solved = |row: &&Row| row.proposals.first().is_some_and(Proposal::in_order);
    let all: Vec<&Row> = rows.iter().filter(feasible).collect();
    let done: Vec<&Row> = all.iter().copied().filter(|row| solved(row)).collect();
    let told = rows.iter().filter(|row| match row.task.grade {
        Grade::Impossible(check) => {
            row.proposals.first().is_some_and(|p| p.shortfalls.iter().any(|s| s.is_certain && Some(s.check) == check))
        }
        _ => false,
    });
    let best = |row: &&Row| row.proposals[0].numbers;
    let of = |value: &dyn Fn(&Row) -> f64| median(done.iter().map(|row| value(row)).collect());
    say(&format!("\nsolved {} of {} that are not impossible", done.len(), all.len()));
    let unsolved = all.iter().filter(|row| !solved(row)).map(|row| row.number.to_string());
    say(&format!("not solved: {}", unsolved.collect::<Vec<_>>().join(", ")));
    say(&format!("impossible and told so by the true reason: {} of {}", told.count(), rows.len() - all.len()));
    say(&format!("offset at ultimate, median: {:.3} mm", of(&|row| offset_mm(&best(&row)))));
    say(&format!(
        "reserve over its proven bound, median: {:.2}",
        of(&|row| best(&row).reserve.unwrap_or(0.0) / row.bound)
    ));
    let worst = done.iter().filter_map(|row| best(row).reserve).fold(f64::INFINITY, f64::min);
    say(&format!("least reserve of all: {worst:.3}"));
    #[expect(clippy::cast_precision_loss, reason = "a few pieces")]
    let over = of(&|row| over_least(&row.task.plan, &best(&row)) as f64);
    say(&format!("pieces over the least number, median: {over:.0}"));
    let within = done.iter().filter(|row| holds_are_within(row)).count();
    say(&format!("stacks within the tolerance at every hold: {within} of {}", done.len()));
    say(&format!("offset at a hold, worst, median: {:.2} mm", of(&|row| best(&row).worst_at_holds_m * 1e3)));
    times(rows, &done);
    let floors = |of: fn(&Row) -> Floor| all.iter().filter(|row| of(row).holds).count();
    say(&format!(
        "plain greedy solves {}, the best of {RANDOM_STACKS} random stacks {}",
        floors(|r| r.greedy),
        floors(|r| r.random)
    ));
}

/// Whether the line of action keeps within the tolerance at every hold of the first proposal.
fn holds_are_within(row: &Row) -> bool {
    let assessment = &row.proposals[0].assessment;
    let tolerance = row.task.plan.target.tolerance().map(Quantity::si);
    let within = |step: &usize| {
        let off = assessment.closed.steps[*step].offset_m;
        [0, 1].iter().all(|axis| off[*axis].abs() <= tolerance[*axis])
    };
    assessment.closed.hold_steps.iter().flatten().all(within)
}

fn times(rows: &[Row], done: &[&Row]) {
    let of = |value: &dyn Fn(&Row) -> f64| median(done.iter().map(|row| value(row)).collect());
    let processor = |spent: &Spent| spent.processor.map_or(f64::NAN, |time| time.as_secs_f64());
    let first = |row: &Row| row.first.as_ref().map_or(f64::NAN, processor);
    say(&format!("processor time to the first stack that holds, median: {:.2} s", of(&first)));
    say(&format!("processor time in all, median: {:.2} s", of(&|row| processor(&row.whole))));
    let longest = |of: &dyn Fn(&Row) -> f64| rows.iter().map(of).fold(0.0, f64::max);
    say(&format!(
        "longest: {:.2} s on the clock, {:.2} s of the processor",
        longest(&|row| row.whole.clock.as_secs_f64()),
        longest(&|row| processor(&row.whole))
    ));
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(f64::NAN)
}
