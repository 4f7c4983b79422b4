//! Some pages of the sheet again: which ones, as they are typed or taken from where one looks.

use drafting::page::{Page, Part, Role};

/// Reads `7` or `7-9`, counted from 1.
///
/// # Errors
/// A sentence that says what fits.
pub(super) fn read(text: &str, count: usize) -> Result<[usize; 2], String> {
    let due = || format!("Pages: type a number such as 3, or 3-5; there are pages 1 to {count}.");
    let parts: Vec<&str> = text.split(['-', '–']).map(str::trim).collect();
    let number = |part: &str| part.parse::<usize>().ok().filter(|page| (1..=count).contains(page)).ok_or_else(due);
    match parts[..] {
        [one] => number(one).map(|page| [page, page]),
        [from, to] => {
            let (from, to) = (number(from)?, number(to)?);
            if from <= to { Ok([from, to]) } else { Err(due()) }
        }
        _ => Err(due()),
    }
}

/// As it is typed.
pub(super) fn words([from, to]: [usize; 2]) -> String {
    if from == to { from.to_string() } else { format!("{from}-{to}") }
}

/// What a page (from 1) is called: the first head on it, or on the page before it that has one.
pub(super) fn head(pages: &[Page], page: usize) -> &str {
    let before = pages.iter().take(page).rev();
    before.flat_map(|page| page.parts.iter().find_map(of_part)).next().unwrap_or_default()
}

fn of_part(part: &Part) -> Option<&str> {
    match &part.role {
        Role::Head(words) => Some(words),
        _ => None,
    }
}

/// The pages of the part that a page (from 1) belongs to, such as a layer.
pub(super) fn part(pages: &[Page], page: usize) -> [usize; 2] {
    let begins = |page: &Page| page.parts.iter().any(|part| of_part(part).is_some());
    let from = (1..=page).rev().find(|number| pages.get(number - 1).is_some_and(begins)).unwrap_or(1);
    let to = (page + 1..=pages.len()).find(|number| begins(&pages[number - 1])).map_or(pages.len(), |next| next - 1);
    [from, to.max(from)]
}

#[cfg(test)]
mod tests {
    use super::{part, read, words};
    use drafting::page::{Page, Part, Role};

    #[test]
    fn a_page_or_a_range_is_read_and_anything_else_is_told_what_fits() {
        assert_eq!(read("7", 20), Ok([7, 7]));
        assert_eq!(read(" 7 - 9 ", 20), Ok([7, 9]));
        assert_eq!(read("7–9", 20).map(words), Ok("7-9".to_owned()));
        for wrong in ["", "0", "21", "9-7", "3-21", "x", "1-2-3"] {
            let sentence = read(wrong, 20).expect_err(wrong);
            assert_eq!(sentence, "Pages: type a number such as 3, or 3-5; there are pages 1 to 20.");
        }
    }

    #[test]
    fn a_layer_is_all_the_pages_up_to_the_next_head() {
        let page = |head: Option<&str>| {
            let role = head.map_or(Role::RunningHead, |words| Role::Head(words.to_owned()));
            Page { width_mm: 210.0, height_mm: 297.0, marks: Vec::new(), parts: vec![Part { role, marks: 0..0 }] }
        };
        let pages = [page(Some("Fixture")), page(Some("Layer 1")), page(None), page(None), page(Some("Layer 2"))];
        let parts: Vec<_> = (1..=5).map(|number| part(&pages, number)).collect();
        assert_eq!(parts, [[1, 1], [2, 4], [2, 4], [2, 4], [5, 5]]);
        assert_eq!(super::head(&pages, 4), "Layer 1");
    }
}
