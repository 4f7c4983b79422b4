//! Real seats of invented aircraft: the stack laid by hand, plain greedy and the proposal side by side.

use crate::draw::{Grade, Task};
use crate::{Row, measured, novice, offset_mm, say};
use arrange::{Numbers, Proposal};
use assess::Ask;
use plan::Plan;
use quantity::Quantity;

/// How many seats are drawn as a novice draws them.
const DRAWN: u64 = 60;

/// The plan of every seat, with its name, in the order of the names.
fn plans() -> Vec<(String, Plan)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/benches/seats");
    let entries = std::fs::read_dir(folder).expect("the seats stand beside the bench");
    let mut files: Vec<_> = entries.map(|entry| entry.expect("a file").path()).collect();
    files.sort();
    let plan = |file: std::path::PathBuf| {
        let name = file.file_stem().expect("a name").to_string_lossy().into_owned();
        let text = std::fs::read_to_string(&file).expect("a text");
        (name, plan::file::read(&text).expect("a seat is a plan"))
    };
    files.into_iter().map(plan).collect()
}

/// The table of all seats, or of those whose names hold one of these words.
pub(crate) fn tell(words: &[String]) {
    say("| seat | by hand | plain greedy | proposal | bound | offset mm | pieces | first that holds s | whole s |");
    say("| --- | --- | --- | --- | --- | --- | --- | --- | --- |");
    let is_asked = |name: &str| words.is_empty() || words.iter().any(|word| name.contains(word));
    plans().into_iter().filter(|(name, _)| is_asked(name)).for_each(|(name, plan)| row(&name, plan));
}

fn row(name: &str, plan: Plan) {
    let by_hand = if plan.stack.is_empty() { "none laid".to_owned() } else { laid_by_hand(&plan) };
    let Row { proposals, first, whole, bound, greedy, .. } = measured((0, 0), Task { grade: Grade::Tight, plan });
    let best = proposals.first();
    let greedy = if greedy.holds { "holds" } else { "fails" };
    let numbers = best.map(|best| best.numbers);
    say(&format!(
        "| {name} | {by_hand} | {greedy} | {} | {bound:.3} | {:.2} | {} | {} | {whole} |",
        best.map_or("none".to_owned(), proposed),
        numbers.as_ref().map_or(f64::NAN, offset_mm),
        numbers.map_or(0, |numbers| numbers.pieces),
        first.as_ref().map_or("-".to_owned(), ToString::to_string),
    ));
}

fn laid_by_hand(plan: &Plan) -> String {
    let assessment = assess::assess(plan, Ask::checks());
    let reserve = Numbers::of(plan, &assessment).reserve;
    let reserve = reserve.map_or("none".to_owned(), |reserve| format!("{reserve:.3}"));
    if assessment.in_order() { reserve } else { format!("{reserve}, falls short") }
}

fn proposed(best: &Proposal) -> String {
    let reserve = best.numbers.reserve.map_or("none".to_owned(), |reserve| format!("{reserve:.3}"));
    best.shortfalls.first().map_or(reserve, |short| format!("falls short: {}", short.check.heading()))
}

/// The table of seats drawn as a novice draws them, of all or of those with these numbers; then why some fall short. What
/// was laid out is kept as plans in the folder that `LOADCAIRN_BENCH_TO` names.
pub(crate) fn tell_drawn(numbers: &[u64]) {
    say("| seat | bed, ballast | load kg | proposal | bound | pieces | boards | first that holds s | whole s |");
    say("| --- | --- | --- | --- | --- | --- | --- | --- | --- |");
    let all: Vec<u64> = if numbers.is_empty() { (0..DRAWN).collect() } else { numbers.to_vec() };
    let (mut solved, mut proven, mut reasons) = (0, 0, Vec::new());
    for number in &all {
        let Some(best) = drawn_row(*number) else { continue };
        let is_proven = best.shortfalls.iter().any(|short| short.is_certain);
        solved += u32::from(best.in_order());
        proven += u32::from(is_proven && !best.in_order());
        let told = best.shortfalls.iter().map(|short| format!("{}: {}", short.check.heading(), short.sentence));
        reasons.extend(told.map(|told| format!("- {number}: {told}")));
    }
    say(&format!("\nsolved {solved} of {}, proven that none can: {proven}\n", all.len()));
    reasons.iter().for_each(|reason| say(reason));
}

fn drawn_row(number: u64) -> Option<Proposal> {
    let (words, plan) = novice::seat(number);
    let due_kg = plan.case_in_hand().map_or(0.0, |case| assess::load::Load::of(case).ultimate.as_mass().si());
    let row = measured((number, 0), Task { grade: Grade::Tight, plan });
    let best = row.proposals.into_iter().next()?;
    if let Ok(folder) = std::env::var("LOADCAIRN_BENCH_TO") {
        let laid = best.edit().apply(&row.task.plan).expect("places of the plan's own pieces");
        std::fs::write(format!("{folder}/novice-{number}.ron"), plan::file::write(&laid))
            .expect("a folder to write to");
    }
    say(&format!(
        "| {number} | {words} | {due_kg:.0} | {} | {:.3} | {} | {} | {} | {} |",
        proposed(&best),
        row.bound,
        best.numbers.pieces,
        best.numbers.boards,
        row.first.as_ref().map_or("-".to_owned(), ToString::to_string),
        row.whole,
    ));
    Some(best)
}
