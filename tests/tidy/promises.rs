//! The promises of the developers' map: each test that stands beside one is there.

use crate::files::{assert_no_faults, read, root};

/// Path and test of each pair `path`: `test`, `test` in a cell.
fn named(cell: &str) -> Vec<(&str, &str)> {
    let mut path = "";
    let mut found = Vec::new();
    for word in cell.split('`').skip(1).step_by(2) {
        if word.ends_with(".rs") {
            path = word;
        } else {
            found.push((path, word));
        }
    }
    found
}

fn missing((path, test): (&str, &str)) -> Option<String> {
    let file = root().join(path);
    let text = if file.is_file() { read(&file) } else { String::new() };
    let is_there = text.contains(&format!("fn {test}(")) && text.contains("#[test]");
    (!is_there).then(|| format!("DEVELOPERS.md promises “{test}” in {path}, and it is not there"))
}

#[test]
fn each_promise_has_its_test() {
    let map = read(&root().join("DEVELOPERS.md"));
    let rows = map.split("| promise | test |").nth(1).expect("a table of promises").lines().skip(2);
    let rows: Vec<_> = rows.take_while(|row| row.starts_with('|')).collect();
    assert!(rows.len() > 25, "got {} promises", rows.len());
    let mut faults = Vec::new();
    for row in rows {
        let tests = named(row.split('|').nth(2).unwrap_or_default());
        if tests.is_empty() {
            faults.push(format!("no test stands beside: {row}"));
        }
        faults.extend(tests.into_iter().filter_map(missing));
    }
    assert_no_faults(&faults);
}
