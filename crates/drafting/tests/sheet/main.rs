//! The printed sheet, read back with a reader that is not ours.

mod entered;
mod files;
mod hold;
#[path = "../read_back/mod.rs"]
mod read_back;
mod readings;
mod way_back;

use assess::{Ask, Assessment, Effort, assess};
use drafting::cautions::{CAUTION_LINE, CAUTIONS, DECIDES, STRIP};
use drafting::page::Paper;
use drafting::{pdf, sheet, svg};
use lopdf::Document;
use plan::Plan;
use read_back::texts;
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

const EXAMPLES: [(&str, &str); 3] = [
    ("tandem-rear-seat", include_str!("../../../../assets/examples/tandem-rear-seat.ron")),
    ("side-by-side", include_str!("../../../../assets/examples/side-by-side.ron")),
    ("four-faults", include_str!("../../../../assets/examples/four-faults.ron")),
];

fn plan_of(text: &str) -> Plan {
    plan::file::read(text).expect("an example opens")
}

/// The whole assessment of a plan, solved once for all tests: it takes seconds.
fn solved(plan: &Plan) -> Arc<Assessment> {
    static SOLVED: Mutex<BTreeMap<String, Arc<OnceLock<Arc<Assessment>>>>> = Mutex::new(BTreeMap::new());
    let text = plan::file::write(plan);
    let slot = Arc::clone(SOLVED.lock().unwrap_or_else(PoisonError::into_inner).entry(text).or_default());
    Arc::clone(slot.get_or_init(|| Arc::new(assess(plan, Ask::full()))))
}

fn printed(plan: &Plan) -> Vec<u8> {
    sheet::pdf(plan, &solved(plan)).expect("an example prints")
}

#[test]
fn the_same_plan_prints_the_same_bytes() {
    for (name, text) in EXAMPLES {
        let plan = plan_of(text);
        assert!(printed(&plan) == printed(&plan), "{name}: two prints differ");
    }
}

#[test]
fn what_no_solver_decided_is_printed_as_not_decided_and_never_as_holding() {
    let plan = plan_of(EXAMPLES[1].1);
    let stopped_at_once = Effort { own: 0, general: 0 };
    let assessment = assess(&plan, Ask { effort: stopped_at_once, ..Ask::full() });
    let whole = texts(&printed(&plan)).join(" ");
    let short = texts(&sheet::pdf(&plan, &assessment).expect("it prints")).join(" ");
    let told = |text: &str| ["No check fails, none is undecided", "DO NOT LOAD"].map(|verdict| text.contains(verdict));
    assert_eq!(told(&whole), [true, false], "the demo holds when it is decided");
    assert_eq!(told(&short), [false, true], "nothing that is not decided holds");
    for check in ["Every step stands", "Collapse reserve"] {
        let row = format!("not decided {check}");
        assert!(short.contains(&row), "no {row:?} on the sheet: {short}");
        assert!(!whole.contains(&row), "{row:?} on the sheet of a plan that is decided");
    }
}

#[test]
fn every_page_carries_cautions_number_title_and_fingerprint_and_one_has_them_in_full() {
    for (name, text) in EXAMPLES {
        let plan = plan_of(text);
        let pages = texts(&printed(&plan));
        let start: String = plan.title.chars().take(20).collect();
        for (index, page) in pages.iter().enumerate() {
            let number = format!("page {} of {}", index + 1, pages.len());
            let fingerprint = plan::file::fingerprint(&plan);
            for due in [STRIP, DECIDES, number.as_str(), start.trim(), fingerprint.as_str()] {
                assert!(page.contains(due), "{name} page {}: no {due:?} in {page}", index + 1);
            }
        }
        let emergency = pages.iter().find(|page| page.starts_with("Emergency")).expect("a page for an emergency");
        for caution in CAUTIONS {
            assert!(emergency.contains(caution), "{name}: no {caution:?} in {emergency}");
        }
    }
}

/// The strip at the foot of each page names what each caution of the list names, in its own short words.
#[test]
fn the_strip_leaves_out_no_caution_of_the_list() {
    let told = [
        "fall zone, never under the load",
        "Article held as planned, catch blocks close",
        "Two lift, one more watches",
        "Lower, never drop",
        "Never catch a falling stack",
        "eyes, feet, hands",
        "line of straps",
        "from a distance or by camera",
        "any noise, shift, reading",
        "deflection",
    ];
    assert_eq!(told.len() + 1, CAUTIONS.len(), "a caution without its words in the strip; who decides stands below it");
    for words in told {
        assert!(STRIP.contains(words), "no {words:?} in {STRIP}");
    }
    assert!(DECIDES.contains("licensed engineer or inspector decide"), "{DECIDES}");
}

/// How far a text reaches over the edge of its page, mm; negative inside.
fn outermost(page: &drafting::page::Page) -> f64 {
    use drafting::figure::Align;
    use drafting::lower::Primitive;
    let over = |mark: &Primitive| {
        let Primitive::Text { at, align, size, bold, text, .. } = mark else { return f64::NEG_INFINITY };
        let (x, width) = (f64::from(at[0]), drafting::text::width(text, f64::from(*size), *bold));
        let left = match align {
            Align::Left => x,
            Align::Centre => x - width / 2.0,
            Align::Right => x - width,
        };
        (-left).max(left + width - page.width_mm).max(f64::from(at[1]) - page.height_mm)
    };
    page.marks.iter().map(over).fold(f64::NEG_INFINITY, f64::max)
}

/// Pages of layers, in one text.
fn layers_of(pages: &[String]) -> String {
    pages.iter().filter(|page| page.starts_with("Layer ")).cloned().collect::<Vec<_>>().join(" ")
}

#[test]
fn every_piece_stands_exactly_once_in_the_layer_tables_with_its_mass_and_all_that_is_on() {
    use quantity::{Grain, Mass, Quantity};
    for (name, text) in EXAMPLES {
        let plan = plan_of(text);
        let layers = layers_of(&texts(&printed(&plan)));
        let assessment = solved(&plan);
        for step in 0..plan.steps() {
            let own = plan.mass_of(&plan.stack[step]).shown(plan.units, Grain::Coarse);
            let all = Mass::kg(assessment.closed.steps[step].applied_kg).shown_bare(plan.units, Grain::Coarse);
            let row = format!("{} {} {own}, in all {all} ", step + 1, plan.piece_name(step));
            let got = occurrences(&layers, &row);
            assert_eq!(
                got,
                1,
                "{name} step {}: got {got} rows {row:?}, want 1, difference {}",
                step + 1,
                got.abs_diff(1)
            );
        }
    }
}

/// How often a row occurs, not counting `11 bag` where `1 bag` is sought.
fn occurrences(text: &str, row: &str) -> usize {
    let whole = |at: usize| !text[..at].ends_with(|c: char| c.is_ascii_digit());
    text.match_indices(row).filter(|(at, _)| whole(*at)).count()
}

#[test]
fn a_plan_that_falls_short_says_so_on_every_page() {
    let plan = plan_of(EXAMPLES[2].1);
    for (index, page) in texts(&printed(&plan)).iter().enumerate() {
        assert!(page.contains("DO NOT LOAD"), "page {}: {page}", index + 1);
    }
}

#[test]
fn the_summary_says_that_the_reserve_is_an_upper_bound() {
    let pages = texts(&printed(&plan_of(EXAMPLES[0].1)));
    assert!(pages[0].contains("upper bound where friction is needed"), "got {}", pages[0]);
}

#[test]
fn the_applied_load_of_the_last_row_is_that_of_the_assessment() {
    use quantity::{Grain, Mass, Quantity};
    for (name, text) in EXAMPLES {
        let plan = plan_of(text);
        let applied = Mass::kg(solved(&plan).closed.applied_kg()).shown_bare(plan.units, Grain::Coarse);
        let pages = texts(&printed(&plan));
        assert!(layers_of(&pages).contains(&format!("in all {applied} ")), "{name}: no {applied} in a layer's table");
    }
}

#[test]
fn a_page_without_area_is_refused_in_a_sentence() {
    let page = drafting::page::Page { width_mm: 0.0, height_mm: 10.0, marks: Vec::new(), parts: Vec::new() };
    let error = pdf::write(&[page], "nothing").expect_err("no page without width").to_string();
    assert_eq!(error, "page 1 measures 0 mm by 10 mm: a page needs a width and a height");
}

#[test]
fn an_empty_stack_prints_a_summary() {
    let plan = Plan { stack: Vec::new(), ..plan_of(EXAMPLES[0].1) };
    let pages = texts(&printed(&plan));
    assert!(pages.iter().any(|p| p.contains("nothing is placed")), "got {pages:?}");
}

/// The two-column sums of the readings: what all scales and blocks should show is the weight of
/// article and stack and what the strap pulls down; here as printed, for the last step of the demo.
#[test]
fn readings_stand_on_the_sheet_with_their_bands() {
    let plan = plan_of(EXAMPLES[0].1);
    let assessment = solved(&plan);
    let last = assessment.exact.as_ref().and_then(|e| e.expected.last()?.as_ref()).expect("the demo stands");
    let pages = texts(&printed(&plan));
    // The band is the one that stops loading on the day.
    let tare = testday::Reading {
        scales_kg: scales(&plan, &assessment, 0).into_iter().collect(),
        ..testday::Reading::default()
    };
    let course = testday::Course::of(&plan);
    let ranges = course.ranges(&tare, [0, plan.steps()]);
    for (band, range) in last.scales.iter().zip(ranges).filter_map(|(band, range)| band.zip(range)) {
        let due = format!("{:.1} ± {:.1}", band.reading_kg, range.stop_kg);
        let got = pages.iter().filter(|p| p.contains(&due)).count();
        assert!(got >= 1, "got {due} on {got} pages, want it in the row of the last step");
    }
    // 34 and 49 steps on three scales: 1 - 0.01 / 249 of the readings (Boole), cut to a hundredth of a per cent.
    let said = "99.99 of 100 faultless readings lie within it; at most 1 of 100 faultless days is stopped by it.";
    assert!(pages.iter().any(|page| page.contains(said)), "what the band means stands beside it");
}

/// What each scale should show after so many placements, kg.
fn scales(plan: &Plan, assessment: &assess::Assessment, placed: usize) -> Vec<(String, f64)> {
    let state = assessment.exact.as_ref().and_then(|e| e.expected[placed].as_ref()).expect("the demo stands");
    let bands = plan.fixture.supports.iter().zip(&state.scales);
    bands.filter_map(|(support, band)| Some((support.name.clone(), band.as_ref()?.reading_kg))).collect()
}

#[test]
fn no_line_of_the_sheet_speaks_in_names_of_the_program() {
    for (name, text) in EXAMPLES {
        for page in texts(&printed(&plan_of(text))) {
            for code in ["target.tolerance", "allow.", "hold_down", "the crate", "source key", "keep_clear"] {
                assert!(!page.contains(code), "{name}: {code:?} in {page}");
            }
        }
    }
}

/// A tower of so many bags, each a layer of its own, with a long name.
fn tower(layers: u32, units: quantity::Units) -> Plan {
    let mut plan = plan_of(EXAMPLES[0].1);
    plan.units = units;
    plan.title =
        "A test whose title is far longer than any line of paper could ever hold, and then some more".to_owned();
    plan.ballast.truncate(1);
    let lot = &mut plan.ballast[0];
    lot.name = "shot bag, doubly sewn, from the store behind the hangar".to_owned();
    (lot.count, lot.weighed) = (layers, std::collections::BTreeMap::new());
    let at = plan.stack.last().expect("the demo has pieces").at;
    let place = |item| plan::Place { lot: lot.name.clone(), item, at, turn: plan::Turn::Lengthwise, locked: false };
    plan.stack = (1..=layers).map(place).collect();
    plan
}

#[test]
fn one_layer_and_a_hundred_and_twenty_print_on_both_papers_in_both_units() {
    for (layers, units) in
        [1, 120].into_iter().flat_map(|l| [quantity::Units::Metric, quantity::Units::InchPound].map(|u| (l, u)))
    {
        let plan = tower(layers, units);
        let assessment = assess(&plan, Ask::closed());
        for paper in [Paper::A4, Paper::Letter] {
            let pages = sheet::pages(&plan, &assessment, paper);
            for page in &pages {
                let out = outermost(page);
                assert!(out <= 0.0, "{layers} layers {paper:?}: got a text {out:.2} mm outside the page, want 0 mm");
            }
            let bytes = pdf::write(&pages, &plan.title).expect("it prints");
            let texts = texts(&bytes).join(" ");
            let heads = texts.matches("Layer ").count();
            assert!(heads >= layers as usize, "got {heads} pages of layers, want {layers}");
        }
    }
}

/// A plan told in the other units: its sheet is on the other paper.
fn in_inches(text: &str) -> Plan {
    plan_of(&text.replace("units: Metric", "units: InchPound"))
}

#[test]
fn no_heading_of_the_findings_stands_alone_at_the_foot_of_a_page() {
    for (name, text) in EXAMPLES {
        for plan in [plan_of(text), in_inches(text)] {
            for page in texts(&printed(&plan)) {
                for heading in ["To look at first state check, value, limit", "Checks that are met check value limit"] {
                    let name_of_it =
                        heading.split_once(" check").expect("the head of its table").0.replace(" state", "");
                    assert!(!page.contains(&name_of_it) || page.contains(heading), "{name}: {heading} in {page}");
                }
            }
        }
    }
}

#[test]
fn the_steps_of_a_scale_are_told_without_the_last_digits_of_a_conversion() {
    // 0.1 kg = 0.220462 lb by the definition of the pound: common practice, no source.
    let fixture = texts(&printed(&in_inches(EXAMPLES[0].1))).join(" ");
    assert!(fixture.contains("0.22 lb"), "{fixture}");
    assert!(!fixture.contains("0.2204"), "{fixture}");
}

#[test]
fn a_figure_typed_over_a_rules_is_told_on_the_title_page() {
    let mut plan = plan_of(EXAMPLES[0].1);
    let rule = &plan::standard::Standard::all()[0];
    let case = plan.load_cases.iter_mut().find(|case| case.name == plan.case).expect("a case in hand");
    *case = plan::LoadCase { occupant_mass: quantity::Mass::kg(80.0), ..rule.fill(case) };
    let told = "occupant mass 80.0 kg, the basis says 97.5 kg";
    assert!(texts(&printed(&plan))[0].contains(told), "{}", texts(&printed(&plan))[0]);
}
