//! What scales should show, in the rows of the layers.

use super::*;

/// Every reading of every step, from the report's own figures: what the row says is what the assessment says.
#[test]
fn every_reading_in_the_rows_is_that_of_the_report() {
    use quantity::{Grain, Mass, Quantity};
    for (name, text) in EXAMPLES {
        let plan = plan_of(text);
        let assessment = solved(&plan);
        let layers = layers_of(&texts(&printed(&plan)));
        for step in 0..plan.steps() {
            let piece = format!("{} {} ", step + 1, plan.piece_name(step));
            let at = layers
                .match_indices(&piece)
                .map(|(at, _)| at)
                .find(|at| !layers[..*at].ends_with(|c: char| c.is_ascii_digit()));
            let row: String = layers[at.expect("its row")..].chars().take(400).collect();
            for (scale, kg) in scales(&plan, &assessment, step + 1) {
                let due = format!(" {} ± ", Mass::kg(kg).shown_bare(plan.units, Grain::Coarse));
                assert!(row.contains(&due), "{name}, step {}, {scale}: no {due:?} in {row}", step + 1);
            }
        }
    }
}
