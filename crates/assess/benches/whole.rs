//! What the whole check of a plan costs: processor time of all threads, so that a busy machine does not count.
//! Budgets, rigid: 60, 200, 600 pieces under 1, 6, 60 s; as the bags give: 60 and 200 pieces under 5 and 50 s.
//! Growth: no faster than the square of the pieces.
//!
//! With `--edits`: what the answer after an edit of 60 pieces costs, where the plan before it was solved.
//!
//! The processor time of the process is what Linux tells of it.

use assess::{Ask, Reach, Recall};
use plan::{Form, Lot, Place, Plan, Turn};
use quantity::{Length, Mass};
use std::collections::BTreeMap;
use std::hint::black_box;
use std::io::Write as _;
use std::time::Instant;

const DEMO: &str = include_str!("../../../assets/examples/tandem-rear-seat.ron");
/// Pieces of a layer.
const LAYER: usize = 6;

fn main() -> std::io::Result<()> {
    let mut out = std::io::stdout();
    let only: Vec<usize> = std::env::args().filter_map(|word| word.parse().ok()).collect();
    let files: Vec<String> = std::env::args().filter(|word| word.ends_with(".ron")).collect();
    if !files.is_empty() {
        return files.iter().try_for_each(|file| of_file(&mut out, file));
    }
    if std::env::args().any(|word| word == "--edits") {
        let counts = if only.is_empty() { vec![60] } else { only };
        return counts.into_iter().try_for_each(|pieces| edits(&mut out, pieces));
    }
    let counts = if only.is_empty() { vec![60, 200, 600] } else { only };
    writeln!(out, "pieces  stack                     rigid: checks, all    as the bags give: checks, all   s")?;
    for pieces in counts {
        for (name, plan) in [("of one kind", alike(pieces)), ("all different, on planks", different(pieces))] {
            let rigid = [Reach::Checks, Reach::Full].map(|reach| cost_s(&hard(&plan), reach));
            write!(out, "{pieces:>6}  {name:<24} {:>10.2} {:>10.2}", rigid[0], rigid[1])?;
            if pieces <= 200 {
                let soft = [Reach::Checks, Reach::Full].map(|reach| cost_s(&plan, reach));
                write!(out, " {:>15.2} {:>10.2}", soft[0], soft[1])?;
            }
            writeln!(out)?;
        }
    }
    Ok(())
}

/// What all of a plan's check costs; with `--report` what it says, so that two states of the program can be compared.
fn of_file(out: &mut impl std::io::Write, file: &str) -> std::io::Result<()> {
    let text = std::fs::read_to_string(file)?;
    let plan = plan::file::read(&text).map_err(|error| std::io::Error::other(error.to_string()))?;
    let before = processor_s();
    let assessment = assess::assess(&plan, Ask::to(Reach::Full));
    let cost_s = processor_s() - before;
    if std::env::args().any(|word| word == "--report") {
        return writeln!(out, "{}", assess::report(&plan, &assessment));
    }
    writeln!(out, "{cost_s:>8.2} s  {file}")
}

/// What the answer after an edit costs, the plan before it solved: processor time, and the clock.
fn edits(out: &mut impl std::io::Write, pieces: usize) -> std::io::Result<()> {
    for (name, plan) in [("of one kind", alike(pieces)), ("all different, on planks", different(pieces))] {
        for (gives, plan) in [("rigid", hard(&plan)), ("as the bags give", plan.clone())] {
            writeln!(out, "{pieces} pieces, {name}, {gives}: processor time, clock   s")?;
            for (what, edited) in edited(&plan) {
                let recall = Recall::default();
                let solve = |plan: &Plan| black_box(assess::assess(plan, Ask { recall: Some(&recall), ..Ask::full() }));
                solve(&plan);
                let (before, clock) = (processor_s(), Instant::now());
                solve(&edited);
                let (cost, clock) = (processor_s() - before, clock.elapsed().as_secs_f64());
                writeln!(out, "  {what:<24} {cost:>8.2} {clock:>8.2}")?;
            }
        }
    }
    Ok(())
}

fn edited(plan: &Plan) -> Vec<(&'static str, Plan)> {
    let moved = |step: usize| {
        let mut plan = plan.clone();
        plan.stack[step].at[0] = plan.stack[step].at[0] + Length::m(0.003);
        plan
    };
    let last = plan.stack.len() - 1;
    let mut heavier = plan.clone();
    let lot = heavier.stack[last / 2].lot.clone();
    heavier.ballast.iter_mut().filter(|of| of.name == lot).for_each(|of| of.mass = of.mass + Mass::kg(0.05));
    let mut shorter = plan.clone();
    shorter.stack.pop();
    vec![
        ("last piece moved", moved(last)),
        ("middle piece moved", moved(last / 2)),
        ("first piece moved", moved(0)),
        ("a mass changed", heavier),
        ("last piece taken off", shorter),
        ("nothing", plan.clone()),
    ]
}

fn cost_s(plan: &Plan, reach: Reach) -> f64 {
    let before = processor_s();
    black_box(assess::assess(plan, Ask::to(reach)));
    processor_s() - before
}

/// User and system time of the process, in the kernel's hundredths of a second.
fn processor_s() -> f64 {
    let text = std::fs::read_to_string("/proc/self/stat").expect("Linux tells what a process costs");
    let after_name = text.rsplit(')').next().expect("the name ends with a bracket");
    let ticks = after_name.split_whitespace().skip(11).take(2);
    ticks.map(|word| word.parse::<f64>().expect("ticks")).sum::<f64>() / 100.0
}

/// The same with pieces that do not give.
fn hard(plan: &Plan) -> Plan {
    let mut plan = plan.clone();
    for lot in plan.ballast.iter_mut().filter(|lot| lot.form == Form::Bag) {
        (lot.form, lot.softness) = (Form::Solid, None);
    }
    plan
}

fn number(n: usize) -> f64 {
    f64::from(u32::try_from(n).expect("few"))
}

/// The demo's seat with a bed, and lots, of its own.
fn seat(bearings: &[[f64; 2]]) -> Plan {
    let mut plan = plan::file::read(DEMO).expect("the demo is a plan");
    plan.stack.clear();
    plan.article.keep_clear.clear();
    let first = plan.bed.bearings[0].clone();
    plan.bed.bearings = bearings
        .iter()
        .enumerate()
        .map(|(index, x)| {
            let mut bearing = first.clone();
            bearing.name = format!("bearing {index}");
            (bearing.x, bearing.y) = (x.map(Length::m), [-1.0, 1.0].map(Length::m));
            bearing
        })
        .collect();
    plan
}

fn lot_like(lot: &Lot, name: String, size_m: [f64; 3], mass_kg: f64) -> Lot {
    let mut lot = lot.clone();
    (lot.name, lot.size, lot.mass) = (name, size_m.map(Length::m), Mass::kg(mass_kg));
    (lot.weighed, lot.count) = (BTreeMap::new(), 1);
    lot
}

/// Where a piece of a layer of six lies, the layers crossed in turn.
fn spot(layer: usize, spot: usize) -> ([f64; 2], Turn) {
    let (columns, cell, turn) =
        if layer.is_multiple_of(2) { (2, [0.31, 0.21], Turn::Lengthwise) } else { (3, [0.21, 0.31], Turn::Crosswise) };
    ([cell[0] * number(spot % columns), cell[1] * number(spot / columns)], turn)
}

/// Layers of six bags on a wide panel.
fn alike(pieces: usize) -> Plan {
    let mut plan = seat(&[[-1.0, 1.5]]);
    plan.ballast.truncate(1);
    plan.ballast[0] = lot_like(&plan.ballast[0], "bag".to_owned(), [0.3, 0.2, 0.05], 8.0);
    plan.ballast[0].count = u32::try_from(pieces).expect("few");
    for index in 0..pieces {
        let (at, turn) = spot(index / LAYER, index % LAYER);
        let item = u32::try_from(index + 1).expect("few");
        plan.stack.push(Place { lot: "bag".to_owned(), item, at: at.map(Length::m), turn, locked: false });
    }
    plan
}

/// Planks over two spars, layers of six bags of six masses and sizes each, planks again after every four.
fn different(pieces: usize) -> Plan {
    let mut plan = seat(&[[-0.25, -0.15], [0.45, 0.55]]);
    let bag = plan.ballast[0].clone();
    plan.ballast.clear();
    let (mut layer, mut bags) = (0_usize, 0_usize);
    while plan.stack.len() < pieces {
        let is_planks = layer.is_multiple_of(5);
        for k in 0..if is_planks { 3 } else { LAYER }.min(pieces - plan.stack.len()) {
            let name = format!("piece {}", plan.stack.len() + 1);
            let (lot, at, turn) = if is_planks {
                let mut plank = lot_like(&bag, name.clone(), [1.1, 0.2, 0.04], 4.0 + 0.01 * number(k));
                (plank.form, plank.softness) = (Form::Board, None);
                (plank, [0.15, 0.21 * number(k)], Turn::Lengthwise)
            } else {
                bags += 1;
                let (at, turn) = spot(layer, k);
                let size_m = [0.3 - 0.001 * number(bags % 7), 0.2 - 0.001 * number(bags % 5), 0.05];
                (lot_like(&bag, name.clone(), size_m, 8.0 + 0.013 * number(bags)), at, turn)
            };
            plan.ballast.push(lot);
            plan.stack.push(Place { lot: name, item: 1, at: at.map(Length::m), turn, locked: false });
        }
        layer += 1;
    }
    plan
}
