//! Somebody who has the paper alone lays the stack out: from the words of the ballast page and of the layer pages, as
//! `pdftotext` (Poppler) reads them, each piece's place from mark A and string, its layer and its mass. What comes out is
//! the plan's.

use crate::sheet::{DEMOS, factor, plan_of, sheet, words};
use plan::Plan;
use quantity::{Quantity, Units};

/// A piece as the paper says it lies, lengths in the paper's fine unit from mark A and string, aft and right positive.
#[derive(Debug)]
struct Laid {
    layer: usize,
    step: usize,
    piece: String,
    mass: f64,
    middle: [f64; 2],
}

/// Length and width of the pieces of each lot, in the paper's fine unit.
fn sizes(all: &str, plan: &Plan) -> Vec<(String, [f64; 2])> {
    let (_, page) = all.split_once("What must lie ready").expect("the page of bags and masses");
    let fine = if plan.units == Units::Metric { 1000.0 } else { 1.0 };
    let size = |lot: &plan::Lot| {
        let (_, row) = page.split_once(&format!(" {} ", lot.name))?;
        let words: Vec<&str> = row.split(' ').collect();
        let cross = words.iter().position(|word| *word == "×")?;
        let number = |at: usize| words.get(at)?.parse::<f64>().ok();
        Some((lot.name.clone(), [number(cross - 1)? * fine, number(cross + 1)? * fine]))
    };
    plan.ballast.iter().filter_map(size).collect()
}

/// `240 aft`, `at A`: how far from the datum, and the words that are left.
fn taped<'w>(words: &'w [&'w str], [positive, negative]: [&str; 2]) -> (f64, &'w [&'w str]) {
    match words {
        ["at", _, rest @ ..] => (0.0, rest),
        [number, side, rest @ ..] if *side == positive => (number.parse().expect("a number"), rest),
        [number, side, rest @ ..] if *side == negative => (-number.parse::<f64>().expect("a number"), rest),
        _ => panic!("no place in {words:?}"),
    }
}

/// What the rows of a layer's pages say, in the order of their steps.
fn laid(all: &str, plan: &Plan) -> Vec<Laid> {
    let sizes = sizes(all, plan);
    let mut laid = Vec::new();
    let mut layer = 0;
    let words: Vec<&str> = all.split(' ').collect();
    for at in 0..words.len() {
        if let ["Layer", number, "of", ..] = words[at..] {
            layer = number.parse().unwrap_or(layer);
        }
        if words[at] == "Unloading" && layer > 0 && words.get(at + 1) == Some(&"Nobody") {
            break;
        }
        laid.extend(row(&words[at..], (layer, laid.len() + 1), &sizes));
    }
    laid
}

/// The row of the step that comes next, if it begins here: number, piece, mass, how it lies, its two edges.
fn row(words: &[&str], (layer, step): (usize, usize), sizes: &[(String, [f64; 2])]) -> Option<Laid> {
    if layer == 0 || words.first()? != &step.to_string() {
        return None;
    }
    let text = words[1..words.len().min(40)].join(" ");
    let (lot, size) = sizes.iter().find(|(lot, _)| text.starts_with(&format!("{lot} ")))?;
    let rest: Vec<&str> = text[lot.len() + 1..].split(' ').collect();
    let mass = rest.get(1)?.parse().ok()?;
    let turn = rest.iter().position(|word| word.starts_with("Lengthwise") || word.starts_with("Crosswise"))?;
    let [along, across] = if rest[turn].starts_with("Lengthwise") { *size } else { [size[1], size[0]] };
    // The name of the row and the place in it come before the two edges.
    let is_place = |pair: &[&str]| pair[0] == "at" || ["aft", "forward"].contains(&pair[1]);
    let place = turn + rest[turn..].windows(2).position(is_place)?;
    let (front, left) = taped(&rest[place..], ["aft", "forward"]);
    let (left, _) = taped(left, ["right", "left"]);
    let middle = [front + 0.5 * along, left + 0.5 * across];
    Some(Laid { layer, step, piece: format!("{lot} {}", rest[0]), mass, middle })
}

#[test]
fn who_has_the_paper_alone_lays_the_stack_of_the_plan() {
    let folder = tempfile::tempdir().expect("a folder");
    for name in DEMOS {
        let Some(all) = words(&sheet(name, folder.path(), "pdf")) else { return };
        std::fs::remove_file(folder.path().join("sheet.pdf")).expect("the sheet");
        let plan = plan_of(name);
        let layout = assess::assess(&plan, assess::Ask::closed()).closed;
        let laid = laid(&all, &plan);
        assert_eq!(laid.len(), plan.steps(), "{name}: rows that were understood");
        // Mark A is at the front edge of the foremost bearing, the string over the bed's middle, as its page says.
        let mark_m = plan.bed.bearings.iter().map(|bearing| bearing.x[0].si()).fold(f64::INFINITY, f64::min);
        let (unit, digit) = (factor(plan.units, 'l'), if plan.units == Units::Metric { 1.0 } else { 0.01 });
        for (index, got) in laid.iter().enumerate() {
            let (what, place) = (format!("{name}, step {}", got.step), &plan.stack[index]);
            assert_eq!(got.piece, plan.piece_name(index), "{what}");
            assert_eq!(got.layer, layout.pile.layer[index], "{what}: its layer");
            let mass = plan.mass_of(place).si() * factor(plan.units, 'm');
            assert!((got.mass - mass).abs() <= 0.05 + 1e-9, "{what}: got {} want {mass}", got.mass);
            let want = [(place.at[0].si() - mark_m) * unit, place.at[1].si() * unit];
            for (axis, (got, want)) in got.middle.into_iter().zip(want).enumerate() {
                let off = got - want;
                // The edge is told to its last digit, the size of a piece to a thousandth of a metre or of an inch.
                assert!(off.abs() <= digit + 1e-6, "{what}, axis {axis}: got {got} want {want} off {off}");
            }
        }
    }
}
