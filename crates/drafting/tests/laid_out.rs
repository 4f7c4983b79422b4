//! Fifty plans, drawn by number and no chance: long names, one piece to two hundred, both systems of units, failing
//! ones. No words over one another, none over the edge, none too small, no page left half empty where it runs on.

use assess::{Ask, assess};
use drafting::figure::Align;
use drafting::lower::Primitive;
use drafting::page::{Page, Paper, Role};
use drafting::sheet;
use plan::{Place, Plan, Turn};
use quantity::Units;
use std::collections::BTreeMap;

const DEMO: &str = include_str!("../../../assets/examples/tandem-rear-seat.ron");
const PANEL: &str = include_str!("../../../assets/examples/side-by-side.ron");

/// Plan number so many of the set.
fn drawn(number: u32) -> Plan {
    let text = if number.is_multiple_of(3) { PANEL } else { DEMO };
    let mut plan = plan::file::read(text).expect("an example opens");
    plan.units = if number.is_multiple_of(2) { Units::Metric } else { Units::InchPound };
    let pieces = [1, 2, 5, 7, 8, 13, 30, 60, 120, 200][(number % 10) as usize];
    if number % 5 == 1 {
        plan.title =
            "A title that is far longer than any line of paper could ever hold, of the seat and its frame".to_owned();
    }
    plan.ballast.truncate(1);
    let lot = &mut plan.ballast[0];
    if number % 4 == 1 {
        lot.name = "shot bag, doubly sewn, from the store behind the hangar".to_owned();
        plan.fixture.supports[0].name = "front cell under the middle of the lower beam".to_owned();
    }
    (lot.count, lot.weighed) = (pieces, BTreeMap::new());
    let [length, width, _] = lot.size;
    // In layers of six, or all in one heap of columns; what hangs over the bed makes a plan that fails.
    let abreast = if number.is_multiple_of(7) { 12 } else { 6 };
    let place = |index: u32| {
        let (row, column) = (index % abreast / 3, index % 3);
        let at = [length * (0.5 + f64::from(row)), width * (f64::from(column) - 1.0)];
        Place { lot: lot.name.clone(), item: index + 1, at, turn: Turn::Lengthwise, locked: false }
    };
    plan.stack = (0..pieces).map(place).collect();
    plan
}

/// What lies where on a page, mm: left, top, right, bottom, with its words.
struct Set {
    area: [f64; 4],
    words: String,
}

fn texts(page: &Page, marks: std::ops::Range<usize>) -> Vec<Set> {
    let set = |mark: &Primitive| {
        let Primitive::Text { at, align, size, bold, text, .. } = mark else { return None };
        let (x, y, size) = (f64::from(at[0]), f64::from(at[1]), f64::from(*size));
        let width = drafting::text::width(text, size, *bold);
        let left = match align {
            Align::Left => x,
            Align::Centre => x - width / 2.0,
            Align::Right => x - width,
        };
        Some(Set { area: [left, y - 0.72 * size, left + width, y + 0.1 * size], words: text.clone() })
    };
    page.marks[marks].iter().filter_map(set).collect()
}

/// How far two areas lie over one another, the lesser of across and down; none or less: they do not.
fn overlap(a: &[f64; 4], b: &[f64; 4]) -> f64 {
    (a[2].min(b[2]) - a[0].max(b[0])).min(a[3].min(b[3]) - a[1].max(b[1]))
}

#[test]
fn no_words_of_any_drawn_plan_lie_over_others_or_over_the_edge_or_are_too_small() {
    for number in 0..50 {
        let plan = drawn(number);
        let assessment = assess(&plan, Ask::closed());
        let paper = Paper::usual(plan.units);
        let pages = sheet::pages(&plan, &assessment, paper);
        for (index, page) in pages.iter().enumerate() {
            let whence = format!("plan {number}, page {} of {}", index + 1, pages.len());
            let told = page.parts.iter().filter(|part| !matches!(part.role, Role::Drawing(_)));
            let mut set: Vec<Set> = told.flat_map(|part| texts(page, part.marks.clone())).collect();
            // What stands on every page comes last.
            let last = page.parts.last().map_or(0, |part| part.marks.end);
            set.extend(texts(page, last..page.marks.len()));
            for (i, a) in set.iter().enumerate() {
                for b in &set[..i] {
                    let over = overlap(&a.area, &b.area);
                    assert!(over <= 0.2, "{whence}: got {over:.2} mm, want 0: {:?} over {:?}", a.words, b.words);
                }
                let edge = (-a.area[0]).max(a.area[2] - page.width_mm).max(a.area[3] - page.height_mm);
                assert!(edge <= 0.0, "{whence}: {:?} lies {edge:.2} mm over the edge", a.words);
            }
            for mark in &page.marks {
                let Primitive::Text { size, text, .. } = mark else { continue };
                let points = f64::from(*size) / 25.4 * 72.0;
                assert!(points >= 8.99, "{whence}: got {points:.2} pt, want 9 pt or more: {text:?}");
            }
        }
        runs_on_only_when_full(&pages, number);
    }
}

/// A part runs on overleaf only from a page that is more than half full.
fn runs_on_only_when_full(pages: &[Page], number: u32) {
    for (index, pair) in pages.windows(2).enumerate() {
        let runs_on = pair[1].parts.iter().any(|part| part.role == Role::RunningHead);
        let lowest = |page: &Page| {
            let of_part = page.parts.iter().flat_map(|part| texts(page, part.marks.clone()));
            of_part.map(|set| set.area[3]).fold(0.0, f64::max)
        };
        let filled = lowest(&pair[0]) / pair[0].height_mm;
        assert!(
            !runs_on || filled > 0.5,
            "plan {number}, page {}: {filled:.2} of it is filled, and it runs on",
            index + 1
        );
    }
}
