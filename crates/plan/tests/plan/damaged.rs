//! No text makes reading panic, and every refusal points into the text.

use crate::{TYPED, WRITTEN};
use plan::file::{read, write};
use proptest::prelude::*;

fn read_or_refused(text: &str) -> Result<(), TestCaseError> {
    match read(text) {
        Ok(plan) => {
            let written = write(&plan);
            let again = read(&written).map_err(|error| TestCaseError::fail(error.to_string()))?;
            prop_assert_eq!(write(&again), written);
        }
        Err(error) => {
            let line = text.split('\n').nth(error.line - 1);
            let columns = line.map(|line| line.chars().count() + 1);
            prop_assert!(columns.is_some_and(|columns| (1..=columns).contains(&error.column)), "{}", error);
            prop_assert!(!error.sentence.is_empty(), "a sentence");
        }
    }
    Ok(())
}

/// Two places of a text, in order, each at a character.
fn span(text: &str, from: prop::sample::Index, to: prop::sample::Index) -> (usize, usize) {
    let (a, b) = (from.index(text.len()), to.index(text.len()).min(from.index(text.len()) + 60));
    (text.floor_char_boundary(a.min(b)), text.floor_char_boundary(a.max(b)))
}

proptest! {
    #[test]
    fn any_bytes_are_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        read_or_refused(&String::from_utf8_lossy(&bytes))?;
    }

    #[test]
    fn any_text_is_read_or_refused(text in any::<String>()) {
        read_or_refused(&text)?;
        read_or_refused(&format!("Plan(format: 1, {text}"))?;
    }

    #[test]
    fn any_text_of_the_right_signs_is_read_or_refused(text in "(Plan\\()?([a-zA-Z:,()\\[\\]{}\"'0-9 \n#!r/*.-]|Some|None|inf|NaN){0,80}") {
        read_or_refused(&text)?;
    }

    #[test]
    fn a_damaged_file_is_read_or_refused(
        metric: bool, from: prop::sample::Index, to: prop::sample::Index, damage in 0..3, put in ".{0,12}",
    ) {
        let text = if metric { WRITTEN } else { TYPED };
        let (a, b) = span(text, from, to);
        let middle = match damage {
            0 => String::new(),
            1 => text[a..b].repeat(2),
            _ => put,
        };
        read_or_refused(&format!("{}{middle}{}", &text[..a], &text[b..]))?;
    }

    #[test]
    fn a_file_cut_short_is_refused(metric: bool, at: prop::sample::Index) {
        let text = if metric { WRITTEN } else { TYPED };
        let cut = text.floor_char_boundary(at.index(text.trim_end().len()));
        prop_assert!(read(&text[..cut]).is_err(), "cut at byte {cut}");
        read_or_refused(&text[..cut])?;
    }

    #[test]
    fn deep_brackets_are_refused(depth in 1..3000_usize, bracket in "[\\[({]|Some\\(") {
        read_or_refused(&bracket.repeat(depth))?;
        read_or_refused(&format!("Plan(format: 1, title: {}", bracket.repeat(depth)))?;
    }
}
