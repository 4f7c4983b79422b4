//! Which way names point inside `assess`, and what crates forbid themselves: see the table in DEVELOPERS.md.

use crate::files::{assert_no_faults, files_under, read, root, shown};
use std::path::Path;

/// What every stratum of `assess` stands on.
const BENEATH: [&str; 6] = ["amount", "ask", "beside", "recall", "source", "told"];
/// The strata of `assess`, each naming only those before it.
const STRATA: [&str; 3] = ["closed", "exact", "verdict"];

/// The modules of the crate that a text names by their path from the crate's root. A name without a module
/// before it comes from the root's list of what is public, which hides where it stands.
fn named(text: &str) -> Vec<String> {
    let paths = text.match_indices("crate::").filter(|(at, _)| !text[..*at].ends_with(|c: char| c.is_alphanumeric()));
    let first = |after: &str| after.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect::<String>();
    paths.map(|(at, path)| first(&text[at + path.len()..])).collect()
}

/// The lines of a file's program, comments and tests left out.
fn program(path: &Path) -> String {
    let text = read(path);
    let text = text.split("#[cfg(test)]").next().unwrap_or_default();
    text.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n")
}

#[test]
fn the_strata_of_assess_name_only_those_before_them() {
    let sources = root().join("crates/assess/src");
    let mut faults = Vec::new();
    let below = BENEATH.iter().map(|module| (*module, 0)).chain(STRATA.iter().copied().zip(1..));
    for (module, height) in below.clone() {
        let mut files = files_under(&sources.join(module));
        files.extend(files_under(&sources.join(format!("{module}.rs"))));
        assert!(!files.is_empty(), "crates/assess/src has no module `{module}`");
        // The highest may take names from the crate's root, since all of them stand below it.
        for path in files.iter().filter(|_| height < STRATA.len()) {
            let stands = |name: &str| below.clone().find(|(known, _)| *known == name).map(|(_, height)| height);
            let up = named(&program(path)).into_iter().filter(|name| stands(name).is_none_or(|at| at > height));
            faults.extend(up.map(|name| format!("{}: names crate::{name}", shown(path))));
        }
    }
    assert_no_faults(&faults);
}

/// Crates with the names that stand for what they forbid themselves.
const FORBIDS: [(&str, &[&str]); 7] = [
    ("testday", &["std::fs", "std::time", "SystemTime", "Instant::now"]),
    ("drafting", &["std::fs", "std::time", "SystemTime", "Instant::now"]),
    ("assess", &["std::fs", "std::time", "SystemTime", "Instant::now"]),
    ("plan", &["std::fs", "std::time", "SystemTime", "Instant::now"]),
    ("statics", &["std::fs", "std::time", "SystemTime", "Instant::now", "plan::"]),
    ("quantity", &["std::fs", "std::time", "SystemTime", "Instant::now"]),
    ("editor", &["statics::"]),
];

#[test]
fn no_crate_names_what_it_forbids_itself() {
    let mut faults = Vec::new();
    for (name, forbidden) in FORBIDS {
        for path in files_under(&root().join(format!("crates/{name}/src"))) {
            let text = program(&path);
            let found = forbidden.iter().filter(|word| names(&text, word));
            faults.extend(found.map(|word| format!("{}: names {word}", shown(&path))));
        }
    }
    assert_no_faults(&faults);
}

/// Whether a text has a word that does not begin in the middle of another one.
fn names(text: &str, word: &str) -> bool {
    text.match_indices(word).any(|(at, _)| !text[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_'))
}
