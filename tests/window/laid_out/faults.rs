//! What is wrong with a frame: words that are cut off, words over words, words over the edge of a control, controls
//! over one another.

use super::seen::{Control, Words};
use eframe::egui::{Rect, accesskit::Role};

/// Less than this is the rounding of an edge, points.
const HAIR: f32 = 1.5;

/// Whether two places share more than a hair.
fn overlap(one: Rect, other: Rect) -> bool {
    let both = one.intersect(other);
    both.width() > HAIR && both.height() > HAIR
}

/// Every fault of a frame in a sentence. What the plan itself says (`own`) may end in dots: nobody knows its length.
pub(super) fn of(words: &[Words], controls: &[Control], (window, own): (Rect, &str)) -> Vec<String> {
    let mut faults = cut(words, controls, (window, own));
    faults.extend(over_words(words));
    faults.extend(over_edges(words, controls));
    faults.extend(over_controls(controls));
    faults
}

/// Words that end at an edge, beside what is typed: a field scrolls. What is cut off above or below can be scrolled to.
fn cut(words: &[Words], controls: &[Control], (window, own): (Rect, &str)) -> Vec<String> {
    let in_field = |word: &Words| {
        let holds = |control: &&Control| control.seen.expand(HAIR).contains_rect(word.seen);
        controls.iter().filter(|control| control.role == Role::TextInput).any(|control| holds(&control))
    };
    let is_cut = |word: &Words| {
        let [left, right] = [word.clip.left().max(window.left()), word.clip.right().min(window.right())];
        word.ink.left() < left - HAIR || word.ink.right() > right + HAIR
    };
    let is_own = |whole: &str| own.contains(whole.split_once(" · ").map_or(whole, |(name, _)| name));
    let told = |word: &Words| match (word.elided.as_ref().filter(|whole| !is_own(whole)), is_cut(word)) {
        (Some(_), _) => Some(format!("“{}” is left off at the end, at {}", word.text, word.ink)),
        (None, true) => Some(format!("“{}” is cut off, at {} within {}", word.text, word.ink, word.clip)),
        _ => None,
    };
    words.iter().filter(|word| !in_field(word)).filter_map(told).collect()
}

/// Words over other words; a halo is the same words again.
fn over_words(words: &[Words]) -> Vec<String> {
    let mut faults = Vec::new();
    for (index, one) in words.iter().enumerate() {
        for other in &words[index + 1..] {
            if one.text != other.text && overlap(one.seen, other.seen) {
                faults.push(format!("“{}” at {} lies over “{}” at {}", other.text, other.seen, one.text, one.seen));
            }
        }
    }
    faults
}

/// Words that begin in a control and end beside it; the knob of a slider hangs over its ends.
fn over_edges(words: &[Words], controls: &[Control]) -> Vec<String> {
    let mut faults = Vec::new();
    for control in controls.iter().filter(|control| control.role != Role::Slider) {
        for word in words {
            if overlap(word.seen, control.seen) && !control.seen.expand(HAIR).contains_rect(word.seen) {
                let (name, seen) = (&control.name, control.seen);
                faults.push(format!("“{}” at {} goes over the edge of “{name}” at {seen}", word.text, word.seen));
            }
        }
    }
    faults
}

/// Controls that share a part of each other; one within another is a card with its button.
fn over_controls(controls: &[Control]) -> Vec<String> {
    let mut faults = Vec::new();
    for (index, one) in controls.iter().enumerate() {
        for other in &controls[index + 1..] {
            let within = |a: &Control, b: &Control| a.seen.expand(HAIR).contains_rect(b.seen);
            if overlap(one.seen, other.seen) && !within(one, other) && !within(other, one) {
                let [a, b] = [one, other].map(|control| format!("“{}” at {}", control.name, control.seen));
                faults.push(format!("{b} lies over {a}"));
            }
        }
    }
    faults
}
