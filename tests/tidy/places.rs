//! What lies where, and what no committed file may name.
//!
//! Patterns that are forbidden are put together from pieces, so that this file does not trip over itself.

use crate::files::{assert_no_faults, entries, files_under, last_part, root, shown, text_of};
use std::path::Path;

const TOP_LEVEL: [&str; 9] =
    ["Cargo.toml", "Cargo.lock", "README.md", "DEVELOPERS.md", "LICENSE", "crates", "assets", "tests", "target"];

#[test]
fn the_top_level_holds_only_what_the_map_names() {
    let strange = entries(&root())
        .into_iter()
        .map(|path| last_part(&path))
        .filter(|name| !name.starts_with('.') && !TOP_LEVEL.contains(&name.as_str()));
    assert_no_faults(&strange.map(|name| format!("{name} has no place at the top level")).collect::<Vec<_>>());
}

/// What no committed file names, and why.
fn forbidden() -> Vec<(String, &'static str)> {
    let join = |parts: &[&str]| parts.concat();
    vec![
        (join(&["trans", "cript"]), "where an idea was heard"),
        (join(&["the vi", "deo"]), "where an idea was seen"),
        (join(&["/wo", "rk/"]), "a path of one machine"),
        (join(&["/ro", "ot/"]), "a path of one machine"),
        (join(&["/fa", "rm/"]), "a path of one machine"),
        (join(&["/tm", "p/"]), "a path of one machine"),
        (join(&["crates", ".io"]), "a package registry's host"),
        (join(&["sparse", "+http"]), "a package registry's host"),
        (join(&["pypi", ".org"]), "a package registry's host"),
        (join(&["npmjs", ".com"]), "a package registry's host"),
    ]
}

#[test]
fn no_file_names_a_machine_a_registry_or_a_hearsay() {
    let forbidden = forbidden();
    let mut faults = Vec::new();
    for path in files_under(&root()) {
        let Some(text) = text_of(&path) else { continue };
        // Cargo writes the lock file itself and names the index there; all other rules hold for it.
        let is_lock = last_part(&path) == "Cargo.lock";
        let rules = forbidden.iter().filter(|(_, why)| !(is_lock && why.contains("registry")));
        faults.extend(rules.filter_map(|(pattern, why)| first_line_with(&text, pattern, why, &path)));
    }
    assert_no_faults(&faults);
}

fn first_line_with(text: &str, pattern: &str, why: &str, path: &Path) -> Option<String> {
    let number = text.lines().position(|line| line.to_lowercase().contains(pattern))?;
    Some(format!("{}:{}: names “{pattern}”, {why}", shown(path), number + 1))
}
