//! The worked stacks. Source: `worked-stacks` (`derived`), files in `tests/cases`.

use crate::given::{Settled, at_least, multiplier, near};
use crate::reader::{STACKS, list, number, read_bed, read_body, read_pose};
use serde_json::Value;
use statics::equilibrium::{StepEquilibrium, collapse};

/// `tol.multiplier_socp` and `tol.multiplier_lp` of the files.
const CONE: f64 = 3e-6;
const POLYGON: f64 = 1e-6;

fn cases() -> impl Iterator<Item = (String, Value, Settled)> {
    STACKS.iter().map(|text| {
        let json: Value = serde_json::from_str(text).unwrap();
        let mut settled = Settled::new(&read_bed(&json["bed"]), list(&json["pieces"]).iter().map(read_body).collect());
        settled.pose = read_pose(&json["bed"]);
        (json["id"].as_str().unwrap().to_owned(), json["expect"].clone(), settled)
    })
}

#[test]
fn every_step_of_the_worked_stacks_stands_or_falls_as_it_should() {
    for (id, expect, settled) in cases() {
        let verdicts = settled.every_step();
        let wanted: Vec<Option<bool>> = list(&expect["steps"]).iter().map(|step| step["stands"].as_bool()).collect();
        let got: Vec<Option<bool>> = verdicts.iter().map(|verdict| verdict.stands).collect();
        assert_eq!(got, wanted, "{id} stands");
        let first = verdicts.iter().find(|verdict| verdict.stands != Some(true)).map(|verdict| verdict.step as u64);
        assert_eq!(first, expect["first_fall"].as_u64(), "{id} first fall");
    }
}

#[test]
fn the_least_of_eight_directions_is_that_of_the_worked_stacks_after_every_step() {
    let eight: Vec<f64> = (0..8).map(|k| std::f64::consts::FRAC_PI_4 * f64::from(k)).collect();
    for (id, expect, settled) in cases() {
        for (at, step) in list(&expect["steps"]).iter().enumerate() {
            let Some(want) = step["least8"]["multiplier"].as_f64() else { continue };
            let got = collapse(&settled.stack(), at + 1, &eight);
            near(&format!("{id} step {} least of eight", at + 1), multiplier(&got), want, CONE, "of weight");
        }
    }
}

#[test]
fn each_direction_of_the_worked_stacks_has_its_multiplier_within_the_bracket_of_the_polygons() {
    for (id, expect, settled) in cases() {
        for direction in list(&expect["collapse"]) {
            let direction_deg = number(&direction["direction_deg"]);
            let got = settled.multiplier(direction_deg);
            let what = format!("{id} at {direction_deg} deg");
            near(&what, got, number(&direction["socp"]), CONE, "of weight");
            at_least(&format!("{what}, inscribed"), got, number(&direction["lp8_in"]) - POLYGON, "of weight");
            at_least(&format!("{what}, circumscribed"), number(&direction["lp8_out"]), got - POLYGON, "of weight");
        }
    }
}

#[test]
fn the_least_of_the_worked_stacks_is_never_above_the_least_of_their_directions() {
    for (id, expect, settled) in cases() {
        let Some(want) = expect["least"].as_f64() else { continue };
        let verdict: StepEquilibrium = settled.every_step().pop().unwrap();
        // Our list of directions is longer than the files': the least can only be smaller, and by
        // no more than a sixteenth of a turn can hide, 1.9 %.
        let got = multiplier(&verdict);
        at_least(&format!("{id} least"), want + CONE, got, "of weight");
        at_least(&format!("{id} least"), got, want * (std::f64::consts::PI / 16.0).cos() - CONE, "of weight");
    }
}
