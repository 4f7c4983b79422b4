//! Which sources are named, and how.

use crate::files::{assert_no_faults, files_under, read, root, shown, text_of};
use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

/// A book, a standard or a habit on which a number rests.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Source")]
struct Source {
    key: String,
    title: String,
    edition: String,
    status: Status,
    note: String,
}

/// How a source came to us.
#[derive(Deserialize, Debug, PartialEq)]
enum Status {
    /// The number itself was read there.
    Seen,
    /// Read in another document that quotes it.
    SeenSecondHand,
    /// Recalled, not read.
    Memory,
    /// Own arithmetic.
    Derived,
    /// A habit of the trade without a document.
    CommonPractice,
}

fn sources() -> Vec<Source> {
    let text = read(&root().join("assets/sources.ron"));
    ron::from_str(&text).unwrap_or_else(|error| panic!("assets/sources.ron: {error}"))
}

/// Every key that code, data or tables name, with the file that names it first.
fn keys_in_use() -> BTreeMap<String, PathBuf> {
    let mut used = BTreeMap::new();
    let places = ["crates", "tests", "assets/tables", "assets/examples", "DEVELOPERS.md", "README.md"];
    for path in places.iter().flat_map(|place| files_under(&root().join(place))) {
        if let Some(text) = text_of(&path) {
            for key in keys_in(&text) {
                used.entry(key).or_insert_with(|| path.clone());
            }
        }
    }
    used
}

/// Keys in a text, in any form: the words with the key in backticks after them (a line break and
/// comment marks may stand between), or a source line or a field of that name whose value has a
/// key's shape.
fn keys_in(text: &str) -> Vec<String> {
    let words = concat!("source", " key");
    let flat = text.replace("///", " ").replace("//!", " ").replace("//", " ").replace("\\\n", " ");
    let flat = flat.split_whitespace().collect::<Vec<_>>().join(" ");
    let in_words = flat.split(words).skip(1).filter_map(|after| between(after.trim_start(), '`'));
    let in_fields = flat.split(concat!("source", ": ")).skip(1).filter_map(|after| between(after, '"'));
    let in_lines = flat.split(concat!("Source", ": ")).skip(1).filter_map(|after| between(after, '`'));
    let shaped = in_fields.chain(in_lines).filter(|value| has_key_shape(value));
    in_words.chain(shaped).map(str::to_owned).collect()
}

fn between(text: &str, mark: char) -> Option<&str> {
    text.strip_prefix(mark)?.split_once(mark).map(|(inside, _)| inside)
}

/// Small letters, digits and hyphens, at least one hyphen: `book-of-1970`, but no field of a plan
/// and no phrase.
fn has_key_shape(value: &str) -> bool {
    value.contains('-') && value.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
}

#[test]
fn every_source_key_that_is_used_is_known() {
    let known: BTreeSet<String> = sources().into_iter().map(|source| source.key).collect();
    let unknown = keys_in_use().into_iter().filter(|(key, _)| !known.contains(key));
    let line = |(key, path): (String, PathBuf)| format!("{}: `{key}` is not in assets/sources.ron", shown(&path));
    assert_no_faults(&unknown.map(line).collect::<Vec<_>>());
}

#[test]
fn every_source_key_that_is_known_is_used() {
    let used = keys_in_use();
    let idle = sources().into_iter().filter(|source| !used.contains_key(&source.key));
    assert_no_faults(&idle.map(|source| format!("`{}` is used by nothing", source.key)).collect::<Vec<_>>());
}

#[test]
fn every_source_is_told_once_and_in_full() {
    let mut faults = Vec::new();
    let mut seen = BTreeSet::new();
    for source in sources() {
        if !has_key_shape(&source.key) {
            faults.push(format!("`{}`: a key is small letters, digits and hyphens, with a hyphen", source.key));
        }
        if source.title.is_empty() || source.edition.is_empty() || source.note.is_empty() {
            faults.push(format!("`{}`: title, edition and note are all needed", source.key));
        }
        if source.status == Status::CommonPractice && !source.note.contains("common practice, no source") {
            faults.push(format!("`{}`: the note must say `common practice, no source`", source.key));
        }
        if !seen.insert(source.key.clone()) {
            faults.push(format!("`{}` stands there twice", source.key));
        }
    }
    assert_no_faults(&faults);
}
