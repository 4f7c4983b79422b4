//! What a finding's limit rests on, in words for people: the report carries keys and fields instead.

use crate::Finding;
use statics::occupant::Table;

/// Keys and fields as they stand in a finding, and what they are called on screen and paper.
const WORDS: [(&str, &str); 14] = [
    ("the plan's `allow.collapse`", "the plan's allowed reserve of the stack"),
    ("the plan's `allow.fixture_push`", "the plan's allowed reserve of the fixture"),
    ("the plan's `target.tolerance`", "the plan's tolerance of the occupant point"),
    ("the plan's `target.at`", "the plan's occupant point, as typed"),
    ("the plan's `target.document`", "the document that the plan names"),
    ("the plan's `support.capacity`", "the plan's capacity of that support"),
    ("the plan's `hold_down.working_load`", "the plan's working load of that strap"),
    ("the plan's `keep_clear.clearance`", "the plan's clearance around that region"),
    ("the plan's `bed.beside`", "the plan's overlap below which a bag lies beside"),
    ("the plan's `bearing.allowable`", "the plan's allowable load of that bearing"),
    ("the crate `statics`, timber", "published timber tables, or the lot's own figures"),
    ("in the crate `statics`", "by statics"),
    ("source key `cfr-23-303`", "14 CFR 23.303, factor of safety"),
    ("`", ""),
];

/// Tables by whose key a posture's finding names its source.
const TABLES: [Table; 3] = [Table::DeLeva, Table::Winter, Table::Dumas];

impl Finding {
    /// What the limit rests on, in words.
    pub fn rests_on(&self) -> String {
        let told = WORDS.iter().fold(self.source.to_owned(), |told, (code, words)| told.replace(code, words));
        let table = TABLES.into_iter().find(|table| table.source().0 == told);
        table.map_or(told, |table| format!("the segment table of {}", table.name()))
    }
}

#[cfg(test)]
mod tests {
    use crate::{Reach, assess};

    #[test]
    fn no_finding_shows_people_a_key_or_a_field_of_the_file() {
        let text = include_str!("../../../assets/examples/single-seat.ron");
        let plan = plan::file::read(text).expect("the demo is a plan");
        for finding in assess(&plan, Reach::ClosedForm).findings {
            let told = finding.rests_on();
            let code = |mark: &str| told.contains(mark);
            let codes = ["`", "source key", "crate", "_", "de-leva"];
            assert!(!codes.into_iter().any(code), "{}: {told}", finding.check);
        }
    }
}
