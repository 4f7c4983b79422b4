//! The house rules that a machine can watch: which way dependencies point, where things lie,
//! which sources are named, and what no committed file may name.
//!
//! Patterns that are forbidden are put together from pieces, so that this file does not trip
//! over itself.

use serde::Deserialize;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
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

const TOP_LEVEL: [&str; 9] =
    ["Cargo.toml", "Cargo.lock", "README.md", "DEVELOPERS.md", "LICENSE", "crates", "assets", "tests", "target"];

// ---------------------------------------------------------------- the dependency tree

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

fn metadata() -> Value {
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

// ---------------------------------------------------------------- sources

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

// ---------------------------------------------------------------- what lies where

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

// ---------------------------------------------------------------- files

fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    here.canonicalize().expect("crates/app lies two folders below the top level")
}

fn entries(folder: &Path) -> Vec<PathBuf> {
    let read = fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    let mut paths: Vec<_> = read.map(|entry| entry.expect("a folder's entry can be read").path()).collect();
    paths.sort();
    paths
}

/// All files under a folder (or the file itself), without what builds and what git keeps.
fn files_under(place: &Path) -> Vec<PathBuf> {
    if !place.is_dir() {
        return if place.exists() { vec![place.to_owned()] } else { Vec::new() };
    }
    let kept = entries(place).into_iter().filter(|path| !matches!(last_part(path).as_str(), "target" | ".git"));
    kept.flat_map(|path| files_under(&path)).collect()
}

fn crate_folders() -> Vec<String> {
    entries(&root().join("crates")).iter().filter(|path| path.is_dir()).map(|path| last_part(path)).collect()
}

fn last_part(path: &Path) -> String {
    path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
}

/// The text of a file; none where it is not text (fonts, pictures).
fn text_of(path: &Path) -> Option<String> {
    String::from_utf8(fs::read(path).ok()?).ok()
}

fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", shown(path)))
}

/// A path as seen from the top level.
fn shown(path: &Path) -> String {
    path.strip_prefix(root()).unwrap_or(path).display().to_string()
}

fn assert_no_faults(faults: &[String]) {
    assert!(faults.is_empty(), "{} fault(s):\n  {}", faults.len(), faults.join("\n  "));
}
