//! Fifty plans, drawn by number and no chance: long names, one piece to two hundred, both systems of units, failing
//! ones. No words over one another, none over the edge, none too small, no page left half empty where it runs on.

#[path = "drawn/mod.rs"]
mod drawn;
#[path = "laid/mod.rs"]
mod laid;

use assess::{Ask, assess};
use drafting::page::Paper;
use drafting::sheet;

#[test]
fn no_words_of_any_drawn_plan_lie_over_others_or_over_the_edge_or_are_too_small() {
    for number in 0..50 {
        let plan = drawn::plan(number);
        let assessment = assess(&plan, Ask::closed());
        laid::well(&sheet::pages(&plan, &assessment, Paper::usual(plan.units)), &format!("plan {number}"));
    }
}
