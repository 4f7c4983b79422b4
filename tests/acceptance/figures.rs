//! No field of the plan file without a range: either a line in the table of usual figures, or a rule of the plan
//! that refuses what lies beyond.

use std::collections::BTreeSet;
use std::path::Path;

/// Fields with a number whose range the rules of the plan refuse to leave, or that are no figure of their own.
const ELSEWHERE: &[(&str, &str)] = &[
    ("LoadCase.direction", "rule: 60 degrees at most"),
    ("FromRule.occupant_mass", "copied from the table of the rules, told beside what was changed since"),
    ("FromRule.load_factor", "copied from the table of the rules, told beside what was changed since"),
    ("FromRule.safety_factor", "copied from the table of the rules, told beside what was changed since"),
    ("FromRule.special_factor", "copied from the table of the rules, told beside what was changed since"),
    ("Article.pitch", "rule: 60 degrees at most"),
    ("Weighing.pitch", "rule: 60 degrees at most"),
    ("Point.tolerance", "under the name of Target.tolerance"),
    ("Posture.recline", "rule: 60 degrees at most"),
    ("Posture.pan", "rule: 60 degrees at most"),
    ("Posture.thigh", "rule: from -60 to 90 degrees"),
    ("Posture.knee", "rule: from 20 to 180 degrees"),
    ("Posture.arm", "rule: from -60 to 180 degrees"),
    ("Posture.elbow", "rule: from 20 to 180 degrees"),
    ("Posture.head", "rule: 60 degrees at most"),
    ("Posture.stature", "rule: from 1.2 to 2.3 m"),
    ("Posture.slump", "rule: at most 0.15 m"),
    ("Posture.tolerance", "under the name of Target.tolerance"),
    ("Weighed.tolerance", "under the name of Target.tolerance"),
    ("LoadPoint.tolerance", "under the name of Target.tolerance"),
    ("Binding.after", "the number of a step: a check tells one that is never reached"),
    ("Bed.slope", "rule: 60 degrees at most"),
    ("Lot.mass_tolerance", "held against the mass of the lot"),
    ("Lot.weighed", "held against the mass of the lot"),
    ("Lot.count", "rule: from 1 to 10 000"),
    ("Place.item", "rule: an item of its lot"),
    ("Hold.at", "rule: more than 0 and at most 1"),
    ("Handling.twist", "rule: from 0 to 180 degrees"),
    ("Handling.people", "rule: 1 or 2"),
];

fn text_of(file: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(file);
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// Whether a type of the plan holds numbers.
fn is_number(of: &str) -> bool {
    let numbers = ["Length", "Mass", "Force", "Stiffness", "Pressure", "Angle", "Time", "f64", "u32"];
    numbers.iter().any(|number| of.contains(number))
}

/// The fields with numbers in the table of the file format: `Record.field`; of a choice by its variant.
fn numbers(table: &str) -> BTreeSet<String> {
    let (mut record, mut fields) = (String::new(), BTreeSet::new());
    for line in table.lines().map(str::trim) {
        let head = line.strip_prefix("record! { ").or_else(|| line.strip_prefix("choice! { ")).unwrap_or(line);
        if let Some(head) = head.strip_suffix(" {").filter(|head| head.starts_with(char::is_uppercase)) {
            head.split([',', '(', ' ']).next().unwrap_or_default().clone_into(&mut record);
        } else if let Some((field, of)) = line.strip_suffix(';').and_then(|line| line.split_once(": ")) {
            let of = of.split_once(", ").map_or(of, |(of, _)| of);
            if is_number(of) && field.chars().all(|letter| letter.is_ascii_lowercase() || letter == '_') {
                fields.insert(format!("{record}.{field}"));
            }
        }
    }
    fields
}

/// The first words of the table's lines.
fn lines() -> BTreeSet<String> {
    let table = text_of("assess/src/verdict/checks/slips/table.rs");
    let lines = table.lines().filter(|line| line.trim_start().starts_with(char::is_uppercase) && line.ends_with(';'));
    let fields = lines.filter_map(|line| line.split_whitespace().next()).filter(|first| first.contains('.'));
    fields.map(str::to_owned).collect()
}

#[test]
fn every_number_of_the_plan_file_has_a_range() {
    let fields = numbers(&text_of("plan/src/file/v1.rs"));
    assert!(fields.len() > 90, "the format has more numbers than {}: {fields:?}", fields.len());
    let (lines, elsewhere) = (lines(), ELSEWHERE.iter().map(|(field, _)| (*field).to_owned()).collect::<BTreeSet<_>>());
    let open: Vec<_> = fields.iter().filter(|field| !lines.contains(*field) && !elsewhere.contains(*field)).collect();
    assert!(open.is_empty(), "without a range: {open:?}");
    let gone: Vec<_> =
        lines.union(&elsewhere).filter(|of| !fields.contains(*of) && *of != "Target.tolerance").collect();
    assert!(gone.is_empty(), "not in the plan file any more: {gone:?}");
    let twice: Vec<_> = lines.intersection(&elsewhere).collect();
    assert!(twice.is_empty(), "in both lists: {twice:?}");
}
