//! The sheet against the report, both as the built binary writes them, read by programs that are not ours: `pdftotext`
//! (Poppler) and ImageMagick's `convert`. Where a program is not there, that is said and its test passes nothing.

use crate::{Kept, example, loadcairn, once, report, text};
use plan::Plan;
use quantity::{Quantity, Units};
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;
use std::sync::Mutex;

pub(crate) const DEMOS: [&str; 3] = ["tandem-rear-seat.ron", "side-by-side.ron", "four-faults.ron"];

/// What a program that is not ours writes to its output; none where it is not there.
pub(crate) fn foreign(program: &str, arguments: &[&str]) -> Option<String> {
    match Command::new(program).args(arguments).output() {
        Ok(output) => Some(text(&output.stdout) + &text(&output.stderr)),
        Err(_) => {
            #[expect(clippy::print_stderr, reason = "what is not tested is said aloud")]
            {
                eprintln!("{program} is not there: what needs it is not tested here");
            }
            None
        }
    }
}

/// The sheet of an example in this folder; one that is a single file is made once for all tests.
pub(crate) fn sheet(name: &str, folder: &Path, ending: &str) -> String {
    static SHEETS: Kept<Vec<u8>> = Mutex::new(BTreeMap::new());
    let out = folder.join(format!("sheet.{ending}"));
    let shown = out.display().to_string();
    let make = || loadcairn(&["sheet", &example(name).display().to_string(), "-o", &shown, "--force"]);
    if ending == "svg" {
        make();
    } else {
        let read = || {
            let output = make();
            std::fs::read(&out).unwrap_or_else(|error| panic!("{name}: {error}: {}", text(&output.stderr)))
        };
        let bytes = once(&SHEETS, &format!("{name} {ending}"), read);
        std::fs::write(&out, bytes).expect("a folder of the test's own");
    }
    shown
}

/// The words of the sheet in the order in which they are set, white space made single.
pub(crate) fn words(pdf: &str) -> Option<String> {
    foreign("pdftotext", &["-raw", pdf, "-"]).map(|all| all.split_whitespace().collect::<Vec<_>>().join(" "))
}

pub(crate) fn plan_of(name: &str) -> Plan {
    let text = std::fs::read_to_string(example(name)).expect("an example");
    plan::file::read(&text).expect("it opens")
}

/// The numbers of a text in their order.
pub(crate) fn numbers(text: &str) -> Vec<f64> {
    text.split(|c: char| !c.is_ascii_digit() && c != '.').filter_map(|word| word.parse().ok()).collect()
}

/// By hand: 1 lb = 0.45359237 kg, 1 in = 25.4 mm, 1 lbf = 4.4482216152605 N.
pub(crate) fn factor(units: Units, kind: char) -> f64 {
    match (units, kind) {
        (Units::Metric, 'l') => 1000.0,
        (Units::Metric, _) => 1.0,
        (_, 'm') => 1.0 / 0.453_592_37,
        (_, 'l') => 1.0 / 0.0254,
        (_, _) => 1.0 / 4.448_221_615_260_5,
    }
}

pub(crate) fn assert_is(what: &str, got: f64, want: f64, digit: f64) {
    // Half of the last digit that is printed, and what a binary fraction adds to it.
    assert!((got - want).abs() <= 0.5 * digit + 1e-9, "{what}: got {got}, want {want}, difference {}", got - want);
}

/// The row of a step: from its number and piece to the next row or the end of its table.
fn row_of<'a>(layers: &'a str, plan: &Plan, step: usize) -> &'a str {
    let begins = |step: usize| format!(" {} {} ", step + 1, plan.piece_name(step));
    let from = layers.find(&begins(step)).unwrap_or_else(|| panic!("no row of step {}", step + 1));
    let row = &layers[from + begins(step).len()..];
    let ends = [row.find(" HOLD “"), row.find(" STRAP “"), row.find(" Stand clear of the fall zone")];
    let next = (0..plan.steps()).filter(|other| *other != step).filter_map(|other| row.find(&begins(other)));
    &row[..ends.into_iter().flatten().chain(next).min().unwrap_or(row.len())]
}

#[test]
fn every_number_of_a_layers_rows_is_that_of_report_and_plan() {
    let folder = tempfile::tempdir().expect("a folder");
    for name in DEMOS {
        let Some(all) = words(&sheet(name, folder.path(), "pdf")) else { return };
        std::fs::remove_file(folder.path().join("sheet.pdf")).expect("the sheet");
        let (plan, (report, _)) = (plan_of(name), report(name));
        let layers = all.split_once("Layer 1 of").expect("layers").1;
        let layers = layers.split_once(UNLOADING).map_or(layers, |(before, _)| before);
        let steps = report["steps"].as_array().expect("steps");
        for (step, state) in steps.iter().enumerate() {
            let row = row_of(layers, &plan, step);
            if row.contains("DO NOT PLACE") {
                continue;
            }
            of_step(&format!("{name} step {}", step + 1), &plan, step, (state, row));
        }
    }
}

/// Mass, mass in all, taped place, what each scale and each strap should show.
fn of_step(what: &str, plan: &Plan, step: usize, (state, row): (&Value, &str)) {
    let mass = factor(plan.units, 'm');
    let (masses, rest) = row.split_once(',').expect("mass, in all");
    assert_is(what, numbers(masses)[0], plan.mass_of(&plan.stack[step]).si() * mass, 0.1);
    let applied = state["applied_kg"].as_f64().expect("a number") * mass;
    assert_is(what, numbers(rest)[0], applied, 0.1);
    taped(what, plan, step, row);
    let due: Vec<&str> = row.split(" ± ").collect();
    let due: Vec<f64> = due[..due.len() - 1].iter().filter_map(|part| numbers(part).last().copied()).collect();
    let scales = state["supports"].as_array().expect("supports").iter().filter_map(|s| s["reading_kg"].as_f64());
    let scales = scales.map(|kg| kg * mass);
    let straps = state["straps"].as_array().expect("straps").iter().filter_map(|s| s["tension_n"].as_f64());
    let want: Vec<f64> = scales.chain(straps.map(|n| n * factor(plan.units, 'f'))).collect();
    let scales = plan.fixture.supports.iter().filter(|support| support.scale).count();
    assert!(due.len() >= scales, "{what}: {} readings in {row:?}", due.len());
    for (index, (got, want)) in due.iter().zip(&want).enumerate() {
        assert_is(&format!("{what}, instrument {}", index + 1), *got, *want, if index < scales { 0.1 } else { 1.0 });
    }
}

/// The front edge from mark A (at the front edge of the foremost bearing) and the left edge from the string over the
/// bed's middle, by the plan's own numbers.
fn taped(what: &str, plan: &Plan, step: usize, row: &str) {
    let place = &plan.stack[step];
    let [length, width, _] = plan.extent_of(place).map(Quantity::si);
    let marks = plan.bed.bearings.iter().map(|bearing| bearing.x[0].si());
    let mark = marks.fold(f64::INFINITY, f64::min);
    let (unit, digit) = (factor(plan.units, 'l'), if plan.units == Units::Metric { 1.0 } else { 0.05 });
    let want = [place.at[0].si() - 0.5 * length - mark, place.at[1].si() - 0.5 * width].map(|m| m * unit);
    for (want, words) in want.into_iter().zip([["aft", "forward"], ["right", "left"]]) {
        if want.abs() < 0.5 * digit {
            continue;
        }
        let side = words[usize::from(want < 0.0)];
        let told = row.split_whitespace().collect::<Vec<_>>();
        let said = told.windows(2).filter(|pair| pair[1] == side).filter_map(|pair| pair[0].parse::<f64>().ok());
        let near = said.map(|got| (got - want.abs()).abs()).fold(f64::INFINITY, f64::min);
        assert!(near <= 0.5 * digit + 1e-6, "{what}: no {:.2} {side} in {row:?}", want.abs());
    }
}

/// What stands under the head of every page of unloading.
const UNLOADING: &str = "Nobody reaches under the load.";

/// Whatever comes off, what is left is the sum of the masses of the plan that are still there.
#[test]
fn what_is_left_after_each_removal_is_the_sum_of_the_plans_masses() {
    let folder = tempfile::tempdir().expect("a folder");
    for name in DEMOS {
        let Some(all) = words(&sheet(name, folder.path(), "pdf")) else { return };
        std::fs::remove_file(folder.path().join("sheet.pdf")).expect("the sheet");
        let plan = plan_of(name);
        let back = all.split_once(UNLOADING).expect("unloading").1;
        let back = back.split_once("Hang this page where everybody sees it").map_or(back, |(before, _)| before);
        let lines = lines(back, &plan);
        for (number, run) in plan.runs().iter().enumerate() {
            let mut lying: Vec<usize> = (0..run.placements(&plan)).collect();
            for line in lines_of(back, number, lines.len()) {
                let what = format!("{name}, run {}, line {line}", number + 1);
                let (step, left) = lines.get(&line).copied().unwrap_or_else(|| panic!("{what} is not there: {back}"));
                let count = lying.len();
                lying.retain(|lies| *lies != step);
                assert_eq!(lying.len() + 1, count, "{what}: step {} does not lie there", step + 1);
                let kg: f64 = lying.iter().map(|step| plan.mass_of(&plan.stack[*step]).si()).sum();
                assert_is(&what, left, kg * factor(plan.units, 'm'), 0.1);
            }
            assert_eq!(lying, Vec::<usize>::new(), "{name}, run {}: what stays on the seat", number + 1);
        }
    }
}

/// By its number: the step (from 0) that comes off on a line, and what is left.
fn lines(back: &str, plan: &Plan) -> BTreeMap<usize, (usize, f64)> {
    let words: Vec<&str> = back.split(' ').collect();
    let line = |at: usize| {
        let number: usize = words[at].parse().ok()?;
        let rest = words[at + 1..].join(" ");
        let begins = |step: usize| format!("{} {} ", plan.piece_name(step), step + 1);
        let step = (0..plan.steps()).find(|step| rest.starts_with(&begins(*step)))?;
        Some((number, (step, *numbers(&rest[begins(step).len()..]).first()?)))
    };
    (0..words.len()).filter_map(line).collect()
}

/// Which lines are those of a run (from 0), by the sentence over the tables; all where there is one run.
fn lines_of(back: &str, run: usize, rows: usize) -> Vec<usize> {
    let Some((_, told)) = back.split_once(&format!("After run {}: lines ", run + 1)) else {
        return (1..=rows).collect();
    };
    let told = numbers(told.split_once('.').expect("a sentence").0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "numbers of lines")]
    told.chunks(2).flat_map(|ends| ends[0] as usize..=ends[1] as usize).collect()
}

/// A page as SVG and the same page as PDF, each drawn by a program that is not ours and blurred so far that the edges of
/// letters do not count, are the same picture; two pages are not. Root mean square of the difference, of full white:
/// measured 0.02 to 0.04 for the same page, 0.09 and more for two.
#[test]
fn a_page_as_svg_looks_like_the_page_as_pdf_to_viewers_that_are_not_ours() {
    let folder = tempfile::tempdir().expect("a folder");
    let at = |name: String| folder.path().join(name).display().to_string();
    let pdf = sheet(DEMOS[0], folder.path(), "pdf");
    sheet(DEMOS[0], folder.path(), "svg");
    let pages = ["1", "5", "6"];
    for page in pages {
        let (svg, from_svg) = (at(format!("sheet-0{page}.svg")), at(format!("svg{page}.png")));
        let (raw, from_pdf) = (at(format!("raw{page}")), at(format!("pdf{page}.png")));
        let drawn = ["-density", "50", "-background", "white", "-flatten", &svg, "-resize", "400x566!"];
        let gray = ["-colorspace", "gray", "-blur", "0x5"];
        let Some(_) = foreign("convert", &[&drawn[..], &gray, &[&from_svg]].concat()) else { return };
        let size = ["-png", "-singlefile", "-f", page, "-l", page, "-scale-to-x", "400", "-scale-to-y", "566"];
        let Some(_) = foreign("pdftoppm", &[&size[..], &[&pdf, &raw]].concat()) else { return };
        foreign("convert", &[&[format!("{raw}.png").as_str()], &gray[..], &[&from_pdf]].concat());
    }
    for one in pages {
        for other in pages {
            let pair = [at(format!("svg{one}.png")), at(format!("pdf{other}.png"))];
            let said =
                foreign("compare", &["-metric", "RMSE", &pair[0], &pair[1], "null:"]).expect("as convert is there");
            let share = said.split_once('(').and_then(|(_, rest)| rest.split_once(')')?.0.parse::<f64>().ok());
            let share = share.unwrap_or_else(|| panic!("pages {one} and {other}: {said}"));
            assert_eq!(share < 0.06, one == other, "SVG of page {one}, PDF of page {other}: they differ by {share}");
        }
    }
}

/// A reader of PDF that is not ours finds the tags and has nothing to object to.
#[test]
fn a_common_reader_finds_no_fault_with_the_sheet() {
    let folder = tempfile::tempdir().expect("a folder");
    let pdf = sheet(DEMOS[0], folder.path(), "pdf");
    let Some(said) = foreign("pdfinfo", &[&pdf]) else { return };
    assert!(said.lines().any(|line| line.starts_with("Tagged:") && line.ends_with("yes")), "{said}");
    assert!(!said.contains("Error"), "{said}");
}
