//! The worked cases of pieces that give. Source: `worked-stacks` (`derived`), files `l*.json` in `tests/cases`.

use crate::given::{Given, near};
use crate::reader::{list, number, numbers, read_bed, read_body, read_pose};
use serde_json::Value;
use statics::equilibrium::collapse;
use statics::soft::{Softness, at_rest, every_step};

const CASES: [&str; 4] = [
    include_str!("../cases/l02_board_off_middle_inside_kern.json"),
    include_str!("../cases/l05_column5.json"),
    include_str!("../cases/l08_eccentric_steps.json"),
    include_str!("../cases/l09_planks_and_layers.json"),
];

fn cases() -> impl Iterator<Item = (String, Value, Given)> {
    CASES.iter().map(|text| {
        let json: Value = serde_json::from_str(text).unwrap();
        let pieces = list(&json["pieces"]);
        let softness = pieces.iter().map(|piece| match piece["modulus"].as_f64() {
            Some(modulus_pa) => Softness::of(modulus_pa, number(&piece["size"][2])),
            None => Softness::RIGID,
        });
        let bodies = pieces.iter().map(read_body).collect();
        let mut given = Given::new(&read_bed(&json["bed"]), bodies, softness.collect());
        given.pose = read_pose(&json["bed"]);
        (json["id"].as_str().unwrap().to_owned(), json["expect"].clone(), given)
    })
}

/// `tol.soft_rel` of the files, and for figures that are nothing but rounding a size for each.
fn alike(what: &str, got: f64, want: f64, unit: &str, nothing: f64) {
    near(what, got, want, 1e-6 * want.abs() + nothing, unit);
}

#[test]
fn every_step_of_the_worked_cases_comes_to_its_figures() {
    for (id, expect, given) in cases() {
        for (step, want) in every_step(&given.soft(), &|_| true).iter().zip(list(&expect["steps"])) {
            let what = |figure: &str| format!("{id} step {} {figure}", step.step);
            assert_eq!(step.end.stands(), want["stands"].as_bool(), "{}", what("stands"));
            let rest = step.end.rest().unwrap();
            alike(&what("critical load factor"), rest.critical, number(&want["critical"]), "", 0.0);
            alike(&what("amplification"), rest.amplification, number(&want["amplification"]), "", 0.0);
            alike(&what("settlement"), rest.settlement_m, number(&want["max_settlement"]), "m", 0.0);
            alike(&what("tilt"), rest.tilt_rad, number(&want["max_tilt"]), "rad", 1e-12);
            alike(&what("closed part"), rest.closed, number(&want["min_closed"]), "", 1e-9);
            for (got, want) in rest.shift_m.iter().zip(numbers::<2>(&want["shift"])) {
                alike(&what("shift"), *got, want, "m", 1e-12);
            }
        }
    }
}

#[test]
fn each_piece_of_the_worked_cases_moves_as_it_should() {
    for (id, expect, given) in cases() {
        let solved = at_rest(&given.soft(), given.bodies.len());
        for (at, moved) in solved.moved.iter().enumerate() {
            let what = |figure: &str| format!("{id} piece {} {figure}", at + 1);
            alike(&what("settlement"), -moved.shift_m[2], number(&expect["settlement"][at]), "m", 1e-12);
            alike(&what("tilt about x"), moved.turn_rad[0], number(&expect["tilt_x"][at]), "rad", 1e-12);
            alike(&what("tilt about y"), moved.turn_rad[1], number(&expect["tilt_y"][at]), "rad", 1e-12);
            alike(&what("twist"), moved.turn_rad[2], number(&expect["twist"][at]), "rad", 1e-11);
        }
    }
}

#[test]
fn each_bed_of_the_worked_cases_carries_what_it_should() {
    for (id, expect, given) in cases() {
        let solved = at_rest(&given.soft(), given.bodies.len());
        assert_eq!(solved.beds.len(), list(&expect["contact_force"]).len(), "{id} beds");
        for (at, bed) in solved.beds.iter().enumerate() {
            let what = |figure: &str| format!("{id} bed {} {figure}", at + 1);
            alike(&what("force"), bed.normal_n, number(&expect["contact_force"][at]), "N", 0.0);
            alike(&what("closed part"), bed.closed, number(&expect["contact_closed"][at]), "", 1e-9);
            alike(&what("pressure"), bed.greatest_pa, number(&expect["contact_pressure_max"][at]), "Pa", 0.0);
        }
        let rest = solved.end.rest().unwrap();
        alike(&format!("{id} friction use"), rest.friction_use, number(&expect["friction_use_max"]), "", 1e-9);
        for (got, want) in rest.shift_first_order_m.unwrap().iter().zip(numbers::<2>(&expect["shift_first_order"])) {
            alike(&format!("{id} shift to the first order"), *got, want, "m", 1e-12);
        }
    }
}

#[test]
fn the_worked_cases_bear_the_pushes_that_they_should() {
    for (id, expect, given) in cases() {
        for push in list(&expect["push"]) {
            let direction_deg = number(&push["direction_deg"]);
            let want = number(&push["soft_tip"]);
            // `soft_tip` of the files: within 1e-4 + 2 %.
            near(&format!("{id} push at {direction_deg} deg"), given.push(direction_deg), want, 1e-4 + 0.02 * want, "");
            // And the rigid solver's own answer, beside it in the same files.
            let rigid = collapse(&given.stack(), given.bodies.len(), &[direction_deg.to_radians()]);
            let rigid = rigid.least.reserve().unwrap().multiplier;
            near(&format!("{id} rigid at {direction_deg} deg"), rigid, number(&push["rigid"]), 3e-6, "");
        }
    }
}
