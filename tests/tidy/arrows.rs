//! Which way dependencies between crates point.

use crate::files::{assert_no_faults, crate_folders, read, root};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use std::process::Command;

/// The crates by height. An arrow may only lead to a lower floor.
const FLOORS: [(&str, u8); 10] = [
    ("quantity", 0),
    ("plan", 1),
    ("statics", 1),
    ("assess", 2),
    ("arrange", 3),
    ("testday", 3),
    ("disk", 4),
    ("drafting", 4),
    ("editor", 5),
    ("loadcairn", 6),
];

/// What only the window may reach.
const WINDOW_PACKAGES: [&str; 4] = ["eframe", "egui", "egui_plot", "rfd"];

/// The crates that may have a window beneath them: the window itself, and the binary through it.
const MAY_OPEN_A_WINDOW: [&str; 2] = ["editor", "loadcairn"];

/// The packages by id, and from each the ids of what it depends on.
struct Tree {
    names: BTreeMap<String, String>,
    manifests: BTreeMap<String, PathBuf>,
    arrows: BTreeMap<String, BTreeSet<String>>,
    members: Vec<String>,
}

impl Tree {
    fn of_workspace() -> Self {
        let told = metadata();
        let text = |value: &Value| value.as_str().expect("cargo metadata gives text here").to_owned();
        let list = |value: &Value| value.as_array().expect("cargo metadata gives a list here").clone();
        let mut tree = Tree {
            names: BTreeMap::new(),
            manifests: BTreeMap::new(),
            arrows: BTreeMap::new(),
            members: list(&told["workspace_members"]).iter().map(text).collect(),
        };
        for package in list(&told["packages"]) {
            tree.names.insert(text(&package["id"]), text(&package["name"]));
            tree.manifests.insert(text(&package["id"]), text(&package["manifest_path"]).into());
        }
        for node in list(&told["resolve"]["nodes"]) {
            let below = list(&node["dependencies"]).iter().map(text).collect();
            tree.arrows.insert(text(&node["id"]), below);
        }
        tree
    }

    fn name(&self, id: &str) -> &str {
        &self.names[id]
    }

    /// Names of our own crates to which a crate of ours points.
    fn own_below(&self, id: &str) -> Vec<&str> {
        self.arrows[id].iter().filter(|below| self.members.contains(below)).map(|below| self.name(below)).collect()
    }

    /// Names of all packages that a crate reaches, at any depth.
    fn reach(&self, id: &str) -> BTreeSet<&str> {
        let (mut seen, mut waiting) = (BTreeSet::new(), vec![id]);
        while let Some(next) = waiting.pop() {
            for below in &self.arrows[next] {
                if seen.insert(below.as_str()) {
                    waiting.push(below);
                }
            }
        }
        seen.into_iter().map(|below| self.name(below)).collect()
    }
}

pub(crate) fn metadata() -> Value {
    // Without the filter, cargo would want the packages of every other system as well, which a
    // machine that has only built the program does not hold.
    let output = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--locked", "--offline", "--filter-platform", &host()])
        .current_dir(root())
        .output()
        .expect("cargo runs: it is running this test");
    assert!(output.status.success(), "cargo metadata: {}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).expect("cargo metadata prints JSON")
}

/// The triple of this machine, as the compiler tells it.
fn host() -> String {
    let compiler = std::env::var("RUSTC").unwrap_or_else(|_| "rustc".to_owned());
    let output = Command::new(compiler).arg("-vV").output().expect("rustc runs: it built this test");
    let told = String::from_utf8_lossy(&output.stdout).into_owned();
    told.lines().find_map(|line| line.strip_prefix("host: ")).expect("rustc -vV names its host").to_owned()
}

fn floor(name: &str) -> u8 {
    FLOORS
        .iter()
        .find(|(known, _)| *known == name)
        .unwrap_or_else(|| panic!("crate {name} has no floor yet: say in FLOORS where it stands and what it forbids"))
        .1
}

/// An arrow that leads to the same floor or a higher one, as one line.
fn arrow_fault(from: &str, to: &str) -> Option<String> {
    (floor(to) >= floor(from)).then(|| format!("{from} depends on {to}, which does not stand below it"))
}

#[test]
fn every_arrow_between_crates_leads_down() {
    let tree = Tree::of_workspace();
    let mut faults = Vec::new();
    for id in &tree.members {
        let from = tree.name(id);
        faults.extend(tree.own_below(id).into_iter().filter_map(|to| arrow_fault(from, to)));
    }
    assert_no_faults(&faults);
}

#[test]
fn plan_and_statics_know_nothing_of_each_other() {
    let tree = Tree::of_workspace();
    let mut faults = Vec::new();
    for id in &tree.members {
        for (one, other) in [("plan", "statics"), ("statics", "plan")] {
            if tree.name(id) == one && tree.reach(id).contains(other) {
                faults.push(format!("{one} reaches {other}"));
            }
        }
    }
    assert_no_faults(&faults);
}

#[test]
fn only_the_editor_reaches_the_window() {
    let tree = Tree::of_workspace();
    let mut faults = Vec::new();
    for id in &tree.members {
        let name = tree.name(id);
        let reached: BTreeSet<&str> = match name {
            "editor" => continue,
            // The binary reaches the window through the editor; by its own hand it must not.
            _ if MAY_OPEN_A_WINDOW.contains(&name) => tree.arrows[id].iter().map(|below| tree.name(below)).collect(),
            _ => tree.reach(id),
        };
        let found = WINDOW_PACKAGES.iter().filter(|package| reached.contains(*package));
        faults.extend(found.map(|package| format!("{name} reaches {package}, which only editor may")));
    }
    assert_no_faults(&faults);
}

#[test]
fn files_know_the_texts_of_plans_and_logs_and_no_mechanics() {
    let tree = Tree::of_workspace();
    let disk = tree.members.iter().find(|id| tree.name(id) == "disk").expect("the crate of files");
    let mut below = tree.own_below(disk);
    below.sort_unstable();
    assert_eq!(below, ["plan", "testday"], "what `disk` depends on by its own hand");
}

#[test]
fn every_crate_stands_in_the_developers_map() {
    let map = read(&root().join("DEVELOPERS.md"));
    let missing = crate_folders().into_iter().filter(|name| !names_path(&map, &format!("crates/{name}")));
    assert_no_faults(&missing.map(|name| format!("crates/{name} is missing from DEVELOPERS.md")).collect::<Vec<_>>());
}

/// Whether a text names exactly this path: `crates/plan` is not named by `crates/planning`.
fn names_path(text: &str, path: &str) -> bool {
    let goes_on = |after: &str| after.starts_with(|c: char| c.is_alphanumeric() || c == '_' || c == '-');
    text.match_indices(path).any(|(at, _)| !goes_on(&text[at + path.len()..]))
}

#[test]
fn every_manifest_takes_the_workspace_lints() {
    let tree = Tree::of_workspace();
    let takes = |text: &str| text.split("[lints]").nth(1).is_some_and(|after| after.trim_start().starts_with(LINTS));
    let without = tree.members.iter().filter(|id| !takes(&read(&tree.manifests[*id])));
    assert_no_faults(
        &without.map(|id| format!("{} lacks `[lints] workspace = true`", tree.name(id))).collect::<Vec<_>>(),
    );
}

const LINTS: &str = "workspace = true";
