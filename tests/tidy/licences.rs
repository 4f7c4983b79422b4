//! What the binary is made of: the list of its parts with their licences, which the window shows, is that of the build.

use crate::arrows::metadata;
use crate::files::root;
use serde_json::Value;
use std::collections::BTreeSet;
use std::fmt::Write as _;

const LIST: &str = "assets/licences.txt";
/// Set to write the list anew.
const UPDATE: &str = "UPDATE_LICENCES";

/// Ids of all packages that end up in the binary: what builds or tests them does not.
fn built_in(told: &Value) -> BTreeSet<&str> {
    let id = |value: &'_ Value| -> Option<String> { Some(value.as_str()?.to_owned()) };
    let nodes = told["resolve"]["nodes"].as_array().expect("cargo metadata gives a list here");
    let packages = told["packages"].as_array().expect("cargo metadata gives a list here");
    let own = packages.iter().find(|package| package["name"] == "loadcairn").expect("the binary's crate");
    let (mut seen, mut waiting) = (BTreeSet::new(), vec![id(&own["id"]).expect("an id")]);
    while let Some(next) = waiting.pop() {
        let Some(node) = nodes.iter().find(|node| node["id"] == next.as_str()) else { continue };
        if !seen.insert(node["id"].as_str().expect("an id")) {
            continue;
        }
        let normal = |below: &&Value| {
            let kinds = below["dep_kinds"].as_array();
            kinds.is_none_or(|kinds| kinds.iter().any(|kind| kind["kind"].is_null()))
        };
        let below = node["deps"].as_array().expect("cargo metadata gives a list here").iter().filter(normal);
        waiting.extend(below.filter_map(|below| id(&below["pkg"])));
    }
    seen
}

fn list() -> String {
    let told = metadata();
    let members: Vec<&str> =
        told["workspace_members"].as_array().expect("a list").iter().filter_map(Value::as_str).collect();
    let built_in = built_in(&told);
    let packages = told["packages"].as_array().expect("cargo metadata gives a list here");
    let parts = packages.iter().filter_map(|package| {
        let id = package["id"].as_str()?;
        let is_part = built_in.contains(id) && !members.contains(&id);
        let licence = package["license"].as_str().unwrap_or("see its own file");
        is_part.then(|| Some(format!("{} {}: {licence}", package["name"].as_str()?, package["version"].as_str()?)))?
    });
    let parts: BTreeSet<String> = parts.collect();
    let mut text = String::new();
    for part in parts {
        let _ = writeln!(text, "{part}");
    }
    text
}

#[test]
fn the_licences_that_the_window_shows_are_those_of_the_build() {
    let (want, path) = (list(), root().join(LIST));
    if std::env::var_os(UPDATE).is_some() {
        std::fs::write(&path, &want).expect("the list is written");
    }
    let got = std::fs::read_to_string(&path).unwrap_or_default();
    let differs = got.lines().zip(want.lines()).find(|(got, want)| got != want);
    assert!(got == want, "{LIST} is not that of the build ({differs:?}): run this test with {UPDATE}=1");
}
