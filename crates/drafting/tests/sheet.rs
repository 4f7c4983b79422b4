//! The printed sheet, read back with a reader that is not ours.

use assess::{Reach, assess};
use drafting::page::Paper;
use drafting::{pdf, sheet, svg};
use lopdf::Document;
use plan::Plan;

const EXAMPLES: [(&str, &str); 3] = [
    ("single-seat", include_str!("../../../assets/examples/single-seat.ron")),
    ("side-by-side", include_str!("../../../assets/examples/side-by-side.ron")),
    ("four-faults", include_str!("../../../assets/examples/four-faults.ron")),
];

/// Beginnings of the cautions, short enough to stand on one line of any paper.
const CAUTIONS: [&str; 6] = [
    "Stand clear of the fall zone, and never under the load.",
    "Cribbing (catch blocks) close under the article.",
    "Two people, one only watching.",
    "Eye, foot and hand protection.",
    "Stop at any noise, shift, or reading that does not fit.",
    "a licensed engineer or inspector decide",
];

fn plan_of(text: &str) -> Plan {
    plan::file::read(text).expect("an example opens")
}

fn printed(plan: &Plan) -> Vec<u8> {
    sheet::pdf(plan, &assess(plan, Reach::Full)).expect("an example prints")
}

/// The text of each page, as lopdf reads it, white space made single.
fn texts(bytes: &[u8]) -> Vec<String> {
    let document = Document::load_mem(bytes).expect("a PDF that another reader opens");
    let pages = document.get_pages();
    let text = |page: &u32| document.extract_text(&[*page]).expect("a page with text");
    pages.keys().map(|page| text(page).split_whitespace().collect::<Vec<_>>().join(" ")).collect()
}

#[test]
fn the_same_plan_prints_the_same_bytes() {
    for (name, text) in EXAMPLES {
        let plan = plan_of(text);
        assert!(printed(&plan) == printed(&plan), "{name}: two prints differ");
    }
}

#[test]
fn every_page_carries_cautions_number_title_and_fingerprint() {
    for (name, text) in EXAMPLES {
        let plan = plan_of(text);
        let pages = texts(&printed(&plan));
        let start: String = plan.title.chars().take(20).collect();
        for (index, page) in pages.iter().enumerate() {
            for caution in CAUTIONS {
                assert!(page.contains(caution), "{name} page {}: no {caution:?} in {page}", index + 1);
            }
            let number = format!("page {} of {}", index + 1, pages.len());
            for due in [number.as_str(), start.trim(), plan::file::fingerprint(&plan).as_str()] {
                assert!(page.contains(due), "{name} page {}: no {due:?} in {page}", index + 1);
            }
        }
    }
}

#[test]
fn every_piece_stands_exactly_once_in_the_layer_tables() {
    for (name, text) in EXAMPLES {
        let plan = plan_of(text);
        let pages = texts(&printed(&plan));
        let layers: String =
            pages.iter().filter(|p| p.contains("where it goes")).cloned().collect::<Vec<_>>().join(" ");
        for step in 0..plan.steps() {
            let row = [
                format!("{} {} Lengthwise", step + 1, plan.piece_name(step)),
                format!("{} {} Crosswise", step + 1, plan.piece_name(step)),
            ];
            let got: usize = row.iter().map(|r| occurrences(&layers, r)).sum();
            assert_eq!(got, 1, "{name} step {}: got {got} rows, want 1 row, difference {}", step + 1, got.abs_diff(1));
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
        let applied = Mass::kg(assess(&plan, Reach::Full).applied_kg()).shown_bare(plan.units, Grain::Coarse);
        let pages = texts(&printed(&plan));
        assert!(
            pages.iter().any(|p| p.contains("where it goes") && p.contains(&applied)),
            "{name}: no {applied} in a layer table"
        );
    }
}

#[test]
fn the_title_is_that_of_the_document() {
    let plan = plan_of(EXAMPLES[0].1);
    let bytes = printed(&plan);
    let document = Document::load_mem(&bytes).expect("a PDF that another reader opens");
    let info = document.trailer.get(b"Info").and_then(lopdf::Object::as_reference).expect("document information");
    let info = document.get_dictionary(info).expect("document information");
    let title = info.get(b"Title").and_then(lopdf::decode_text_string).expect("a title");
    assert_eq!(title, plan.title);
}

#[test]
fn paper_goes_with_the_units() {
    for (index, paper) in [(0, Paper::A4), (1, Paper::Letter)] {
        let want = paper.size_mm().map(|mm| mm / 25.4 * 72.0);
        let document = Document::load_mem(&printed(&plan_of(EXAMPLES[index].1))).expect("a PDF");
        let page = document.get_pages()[&1];
        let media = document.get_dictionary(page).and_then(|p| p.get(b"MediaBox")).expect("a size");
        let numbers: Vec<f64> = media
            .as_array()
            .expect("four numbers")
            .iter()
            .map(|n| f64::from(n.as_float().expect("a number")))
            .collect();
        for (got, want) in numbers[2..].iter().zip(want) {
            assert!((got - want).abs() < 0.1, "got {got}, want {want}, difference {} pt", got - want);
        }
    }
}

#[test]
fn both_papers_hold_every_mark_of_every_page() {
    for (name, text) in EXAMPLES {
        let plan = plan_of(text);
        let assessment = assess(&plan, Reach::Full);
        for paper in [Paper::A4, Paper::Letter] {
            for page in sheet::pages(&plan, &assessment, paper) {
                let drawing = svg::write(&page);
                assert!(drawing.starts_with("<svg") && drawing.ends_with("</svg>\n"), "{name}: {paper:?}");
                let out = outermost(&page);
                assert!(out <= 0.0, "{name} {paper:?}: got a text {out:.2} mm outside the page, want 0 mm");
            }
        }
    }
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

#[test]
fn a_page_without_area_is_refused_in_a_sentence() {
    let page = drafting::page::Page { width_mm: 0.0, height_mm: 10.0, marks: Vec::new() };
    let error = pdf::write(&[page], "nothing").expect_err("no page without width").to_string();
    assert_eq!(error, "page 1 measures 0 mm by 10 mm: a page needs a width and a height");
}

#[test]
fn an_empty_stack_prints_a_summary() {
    let plan = Plan { stack: Vec::new(), ..plan_of(EXAMPLES[0].1) };
    let pages = texts(&printed(&plan));
    assert!(pages.iter().any(|p| p.contains("nothing is placed")), "got {pages:?}");
}
