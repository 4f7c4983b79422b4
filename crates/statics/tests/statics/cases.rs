//! The worked stacks. Source: `worked-stacks` (`derived`), files in `tests/cases`.

use crate::given::{at_least, multiplier, near, sloped};
use crate::reader::{STACKS, list, number, numbers, read_bed, read_body, read_pose};
use nalgebra::{Isometry3, Point3};
use quantity::Angle;
use quantity::frame::nose_up_about;
use serde_json::Value;
use statics::{Body, Masses, Pile, Step, cuts, cuts_at, settle, walk};

/// Lengths, masses and angles as printed in the files' `tol`.
const LENGTH_M: f64 = 1e-9;
/// Multipliers of the files' cone programme, `tol.multiplier_socp`.
const CONE: f64 = 3e-6;

struct Case {
    id: String,
    json: Value,
    pose: Isometry3<f64>,
    bodies: Vec<Body>,
    pile: Pile,
}

fn cases() -> impl Iterator<Item = Case> {
    STACKS.iter().map(|text| {
        let json: Value = serde_json::from_str(text).unwrap();
        let bodies: Vec<Body> = list(&json["pieces"]).iter().map(read_body).collect();
        let pile = settle(&read_bed(&json["bed"]), &bodies);
        let pose = read_pose(&json["bed"]);
        Case { id: json["id"].as_str().unwrap().to_owned(), json, pose, bodies, pile }
    })
}

impl Case {
    fn expect(&self, key: &str) -> &Value {
        &self.json["expect"][key]
    }

    fn near_point(&self, what: &str, got: &Point3<f64>, want: &Value) {
        for (axis, name) in ["x", "y", "z"].into_iter().enumerate() {
            near(&format!("{} {what} {name}", self.id), got[axis], number(&want[axis]), LENGTH_M, "m");
        }
    }

    fn whole(&self) -> Masses {
        let at = |body: usize| (self.bodies[body].mass_kg, self.pile.centre(&self.bodies, body));
        Masses::of((0..self.bodies.len()).map(at)).unwrap()
    }
}

#[test]
fn pieces_of_the_worked_stacks_rest_where_they_should() {
    for case in cases() {
        for (body, want) in list(case.expect("rest_z")).iter().enumerate() {
            near(&format!("{} rest {body}", case.id), case.pile.underside_m[body], number(want), LENGTH_M, "m");
        }
        let layers: Vec<u64> = list(case.expect("layer")).iter().map(|layer| layer.as_u64().unwrap()).collect();
        let got: Vec<u64> = case.pile.layer.iter().map(|&layer| layer as u64).collect();
        assert_eq!(got, layers, "{} layers", case.id);
    }
}

#[test]
fn contacts_of_the_worked_stacks_have_the_right_number_and_area() {
    for case in cases() {
        let want = case.expect("contacts").as_u64().unwrap();
        assert_eq!(case.pile.contacts.len() as u64, want, "{} contacts", case.id);
        let area: f64 = case.pile.contacts.iter().map(|contact| contact.patch.area()).sum();
        near(&format!("{} area", case.id), area, number(case.expect("contact_area")), LENGTH_M, "m2");
        assert!(case.pile.beside.is_empty() && case.pile.hanging.is_empty(), "{} has strays", case.id);
    }
}

#[test]
fn centroids_of_the_worked_stacks_agree_in_both_frames() {
    for case in cases() {
        let whole = case.whole();
        near(&format!("{} mass", case.id), whole.mass_kg, number(case.expect("mass")), LENGTH_M, "kg");
        case.near_point("centroid in bed", &whole.centroid, case.expect("centroid_bed"));
        case.near_point("centroid in floor", &(case.pose * whole.centroid), case.expect("centroid_floor"));
    }
}

#[test]
fn offsets_of_the_worked_stacks_agree() {
    for case in cases().filter(|case| case.json["expect"].get("offset").is_some()) {
        let offset = case.pose * case.whole().centroid - Point3::from(numbers::<3>(&case.json["target_floor"]));
        let want = case.expect("offset");
        near(&format!("{} fore-aft", case.id), offset.x, number(&want["fore_aft_m"]), LENGTH_M, "m");
        near(&format!("{} lateral", case.id), offset.y, number(&want["lateral_m"]), LENGTH_M, "m");
    }
}

#[test]
fn a_pitched_article_turns_centroid_and_target_about_its_pivot() {
    let json: Value = serde_json::from_str(include_str!("../cases/f06_fixture_pitch_offset.json")).unwrap();
    let point = |key: &str| Point3::from(numbers::<3>(&json[key]));
    for row in list(&json["expect"]["rows"]) {
        let pitch = Angle::rad(number(&row["pitch_deg"]).to_radians());
        let floor_from_article = nose_up_about(pitch, point("pivot"));
        let offset = floor_from_article * point("centroid_article") - floor_from_article * point("target_article");
        near("fore-aft", offset.x, number(&row["fore_aft_m"]), LENGTH_M, "m");
        near("lateral", offset.y, number(&row["lateral_m"]), LENGTH_M, "m");
        near("perpendicular", offset.x.hypot(offset.y), number(&row["perpendicular_m"]), LENGTH_M, "m");
    }
}

#[test]
fn layers_of_the_worked_stacks_have_the_right_margins() {
    for case in cases() {
        let margins = cuts(&case.pose, &case.bodies, &case.pile);
        for (margin, want) in margins.iter().zip(list(case.expect("layers"))) {
            let what = |name: &str| format!("{} layer {} {name}", case.id, margin.layer);
            assert_eq!(margin.layer as u64, want["layer"].as_u64().unwrap(), "{}", what("number"));
            near(&what("mass"), margin.mass_kg, number(&want["mass"]), LENGTH_M, "kg");
            case.near_point("layer centroid", &margin.centroid_in_floor, &want["centroid"]);
            near(&what("edge"), margin.edge_m, number(&want["edge_m"]), LENGTH_M, "m");
            near(&what("tip"), margin.tip_rad.to_degrees(), number(&want["tip_deg"]), LENGTH_M, "deg");
            near(&what("tip push"), margin.tip.multiplier, number(&want["lam_tip"]), LENGTH_M, "of weight");
            near(&what("slide push"), margin.slide.multiplier, number(&want["lam_slide"]), LENGTH_M, "of weight");
            assert_eq!(margin.one_plane, want["coplanar"].as_bool().unwrap(), "{}", what("one plane"));
        }
    }
}

#[test]
fn every_layer_of_a_worked_stack_that_lists_layers_has_a_margin() {
    for case in cases().filter(|case| case.json["expect"].get("layers").is_some()) {
        let margins = cuts(&case.pose, &case.bodies, &case.pile);
        assert_eq!(margins.len(), list(case.expect("layers")).len(), "{} layers with a margin", case.id);
    }
}

fn compare_step(case: &Case, step: &Step, want: &Value) {
    let what = format!("{} step {}", case.id, want["step"]);
    near(&format!("{what} mass"), step.mass_kg, number(&want["mass"]), LENGTH_M, "kg");
    case.near_point(&what, &step.centroid_in_floor, &want["centroid_floor"]);
    let stands = want["stands"].as_bool().unwrap();
    assert_eq!(step.least.stands(), Some(stands), "{what} stands, got {:?}", step.least);
    if stands {
        at_least(&what, multiplier(step.least), number(&want["least8"]["multiplier"]) - CONE, "of weight");
    }
}

#[test]
fn every_step_of_the_worked_stacks_stands_or_falls_and_bounds_the_whole_stack_from_above() {
    for case in cases() {
        let steps = walk(&case.pose, &case.bodies, &case.pile);
        let wanted = list(case.expect("steps"));
        assert_eq!(steps.len(), wanted.len(), "{} steps", case.id);
        steps.iter().zip(wanted).for_each(|(step, want)| compare_step(&case, step, want));
        if let Some(least) = case.expect("least").as_f64() {
            at_least(&case.id, multiplier(steps.last().unwrap().least), least - CONE, "of weight");
        }
    }
}

#[test]
fn closed_forms_of_a_sloped_bed_match_the_worked_stack() {
    let case = cases().find(|case| case.id == "f01_slope_5deg").unwrap();
    let steps = walk(&sloped(-0.0872664625997), &case.bodies, &case.pile);
    for (step, want) in steps.iter().zip(list(case.expect("steps"))) {
        near("slide", multiplier(step.least), number(&want["least8"]["multiplier"]), CONE, "of weight");
        let degrees = step.least.reserve().unwrap().direction_rad.to_degrees();
        near("direction", degrees.rem_euclid(360.0), 180.0, 1e-9, "deg");
    }
}

#[test]
fn cuts_at_a_step_are_those_of_the_pieces_put_down_so_far() {
    for case in cases() {
        for step in 0..=case.bodies.len() {
            let fewer = &case.bodies[..step];
            let alone = settle(&read_bed(&case.json["bed"]), fewer);
            let got = cuts_at(&case.pose, &case.bodies, &case.pile, step);
            assert_eq!(got, cuts(&case.pose, fewer, &alone), "{} step {step}", case.id);
        }
    }
}
