//! What each shortcut of the equilibrium saves: every state on the way up with all of them, without each, and
//! with none. And what the cone programme of a cut adds to the equilibrium of the whole stack. Processor
//! time of one thread, the least of some runs taken in turn. Results: `README.md` beside this file.

#![expect(clippy::print_stdout, reason = "a table is what this program is for")]

mod stacks;

use stacks::{bags, crossing};
use statics::equilibrium::{DeadPull, Shortcut, Shortcuts, Stack, StepEquilibrium, Work, every_step_with};
use std::time::Instant;

/// Runs in turn, of which the least counts.
const TURNS: usize = 2;

fn main() {
    let count = std::env::args().filter_map(|word| word.parse().ok()).next().unwrap_or(60);
    println!("{count} pieces; times in s; programmes of whole stacks, of layers; forces rebalanced; load paths traced");
    for (name, settled) in [
        ("bags on planks", bags(count)),
        ("blocks in order", crossing(count, 0.0)),
        ("rough blocks", crossing(count, 0.0).with_friction(1.5)),
        ("scattered blocks", crossing(count, 0.01)),
    ] {
        shortcuts(name, &settled.stack());
    }
    let bound = bags(count);
    let dead = [DeadPull { at_in_bed_m: [0.4, 0.1], width_m: 0.05, force_n: 400.0, after: 12 }];
    shortcuts("bags under a strap", &Stack { dead: &dead, ..bound.stack() });
}

fn shortcuts(name: &str, stack: &Stack) {
    let one = Shortcut::ALL.map(|shortcut| (format!("{shortcut:?}"), Shortcuts::ALL.without(shortcut)));
    let sets =
        [("nothing".to_owned(), Shortcuts::ALL)].into_iter().chain(one).chain([("all".to_owned(), Shortcuts::NONE)]);
    let sets: Vec<(String, Shortcuts)> = sets.collect();
    let mut least_s = vec![f64::INFINITY; sets.len()];
    let mut ends: Vec<(Vec<StepEquilibrium>, Work)> = Vec::new();
    for turn in 0..TURNS {
        for (at, (_, set)) in sets.iter().enumerate() {
            let (s, end) = timed(|| every_step_with(stack, *set));
            least_s[at] = least_s[at].min(s);
            if turn == 0 {
                ends.push(end);
            }
        }
    }
    println!("{name}");
    for ((set, s), (verdicts, work)) in sets.iter().zip(&least_s).zip(&ends) {
        let Work { whole, layers, rebalanced, traced } = work;
        let open = verdicts.iter().filter(|verdict| verdict.stands.is_none()).count();
        println!(
            "  without {:<10} {s:8.3}  {:5.2} times  {whole:6} {layers:6} {rebalanced:6} {traced:7}  {open} not decided, {:.0e} apart",
            set.0,
            s / least_s[0],
            apart(verdicts, &ends[0].0),
        );
    }
}

/// By how much two lists of verdicts differ at most, of weight.
fn apart(some: &[StepEquilibrium], others: &[StepEquilibrium]) -> f64 {
    let pairs = some.iter().zip(others).filter_map(|(a, b)| Some((a.least.reserve()?, b.least.reserve()?)));
    pairs.map(|(a, b)| (a.multiplier - b.multiplier).abs()).fold(0.0, f64::max)
}

/// Processor time of this thread where the system tells it, by the clock elsewhere: others use the machine too.
fn timed<T>(work: impl FnOnce() -> T) -> (f64, T) {
    let (start, before) = (Instant::now(), processor_s());
    let done = work();
    let by_processor = before.zip(processor_s()).map(|(before, after)| after - before);
    (by_processor.unwrap_or(start.elapsed().as_secs_f64()), done)
}

fn processor_s() -> Option<f64> {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    Some(told.split(' ').next()?.parse::<f64>().ok()? * 1e-9)
}
