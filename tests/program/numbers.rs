//! Every number on every page of the three demos, as `pdftotext` (Poppler) reads it, is accounted for: by the report
//! (`check --json`), by the plan, by the table for a spreadsheet, by arithmetic with the plan's own figures that stands
//! here, or as a number that paper has (pages, steps, paragraphs). A number that nobody accounts for fails the test.

use crate::report;
use crate::sheet::{DEMOS, foreign, plan_of, sheet};
use assess::{Ask, Assessment};
use plan::Plan;
use quantity::{Quantity, Units};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

/// What a number measures; a bare one stands in a table whose head has the unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Kind {
    Mass,
    Length,
    Force,
    Pressure,
    Angle,
    Time,
    Share,
    Compliance,
    Gravity,
    Bare,
}

/// Units by hand: 1 lb = 0.45359237 kg, 1 in = 25.4 mm, 1 lbf = 4.4482216152605 N, 1 psi = 1 lbf/in².
const UNITS: [(&str, Kind, f64); 17] = [
    ("kg", Kind::Mass, 1.0),
    ("lb", Kind::Mass, 0.453_592_37),
    ("m", Kind::Length, 1.0),
    ("mm", Kind::Length, 1e-3),
    ("in", Kind::Length, 0.0254),
    ("N", Kind::Force, 1.0),
    ("lbf", Kind::Force, 4.448_221_615_260_5),
    ("MPa", Kind::Pressure, 1e6),
    ("Pa", Kind::Pressure, 1.0),
    ("psi", Kind::Pressure, 6_894.757_293_168),
    ("deg", Kind::Angle, 0.017_453_292_519_943_295),
    ("rad", Kind::Angle, 1.0),
    ("s", Kind::Time, 1.0),
    ("h", Kind::Time, 3600.0),
    ("%", Kind::Share, 0.01),
    ("m³/N", Kind::Compliance, 1.0),
    ("m/s²", Kind::Gravity, 1.0),
];

fn unit(word: &str) -> Option<(Kind, f64)> {
    UNITS.iter().find(|(name, ..)| *name == word).map(|(_, kind, si)| (*kind, *si))
}

/// A number as it is printed.
#[derive(Debug)]
struct Number {
    value: f64,
    /// Its last digit.
    digit: f64,
    unit: Option<(Kind, f64)>,
    /// What stands around it.
    around: String,
}

/// The numbers of a text; what is glued to a letter before it is part of a name.
fn numbers(text: &str) -> Vec<Number> {
    let mut numbers = Vec::new();
    let mut at = 0;
    while let Some(from) = text[at..].find(|c: char| c.is_ascii_digit()).map(|from| at + from) {
        let run = text[from..].find(|c: char| !c.is_ascii_digit() && c != '.').map_or(text.len(), |end| from + end);
        let digits = text[from..run].trim_end_matches('.');
        let mut end = from + digits.len();
        let glued = text[..from].ends_with(|c: char| c.is_alphanumeric());
        let (mut value, mut digit) = (digits.parse().unwrap_or(f64::NAN), 0.1_f64.powi(decimals(digits)));
        if let Some((power, length)) = power_of_ten(&text[end..]) {
            (value, digit, end) = (value * power, digit * power, end + length);
        }
        at = run.max(end);
        if !glued {
            let around: String = text[..from].chars().rev().take(40).collect::<Vec<_>>().into_iter().rev().collect();
            let after: String = text[from..].chars().take(30).collect();
            numbers.push(Number { value, digit, unit: unit_after(&text[end..]), around: around + &after });
        }
    }
    numbers
}

fn decimals(digits: &str) -> i32 {
    i32::try_from(digits.split_once('.').map_or(0, |(_, decimals)| decimals.len())).expect("few digits")
}

/// `e-8`: what it stands for, and how long it is.
fn power_of_ten(text: &str) -> Option<(f64, usize)> {
    let power = text.strip_prefix("e-")?;
    let length = power.find(|c: char| !c.is_ascii_digit()).unwrap_or(power.len());
    Some((0.1_f64.powi(power[..length].parse().ok()?), 2 + length))
}

/// `0.35 in any direction` has no unit.
fn unit_after(text: &str) -> Option<(Kind, f64)> {
    let text = text.strip_prefix(' ').filter(|text| !text.starts_with("in any "))?;
    let word = text.split(|c: char| c.is_whitespace() || ",.;:)".contains(c)).next()?;
    unit(word)
}

/// What a demo's paper is held against.
struct Subject {
    plan: Plan,
    report: Value,
    table: String,
    assessment: Assessment,
}

type Found = Vec<(Kind, f64)>;

/// Where numbers come from, in words and in code.
type Source = (&'static str, fn(&Subject) -> Found);

/// Where numbers come from, and why they are there.
const SOURCES: [Source; 10] = [
    ("a figure of the report", of_report),
    ("a quantity of the plan", of_plan),
    ("a cell of the table for a spreadsheet: bands, the way back", of_table),
    ("masses of a lot and of a layer added up", sums),
    ("the load due at a hold, and what lies there as a part of ultimate load", holds),
    ("an edge of a piece from mark A or from the string", edges),
    ("where the top mark should be, and what fits", leans),
    ("how high a piece is put down, and its lifting index", lifts),
    ("what the article sinks over a catch block, and what is left of the gap", gaps),
    ("the arithmetic of the hangar test", hangar),
];

/// What stands on paper whatever the plan: words with their numbers, and why.
const PAPER: [(&str, &str); 12] = [
    ("14 CFR 23.303", "the paragraph on the factor of safety"),
    ("14 CFR 23.305(a)", "the paragraph on permanent deformation"),
    ("14 CFR 23.305(b)", "the paragraph on three seconds"),
    ("99.99 of 100 faultless readings", "the share of readings within the band: 1 - 0.01 / readings, cut"),
    ("at most 1 of 100 faultless days", "the chance of a false stop"),
    ("3 s or more", "ultimate load is held for three seconds, 14 CFR 23.305(b)"),
    ("0.1, 0.3 and 1 MPa", "the softness at which bags that nobody measured are judged"),
    ("read after 60 s and after 600 s", "when the hangar test is read"),
    ("9.80665 m/s²", "standard gravity, exactly"),
    ("No crib higher than 3 times", "the slenderness of a crib, common practice"),
    ("Above 1 some people", "the lifting index at which some are at risk"),
    ("above 3 nearly everybody", "the lifting index at which nearly all are"),
];

fn of_report(subject: &Subject) -> Found {
    let mut found = Vec::new();
    of_json(&subject.report, "", &mut found);
    for finding in subject.report["findings"].as_array().into_iter().flatten() {
        let kind = finding["unit"].as_str().and_then(unit);
        let numbers = ["value", "limit"].into_iter().filter_map(|key| finding[key].as_f64());
        found.extend(numbers.map(|number| kind.map_or((Kind::Bare, number), |(kind, si)| (kind, number * si))));
        found.extend(finding["text"].as_str().into_iter().flat_map(told));
    }
    found
}

/// The numbers of a sentence of the report.
fn told(text: &str) -> Found {
    numbers(text).iter().map(|n| n.unit.map_or((Kind::Bare, n.value), |(kind, si)| (kind, n.value * si))).collect()
}

/// A number is of the kind that its key ends in; one of a list, of the list's.
fn of_json(value: &Value, key: &str, found: &mut Found) {
    match value {
        Value::Object(entries) => entries.iter().for_each(|(own, value)| {
            let is_part = ["mean", "deviation", "p5", "p95"].contains(&own.as_str());
            of_json(value, if is_part { key } else { own }, found);
        }),
        Value::Array(values) => values.iter().for_each(|value| of_json(value, key, found)),
        Value::Number(number) => {
            let number = number.as_f64().unwrap_or(f64::NAN);
            let is_place = ["centroid", "in_article", "in_floor"].contains(&key);
            let ends = if is_place { "m" } else { key.rsplit('_').next().unwrap_or(key) };
            found.push(match ends {
                "n" => (Kind::Force, number),
                "pa" => (Kind::Pressure, number),
                _ => unit(ends).map_or((Kind::Bare, number), |(kind, si)| (kind, number * si)),
            });
        }
        _ => {}
    }
}

/// The file's own text: quantities in quotes, numbers without; and what a file means that leaves a field out.
fn of_plan(subject: &Subject) -> Found {
    let plan = &subject.plan;
    let text = plan::file::write(plan);
    let mut found = Vec::new();
    for (index, part) in text.split('"').enumerate() {
        let numbers = told(part);
        found.extend(numbers.into_iter().filter(|(kind, _)| (index % 2 == 1) == (*kind != Kind::Bare)));
    }
    let lots = plan.ballast.iter().filter_map(|lot| Some((lot, lot.softness.as_ref()?)));
    for (lot, softness) in lots {
        let rim = softness.rim.map_or(0.25 * lot.size[2].si(), Quantity::si);
        found.extend([(Kind::Share, softness.creep_per_decade), (Kind::Length, rim)]);
    }
    let allowed = [(Kind::Bare, plan.allow.collapse), (Kind::Bare, plan.allow.critical)];
    found.extend(allowed.into_iter().chain([(Kind::Length, plan.allow.lean.si())]));
    found.push((Kind::Angle, plan.article.pitch.si() + plan.bed.slope.si()));
    found
}

fn of_table(subject: &Subject) -> Found {
    let mut table = csv::ReaderBuilder::new().flexible(true).has_headers(false).from_reader(subject.table.as_bytes());
    let lines: Vec<_> = table.records().map(|line| line.expect("a line")).collect();
    let cells = lines.iter().flatten().filter_map(|cell| cell.parse::<f64>().ok());
    let fine = if subject.plan.units == Units::Metric { 1e-3 } else { 0.0254 };
    // A cell's unit stands in its head: as a bare number it is what the paper's table has, as a length a place.
    cells.flat_map(|number| [(Kind::Bare, number), (Kind::Length, number * fine)]).collect()
}

fn sums(subject: &Subject) -> Found {
    let plan = &subject.plan;
    let mut sums: BTreeMap<(bool, String), f64> = BTreeMap::new();
    for (step, place) in plan.stack.iter().enumerate() {
        let kg = plan.mass_of(place).si();
        let layer = subject.assessment.closed.pile.layer[step];
        *sums.entry((true, place.lot.clone())).or_default() += kg;
        *sums.entry((false, format!("{layer}"))).or_default() += kg;
        // The front page may put two layers under one label.
        *sums.entry((false, format!("two from {}", (layer - 1) / 2))).or_default() += kg;
    }
    sums.into_values().map(|kg| (Kind::Mass, kg)).collect()
}

fn holds(subject: &Subject) -> Found {
    let ultimate_kg = subject.report["load"]["ultimate_kg"].as_f64().expect("a load");
    let steps = subject.report["steps"].as_array().expect("steps");
    let due = subject.plan.holds.iter().map(|hold| (Kind::Mass, hold.at * ultimate_kg));
    let lies = steps.iter().filter_map(|step| step["applied_kg"].as_f64());
    due.chain(lies.map(|kg| (Kind::Share, kg / ultimate_kg))).collect()
}

/// From the front edge of the foremost bearing and from the bed's middle, where the demos have mark and string.
fn edges(subject: &Subject) -> Found {
    let plan = &subject.plan;
    let mark_m = plan.bed.bearings.iter().map(|bearing| bearing.x[0].si()).fold(f64::INFINITY, f64::min);
    let edges = |place: &plan::Place| {
        let [length, width, _] = plan.extent_of(place).map(Quantity::si);
        let [x, y] = place.at.map(Quantity::si);
        [x - 0.5 * length - mark_m, x + 0.5 * length - mark_m, y - 0.5 * width, y + 0.5 * width]
    };
    plan.stack.iter().flat_map(edges).map(|m| (Kind::Length, m)).collect()
}

fn leans(subject: &Subject) -> Found {
    let plan = &subject.plan;
    let held: BTreeSet<usize> = subject.assessment.closed.hold_steps.iter().copied().flatten().collect();
    let planned = held.into_iter().filter_map(|step| testday::lean_planned(plan, step + 1));
    let lengths = planned.flat_map(|planned| {
        let shift = planned.due.shift.map(|shift| shift.usual_m);
        let sinks = planned.due.sinks.fits_from_to_m(2.0);
        [shift.to_vec(), vec![planned.due.sinks.usual_m], sinks.to_vec(), planned.fits_from_to_m.concat()].concat()
    });
    lengths.map(|m| (Kind::Length, m)).collect()
}

fn lifts(subject: &Subject) -> Found {
    let lifts = assess::handling::lifts(&subject.plan, &subject.assessment.closed);
    lifts.iter().flat_map(|lift| [(Kind::Length, lift.put_down.si()), (Kind::Bare, lift.index)]).collect()
}

fn gaps(subject: &Subject) -> Found {
    let exact = subject.assessment.exact.as_ref().expect("solved");
    let held = subject.assessment.closed.hold_steps.iter().copied().flatten();
    let moved: Vec<_> = held.filter_map(|step| exact.article_moved(step)).collect();
    let turned = moved.iter().flat_map(|moved| [moved.pitch_rad(), moved.roll_rad()]).map(|rad| (Kind::Angle, rad));
    let blocks = subject.plan.fixture.catch_blocks.iter();
    let left = blocks.flat_map(|block| {
        let sinks = moved.iter().map(|moved| moved.sink_m(&plan::point(block.at)));
        sinks.flat_map(|m| [m, block.gap.si() - m]).collect::<Vec<_>>()
    });
    turned.chain(left.map(|m| (Kind::Length, m))).collect()
}

/// By hand: compliance = sinking x flat / (mass x g); modulus = thickness / compliance; creep = growth by tenfold of time.
fn hangar(subject: &Subject) -> Found {
    let mut found = Vec::new();
    for lot in &subject.plan.ballast {
        let Some(softness) = &lot.softness else { continue };
        let (Some(flat), [first, last, ..]) = (softness.flat, softness.readings.as_slice()) else { continue };
        let [x, y] = flat.map(Quantity::si);
        let compliance = first.sinks.si() * x * y / (first.added.si() * 9.806_65);
        let decades = (last.after.si() / first.after.si()).log10();
        let creep = (last.sinks.si() / first.sinks.si() - 1.0) / decades;
        let pressure = lot.size[2].si() / compliance;
        found.extend([(Kind::Compliance, compliance), (Kind::Share, creep), (Kind::Pressure, pressure)]);
    }
    found
}

/// All that is known, by kind.
fn known(subject: &Subject) -> BTreeMap<Kind, Vec<f64>> {
    let mut known: BTreeMap<Kind, Vec<f64>> = BTreeMap::new();
    for (why, found) in SOURCES.map(|(why, source)| (why, source(subject))) {
        // A demo may have no catch block and no measured bag; what all have is never empty.
        assert!(!found.is_empty() || why.contains("catch") || why.contains("hangar"), "no number is {why}");
        found.into_iter().for_each(|(kind, number)| known.entry(kind).or_default().push(number));
    }
    known
}

/// Whether somebody accounts for a number. A bare one is a count up to the greatest one there is, or of any kind that the
/// paper's units can tell.
fn is_known(number: &Number, known: &BTreeMap<Kind, Vec<f64>>, (units, most): (Units, f64)) -> bool {
    let among = |kind: Kind, si: f64| {
        let close = |known: &f64| (known.abs() / si - number.value).abs() <= 0.5 * number.digit + 1e-9;
        known.get(&kind).is_some_and(|all| all.iter().any(close))
    };
    if let Some((kind, si)) = number.unit {
        return among(kind, si);
    }
    let is_count = number.digit > 0.9 && number.value <= most;
    let tells = |name: &str| match units {
        Units::Metric => ["kg", "m", "mm", "N"].contains(&name),
        Units::InchPound => ["lb", "in", "lbf"].contains(&name),
    };
    let by_unit = UNITS.iter().filter(|(name, ..)| tells(name));
    is_count || among(Kind::Bare, 1.0) || by_unit.into_iter().any(|(_, kind, si)| among(*kind, *si))
}

/// The page without what stands on every page, and without names that have numbers in them.
fn stripped(page: &str, subject: &Subject, (number, count): (usize, usize)) -> String {
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    let foot = format!("page {number} of {count}");
    assert!(page.contains(&foot), "no {foot:?} in {page}");
    let fingerprint = plan::file::fingerprint(&subject.plan);
    let cases = subject.plan.load_cases.iter().map(|case| case.basis.clone());
    let words = PAPER.iter().map(|(words, _)| (*words).to_owned());
    let bare = |page: String, words: String| page.replace(&words, "·");
    [foot, fingerprint].into_iter().chain(cases).chain(words).fold(page, bare)
}

/// What nobody accounts for on any page.
fn strangers(pages: &[&str], subject: &Subject) -> Vec<String> {
    let known = known(subject);
    let lots = subject.plan.ballast.iter().map(|lot| lot.count as usize);
    // Steps, lines of unloading for two runs, numbers of pieces, pages.
    let most = lots.chain([2 * subject.plan.steps(), pages.len()]).max().unwrap_or(0);
    #[expect(clippy::cast_precision_loss, reason = "counts are small")]
    let told = (subject.plan.units, most as f64);
    let of_page = |(index, page): (usize, &&str)| {
        let text = stripped(page, subject, (index + 1, pages.len()));
        let strange = numbers(&text).into_iter().filter(|number| !is_known(number, &known, told));
        strange.map(|number| format!("page {}: {} in …{}…", index + 1, number.value, number.around)).collect::<Vec<_>>()
    };
    pages.iter().enumerate().flat_map(of_page).collect()
}

fn subject(name: &str, folder: &std::path::Path) -> Subject {
    let table = std::fs::read_to_string(sheet(name, folder, "csv")).expect("the table");
    let plan = plan_of(name);
    let assessment = assess::assess(&plan, Ask::full());
    Subject { plan, report: report(name).0, table, assessment }
}

#[test]
fn every_number_on_every_page_is_accounted_for() {
    let folder = tempfile::tempdir().expect("a folder");
    for name in DEMOS {
        let pdf = sheet(name, folder.path(), "pdf");
        let Some(all) = foreign("pdftotext", &["-raw", &pdf, "-"]) else { return };
        let subject = subject(name, folder.path());
        let pages: Vec<&str> = all.trim_end_matches('\u{c}').split('\u{c}').collect();
        let strangers = strangers(&pages, &subject);
        assert!(
            strangers.is_empty(),
            "{name}: {} numbers are not accounted for:\n{}",
            strangers.len(),
            strangers.join("\n")
        );
        // A figure that is not the plan's is noticed: the mass on the seat, two units of its last digit off.
        let kg = subject.report["load"]["applied_kg"].as_f64().expect("a load")
            * crate::sheet::factor(subject.plan.units, 'm');
        let (right, wrong) = (format!("{kg:.1}"), format!("{:.1}", kg + 0.2));
        let forged: Vec<String> = pages.iter().map(|page| page.replace(&right, &wrong)).collect();
        let forged: Vec<&str> = forged.iter().map(String::as_str).collect();
        assert!(!self::strangers(&forged, &subject).is_empty(), "{name}: {wrong} instead of {right} was not noticed");
    }
}
