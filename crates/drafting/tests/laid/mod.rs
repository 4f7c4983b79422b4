//! How pages are laid out, judged by what stands where: no words over one another, none over the edge, none too small, no
//! page left half empty where it runs on.

use drafting::figure::Align;
use drafting::lower::Primitive;
use drafting::page::{Page, Role};

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

/// Fails where words of these pages lie over others or over the edge, are too small, or leave a page half empty.
pub(crate) fn well(pages: &[Page], what: &str) {
    for (index, page) in pages.iter().enumerate() {
        let whence = format!("{what}, page {} of {}", index + 1, pages.len());
        nothing_over_anything(page, &whence);
        for mark in &page.marks {
            let Primitive::Text { size, text, .. } = mark else { continue };
            let points = f64::from(*size) / 25.4 * 72.0;
            assert!(points >= 8.99, "{whence}: got {points:.2} pt, want 9 pt or more: {text:?}");
        }
    }
    runs_on_only_when_full(pages, what);
}

fn nothing_over_anything(page: &Page, whence: &str) {
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
}

/// A part runs on overleaf only from a page that is more than half full.
fn runs_on_only_when_full(pages: &[Page], what: &str) {
    for (index, pair) in pages.windows(2).enumerate() {
        let runs_on = pair[1].parts.iter().any(|part| part.role == Role::RunningHead);
        let lowest = |page: &Page| {
            let of_part = page.parts.iter().flat_map(|part| texts(page, part.marks.clone()));
            of_part.map(|set| set.area[3]).fold(0.0, f64::max)
        };
        let filled = lowest(&pair[0]) / pair[0].height_mm;
        assert!(!runs_on || filled > 0.5, "{what}, page {}: {filled:.2} of it is filled, and it runs on", index + 1);
    }
}
